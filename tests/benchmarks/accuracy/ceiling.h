// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The day on which live bytes, or used = live + held bytes, reach a ceiling, beside general
/// methods.
///
/// Ceilings are 1.05, 1.1, 1.2 and 1.5 times the bytes at the origin; a day beyond the year counts
/// as 365. p10, p50, p90 by the inverse of the distribution function; loss: their mean pinball
/// loss, in days. The same as in tests/reference/ceiling_days.R, whose table holds the general
/// methods and the true days.

#include "tests/benchmarks/accuracy/scores.h"

#include <map>
#include <string>
#include <vector>

namespace ullage::accuracy {

struct CeilingRow {
    std::string history, origin, series;
    double factor = 0;
    double truth_days = 0;
    std::map<std::string, Band> methods;  ///< arima, ets, rwf
};

/// The lines of a table as ceiling_days.R writes it; none if it cannot be read.
std::vector<CeilingRow> read_ceiling_rows(const std::string& path);

/// Loss and cover over many ceilings.
struct CeilingScore {
    std::vector<double> losses;
    double reached_loss = 0;  ///< sum over those reached within the year
    int reached = 0, inside = 0;

    void add(const Band& days, double truth_days);
    double mean_loss() const { return mean_of(losses); }
};

}  // namespace ullage::accuracy
