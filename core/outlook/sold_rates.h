// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Line rates that are sold: a list of text, one rate a line ("100 Mbit/s"), `#` begins a comment.

#include "core/units/problem.h"
#include "core/units/units.h"

#include <optional>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace ullage {

/// Rising, each once. Problems carry "line 12". An empty list is a problem.
tl::expected<std::vector<BitsPerSecond>, Problems> parse_sold_rates(std::string_view text);

/// The list that came with the program (resources/line-rates.txt).
std::vector<BitsPerSecond> usual_sold_rates();

/// The least of them that is at least `needed`; empty if none is.
std::optional<BitsPerSecond> rounded_up(BitsPerSecond needed,
                                        const std::vector<BitsPerSecond>& sold);

}  // namespace ullage
