// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What a page about how sure the answer is shows of a dataset: the steps of its listing, and the turnover
/// curve with its band.

#include "core/outlook/models.h"

#include <vector>

namespace ullage {

/// The gaps of a listing (of more than 100,000 every k-th), those within a quarter of each other in length together,
/// shortest first.
std::vector<MeasuredStep> measured_steps(const Listing&);

/// freed(gap) over a model's curves and the spread of their level, from an hour to five years.
std::vector<CurveBand> curve_band(const DatasetModel&);

}  // namespace ullage
