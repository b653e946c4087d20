// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A backtest: a listing cut at an earlier date, measured again, the rest forecast, what came beside it.
///
/// An origin is a snapshot of the listing; only it and those before it are measured. Forecast are, for
/// snapshots after it:
///   live    bytes of the snapshot
///   freed   bytes that its step and those between the origin and it freed, steps as they are listed
/// The forecast is the one of models.h and paths.h, from nothing but the cut listing.
/// Of a longer listing the newest 1000 snapshots are judged.
/// Snapshots closer than a fortieth of the time ahead are passed over, but for the last.
/// Ignored: snapshots that were there at the origin and have been thinned since (no listing shows them), so
/// the forecast made here had less to go by than one made then.

#include "core/measure/listing.h"
#include "core/units/calendar.h"

#include <cstdint>
#include <optional>
#include <vector>

namespace ullage {

/// A forecast made then, and what came.
struct ForecastThen {
    Instant at{};
    double days_ahead = 0;           ///< > 0
    double p10 = 0, p50 = 0, p90 = 0;  ///< bytes
    double came = 0;                 ///< bytes
    bool operator==(const ForecastThen&) const = default;
};

struct BacktestOrigin {
    Instant origin{};
    int snapshots = 0;               ///< that were measured
    double live_bytes = 0;           ///< at the origin
    std::vector<ForecastThen> live, freed;  ///< soonest first
    bool operator==(const BacktestOrigin&) const = default;
};

struct Backtest {
    std::vector<BacktestOrigin> origins;  ///< oldest first, at least one
    /// Median of |p50 − came| ÷ came at the last snapshot of each origin.
    double live_error = 0, freed_error = 0;
    /// Share of what came between p10 and p90, over all snapshots of all origins.
    double live_inside = 0, freed_inside = 0;
    bool operator==(const Backtest&) const = default;
};

struct BacktestOptions {
    int origins = 4;          ///< at most, spread evenly over the time that can be judged
    int paths = 400;
    std::uint64_t seed = 1;
    int threads = 0;          ///< the answer does not depend on it
};

/// Empty: the listing is too short to be cut (fewer than eight snapshots up to an origin that has a third of
/// the time before it, or fewer than three after it).
std::optional<Backtest> backtest(const Listing&, const BacktestOptions& = {});

}  // namespace ullage
