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
/// the weights are refined a few times.
/// Prior, for what the rows cannot see: lifetimes spread evenly on a log scale from about a week up,
///     prior A_k = c · exp(−`prior_onset_days`/τ_k),
/// whose scale c comes from the data. Penalised are the steps of A_k ÷ prior A_k between neighbours on
/// the grid (a smooth departure is likelier than a ragged one) and, five times more weakly, the
/// departure itself, both relative to `prior_spread`. Where the listing speaks it wins; beyond its
/// longest span the curve goes on as data of this kind usually does. The shape was fitted to the
/// median freed(δ) ÷ freed(7 d) of fifteen cuts of three public version histories
/// (0.2 at 1 d, 2.5 at 30 d, 4.1 at 90 d, 6.0 at 365 d).
/// Amplitudes are non-negative and their sum at most `live_bytes`: no more can die than is there.
/// Ignored: weekday shape, changes of behaviour within the listing.

#include "core/turnover/curve.h"

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
    double live_bytes = 0;          ///< upper bound of Σ A; 0: unbounded
    double prior_onset_days = 7.4;  ///< > 0; lifetimes much shorter are rare
    double prior_spread = 1.0;      ///< > 0; very large: no prior
    int refinements = 6;            ///< of the weights, ≥ 1
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

/// A curve through a few typed figures: freed bytes at one or more δ (ascending), and the prior shape
/// between and beyond. The figures are met to 1 % where a concave curve can.
tl::expected<Curve, std::string> curve_through(const std::vector<CurveComponent>& freed_at,
                                               const FitOptions& = {});

}  // namespace ullage
