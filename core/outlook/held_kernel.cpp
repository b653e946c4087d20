// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/held_kernel.h"

#include "core/units/calendar.h"

#include <algorithm>
#include <cmath>
#include <unordered_map>

namespace ullage {

namespace {

constexpr double young_days = 4;

/// What the gap freed by the listing, per curve; empty if the listing does not hold both its ends.
std::vector<double> known_freed(const KnownPast& past, const std::vector<Curve>& curves, Instant from,
                                Instant to) {
    const auto a = std::lower_bound(past.taken.begin(), past.taken.end(), from);
    const auto b = std::lower_bound(a, past.taken.end(), to);
    if (a == past.taken.end() || b == past.taken.end() || *a != from || *b != to) return {};
    const auto first = static_cast<std::size_t>(a - past.taken.begin());
    const auto last = static_cast<std::size_t>(b - past.taken.begin());
    double sum = 0;
    for (std::size_t i = first + 1; i <= last; ++i) sum += past.freed[i];
    std::vector<double> bytes(curves.size(), sum);
    if (last == first + 1) return bytes;
    for (std::size_t c = 0; c < curves.size(); ++c) {
        double steps = 0;
        for (std::size_t i = first + 1; i <= last; ++i)
            steps += curves[c].freed(days_between(past.taken[i - 1], past.taken[i]));
        if (steps > 0) bytes[c] *= std::min(1.0, curves[c].freed(days_between(from, to)) / steps);
    }
    return bytes;
}

/// freed(gap) of every curve; ladders have few gaps of different length.
class FreedByGap {
public:
    explicit FreedByGap(const std::vector<Curve>& curves) : curves_(curves) {}

    const std::vector<double>& operator()(std::chrono::seconds gap) {
        const auto [it, is_new] = known_.try_emplace(gap.count());
        if (is_new)
            for (const auto& c : curves_)
                it->second.push_back(c.freed(static_cast<double>(gap.count()) / seconds_per_day));
        return it->second;
    }

private:
    const std::vector<Curve>& curves_;
    std::unordered_map<std::int64_t, std::vector<double>> known_;
};

}  // namespace

double young_share(double gap_days) { return 1 / (1 + gap_days / young_days); }

HeldKernel held_kernel(const KeptSnapshots& kept, const DatasetModel& model, const std::vector<double>& edges,
                       Instant as_of, const std::vector<double>& days) {
    const auto& curves = model.curves;
    HeldKernel k;
    k.weights.resize(curves.size());
    k.known.assign(curves.size(), std::vector<double>(days.size(), 0.0));
    FreedByGap freed(curves);
    const auto interval = [&](double day) {
        const auto it = std::upper_bound(edges.begin(), edges.end(), day);
        const auto at = std::max<std::ptrdiff_t>(it - edges.begin() - 1, 0);
        return std::min(static_cast<std::size_t>(at), edges.size() - 2);
    };
    std::vector<Instant> ends;
    std::vector<std::vector<double>> sums(curves.size());
    for (std::size_t i = 0; i < days.size(); ++i) {
        ends = kept.at[i];
        if (kept.home && !ends.empty())
            ends.push_back(as_of + std::chrono::seconds(std::llround(days[i] * seconds_per_day)));
        k.offset.push_back(k.weights.front().size());
        if (ends.size() < 2) {
            k.first.push_back(0);
            k.count.push_back(0);
            k.young.push_back(0);
            continue;
        }
        const std::size_t first = interval(days_between(as_of, ends.front()));
        const std::size_t last = interval(days_between(as_of, ends.back()));
        const std::size_t count = last - first + 1;
        k.first.push_back(first);
        k.count.push_back(count);
        for (auto& sum : sums) sum.assign(count, 0.0);
        double all = 0;
        double young = 0;
        std::size_t from_interval = first;
        for (std::size_t g = 1; g < ends.size(); ++g) {
            if (ends[g] <= ends[g - 1]) continue;
            if (const auto known = known_freed(model.known, curves, ends[g - 1], ends[g]); !known.empty()) {
                for (std::size_t c = 0; c < curves.size(); ++c) k.known[c][i] += known[c];
                continue;
            }
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
