// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The replay of one path: sends start on their calendar, share their line, pause in closed hours,
/// are late, and start again from the last snapshot both ends still have.
///
/// Law of a run. At its start it carries, of each dataset, the chosen newest snapshot from the
/// base: the last snapshot sent if the source still has it (or holds it back), else the newest that
/// both ends still have, else everything. A run that is due while the one before is still going
/// starts when that ends. Runs on one line share it evenly or take it in turn (see line.h). A run's
/// deadline is the first closing of the line after it is due, or the time the next run is due,
/// whichever is sooner; done after it, it missed its window, and goes on when the line opens again.
/// Which snapshot `newest` sends: the newest of the rungs that last at least twice as long as the
/// send's own period, so that a missed night does not lose the base; if no rung lasts that long, of
/// the longest-lasting rung. `every` sends all snapshots since the last one sent.
/// Relays. The source of a send may be what another send brings: it then carries only what has
/// arrived there and what that box's ladder has kept (see inventory.h), by the same rules. Such a
/// send may also start on each arrival instead of on a calendar; it is late if the next arrival
/// comes first. Assumptions: a paused run loses nothing; a run that is under way when its snapshot
/// leaves the source is finished all the same (a source holds what it is sending). Invariants:
/// bytes asked = bytes carried + backlog; more bandwidth never makes a backlog last longer (a
/// single copy may still come later: runs that wait become one, and other ones do on a faster
/// line); a relay never holds what its source never had.

#include "core/link/hours.h"
#include "core/replay/inventory.h"
#include "core/replay/line.h"
#include "core/retention/ladder.h"
#include "core/units/shared_value.h"

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
    /// When the source lets go of `snapshot`; empty if it is not one of these.
    std::optional<Instant> end_of(Instant snapshot) const;
    bool operator==(const SnapshotSupply&) const = default;
};

/// By the rule above. `period` is the send's own.
SnapshotSupply snapshots_to_send(const LadderClock& ladder, Send::Steps steps, Duration period,
                                 Instant from, Instant to);

/// The dataset `part` (its place in the list) of the send `send`.
struct Upstream {
    std::size_t send = 0, part = 0;
    bool operator==(const Upstream&) const = default;
};

struct ReplayDataset {
    int dataset = 0;                         ///< index, handed to the byte function
    SharedValue<SnapshotSupply> supply;      ///< unless it comes from upstream
    const LadderGrid* box_ladder = nullptr;  ///< how the box thins; null: keeps all
    std::optional<Upstream> upstream;        ///< source: what that send has brought
    bool operator==(const ReplayDataset&) const = default;
};

struct ReplaySend {
    int link = 0;
    std::vector<Instant> due;       ///< scheduled starts, oldest first
    bool on_arrival = false;        ///< also starts when something new has come from upstream
    Instant from = Instant::min();  ///< arrivals before this start nothing
    double own_bits_per_second =
        std::numeric_limits<double>::infinity();  ///< least of its other limits
    bool every_step = false;
    bool hold_last_sent = false;
    std::chrono::seconds lasting{0};  ///< `newest` from upstream: of rungs lasting this long
    std::vector<ReplayDataset> datasets;
    std::vector<std::vector<Instant>>
        already;  ///< per dataset: at the box when runs begin, oldest first
    bool operator==(const ReplaySend&) const = default;
};

/// Payload bytes to bring a dataset from one snapshot to a later one; from `no_snapshot`: everything.
using SendBytes =
    std::function<double(int send, int dataset, Instant from, Instant to)>;

/// Kept by the hundred thousand, hence single precision where it does.
struct RunRecord {
    Instant due{}, begun{}, done{};
    Instant deadline = Instant::max();
    double bytes = 0;
    float open_hours = 0;  ///< between due and deadline
    float busy_hours = 0;  ///< in which bytes moved
    float late_bytes = 0;  ///< left at the deadline
    bool missed = false;
    bool waited = false;   ///< was due before the one before it was done
    bool full = false;     ///< some dataset was sent whole: no common snapshot
    bool finished = true;  ///< false: still going at the end of the replay (`done` is that end)
    Instant
        snapshot{};  ///< what the box can be restored to afterwards (the oldest over the datasets)
    /// Until when source and box have a snapshot in common if nothing more is sent; the end of time if the last one
    /// sent is held back. Only where it was asked for.
    Instant survives_until = not_noted;
    static constexpr Instant not_noted = Instant::min();
};

/// The books of one send at an event.
struct SendBooks {
    double asked_bytes = 0;    ///< of all runs begun
    double backlog_bytes = 0;  ///< of these, yet to be carried
    bool waiting = false;      ///< another run is due
};

struct ReplayOptions {
    /// Runs that end at or after this note `survives_until`, every n-th of them.
    Instant survival_from = Instant::max();
    int survival_every = 1;
    bool keep_arrivals = false;
    /// Called with each run that has ended; true: the replay ends there, what is going is left out.
    std::function<bool(std::size_t send, const RunRecord&)> enough;
    /// Called at each event, after it: seconds since 1970, the books of each send, and the bytes
    /// that each line has carried.
    std::function<void(double now, const std::vector<SendBooks>&,
                       const std::vector<double>& carried)>
        watch;
};

struct Arrival {
    Instant snapshot{}, at{};
    bool operator==(const Arrival&) const = default;
};

/// A dataset that a run sent whole: source and box had no snapshot of it in common.
struct SentWhole {
    Instant begun{};       ///< of the run
    std::size_t part = 0;  ///< the dataset's place in the send's list
};

struct ReplayTrace {
    std::vector<std::vector<RunRecord>> runs;                 ///< of each send, in order
    std::vector<std::vector<std::vector<Arrival>>> arrivals;  ///< [send][dataset], if asked for
    std::vector<std::vector<SentWhole>> whole;                ///< of each send, in order
};

/// Deterministic. Upstreams must not go round in a circle.
ReplayTrace replay_traced(const std::vector<ReplayLink>& links,
                          const std::vector<ReplaySend>& sends, Instant end, const SendBytes& bytes,
                          const ReplayOptions& options);

/// Runs of each send, in order.
std::vector<std::vector<RunRecord>> replay(const std::vector<ReplayLink>& links,
                                           const std::vector<ReplaySend>& sends, Instant end,
                                           const SendBytes& bytes);

/// When a transfer of `bytes` begun at `start` ends, alone on the link; empty if not by the last
/// stretch's end. `own_bits_per_second` caps it.
std::optional<Instant> transfer_end(const ReplayLink& link, double own_bits_per_second,
                                    double bytes, Instant start);

/// The open stretches with nothing between `from` and `to`.
std::vector<OpenStretch> closed_between(const std::vector<OpenStretch>& open, Instant from,
                                        Instant to);

}  // namespace ullage
