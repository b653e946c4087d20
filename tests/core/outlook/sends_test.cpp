// SPDX-License-Identifier: GPL-3.0-or-later
// What a send carries and how long it takes, on sites without uncertainty.
#include "outlook_testing.h"

#include "core/outlook/models.h"

#include <cmath>

namespace ullage {
namespace {

using namespace testing;

// A record header of 312 bytes for each block of 128 KiB (OpenZFS, include/sys/zfs_ioctl.h: the size of
// a replay record).
constexpr double payload = 1 + 312.0 / 131072;

Site plain(double megabits = 100) {
    auto d = dataset("d", 1 * tb, 0.36525 * tb);  // 1 GB a day
    churn(d, 6 * gb, 25 * gb);
    d.ladder = daily(14);
    auto s = site(300, {d}, {box("home", 9 * tb), box("attic", 9 * tb)});
    add_send(s, megabits);
    return s;
}

TEST(Sends, ARunCarriesWhatADayWritesWithItsHeadersAndTakesThatOverTheGoodput) {
    const auto o = outlook_of(plain(), 1);
    const auto& s = o.sends[0];
    // As live grows by 1 GB a day, so do the overwrites in proportion: after half the time by 15 %.
    const double middle = 5 * gb * (1 + 0.15) + 1 * gb;
    EXPECT_NEAR(s.bytes_per_run.p50 / (middle * payload), 1, 0.02);
    EXPECT_NEAR(s.hours_per_run.p50, s.bytes_per_run.p50 * 8 / s.goodput.bits_per_second / 3600, 0.001);
    EXPECT_NEAR(s.open_hours_per_run, 24, 0.2);
    EXPECT_EQ(s.chance_of_missing_window, 0);
    EXPECT_FALSE(s.falls_behind);
    // A snapshot at midnight, sent at midnight: the copy is as old as the run takes, to a day more.
    EXPECT_NEAR(s.recovery_point_hours.p50, 12 + s.hours_per_run.p50, 0.05);
    EXPECT_NEAR(s.recovery_point_max_hours, 24 + s.hours_per_run.p95, 0.05);
    EXPECT_NEAR(*s.longest_outage_days, 14 - s.hours_per_run.p95 / 24, 0.02);
    EXPECT_EQ(*s.first_copy_days.p50, 0);
    // Restoring: all live bytes a year from now, or at the horizon of 300 days.
    EXPECT_NEAR(s.restore_hours.p50, (1 * tb + 300 * gb) * payload * 8 / s.goodput.bits_per_second / 3600, 0.1);
}

TEST(Sends, EveryStepCarriesAtLeastWhatOneStepDoes) {
    auto s = plain();
    s.datasets[0].ladder.push_back(rung(1, Period::Unit::hour, 24));
    const auto newest = outlook_of(s, 1).sends[0];
    s.sends[0].steps = Send::Steps::every;
    const auto every = outlook_of(s, 1).sends[0];
    EXPECT_GT(every.bytes_per_run.p50, newest.bytes_per_run.p50);
    const auto curve = dataset_models(s, {}, as_of)->front().mean_curve;
    EXPECT_NEAR(every.bytes_per_run.p50 / ((24 * curve.freed(1.0 / 24) * 1.15 + 1 * gb) * payload), 1, 0.02);
    EXPECT_NEAR(*every.longest_outage_days, *newest.longest_outage_days, 0.1)
        << "the midnight snapshots that come as steps are bases too";
}

TEST(Sends, NoStepCarriesMoreThanIsLive) {
    // Each day writes eight tenths of the data anew, give or take four times that.
    auto d = dataset("d", 10 * gb, 0);
    churn(d, 8 * gb, {}, 4);
    d.ladder = daily(14);
    auto s = site(300, {d}, {box("home", 9 * tb), box("attic", 9 * tb)});
    add_send(s, 1000);
    const auto run = outlook_of(s, 64).sends[0].bytes_per_run;
    EXPECT_NEAR(run.p95 / (10 * gb * payload), 1, 1e-9);
    EXPECT_LT(run.p50, 10 * gb * payload);
}

TEST(Sends, APayloadUnpackedIsLargerByTheRatioAndSmallerByTheStreams) {
    auto s = plain();
    s.datasets[0].compression_ratio = 2;
    const auto stored = outlook_of(s, 1).sends[0];
    s.sends[0].payload = Send::Payload::expanded;
    const auto expanded = outlook_of(s, 1).sends[0];
    s.sends[0].stream_ratio = 2;
    const auto again = outlook_of(s, 1).sends[0];
    const double headers = 312.0 / 65536;  // of a block that 2:1 made half as large
    EXPECT_NEAR(expanded.bytes_per_run.p50 / stored.bytes_per_run.p50, (2 + headers) / (1 + headers), 1e-3);
    EXPECT_NEAR(again.bytes_per_run.p50 / stored.bytes_per_run.p50, 1, 1e-3);
}

TEST(Sends, ALineTooSlowForTheNightsFallsBehindAndAFasterOneDoesNot) {
    // About 7 GB a day need 0.65 Mbit/s.
    const auto slow = outlook_of(plain(0.5), 1).sends[0];
    EXPECT_TRUE(slow.falls_behind);
    EXPECT_TRUE(slow.days_until_behind);
    EXPECT_GT(slow.chance_of_missing_window, 0.9);
    const auto fast = outlook_of(plain(2), 1).sends[0];
    EXPECT_FALSE(fast.falls_behind);
    EXPECT_EQ(fast.chance_of_missing_window, 0);
}

TEST(Sends, ClosedHoursBindWhenTheRunsMissTheirWindow) {
    auto s = plain(10);
    OpenHours one;
    one.from = 0;
    one.to = 3600;
    s.links[0].hours = {one};  // 4.2 GB fit into an hour, and 6 to 7 GB are to go
    const auto o = outlook_of(s, 1).sends[0];
    EXPECT_GT(o.chance_of_missing_window, 0.9);
    EXPECT_EQ(o.bound_by, Limit::hours);
    EXPECT_NEAR(o.open_hours_per_run, 1, 0.01);
    ASSERT_EQ(o.open_week.size(), 7u);
    EXPECT_EQ(weekday_of(o.week_of), 0);
}

TEST(Sends, ARewriteIsSentAgainAndARemovalAndAMoveAreNot) {
    auto s = plain();
    const auto most = [&] { return outlook_of(s, 1).sends[0].recovery_point_max_hours; };
    const double usual = most();
    for (const auto kind : {Event::Kind::remove, Event::Kind::move}) {
        s.datasets[0].events = {event(kind, 100, 0.3 * tb)};
        EXPECT_LE(most(), usual + 0.02);
    }
    for (const auto kind : {Event::Kind::rewrite, Event::Kind::add}) {
        s.datasets[0].events = {event(kind, 100, 0.3 * tb)};
        // 300 GB at 94 Mbit/s take 7.1 hours longer than any other run.
        EXPECT_NEAR(most() - usual, 7.1, 0.5);
    }
}

TEST(Sends, HoldingTheLastSentHasNoLimitOfOutage) {
    auto s = plain();
    s.sends[0].hold_last_sent = true;
    EXPECT_FALSE(outlook_of(s, 1).sends[0].longest_outage_days);
}

TEST(Sends, RunsOfTheWeekFollowTheWeeksShape) {
    auto s = plain();
    s.datasets[0].growth->per_year = amount(0);
    s.datasets[0].week_shape = std::array<double, 7>{2, 2, 2, 2, 2, 0, 0};
    const auto o = outlook_of(s, 1).sends[0];
    ASSERT_EQ(o.week.size(), 7u);
    // The run of Monday 00:00 carries Sunday's writes, that of Tuesday Monday's: 6 GB × 7/5.
    EXPECT_NEAR(o.week[0].bytes_p50, 0, 1);
    EXPECT_NEAR(o.week[6].bytes_p50, 0, 1);
    for (std::size_t i = 1; i <= 5; ++i) EXPECT_NEAR(o.week[i].bytes_p50 / (6 * gb * 1.4 * payload), 1, 0.011) << i;
}

}  // namespace
}  // namespace ullage
