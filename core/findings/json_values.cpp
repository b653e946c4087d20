// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/json_values.h"

#include <charconv>
#include <cmath>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace ullage::json {

Value number(double value) {
    if (!std::isfinite(value)) return nullptr;
    const std::string digits = fmt::format("{:.9g}", value);
    double rounded = 0;
    std::from_chars(digits.data(), digits.data() + digits.size(), rounded);
    return rounded;
}

Value number(const std::optional<double>& value) { return value ? number(*value) : Value(nullptr); }

Value bytes(double value) {
    if (!std::isfinite(value)) return nullptr;
    // Beyond 2^63 (9 EB) a byte more or less cannot be held.
    if (std::fabs(value) >= 9.2e18) return number(value);
    return std::llround(value);
}

Value bytes(const std::optional<double>& value) { return value ? bytes(*value) : Value(nullptr); }

Value run_quantiles(const RunQuantiles& q) {
    return {{"p50", number(q.p50)}, {"p90", number(q.p90)}, {"p95", number(q.p95)}};
}

Value byte_quantiles(const RunQuantiles& q) {
    return {{"p50", bytes(q.p50)}, {"p90", bytes(q.p90)}, {"p95", bytes(q.p95)}};
}

std::string text_of(const Value& document) {
    return document.dump(1, ' ', false, Value::error_handler_t::replace) + "\n";
}

}  // namespace ullage::json
