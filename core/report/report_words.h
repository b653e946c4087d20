// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Figures as the report says them.

#include "core/findings/findings.h"

#include <optional>
#include <string>

namespace ullage::report {

/// "fits", "tight", "overruns"; empty for a note.
std::string level_words(Level, const Wording&);
/// "between 11 and 19 months", "between 45 days and about 14 months"; the same said once. After "takes".
std::string say_between(double low_days, double high_days, const Wording&);
/// "about 14 months (Jan 2028)", "today", "not within 5 years".
std::string when(const Outlook&, const std::optional<double>& days, const Wording&);
/// Share of its usable bytes that a box's ceiling is: "80 %".
std::string ceiling_share(const BoxOutlook&, const Wording&);
/// Share of runs or futures, where "none" and "all" are exact: "4 %", "fewer than 0.1 %".
std::string say_share(double share, const Wording&);

}  // namespace ullage::report
