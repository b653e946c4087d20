// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What matters most: each uncertain input moved over its spread, and its share of the variance.
///
/// Inputs of a dataset: its growth, the level of its turnover, the shape of its turnover curve,
/// what is stored of it (compression), the size and the date of each event. Day to day variation
/// and the wander of what dies young are no inputs: nothing that could be asked or measured would
/// make them less.
///
/// Effect: one future without noise per setting: an input at its p10 or p90, the others in the
/// middle.
///   growth   typed: the rate's quantile; measured: at each day the quantile of the futures of
///            measure/growth.h, stretched
///   curve    the alternatives ordered by what all boxes would hold by them at the horizon; the
///            middle is the mean curve
///   others   quantiles of what the paths draw from
/// Datasets do not depend on one another, so one future serves the same setting of all of them.
///
/// Share: of the variance over the paths of the logarithm of the day (those that never come count
/// as the horizon, day 0 as 1), the first-order part: paths are put into up to 20 groups by the
/// input's drawn value, and the variance between the groups is taken, less what chance makes of it
/// (ε²; Kelley 1935, An unbiased correlation ratio measure, from memory). Inputs are drawn
/// independently, so the shares of all inputs sum to at most 1 but for noise: about 0.003 each for
/// 2,000 paths. What is missing to 1 is no one input's: noise, and what inputs do together. Growth
/// is read at the day the box reaches its ceiling in the middle future, else at the horizon. Fewer
/// than 40 paths tell no shares: 0.

#include "core/outlook/paths.h"
#include "core/units/calendar.h"

#include <optional>
#include <string>
#include <vector>

namespace ullage {

enum class UncertainInput { growth, level, curve, live, event_size, event_date };

/// Days until a box reaches its ceiling, one input low or high; empty: not within the horizon.
struct InputEffect {
    int box = 0;
    int dataset = 0;
    UncertainInput input = UncertainInput::growth;
    std::size_t event = 0;  ///< of the dataset's, for the last two
    std::optional<double> low_days, high_days;
};

struct Sensitivity {
    std::vector<std::optional<double>> middle_days;  ///< per box, every input in the middle
    std::vector<InputEffect> effects;                ///< of every input with a spread on a box
};

/// `profiles`: of the models and the plan. `ceilings` in bytes, for each box of the plan at each time; its paths, seed, probes and samples are not used.
/// Empty if stopped.
std::optional<Sensitivity> sensitivity(const std::vector<DatasetModel>& models,
                                       const PathsPlan& plan, const HeldProfiles& profiles,
                                       const std::vector<std::vector<double>>& ceilings,
                                       const Progress& progress);

/// Part of the variance of `values` that goes with `drawn`, 0…1; both [path].
double share_of_variance(const std::vector<float>& drawn, const std::vector<double>& values);

/// For every box that some future brings to its ceiling, unless all do on day 0: the inputs that
/// move the day or take part in its variance, greatest effect first, at most 12.
/// `plan.growth_days` must hold one day per box; `names` one per box; `as_of` is the plan's, as a
/// date.
std::vector<Driver> ranked_drivers(const Sensitivity& sensitivity,
                                   const std::vector<DatasetModel>& models, const PathsPlan& plan,
                                   const Paths& paths,
                                   const std::vector<std::vector<double>>& ceilings,
                                   const std::vector<std::string>& names, Day as_of);

}  // namespace ullage
