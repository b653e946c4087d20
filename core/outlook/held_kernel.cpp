// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/held_kernel.h"

#include "core/outlook/freed_by_gap.h"
#include "core/units/calendar.h"

#include <algorithm>
#include <cmath>

namespace ullage {

namespace {

constexpr double young_days = 4;

/// What gaps freed by the listing, per curve.
class FreedByListing {
public:
    FreedByListing(const KnownPast& past, std::size_t curves, FreedByGap& freed)
        : past_(past), freed_(freed), listed_(past.taken.size(), 0.0),
          steps_(curves, std::vector<double>(past.taken.size(), 0.0)) {
        for (std::size_t i = 1; i < past.taken.size(); ++i) {
            listed_[i] = listed_[i - 1] + past.freed[i];
            const auto& step = freed(past.taken[i] - past.taken[i - 1]);
            for (std::size_t c = 0; c < curves; ++c) steps_[c][i] = steps_[c][i - 1] + step[c];
        }
    }

    /// Adds a gap's bytes to the time's place of each curve's row; false: the listing does not hold both its ends.
    bool add(Instant from, Instant to, std::size_t time, std::vector<std::vector<double>>& rows) {
        const auto& taken = past_.taken;
        const auto a = std::lower_bound(taken.begin(), taken.end(), from);
        if (a == taken.end() || *a != from) return false;
        const auto b = std::lower_bound(a, taken.end(), to);
        if (b == taken.end() || *b != to) return false;
        const auto first = static_cast<std::size_t>(a - taken.begin());
        const auto last = static_cast<std::size_t>(b - taken.begin());
        const double listed = last == first + 1 ? past_.freed[last] : listed_[last] - listed_[first];
        const std::vector<double>* whole = last == first + 1 ? nullptr : &freed_(to - from);
        for (std::size_t c = 0; c < rows.size(); ++c) {
            const double steps = steps_[c][last] - steps_[c][first];
            rows[c][time] += whole && steps > 0 ? listed * std::min(1.0, (*whole)[c] / steps) : listed;
        }
        return true;
    }

private:
    const KnownPast& past_;
    FreedByGap& freed_;
    std::vector<double> listed_;              // up to each snapshot
    std::vector<std::vector<double>> steps_;  // the same by the curve, step for step
};

}  // namespace

double young_share(double gap_days) { return 1 / (1 + gap_days / young_days); }

HeldKernel held_kernel(const KeptSnapshots& kept, const DatasetModel& model, const std::vector<double>& edges,
                       Instant as_of, const std::vector<double>& days) {
    std::vector<Curve> curves = model.curves;
    curves.push_back(model.mean_curve);
    HeldKernel k;
    k.weights.resize(curves.size());
    k.known.assign(curves.size(), std::vector<double>(days.size(), 0.0));
    FreedByGap freed(curves);
    FreedByListing listed(model.known, curves.size(), freed);
    const auto interval = [&](double day) {
        const auto it = std::upper_bound(edges.begin(), edges.end(), day);
        const auto at = std::max<std::ptrdiff_t>(it - edges.begin() - 1, 0);
        return std::min(static_cast<std::size_t>(at), edges.size() - 2);
    };
    std::size_t all_weights = 0;
    for (std::size_t i = 0; i < days.size(); ++i) {
        const auto ends = kept.gap_ends(i, add_days(as_of, days[i]));
        k.offset.push_back(all_weights);
        k.first.push_back(ends.size() < 2 ? 0 : interval(days_between(as_of, ends.front())));
        k.count.push_back(ends.size() < 2 ? 0 : interval(days_between(as_of, ends.back())) + 1 - k.first.back());
        all_weights += k.count.back();
    }
    for (auto& weights : k.weights) weights.reserve(all_weights);
    std::vector<std::vector<double>> sums(curves.size());
    for (std::size_t i = 0; i < days.size(); ++i) {
        if (k.count[i] == 0) {
            k.young.push_back(0);
            continue;
        }
        const auto ends = kept.gap_ends(i, add_days(as_of, days[i]));
        const std::size_t first = k.first[i];
        const std::size_t last = first + k.count[i] - 1;
        for (auto& sum : sums) sum.assign(k.count[i], 0.0);
        double all = 0;
        double young = 0;
        std::size_t from_interval = first;
        for (std::size_t g = 1; g < ends.size(); ++g) {
            if (ends[g] <= ends[g - 1]) continue;
            if (listed.add(ends[g - 1], ends[g], i, k.known)) continue;
            const double from = days_between(as_of, ends[g - 1]);
            const double to = days_between(as_of, ends[g]);
            const auto& bytes = freed(ends[g] - ends[g - 1]);
            all += bytes.front();
            young += bytes.front() * young_share(to - from);
            while (from_interval < last && edges[from_interval + 1] <= from) ++from_interval;
            for (std::size_t j = from_interval; j <= last; ++j) {
                if (j > from_interval && edges[j] >= to) break;
                // What lies before the first edge counts into the first interval.
                const double a = j == 0 ? from : std::max(from, edges[j]);
                const double b = j + 2 == edges.size() ? to : std::min(to, edges[j + 1]);
                if (b <= a) continue;
                for (std::size_t c = 0; c < curves.size(); ++c)
                    sums[c][j - first] += bytes[c] * (b - a) / (to - from);
            }
        }
        for (std::size_t c = 0; c < curves.size(); ++c)
            k.weights[c].insert(k.weights[c].end(), sums[c].begin(), sums[c].end());
        k.young.push_back(all > 0 ? static_cast<float>(young / all) : 0.0F);
    }
    return k;
}

}  // namespace ullage
