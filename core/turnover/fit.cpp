// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/turnover/fit.h"

#include "core/turnover/nnls.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <limits>
#include <map>
#include <numeric>
#include <tuple>
#include <utility>

namespace ullage {

namespace {

using Eigen::ArrayXd;
using Eigen::Index;
using Eigen::MatrixXd;
using Eigen::VectorXd;

// The lattice of shapes: wide enough that its ends never matter under the prior.
constexpr int onsets = 22;
constexpr double first_onset_days = 0.3;
constexpr double last_onset_days = 300;
constexpr int tails = 12;
constexpr double first_tail = 0.02;
constexpr double last_tail = 2.5;

constexpr double shape_floor = 0.02;     // of its largest amplitude, so that short lifetimes stay possible
constexpr double most_deviations = 5;    // of a row, beyond which it counts less (Huber)
constexpr double typed_precision = 0.1;  // of typed figures, when they choose the shape
constexpr Eigen::Index least_rows = 20;  // for an estimate of κ about a free fit
constexpr double typed_weight = 2e4;     // of typed figures, when the curve is drawn through them

double log_spaced(double first, double last, int i, int n) {
    return first * std::pow(last / first, static_cast<double>(i) / (n - 1));
}

/// Amplitudes with sum 1, onset and tail of every shape of the lattice.
struct Shapes {
    MatrixXd amplitudes;  // one column a shape
    ArrayXd log_onset, log_tail;
    ArrayXd late;         // share of what dies within ten years that dies after one
};

const Shapes& shapes() {
    static const Shapes all = [] {
        const auto& grid = lifetime_grid();
        Shapes s;
        s.amplitudes.resize(static_cast<Index>(grid.size()), onsets * tails);
        s.log_onset.resize(onsets * tails);
        s.log_tail.resize(onsets * tails);
        s.late.resize(onsets * tails);
        for (int i = 0; i < onsets; ++i)
            for (int j = 0; j < tails; ++j) {
                const Index column = i * tails + j;
                const double onset = log_spaced(first_onset_days, last_onset_days, i, onsets);
                const double tail = log_spaced(first_tail, last_tail, j, tails);
                double late = 0;
                for (std::size_t k = 0; k < grid.size(); ++k) {
                    const double a = std::pow(onset / grid[k], tail) * std::exp(-onset / grid[k]);
                    s.amplitudes(static_cast<Index>(k), column) = a;
                    late += a * (std::exp(-365 / grid[k]) - std::exp(-3650 / grid[k]));
                }
                const double sum = s.amplitudes.col(column).sum();
                s.amplitudes.col(column) /= sum;
                s.late[column] = late / sum;
                s.log_onset[column] = std::log(onset);
                s.log_tail[column] = std::log(tail);
            }
        return s;
    }();
    return all;
}

ArrayXd log_prior(const FitOptions& o) {
    const auto& s = shapes();
    return -0.5 * (((s.log_onset - std::log(o.onset_days)) / o.onset_log_spread).square() +
                   ((s.log_tail - std::log(o.tail)) / o.tail_log_spread).square());
}

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

/// Rows of equal gaps, put together: of each kind of row, Σ precision and Σ precision · y over its observations.
/// Their weighted squares are those of one row of the mean, but for a part that no amplitude moves.
struct Summed {
    VectorXd precision, moment;
    double square = 0;  // Σ precision · y² over all observations
};

/// The rows of a fit: y_i ≈ rows.row(row_i) · amplitudes, with variance κ · expected_i ÷ times_i.
struct Problem {
    MatrixXd rows;           // no two alike
    std::vector<Index> row;  // of each observation
    VectorXd y;
    VectorXd times;
    double largest = 0;
    double most_burst = std::numeric_limits<double>::max();

    VectorXd of_observations(const VectorXd& by_row) const {
        VectorXd all(y.size());
        for (Index i = 0; i < y.size(); ++i) all[i] = by_row[row[static_cast<std::size_t>(i)]];
        return all;
    }
    VectorXd modelled(const VectorXd& amplitudes) const { return of_observations(rows * amplitudes); }
    VectorXd expected(const VectorXd& bytes) const { return bytes.cwiseMax(1e-4 * largest + 1); }
    double burst(const VectorXd& bytes) const {
        const double mean =
            times.cwiseProduct((y - bytes).cwiseAbs2()).cwiseQuotient(expected(bytes)).sum() / times.sum();
        return std::max(mean, 1e-6 * largest + 1);
    }
    /// 1 ÷ variance of each observation, less for those far off.
    VectorXd precision(const VectorXd& amplitudes, double& burst_bytes) const {
        const VectorXd bytes = modelled(amplitudes);
        const VectorXd e = expected(bytes);
        burst_bytes = std::min(burst(bytes), most_burst);
        VectorXd precise = times.cwiseQuotient(burst_bytes * e);
        const VectorXd off = (y - bytes).cwiseAbs().cwiseQuotient((burst_bytes * e).cwiseSqrt());
        for (Index i = 0; i < precise.size(); ++i)
            if (off[i] > most_deviations) precise[i] *= most_deviations / off[i];
        return precise;
    }
    Summed summed(const VectorXd& precision) const {
        Summed s{VectorXd::Zero(rows.rows()), VectorXd::Zero(rows.rows()), 0};
        for (Index i = 0; i < y.size(); ++i) {
            const Index r = row[static_cast<std::size_t>(i)];
            s.precision[r] += precision[i];
            s.moment[r] += precision[i] * y[i];
            s.square += precision[i] * y[i] * y[i];
        }
        return s;
    }
};

/// The observations' rows, each kind once.
Problem problem_of(const std::vector<Observation>& observations) {
    Problem problem;
    std::map<std::tuple<double, double>, Index> known;  // by gap and next gap, −1 without one
    std::vector<VectorXd> rows;
    for (const auto& o : observations) {
        const double next = o.kind == Observation::Kind::unique ? o.next_gap_days : -1;
        const auto [at, is_new] = known.try_emplace({o.gap_days, next}, static_cast<Index>(rows.size()));
        if (is_new) rows.push_back(row_of(o));
        problem.row.push_back(at->second);
    }
    problem.rows.resize(static_cast<Index>(rows.size()), static_cast<Index>(lifetime_grid().size()));
    for (std::size_t r = 0; r < rows.size(); ++r) problem.rows.row(static_cast<Index>(r)) = rows[r].transpose();
    problem.y.resize(static_cast<Index>(observations.size()));
    problem.times.resize(problem.y.size());
    for (std::size_t i = 0; i < observations.size(); ++i) {
        problem.y[static_cast<Index>(i)] = observations[i].bytes;
        problem.times[static_cast<Index>(i)] = observations[i].weight;
    }
    problem.largest = problem.y.cwiseAbs().maxCoeff();
    return problem;
}

/// √precision of each row of its mean, and that mean times it.
std::pair<VectorXd, VectorXd> weighted(const Summed& s) {
    const VectorXd root = s.precision.cwiseSqrt();
    return {root, s.moment.cwiseQuotient(root.cwiseMax(std::numeric_limits<double>::min()))};
}

/// κ about the best of all curves, prior or not: bursts are what no curve explains.
double burst_about_any_curve(const Problem& problem) {
    const Index m = problem.y.size();
    if (m < least_rows) return std::numeric_limits<double>::max();
    VectorXd amplitudes;
    VectorXd e = problem.y.cwiseMax(1e-2 * problem.largest + 1);
    for (int pass = 0; pass < 3; ++pass) {
        const auto [root, y] = weighted(problem.summed(problem.times.cwiseQuotient(e)));
        amplitudes = non_negative_least_squares(root.asDiagonal() * problem.rows, y);
        e = problem.expected(problem.modelled(amplitudes));
    }
    const auto parts = static_cast<double>((amplitudes.array() > 0).count());
    return problem.burst(problem.modelled(amplitudes)) * double(m) / (double(m) - parts);
}

/// Best scale and log posterior of every shape for given row precisions.
struct Posterior {
    ArrayXd scale;
    ArrayXd log_weight;

    Index likeliest() const {
        Index best = 0;
        log_weight.maxCoeff(&best);
        return best;
    }
    /// The shape at a quantile of the posterior, ordered by what dies late.
    Index at(double quantile) const {
        const ArrayXd weight = (log_weight - log_weight.maxCoeff()).exp();
        std::vector<Index> order(static_cast<std::size_t>(weight.size()));
        std::iota(order.begin(), order.end(), Index{0});
        const auto& late = shapes().late;
        std::sort(order.begin(), order.end(), [&](Index a, Index b) {
            return late[a] != late[b] ? late[a] < late[b] : a < b;
        });
        double left = std::clamp(quantile, 0.0, 1.0) * weight.sum();
        for (const Index k : order) {
            left -= weight[k];
            if (left <= 0) return k;
        }
        return order.back();
    }
    VectorXd amplitudes(Index shape) const { return shapes().amplitudes.col(shape) * scale[shape]; }
};

Posterior posterior_of(const MatrixXd& by_shape, const Summed& rows, const FitOptions& options) {
    Posterior p;
    const ArrayXd moment = (by_shape.transpose() * rows.moment).array();
    const ArrayXd square = (by_shape.cwiseAbs2().transpose() * rows.precision).array();
    const double most = options.live_bytes > 0 ? options.live_bytes : std::numeric_limits<double>::max();
    p.scale = (moment / square.max(std::numeric_limits<double>::min())).max(0).min(most);
    // Σ w (y − c g)² without forming the residuals of every shape.
    p.log_weight = log_prior(options) - 0.5 * (rows.square - 2 * p.scale * moment + p.scale.square() * square);
    return p;
}

Curve curve_of(const VectorXd& amplitudes) {
    const auto& grid = lifetime_grid();
    std::vector<CurveComponent> parts;
    for (std::size_t k = 0; k < grid.size(); ++k)
        if (amplitudes[static_cast<Index>(k)] > 0)
            parts.push_back({grid[k], amplitudes[static_cast<Index>(k)]});
    return Curve(std::move(parts));
}

/// Non-negative least squares of weighted rows and of the departure from a shape.
VectorXd departed(const Problem& problem, const Summed& rows, const VectorXd& shape, const FitOptions& options) {
    const Index m = problem.rows.rows();
    const Index n = problem.rows.cols();
    MatrixXd a = MatrixXd::Zero(m + 2 * n, n);
    VectorXd b = VectorXd::Zero(m + 2 * n);
    const auto [root, y] = weighted(rows);
    a.topRows(m) = root.asDiagonal() * problem.rows;
    b.head(m) = y;
    const VectorXd width = shape.cwiseMax(shape_floor * shape.maxCoeff()) * options.departure_spread;
    for (Index k = 0; k < n; ++k) {
        a(m + k, k) = 1 / width[k];
        b[m + k] = shape[k] / width[k];
        if (k + 1 == n) break;
        a(m + n + k, k + 1) = 1 / width[k + 1];
        a(m + n + k, k) = -1 / width[k];
        b[m + n + k] = shape[k + 1] / width[k + 1] - shape[k] / width[k];
    }
    VectorXd amplitudes = non_negative_least_squares(a, b);
    if (options.live_bytes > 0 && amplitudes.sum() > options.live_bytes) {
        // The last row is free (n departures, n − 1 steps): it holds the sum at its bound.
        const double hold = 1e3 * a.cwiseAbs().maxCoeff();
        a.row(m + 2 * n - 1).setConstant(hold);
        b[m + 2 * n - 1] = hold * options.live_bytes;
        amplitudes = non_negative_least_squares(a, b);
        if (amplitudes.sum() > options.live_bytes) amplitudes *= options.live_bytes / amplitudes.sum();
    }
    return amplitudes;
}

}  // namespace

tl::expected<FitReport, std::string> fit_curve(const std::vector<Observation>& observations,
                                               const FitOptions& options) {
    if (observations.empty()) return tl::unexpected(std::string("there is nothing to fit"));
    FitReport report;
    for (std::size_t i = 0; i < observations.size(); ++i) {
        const auto& o = observations[i];
        const bool pair = o.kind == Observation::Kind::unique;
        if (!(o.gap_days > 0) || (pair && !(o.next_gap_days > 0)) || !std::isfinite(o.bytes) ||
            !(o.weight > 0))
            return tl::unexpected(
                fmt::format("observation {} has a gap of {} d, {} bytes, weight {}: gaps and weights "
                            "must be positive, bytes finite",
                            i, o.gap_days, o.bytes, o.weight));
        report.longest_days =
            std::max(report.longest_days, o.gap_days + (pair ? o.next_gap_days : 0.0));
    }
    Problem problem = problem_of(observations);
    if (problem.largest == 0 || problem.times.dot(problem.y) <= 0) return report;  // nothing dies

    problem.most_burst = burst_about_any_curve(problem);
    const MatrixXd by_shape = problem.rows * shapes().amplitudes;
    const int passes = std::max(options.refinements, 1);

    Index prior_mode = 0;
    log_prior(options).maxCoeff(&prior_mode);
    const double scale = problem.times.dot(problem.y) / problem.times.dot(problem.of_observations(by_shape.col(prior_mode)));
    VectorXd amplitudes = shapes().amplitudes.col(prior_mode) * scale;
    Posterior posterior;
    for (int pass = 0; pass < passes; ++pass) {
        const VectorXd precision = problem.precision(amplitudes, report.burst_bytes);
        posterior = posterior_of(by_shape, problem.summed(precision), options);
        amplitudes = posterior.amplitudes(posterior.likeliest());
    }
    const Index chosen = options.shape_draw ? posterior.at(*options.shape_draw) : posterior.likeliest();
    const VectorXd shape = posterior.amplitudes(chosen);
    amplitudes = shape;
    if (shape.maxCoeff() > 0)
        for (int pass = 0; pass < passes; ++pass) {
            const VectorXd precision = problem.precision(amplitudes, report.burst_bytes);
            amplitudes = departed(problem, problem.summed(precision), shape, options);
        }
    report.curve = curve_of(amplitudes);

    double squares = 0;
    double sizes = 0;
    const VectorXd residual = problem.y - problem.modelled(amplitudes);
    for (Index i = 0; i < residual.size(); ++i) {
        if (observations[static_cast<std::size_t>(i)].kind != Observation::Kind::freed) continue;
        squares += residual[i] * residual[i];
        sizes += problem.y[i] * problem.y[i];
    }
    report.relative_error = sizes > 0 ? std::sqrt(squares / sizes) : 0;
    return report;
}

tl::expected<Curve, std::string> curve_through(const std::vector<CurveComponent>& freed_at,
                                               const FitOptions& options) {
    if (freed_at.empty()) return tl::unexpected(std::string("no figure to draw a curve through"));
    std::vector<Observation> points;
    for (const auto& point : freed_at) {
        if (!(point.lifetime_days > 0) || !(point.bytes >= 0) || !std::isfinite(point.bytes))
            return tl::unexpected(fmt::format("{} bytes freed at {} d: the day must be positive and "
                                              "the bytes not negative",
                                              point.bytes, point.lifetime_days));
        points.push_back({Observation::Kind::freed, point.lifetime_days, 0, point.bytes, 1});
    }
    const Problem problem = problem_of(points);
    if (problem.y.sum() <= 0) return Curve();
    const VectorXd weight =
        problem.y.unaryExpr([](double bytes) { return bytes > 0 ? 1 / bytes : 1; });
    const auto posterior = posterior_of(problem.rows * shapes().amplitudes,
                                        problem.summed((weight / typed_precision).cwiseAbs2()), options);
    const VectorXd shape = posterior.amplitudes(posterior.at(options.shape_draw.value_or(0.5)));
    return curve_of(departed(problem, problem.summed((typed_weight * weight).cwiseAbs2()), shape, options));
}

}  // namespace ullage
