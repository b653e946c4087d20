// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/calendar.h"

#include <cctz/time_zone.h>
#include <gtest/gtest.h>

#include <array>
#include <chrono>
#include <cstdint>
#include <cmath>
#include <limits>
#include <random>
#include <string>
#include <vector>

namespace ullage {
namespace {

using namespace std::chrono_literals;

Day day(int year, unsigned month, unsigned dom) {
    return Day{std::chrono::year{year} / std::chrono::month{month} / std::chrono::day{dom}};
}

template <class T>
std::string error_of(const tl::expected<T, std::string>& parsed) {
    return parsed ? "no error" : parsed.error();
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

#define EXPECT_SAYS(text, part) EXPECT_TRUE(contains(text, part)) << (text)

TEST(Calendar, DatesThatExistAreRead) {
    EXPECT_EQ(parse_date("2026-11-01"), day(2026, 11, 1));
    EXPECT_EQ(parse_date("1900-01-01"), day(1900, 1, 1));
    EXPECT_EQ(parse_date("9999-12-31"), day(9999, 12, 31));
}

TEST(Calendar, LeapDaysFollowTheGregorianRule) {
    // ISO 8601: a century is a leap year only if 400 divides it.
    EXPECT_EQ(parse_date("2028-02-29"), day(2028, 2, 29));
    EXPECT_EQ(parse_date("2000-02-29"), day(2000, 2, 29));
    EXPECT_SAYS(error_of(parse_date("2100-02-29")), "February 2100 has 28 days");
    EXPECT_SAYS(error_of(parse_date("2027-02-29")), "February 2027 has 28 days");
}

TEST(Calendar, DatesThatDoNotExistSayWhy) {
    EXPECT_SAYS(error_of(parse_date("2026-13-01")), "no month 13");
    EXPECT_SAYS(error_of(parse_date("2026-00-10")), "no month 0");
    EXPECT_SAYS(error_of(parse_date("2026-04-31")), "April 2026 has 30 days");
    EXPECT_SAYS(error_of(parse_date("2026-04-00")), "no day 0");
    EXPECT_SAYS(error_of(parse_date("1899-12-31")), "outside 1900 to 9999");
}

TEST(Calendar, OtherFormsOfADateAreRefused) {
    for (const std::string text :
         {"", "2026", "2026-11", "2026-1-1", "01.11.2026", "11/01/2026", "20261101", "2026-11-01 ",
          " 2026-11-01", "2026-11-01T00:00", "-2026-11-01", "12026-11-01"}) {
        EXPECT_SAYS(error_of(parse_date(text)), "2026-11-01\"");
    }
}

TEST(Calendar, DatesReadBackAsWritten) {
    for (Day d = day(1900, 1, 1); d <= day(9999, 12, 31); d += std::chrono::days{97}) {
        ASSERT_EQ(parse_date(format_date(d)), d);
    }
    EXPECT_EQ(format_date(day(2026, 3, 7)), "2026-03-07");
    EXPECT_EQ(format_month(day(2026, 11, 30)), "Nov 2026");
    EXPECT_EQ(format_month(day(2027, 1, 1)), "Jan 2027");
}

TEST(Calendar, MomentsAreReadWithTheirOffset) {
    const Instant four = Instant{day(2026, 11, 1)} + 4h;
    for (const std::string text : {"2026-11-01T04:00:00Z", "2026-11-01T04:00Z", "2026-11-01 04:00",
                                   "2026-11-01T04:00:00.75Z", "2026-11-01T05:00:00+01:00",
                                   "2026-10-31T22:30:00-0530", "2026-11-01T06:00+02"}) {
        EXPECT_EQ(parse_instant(text), four) << text << error_of(parse_instant(text));
    }
    EXPECT_EQ(parse_instant("2026-11-01"), Instant{day(2026, 11, 1)});
    EXPECT_EQ(parse_instant("2026-10-31T24:00:00Z"), Instant{day(2026, 11, 1)});
}

TEST(Calendar, WholeSecondsSince1970AreAMoment) {
    EXPECT_EQ(parse_instant("0"), Instant{});
    EXPECT_EQ(parse_instant("-1"), Instant{} - 1s);
    // 1 000 000 000 s after 1970: 2001-09-09T01:46:40Z (from memory).
    EXPECT_EQ(parse_instant("1000000000"), parse_instant("2001-09-09T01:46:40Z"));
    EXPECT_SAYS(error_of(parse_instant("1793505600000")), "milliseconds");
    EXPECT_SAYS(error_of(parse_instant("99999999999999999999999")), "outside the years");
    EXPECT_EQ(format_instant(*parse_instant("253402300799")), "9999-12-31T23:59:59Z");
    EXPECT_SAYS(error_of(parse_instant("253402300800")), "outside the years");
}

TEST(Calendar, MalformedMomentsSayWhatIsExpected) {
    EXPECT_SAYS(error_of(parse_instant("")), "2026-11-01T04:00:00Z");
    EXPECT_SAYS(error_of(parse_instant("yesterday")), "2026-11-01T04:00:00Z");
    EXPECT_SAYS(error_of(parse_instant("2026-11-01x04:00")), "after the date comes T");
    EXPECT_SAYS(error_of(parse_instant("2026-11-01T25:00Z")), "00:00 to 24:00");
    EXPECT_SAYS(error_of(parse_instant("2026-11-01T06+02")), "not a time of day");
    EXPECT_SAYS(error_of(parse_instant("2026-11-01T04:60Z")), "00:00 to 24:00");
    EXPECT_SAYS(error_of(parse_instant("2026-11-01T04:00 CET")), "offset from UTC");
    EXPECT_SAYS(error_of(parse_instant("2026-11-01T04:00:00+1")), "offset from UTC");
    EXPECT_SAYS(error_of(parse_instant("2026-02-30T04:00:00Z")), "February 2026 has 28 days");
}

TEST(Calendar, MomentsReadBackAsWritten) {
    for (Instant t = Instant{day(1900, 1, 1)}; t < Instant{day(2200, 1, 1)}; t += 1234567s) {
        ASSERT_EQ(parse_instant(format_instant(t)), t);
    }
}

TEST(Calendar, TimesOfDay) {
    EXPECT_EQ(parse_time_of_day("00:00"), 0);
    EXPECT_EQ(parse_time_of_day("20:00"), 72000);
    EXPECT_EQ(parse_time_of_day("6:30"), 23400);
    EXPECT_EQ(parse_time_of_day("24:00"), 86400);
    EXPECT_EQ(parse_time_of_day("23:59:30"), 86370);
    for (const std::string text : {"", "20", "20:0", "24:01", "25:00", "20:60", "20:00:60", "8 pm",
                                   "20:00 ", "-1:00", "20h"}) {
        EXPECT_SAYS(error_of(parse_time_of_day(text)), "time of day");
    }
    for (int s = 0; s <= 86400; s += 7) ASSERT_EQ(parse_time_of_day(format_time_of_day(s)), s);
    EXPECT_EQ(format_time_of_day(72000), "20:00");
}

TEST(Calendar, DaysBetweenAndAddedDays) {
    EXPECT_DOUBLE_EQ(days_between(Instant{}, Instant{} + 36h), 1.5);
    EXPECT_DOUBLE_EQ(days_between(Instant{} + 6h, Instant{}), -0.25);
    EXPECT_EQ(add_days(day(2028, 2, 28), 1.9), day(2028, 2, 29));
    EXPECT_EQ(add_days(day(2028, 3, 1), -0.1), day(2028, 2, 29));
    EXPECT_EQ(add_days(day(2026, 1, 1), 1e300), day(9999, 12, 31));
    EXPECT_EQ(add_days(day(2026, 1, 1), -1e300), day(1900, 1, 1));
    EXPECT_EQ(add_days(day(2026, 1, 1), std::nan("")), day(2026, 1, 1));
}

TEST(Calendar, MondayIsTheFirstDayOfTheWeek) {
    // ISO 8601: 1 January 1970 was a Thursday.
    EXPECT_EQ(weekday_of(day(1970, 1, 1)), 3);
    EXPECT_EQ(weekday_of(day(1970, 1, 5)), 0);
    EXPECT_EQ(weekday_of(day(2026, 11, 1)), 6);
}

TEST(TimeZone, UtcIsTheDefault) {
    const TimeZone utc;
    EXPECT_EQ(utc.name(), "UTC");
    EXPECT_EQ(utc.instant_of(day(2026, 7, 1), 3600), Instant{day(2026, 7, 1)} + 1h);
    EXPECT_EQ(utc.local_day(Instant{} - 1s), day(1969, 12, 31));
    EXPECT_EQ(utc.local_seconds_of_day(Instant{} - 1s), 86399);
    EXPECT_EQ(utc.instant_of(day(2026, 7, 1), 86400), Instant{day(2026, 7, 2)});
}

// Central European Time: clocks go from 02:00 to 03:00 on the last Sunday of March and from 03:00
// to 02:00 on the last Sunday of October, at 01:00 UTC (Directive 2000/84/EC, articles 1 to 3).
TEST(TimeZone, BerlinSkipsAnHourInSpring) {
    const auto berlin = TimeZone::find("Europe/Berlin");
    ASSERT_TRUE(berlin) << berlin.error();
    const Day spring = day(2027, 3, 28);
    const Instant jump = Instant{spring} + 1h;
    EXPECT_EQ(berlin->instant_of(spring, 2 * 3600 - 1), jump - 1s);
    EXPECT_EQ(berlin->instant_of(spring, 2 * 3600), jump);
    EXPECT_EQ(berlin->instant_of(spring, 2 * 3600 + 1800), jump);
    EXPECT_EQ(berlin->instant_of(spring, 3 * 3600), jump);
    EXPECT_EQ(berlin->instant_of(spring, 4 * 3600), jump + 1h);
    EXPECT_EQ(berlin->local_seconds_of_day(jump - 1s), 2 * 3600 - 1);
    EXPECT_EQ(berlin->local_seconds_of_day(jump), 3 * 3600);
    EXPECT_EQ(berlin->instant_of(spring, 86400) - berlin->instant_of(spring, 0), 23h);
}

TEST(TimeZone, BerlinRepeatsAnHourInAutumnAndTheFirstCounts) {
    const auto berlin = TimeZone::find("Europe/Berlin");
    ASSERT_TRUE(berlin) << berlin.error();
    const Day autumn = day(2027, 10, 31);
    const Instant jump = Instant{autumn} + 1h;
    EXPECT_EQ(berlin->instant_of(autumn, 2 * 3600), jump - 1h);
    EXPECT_EQ(berlin->instant_of(autumn, 2 * 3600 + 1800), jump - 30min);
    EXPECT_EQ(berlin->instant_of(autumn, 3 * 3600), jump + 1h);
    EXPECT_EQ(berlin->local_seconds_of_day(jump - 1s), 3 * 3600 - 1);
    EXPECT_EQ(berlin->local_seconds_of_day(jump), 2 * 3600);
    EXPECT_EQ(berlin->instant_of(autumn, 86400) - berlin->instant_of(autumn, 0), 25h);
}

TEST(TimeZone, DaylightSavingCarriesOnIn2060) {
    const auto berlin = TimeZone::find("Europe/Berlin");
    ASSERT_TRUE(berlin) << berlin.error();
    EXPECT_EQ(berlin->instant_of(day(2060, 7, 1)), Instant{day(2060, 7, 1)} - 2h);
    EXPECT_EQ(berlin->instant_of(day(2060, 1, 1)), Instant{day(2060, 1, 1)} - 1h);
    // The last Sunday of March 2060 is the 28th.
    EXPECT_EQ(weekday_of(day(2060, 3, 28)), 6);
    EXPECT_EQ(berlin->instant_of(day(2060, 3, 28), 86400) - berlin->instant_of(day(2060, 3, 28)),
              23h);
}

TEST(TimeZone, LocalDayAndTimeOfDayTurnBackIntoTheMoment) {
    for (const std::string name : {"Europe/Berlin", "America/New_York", "Asia/Kathmandu",
                                   "Australia/Lord_Howe", "Pacific/Kiritimati", "Etc/GMT+12"}) {
        const auto zone = TimeZone::find(name);
        ASSERT_TRUE(zone) << zone.error();
        EXPECT_EQ(zone->name(), name);
        for (Instant t = Instant{day(2026, 1, 1)}; t < Instant{day(2031, 1, 1)}; t += 12347s) {
            const Instant back =
                zone->instant_of(zone->local_day(t), zone->local_seconds_of_day(t));
            // In the hour that is repeated the first one counts; Lord Howe's shift is 30 minutes.
            ASSERT_TRUE(back == t || back == t - 1h || back == t - 30min)
                << name << " " << format_instant(t);
        }
    }
}

// Checked against the library's own rules, moment by moment about every clock change of two centuries and a half.
TEST(TimeZone, TheTableOfOffsetsSaysWhatTheRulesSay) {
    const std::array names = {"Europe/Berlin",    "America/New_York",    "Australia/Lord_Howe", "Africa/Casablanca",
                              "Pacific/Apia",     "America/St_Johns",    "Asia/Kathmandu",      "Antarctica/Troll",
                              "Europe/Dublin",    "Pacific/Kwajalein",   "Asia/Gaza",           "Etc/GMT+12",
                              "Pacific/Kiritimati"};
    std::mt19937_64 random(20261126);
    for (const char* name : names) {
        const auto zone = TimeZone::find(name);
        ASSERT_TRUE(zone) << name;
        cctz::time_zone rules;
        ASSERT_TRUE(cctz::load_time_zone(name, &rules));
        std::vector<std::int64_t> moments;
        std::uniform_int_distribution<std::int64_t> any(-2'000'000'000, 20'000'000'000);
        for (int i = 0; i < 2000; ++i) moments.push_back(any(random));
        cctz::time_zone::civil_transition change;
        for (auto t = cctz::time_point<cctz::seconds>(cctz::seconds(-2'000'000'000)); rules.next_transition(t, &change);) {
            const auto found = rules.lookup(change.to);
            t = found.kind == cctz::time_zone::civil_lookup::REPEATED ? found.trans : found.pre;
            const std::int64_t at = t.time_since_epoch().count();
            if (at > 9'000'000'000) break;
            for (const std::int64_t off : {-90'000, -3601, -3600, -1800, -1, 0, 1, 1800, 3599, 3600, 7200, 90'000})
                moments.push_back(at + off);
        }
        for (const std::int64_t moment : moments) {
            const Instant t{std::chrono::seconds(moment)};
            const cctz::civil_second wall = cctz::convert(t, rules);
            const std::int64_t shown = wall - cctz::civil_second(1970, 1, 1);
            const Day day = std::chrono::floor<std::chrono::days>(Instant{std::chrono::seconds(shown)});
            ASSERT_EQ(zone->local_day(t), day) << name << ' ' << moment;
            ASSERT_EQ(zone->local_seconds_of_day(t), shown - Instant{day}.time_since_epoch().count()) << name << ' ' << moment;
            // The same number as a time on the wall.
            const Day on = std::chrono::floor<std::chrono::days>(t);
            const auto second = static_cast<int>((t - Instant{on}).count());
            const auto back = cctz::convert(cctz::civil_second(1970, 1, 1) + moment, rules);
            ASSERT_EQ(zone->instant_of(on, second).time_since_epoch().count(), back.time_since_epoch().count()) << name << ' ' << moment;
        }
    }
}

TEST(TimeZone, UnknownNamesAreRefused) {
    for (const std::string name :
         {"Europe/Berln", "", "localtime", "/etc/localtime", "../../etc/localtime",
          "file:/etc/localtime", "libc:localtime", "Fixed/UTC+01:00:00", "zone.tab", "tzdata.zi",
          "Europe", "Europe/", "europe/Berlin "}) {
        EXPECT_SAYS(error_of(TimeZone::find(name)), "Europe/Berlin\"");
    }
}

}  // namespace
}  // namespace ullage
