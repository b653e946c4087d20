// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/words.h"

#include "core/findings/findings.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>

namespace ullage {

std::string plural(long n, const char* one, const char* many) {
    return fmt::format("{} {}", n, n == 1 ? one : many);
}

std::string say_chance(double chance) {
    const long tenths = std::lround(chance * 10);
    if (chance <= 0) return "none";
    if (chance >= 1) return "all";
    if (tenths == 0) return "fewer than 1 in 10";
    if (tenths == 10) return "more than 9 in 10";
    if (tenths == 5) return "half of the";
    return fmt::format("{} in 10", tenths);
}

std::string say_futures(double share) {
    if (share <= 0) return "no future drawn";
    if (share >= 1) return "all futures drawn";
    const double tenths = share * 10;
    if (std::abs(tenths - std::round(tenths)) < 1e-6) return fmt::format("{:.0f} of 10 futures", tenths);
    const double percent = std::clamp(std::round(share * 100), 1.0, 99.0);
    return fmt::format("{:.0f} % of futures", percent);
}

std::string say_money(double amount, const std::string& currency) {
    std::string text = fmt::format("{:.{}f}", amount, std::abs(amount) < 100 ? 2 : 0);
    if (std::abs(amount) >= 10 && std::abs(amount) < 100) text = fmt::format("{:.1f}", amount);
    const std::size_t point = text.find('.');
    std::size_t at = point == std::string::npos ? text.size() : point;
    const std::size_t first = text.front() == '-' ? 1 : 0;
    while (at > first + 3) text.insert(at -= 3, ",");
    return text + " " + currency;
}

std::string say_horizon(double days) {
    const double years = days / days_per_year;
    if (std::abs(years - std::round(years)) < 0.01 && years >= 0.99)
        return plural(std::lround(years), "year", "years");
    return plural(std::lround(days), "day", "days");
}

std::string say_hours(double hours) {
    if (hours < 1) return plural(std::max(1L, std::lround(hours * 60)), "minute", "minutes");
    if (hours < 10) return fmt::format("{:.1f} hours", hours);
    if (hours < 72) return plural(std::lround(hours), "hour", "hours");
    return plural(std::lround(hours / 24), "day", "days");
}

std::string limit_words(Limit limit) {
    switch (limit) {
        case Limit::rate:
            return "the line's own rate";
        case Limit::window:
            return "the receive window over the round trip";
        case Limit::loss:
            return "packet loss";
        case Limit::cipher:
            return "the speed of the cipher";
        case Limit::disk:
            return "the speed of the disks";
        case Limit::hours:
            return "the time the line is open";
    }
    return {};
}

std::string month_of(Day as_of, double days) { return format_month(add_days(as_of, days)); }

std::string say_days(double days) {
    constexpr double month = days_per_year / 12;
    if (days < 60) return plural(std::lround(days), "day", "days");
    if (days < 24 * month) return fmt::format("about {} months", std::lround(days / month));
    const double years = std::round(days / days_per_year * 10) / 10;
    return years == std::floor(years) ? fmt::format("about {:.0f} years", years)
                                      : fmt::format("about {:.1f} years", years);
}

}  // namespace ullage
