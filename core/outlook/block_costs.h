// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What small blocks cost on a box's pool, and what would cost less: larger blocks of a volume, or
/// another layout of the same drives.
///
/// Model. charge_per_stored_byte (pool.h) of each dataset kept on the box. Larger blocks are looked
/// for among the doublings up to 128 KiB, the usual range of block volumes. Layouts are all ways to put the
/// drives of a pool of one set of groups into parity groups or mirrors that survive as many failures;
/// the gain is in what fits: usable ÷ mean charge, weighted by what the datasets store there at the horizon
/// by their mean curves and growth.
/// Ignored: speed, and that a larger block is rewritten whole for a small write (said where it is shown).

#include "core/outlook/box_space.h"
#include "core/outlook/outlook.h"

#include <optional>
#include <vector>

namespace ullage {

/// One for each part kept on the box, of its pool at as_of; nothing without a pool.
std::vector<BlockCost> block_costs(const std::vector<Dataset>& datasets,
                                   const std::vector<DatasetModel>& models,
                                   const std::vector<const BoxPart*>& parts, const BoxSpace& space,
                                   Instant as_of, const std::vector<double>& days);

/// The best other layout, if stored bytes take a tenth more than their size on this one and the other holds at
/// least a twentieth more.
std::optional<BetterShape> better_shape(const std::vector<Dataset>& datasets,
                                        const std::vector<DatasetModel>& models,
                                        const std::vector<const BoxPart*>& parts,
                                        const std::vector<BlockCost>& costs, const Pool& pool);

}  // namespace ullage
