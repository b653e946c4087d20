// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// How far forecasts were from what came.
///
///   error     of a forecast of several dates: Σ of the middle forecasts ÷ Σ of the truths − 1
///   inside    share of truths from p10 to p90 (80 % would be exact)
///   pinball   max(τ (y − q), (τ − 1)(y − q)), mean over p10, p50 and p90 and over the truths; a
///   point
///             forecast counts as all three
/// Source: Gneiting and Raftery, Strictly Proper Scoring Rules, Prediction, and Estimation, 2007
/// (from memory).

#include <optional>
#include <string>
#include <vector>

namespace ullage::accuracy {

/// Loss ≥ 0 of quantile `q` at `level` (0…1) when `truth` came, in their unit.
double pinball(double q, double truth, double level);

/// Smallest value whose share of values up to it is at least `level`, of values in rising order, at
/// least one: type 1 of Hyndman and Fan, the one that never lies between a day and the censoring
/// bound.
double inverse_distribution(const std::vector<double>& sorted, double level);

struct Band {
    double p10 = 0, p50 = 0, p90 = 0;
    bool holds(double truth) const { return p10 <= truth && truth <= p90; }
    double loss(double truth) const;
};

/// By linear interpolation (type 7), of values in any order; at least one.
Band band_of(std::vector<double> values);

/// By the inverse of the distribution function.
Band band_of_days(std::vector<double> days);

/// Scores of forecasts of one kind, gathered origin by origin.
class Score {
public:
    /// Forecasts of one origin at several dates, and what came; equally many, at least one, truths
    /// > 0.
    void add(const std::vector<Band>& forecasts, const std::vector<double>& truths);
    /// The same of a point forecast.
    void add(double point, const std::vector<double>& truths);

    bool empty() const { return errors_.empty(); }
    double median_error() const;  ///< of |error|
    double mean_error() const;    ///< of |error|
    double bias() const;          ///< mean error
    double inside() const;        ///< 0…1
    double loss() const;          ///< mean pinball loss ÷ mean truth

private:
    std::vector<double> errors_;
    double inside_ = 0, loss_ = 0, size_ = 0, truths_ = 0;
};

double mean_of(const std::vector<double>& values);  ///< 0 for none

}  // namespace ullage::accuracy
