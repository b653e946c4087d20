// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/turnover/fit.h"

#include "core/turnover/nnls.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace ullage {

namespace {

using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

constexpr double prior_floor = 0.02;       // of its largest, so that short lifetimes stay possible
constexpr double departure_weight = 0.2;   // of the departure itself against its steps

VectorXd row_of(const Observation& o) {
    const auto& grid = lifetime_grid();
    VectorXd row(static_cast<Index>(grid.size()));
    for (std::size_t k = 0; k < grid.size(); ++k) {
        const double dies = -std::expm1(-o.gap_days / grid[k]);
        row[static_cast<Index>(k)] = o.kind == Observation::Kind::unique
                                         ? dies * -std::expm1(-o.next_gap_days / grid[k])
                                         : dies;
    }
    return row;
}

VectorXd prior_shape(double onset_days) {
    const auto& grid = lifetime_grid();
    VectorXd p(static_cast<Index>(grid.size()));
    for (std::size_t k = 0; k < grid.size(); ++k)
        p[static_cast<Index>(k)] = std::exp(-onset_days / grid[k]);
    return p;
}

/// The penalty rows and their targets for prior amplitudes `prior` with a spread.
void append_prior(const VectorXd& prior, double spread, MatrixXd& a, VectorXd& b, Index first_row) {
    const Index n = prior.size();
    const VectorXd width = prior.cwiseMax(prior_floor * prior.maxCoeff()) * spread;
    for (Index k = 0; k < n; ++k) {
        a(first_row + k, k) = departure_weight / width[k];
        b[first_row + k] = departure_weight * prior[k] / width[k];
    }
    for (Index k = 0; k + 1 < n; ++k) {
        const Index r = first_row + n + k;
        a(r, k + 1) = 1 / width[k + 1];
        a(r, k) = -1 / width[k];
        b[r] = prior[k + 1] / width[k + 1] - prior[k] / width[k];
    }
}

Curve curve_of(const VectorXd& amplitudes) {
    const auto& grid = lifetime_grid();
    std::vector<CurveComponent> parts;
    for (std::size_t k = 0; k < grid.size(); ++k)
        if (amplitudes[static_cast<Index>(k)] > 0)
            parts.push_back({grid[k], amplitudes[static_cast<Index>(k)]});
    return Curve(std::move(parts));
}

/// Weighted rows, prior rows and, if Σ A passes its bound, a row that holds it there.
VectorXd solve(const MatrixXd& rows, const VectorXd& y, const VectorXd& row_weights,
               const VectorXd& prior, const FitOptions& options) {
    const Index m = rows.rows();
    const Index n = rows.cols();
    MatrixXd a = MatrixXd::Zero(m + 2 * n, n);
    VectorXd b = VectorXd::Zero(m + 2 * n);
    a.topRows(m) = row_weights.asDiagonal() * rows;
    b.head(m) = row_weights.cwiseProduct(y);
    append_prior(prior, options.prior_spread, a, b, m);
    VectorXd amplitudes = non_negative_least_squares(a, b);
    if (options.live_bytes > 0 && amplitudes.sum() > options.live_bytes) {
        const double hold = 1e3 * a.cwiseAbs().maxCoeff();
        // The last of the 2 n rows is free: there are n departures and n − 1 steps.
        a.row(m + 2 * n - 1).setConstant(hold);
        b[m + 2 * n - 1] = hold * options.live_bytes;
        amplitudes = non_negative_least_squares(a, b);
    }
    return amplitudes;
}

}  // namespace

tl::expected<FitReport, std::string> fit_curve(const std::vector<Observation>& observations,
                                               const FitOptions& options) {
    if (observations.empty()) return tl::unexpected(std::string("there is nothing to fit"));
    const auto m = static_cast<Index>(observations.size());
    const auto n = static_cast<Index>(lifetime_grid().size());
    MatrixXd rows(m, n);
    VectorXd y(m);
    VectorXd own_weight(m);
    FitReport report;
    for (Index i = 0; i < m; ++i) {
        const auto& o = observations[static_cast<std::size_t>(i)];
        const bool pair = o.kind == Observation::Kind::unique;
        if (!(o.gap_days > 0) || (pair && !(o.next_gap_days > 0)) || !std::isfinite(o.bytes) ||
            !(o.weight > 0))
            return tl::unexpected(
                fmt::format("observation {} has a gap of {} d, {} bytes, weight {}: gaps and weights "
                            "must be positive, bytes finite",
                            i, o.gap_days, o.bytes, o.weight));
        rows.row(i) = row_of(o).transpose();
        y[i] = o.bytes;
        own_weight[i] = std::sqrt(o.weight);
        report.longest_days =
            std::max(report.longest_days, o.gap_days + (pair ? o.next_gap_days : 0.0));
    }
    const double largest = y.cwiseAbs().maxCoeff();
    if (largest == 0 || y.sum() <= 0) return report;  // nothing dies: an empty curve

    const VectorXd shape = prior_shape(options.prior_onset_days);
    const VectorXd prior = shape * (y.sum() / (rows * shape).sum());
    VectorXd amplitudes = prior;
    for (int pass = 0; pass < std::max(options.refinements, 1); ++pass) {
        const VectorXd fitted = rows * amplitudes;
        const VectorXd expected = fitted.cwiseMax(1e-4 * largest + 1);
        const VectorXd residual = y - fitted;
        report.burst_bytes = std::max(
            residual.cwiseAbs2().cwiseQuotient(expected).mean(), 1e-6 * largest + 1);
        const VectorXd weights =
            own_weight.cwiseQuotient((report.burst_bytes * expected).cwiseSqrt());
        amplitudes = solve(rows, y, weights, prior, options);
    }
    report.curve = curve_of(amplitudes);

    double squares = 0;
    double sizes = 0;
    for (Index i = 0; i < m; ++i) {
        if (observations[static_cast<std::size_t>(i)].kind != Observation::Kind::freed) continue;
        const double residual = y[i] - rows.row(i).dot(amplitudes);
        squares += residual * residual;
        sizes += y[i] * y[i];
    }
    report.relative_error = sizes > 0 ? std::sqrt(squares / sizes) : 0;
    return report;
}

tl::expected<Curve, std::string> curve_through(const std::vector<CurveComponent>& freed_at,
                                               const FitOptions& options) {
    if (freed_at.empty()) return tl::unexpected(std::string("no figure to draw a curve through"));
    const auto m = static_cast<Index>(freed_at.size());
    const auto n = static_cast<Index>(lifetime_grid().size());
    MatrixXd rows(m, n);
    VectorXd y(m);
    VectorXd weights(m);
    for (Index i = 0; i < m; ++i) {
        const auto& point = freed_at[static_cast<std::size_t>(i)];
        if (!(point.lifetime_days > 0) || !(point.bytes >= 0) || !std::isfinite(point.bytes))
            return tl::unexpected(fmt::format("{} bytes freed at {} d: the day must be positive and "
                                              "the bytes not negative",
                                              point.bytes, point.lifetime_days));
        Observation o;
        o.gap_days = point.lifetime_days;
        rows.row(i) = row_of(o).transpose();
        y[i] = point.bytes;
        weights[i] = point.bytes > 0 ? 3e3 / point.bytes : 1;  // met far more closely than the prior
    }
    if (y.sum() <= 0) return Curve();
    const VectorXd shape = prior_shape(options.prior_onset_days);
    const VectorXd prior = shape * (y.sum() / (rows * shape).sum());
    return curve_of(solve(rows, y, weights, prior, options));
}

}  // namespace ullage
