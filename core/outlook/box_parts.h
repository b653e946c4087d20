// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What a box keeps of each dataset over time, and what a stored byte takes there.

#include "core/outlook/box_space.h"
#include "core/outlook/kept_copies.h"
#include "core/outlook/send_plan.h"

#include <cstddef>
#include <vector>

namespace ullage {

/// The times at which all paths of a site are evaluated.
std::vector<double> grid_of(const SendContext& context);

/// The space a box would have by an offer, and the number the offer has among those drawn.
struct OfferSpace {
    int offer = 0;
    const BoxSpace* space = nullptr;
};

/// For the box (index in the site) at each of `days`; `row` is the number it has among those drawn,
/// −1 if only offers for it are.
std::vector<BoxPart> box_parts(const SendContext& context, const std::vector<PlannedSend>& sends,
                               const std::vector<double>& days, std::size_t box, int row,
                               const BoxSpace& space, KeptMemo& memo,
                               const std::vector<OfferSpace>& offers = {});

}  // namespace ullage
