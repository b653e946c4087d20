// SPDX-License-Identifier: GPL-3.0-or-later
// Clock changes, leap days, year ends and the year 2038 as a whole forecast meets them. Hours are worked
// out by hand beside each; changes of clocks are those of the IANA database.
#include "core/outlook/outlook_laws.h"
#include "outlook_testing.h"

namespace ullage {
namespace {

using namespace testing;

/// A nightly send at 02:30 of a snapshot of local midnight; nothing is uncertain, a run takes
/// 1 GB ÷ (about 950 Mbit/s) = some 8 s.
Site nightly(const std::string& zone, const char* from, double horizon = 30) {
    auto d = dataset("d", 1 * tb, 0);
    churn(d, 1 * gb);
    d.ladder = daily(30);
    auto s = site(horizon, {d}, {box("home"), box("attic", 4 * tb)});
    s.as_of = *parse_date(from);
    s.time_zone = zone;
    add_send(s, 1000);
    s.sends[0].at = 2 * 3600 + 1800;
    return s;
}

SendOutlook send_of(const Site& s) {
    const auto o = outlook_of(s, 3);
    EXPECT_EQ(broken_laws(o), std::vector<std::string>());
    return o.sends.at(0);
}

// Just before a night's copy arrives, the last one is of the midnight before: 24 h + 2.5 h.
constexpr double ordinary_age = 26.5;
constexpr double run = 0.05;  // hours, generously

TEST(TimeOfForecast, ANightWithoutAClockChangeIsTheOrdinaryAge) {
    const auto s = send_of(nightly("Europe/Berlin", "2027-01-04"));
    EXPECT_NEAR(s.recovery_point_max_hours, ordinary_age, run);
}

TEST(TimeOfForecast, ARunAtATimeThatTheClocksSkipIsNotLeftOut) {
    // 2027-03-28: 02:00 becomes 03:00. The run is of the moment of the change; without it the copy would
    // be two days old.
    const auto s = send_of(nightly("Europe/Berlin", "2027-03-15"));
    EXPECT_NEAR(s.recovery_point_max_hours, ordinary_age, run);
    EXPECT_EQ(s.chance_of_missing_window, 0);
}

TEST(TimeOfForecast, TheDayOfTwentyFiveHoursMakesTheCopyAnHourOlder) {
    // 2027-10-31: 03:00 becomes 02:00 again. The run of that night is the first 02:30; the next is 25 h
    // after it, of a midnight 25 h after the last.
    EXPECT_NEAR(send_of(nightly("Europe/Berlin", "2027-10-18")).recovery_point_max_hours, ordinary_age + 1, run);
    // Lord Howe moves its clocks by half an hour: 2027-04-04.
    EXPECT_NEAR(send_of(nightly("Australia/Lord_Howe", "2027-03-22")).recovery_point_max_hours, ordinary_age + 0.5, run);
}

TEST(TimeOfForecast, TheDrawnWeekIsByTheClockOnTheWallAlsoInAWeekOf169Hours) {
    // The first whole week is that of Monday 2027-10-25, whose Sunday has 25 hours.
    auto s = nightly("Europe/Berlin", "2027-10-20");
    EXPECT_EQ(send_of(s).open_week, (std::vector<std::array<double, 3>>{{0, 168, 1}}));
    OpenHours h;
    h.days = {false, false, false, false, false, true, true};
    h.from = 22 * 3600;
    h.to = 6 * 3600;
    h.share = 0.5;
    s.links[0].hours = {h};
    const auto sunday = send_of(s);
    EXPECT_EQ(format_date(sunday.week_of), "2027-10-25");
    EXPECT_EQ(sunday.open_week, (std::vector<std::array<double, 3>>{{0, 6, 0.5}, {142, 150, 0.5}, {166, 168, 0.5}}));
}

TEST(TimeOfForecast, SendsGoOnOverTheYearsEndALeapDayAndTheEndOf32Bits) {
    for (const char* from : {"2026-12-20", "2028-02-20", "2038-01-10", "2099-12-20", "2100-02-20"})
        EXPECT_NEAR(send_of(nightly("UTC", from)).recovery_point_max_hours, ordinary_age, run) << from;
}

TEST(TimeOfForecast, DaysAreCountedThroughALeapDay) {
    // 36.525 GB a year is 100 MB a day; 1 GB to the ceiling of 80 % of 1.25125 TB: 10 d.
    auto s = site(60, {dataset("d", 1 * tb, 36.525 * gb)}, {box("home", 1.25125 * tb)});
    for (const char* from : {"2027-02-24", "2028-02-24", "2028-02-29", "2100-02-24"}) {
        s.as_of = *parse_date(from);
        const auto o = outlook_of(s, 1);
        EXPECT_EQ(o.boxes[0].days_until_ceiling.p50, std::optional(10.0)) << from;
        EXPECT_EQ(o.boxes[0].order_by, std::optional(s.as_of + std::chrono::days(10))) << from;
        EXPECT_EQ(o.boxes[0].fill.front().date, s.as_of);
        EXPECT_EQ(broken_laws(o), std::vector<std::string>());
    }
    s.as_of = *parse_date("2028-02-24");
    EXPECT_EQ(format_date(*outlook_of(s, 1).boxes[0].order_by), "2028-03-05");
    s.as_of = *parse_date("2027-02-24");
    EXPECT_EQ(format_date(*outlook_of(s, 1).boxes[0].order_by), "2027-03-06");
}

TEST(TimeOfForecast, AHorizonOfThirtyYearsGoesOnPast2038) {
    // 0.6 TB to the ceiling at 0.03 TB a year: 20 y of 365.25 d.
    const auto s = site(30 * 365.25, {dataset("d", 1 * tb, 0.03 * tb)}, {box("home", 2 * tb)});
    const auto o = outlook_of(s, 1);
    EXPECT_EQ(o.boxes[0].days_until_ceiling.p50, std::optional(7305.0));
    EXPECT_EQ(format_date(*o.boxes[0].order_by), "2046-11-02");
    EXPECT_EQ(format_date(o.boxes[0].fill.back().date), "2056-11-01");
    EXPECT_EQ(broken_laws(o), std::vector<std::string>());
}

TEST(TimeOfForecast, ASnapshotOfEachMonthAndYearIsKeptOverTheYearsEnd) {
    // A rung of a month or a year is at the first of it: on the last day of December the newest is of 1
    // December or January, and what it holds drops when the new one comes.
    for (const auto& [unit, days_before] : {std::pair{Period::Unit::month, 30}, std::pair{Period::Unit::year, 364}}) {
        auto d = dataset("d", 1 * tb, 0);
        churn(d, 1 * gb, 7 * gb);
        d.ladder = {rung(1, unit, 1)};
        auto s = site(40, {d}, {box("home", 4 * tb)});
        s.as_of = *parse_date("2027-12-25");
        const auto o = outlook_of(s, 1);
        const auto held = [&](int day) {
            for (const auto& p : o.boxes[0].fill)
                if (p.date == s.as_of + std::chrono::days(day)) return p.held_bytes.p50;
            ADD_FAILURE() << day;
            return 0.0;
        };
        EXPECT_GT(held(6), held(0)) << "31 December: " << days_before << " days since the snapshot";
        EXPECT_LT(held(8), 0.3 * held(6)) << "2 January";
        EXPECT_GT(held(20), held(8));
    }
}

TEST(TimeOfForecast, AnUnknownZoneIsAProblemAndNoOutlook) {
    auto s = nightly("Europe/Atlantis", "2027-01-04");
    const auto o = compute(s, {}, {});
    ASSERT_FALSE(o);
    const auto& problems = std::get<Problems>(o.error());
    ASSERT_EQ(problems.size(), 1u);
    EXPECT_EQ(problems[0].where, "/time_zone");
    EXPECT_NE(problems[0].what.find("Europe/Atlantis"), std::string::npos);
}

}  // namespace
}  // namespace ullage
