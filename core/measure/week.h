// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The shape of the week: how much more or less is written on each weekday than on a mean day.
///
/// From the steps of about a day (18 to 30 hours): the mean written on each weekday, drawn towards the mean
/// of all days by s² ÷ (s² + t²): s² is the variance of that weekday's mean, from how days of one weekday
/// differ; t² what the weekdays' means differ by beyond it. A week that is all noise comes out flat.
/// The weekday of a step is that of its middle, in UTC.
/// The bursts of the curve fit hold the weekdays' differences too, so a run's spread comes out a little wide.
/// Fewer than 28 such steps, or nothing written: flat.

#include "core/measure/listing.h"

#include <array>

namespace ullage {

/// Monday first, each ≥ 0, mean 1.
using WeekShape = std::array<double, 7>;

WeekShape week_shape(const Listing&);

}  // namespace ullage
