// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Numbers and limits as the sentences of the findings say them.

#include "core/link/goodput.h"
#include "core/units/calendar.h"

#include <string>

namespace ullage {

/// "1 run", "2 runs".
std::string plural(long n, const char* one, const char* many);
/// "1 in 10", "half of the", "9 in 10": chances as people count them, before "futures" or "runs".
std::string say_chance(double chance);
/// "9 of 10 futures", "95 % of futures", "all futures drawn", "no future drawn": after "in".
std::string say_futures(double share);
/// "2,150 EUR": whole units from 100 up, else three digits.
std::string say_money(double amount, const std::string& currency);
/// A horizon is exact, not "about": "5 years", "400 days".
std::string say_horizon(double days);
/// "40 minutes", "2.5 hours", "4 days"; hours ≥ 0.
std::string say_hours(double hours);
/// "the receive window over the round trip"
std::string limit_words(Limit limit);
/// "Nov 2026"
std::string month_of(Day as_of, double days);

}  // namespace ullage
