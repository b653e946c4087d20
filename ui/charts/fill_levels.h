// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A box's usable size and ceiling over time, in steps: planned changes make them other than today.

#include "core/outlook/outlook.h"

#include <vector>

namespace ullage {

struct SpaceLevel {
    double from_day = 0;  ///< from as_of; the first is 0
    double usable_bytes = 0, ceiling_bytes = 0;
    bool operator==(const SpaceLevel&) const = default;
};

/// Rising days. From the box's planned changes; without any, from its points where they differ.
std::vector<SpaceLevel> space_levels(const BoxOutlook& box, Day as_of);
/// The level that holds on a day.
const SpaceLevel& level_at(const std::vector<SpaceLevel>& levels, double day);
/// Usable then; a point that does not say it has the box's.
double usable_then(const FillPoint& point, const BoxOutlook& box);

}  // namespace ullage
