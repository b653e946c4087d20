// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Growth of live bytes: from a history of levels to many futures.
///
/// Increments are modelled, never the level: a line through the level is far too sure of itself.
/// The history is cut into blocks of a week, from its newest point back (longer where its points lie
/// further apart). A future is one of four kinds, in turn:
///   0  blocks drawn again from all the history, weights drawn once a future for every four weeks of it
///      (what is not known of the mean rate)
///   1  blocks from the last 60 days, newer ones weighing more (half as much every 30 days), weights drawn
///      once a future for each
///   2  kind 1, its rate wandering: the logarithm takes a step each week and leans back to its mean over
///      half a year; the size of the steps is that of the history's four-week means beyond their noise, at
///      least 0.05
///   3  a random walk with a drift drawn from its own error
/// One-off steps are blocks further than 6 scaled median deviations from the median rate, and than 1 % of
/// live. n of them weigh n ÷ (n + 1): one is half taken for chance, many are what happens here. They come
/// as steps in the futures, never as a slope.
/// Pull: a rate of its own error s is drawn towards a pooled rate m ± w by s² ÷ (s² + w²): m is 10 % of
/// live a year; w is 12 % of live a year, or the measured rate where that is larger, so that a clear rate is
/// left alone. s² counts besides steps too rare to be in a short history: 3 % of live per √year. A future's
/// rate is the weighted mean of its own and one drawn from m ± w. The pooled figures were set on fifteen cuts of three public version histories.
/// Stretch: the model is made at earlier dates of the history and asked for 30 and for 90 days ahead; where
/// its errors were wider than its spread said, every future is moved away from the middle one by that factor
/// (1 to 3; 1.3 where fewer than three dates can be judged), the one for 30 days before, the one for 90 days
/// after, between them along the logarithm of the days.
/// A history that never fell has no futures that fall.
/// Assumes that what drove growth in the history goes on. Ignored: yearly seasons.
/// Sources: random walk with drift, Hyndman and Athanasopoulos, Forecasting: Principles and Practice,
/// 3rd ed., 5.2; block bootstrap with exponential weights, Rubin 1981, The Bayesian Bootstrap.

#include "core/units/random.h"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace ullage {

/// Live bytes over time; points oldest first, days rising.
struct LivePoint {
    double day = 0;
    double bytes = 0;
    bool operator==(const LivePoint&) const = default;
};

/// A stretch of the history, to be drawn again.
struct GrowthBlock {
    double days = 0;    ///< length, > 0
    double bytes = 0;   ///< what it added
    double age = 0;     ///< days from its middle to the newest point
    double weight = 1;  ///< less than 1 for a one-off step
    bool step = false;
    std::vector<LivePoint> inside;  ///< day from its start, bytes since; from (0, 0) to (days, bytes)
    bool operator==(const GrowthBlock&) const = default;
};

struct GrowthModel {
    std::vector<GrowthBlock> blocks;  ///< oldest first
    double bytes_per_day = 0;         ///< of the history, steps at their weight
    double standard_error = 0;        ///< of that rate
    double noise_per_root_day = 0;    ///< standard deviation of a day's increment about it
    double walk_per_root_week = 0;    ///< of the logarithm of the rate, kind 2
    double pull = 0;                  ///< towards the pooled rate, 0…1
    double pooled_bytes_per_day = 0;
    double pooled_spread = 0;         ///< its standard deviation
    double stretch_30 = 1, stretch_90 = 1;  ///< 30 and 90 days ahead, 1…3
    int judged = 0;                   ///< dates that the stretch at 30 days rests on
    bool never_fell = false;

    GrowthModel scaled(double factor) const;  ///< factor > 0, of all bytes
    double stretch(double days_ahead) const;
    /// Rate of the middle of all futures, and the standard deviation of their rates, bytes/day.
    double middle_rate() const;
    double rate_spread() const;
    bool operator==(const GrowthModel&) const = default;
};

/// Fewer than two points, or no time between them: a model that stands still at a spread of the pooled one.
GrowthModel growth_model(const std::vector<LivePoint>& points);

inline constexpr int growth_kinds = 4;

/// So many numbers say most of what a future's rate is: its pooled rate, and the weights or the drift its own comes by.
inline constexpr std::size_t growth_rate_numbers = 32;

/// One future: bytes added by each of `days` (rising, ≥ 0) after the newest point, before the stretch.
/// `kind` 0…3. `given`: that many numbers or none, each of one of 2³² equal parts of 0…1, spread evenly over the
/// futures of a kind (units/sobol.h); all others are random.
void draw_growth(const GrowthModel&, int kind, std::span<const std::uint32_t> given, RandomSequence&,
                 const std::vector<double>& days, std::vector<double>& added);

/// Quantiles of 256 futures at each of `days`, before the stretch: a row for each of `probabilities` (0…1).
std::vector<std::vector<double>> growth_quantiles(const GrowthModel&, const std::vector<double>& days,
                                                  const std::vector<double>& probabilities);

/// Their middle: what the stretch moves futures away from.
std::vector<double> middle_growth(const GrowthModel&, const std::vector<double>& days);

/// Moves a future away from the middle, and keeps it from falling where the history never fell.
void stretch_growth(const GrowthModel&, const std::vector<double>& days, const std::vector<double>& middle,
                    std::vector<double>& added);

/// Live bytes at `day`, straight lines between the points, level beyond their ends.
double live_at(const std::vector<LivePoint>& points, double day);

/// Median of the slopes of all pairs (Theil 1950, Sen 1968); 0 for fewer than two points.
double theil_sen_slope(const std::vector<LivePoint>& points);

}  // namespace ullage
