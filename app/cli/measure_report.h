// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What a listing says, as text and as JSON.

#include "core/measure/measure.h"
#include "core/outlook/outlook.h"

#include <optional>
#include <string>
#include <vector>

namespace ullage::cli {

/// One dataset of a listing.
struct Measured {
    Measurement measurement;
    std::vector<MeasuredStep> steps;
    std::optional<Backtest> backtest;
};

std::string measure_text(const std::vector<Measured>& all);
std::string measure_json(const std::vector<Measured>& all);

}  // namespace ullage::cli
