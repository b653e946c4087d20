// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/replay/copy_age.h"

#include <algorithm>

namespace ullage {

std::vector<AgeStretch> copy_ages(std::span<const RunRecord> runs, Instant first_snapshot, Instant from, Instant to) {
    std::vector<AgeStretch> ages;
    add_copy_ages(runs, first_snapshot, from, to, ages);
    return ages;
}

void add_copy_ages(std::span<const RunRecord> runs, Instant first_snapshot, Instant from, Instant to,
                   std::vector<AgeStretch>& ages) {
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
}

namespace {

/// Hours that the stretches spend below an age, exactly: first known at the edges of narrow bands of age, then, in
/// the one band that holds a quantile, by the few stretches that begin or end in it.
class HoursBelow {
public:
    explicit HoursBelow(const std::vector<AgeStretch>& ages)
        : ages_(ages), bands_(std::clamp<std::size_t>(ages.size() / 4, 16, most_bands)) {
        low_ = never_s;
        double high = 0;
        for (const auto& a : ages) {
            total_ += a.to_hours - a.from_hours;
            low_ = std::min(low_, a.from_hours);
            high = std::max(high, a.to_hours);
        }
        width_ = std::max(high - low_, 1e-9) / static_cast<double>(bands_);
        struct Ends {
            double begun = 0, hours_begun = 0, ended = 0, hours_ended = 0;
        };
        std::vector<Ends> in_band(bands_);
        at_edge_.resize(bands_ + 1);
        crossing_.resize(bands_ + 1);
        for (const auto& a : ages) {
            auto& from = in_band[band_of(a.from_hours)];
            from.begun += 1;
            from.hours_begun += a.from_hours;
            auto& to = in_band[band_of(a.to_hours)];
            to.ended += 1;
            to.hours_ended += a.to_hours;
        }
        Ends before;
        for (std::size_t b = 0; b <= bands_; ++b) {
            const double age = edge(b);
            crossing_[b] = before.begun - before.ended;
            at_edge_[b] = before.begun * age - before.hours_begun - (before.ended * age - before.hours_ended);
            if (b == bands_) break;
            before.begun += in_band[b].begun;
            before.hours_begun += in_band[b].hours_begun;
            before.ended += in_band[b].ended;
            before.hours_ended += in_band[b].hours_ended;
        }
    }

    double quantile(double p) const {
        const double wanted = p * total_;
        std::size_t band = 0;
        while (band + 1 < bands_ && at_edge_[band + 1] < wanted) ++band;
        std::vector<AgeStretch> inside;
        double through = crossing_[band];
        for (const auto& a : ages_) {
            const bool begins = band_of(a.from_hours) == band;
            const bool ends = band_of(a.to_hours) == band;
            if (!begins && !ends) continue;
            inside.push_back(a);
            if (!begins) through -= 1;
        }
        double low = edge(band);
        double high = edge(band + 1);
        const double from = low;
        for (int step = 0; step < 44; ++step) {
            const double middle = (low + high) / 2;
            double below = at_edge_[band] + through * (middle - from);
            for (const auto& a : inside)
                below += std::clamp(middle, std::max(a.from_hours, from), std::max(a.to_hours, from)) -
                         std::max(a.from_hours, from);
            (below < wanted ? low : high) = middle;
        }
        return (low + high) / 2;
    }

private:
    static constexpr std::size_t most_bands = 1024;
    double edge(std::size_t band) const { return low_ + width_ * static_cast<double>(band); }
    std::size_t band_of(double age) const {
        return std::min(static_cast<std::size_t>((age - low_) / width_), bands_ - 1);
    }

    const std::vector<AgeStretch>& ages_;
    const std::size_t bands_;
    double total_ = 0, low_ = 0, width_ = 0;
    std::vector<double> at_edge_, crossing_;
};

}  // namespace

std::vector<double> age_quantiles(const std::vector<AgeStretch>& ages, const std::vector<double>& p) {
    if (ages.empty()) return std::vector<double>(p.size(), 0.0);
    const HoursBelow below(ages);
    std::vector<double> all;
    for (const double each : p) all.push_back(below.quantile(each));
    return all;
}

double age_quantile(const std::vector<AgeStretch>& ages, double p) { return age_quantiles(ages, {p}).front(); }

std::optional<double> longest_outage_days(const std::vector<RunRecord>& runs) {
    std::optional<double> least;
    for (const auto& run : runs) {
        if (run.survives_until == RunRecord::not_noted || run.survives_until == Instant::max()) continue;
        const double days = days_between(run.done, run.survives_until);
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
        now.most_bytes = std::max(now.most_bytes, static_cast<double>(run.late_bytes));
        now.ended = run.finished;
        if (i + 1 < runs.size() && !runs[i + 1].waited) behind = false;
    }
    return times;
}

}  // namespace ullage
