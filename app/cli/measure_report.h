// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What a listing says, as text and as JSON.

#include "core/measure/measure.h"

#include <string>
#include <vector>

namespace ullage::cli {

std::string measure_text(const std::vector<Measurement>& all);
std::string measure_json(const std::vector<Measurement>& all);

}  // namespace ullage::cli
