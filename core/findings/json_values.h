// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Numbers as they stand in the JSON answers: the same text on every machine.

#include <optional>

namespace ullage {

/// Rounded to nine significant digits; empty if not finite.
std::optional<double> nine_digits(double value);
/// To the byte; empty if not finite.
std::optional<long long> whole_bytes(double value);

}  // namespace ullage
