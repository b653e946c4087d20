// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Fitting the turnover curve to what a snapshot listing shows.
///
/// Observations, each linear in the amplitudes A_k:
///   freed    y = freed(g)                       the older of two neighbours holds, the newer does not
///   written  y = freed(g), where y = written − growth·g
///   unique   y = freed(g) + freed(h) − freed(g + h)
/// Model of the noise: deaths come in bursts, so a row of expected size e varies by κ·e, κ bytes being
/// the size of a burst (compound Poisson); rows are weighted by 1/√(κ e), κ from the residuals, and
/// the weights are refined a few times. A row more than five such deviations off pulls no harder than one at
/// five (Huber 1964): a purge or a mass rewrite is one of many days, not the rule.
///
/// Two stages.
/// 1. The shape. Lifetimes spread over the grid as
///        a_k = c · (onset/τ_k)^tail · exp(−onset/τ_k)
///    (a gamma mixture of death rates: freed(δ) like 1 − (1 + δ/onset)^−tail). Every shape of a lattice of
///    onsets and tails gets its best scale c and its posterior weight, from the rows and from a pooled
///    prior: log onset about log 10 days ± 1.5, log tail about log 0.25 ± 0.7. That prior is for what the
///    rows cannot see: 30 daily snapshots say little about a year. It was set on fifteen cuts of three public
///    version histories, and is wide enough for a listing of a few months to overrule it.
/// 2. The departure. Non-negative least squares on the grid, penalising steps of (a_k − shape_k) ÷ shape_k
///    between neighbours and, alike, the departure itself, relative to `departure_spread`: where the
///    rows speak clearly they win over the shape.
/// Σ A is at most `live_bytes`: no more can die than is there.
/// `shape_draw` picks another shape than the likeliest: the quantile of the posterior ordered by how much
/// dies beyond a year, so that draws spread out what the rows cannot see.
/// Ignored: weekday shape, changes of behaviour within the listing.

#include "core/turnover/curve.h"

#include <optional>
#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace ullage {

struct Observation {
    enum class Kind { freed, written, unique } kind = Kind::freed;
    double gap_days = 0;       ///< > 0
    double next_gap_days = 0;  ///< > 0 for unique, else ignored
    double bytes = 0;          ///< may be negative (noise)
    double weight = 1;         ///< relative, > 0; 2 counts like two equal rows
    bool operator==(const Observation&) const = default;
};

struct FitOptions {
    double live_bytes = 0;              ///< upper bound of Σ A; 0: unbounded
    double onset_days = 10;             ///< prior median of the onset, > 0
    double onset_log_spread = 1.5;      ///< prior standard deviation of its logarithm, > 0
    double tail = 0.25;                 ///< prior median of the tail, > 0
    double tail_log_spread = 0.7;       ///< > 0
    double departure_spread = 0.5;      ///< of amplitudes from the shape, relative, > 0
    std::optional<double> shape_draw;   ///< quantile in (0, 1); empty: the likeliest shape
    int refinements = 5;                ///< of the weights, ≥ 1
};

struct FitReport {
    Curve curve;
    double burst_bytes = 0;      ///< κ
    double relative_error = 0;   ///< √(Σ residual² / Σ y²) over the freed rows
    double longest_days = 0;     ///< longest gap or pair of gaps seen: beyond it is extrapolation
    bool operator==(const FitReport&) const = default;
};

/// Errors: no observation; gaps that are not positive; nothing finite. All-zero rows give an empty curve.
tl::expected<FitReport, std::string> fit_curve(const std::vector<Observation>&, const FitOptions& = {});

/// A curve through a few typed figures: freed bytes at one or more δ (ascending), with the shape between
/// and beyond. The figures are met to 1 % where a concave curve can. Without `shape_draw` the median shape
/// is taken.
tl::expected<Curve, std::string> curve_through(const std::vector<CurveComponent>& freed_at,
                                               const FitOptions& = {});

}  // namespace ullage
