// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site.h"

namespace ullage {

Duration Period::length() const {
    constexpr double mean_month = days_per_year / 12;
    switch (unit) {
        case Unit::minute:
            return seconds(n * seconds_per_minute);
        case Unit::hour:
            return hours(n);
        case Unit::day:
            return days(n);
        case Unit::week:
            return days(n * days_per_week);
        case Unit::month:
            return days(n * mean_month);
        case Unit::year:
            return days(n * days_per_year);
    }
    return {};
}

Duration Rung::lasts() const {
    if (keep_for) return keep_for->value;
    return every.value.length() * count.value_or(0);
}

}  // namespace ullage
