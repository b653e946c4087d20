// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The quantiles that a run's figures are told by; 0 for no values.

#include "core/outlook/outlook.h"
#include "core/units/quantiles.h"

#include <vector>

namespace ullage {

inline RunQuantiles run_quantiles(std::vector<double> values) {
    return {quantile_of(values, 0.5), quantile_of(values, 0.9), quantile_of(values, 0.95)};
}

}  // namespace ullage
