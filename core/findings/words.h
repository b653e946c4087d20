// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Chances and limits as the sentences of the findings say them. Without a wording: in English.

#include "core/link/goodput.h"
#include "core/units/calendar.h"
#include "core/words/wording.h"

#include <string>

namespace ullage {

/// "1 in 10 futures", "half of the futures", "more than 9 in 10 futures": chances as people count them. German
/// has them after "in".
std::string chance_of_futures(double chance, const Wording& w = Wording());
/// The same of runs.
std::string chance_of_runs(double chance, const Wording& w = Wording());
/// "9 of 10 futures", "95 % of futures", "all futures drawn", "no future drawn": after "in".
std::string say_futures(double share, const Wording& w = Wording());
/// "the receive window over the round trip", as a subject.
std::string limit_words(Limit limit, const Wording& w = Wording());
/// One step of a line's chain of limits: "after its share", "with Ethernet frames".
std::string step_words(const std::string& step, const Wording& w = Wording());
/// "Nov 2026"
std::string month_of(Day as_of, double days, const Wording& w = Wording());

/// In English, as Wording says them.
std::string say_days(double days);
std::string say_horizon(double days);
std::string say_hours(double hours);
std::string say_money(double amount, const std::string& currency);

}  // namespace ullage
