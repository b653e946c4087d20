// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/report/report_words.h"

#include <cmath>

namespace ullage::report {

namespace {

/// A span's number and unit: what is said as "about 14 months" is {14, months}.
struct Rounded {
    enum class Unit { days, months, years } unit = Unit::days;
    double n = 0;
};

Rounded rounded(double days) {
    constexpr double month = days_per_year / 12;
    if (days < 60) return {Rounded::Unit::days, std::round(days)};
    if (days < 24 * month) return {Rounded::Unit::months, std::round(days / month)};
    return {Rounded::Unit::years, std::round(days / days_per_year * 10) / 10};
}

}  // namespace

std::string level_words(Level level, const Wording& w) { return level == Level::note ? std::string() : level_word(level, w); }

std::string say_between(double low_days, double high_days, const Wording& w) {
    const std::string low = w.span(low_days), high = w.span(high_days);
    if (low == high) return low;
    const Rounded from = rounded(low_days), to = rounded(high_days);
    const auto figure = [&](const Rounded& r) { return w.number(r.n, 6); };
    const auto alone = [&](const Rounded& r) {
        const long n = std::lround(r.n);
        if (r.unit == Rounded::Unit::days) return w.say_n_as("dative", "{} day", "{} days", n, n);
        if (r.unit == Rounded::Unit::months) return w.say_n_as("dative", "{} month", "{} months", n, n);
        return w.say_as("dative", "{} years", figure(r));
    };
    if (from.unit != to.unit || std::lround(from.n) == 1) return w.say("between {0} and {1}", alone(from), alone(to));
    return w.say("between {0} and {1}", figure(from), alone(to));
}

std::string when(const Outlook& o, const std::optional<double>& days, const Wording& w) {
    if (!days) return w.say("not within {0}", w.horizon(o.horizon_days, Case::dative));
    if (*days <= 0) return w.say("today");
    return w.span(*days) + " (" + month_of(o.as_of, *days, w) + ")";
}

std::string ceiling_share(const BoxOutlook& b, const Wording& w) {
    return w.percent(b.usable_bytes > 0 ? b.ceiling_bytes / b.usable_bytes : 0);
}

std::string say_share(double share, const Wording& w) {
    constexpr double least = 0.001;
    if (share <= 0) return w.say_as("share", "none");
    if (share >= 1) return w.say_as("share", "all");
    if (share < least) return w.say("fewer than 0.1 %");
    constexpr double small = 0.05;  // said to one digit, as the findings do
    return share > 1 - least ? w.say("more than 99.9 %") : w.percent(share, share < small ? 1 : 2);
}

}  // namespace ullage::report
