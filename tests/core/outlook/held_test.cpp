// SPDX-License-Identifier: GPL-3.0-or-later
// What snapshots hold over time, on sites small enough to count by hand.
#include "outlook_testing.h"

#include "core/outlook/models.h"
#include "core/retention/ladder.h"

#include <cmath>

namespace ullage {
namespace {

using namespace testing;

constexpr double rounding = 2e5;  // bytes: levels are kept in single precision

TEST(Held, AtHomeIsTheSumOverTheLadderEachDayWhenNothingGrows) {
    auto d = dataset("d", 1 * tb, 0);
    churn(d, 5 * gb, 20 * gb);
    d.ladder = daily(14);
    const auto s = site(50, {d}, {box("home", 4 * tb)});
    const auto o = outlook_of(s, 1);
    const auto models = dataset_models(s, {}, as_of);
    ASSERT_TRUE(models);
    const auto& curve = models->front().mean_curve;
    for (int day = 0; day < 50; ++day) {
        // At midnight the newest has just been taken: 13 gaps of a day and one of no time.
        EXPECT_NEAR(point_at(o.boxes[0], day).held_bytes.p50, 13 * curve.freed(1), rounding) << day;
        EXPECT_NEAR(point_at(o.boxes[0], day).live_bytes.p50, 1 * tb, rounding);
    }
}

TEST(Held, WhatIsRemovedStaysUntilTheLastSnapshotOfItExpires) {
    for (const auto kind : {Event::Kind::remove, Event::Kind::rewrite}) {
        auto d = dataset("d", 1 * tb, 0);
        d.ladder = daily(10);
        d.events = {event(kind, 20, 100 * gb)};
        const auto b = outlook_of(site(50, {d}, {box("home", 4 * tb)}), 1).boxes[0];
        const double live_after = kind == Event::Kind::remove ? 0.9 * tb : 1 * tb;
        for (int day = 0; day < 50; ++day) {
            // The snapshot of day 19 is the last that has it; 10 days old on day 29, it is gone.
            const bool held = day >= 20 && day < 29;
            EXPECT_NEAR(point_at(b, day).held_bytes.p50, held ? 100 * gb : 0, rounding) << day;
            EXPECT_NEAR(point_at(b, day).live_bytes.p50, day >= 20 ? live_after : 1 * tb, rounding) << day;
        }
    }
}

TEST(Held, AMoveCostsNothing) {
    auto d = dataset("d", 1 * tb, 0.1 * tb);
    d.ladder = daily(10);
    const auto without = outlook_of(site(50, {d}, {box("home", 4 * tb)}), 1).boxes[0];
    d.events = {event(Event::Kind::move, 20, 900 * gb)};
    EXPECT_EQ(outlook_of(site(50, {d}, {box("home", 4 * tb)}), 1).boxes[0].fill, without.fill);
}

TEST(Held, WithoutALadderNothingIsHeldAndARemovalIsFreedAtOnce) {
    auto d = dataset("d", 1 * tb, 0);
    churn(d, 5 * gb);
    d.events = {event(Event::Kind::remove, 20, 100 * gb)};
    const auto b = outlook_of(site(50, {d}, {box("home", 4 * tb)}), 1).boxes[0];
    EXPECT_NEAR(point_at(b, 19).used_bytes.p50, 1 * tb, rounding);
    EXPECT_NEAR(point_at(b, 20).used_bytes.p50, 0.9 * tb, rounding);
}

Site copied(FirstCopy::By by, int ladder_days) {
    auto d = dataset("d", 1 * tb, 0);
    churn(d, 5 * gb, 20 * gb);
    d.ladder = daily(ladder_days);
    auto s = site(59, {d}, {box("home", 4 * tb), box("attic", 4 * tb)});
    add_send(s, 200, by);
    return s;
}

TEST(Held, ACopyThatIsPresentHasItsWholeLadderAndANewOneFillsItDayByDay) {
    const auto s = copied(FirstCopy::By::present, 20);
    const auto models = dataset_models(s, {}, as_of);
    const double step = models->front().mean_curve.freed(1);
    const auto present = outlook_of(s, 1).boxes[1];
    for (int day = 0; day < 59; ++day)
        EXPECT_NEAR(point_at(present, day).held_bytes.p50, 19 * step, rounding) << day;
    EXPECT_TRUE(present.receives_copies);

    const auto o = outlook_of(copied(FirstCopy::By::link, 20), 1);
    const auto& fresh = o.boxes[1];
    // 1 TB and 0.24 % of headers over 200 Mbit/s at 94 % payload (Ethernet, IP, TCP with timestamps,
    // RFC 6349): 11.9 hours. On day 1 the copy is there.
    EXPECT_NEAR(*o.sends[0].first_copy_days.p50 * 24, 1.00238 * 8e12 / o.sends[0].goodput.bits_per_second / 3600, 0.01);
    EXPECT_NEAR(*o.sends[0].first_copy_days.p50, 0.49, 0.01);
    EXPECT_EQ(point_at(fresh, 0).used_bytes.p50, 0);
    for (int day = 1; day < 59; ++day) {
        // The base of day 0 and one snapshot a day: `day` gaps, at most 19.
        EXPECT_NEAR(point_at(fresh, day).held_bytes.p50, std::min(day, 19) * step, rounding) << day;
        EXPECT_NEAR(point_at(fresh, day).live_bytes.p50, 1 * tb, rounding) << day;
    }
}

TEST(Held, AFirstCopyOverASlowLinkFillsTheBoxEvenlyUntilItIsThere) {
    auto s = copied(FirstCopy::By::link, 5);
    s.links[0].up = s.links[0].down = Entered<BitsPerSecond>(BitsPerSecond{5e6});
    s.boxes[1].in_service = as_of + std::chrono::days(3);
    const auto o = outlook_of(s, 1);
    const double days_taken = *o.sends[0].first_copy_days.p50;
    EXPECT_NEAR(days_taken, 1.00238 * 8e12 / o.sends[0].goodput.bits_per_second / 86400, 0.01);
    ASSERT_GT(days_taken, 15);
    for (int day = 0; day < 3 + int(days_taken); ++day)
        EXPECT_NEAR(point_at(o.boxes[1], day).used_bytes.p50, std::max(0, day - 3) / days_taken * tb, rounding) << day;
    EXPECT_EQ(point_at(o.boxes[1], 10).held_bytes.p50, 0);
}

TEST(Held, ACopyThatIsNotThereByTheEndTakesWhatTheLinkCarriedSinceTheBoxWasPutIn) {
    auto s = copied(FirstCopy::By::link, 5);
    s.links[0].up = s.links[0].down = Entered<BitsPerSecond>(BitsPerSecond{1e6});
    s.boxes[1].in_service = as_of + std::chrono::days(29);
    auto o = outlook_of(s, 1);
    EXPECT_FALSE(o.sends[0].first_copy_days.p50);
    const double carried = o.sends[0].goodput.bits_per_second / 8 * 30 * 86400 / 1.00238;
    EXPECT_NEAR(o.boxes[1].fill.back().used_bytes.p50 / carried, 1, 0.01);
    EXPECT_EQ(point_at(o.boxes[1], 29).used_bytes.p50, 0);
    // In service only after the horizon: nothing arrives.
    s.boxes[1].in_service = as_of + std::chrono::days(400);
    o = outlook_of(s, 1);
    for (const auto& p : o.boxes[1].fill) EXPECT_EQ(p.used_bytes.p50, 0);
    // Carried by hand and still on the road at the end: nothing either.
    s.boxes[1].in_service.reset();
    s.sends[0].first_copy.by = FirstCopy::By::courier;
    s.sends[0].first_copy.copy_rate = Entered<BytesPerSecond>(BytesPerSecond{1e8});
    s.sends[0].first_copy.days_away = 300;
    o = outlook_of(s, 1);
    for (const auto& p : o.boxes[1].fill) EXPECT_EQ(p.used_bytes.p50, 0);
}

TEST(Held, ACourierBringsTheCopyAfterCopyingTheRoadAndTheCatchUp) {
    auto s = copied(FirstCopy::By::courier, 5);
    s.sends[0].first_copy.copy_rate = Entered<BytesPerSecond>(BytesPerSecond{1e8});
    s.sends[0].first_copy.days_away = 3;
    const auto o = outlook_of(s, 1);
    // 1 TB at 100 MB/s: 0.1157 d; 3 d; then what was written meanwhile, less than 20 GB, in 15 min.
    EXPECT_GT(*o.sends[0].first_copy_days.p50, 0.1157 + 3);
    EXPECT_LT(*o.sends[0].first_copy_days.p50, 0.1157 + 3 + 0.02);
    EXPECT_EQ(point_at(o.boxes[1], 3).used_bytes.p50, 0);
    EXPECT_GT(point_at(o.boxes[1], 4).used_bytes.p50, 1 * tb);
}

TEST(Held, KeepAllNeverGivesAnythingBack) {
    auto s = copied(FirstCopy::By::present, 5);
    const auto thinned = outlook_of(s, 1).boxes[1];
    s.sends[0].ladder = KeepAll();
    const auto all = outlook_of(s, 1).boxes[1];
    const double step = dataset_models(s, {}, as_of)->front().mean_curve.freed(1);
    for (int day = 1; day < 59; ++day)
        EXPECT_NEAR(point_at(all, day).held_bytes.p50 - point_at(all, day - 1).held_bytes.p50, step, rounding) << day;
    EXPECT_GT(all.fill.back().used_bytes.p50, thinned.fill.back().used_bytes.p50);
}

TEST(Held, ABoxesOwnLadderHoldsWhatItSays) {
    auto s = copied(FirstCopy::By::present, 5);
    const double day_step = dataset_models(s, {}, as_of)->front().mean_curve.freed(1);
    const double week_step = dataset_models(s, {}, as_of)->front().mean_curve.freed(7);
    s.sends[0].ladder = Ladder{rung(1, Period::Unit::week, 8)};
    const auto b = outlook_of(s, 1).boxes[1];
    for (int day = 0; day < 50; ++day) {
        // Eight Mondays; past Monday also the newest, so many days on.
        const double since = day % 7;
        const double curve = since > 0 ? dataset_models(s, {}, as_of)->front().mean_curve.freed(since) : 0;
        EXPECT_NEAR(point_at(b, day).held_bytes.p50, 7 * week_step + curve, rounding) << day;
    }
    EXPECT_LT(week_step, 7 * day_step);
}

TEST(Held, GrowingDataHoldInProportionToWhatWasLiveInTheGap) {
    auto d = dataset("d", 1 * tb, 0.365 * tb);  // about a TB in 2.7 years
    churn(d, 5 * gb, 22 * gb);
    d.ladder = {rung(1, Period::Unit::week, 52)};
    const auto s = site(800, {d}, {box("home", 9 * tb)});
    const auto b = outlook_of(s, 1).boxes[0];
    const auto models = dataset_models(s, {}, as_of);
    const double growth = models->front().growth_per_day;
    const auto& last = b.fill.back();
    // 51 whole weeks and the time since Monday, each scaled by live in its middle.
    const LadderClock clock(d.ladder, TimeZone());
    auto ends = clock.retained(Instant(last.date));
    ends.emplace_back(last.date);
    double expected = 0;
    for (std::size_t i = 1; i < ends.size(); ++i) {
        const double gap = days_between(ends[i - 1], ends[i]);
        const double middle = days_between(Instant(as_of), ends[i - 1]) + gap / 2;
        expected += models->front().mean_curve.freed(gap) * (1 * tb + growth * middle) / tb;
    }
    EXPECT_NEAR(last.held_bytes.p50 / expected, 1, 1e-3);
}

TEST(Held, AListedPastIsHeldAsTheListingShowsItAndLeavesWithItsSnapshots) {
    // Ten daily snapshots that show a burst the curve knows nothing of: 50 GB freed on the fourth night.
    Listing l;
    l.dataset = "d";
    double held = 0;
    for (int i = 0; i < 10; ++i) {
        Snapshot s;
        s.name = "d@" + std::to_string(i);
        s.taken = Instant(as_of) - std::chrono::days(9 - i);
        s.live_bytes = 1 * tb;
        s.written_bytes = i == 0 ? 1 * tb : i == 4 ? 50 * gb : 1 * gb;
        s.unique_bytes = i == 0 ? 1 * gb : 0;
        if (i > 0) held += s.written_bytes;
        l.snapshots.push_back(s);
    }
    Evidence evidence;
    evidence.listings["l.tsv"] = {l};
    auto d = dataset("d", 1 * tb, 0);
    d.live.reset();
    d.turnover = Turnover();
    d.turnover->listing = "l.tsv";
    d.ladder = daily(10);
    const auto b = outlook_of(site(59, {d}, {box("home", 4 * tb)}), 200, 1, 1, evidence).boxes[0];
    EXPECT_NEAR(point_at(b, 0).held_bytes.p50, held, rounding);
    EXPECT_NEAR(point_at(b, 0).held_bytes.p10, held, rounding) << "known, so without a spread";
    // The snapshot of day −6 is the last that has the burst; it is 10 days old on day 4.
    EXPECT_GT(point_at(b, 3).held_bytes.p50, 50 * gb);
    EXPECT_LT(point_at(b, 4).held_bytes.p50, point_at(b, 3).held_bytes.p50 - 40 * gb);

    // Noted as an event as well, the burst is still one burst.
    d.events = {event(Event::Kind::remove, -5, 49 * gb)};
    const auto noted = outlook_of(site(59, {d}, {box("home", 4 * tb)}), 200, 1, 1, evidence).boxes[0];
    EXPECT_NEAR(point_at(noted, 0).held_bytes.p50, held, rounding);
}

}  // namespace
}  // namespace ullage
