// SPDX-License-Identifier: GPL-3.0-or-later
// The grids are the program's own contract (core/site/site.h, Period). Dates of the clock changes in
// Berlin: 2026-03-29 01:00 UTC and 2026-10-25 01:00 UTC (IANA time zone database, Europe/Berlin).
#include "core/retention/ladder.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <string>
#include <vector>

namespace ullage {
namespace {

using Unit = Period::Unit;

Instant at(const std::string& text) {
    const auto t = parse_instant(text);
    EXPECT_TRUE(t) << text;
    return t.value_or(Instant());
}

std::vector<std::string> texts(const std::vector<Instant>& list) {
    std::vector<std::string> out;
    for (const auto t : list) out.push_back(format_instant(t));
    return out;
}

std::vector<std::string> grid(Period p, const std::string& zone, const std::string& from,
                              const std::string& to, int at_second = 0) {
    return texts(CalendarGrid(p, *TimeZone::find(zone), at_second).between(at(from), at(to)));
}

using List = std::vector<std::string>;

TEST(CalendarGrid, WeeksBeginOnMondays) {
    // 2026-11-02 is a Monday (ISO 8601 weekday; `date -d 2026-11-02 +%u` says 1).
    EXPECT_EQ(grid({1, Unit::week}, "UTC", "2026-11-01", "2026-11-17"),
              (List{"2026-11-02T00:00:00Z", "2026-11-09T00:00:00Z", "2026-11-16T00:00:00Z"}));
    // Every two weeks counts from Monday 1970-01-05, 2965 weeks before 2026-11-02: an odd number.
    EXPECT_EQ(grid({2, Unit::week}, "UTC", "2026-11-01", "2026-11-24"),
              (List{"2026-11-09T00:00:00Z", "2026-11-23T00:00:00Z"}));
}

TEST(CalendarGrid, MonthsBeginOnTheFirstAndYearsInJanuary) {
    EXPECT_EQ(grid({1, Unit::month}, "UTC", "2026-01-02", "2026-04-01"),
              (List{"2026-02-01T00:00:00Z", "2026-03-01T00:00:00Z", "2026-04-01T00:00:00Z"}));
    EXPECT_EQ(grid({3, Unit::month}, "UTC", "2026-01-02", "2027-01-01"),
              (List{"2026-04-01T00:00:00Z", "2026-07-01T00:00:00Z", "2026-10-01T00:00:00Z",
                    "2027-01-01T00:00:00Z"}));
    EXPECT_EQ(grid({1, Unit::year}, "UTC", "2026-01-02", "2028-12-31"),
              (List{"2027-01-01T00:00:00Z", "2028-01-01T00:00:00Z"}));
    EXPECT_EQ(grid({2, Unit::year}, "UTC", "2026-01-02", "2031-12-31"),
              (List{"2028-01-01T00:00:00Z", "2030-01-01T00:00:00Z"}));
}

TEST(CalendarGrid, SeveralDaysCountFrom1970AlsoBeforeIt) {
    for (const int n : {2, 5, 7, 30}) {
        const auto points = CalendarGrid({n, Unit::day}, TimeZone()).between(at("1969-01-01"), at("2027-01-01"));
        ASSERT_FALSE(points.empty());
        for (const auto p : points) EXPECT_EQ(p.time_since_epoch().count() % (n * 86400), 0);
        for (std::size_t i = 1; i < points.size(); ++i)
            EXPECT_EQ((points[i] - points[i - 1]).count(), n * 86400);
    }
}

TEST(CalendarGrid, HoursAndMinutesCountFromMidnight) {
    EXPECT_EQ(grid({5, Unit::hour}, "UTC", "2026-11-02T00:00:01Z", "2026-11-03T06:00:00Z"),
              (List{"2026-11-02T05:00:00Z", "2026-11-02T10:00:00Z", "2026-11-02T15:00:00Z",
                    "2026-11-02T20:00:00Z", "2026-11-03T00:00:00Z", "2026-11-03T05:00:00Z"}));
    EXPECT_EQ(grid({15, Unit::minute}, "UTC", "2026-11-02T23:31:00Z", "2026-11-03T00:15:00Z"),
              (List{"2026-11-02T23:45:00Z", "2026-11-03T00:00:00Z", "2026-11-03T00:15:00Z"}));
    // India is 5:30 ahead: midnight there is 18:30 UTC.
    EXPECT_EQ(grid({12, Unit::hour}, "Asia/Kolkata", "2026-11-02", "2026-11-02T23:59:59Z"),
              (List{"2026-11-02T06:30:00Z", "2026-11-02T18:30:00Z"}));
}

TEST(CalendarGrid, ATimeOfDayShiftsDaysAndLongerAndHoursModuloTheirPeriod) {
    EXPECT_EQ(grid({1, Unit::day}, "UTC", "2026-11-01", "2026-11-02", 20 * 3600), (List{"2026-11-01T20:00:00Z"}));
    EXPECT_EQ(grid({1, Unit::week}, "UTC", "2026-11-01", "2026-11-08", 6 * 3600), (List{"2026-11-02T06:00:00Z"}));
    // 20:15 modulo 2 h is 00:15.
    EXPECT_EQ(grid({2, Unit::hour}, "UTC", "2026-11-02", "2026-11-02T05:00:00Z", 20 * 3600 + 900),
              (List{"2026-11-02T00:15:00Z", "2026-11-02T02:15:00Z", "2026-11-02T04:15:00Z"}));
}

TEST(CalendarGrid, DaysKeepToLocalMidnightAcrossBothClockChanges) {
    EXPECT_EQ(grid({1, Unit::day}, "Europe/Berlin", "2026-03-28", "2026-03-30T23:00:00Z"),
              (List{"2026-03-28T23:00:00Z", "2026-03-29T22:00:00Z", "2026-03-30T22:00:00Z"}));
    EXPECT_EQ(grid({1, Unit::day}, "Europe/Berlin", "2026-10-24", "2026-10-26T23:00:00Z"),
              (List{"2026-10-24T22:00:00Z", "2026-10-25T23:00:00Z", "2026-10-26T23:00:00Z"}));
}

TEST(CalendarGrid, HoursOfTheDayTheClocksGoForwardAreTwentyThree) {
    const auto points = grid({1, Unit::hour}, "Europe/Berlin", "2026-03-28T23:00:00Z", "2026-03-29T21:59:59Z");
    EXPECT_EQ(points.size(), 23u);
    // 02:00 does not exist: it is the moment of the jump, which is 03:00 as well.
    EXPECT_EQ(std::count(points.begin(), points.end(), "2026-03-29T01:00:00Z"), 1);
}

TEST(CalendarGrid, OfAnHourShownTwiceOnlyTheFirstIsOnTheGrid) {
    EXPECT_EQ(grid({1, Unit::hour}, "Europe/Berlin", "2026-10-24T23:30:00Z", "2026-10-25T02:30:00Z"),
              (List{"2026-10-25T00:00:00Z", "2026-10-25T02:00:00Z"}));
    EXPECT_EQ(grid({20, Unit::minute}, "Europe/Berlin", "2026-10-25T00:00:00Z", "2026-10-25T02:00:00Z"),
              (List{"2026-10-25T00:00:00Z", "2026-10-25T00:20:00Z", "2026-10-25T00:40:00Z",
                    "2026-10-25T02:00:00Z"}));
}

TEST(CalendarGrid, TheLastPointAtOrBeforeAndTheNextAfterEncloseEveryInstant) {
    std::mt19937_64 random(51);
    const std::vector<Period> periods = {{10, Unit::minute}, {45, Unit::minute}, {1, Unit::hour}, {5, Unit::hour},
                                         {1, Unit::day}, {3, Unit::day}, {1, Unit::week}, {2, Unit::week},
                                         {1, Unit::month}, {5, Unit::month}, {1, Unit::year}};
    for (const char* zone : {"UTC", "Europe/Berlin", "America/New_York", "Australia/Lord_Howe", "Asia/Kolkata"})
        for (const auto& period : periods)
            for (const int shift : {0, 20 * 3600 + 600}) {
                const CalendarGrid g(period, *TimeZone::find(zone), shift);
                for (int trial = 0; trial < 60; ++trial) {
                    // Half of the instants near Berlin's two changes of 2026.
                    const std::int64_t near = trial % 4 == 0   ? at("2026-03-29T01:00:00Z").time_since_epoch().count()
                                              : trial % 4 == 1 ? at("2026-10-25T01:00:00Z").time_since_epoch().count()
                                                               : 0;
                    const auto span = near != 0 ? std::int64_t(4 * 3600) : std::int64_t(2'000'000'000);
                    const Instant t(std::chrono::seconds(
                        near + std::int64_t(random() % std::uint64_t(span)) - (near != 0 ? span / 2 : 0)));
                    const Instant before = g.at_or_before(t);
                    const Instant next = g.after(t);
                    const std::string where = std::string(zone) + " " + format_instant(t);
                    ASSERT_LE(before, t) << where;
                    ASSERT_GT(next, t) << where;
                    EXPECT_EQ(g.at_or_before(before), before) << where;
                    EXPECT_EQ(g.after(before), next) << where << ": nothing lies between";
                    EXPECT_EQ(g.at_or_before(next), next) << where;
                    EXPECT_EQ(g.at_or_before(next - std::chrono::seconds(1)), before) << where;
                    EXPECT_EQ(texts(g.between(before, next)), (List{format_instant(before), format_instant(next)}));
                }
            }
}

TEST(CalendarGrid, AllPointsOfAStretchAreTheOnesThatFollowEachOther) {
    // Clocks changed at night, at midnight and by half an hour (IANA time zone database).
    const std::vector<std::pair<const char*, const char*>> places = {{"UTC", "2026-03-20"}, {"Europe/Berlin", "2026-03-20"},
        {"America/New_York", "2026-10-25"}, {"Asia/Beirut", "2026-03-20"}, {"Australia/Lord_Howe", "2026-03-28"},
        {"Africa/Cairo", "2026-10-20"}, {"America/Sao_Paulo", "2018-10-28"}};
    const std::vector<Period> periods = {{20, Unit::minute}, {1, Unit::hour}, {7, Unit::hour}, {1, Unit::day}, {2, Unit::day},
                                         {1, Unit::week}, {1, Unit::month}};
    for (const auto& [zone, day] : places)
        for (const auto& period : periods)
            for (const int shift : {0, 5 * 60, 2 * 3600 + 1800}) {
                const CalendarGrid g(period, *TimeZone::find(zone), shift);
                const Instant from = at(day) + std::chrono::seconds(4321), to = from + std::chrono::days(20);
                std::vector<Instant> one_by_one;
                for (Instant p = g.after(from - std::chrono::seconds(1)); p <= to; p = g.after(p)) one_by_one.push_back(p);
                EXPECT_EQ(texts(g.between(from, to)), texts(one_by_one)) << zone << ", shifted " << shift;
                if (one_by_one.empty()) continue;
                EXPECT_EQ(g.between(one_by_one.front(), one_by_one.back()), one_by_one) << "both ends count";
            }
    EXPECT_TRUE(grid({1, Unit::hour}, "UTC", "2026-03-02", "2026-03-01").empty());
}

}  // namespace
}  // namespace ullage
