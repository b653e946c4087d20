// SPDX-License-Identifier: GPL-3.0-or-later
// Relays, shared lines, starts after each snapshot and clock changes, through the whole forecast,
// on sites without uncertainty.
#include "outlook_testing.h"

#include "core/outlook/models.h"

#include <cmath>

namespace ullage {
namespace {

using namespace testing;

// As in sends_test.cpp: a record header for each block of 128 KiB.
constexpr double payload = 1 + 312.0 / 131072;

Site plain(double megabits = 100) {
    auto d = dataset("d", 1 * tb, 0);
    churn(d, 6 * gb, 25 * gb);
    d.ladder = daily(30);
    auto s = site(300, {d}, {box("home", 90 * tb), box("attic", 90 * tb), box("cabin", 90 * tb)});
    add_send(s, megabits);
    return s;
}

/// … and onward from the attic to the cabin once a week.
Site relayed(FirstCopy::By by = FirstCopy::By::present) {
    auto s = plain();
    auto line = s.links[0];
    line.name = "second";
    s.links.push_back(line);
    auto onward = s.sends[0];
    onward.name = "weekly";
    onward.from = "attic";
    onward.to = "cabin";
    onward.over = "second";
    onward.every = Period{1, Period::Unit::week};
    onward.at = 12 * 3600;
    onward.first_copy.by = by;
    onward.ladder = Ladder{rung(1, Period::Unit::week, 8)};
    s.sends.push_back(onward);
    return s;
}

const BoxOutlook& box_of(const Outlook& o, const std::string& name) {
    return *std::find_if(o.boxes.begin(), o.boxes.end(),
                         [&](const auto& b) { return b.name == name; });
}

TEST(RelaySends, CarryAWeeksChangeOnceAWeekFromWhatHasArrived) {
    const auto s = relayed();
    const auto o = outlook_of(s, 1);
    ASSERT_EQ(o.sends.size(), 2u);
    EXPECT_FALSE(o.sends[0].relays);
    EXPECT_TRUE(o.sends[1].relays);
    const auto curve = dataset_models(s, {}, as_of)->front().mean_curve;
    EXPECT_NEAR(o.sends[1].bytes_per_run.p50 / (curve.freed(7) * payload), 1, 0.01);
    EXPECT_LT(o.sends[1].bytes_per_run.p50, 7 * o.sends[0].bytes_per_run.p50)
        << "hot blocks go once";
    // Monday's midnight snapshot is sent on at noon: half a day old then, and a week later 7.5
    // days.
    EXPECT_NEAR(o.sends[1].recovery_point_max_hours, 7 * 24 + 12 + o.sends[1].hours_per_run.p95,
                0.1);
    // The attic keeps 30 days of what came, the cabin 8 weeks: 30 days less those 12 hours and the
    // run.
    EXPECT_NEAR(*o.sends[1].longest_outage_days, 29.5 - o.sends[1].hours_per_run.p95 / 24, 0.02);
}

TEST(RelaySends, EachBoxHoldsByItsOwnLadder) {
    const auto s = relayed();
    const auto o = outlook_of(s, 1);
    const auto curve = dataset_models(s, {}, as_of)->front().mean_curve;
    // 30 daily ones hold 29 gaps of a day; 8 weekly ones 7 of a week (at noon on a Monday the ninth
    // goes).
    const auto& attic = box_of(o, "attic").fill.back();
    EXPECT_NEAR(attic.held_bytes.p50 / (29 * curve.freed(1)), 1, 0.04);
    const auto& cabin = box_of(o, "cabin").fill.back();
    EXPECT_NEAR(cabin.held_bytes.p50 / (7 * curve.freed(7)), 1, 0.02);
    EXPECT_NEAR(cabin.live_bytes.p50 / (1 * tb), 1, 1e-6);
}

TEST(RelaySends, AFirstCopyGoesOnOnlyWhenItHasArrived) {
    auto s = relayed(FirstCopy::By::link);
    s.sends[0].first_copy.by = FirstCopy::By::link;
    const auto o = outlook_of(s, 1);
    const double days = 1 * tb * payload * 8 / o.sends[0].goodput.bits_per_second / 86400;
    EXPECT_NEAR(*o.sends[0].first_copy_days.p50, days, 0.01);
    EXPECT_NEAR(*o.sends[1].first_copy_days.p50, days, 0.01);
    // Nothing is in the cabin while the attic still fills.
    EXPECT_EQ(point_at(box_of(o, "cabin"), 0).used_bytes.p50, 0);
    EXPECT_NEAR(point_at(box_of(o, "attic"), 1).used_bytes.p50 / (1 * tb / days), 1, 0.02);
    EXPECT_NEAR(point_at(box_of(o, "cabin"), 1).used_bytes.p50 / (1 * tb * (1 - days) / days), 1,
                0.01);
    EXPECT_NEAR(point_at(box_of(o, "cabin"), 3).used_bytes.p50 / (1 * tb), 1, 0.02);
}

TEST(RelaySends, OnArrivalTheyFollowTheSendBeforeThem) {
    auto s = relayed();
    s.sends[1].after_each_snapshot = true;
    s.sends[1].ladder = AsSource{};
    const auto o = outlook_of(s, 1);
    EXPECT_NEAR(o.sends[1].bytes_per_run.p50 / o.sends[0].bytes_per_run.p50, 1, 0.01);
    EXPECT_NEAR(o.sends[1].recovery_point_max_hours,
                o.sends[0].recovery_point_max_hours + o.sends[1].hours_per_run.p50, 0.1);
    EXPECT_EQ(o.sends[1].chance_of_missing_window, 0);
}

TEST(RelaySends, ThreeBoxesInARowEachOlderThanTheOneBefore) {
    auto s = relayed();
    s.boxes.push_back(box("barn", 90 * tb));
    auto third = s.sends[1];
    third.name = "on again";
    third.from = "cabin";
    third.to = "barn";
    third.at = 18 * 3600;
    s.sends.push_back(third);
    const auto o = outlook_of(s, 1);
    EXPECT_LT(o.sends[0].recovery_point_hours.p50, o.sends[1].recovery_point_hours.p50);
    EXPECT_LT(o.sends[1].recovery_point_hours.p50, o.sends[2].recovery_point_hours.p50);
    EXPECT_NEAR(o.sends[2].bytes_per_run.p50 / o.sends[1].bytes_per_run.p50, 1, 0.01);
}

TEST(Sends, AfterEachSnapshotRunsEveryHourAndKeepsTheCopyYoung) {
    auto s = plain();
    s.horizon = days(60);
    s.datasets[0].ladder.push_back(rung(1, Period::Unit::hour, 48));
    s.sends[0].after_each_snapshot = true;
    const auto o = outlook_of(s, 1).sends[0];
    const auto curve = dataset_models(s, {}, as_of)->front().mean_curve;
    EXPECT_NEAR(o.bytes_per_run.p50 / (curve.freed(1.0 / 24) * payload), 1, 0.01);
    EXPECT_NEAR(o.recovery_point_max_hours, 1 + o.hours_per_run.p95, 0.05);
    ASSERT_EQ(o.weekdays.size(), 7u);
    EXPECT_NEAR(o.weekdays[2].runs / (24.0 * 60 / 7), 1, 0.1);
}

TEST(Sends, SeveralBoxesFromOneLadderShareTheLineOrTakeItInTurn) {
    auto s = plain(20);
    auto other = s.sends[0];
    other.name = "other";
    other.to = "cabin";
    s.sends.push_back(other);
    const auto evenly = outlook_of(s, 1);
    s.links[0].sharing = Sharing::in_turn;
    const auto in_turn = outlook_of(s, 1);
    const double alone = in_turn.sends[0].hours_per_run.p50;
    EXPECT_NEAR(in_turn.sends[1].hours_per_run.p50, 2 * alone, 0.02);
    for (const auto& send : evenly.sends) EXPECT_NEAR(send.hours_per_run.p50, 2 * alone, 0.02);
    // On either box the same is held.
    EXPECT_EQ(box_of(evenly, "attic").fill.back().used_bytes.p50,
              box_of(evenly, "cabin").fill.back().used_bytes.p50);
}

TEST(Sends, AWeekInWhichTheClocksGoBackIsDrawnByTheClockOnTheWall) {
    // Europe/Amsterdam, 2026-10-25: from summer time to standard time (IANA zone data).
    auto s = plain();
    s.time_zone = "Europe/Amsterdam";
    s.as_of = *parse_date("2026-10-18");
    OpenHours nights;
    nights.from = 19 * 3600;
    nights.to = 6 * 3600;
    s.links[0].hours = {nights};
    s.sends[0].at = 20 * 3600;
    const auto o = outlook_of(s, 1).sends[0];
    EXPECT_EQ(o.week_of, *parse_date("2026-10-19"));
    std::vector<double> lengths;
    for (const auto& open : o.open_week) lengths.push_back(open[1] - open[0]);
    // Monday's early hours, six nights, and Sunday's evening; that Saturday's lasts 12 hours is in its runs.
    EXPECT_EQ(lengths, (std::vector<double>{6, 11, 11, 11, 11, 11, 11, 5}));
    ASSERT_EQ(o.week.size(), 7u);
    EXPECT_EQ(o.week[5].start, *parse_instant("2026-10-24T18:00:00Z"));
    EXPECT_EQ(o.week[6].start, *parse_instant("2026-10-25T19:00:00Z"));
}

TEST(Sends, WeekdaysTellTheirRunsApart) {
    auto s = plain();
    s.datasets[0].week_shape = std::array<double, 7>{2, 2, 2, 2, 2, 0, 0};
    const auto o = outlook_of(s, 1).sends[0];
    ASSERT_EQ(o.weekdays.size(), 7u);
    // The run of Monday 00:00 carries Sunday's writes, that of Tuesday Monday's: 6 GB × 7/5.
    EXPECT_NEAR(o.weekdays[0].bytes.p95, 0, 1);
    EXPECT_NEAR(o.weekdays[1].bytes.p50 / (6 * gb * 1.4 * payload), 1, 0.01);
    EXPECT_NEAR(o.weekdays[1].open_share.p50, o.weekdays[1].hours.p50 / 24, 1e-4);
    int runs = 0;
    for (const auto& w : o.weekdays) runs += w.runs;
    EXPECT_EQ(runs, 300);
}

TEST(Sends, ARewriteIsSentWholeOverSoManyNightsAndAMoveCostsNothing) {
    auto s = plain(10);
    s.datasets[0].events = {event(Event::Kind::rewrite, 100, 0.3 * tb),
                            event(Event::Kind::move, 150, 0.5 * tb),
                            event(Event::Kind::remove, 200, 0.2 * tb)};
    const auto o = outlook_of(s, 1).sends[0];
    ASSERT_EQ(o.events.size(), 3u);
    const auto& rewrite = o.events[0];
    EXPECT_NEAR(rewrite.bytes.p50 / (306 * gb * payload), 1, 0.01);
    EXPECT_NEAR(rewrite.hours.p50, rewrite.bytes.p50 * 8 / o.goodput.bits_per_second / 3600, 0.01);
    EXPECT_EQ(rewrite.nights.p50, std::ceil(rewrite.hours.p50 / 24));
    EXPECT_EQ(rewrite.chance_of_fitting, 0);
    for (const std::size_t i : {1u, 2u}) {
        EXPECT_NEAR(o.events[i].bytes.p50 / (6 * gb * payload), 1, 0.01);
        EXPECT_EQ(o.events[i].nights.p50, 1);
        EXPECT_EQ(o.events[i].chance_of_fitting, 1);
    }
    // Behind once: what was left when the next run was due, and until nothing waited.
    const double per_day = o.goodput.bits_per_second * 86400 / 8;
    EXPECT_NEAR(o.backlog.times_a_year, 365.25 / 300, 0.01);
    EXPECT_NEAR(o.backlog.max_bytes / (rewrite.bytes.p50 - per_day), 1, 0.01);
    EXPECT_GT(o.backlog.max_hours_to_drain, rewrite.hours.p50 - 24);
    // The age over time peaks in the weeks of the rewrite and nowhere else.
    double most = 0;
    for (const auto& p : o.copy_age)
        if (p.max_hours > most) most = p.max_hours;
    EXPECT_NEAR(most, o.recovery_point_max_hours, 1e-6);
    EXPECT_LT(o.copy_age.front().max_hours, 27);
}

TEST(Sends, AnEventIsToldByTheRunThatBringsItsOwnDataset) {
    // The other dataset of the send has a snapshot a week: what both have is days older.
    auto s = plain(100);
    auto other = dataset("other", 1 * tb, 0);
    churn(other, 2 * gb);
    other.ladder = {rung(1, Period::Unit::week, 8)};
    s.datasets.push_back(other);
    s.sends[0].datasets = {"other", "d"};
    s.datasets[0].events = {
        event(Event::Kind::rewrite, 102, 0.3 * tb)};  // a Friday; the other's next is Monday
    const auto o = outlook_of(s, 1).sends[0];
    ASSERT_EQ(o.events.size(), 1u);
    EXPECT_NEAR(o.events[0].bytes.p50 / (306 * gb * payload), 1, 0.01);
}

TEST(Sends, FallingBehindSaysWhenTheBacklogPassesTheLadderAndWhatRateWouldDo) {
    // 2 GB a day for 6 GB: runs that wait carry ever more days, 25 GB a week, and the ladder has
    // four.
    auto s = plain(0.2);
    s.datasets[0].ladder = daily(4);
    const auto o = outlook_of(s, 1).sends[0];
    EXPECT_TRUE(o.falls_behind);
    ASSERT_TRUE(o.days_until_ladder_lost);
    EXPECT_GT(*o.days_until_ladder_lost, 4);
    ASSERT_TRUE(o.line_rate_needed);
    s.links[0].up = Entered<BitsPerSecond>(BitsPerSecond{*o.line_rate_needed * 1.01});
    const auto mended = outlook_of(s, 1).sends[0];
    EXPECT_FALSE(mended.falls_behind);
    EXPECT_LE(mended.chance_of_missing_window, 0.1);
    EXPECT_FALSE(mended.line_rate_needed);
}

TEST(Sends, AStartThatIsAlwaysInClosedHoursIsSaid) {
    auto s = plain();
    OpenHours nights;
    nights.from = 19 * 3600;
    nights.to = 6 * 3600;
    s.links[0].hours = {nights};
    s.sends[0].at = 12 * 3600;
    EXPECT_TRUE(outlook_of(s, 1).sends[0].starts_closed);
    s.sends[0].at = 20 * 3600;
    EXPECT_FALSE(outlook_of(s, 1).sends[0].starts_closed);
}

}  // namespace
}  // namespace ullage
