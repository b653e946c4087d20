// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/json_values.h"

#include <fmt/format.h>
#include <charconv>
#include <cmath>

namespace ullage {

std::optional<double> nine_digits(double value) {
    if (!std::isfinite(value)) return {};
    const std::string digits = fmt::format("{:.9g}", value);
    double rounded = 0;
    std::from_chars(digits.data(), digits.data() + digits.size(), rounded);
    return rounded;
}

std::optional<long long> whole_bytes(double value) {
    if (!std::isfinite(value)) return {};
    return std::llround(value);
}

}  // namespace ullage
