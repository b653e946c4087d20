// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// JSON of what a listing shows, the same in an outlook and in a measurement. Numbers are bytes and days.

#include "core/outlook/outlook.h"

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <vector>

namespace ullage {

/// null without one; else { live_error, live_inside, freed_error, freed_inside, origins: [ { origin, snapshots,
/// live_bytes, live: [ { at, p10, p50, p90, came } ], freed: […] } ] }.
nlohmann::ordered_json backtest_json(const std::optional<Backtest>&);

/// [ { gap_days, freed_bytes, low_bytes, high_bytes, steps } ]
nlohmann::ordered_json measured_steps_json(const std::vector<MeasuredStep>&);

}  // namespace ullage
