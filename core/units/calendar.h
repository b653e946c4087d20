// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Dates, instants and the site's time zone.
///
/// `Day` is a civil date, `Instant` a moment in UTC (whole seconds since 1970). A `TimeZone` turns
/// one into the other by the IANA rules, daylight saving included, for any year (the rule line at
/// the end of a zone file carries on beyond the last listed change).
/// A local time that does not exist (clocks go forward) is the moment the clocks jump; one that
/// exists twice (clocks go back) is the first.

#include <chrono>
#include <memory>
#include <string>
#include <string_view>
#include <tl/expected.hpp>

namespace ullage {

using Day = std::chrono::sys_days;
using Instant = std::chrono::sys_seconds;

/// "2026-11-01" → Day; anything else, or a date that does not exist, is an error sentence.
/// Years 1900 to 9999.
tl::expected<Day, std::string> parse_date(std::string_view text);
/// ISO 8601 date and time ("2026-11-01T04:00:00Z", offset allowed, seconds optional, no offset means
/// UTC; a fraction of a second is dropped), a bare date (midnight UTC), or whole seconds since 1970.
tl::expected<Instant, std::string> parse_instant(std::string_view text);
/// "20:00", "06:30", "24:00", "23:59:30" → seconds since midnight, 0…86400.
tl::expected<int, std::string> parse_time_of_day(std::string_view text);

std::string format_date(Day);                  ///< "2026-11-01"
std::string format_month(Day);                 ///< "Nov 2026"
std::string format_instant(Instant);           ///< "2026-11-01T04:00:00Z"
std::string format_time_of_day(int seconds);   ///< "20:00"; "20:00:30" off the minute

double days_between(Instant a, Instant b);  ///< (b − a) in days, fractions included
Instant add_days(Instant, double days);      ///< rounded to the second
/// Rounded down to a whole day; stops at the years 1900 and 9999.
Day add_days(Day, double days);
/// 0 = Monday … 6 = Sunday (ISO 8601).
int weekday_of(Day);

/// A zone of the IANA database. Cheap to copy; UTC by default.
class TimeZone {
public:
    TimeZone();
    /// An error sentence for a name the system's database does not hold.
    static tl::expected<TimeZone, std::string> find(const std::string& iana_name);

    const std::string& name() const { return name_; }
    /// The moment of a local date and time of day (0…86400 seconds after local midnight by the
    /// clock on the wall, not by elapsed time).
    Instant instant_of(Day local_date, int seconds_of_day = 0) const;
    Day local_day(Instant) const;
    int local_seconds_of_day(Instant) const;  ///< wall clock, 0…86399
    bool operator==(const TimeZone& other) const { return name_ == other.name_; }

private:
    class Zone;
    std::string name_ = "UTC";
    std::shared_ptr<const Zone> zone_;  ///< null for UTC
};

}  // namespace ullage
