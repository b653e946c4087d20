// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/replay/copy_age.h"

#include <algorithm>

namespace ullage {

std::vector<AgeStretch> copy_ages(const std::vector<RunRecord>& runs, Instant first_snapshot,
                                  Instant from, Instant to) {
    std::vector<AgeStretch> ages;
    Instant snapshot = first_snapshot;
    Instant since = std::max(from, first_snapshot);  // before it there was nothing to be old
    const auto put = [&](Instant until) {
        if (until <= since) return;
        const double age = as_seconds(since) - as_seconds(snapshot);
        ages.push_back({age / seconds_per_hour,
                        (as_seconds(until) - as_seconds(snapshot)) / seconds_per_hour});
        since = until;
    };
    for (const auto& run : runs) {
        if (!run.finished || run.snapshot <= snapshot) continue;
        if (run.done >= to) break;
        if (run.done > from) put(run.done);
        snapshot = run.snapshot;
    }
    put(to);
    return ages;
}

double age_quantile(const std::vector<AgeStretch>& ages, double p) {
    if (ages.empty()) return 0;
    double total = 0;
    double low = never_s;
    double high = 0;
    for (const auto& a : ages) {
        total += a.to_hours - a.from_hours;
        low = std::min(low, a.from_hours);
        high = std::max(high, a.to_hours);
    }
    // Bisection on the exact distribution function. Between low and high it is below_low, plus a straight line of
    // slope `crossing`, plus what the stretches that end in between (`inside`) add: ever fewer.
    std::vector<AgeStretch> inside = ages;
    double below_low = 0;
    double crossing = 0;
    for (int step = 0; step < 44; ++step) {
        const double middle = (low + high) / 2;
        double below = below_low + crossing * (middle - low);
        for (const auto& a : inside)
            below += std::clamp(middle, a.from_hours, a.to_hours) - std::max(a.from_hours, low);
        const bool above = below < p * total;
        if (above) below_low = below;
        (above ? low : high) = middle;
        std::size_t kept = 0;
        for (const auto& a : inside) {
            if (a.to_hours <= low || a.from_hours >= high) continue;
            if (a.from_hours <= low && a.to_hours >= high) {
                crossing += 1;
            } else {
                inside[kept++] = a;
            }
        }
        inside.resize(kept);
    }
    return (low + high) / 2;
}

std::optional<double> longest_outage_days(const std::vector<RunRecord>& runs) {
    std::optional<double> least;
    for (const auto& run : runs) {
        if (!run.survives_until || *run.survives_until == Instant::max()) continue;
        const double days = days_between(run.done, *run.survives_until);
        least = least ? std::min(*least, days) : days;
    }
    return least;
}

std::vector<Lateness> times_behind(const std::vector<RunRecord>& runs) {
    std::vector<Lateness> times;
    bool behind = false;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const auto& run = runs[i];
        if (run.missed && !behind) {
            times.push_back({std::min(run.deadline, run.done), run.done, 0, true});
            behind = true;
        }
        if (!behind) continue;
        auto& now = times.back();
        now.to = run.done;
        now.most_bytes = std::max(now.most_bytes, run.late_bytes);
        now.ended = run.finished;
        if (i + 1 < runs.size() && !runs[i + 1].waited) behind = false;
    }
    return times;
}

}  // namespace ullage
