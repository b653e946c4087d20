// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/arrive/outage_span.h"

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

Day day_of(Day origin, double days) {
    return origin + std::chrono::days(static_cast<int>(std::lround(days)));
}

double days_from(Day origin, Day day) { return static_cast<double>((day - origin).count()); }

}  // namespace

OutageSpan held(OutageSpan span, const OutageLimits& limits) {
    span.days = std::clamp(span.days, 1, std::max(1, limits.most_days()));
    const Day last = limits.end - std::chrono::days(span.days);
    span.from = std::max(limits.first, std::min(span.from, last));
    return span;
}

OutageDrag::Grip OutageDrag::gripAt(const std::optional<OutageSpan>& outage, double day,
                                    double slack_days, Day origin) {
    if (!outage) return Grip::none;
    const double from = days_from(origin, outage->from), to = days_from(origin, outage->to());
    // Of a short outage the nearer edge; its middle third, if seen, moves it.
    const double reach = std::max(slack_days / 3, std::min(slack_days, (to - from) / 3));
    const double before = std::abs(day - from), after = std::abs(day - to);
    const bool outside = day < from || day > to;
    if (std::min(before, after) <= (outside ? slack_days : reach))
        return before < after ? Grip::start : Grip::end;
    return outside ? Grip::none : Grip::whole;
}

void OutageDrag::begin(Grip grip, const std::optional<OutageSpan>& outage, double day, Day origin) {
    grip_ = grip;
    before_ = outage;
    day_ = day;
    origin_ = origin;
}

OutageSpan OutageDrag::at(double day, const OutageLimits& limits) const {
    const OutageSpan was = before_.value_or(OutageSpan{day_of(origin_, day_), 1});
    const Day now = std::clamp(day_of(origin_, day), limits.first, limits.end);
    switch (grip_) {
        case Grip::start: {
            const Day from = std::min(now, was.to() - std::chrono::days(1));
            return {from, static_cast<int>((was.to() - from).count())};
        }
        case Grip::end: {
            const Day to = std::max(now, was.from + std::chrono::days(1));
            return {was.from, static_cast<int>((to - was.from).count())};
        }
        case Grip::whole:
            return held({was.from + (day_of(origin_, day) - day_of(origin_, day_)), was.days},
                        limits);
        case Grip::fresh: {
            const Day anchor = std::clamp(day_of(origin_, day_), limits.first, limits.end);
            const Day from = std::min(anchor, now);
            const auto days = static_cast<int>((std::max(anchor, now) - from).count());
            return held({from, std::max(1, days)}, limits);
        }
        case Grip::none:
            break;
    }
    return was;
}

}  // namespace ullage
