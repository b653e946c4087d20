// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// One line and the transfers on it: who gets how much of it at a time, and when each is done.
///
/// Model. The line gives `line_bits_per_second` × the share of the hour; outside its open stretches
/// nothing moves and a transfer waits, losing nothing. Shared evenly, every transfer gets the same
/// part of it, and what one cannot use for its own limit the others get; in turn, the transfer that
/// began first has the line to itself (up to its own limit), the others wait.
/// Time is in seconds since 1970, as a double: about 1e-7 s fine now, 3e-5 s in the year 9999. A
/// transfer counts as done when less is left than the line carries in a microsecond, or in what the
/// time resolves if that is more.
/// Invariants: bits begun = bits carried + bits left, at every event; a line is never idle in open
/// hours while a transfer waits.

#include "core/link/hours.h"
#include "core/site/site.h"

#include <cstddef>
#include <limits>
#include <vector>

namespace ullage {

struct ReplayLink {
    double line_bits_per_second = 0;  ///< payload rate at share 1
    std::vector<OpenStretch> open;    ///< over the whole replay, share > 0 only, in order
    Sharing sharing = Sharing::evenly;
};

/// Never, as a time in seconds.
inline constexpr double never_s = std::numeric_limits<double>::infinity();

inline double as_seconds(Instant t) { return static_cast<double>(t.time_since_epoch().count()); }
/// The first whole second not before s.
Instant as_instant(double s);

struct Transfer {
    std::size_t id = 0;                                                    ///< the caller's
    double bits_left = 0;                                                  ///< ≥ 0
    double own_bits_per_second = std::numeric_limits<double>::infinity();  ///< > 0
    double rate = 0;                                                       ///< bit/s it gets now
    double busy_seconds = 0;                                               ///< in which it got any
};

class Line {
public:
    /// `link` must outlive the line.
    explicit Line(const ReplayLink& link) : link_(&link) {}

    const std::vector<Transfer>& transfers() const { return transfers_; }
    double carried_bits() const { return carried_bits_; }

    /// A transfer begins now. Times of all other calls never go back.
    void begin(const Transfer& transfer);
    /// When the first transfer ends or the line's share changes, after `now`; never if idle.
    double next_event(double now) { return transfers_.empty() ? never_s : next_event_of_some(now); }
    /// Carries on from `now` to `then`, at most the next event; what is done leaves, in order of
    /// its beginning, and stands in what is returned until the next call.
    const std::vector<Transfer>& advance(double now, double then) {
        done_.clear();
        if (!transfers_.empty()) carry(now, then);
        return done_;
    }

private:
    double next_event_of_some(double now);
    void carry(double now, double then);
    double share_at(double t);
    void divide(double now);
    void note_change();
    void set_order();

    const ReplayLink* link_;
    std::size_t stretch_ = 0;  // the first that has not ended
    std::vector<Transfer> transfers_;
    std::vector<std::size_t> by_need_;  // places of the transfers, the least own limit first
    bool ordered_ = false;              // they are
    std::vector<Transfer> done_;
    double carried_bits_ = 0;
    bool divided_ = false;
    double divided_until_ = 0;  // end of the share that the rates are for
};

}  // namespace ullage
