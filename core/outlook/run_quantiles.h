// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The quantiles that a run's figures are told by; 0 for no values.

#include "core/outlook/outlook.h"
#include "core/units/slot_quantiles.h"

#include <vector>

namespace ullage {

inline RunQuantiles run_quantiles(const std::vector<double>& values) {
    const auto all = SlotQuantiles<double>().of<3>(values.data(), values.size(), {0.5, 0.9, 0.95});
    return {all[0], all[1], all[2]};
}

}  // namespace ullage
