// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What a box holds of one dataset as copies arrive, one after the other.
///
/// The rule is that of LadderClock::thinned, kept up to date instead of worked out anew: of each
/// period of a rung the first snapshot received stands for that rung while it is younger than the
/// rung lasts; the newest received always stays. Without a ladder everything stays.
/// Not for two threads at once, not even to read.
/// Invariant: after the same arrivals, kept(t) is thinned(received, t).

#include "core/retention/ladder.h"

#include <chrono>
#include <cstddef>
#include <vector>

namespace ullage {

/// In place of a snapshot: none.
inline constexpr Instant no_snapshot = Instant::min();

/// A ladder's grid points over a stretch of time, worked out once: the zone is not asked again.
class LadderGrid {
public:
    LadderGrid(const LadderClock& ladder, Instant from, Instant to);

    struct Rung {
        std::vector<Instant> points;
        std::chrono::seconds lasts;
    };
    const std::vector<Rung>& rungs() const { return rungs_; }
    std::chrono::seconds longest() const;

private:
    std::vector<Rung> rungs_;
};

class Inventory {
public:
    /// Null: keeps all. The grid must outlive the inventory and cover the snapshots received.
    explicit Inventory(const LadderGrid* grid);

    /// `snapshot` is newer than any received before; one that is not is left out.
    void receive(Instant snapshot);

    bool empty() const { return newest_ == no_snapshot; }
    Instant newest() const { return newest_; }
    bool holds(Instant snapshot, Instant t) const;
    /// Until when the rungs it stands for keep it; itself if it stands for none; the end of time
    /// where all is kept.
    Instant expires(Instant snapshot) const;
    /// All that is held at t, oldest first.
    std::vector<Instant> kept(Instant t) const;
    /// The newest held at t that a rung lasting `at_least` stands for, or, if no rung lasts that
    /// long, one of the longest. With an empty ladder the newest.
    Instant newest_lasting(std::chrono::seconds at_least, Instant t) const;

private:
    struct Rung {
        std::vector<Instant> stand_ins;  // rising; those too old stay until cleared out
        std::size_t next_point = 0;      // of the grid: the first after the newest received
    };

    void settle() const;

    const LadderGrid* grid_;
    // What was received is put on its rungs when they are asked for: most boxes are asked for their newest only.
    mutable std::vector<Rung> rungs_;
    mutable std::vector<Instant> unsettled_;
    mutable bool first_ = true;  // nothing is settled yet
    std::vector<Instant> all_;   // only where all is kept
    Instant newest_ = no_snapshot;
};

}  // namespace ullage
