// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The weekly calendar of a link: which share of the line is ours at an instant.
///
/// Hours are wall-clock times of the site's zone: the share at an instant is what the week's plan
/// says for the weekday and time that a clock on the wall shows. So a stretch across a night on
/// which the clocks change is an hour longer or shorter; a time that the clocks skip opens and
/// closes nothing; one that they show twice counts both times.
///
/// A stretch whose `to` is not after its `from` runs into the next day (equal: 24 hours). Where
/// stretches overlap the largest share counts; outside all of them the link is closed (share 0). No
/// stretch at all: always open at share 1. Times of day outside 0…86400 s and shares outside 0…1
/// are cut to that.
///
/// Immutable, so safe to share between threads. `share_at` and `next_change` allocate nothing
/// and, from 2000 to 2100, look nothing up in the zone: its clock changes are found once, by the
/// constructor (some milliseconds; nothing for UTC or a constant share). Two changes of a zone
/// within 3 days of each other that cancel out would be missed; no zone has such a pair in those
/// years.

#include "core/site/site.h"
#include "core/units/calendar.h"

#include <cstddef>
#include <vector>

namespace ullage {

/// A stretch of constant share, [from, to).
struct OpenStretch {
    Instant from{}, to{};
    double share = 0;
    bool operator==(const OpenStretch&) const = default;
};

class WeeklyHours {
public:
    WeeklyHours(const std::vector<OpenHours>& hours, TimeZone zone);

    double share_at(Instant) const;
    /// First instant after t at which the share changes; t + 8 d if it does not by then.
    Instant next_change(Instant t) const;
    /// Stretches of share > 0 within [from, to), merged where share is the same, cut at the ends.
    std::vector<OpenStretch> stretches(Instant from, Instant to) const;
    /// Open hours of an ordinary week (168 if always open).
    double open_hours_per_week() const;
    bool never_opens() const;
    bool always_open() const;  ///< share 1 all week

private:
    /// Of the week from Monday 00:00 by the clock on the wall; sorted, disjoint, covers the week.
    struct Piece {
        int from_s, to_s;
        double share;
    };
    /// A stretch of time in which the wall clock is `offset_s` ahead of UTC.
    struct Clock {
        Instant from{}, to{};
        int offset_s = 0;
    };
    Clock clock_at(Instant, Instant limit) const;
    std::size_t piece_at(int week_second) const;

    std::vector<Piece> week_;
    std::vector<Clock> clocks_;  ///< empty: ask the zone
    TimeZone zone_;
    bool utc_ = false;
};

}  // namespace ullage
