// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The backward questions: what would it take?
///
///   link-rate   of each line, the least rate at which its sends keep their windows (line_rate.h),
///               rounded up to rates that are sold
///   usable      of each box, the least usable size that stays below its ceiling over the horizon:
///   the
///               quantile of the most used ÷ ceiling. What a stored byte takes stays as on today's
///               pool.
///   ladder      of each box, the longest time its snapshots can be kept with the fill staying
///   below the
///               ceiling over the horizon (ladder_fit.h), and whether its sends keep their windows
///   order-date  of each box, the last safe day to order: the quantile of the ceiling day less the
///   lead time
/// Each with the confidence asked for: 0.9 means 9 futures in 10.

#include "core/outlook/outlook.h"
#include "core/outlook/sold_rates.h"

#include <optional>
#include <string>
#include <vector>

namespace ullage {

enum class SolveFor { link_rate, usable, ladder, order_date };
std::string to_string(SolveFor);  ///< the command line's words

struct SolveQuestion {
    SolveFor what = SolveFor::link_rate;
    std::optional<std::string> box, send;  ///< only this one; else all
    std::optional<double> confidence;      ///< 0.5 < c < 1; absent: the site's
    std::vector<BitsPerSecond> sold = usual_sold_rates();
};

struct LinkRateAnswer {
    std::string link;
    std::vector<std::string> sends;  ///< all of these over it
    double today_bits_per_second = 0;
    bool enough_today = false;
    std::optional<double> needed_bits_per_second;  ///< empty: no rate does
    std::optional<double> sold_bits_per_second;    ///< empty: none is sold that high
    Limit other_limit = Limit::rate;               ///< where no rate does: what binds then
    bool operator==(const LinkRateAnswer&) const = default;
};

struct UsableAnswer {
    std::string box;
    double today_bytes = 0, needed_bytes = 0, ceiling = 0;
    bool operator==(const UsableAnswer&) const = default;
};

struct DatasetLadder {
    std::string dataset, ladder;  ///< "1 h × 24, 1 d × 30, 1 w × 26"
    bool operator==(const DatasetLadder&) const = default;
};

struct LadderAnswer {
    std::string box;
    double today_days = 0;                ///< how long the longest rung there keeps, today
    std::optional<double> longest_days;   ///< empty: even the shortest does not fit
    bool as_long_as_the_horizon = false;  ///< longer ones fit as well
    bool sends_fit = true;  ///< false: its sends miss their windows whatever the ladder
    std::vector<DatasetLadder> ladders;  ///< at the answer
    bool operator==(const LadderAnswer&) const = default;
};

struct OrderDateAnswer {
    std::string box;
    std::optional<double> ceiling_day;  ///< empty: not within the horizon
    double lead_time_days = 0;
    std::optional<Day> order_by;  ///< may lie in the past
    std::optional<double> full_day;  ///< if nothing is bought, in half of the futures
    double chance_of_full = 0;       ///< within the horizon, if nothing is bought
    bool operator==(const OrderDateAnswer&) const = default;
};

struct SolveAnswer {
    SolveFor what = SolveFor::link_rate;
    std::string site;
    Day as_of{};
    double confidence = 0.9;
    std::vector<LinkRateAnswer> link_rates;
    std::vector<UsableAnswer> usable;
    std::vector<LadderAnswer> ladders;
    std::vector<OrderDateAnswer> order_dates;
    bool operator==(const SolveAnswer&) const = default;
};

/// Problems besides those of `compute`: a box or send that is not there, nothing to solve for.
tl::expected<SolveAnswer, ComputeError> solve(const Site& site, const Evidence& evidence,
                                              const Settings& settings,
                                              const SolveQuestion& question,
                                              const Progress& progress = {});

}  // namespace ullage
