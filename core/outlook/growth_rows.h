// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Quantiles of measured growth at the times of a grid, worked out once for each model and grid.

#include "core/measure/growth.h"

#include <memory>
#include <vector>

namespace ullage {

/// Bytes added by each of the days, before the stretch (growth.h): 1 in 10 futures add less than `low`, half of them
/// less than `middle`, 9 in 10 less than `high`.
struct GrowthRows {
    std::vector<double> low, middle, high;
};

/// Remembered (remembered.h). Safe from several threads.
std::shared_ptr<const GrowthRows> growth_rows(const GrowthModel&, const std::vector<double>& days);

}  // namespace ullage
