// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What Ullage makes of one listing: its model, and paths of the year after.

#include "core/outlook/models.h"
#include "core/outlook/paths.h"
#include "tests/benchmarks/accuracy/scores.h"

#include <string>
#include <vector>

namespace ullage::accuracy {

inline constexpr int path_count = 2000;
inline constexpr double year_days = 365;  ///< beyond which nothing is forecast: the censoring bound

struct NamedLadder {
    std::string name;
    Ladder ladder;
};

/// The ladders that were kept: tiered (24 hourly, 14 daily, 8 weekly, 12 of 30 days), weekly52,
/// daily30, daily90.
const std::vector<NamedLadder>& ladders();
const Ladder& tiered();

/// From a listing's text, and a usage history's unless it is empty; the error is a sentence.
/// `as_of` is a midnight, UTC.
tl::expected<DatasetModel, std::string> model_of(const std::string& listing,
                                                 const std::string& usage, Instant as_of);

/// Paths over a year; box i keeps `kept[i]` at home, beside the live data. What the model knows of
/// the past is taken as kept by each box; without it, all is forecast.
struct Year {
    std::vector<double> days;  ///< grid
    Paths paths;

    /// Values of a table of `paths` (used[i], live[i], held[i]) at a day of the grid.
    std::vector<double> at(const PathTable& table, double day) const;
    Band band_at(const PathTable& table, double day) const {
        return band_of(at(table, day));
    }
    /// Whole days until each path reaches `limit`, `year_days` if it does not within the year.
    std::vector<double> days_until(const PathTable& table, double limit) const;
};
Year forecast_year(const DatasetModel&, Instant as_of, const std::vector<Ladder>& kept,
                   const std::vector<double>& days = {});

}  // namespace ullage::accuracy
