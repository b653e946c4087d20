// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Ladders on the calendar: which snapshots exist at an instant, and what they hold.
///
/// At the source a snapshot is taken at every grid point of every rung, and a rung keeps those
/// younger than every × count; the snapshots that exist are the union of the rungs'.
/// On a box only what was sent can be kept: of each period of a rung the first snapshot received
/// stands for that rung, while it is younger than every × count; the newest one received always
/// stays, since it is the copy itself and the next increment starts from it.
/// On the exact grid both rules give the same set.
///
/// Held bytes. With instants s_1 < … < s_n every dead block is held once, by the newest snapshot
/// that contains it:   held = Σ freed(s_{i+1} − s_i)  (+ freed(now − s_n) where live data goes on
/// changing after s_n).
/// Ignored: snapshots kept by hand, clones.
/// Invariants: adding a snapshot never lowers held bytes; thinning never raises them.

#include "core/site/site.h"
#include "core/turnover/curve.h"
#include "core/units/calendar.h"

#include <vector>

namespace ullage {

/// The grid of a period in a time zone, shifted by a time of day.
class CalendarGrid {
public:
    /// `at`: seconds of the day (0…86399) by which every grid point of a day or longer is shifted;
    /// for minutes and hours the grid of each local day starts at `at` modulo the period.
    CalendarGrid(Period every, TimeZone zone, int at = 0);

    Instant at_or_before(Instant t) const;  ///< the last grid point ≤ t
    Instant after(Instant t) const;         ///< the first grid point > t
    /// All grid points in [from, to].
    std::vector<Instant> between(Instant from, Instant to) const;
    bool operator==(const CalendarGrid&) const = default;

private:
    Instant point_of_day(Day day, int second) const;
    Day start_of_period(Day day) const;  ///< for periods of a day or more
    Day next_period(Day start) const;
    /// For periods within a day: those after `last`, up to `to`.
    void add_days_points(Instant last, Instant to, std::vector<Instant>& points) const;

    Period every_;
    TimeZone zone_;
    int at_;
};

class LadderClock {
public:
    LadderClock() = default;  ///< no rungs
    LadderClock(const Ladder& ladder, const TimeZone& zone);
    bool operator==(const LadderClock&) const = default;

    bool empty() const { return rungs_.empty(); }
    /// What the source holds at t, oldest first; a snapshot due at t itself has been taken.
    std::vector<Instant> retained(Instant t) const;
    /// Every snapshot the source takes in [from, to], oldest first.
    std::vector<Instant> taken(Instant from, Instant to) const;
    /// When the source lets go of the snapshot s: the latest end over the rungs whose grid it is on.
    /// A snapshot on no rung's grid: s itself.
    Instant expires(Instant s) const;
    /// What a box holds at t of those received so far (`received`, oldest first, all ≤ t).
    std::vector<Instant> thinned(const std::vector<Instant>& received, Instant t) const;
    /// The longest time any rung keeps a snapshot.
    Duration span() const;

    struct Rung {
        CalendarGrid grid;
        std::chrono::seconds lasts;
        bool operator==(const Rung&) const = default;
    };
    const std::vector<Rung>& rungs() const { return rungs_; }

private:
    std::vector<Rung> rungs_;
};

/// Σ freed over the gaps between the instants (oldest first); with `until`, the gap from the last
/// one to it as well. Bytes; 0 for fewer than two instants and no `until`.
double held_bytes(const Curve& curve, const std::vector<Instant>& instants);
double held_bytes(const Curve& curve, const std::vector<Instant>& instants, Instant until);

}  // namespace ullage
