// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What a trace of runs says: how old the newest complete copy is over time, how long a line may be
/// down, how far runs fall behind.

#include "core/replay/replay.h"

#include <optional>
#include <span>
#include <vector>

namespace ullage {

/// Ages of the newest complete copy over [from, to): stretches in which it grows evenly. A first snapshot
/// after `from` has no age before it was taken.
struct AgeStretch {
    double from_hours = 0, to_hours = 0;
};
std::vector<AgeStretch> copy_ages(std::span<const RunRecord> runs, Instant first_snapshot, Instant from, Instant to);
/// The same, added to others.
void add_copy_ages(std::span<const RunRecord> runs, Instant first_snapshot, Instant from, Instant to,
                   std::vector<AgeStretch>& ages);

/// Quantiles of age over time, each 0 < p < 1; stretches as of copy_ages, possibly of several paths.
std::vector<double> age_quantiles(const std::vector<AgeStretch>& ages, const std::vector<double>& p);
double age_quantile(const std::vector<AgeStretch>& ages, double p);

/// The longest the line may be down, from the end of any finished run, before source and box share
/// no snapshot: the least over the runs that noted it (`survives_until`). Days; empty if the last
/// sent one is held back or no run noted it.
std::optional<double> longest_outage_days(const std::vector<RunRecord>& runs);

/// A time in which a send is behind: from the deadline that a run missed until a run is done with
/// none waiting behind it.
struct Lateness {
    Instant from{}, to{};
    double most_bytes = 0;  ///< the most that was left at a deadline
    bool ended = true;      ///< false: still behind at the end of the trace
};
std::vector<Lateness> times_behind(const std::vector<RunRecord>& runs);

}  // namespace ullage
