// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Which snapshots of a dataset a box keeps over time: at home by the ladder, of copies those that
/// have come by then, thinned by the box's own. Assumption: every run arrives when it is due
/// (send_plan.h).

#include "core/outlook/send_plan.h"

#include <deque>
#include <optional>
#include <string>
#include <vector>

namespace ullage {

/// What has been worked out already: datasets that are kept alike are not worked out again. For one set of days.
class KeptMemo {
public:
    explicit KeptMemo(int threads) : threads_(threads) {}

    /// Of the snapshots that have arrived by each day (both lists oldest first), those the ladder keeps; all
    /// of them without one.
    SharedValue<KeptTimes> thinned(const LadderClock* ladder, const std::vector<Instant>& snapshots,
                                   const std::vector<Instant>& arrivals, Instant start,
                                   const std::vector<double>& days);
    /// What a source keeps at each day by its ladder alone.
    SharedValue<KeptTimes> retained(const LadderClock& ladder, Instant start, const std::vector<double>& days);

private:
    struct Entry {
        LadderClock ladder;
        bool thins = false;
        std::vector<Instant> snapshots, arrivals;
        SharedValue<KeptTimes> at;
    };
    int threads_;
    std::deque<Entry> entries_;
};

/// What the source keeps at each day: the snapshots of the listing, if there is one, then the
/// grid's.
KeptSnapshots kept_at_home(const LadderClock& ladder, const KnownPast& known, Instant start,
                           const std::vector<double>& days, KeptMemo& memo);

/// What the box keeps of the dataset at each day; empty if no send brings it there. A copy that is
/// present is taken to hold what the listing shows at the source.
std::optional<KeptSnapshots> kept_at_box(const std::vector<PlannedSend>& sends, std::size_t dataset,
                                         const std::string& box, const KnownPast& known,
                                         Instant start, const std::vector<double>& days,
                                         KeptMemo& memo);

}  // namespace ullage
