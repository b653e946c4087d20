// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Growth of an append-only store, at many dates of a long history and on simulated pools whose
/// truth is known, beside a random walk with drift.
///
/// At each date, from day 400 on every 42 days, the 60, 180 or 365 days before it are the history;
/// bytes added are forecast for 30 and for 90 days ahead, and the day on which 30 days of the
/// history's mean growth have been added (180 if later).
///   80 %, 95 %    share of truths in that central interval
///   loss          mean pinball loss over the levels 0.1 … 0.9, of (mean growth × days ahead);
///   summed over
///                 the dates before dividing, as at some dates a history hardly grew
///   T             the day; its loss is of 30 days
/// Random walk with drift: independent days; its drift drawn from N(mean, variance ÷ days). Source:
/// Hyndman and Athanasopoulos, Forecasting: Principles and Practice, 3rd ed., 5.2.
///
/// Simulated, mean 1 a day: S1 independent days, sd 0.8; S2 a working week, sd 0.4; S3 the week
/// with days that remember the one before (0.6, sd 0.8); S4 loads and purges on 3 % of days,
/// log-normal(2, 0.6), a third of them negative, on 0.9 ± 0.3; S5 the rate's logarithm walks by
/// 0.015 a day, sd 0.4; S6 the rate doubles on a day anywhere in the 180 days of history and the
/// 180 after, sd 0.4.

#include "tests/benchmarks/accuracy/table.h"

#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace ullage::accuracy {

/// Every FOLDER/growth-*.csv, then the simulated pools. The error is a sentence with the file.
tl::expected<std::vector<Table>, std::string> judge_growth(const std::string& folder);

}  // namespace ullage::accuracy
