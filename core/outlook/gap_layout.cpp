// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/gap_layout.h"

#include "core/units/calendar.h"

#include <algorithm>
#include <unordered_map>

namespace ullage {

GapLayout gap_layout(const KeptSnapshots& kept, const std::vector<double>& edges, Instant as_of,
                     const std::vector<double>& days) {
    GapLayout layout;
    std::unordered_map<std::int64_t, std::uint32_t> known;  // lengths
    const auto length_of = [&](std::chrono::seconds length) {
        const auto [it, is_new] = known.try_emplace(length.count(), static_cast<std::uint32_t>(layout.lengths.size()));
        if (is_new) layout.lengths.push_back(length);
        return it->second;
    };
    const auto interval = [&](double day) {
        const auto it = std::upper_bound(edges.begin(), edges.end(), day);
        const auto at = std::max<std::ptrdiff_t>(it - edges.begin() - 1, 0);
        return std::min(static_cast<std::size_t>(at), edges.size() - 2);
    };
    for (std::size_t i = 0; i < days.size(); ++i) {
        layout.first_gap.push_back(layout.gaps.size());
        const auto ends = kept.gap_ends(i, add_days(as_of, days[i]));
        const bool any = ends.size() >= 2;
        const std::size_t first = any ? interval(days_between(as_of, ends.front())) : 0;
        const std::size_t last = any ? interval(days_between(as_of, ends.back())) : 0;
        layout.first.push_back(first);
        layout.count.push_back(any ? last + 1 - first : 0);
        layout.offset.push_back(layout.weights);
        layout.weights += layout.count.back();
        std::size_t from_interval = first;
        for (std::size_t g = 1; g < ends.size(); ++g) {
            if (ends[g] <= ends[g - 1]) continue;
            layout.gaps.push_back({ends[g - 1], ends[g], length_of(ends[g] - ends[g - 1]),
                                   static_cast<std::uint32_t>(layout.pieces.size())});
            const double from = days_between(as_of, ends[g - 1]);
            const double to = days_between(as_of, ends[g]);
            while (from_interval < last && edges[from_interval + 1] <= from) ++from_interval;
            for (std::size_t j = from_interval; j <= last; ++j) {
                if (j > from_interval && edges[j] >= to) break;
                // What lies before the first edge counts into the first interval.
                const double a = j == 0 ? from : std::max(from, edges[j]);
                const double b = j + 2 == edges.size() ? to : std::min(to, edges[j + 1]);
                if (b > a) layout.pieces.push_back({static_cast<std::uint32_t>(j - first), (b - a) / (to - from)});
            }
        }
    }
    layout.first_gap.push_back(layout.gaps.size());
    return layout;
}

}  // namespace ullage
