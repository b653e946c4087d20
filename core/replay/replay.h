// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The replay of one path: sends start on their calendar, share their link, pause in closed hours,
/// are late, and start again from the last snapshot both ends still have.
///
/// Law of a run. At its start it carries, of each dataset, the chosen newest snapshot from the base:
/// the last snapshot sent if the source still has it (or holds it back), else the newest that both
/// ends still have, else everything. A run that is due while the one before is still going starts
/// when that ends. Runs on one link share its line evenly; what a run cannot use for its own limits
/// (window, loss, cipher, disks) the others get.
/// A run's deadline is the first closing of the link after it is due, or the time the next run is
/// due, whichever is sooner; done after it, it missed its window, and goes on when the link opens again.
/// Which snapshot `newest` sends: the newest of the rungs that last at least twice as long as the
/// send's own period, so that a missed night does not lose the base; if no rung lasts that long, of
/// the longest-lasting rung. `every` sends all snapshots since the last one sent.
/// Assumptions: the box's disks and the source's are free; a paused run loses nothing.
/// Ignored here (an error in outlook): sends that start from another box's copy.
/// Invariants: bytes asked = bytes sent + backlog; more bandwidth never makes a backlog last longer (a
/// single copy may still come later: runs that wait become one, and other ones do on a faster line).

#include "core/link/hours.h"
#include "core/retention/ladder.h"

#include <functional>
#include <limits>
#include <optional>
#include <vector>

namespace ullage {

/// The snapshots of one dataset that a send can carry, and how long each stays at the source.
struct SnapshotSupply {
    std::vector<Instant> taken;    ///< oldest first
    std::vector<Instant> expires;  ///< of each
    /// Index of the newest taken at or before t, or none.
    std::optional<std::size_t> newest_at(Instant t) const;
};

/// By the rule above. `period` is the send's own.
SnapshotSupply snapshots_to_send(const LadderClock& ladder, Send::Steps steps, Duration period,
                                 Instant from, Instant to);

struct ReplayLink {
    double line_bits_per_second = 0;        ///< payload rate at share 1
    std::vector<OpenStretch> open;          ///< over the whole replay, share > 0 only, in order
};

struct ReplayDataset {
    int dataset = 0;                        ///< index, handed to the byte function
    SnapshotSupply supply;
    const LadderClock* box_ladder = nullptr;  ///< how the box thins; null: keeps all
};

struct ReplaySend {
    int link = 0;
    std::vector<Instant> due;               ///< scheduled starts, oldest first
    double own_bits_per_second = std::numeric_limits<double>::infinity();  ///< least of its other limits
    bool every_step = false;
    bool hold_last_sent = false;
    std::vector<ReplayDataset> datasets;
    std::vector<std::vector<Instant>> already;  ///< per dataset: at the box when runs begin, oldest first
};

/// Payload bytes to bring a dataset from one snapshot to a later one; `from` empty: everything.
using SendBytes = std::function<double(int send, int dataset, std::optional<Instant> from, Instant to)>;

struct RunRecord {
    Instant due{}, begun{}, done{};
    double bytes = 0;
    double open_hours = 0;    ///< between due and deadline
    bool missed = false;
    bool full = false;        ///< some dataset was sent whole: no common snapshot
    bool finished = true;     ///< false: still going at the end of the replay (`done` is that end)
    Instant snapshot{};       ///< what the box can be restored to afterwards (the oldest over the datasets)
};

/// Runs of each send, in order. Deterministic.
std::vector<std::vector<RunRecord>> replay(const std::vector<ReplayLink>& links,
                                           const std::vector<ReplaySend>& sends, Instant end,
                                           const SendBytes& bytes);

/// When a transfer of `bytes` begun at `start` ends, alone on the link; empty if not by the last
/// stretch's end. `own_bits_per_second` caps it.
std::optional<Instant> transfer_end(const ReplayLink& link, double own_bits_per_second, double bytes,
                                    Instant start);

/// Ages of the newest complete copy over [from, to): stretches in which it grows evenly.
struct AgeStretch {
    double from_hours = 0, to_hours = 0;
};
std::vector<AgeStretch> copy_ages(const std::vector<RunRecord>& runs, Instant first_snapshot,
                                  Instant from, Instant to);

/// Quantile of age over time, 0 < p < 1; stretches as of copy_ages, possibly of several paths.
double age_quantile(const std::vector<AgeStretch>& ages, double p);

/// The longest the line may be down, from the end of any finished run, before source and box share
/// no snapshot: the least over runs of the trace that ended in [from, to). Days; empty if the last
/// sent one is held back; 0 runs: empty too.
std::optional<double> longest_outage_days(const ReplaySend& send, const std::vector<RunRecord>& runs,
                                          Instant from, Instant to);

}  // namespace ullage
