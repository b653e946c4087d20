// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/gap_layout.h"

#include "core/units/calendar.h"

#include <algorithm>
#include <optional>
#include <unordered_map>

namespace ullage {

namespace {

struct Gap {
    Instant from{}, to{};
};

/// Finds the shape of a gap, or makes it.
class Shapes {
public:
    Shapes(const std::vector<double>& edges, Instant as_of, GapLayout& layout)
        : edges_(edges), as_of_(as_of), layout_(layout), in_(edges.size() - 1) {}

    std::uint32_t operator()(const Gap& gap) {
        const double from = days_between(as_of_, gap.from);
        const double to = days_between(as_of_, gap.to);
        const std::size_t first = interval(from);
        const bool inside = first + 2 == edges_.size() || to <= edges_[first + 1];
        for (const auto& known : in_[first])
            if (inside ? known.inside && known.gap.to - known.gap.from == gap.to - gap.from
                       : known.gap.from == gap.from && known.gap.to == gap.to)
                return known.shape;
        const auto shape = static_cast<std::uint32_t>(layout_.length_of.size());
        in_[first].push_back({gap, inside, shape});
        layout_.length_of.push_back(length_of(gap.to - gap.from));
        for (std::size_t j = first; j + 1 < edges_.size(); ++j) {
            if (j > first && edges_[j] >= to) break;
            const double a = j == 0 ? from : std::max(from, edges_[j]);
            const double b = j + 2 == edges_.size() ? to : std::min(to, edges_[j + 1]);
            if (b > a) layout_.churn.add(static_cast<std::uint32_t>(j), static_cast<float>((b - a) / (to - from)));
        }
        layout_.churn.close();
        return shape;
    }

private:
    struct Known {
        Gap gap;
        bool inside = false;  // one interval
        std::uint32_t shape = 0;
    };

    std::size_t interval(double day) const {
        const auto it = std::upper_bound(edges_.begin(), edges_.end(), day);
        const auto at = std::max<std::ptrdiff_t>(it - edges_.begin() - 1, 0);
        return std::min(static_cast<std::size_t>(at), edges_.size() - 2);
    }

    std::uint32_t length_of(std::chrono::seconds length) {
        const auto [it, is_new] =
            lengths_.try_emplace(length.count(), static_cast<std::uint32_t>(layout_.lengths.size()));
        if (is_new) layout_.lengths.push_back(length);
        return it->second;
    }

    const std::vector<double>& edges_;
    Instant as_of_;
    GapLayout& layout_;
    std::vector<std::vector<Known>> in_;  // per interval that a gap begins in
    std::unordered_map<std::int64_t, std::uint32_t> lengths_;
};

}  // namespace

GapLayout gap_layout(const KeptSnapshots& kept, const std::vector<double>& edges, Instant as_of,
                     const std::vector<double>& days, const std::vector<Instant>& taken) {
    GapLayout layout;
    Shapes shape_of(edges, as_of, layout);
    const auto place_of = [&](Instant snapshot) -> std::optional<std::size_t> {
        const auto at = std::lower_bound(taken.begin(), taken.end(), snapshot);
        if (at == taken.end() || *at != snapshot) return {};
        return static_cast<std::size_t>(at - taken.begin());
    };
    for (std::size_t i = 0; i < days.size(); ++i) {
        layout.first_listed.push_back(layout.listed.size());
        const auto ends = kept.gap_ends(i, add_days(as_of, days[i]));
        std::uint32_t shape = 0;
        float gaps = 0;  // of that shape, one after another
        for (std::size_t g = 1; g < ends.size(); ++g) {
            const Gap gap{ends[g - 1], ends[g]};
            if (gap.to <= gap.from) continue;
            if (!taken.empty() && gap.to <= taken.back()) {
                const auto first = place_of(gap.from), last = place_of(gap.to);
                if (first && last) {
                    layout.listed.push_back({*first, *last});
                    continue;
                }
            }
            const std::uint32_t next = shape_of(gap);
            if (gaps > 0 && next != shape) {
                layout.shapes.add(shape, gaps);
                gaps = 0;
            }
            shape = next;
            ++gaps;
        }
        if (gaps > 0) layout.shapes.add(shape, gaps);
        layout.shapes.close();
    }
    layout.first_listed.push_back(layout.listed.size());
    return layout;
}

}  // namespace ullage
