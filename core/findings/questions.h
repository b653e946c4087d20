// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Answers to the backward questions and the outage drill, as text for people and as JSON.

#include "core/outlook/outage_drill.h"
#include "core/outlook/solve.h"
#include "core/words/wording.h"

#include <string>

namespace ullage {

/// One line or two for each link or box; sizes and rates in decimal units.
std::string solve_text(const SolveAnswer& answer, Language language = Language::english);
std::string drill_text(const OutageDrill& drill, Language language = Language::english);

/// { "format": "ullage-solve" | "ullage-outage", "version": 1, … }; keys say their units as in the
/// outlook; what does not exist is null.
std::string solve_json(const SolveAnswer& answer);
std::string drill_json(const OutageDrill& drill, Language language = Language::english);

}  // namespace ullage
