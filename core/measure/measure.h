// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What a snapshot listing says: live, growth, the turnover curve, how sure.
///
/// Model.
///   freed(g_i)  = live_{i−1} + written_i − live_i  (exact), written(g_i) − growth·g_i, and
///   unique_i    = freed(g_i) + freed(g_{i+1}) − freed(g_i + g_{i+1})  are the rows of the curve fit
///   (turnover/fit.h). The curve is fitted at the listing's mean live size and scaled to the newest.
///   Growth is modelled by measure/growth.h from the live sizes.
///   Spread of the curve: refits on resampled blocks of consecutive snapshots (bursts stay together),
///   each with another shape of those its rows leave likely, moved so that their median is the curve.
/// Of more than 1000 snapshots every k-th has rows in the fit, of more than 50,000 growth is read from every k-th,
/// evenly: time and memory stay bounded.
/// Assumptions: one dataset, no clones; behaviour in the listing's span goes on.
/// Ignored: time of day; bytes born and dead between two snapshots (no listing shows them).
/// Source of the identities: OpenZFS zfsprops(7) for what the columns mean; checked against a
/// simulation of random births and deaths in the tests.

#include "core/measure/growth.h"
#include "core/measure/listing.h"
#include "core/measure/week.h"
#include "core/turnover/fit.h"
#include "core/words/message.h"

#include <cstdint>
#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace ullage {

struct MeasureOptions {
    int replicates = 32;        ///< refits for the spread, ≥ 0
    std::uint64_t seed = 1;     ///< of the resampling
    FitOptions fit;             ///< live_bytes is set from the listing
};

struct Measurement {
    std::string dataset;
    int snapshots = 0;
    Instant first{}, last{};
    double live_bytes = 0;            ///< of the newest snapshot
    double held_bytes = 0;            ///< by the listed snapshots, exactly, without the live data
    GrowthModel growth;
    FitReport fit;                    ///< curve scaled to `live_bytes`
    std::vector<Curve> replicates;    ///< equally likely alternatives, same scale
    WeekShape week{1, 1, 1, 1, 1, 1, 1};  ///< Monday first, mean 1
    double shortest_days = 0;         ///< shortest gap seen
    std::vector<Message> warnings;

    /// Mean bytes a step of δ days writes: freed(δ) + growth·δ, never below 0.
    double written(double delta_days) const;
    /// Standard deviation of a day's deaths ÷ their mean: bursts, by the curve fit.
    double day_variation() const;
    bool operator==(const Measurement&) const = default;
};

/// Errors: fewer than two snapshots; nothing ever live.
tl::expected<Measurement, std::string> measure(const Listing&, const MeasureOptions& = {});

/// Bytes that the older of two neighbours holds and the newer does not; below 0 only by rounded sizes.
double freed_between(const Snapshot& older, const Snapshot& newer);

/// The rows of the curve fit that a listing gives, `growth` in bytes/day.
std::vector<Observation> observations_of(const Listing&, double growth_bytes_per_day);

}  // namespace ullage
