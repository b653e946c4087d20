// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What a box keeps of each dataset over time, and what a stored byte takes there.

#include "core/outlook/send_plan.h"
#include "core/pool/pool.h"

#include <cstddef>
#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace ullage {

/// Its pool's capacity, or one of the usable size alone; nothing (0 bytes) where neither is given. The error
/// is a sentence about the pool.
tl::expected<PoolCapacity, std::string> capacity_of(const Box& box);

/// Usable bytes taken by one stored byte: by its pool, 1 where only a usable size is known.
double charge_on(const Box& box, const Dataset& dataset, double compression_ratio);

/// For the box (index in the site) at each of `days`; `row` is the number it has among those drawn.
std::vector<BoxPart> box_parts(const SendContext& context, const std::vector<PlannedSend>& sends,
                               const std::vector<double>& days, std::size_t box, int row);

}  // namespace ullage
