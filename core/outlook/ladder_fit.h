// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The longest ladder that a box has room for.
///
/// The longest rung of every dataset's ladder there is moved (the dataset's own where the box keeps
/// as the source does, so there too); rungs that would outlast it are cut to it. A ladder fits if,
/// with the confidence asked for, the fill stays below the box's ceiling for the horizon. Up to the
/// horizon, or to today's ladder where that is longer: beyond it nothing changes within the
/// horizon. Law used by the bisection: keeping longer never uses less.

#include "core/outlook/outlook.h"
#include "core/outlook/send_plan.h"

#include <optional>
#include <stop_token>
#include <string>
#include <vector>

namespace ullage {

struct LadderFitSettings {
    double confidence = 0.9;
    int paths = 400;  ///< of each try
    std::uint64_t seed = 1;
    int threads = 0;
    std::stop_token stop;
    bool only_shorter = false;  ///< today's does not fit: look below it alone
};

struct LadderFit {
    double today_days = 0;                ///< how long the longest rung there keeps
    std::optional<double> longest_days;   ///< empty: even the shortest does not fit
    bool as_long_as_the_horizon = false;  ///< longer ones fit as well
    /// At the answer: dataset, and its ladder as text ("1 h × 24, 1 d × 30").
    std::vector<std::pair<std::string, std::string>> ladders;
};

/// Of the box (index in the site). Empty if it has no size, nothing is kept there by a ladder, or
/// if stopped.
std::optional<LadderFit> longest_ladder(const SendContext& context, std::size_t box,
                                        const LadderFitSettings& settings);

}  // namespace ullage
