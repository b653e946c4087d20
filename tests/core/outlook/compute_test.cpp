// SPDX-License-Identifier: GPL-3.0-or-later
// Days are worked out by hand from bytes ÷ bytes a day in the comment beside each; a year is 365.25 d.
#include "outlook_testing.h"

#include <cmath>
#include <stop_token>

namespace ullage {
namespace {

using namespace testing;

TEST(Compute, WithoutUncertaintyTheDayIsHeadroomOverGrowth) {
    const auto o = outlook_of(site(20 * 365.25, {dataset("d", 1 * tb, 0.1 * tb)}, {box("home", 2 * tb)}));
    ASSERT_EQ(o.boxes.size(), 1u);
    const auto& b = o.boxes[0];
    // 0.6 TB to the ceiling of 80 % at 0.1 TB a year: 2191.5 d; 1 TB to full: 3652.5 d.
    for (const auto& q : {b.days_until_ceiling.p10, b.days_until_ceiling.p50, b.days_until_ceiling.p90})
        EXPECT_EQ(q, std::optional(2192.0));
    for (const auto& q : {b.days_until_full.p10, b.days_until_full.p50, b.days_until_full.p90})
        EXPECT_EQ(q, std::optional(3653.0));
    EXPECT_EQ(b.chance_of_ceiling_within_horizon, 1);
    EXPECT_EQ(b.chance_of_full_within_horizon, 1);
    EXPECT_NEAR(b.used_now_bytes, 1 * tb, 1e5);
    EXPECT_EQ(b.ceiling_bytes, 1.6 * tb);
    EXPECT_EQ(b.order_by, std::optional(as_of + std::chrono::days(2192)));
    for (const auto& m : b.ceiling_marks) EXPECT_EQ(m, std::optional(2192.0));
    EXPECT_FALSE(b.over_ceiling_now || b.full_now || b.shrinking || b.receives_copies);
}

TEST(Compute, ManyPathsPartLiveFromHeldByTheFirstThousand) {
    auto d = dataset("d", 1 * tb, 0.1 * tb, 0.4);
    churn(d, 4 * gb, {}, 0.3);
    d.ladder = daily(30);
    const auto s = site(365, {d}, {box("home", 2 * tb)});
    const auto first = outlook_of(s, 1024).boxes[0].fill.back();
    const auto all = outlook_of(s, 1500).boxes[0].fill.back();
    EXPECT_EQ(all.live_bytes, first.live_bytes);
    EXPECT_EQ(all.held_bytes, first.held_bytes);
    EXPECT_NE(all.used_bytes, first.used_bytes);
    const auto fewer = outlook_of(s, 900).boxes[0].fill.back();
    EXPECT_NE(fewer.live_bytes, first.live_bytes);
}

TEST(Compute, AnAddedLoadBringsTheDayForwardByItsBytesOverTheGrowth) {
    auto d = dataset("d", 1 * tb, 0.1 * tb);
    d.events = {event(Event::Kind::add, 100, 0.25 * tb)};
    auto s = site(20 * 365.25, {d}, {box("home", 2 * tb)});
    auto b = outlook_of(s).boxes[0];
    EXPECT_EQ(b.days_until_ceiling.p50, std::optional(1279.0));  // 0.35 TB ÷ 0.1 TB/y = 1278.375 d
    EXPECT_EQ(b.days_until_full.p50, std::optional(2740.0));     // 0.75 TB ÷ 0.1 TB/y = 2739.375 d
    ASSERT_EQ(b.events.size(), 1u);
    EXPECT_EQ(b.events[0].on, as_of + std::chrono::days(100));
    // One that itself passes the ceiling: that day.
    s.datasets[0].events = {event(Event::Kind::add, 100, 0.7 * tb)};
    EXPECT_EQ(outlook_of(s).boxes[0].days_until_ceiling.p50, std::optional(100.0));
    s.datasets[0].events = {event(Event::Kind::add, 500, 0.7 * tb)};
    EXPECT_EQ(outlook_of(s).boxes[0].days_until_ceiling.p50, std::optional(500.0));
}

TEST(Compute, GrowthAndEventsOfLogicalBytesAreStoredBytesTimesTheRatio) {
    auto d = dataset("d", 1, 0.2 * tb);
    d.live.reset();
    d.logical = Entered<Bytes>(Bytes{2 * tb});
    d.compression_ratio = 2;
    d.events = {event(Event::Kind::add, 100, 0.5 * tb)};
    const auto b = outlook_of(site(20 * 365.25, {d}, {box("home", 2 * tb)})).boxes[0];
    EXPECT_EQ(b.days_until_ceiling.p50, std::optional(1279.0));  // as above, all halved by the ratio
}

TEST(Compute, OtherDataTakesRoomAndAFullBoxIsFullToday) {
    auto s = site(3650, {dataset("d", 1 * tb, 0.1 * tb)}, {box("home", 2 * tb)});
    s.boxes[0].other_data = Bytes{0.5 * tb};
    EXPECT_EQ(outlook_of(s).boxes[0].days_until_ceiling.p50, std::optional(366.0));  // 0.1 TB: 365.25 d
    s.boxes[0].other_data = Bytes{0.7 * tb};
    auto b = outlook_of(s).boxes[0];
    EXPECT_TRUE(b.over_ceiling_now);
    EXPECT_FALSE(b.full_now);
    EXPECT_EQ(b.days_until_ceiling.p50, std::optional(0.0));
    s.boxes[0].other_data = Bytes{1.5 * tb};
    EXPECT_TRUE(outlook_of(s).boxes[0].full_now);
}

TEST(Compute, WhatShrinksNeverFillsAndSaysSo) {
    const auto b = outlook_of(site(3650, {dataset("d", 1 * tb, -0.05 * tb)}, {box("home", 2 * tb)})).boxes[0];
    EXPECT_FALSE(b.days_until_ceiling.p10 || b.days_until_full.p10 || b.order_by);
    EXPECT_EQ(b.chance_of_ceiling_within_horizon, 0);
    EXPECT_TRUE(b.shrinking);
    EXPECT_GE(b.fill.back().used_bytes.p50, 0);
}

TEST(Compute, TheOrderDateIsTheTenthPercentileLessTheLeadTime) {
    auto s = site(3650, {dataset("d", 1 * tb, 0.3 * tb, 0.3)}, {box("home", 2 * tb)});
    s.boxes[0].lead_time = days(21);
    const auto b = outlook_of(s, 500).boxes[0];
    ASSERT_TRUE(b.days_until_ceiling.p10);
    EXPECT_EQ(b.order_by, std::optional(as_of + std::chrono::days(int(*b.days_until_ceiling.p10) - 21)));
    EXPECT_EQ(b.lead_time_days, std::optional(21.0));
}

TEST(Compute, SettingsAsOfTakesThePlaceOfTheSites) {
    auto s = site(3650, {dataset("d", 1 * tb, 0.1 * tb)}, {box("home", 2 * tb)});
    s.datasets[0].events = {event(Event::Kind::add, 100, 0.25 * tb)};
    Settings settings;
    settings.paths = 1;
    settings.as_of = as_of + std::chrono::days(50);
    const auto o = compute(s, {}, settings);
    ASSERT_TRUE(o);
    EXPECT_EQ(o->as_of, as_of + std::chrono::days(50));
    EXPECT_EQ(o->boxes[0].fill.front().date, as_of + std::chrono::days(50));
    EXPECT_EQ(o->boxes[0].days_until_ceiling.p50, std::optional(1279.0));
}

/// Two datasets with everything uncertain, a copy of both, a stream of events.
Site rich_site() {
    auto a = dataset("a", 3 * tb, 0.9 * tb, 0.3);
    churn(a, 20 * gb, 80 * gb, 0.2);
    a.ladder = {rung(1, Period::Unit::hour, 24), rung(1, Period::Unit::day, 30), rung(1, Period::Unit::week, 20)};
    a.week_shape = std::array<double, 7>{1, 1, 1, 1, 1, 0.3, 0.1};
    a.events = {event(Event::Kind::add, 100, 0.3 * tb), event(Event::Kind::rewrite, 200, 0.5 * tb),
                event(Event::Kind::remove, 300, 0.4 * tb), event(Event::Kind::move, 50, 1 * tb)};
    a.events[0].spread = 0.3;
    a.events[0].date_spread = days(20);
    auto b = dataset("b", 1, 0.3 * tb, 0.2);
    b.live.reset();
    b.logical = Entered<Bytes>(Bytes{2 * tb});
    b.compression_ratio = 1.6;
    b.compression_spread = 0.1;
    churn(b, 9 * gb, {}, 0.3);
    b.ladder = {rung(1, Period::Unit::day, 14), rung(1, Period::Unit::month, 12)};
    auto s = site(1200, {a, b}, {box("home", 14 * tb), box("attic", 15 * tb), box("spare")});
    s.time_zone = "Europe/Berlin";
    s.boxes[1].lead_time = days(30);
    add_send(s, 100, FirstCopy::By::link);
    s.boxes[1].in_service = as_of + std::chrono::days(20);
    s.sends[0].at = 20 * 3600;
    OpenHours night;
    night.from = 19 * 3600;
    night.to = 7 * 3600;
    night.share = 0.8;
    s.links[0].hours = {night};
    return s;
}

TEST(Compute, TheSameSeedGivesTheSameOutlookOnAnyNumberOfThreadsAndAnotherSeedAnother) {
    const auto s = rich_site();
    const auto one = outlook_of(s, 150, 7, 1);
    EXPECT_EQ(one, outlook_of(s, 150, 7, 2));
    EXPECT_EQ(one, outlook_of(s, 150, 7, 1));
    EXPECT_NE(one.boxes, outlook_of(s, 150, 8, 1).boxes);
}

void expect_rising(const DayQuantiles& q) {
    const auto later = [](std::optional<double> a, std::optional<double> b) { return !b || (a && *a <= *b); };
    EXPECT_TRUE(later(q.p10, q.p50));
    EXPECT_TRUE(later(q.p50, q.p90));
}

TEST(Compute, QuantilesAreInOrderAndTheCeilingNeverComesAfterFull) {
    const auto s = rich_site();
    for (const std::uint64_t seed : {1u, 2u, 3u}) {
        const auto o = outlook_of(s, 150, seed);
        ASSERT_EQ(o.boxes.size(), 2u) << "a box without a size is not forecast";
        for (const auto& b : o.boxes) {
            expect_rising(b.days_until_ceiling);
            expect_rising(b.days_until_full);
            const auto no_later = [](std::optional<double> a, std::optional<double> c) { return !c || (a && *a <= *c); };
            EXPECT_TRUE(no_later(b.days_until_ceiling.p10, b.days_until_full.p10));
            EXPECT_TRUE(no_later(b.days_until_ceiling.p50, b.days_until_full.p50));
            EXPECT_TRUE(no_later(b.days_until_ceiling.p90, b.days_until_full.p90));
            EXPECT_GE(b.chance_of_ceiling_within_horizon, b.chance_of_full_within_horizon);
            for (std::size_t i = 1; i < b.ceiling_marks.size(); ++i) {
                EXPECT_TRUE(no_later(b.ceiling_marks[i - 1], b.ceiling_marks[i]));
                EXPECT_TRUE(no_later(b.ceiling_marks[i], b.full_marks[i]));
            }
            EXPECT_EQ(b.fill.front().date, s.as_of);
            for (std::size_t i = 0; i < b.fill.size(); ++i) {
                const auto& p = b.fill[i];
                for (const Band* band : {&p.used_bytes, &p.live_bytes, &p.held_bytes}) {
                    EXPECT_LE(band->p10, band->p25);
                    EXPECT_LE(band->p25, band->p50);
                    EXPECT_LE(band->p50, band->p75);
                    EXPECT_LE(band->p75, band->p90);
                    EXPECT_GE(band->p10, 0);
                    EXPECT_TRUE(std::isfinite(band->p90));
                }
                EXPECT_NEAR(p.fill, p.used_bytes.p50 / b.usable_bytes, 1e-12);
                if (i > 0) {
                    EXPECT_GT(p.date, b.fill[i - 1].date);
                    EXPECT_LE((p.date - b.fill[i - 1].date).count(), 7);
                }
            }
        }
    }
}

TEST(Compute, EverythingIsFiniteOnASiteWithEveryFeature) {
    const auto o = outlook_of(rich_site(), 80);
    ASSERT_EQ(o.sends.size(), 1u);
    const auto& s = o.sends[0];
    for (const double v : {s.goodput.bits_per_second, s.bytes_per_run.p50, s.bytes_per_run.p90, s.bytes_per_run.p95,
                           s.hours_per_run.p50, s.hours_per_run.p95, s.open_hours_per_run,
                           s.recovery_point_hours.p50, s.recovery_point_max_hours, s.first_copy_bytes,
                           s.restore_hours.p50, s.restore_hours.p90, s.longest_outage_days.value_or(0),
                           s.first_copy_days.p50.value_or(-1)}) {
        EXPECT_TRUE(std::isfinite(v));
        EXPECT_GT(v, 0);
    }
    EXPECT_GE(s.chance_of_missing_window, 0);
    EXPECT_LE(s.chance_of_missing_window, 1);
    EXPECT_LE(s.recovery_point_hours.p50, s.recovery_point_hours.p95);
    EXPECT_LE(s.recovery_point_hours.p95, s.recovery_point_max_hours);
    EXPECT_EQ(s.week.size(), 7u);
    for (const auto& d : o.datasets) {
        EXPECT_GT(d.live_bytes, 0);
        EXPECT_GT(d.written_1h, 0);
        EXPECT_GE(d.written_1d, d.written_1h);
        EXPECT_GE(d.written_7d, d.written_1d);
        EXPECT_GE(d.written_30d, d.written_7d);
        EXPECT_FALSE(d.curve.empty());
    }
    // 20 GB a day and 80 GB a week were typed, growth included.
    EXPECT_NEAR(o.datasets[0].written_1d / (20 * gb), 1, 0.01);
    EXPECT_NEAR(o.datasets[0].written_7d / (80 * gb), 1, 0.01);
}

TEST(Compute, MoreIsRetainedNeverLessIsUsed) {
    auto d = dataset("d", 1 * tb, 0.1 * tb, 0.2);
    churn(d, 5 * gb, 20 * gb, 0.2);
    std::vector<double> before;
    for (const auto& ladder : {Ladder{}, daily(7), daily(30), Ladder{rung(1, Period::Unit::day, 30), rung(1, Period::Unit::week, 26)},
                               Ladder{rung(1, Period::Unit::hour, 48), rung(1, Period::Unit::day, 30), rung(1, Period::Unit::week, 26)}}) {
        d.ladder = ladder;
        const auto b = outlook_of(site(700, {d}, {box("home", 9 * tb)}), 60).boxes[0];
        std::vector<double> used;
        for (const auto& p : b.fill) used.push_back(p.used_bytes.p50);
        if (!before.empty()) {
            ASSERT_EQ(before.size(), used.size());
            for (std::size_t i = 0; i < used.size(); ++i) EXPECT_GE(used[i], before[i] - 2e5) << "point " << i;
            EXPECT_GT(used.back(), before.back());
        }
        before = used;
    }
}

TEST(Compute, ABiggerDriveNeverBringsTheDayForward) {
    auto s = rich_site();
    s.sends.clear();
    s.boxes = {s.boxes[0]};
    s.boxes[0].usable.reset();
    double before = 0;
    double usable = 0;
    for (const double drive : {3.0, 4.0, 5.0, 6.0, 8.0}) {
        Pool p;
        p.width = 5;
        p.redundancy = {Redundancy::Kind::parity, 2};
        p.drive = Bytes{drive * tb};
        s.boxes[0].pool = p;
        const auto b = outlook_of(s, 200).boxes[0];
        EXPECT_GT(b.usable_bytes, usable);
        EXPECT_GT(b.raw_bytes, b.usable_bytes);
        const double day = b.days_until_ceiling.p50.value_or(1e9);
        EXPECT_GE(day, before) << drive;
        before = day;
        usable = b.usable_bytes;
    }
    EXPECT_GT(before, 0);
}

TEST(Compute, ARequestToStopEndsTheWorkAsCancelled) {
    const auto s = rich_site();
    Settings settings;
    settings.paths = 2000;
    std::stop_source stop;
    Progress progress;
    progress.stop = stop.get_token();
    stop.request_stop();
    auto o = compute(s, {}, settings, progress);
    ASSERT_FALSE(o);
    EXPECT_TRUE(std::holds_alternative<Cancelled>(o.error()));

    for (const double at : {0.1, 0.7}) {  // while paths are drawn, and in the replay
        std::stop_source later;
        double told = 0;
        Progress midway;
        midway.stop = later.get_token();
        midway.report = [&](double share) {
            EXPECT_GE(share, told);
            EXPECT_LE(share, 1);
            told = share;
            if (share >= at) later.request_stop();
        };
        o = compute(s, {}, settings, midway);
        ASSERT_FALSE(o);
        EXPECT_TRUE(std::holds_alternative<Cancelled>(o.error())) << at;
        EXPECT_LT(told, 1);
    }
}

TEST(Compute, ProgressRisesToOne) {
    double told = 0;
    int times = 0;
    Progress progress;
    progress.report = [&](double share) {
        EXPECT_GE(share, told);
        told = share;
        ++times;
    };
    Settings settings;
    settings.paths = 1000;
    ASSERT_TRUE(compute(rich_site(), {}, settings, progress));
    EXPECT_NEAR(told, 1, 1e-9);
    EXPECT_GT(times, 5);
}

}  // namespace
}  // namespace ullage
