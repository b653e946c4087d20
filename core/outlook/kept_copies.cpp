// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/kept_copies.h"

#include "core/outlook/threads.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ullage {

namespace {

KeptTimes keep_over_time(const LadderClock* ladder, const std::vector<Instant>& snapshots,
                         const std::vector<Instant>& arrivals, Instant start, const std::vector<double>& days, int threads) {
    KeptTimes kept(days.size());
    side_by_side(threads, 0, days.size(), [&](std::size_t i) {
        const Instant now = add_days(start, days[i]);
        const auto end =
            snapshots.begin() +
            (std::upper_bound(arrivals.begin(), arrivals.end(), now) - arrivals.begin());
        auto first = snapshots.begin();
        if (ladder) {
            const Instant oldest = now - std::chrono::seconds(std::llround(ladder->span().value));
            first = std::upper_bound(snapshots.begin(), end, oldest);
            // One before, so that the first of a period is known to be the first.
            if (first != snapshots.begin()) --first;
        }
        kept[i].assign(first, end);
        if (ladder) kept[i] = ladder->thinned(kept[i], now);
    });
    return kept;
}

/// A first copy that is still filling at the end: when it would be there, at the pace the link has.
double would_arrive_day(const PlannedSend& s, Instant start, double last_day) {
    double carried = 0;
    for (const auto& open : s.open) {
        const Instant from = std::max(open.from, add_days(start, s.first_copy_start_day));
        if (from < open.to)
            carried += std::min(s.line_bits_per_second * open.share, s.own_bits_per_second) *
                       days_between(from, open.to) * seconds_per_day / 8;
    }
    const double done = std::clamp(carried / std::max(s.first_copy_bytes, 1.0), 1e-6, 1.0);
    return s.first_copy_start_day + (last_day - s.first_copy_start_day) / done;
}

}  // namespace

SharedValue<KeptTimes> KeptMemo::thinned(const LadderClock* ladder, const std::vector<Instant>& snapshots,
                                         const std::vector<Instant>& arrivals, Instant start,
                                         const std::vector<double>& days) {
    const LadderClock by = ladder ? *ladder : LadderClock();
    for (const Entry& e : entries_)
        if (e.thins == (ladder != nullptr) && e.ladder == by && e.snapshots == snapshots &&
            e.arrivals == arrivals)
            return e.at;
    return entries_
        .emplace_back(Entry{by, ladder != nullptr, snapshots, arrivals,
                            keep_over_time(ladder, snapshots, arrivals, start, days, threads_)})
        .at;
}

SharedValue<KeptTimes> KeptMemo::retained(const LadderClock& ladder, Instant start, const std::vector<double>& days) {
    for (const Entry& e : entries_)
        if (e.thins && e.ladder == ladder && e.snapshots.empty()) return e.at;
    KeptTimes at(days.size());
    side_by_side(threads_, 0, days.size(), [&](std::size_t i) { at[i] = ladder.retained(add_days(start, days[i])); });
    return entries_.emplace_back(Entry{ladder, true, {}, {}, std::move(at)}).at;
}

KeptSnapshots kept_at_home(const LadderClock& ladder, const KnownPast& known, Instant start,
                           const std::vector<double>& days, KeptMemo& memo) {
    KeptSnapshots kept;
    kept.home = true;
    if (known.taken.empty() || ladder.empty()) {
        kept.at = memo.retained(ladder, start, days);
        return kept;
    }
    auto snapshots = known.taken;
    const auto later =
        ladder.taken(snapshots.back() + std::chrono::seconds(1), add_days(start, days.back()));
    snapshots.insert(snapshots.end(), later.begin(), later.end());
    kept.at = memo.thinned(&ladder, snapshots, snapshots, start, days);
    return kept;
}

std::optional<KeptSnapshots> kept_at_box(const std::vector<PlannedSend>& sends, std::size_t dataset,
                                         const std::string& box, const KnownPast& known,
                                         Instant start, const std::vector<double>& days,
                                         KeptMemo& memo) {
    for (const auto& s : sends) {
        const auto at = std::find(s.datasets.begin(), s.datasets.end(), static_cast<int>(dataset));
        if (s.to != box || at == s.datasets.end()) continue;
        const auto d = static_cast<std::size_t>(at - s.datasets.begin());
        KeptSnapshots kept;
        kept.ramps = s.by == FirstCopy::By::link;
        kept.ramp_from_day = s.first_copy_start_day;
        std::vector<Instant> snapshots;  // received, oldest first …
        std::vector<Instant> arrivals;   // … and when
        if (s.by == FirstCopy::By::present) {
            kept.arrives_day = -std::numeric_limits<double>::infinity();
            snapshots = known.taken;
            arrivals = known.taken;
        } else if (s.first_copy_done_day) {
            kept.arrives_day = *s.first_copy_done_day;
        } else if (s.by == FirstCopy::By::courier || s.first_copy_start_day >= days.back()) {
            kept.arrives_day = std::numeric_limits<double>::infinity();
            kept.ramps = false;
        } else {
            kept.arrives_day = would_arrive_day(s, start, days.back());
            kept.ramps = true;
        }
        for (const auto& a : s.received[d]) {
            if (!snapshots.empty() && a.snapshot <= snapshots.back()) continue;
            snapshots.push_back(a.snapshot);
            arrivals.push_back(a.at);
        }
        kept.at = memo.thinned(s.box_ladders[d].get(), snapshots, arrivals, start, days);
        return kept;
    }
    return {};
}

}  // namespace ullage
