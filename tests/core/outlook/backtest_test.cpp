// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/backtest.h"

#include "core/outlook/measured_view.h"
#include "core/measure/measure.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace ullage {
namespace {

Instant at_day(double d) { return Instant(std::chrono::seconds(1'600'041'600 + std::llround(d * 86400))); }

/// A listing of days on which `freed(i)` bytes die and as many and `growth` more are written.
template <class Freed>
Listing listing_of(int snapshots, double growth, Freed&& freed) {
    Listing l;
    l.dataset = "d";
    double live = 1e12;
    for (int i = 0; i < snapshots; ++i) {
        Snapshot s;
        s.name = "d@" + std::to_string(i);
        s.taken = at_day(i);
        const double dies = i > 0 ? freed(i) : 0;
        s.written_bytes = i > 0 ? dies + growth : live;
        s.live_bytes = live += i > 0 ? growth : 0;
        s.unique_bytes = 0.1 * dies;
        l.snapshots.push_back(s);
    }
    return l;
}

Listing steady(int snapshots) {
    return listing_of(snapshots, 1e9, [](int) { return 5e9; });
}

TEST(Backtest, OfASteadyListingIsRight) {
    const auto b = backtest(steady(60));
    ASSERT_TRUE(b);
    ASSERT_EQ(b->origins.size(), 4u);
    EXPECT_LT(b->live_error, 0.002);
    // The middle of what wanders over months lies a little below its mean, and 400 paths tell it to a few percent.
    EXPECT_LT(b->freed_error, 0.1);
    EXPECT_GE(b->live_inside, 0.9);
    EXPECT_GE(b->freed_inside, 0.9);
}

TEST(Backtest, ComparesWithWhatTheListingShowsAfterTheOrigin) {
    const auto l = steady(40);
    const auto b = backtest(l);
    ASSERT_TRUE(b);
    for (const auto& o : b->origins) {
        const auto origin = static_cast<std::size_t>(o.snapshots) - 1;
        EXPECT_EQ(o.origin, l.snapshots[origin].taken);
        EXPECT_DOUBLE_EQ(o.live_bytes, l.snapshots[origin].live_bytes);
        ASSERT_EQ(o.live.size(), l.snapshots.size() - origin - 1);
        ASSERT_EQ(o.freed.size(), o.live.size());
        double freed = 0;
        for (std::size_t i = 0; i < o.live.size(); ++i) {
            const auto& s = l.snapshots[origin + 1 + i];
            freed += freed_between(l.snapshots[origin + i], s);
            EXPECT_EQ(o.live[i].at, s.taken);
            EXPECT_DOUBLE_EQ(o.live[i].days_ahead, double(i) + 1);
            EXPECT_DOUBLE_EQ(o.live[i].came, s.live_bytes);
            EXPECT_NEAR(o.freed[i].came, freed, 1);
            EXPECT_LE(o.freed[i].p10, o.freed[i].p50);
            EXPECT_LE(o.freed[i].p50, o.freed[i].p90);
        }
    }
}

TEST(Backtest, CountsManySnapshotsOfOneDayOnce) {
    auto l = steady(40);
    for (int hour = 1; hour <= 23; ++hour) {
        auto s = l.snapshots.back();
        s.taken = at_day(39 + hour / 24.0);
        s.written_bytes = 0;
        s.unique_bytes = 0;
        l.snapshots.push_back(s);
    }
    const auto b = backtest(l);
    ASSERT_TRUE(b);
    const auto& o = b->origins.front();
    EXPECT_LE(o.live.size(), 28u);
    EXPECT_EQ(o.live.back().at, l.snapshots.back().taken);
}

TEST(Backtest, KnowsNothingOfWhatComesAfterTheOrigin) {
    const auto quiet = steady(60);
    const auto turns = listing_of(60, 1e9, [](int i) { return i > 56 ? 80e9 : 5e9; });
    const auto a = backtest(quiet);
    const auto b = backtest(turns);
    ASSERT_TRUE(a && b);
    const auto& x = a->origins.front();
    const auto& y = b->origins.front();
    EXPECT_EQ(x.freed.back().p50, y.freed.back().p50);
    EXPECT_LT(x.freed.back().came, y.freed.back().came);
    EXPECT_LT(b->freed_inside, a->freed_inside);
}

TEST(Backtest, IsTheSameOnAnyNumberOfThreads) {
    std::mt19937_64 random(7);
    const auto l = listing_of(50, 1e9, [&](int) { return 1e7 * double(random() % 1000); });
    BacktestOptions one;
    one.threads = 1;
    BacktestOptions two;
    two.threads = 2;
    EXPECT_EQ(backtest(l, one), backtest(l, two));
}

TEST(Backtest, NeedsEightSnapshotsBeforeAndThreeAfter) {
    EXPECT_FALSE(backtest(steady(2)));
    EXPECT_FALSE(backtest(steady(10)));
    const auto b = backtest(steady(11));
    ASSERT_TRUE(b);
    EXPECT_EQ(b->origins.size(), 1u);
    EXPECT_EQ(b->origins.front().snapshots, 8);
    EXPECT_EQ(b->origins.front().live.size(), 3u);
}

TEST(MeasuredSteps, OfOneLengthAreTakenTogether) {
    Listing l = steady(11);
    for (int i = 1; i <= 3; ++i) {
        auto s = l.snapshots.back();
        s.taken = s.taken + std::chrono::hours(24 * 7 + i);
        s.written_bytes = i * 1e9;
        l.snapshots.push_back(s);
    }
    const auto steps = measured_steps(l);
    ASSERT_EQ(steps.size(), 2u);
    EXPECT_EQ(steps[0].steps, 10);
    EXPECT_DOUBLE_EQ(steps[0].gap_days, 1);
    EXPECT_NEAR(steps[0].freed_bytes, 5e9, 1);
    EXPECT_EQ(steps[1].steps, 3);
    EXPECT_NEAR(steps[1].gap_days, 7 + 2.0 / 24, 1e-9);
    EXPECT_NEAR(steps[1].freed_bytes, 2e9, 1);
    EXPECT_NEAR(steps[1].low_bytes, 1.2e9, 1);
    EXPECT_NEAR(steps[1].high_bytes, 2.8e9, 1);
    EXPECT_TRUE(measured_steps(steady(1)).empty());
}

TEST(CurveBandOf, OneCertainCurveIsThatCurve) {
    DatasetModel m;
    m.mean_curve = Curve({{3, 1e10}, {100, 4e10}});
    m.curves = {m.mean_curve};
    for (const auto& b : curve_band(m)) {
        EXPECT_NEAR(b.p10, m.mean_curve.freed(b.gap_days), 1);
        EXPECT_NEAR(b.p50, m.mean_curve.freed(b.gap_days), 1);
        EXPECT_NEAR(b.p90, m.mean_curve.freed(b.gap_days), 1);
    }
    EXPECT_TRUE(curve_band(DatasetModel()).empty());
}

TEST(CurveBandOf, RisesAndIsAsWideAsItsLevel) {
    DatasetModel m;
    m.mean_curve = Curve({{3, 1e10}, {100, 4e10}});
    m.curves = {m.mean_curve, m.mean_curve.scaled(1.5), m.mean_curve.scaled(0.7)};
    m.churn_spread = 0.2;
    const auto band = curve_band(m);
    ASSERT_GT(band.size(), 30u);
    EXPECT_NEAR(band.front().gap_days, 1.0 / 24, 1e-12);
    EXPECT_NEAR(band.back().gap_days, 5 * days_per_year, 1e-6);
    for (std::size_t i = 0; i < band.size(); ++i) {
        EXPECT_LT(band[i].p10, band[i].p50);
        EXPECT_LT(band[i].p50, band[i].p90);
        EXPECT_LT(band[i].p10, 0.75 * m.mean_curve.freed(band[i].gap_days));
        EXPECT_GT(band[i].p90, 1.45 * m.mean_curve.freed(band[i].gap_days));
        if (i > 0) {
            EXPECT_GT(band[i].p50, band[i - 1].p50);
        }
    }
}

}  // namespace
}  // namespace ullage
