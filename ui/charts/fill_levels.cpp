// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/charts/fill_levels.h"

#include <cmath>

namespace ullage {

double usable_then(const FillPoint& point, const BoxOutlook& box) {
    return point.usable_bytes > 0 ? point.usable_bytes : box.usable_bytes;
}

std::vector<SpaceLevel> space_levels(const BoxOutlook& box, Day as_of) {
    std::vector<SpaceLevel> levels{{0, box.usable_bytes, box.ceiling_bytes}};
    const auto add = [&](Day on, double usable, double ceiling) {
        const auto day = static_cast<double>((on - as_of).count());
        if (day <= levels.back().from_day)
            levels.back() = {levels.back().from_day, usable, ceiling};  // two on one day
        else
            levels.push_back({day, usable, ceiling});
    };
    for (const SpaceChange& change : box.changes)
        add(change.on, change.usable_bytes, change.ceiling_bytes);
    if (!box.changes.empty()) return levels;
    const double share = box.usable_bytes > 0 ? box.ceiling_bytes / box.usable_bytes : 0;
    for (const FillPoint& point : box.fill) {
        const double usable = usable_then(point, box);
        if (std::abs(usable - levels.back().usable_bytes) >= 1)
            add(point.date, usable, usable * share);
    }
    return levels;
}

const SpaceLevel& level_at(const std::vector<SpaceLevel>& levels, double day) {
    std::size_t i = 0;
    while (i + 1 < levels.size() && levels[i + 1].from_day <= day) ++i;
    return levels[i];
}

}  // namespace ullage
