// SPDX-License-Identifier: GPL-3.0-or-later
// Dates of clock changes: Directive 2000/84/EC (last Sundays of March and October, 01:00 UTC).
#include "core/link/hours.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <random>
#include <string>
#include <vector>

namespace ullage {
namespace {

using namespace std::chrono_literals;

enum { mon, tue, wed, thu, fri, sat, sun };

TimeZone zone(const std::string& name) {
    const auto z = TimeZone::find(name);
    EXPECT_TRUE(z.has_value()) << z.error();
    return z.value_or(TimeZone());
}

Instant at(const std::string& text) {
    const auto t = parse_instant(text);
    EXPECT_TRUE(t.has_value()) << text;
    return t.value_or(Instant{});
}

/// Hours of some days; times in hours of the day.
OpenHours open(std::vector<int> days, double from_h, double to_h, double share = 1) {
    OpenHours h;
    h.days.fill(false);
    for (const int d : days) h.days[static_cast<std::size_t>(d)] = true;
    h.from = static_cast<int>(from_h * 3600);
    h.to = static_cast<int>(to_h * 3600);
    h.share = share;
    return h;
}

const std::vector<int> weekdays{mon, tue, wed, thu, fri};
const std::vector<int> every_day{mon, tue, wed, thu, fri, sat, sun};

OpenStretch stretch(const std::string& from, const std::string& to, double share = 1) {
    return {at(from), at(to), share};
}

void expect_stretches(const WeeklyHours& hours, const std::string& from, const std::string& to,
                      const std::vector<OpenStretch>& expected) {
    const auto found = hours.stretches(at(from), at(to));
    ASSERT_EQ(found.size(), expected.size());
    for (std::size_t i = 0; i < found.size(); ++i) {
        EXPECT_EQ(format_instant(found[i].from), format_instant(expected[i].from)) << i;
        EXPECT_EQ(format_instant(found[i].to), format_instant(expected[i].to)) << i;
        EXPECT_EQ(found[i].share, expected[i].share) << i;
    }
}

TEST(WeeklyHours, NoStretchAtAllIsAlwaysOpen) {
    const WeeklyHours h({}, zone("Europe/Berlin"));
    const Instant t = at("2027-03-28T00:59:59Z");
    EXPECT_TRUE(h.always_open());
    EXPECT_FALSE(h.never_opens());
    EXPECT_EQ(h.open_hours_per_week(), 168);
    EXPECT_EQ(h.share_at(t), 1);
    EXPECT_EQ(h.next_change(t), t + 8 * 24h);
    expect_stretches(h, "2027-01-01T00:00Z", "2027-12-31T00:00Z",
                     {stretch("2027-01-01T00:00Z", "2027-12-31T00:00Z")});
}

TEST(WeeklyHours, AWholeWeekAtHalfTheLineIsOpenButNotAtShareOne) {
    const WeeklyHours h({open(every_day, 0, 24, 0.5)}, TimeZone());
    EXPECT_FALSE(h.always_open());
    EXPECT_FALSE(h.never_opens());
    EXPECT_EQ(h.open_hours_per_week(), 168);
    EXPECT_EQ(h.share_at(at("2027-06-01T12:00Z")), 0.5);
    EXPECT_EQ(h.stretches(at("2027-06-01"), at("2027-08-01")).size(), 1U);
}

TEST(WeeklyHours, StretchesThatCoverTheWeekTogetherAreAlwaysOpen) {
    const WeeklyHours h(
        {open(weekdays, 6, 18), open(weekdays, 18, 6), open({sat, sun}, 0, 24), open({sun}, 12, 6)},
        TimeZone());
    EXPECT_TRUE(h.always_open());
}

TEST(WeeklyHours, SharesOfZeroOrNoDaysNeverOpen) {
    for (const auto& hours : {std::vector<OpenHours>{open(every_day, 0, 24, 0)},
                              std::vector<OpenHours>{open({}, 8, 18)},
                              std::vector<OpenHours>{open(every_day, 0, 24, -1)}}) {
        const WeeklyHours h(hours, zone("Europe/Berlin"));
        const Instant t = at("2027-06-01T12:00Z");
        EXPECT_TRUE(h.never_opens());
        EXPECT_FALSE(h.always_open());
        EXPECT_EQ(h.open_hours_per_week(), 0);
        EXPECT_EQ(h.share_at(t), 0);
        EXPECT_EQ(h.next_change(t), t + 8 * 24h);
        EXPECT_TRUE(h.stretches(t, t + 60 * 24h).empty());
    }
}

TEST(WeeklyHours, StretchesOfAWeekAreWhereThePlanSays) {
    const WeeklyHours h({open(weekdays, 20, 22.5, 0.8), open({sat}, 0, 24)}, TimeZone());
    EXPECT_EQ(h.open_hours_per_week(), 5 * 2.5 + 24);
    // 2026-11-02 is a Monday
    expect_stretches(h, "2026-11-02", "2026-11-09",
                     {stretch("2026-11-02T20:00Z", "2026-11-02T22:30Z", 0.8),
                      stretch("2026-11-03T20:00Z", "2026-11-03T22:30Z", 0.8),
                      stretch("2026-11-04T20:00Z", "2026-11-04T22:30Z", 0.8),
                      stretch("2026-11-05T20:00Z", "2026-11-05T22:30Z", 0.8),
                      stretch("2026-11-06T20:00Z", "2026-11-06T22:30Z", 0.8),
                      stretch("2026-11-07T00:00Z", "2026-11-08T00:00Z")});
}

TEST(WeeklyHours, AStretchIncludesItsStartAndNotItsEnd) {
    const WeeklyHours h({open({mon}, 20, 22)}, TimeZone());
    EXPECT_EQ(h.share_at(at("2026-11-02T19:59:59Z")), 0);
    EXPECT_EQ(h.share_at(at("2026-11-02T20:00:00Z")), 1);
    EXPECT_EQ(h.share_at(at("2026-11-02T21:59:59Z")), 1);
    EXPECT_EQ(h.share_at(at("2026-11-02T22:00:00Z")), 0);
}

TEST(WeeklyHours, AStretchAcrossMidnightBelongsToTheDayItStartsOn) {
    const WeeklyHours h({open({fri}, 19, 6, 0.8)}, TimeZone());
    EXPECT_EQ(h.open_hours_per_week(), 11);
    expect_stretches(h, "2026-11-02", "2026-11-09",
                     {stretch("2026-11-06T19:00Z", "2026-11-07T06:00Z", 0.8)});
}

TEST(WeeklyHours, AStretchFromSundayRunsIntoMonday) {
    const WeeklyHours h({open({sun}, 19, 6)}, TimeZone());
    EXPECT_EQ(h.open_hours_per_week(), 11);
    EXPECT_EQ(h.share_at(at("2026-11-02T05:59:59Z")), 1);  // Monday
    EXPECT_EQ(h.share_at(at("2026-11-02T06:00:00Z")), 0);
    EXPECT_EQ(h.next_change(at("2026-11-08T20:00Z")), at("2026-11-09T06:00Z"));
    expect_stretches(h, "2026-11-02", "2026-11-16",
                     {stretch("2026-11-02T00:00Z", "2026-11-02T06:00Z"),
                      stretch("2026-11-08T19:00Z", "2026-11-09T06:00Z"),
                      stretch("2026-11-15T19:00Z", "2026-11-16T00:00Z")});
}

TEST(WeeklyHours, EqualTimesAreTwentyFourHours) {
    const WeeklyHours h({open({sun}, 12, 12)}, TimeZone());
    EXPECT_EQ(h.open_hours_per_week(), 24);
    expect_stretches(h, "2026-11-03", "2026-11-12",
                     {stretch("2026-11-08T12:00Z", "2026-11-09T12:00Z")});
}

TEST(WeeklyHours, WhereStretchesOverlapTheLargestShareCounts) {
    const WeeklyHours h({open({mon}, 8, 20, 0.3), open({mon}, 12, 14, 1), open({mon}, 13, 18, 0.5),
                         open({mon}, 9, 10, 0.1)},
                        TimeZone());
    EXPECT_EQ(h.open_hours_per_week(), 12);
    expect_stretches(h, "2026-11-02", "2026-11-03",
                     {stretch("2026-11-02T08:00Z", "2026-11-02T12:00Z", 0.3),
                      stretch("2026-11-02T12:00Z", "2026-11-02T14:00Z", 1),
                      stretch("2026-11-02T14:00Z", "2026-11-02T18:00Z", 0.5),
                      stretch("2026-11-02T18:00Z", "2026-11-02T20:00Z", 0.3)});
}

TEST(WeeklyHours, NeighboursOfTheSameShareAreOneStretch) {
    const WeeklyHours h({open({sat}, 0, 24), open({sun}, 0, 24), open({mon}, 0, 6)}, TimeZone());
    EXPECT_EQ(h.next_change(at("2026-11-07T03:00Z")), at("2026-11-09T06:00Z"));
    expect_stretches(h, "2026-11-03", "2026-11-10",
                     {stretch("2026-11-07T00:00Z", "2026-11-09T06:00Z")});
}

TEST(WeeklyHours, StretchesAreCutAtTheEndsAskedFor) {
    const WeeklyHours h({open(every_day, 20, 22)}, TimeZone());
    expect_stretches(h, "2026-11-02T21:00Z", "2026-11-03T20:15Z",
                     {stretch("2026-11-02T21:00Z", "2026-11-02T22:00Z"),
                      stretch("2026-11-03T20:00Z", "2026-11-03T20:15Z")});
    EXPECT_TRUE(h.stretches(at("2026-11-02T21:00Z"), at("2026-11-02T21:00Z")).empty());
    EXPECT_TRUE(h.stretches(at("2026-11-02T21:00Z"), at("2026-11-01T21:00Z")).empty());
}

TEST(WeeklyHours, AStretchOverTheNightOnWhichClocksChangeIsAnHourShorterOrLonger) {
    const WeeklyHours h({open({sat}, 19, 6, 0.8)}, zone("Europe/Berlin"));
    expect_stretches(h, "2027-03-18", "2027-03-25",
                     {stretch("2027-03-20T18:00Z", "2027-03-21T05:00Z", 0.8)});  // 11 h
    expect_stretches(h, "2027-03-25", "2027-04-01",
                     {stretch("2027-03-27T18:00Z", "2027-03-28T04:00Z", 0.8)});  // 10 h
    expect_stretches(h, "2027-10-28", "2027-11-04",
                     {stretch("2027-10-30T17:00Z", "2027-10-31T05:00Z", 0.8)});  // 12 h
}

TEST(WeeklyHours, ATimeThatTheClocksSkipOpensNothing) {
    const WeeklyHours skipped({open({sun}, 2, 3)}, zone("Europe/Berlin"));
    expect_stretches(skipped, "2027-03-20", "2027-04-05",
                     {stretch("2027-03-21T01:00Z", "2027-03-21T02:00Z"),
                      stretch("2027-04-04T00:00Z", "2027-04-04T01:00Z")});
    // nothing changes for a fortnight: the longest look is 8 days
    const Instant monday = at("2027-03-22T00:00Z");
    EXPECT_EQ(skipped.next_change(monday), monday + 8 * 24h);
    // one that starts in the skipped hour opens when the clocks jump
    const WeeklyHours late({open({sun}, 2.5, 6)}, zone("Europe/Berlin"));
    EXPECT_EQ(late.next_change(at("2027-03-27T12:00Z")), at("2027-03-28T01:00Z"));
    EXPECT_EQ(late.next_change(at("2027-03-28T01:00Z")), at("2027-03-28T04:00Z"));
}

TEST(WeeklyHours, ATimeThatTheClocksShowTwiceCountsTwice) {
    const WeeklyHours h({open({sun}, 2.5, 4)}, zone("Europe/Berlin"));
    expect_stretches(h, "2027-10-30", "2027-11-01",
                     {stretch("2027-10-31T00:30Z", "2027-10-31T01:00Z"),
                      stretch("2027-10-31T01:30Z", "2027-10-31T03:00Z")});
    EXPECT_EQ(h.share_at(at("2027-10-31T00:45Z")), 1);  // 02:45, summer time
    EXPECT_EQ(h.share_at(at("2027-10-31T01:15Z")), 0);  // 02:15, the second one
    EXPECT_EQ(h.share_at(at("2027-10-31T01:45Z")), 1);  // 02:45, the second one
}

TEST(WeeklyHours, HoursAreTheZonesAndNotUtcs) {
    const WeeklyHours h({open({mon}, 20, 22)}, zone("Asia/Kolkata"));  // UTC + 5:30, no changes
    expect_stretches(h, "2026-11-02", "2026-11-04",
                     {stretch("2026-11-02T14:30Z", "2026-11-02T16:30Z")});
    const WeeklyHours west({open({mon}, 20, 22)}, zone("America/New_York"));
    expect_stretches(west, "2026-11-02", "2026-11-04",
                     {stretch("2026-11-03T01:00Z", "2026-11-03T03:00Z")});
}

TEST(WeeklyHours, TheDayThatSamoaLeftOutIsLeftOut) {
    // Pacific/Apia went from 29 to 31 December 2011 (IANA time zone database)
    const WeeklyHours h({open({fri}, 0, 24)}, zone("Pacific/Apia"));
    expect_stretches(h, "2011-12-20", "2012-01-10",
                     {stretch("2011-12-23T10:00Z", "2011-12-24T10:00Z"),
                      stretch("2012-01-05T10:00Z", "2012-01-06T10:00Z")});
}

/// Hours drawn at random.
std::vector<OpenHours> random_hours(std::mt19937& random) {
    const auto between = [&](int low, int high) {
        return std::uniform_int_distribution<int>(low, high)(random);
    };
    std::vector<OpenHours> hours(static_cast<std::size_t>(between(1, 4)));
    for (auto& h : hours) {
        for (auto& day : h.days) day = between(0, 1) == 1;
        h.from = between(0, 95) * 900;
        h.to = between(0, 96) * 900;
        h.share = between(0, 4) / 4.0;
    }
    return hours;
}

/// The share by the plan's own words, straight from the zone.
double plain_share(const std::vector<OpenHours>& hours, const TimeZone& z, Instant t) {
    const int day = weekday_of(z.local_day(t));
    const int second = z.local_seconds_of_day(t);
    double share = 0;
    for (const auto& h : hours) {
        const bool today = h.days[static_cast<std::size_t>(day)];
        const bool yesterday = h.days[static_cast<std::size_t>((day + 6) % 7)];
        const bool overnight = h.to <= h.from;
        const bool open_now = (today && second >= h.from && (overnight || second < h.to)) ||
                              (yesterday && overnight && second < h.to);
        if (open_now) share = std::max(share, h.share);
    }
    return share;
}

TEST(WeeklyHoursLaws, ShareIsThePlansWordForTheWallClockInAnyZoneAndYear) {
    std::mt19937 random(3);
    const std::vector<std::string> zones{"UTC",          "Europe/Berlin",       "America/New_York",
                                         "Asia/Kolkata", "Australia/Lord_Howe", "Africa/Casablanca",
                                         "Pacific/Apia", "America/Sao_Paulo",   "Asia/Kathmandu"};
    for (const auto& name : zones) {
        const TimeZone z = zone(name);
        for (int round = 0; round < 2; ++round) {
            const auto hours = random_hours(random);
            const WeeklyHours h(hours, z);
            std::uniform_int_distribution<long> any(at("1960-01-01").time_since_epoch().count(),
                                                    at("2140-01-01").time_since_epoch().count());
            for (int i = 0; i < 5000; ++i) {
                const Instant t{std::chrono::seconds(any(random))};
                ASSERT_EQ(h.share_at(t), plain_share(hours, z, t))
                    << name << " " << format_instant(t);
            }
        }
    }
}

TEST(WeeklyHoursLaws, NextChangeIsTheFirstQuarterOfAnHourWhoseShareDiffers) {
    std::mt19937 random(4);
    // within the years of the table, before them and after them
    const std::vector<std::array<std::string, 2>> spans{
        {"2027-03-15", "2027-04-20"}, {"2027-10-15", "2027-11-15"}, {"1999-12-15", "2000-01-15"},
        {"1986-03-15", "1986-04-15"}, {"2099-12-15", "2100-01-15"}, {"2120-10-20", "2120-11-10"}};
    for (const std::string name :
         {"Europe/Berlin", "America/New_York", "Australia/Lord_Howe", "UTC", "Asia/Kathmandu"}) {
        const TimeZone z = zone(name);
        for (const auto& [from, to] : spans) {
            const auto hours = random_hours(random);
            const WeeklyHours h(hours, z);
            const auto quarter = 15min;
            for (Instant t = at(from); t < at(to); t += 11h) {
                const Instant change = h.next_change(t);
                ASSERT_GT(change, t);
                ASSERT_LE(change, t + 8 * 24h);
                for (Instant u = t; u < change; u += quarter) {
                    ASSERT_EQ(h.share_at(u), h.share_at(t)) << name << format_instant(u);
                }
                if (change < t + 8 * 24h) {
                    ASSERT_NE(h.share_at(change), h.share_at(t)) << name << format_instant(change);
                    ASSERT_EQ(h.share_at(change - 1s), h.share_at(t));
                }
            }
        }
    }
}

TEST(WeeklyHoursLaws, StretchesOfAnOrdinaryWeekAddUpToItsOpenHours) {
    std::mt19937 random(5);
    for (int i = 0; i < 300; ++i) {
        const WeeklyHours h(random_hours(random), TimeZone());
        std::chrono::seconds open_s{0};
        Instant before = at("2026-11-02");
        for (const auto& s : h.stretches(at("2026-11-02"), at("2026-11-09"))) {
            EXPECT_GE(s.from, before);
            EXPECT_GT(s.to, s.from);
            EXPECT_GT(s.share, 0);
            open_s += s.to - s.from;
            before = s.to;
        }
        EXPECT_DOUBLE_EQ(static_cast<double>(open_s.count()) / 3600, h.open_hours_per_week());
        EXPECT_EQ(h.never_opens(), h.open_hours_per_week() == 0);
    }
}

TEST(WeeklyHoursLaws, AStretchCutInTwoIsTheSameStretch) {
    std::mt19937 random(6);
    for (int i = 0; i < 50; ++i) {
        const WeeklyHours h(random_hours(random), zone("Europe/Berlin"));
        const Instant from = at("2027-03-20"), to = at("2027-04-05");
        const Instant middle =
            from + std::chrono::minutes(std::uniform_int_distribution<int>(1, 23000)(random));
        const auto whole = h.stretches(from, to);
        auto parts = h.stretches(from, middle);
        for (const auto& s : h.stretches(middle, to)) {
            if (!parts.empty() && parts.back().to == s.from && parts.back().share == s.share) {
                parts.back().to = s.to;
            } else {
                parts.push_back(s);
            }
        }
        EXPECT_EQ(parts, whole);
    }
}

}  // namespace
}  // namespace ullage
