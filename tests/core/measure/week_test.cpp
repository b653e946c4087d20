// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/week.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <numeric>
#include <random>

namespace ullage {
namespace {

/// Snapshots at each midnight from Monday 2026-01-05 on; `written(i)` by the step that ends day i, Monday 0.
Listing daily(int days, const std::function<double(int)>& written, int hours = 24) {
    Listing l;
    for (int i = 0; i <= days; ++i) {
        Snapshot s;
        s.taken = *parse_instant("2026-01-05T00:00:00Z") + std::chrono::hours(hours * i);
        s.live_bytes = 1e12;
        s.written_bytes = i > 0 ? written(i - 1) : 0;
        l.snapshots.push_back(s);
    }
    return l;
}

double sum(const WeekShape& w) { return std::accumulate(w.begin(), w.end(), 0.0); }

const WeekShape flat = {1, 1, 1, 1, 1, 1, 1};

TEST(WeekShapeOf, AnExactWorkingWeekIsThatWeekMondayFirst) {
    const auto w = week_shape(daily(56, [](int i) { return i % 7 < 5 ? 10e9 : 2e9; }));
    for (std::size_t d = 0; d < 7; ++d) EXPECT_NEAR(w[d], (d < 5 ? 10 : 2) * 7 / 54.0, 1e-9) << d;
}

TEST(WeekShapeOf, NoisyDaysWithoutAWeekAreNearlyFlat) {
    double off = 0;
    constexpr int trials = 40;
    for (int t = 0; t < trials; ++t) {
        std::mt19937_64 random(static_cast<std::uint64_t>(t) + 1);
        std::exponential_distribution<double> bytes(1e-9);
        const auto w = week_shape(daily(90, [&](int) { return bytes(random); }));
        EXPECT_NEAR(sum(w), 7, 1e-9);
        for (const double s : w) off += std::abs(s - 1) / (7 * trials);
    }
    EXPECT_LT(off, 0.09) << "the plain means of thirteen such days are off by 0.22";
}

TEST(WeekShapeOf, IsFoundThroughNoise) {
    std::mt19937_64 random(5);
    std::gamma_distribution<double> noise(2, 0.5);
    const auto w = week_shape(daily(90, [&](int i) { return (i % 7 < 5 ? 13e9 : 2e9) * noise(random); }));
    for (std::size_t d = 0; d < 7; ++d) EXPECT_NEAR(w[d], (d < 5 ? 13 : 2) * 7 / 69.0, 0.45) << d;
    EXPECT_LT(w[5] + w[6], 0.5 * (w[0] + w[1]));
}

TEST(WeekShapeOf, ShortSparseOrIdleListingsIsFlat) {
    const auto working = [](int i) { return i % 7 < 5 ? 10e9 : 2e9; };
    EXPECT_EQ(week_shape(daily(27, working)), flat);
    EXPECT_NE(week_shape(daily(28, working)), flat);
    EXPECT_EQ(week_shape(daily(400, working, 1)), flat) << "hourly";
    EXPECT_EQ(week_shape(daily(60, working, 24 * 7)), flat) << "weekly";
    EXPECT_EQ(week_shape(daily(60, [](int) { return 0.0; })), flat);
    EXPECT_EQ(week_shape(daily(60, [](int) { return 5e9; })), flat);
    EXPECT_EQ(week_shape(Listing()), flat);
}

}  // namespace
}  // namespace ullage
