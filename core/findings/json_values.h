// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Numbers as they stand in the JSON answers: the same text on every machine. What is not finite is null.

#include "core/outlook/outlook.h"

#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>

namespace ullage::json {

using Value = nlohmann::ordered_json;

/// Rounded to nine significant digits.
Value number(double value);
Value number(const std::optional<double>& value);
/// To the byte.
Value bytes(double value);
Value bytes(const std::optional<double>& value);
/// { p50, p90, p95 }, as numbers and as bytes.
Value run_quantiles(const RunQuantiles& q);
Value byte_quantiles(const RunQuantiles& q);
/// A whole document. A name built in code may hold anything; what is not UTF-8 is replaced.
std::string text_of(const Value& document);

}  // namespace ullage::json
