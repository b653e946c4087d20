// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/growth.h"

#include "core/units/quantiles.h"
#include "core/units/units.h"

#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <random>

namespace ullage {
namespace {

// scipy.stats.theilslopes(y, t, 0.95) for t = 0 … 9; ordinary least squares gives 1.66848.
const std::vector<double> spiked = {1, 2.1, 2.9, 4.2, 5, 5.9, 7.1, 30, 9, 10.1};

std::vector<LivePoint> points_of(const std::vector<double>& y) {
    std::vector<LivePoint> p;
    for (std::size_t i = 0; i < y.size(); ++i) p.push_back({static_cast<double>(i), y[i]});
    return p;
}

TEST(TheilSen, GivesTheSlopeThatScipyGives) {
    EXPECT_NEAR(theil_sen_slope(points_of(spiked)), 1.011111111111111, 1e-15);
}

TEST(TheilSen, IsTheSlopeOfALineAndZeroWithoutTwoDays) {
    EXPECT_DOUBLE_EQ(theil_sen_slope({{0, 5}, {2, 9}, {10, 25}}), 2);
    EXPECT_EQ(theil_sen_slope({}), 0);
    EXPECT_EQ(theil_sen_slope({{1, 5}}), 0);
    EXPECT_EQ(theil_sen_slope({{1, 5}, {1, 9}}), 0);
    // An even number of slopes: the mean of the middle two (1, 1, 1, 2, 2.5, 4).
    EXPECT_DOUBLE_EQ(theil_sen_slope({{0, 0}, {1, 1}, {2, 2}, {3, 6}}), 1.5);
}

/// Bytes added by each of `days`, per future, stretched as the paths do.
std::vector<std::vector<double>> futures_of(const GrowthModel& m, const std::vector<double>& days, int n) {
    const auto middle = middle_growth(m, days);
    std::vector<std::vector<double>> all;
    for (int i = 0; i < n; ++i) {
        RandomSequence random(5, 1, static_cast<std::uint32_t>(i));
        auto& added = all.emplace_back();
        draw_growth(m, i % growth_kinds, {}, random, days, added);
        stretch_growth(m, days, middle, added);
    }
    return all;
}

double quantile_at(const std::vector<std::vector<double>>& futures, std::size_t day, double p) {
    std::vector<double> values;
    for (const auto& f : futures) values.push_back(f[day]);
    return quantile_of(values, p);
}

TEST(Growth, TheRateIsDrawnByTheNumbersGiven) {
    // A number stands for a share: those of the median and of p90 of a normal distribution.
    constexpr auto number_of = [](double share) { return static_cast<std::uint32_t>(share * 4294967296.0); };
    constexpr double z90 = 1.2815515655446004;
    std::vector<std::uint32_t> given(growth_rate_numbers, number_of(0.5));
    RandomSequence random(1, 1, 1);
    std::vector<double> added;
    GrowthModel pooled;
    pooled.pull = 1;
    pooled.pooled_bytes_per_day = 10;
    pooled.pooled_spread = 3;
    draw_growth(pooled, 0, given, random, {100}, added);
    EXPECT_NEAR(added[0], 1000, 0.01);
    given[0] = number_of(0.9);
    draw_growth(pooled, 0, given, random, {100}, added);
    EXPECT_NEAR(added[0], 1000 + 300 * z90, 0.01);

    // The drift of a walk without noise: the second.
    GrowthModel walk;
    for (int i = 0; i < 20; ++i) walk.blocks.push_back({7, 70, 0, 1, false, {{0, 0}, {7, 70}}});
    walk.bytes_per_day = 10;
    walk.standard_error = 2;
    given[1] = number_of(0.1);
    draw_growth(walk, 3, given, random, {100}, added);
    EXPECT_NEAR(added[0], 1000 - 200 * z90, 0.01);

    // Weights: of two stretches, one with all of the weight. Its number is near 0, the other's near 1.
    GrowthModel two;
    two.blocks = {{28, 0, 42, 1, false, {{0, 0}, {28, 0}}}, {28, 280, 14, 1, false, {{0, 0}, {28, 280}}}};
    given[1] = number_of(1 - 1e-9);
    given[2] = number_of(1e-6);
    draw_growth(two, 0, given, random, {280}, added);
    EXPECT_NEAR(added[0], 2800, 1e-9);
}

TEST(Growth, OfASteadyHistoryIsItsSlopeAndAlmostCertain) {
    std::vector<LivePoint> steady;
    for (int d = 0; d <= 365; ++d) steady.push_back({double(d), 1e12 + 2e9 * d});
    const auto m = growth_model(steady);
    EXPECT_NEAR(m.bytes_per_day, 2e9, 1);
    EXPECT_NEAR(m.noise_per_root_day, 0, 1);
    EXPECT_TRUE(m.never_fell);
    const auto futures = futures_of(m, {365}, 400);
    EXPECT_NEAR(quantile_at(futures, 0, 0.5), 365 * 2e9, 0.02 * 365 * 2e9);
    EXPECT_LT(quantile_at(futures, 0, 0.9) / quantile_at(futures, 0, 0.1), 1.4);
}

TEST(Growth, AOneOffStepComesAsAStepOrNotAtAllNeverAsASlope) {
    std::vector<LivePoint> stepped;
    for (int d = 0; d <= 365; ++d) stepped.push_back({double(d), 1e12 + 2e9 * d + (d >= 150 ? 2e12 : 0)});
    const auto m = growth_model(stepped);
    int steps = 0;
    for (const auto& b : m.blocks) steps += b.step ? 1 : 0;
    EXPECT_EQ(steps, 1);
    const auto futures = futures_of(m, {30, 365}, 1000);
    // The slope alone adds 60 GB and 730 GB, a line through the ends 224 GB and 2.73 TB.
    EXPECT_NEAR(quantile_at(futures, 0, 0.5), 60e9, 60e9);
    EXPECT_LT(quantile_at(futures, 1, 0.5), 1.5e12);
    EXPECT_LT(quantile_at(futures, 1, 0.1), 1.0e12) << "no step within the year is likely";
    EXPECT_GT(quantile_at(futures, 1, 0.9), 2.0e12) << "another step is possible";
}

TEST(Growth, NoiseAndStandardErrorOfARandomWalkAreThoseItWasMadeWith) {
    // Increments N(g, s²) a day over n days: their mean has a standard error of s/√n.
    std::mt19937_64 random(41);
    std::normal_distribution<double> normal;
    double noise = 0;
    double error = 0;
    double squares = 0;
    constexpr int trials = 100;
    constexpr int n = 182;
    for (int t = 0; t < trials; ++t) {
        std::vector<LivePoint> walk = {{0, 1e6}};
        for (int d = 1; d <= n; ++d) walk.push_back({double(d), walk.back().bytes + 100 + 50 * normal(random)});
        const auto g = growth_model(walk);
        noise += g.noise_per_root_day / trials;
        error += g.standard_error / trials;
        squares += (g.bytes_per_day - 100) * (g.bytes_per_day - 100) / trials;
    }
    EXPECT_NEAR(noise, 50, 3);
    EXPECT_NEAR(error, 50 / std::sqrt(n), 0.3);
    EXPECT_NEAR(std::sqrt(squares), error, 0.35 * error);
}

TEST(Growth, OfFivePointsIsWideButNotWild) {
    const auto m = growth_model({{0, 1e12}, {7, 1.01e12}, {14, 1.0e12}, {21, 1.03e12}, {28, 1.02e12}});
    const auto futures = futures_of(m, {365}, 1000);
    EXPECT_EQ(m.judged, 0);
    EXPECT_DOUBLE_EQ(m.stretch(30), 1.3);
    EXPECT_GT(quantile_at(futures, 0, 0.9) - quantile_at(futures, 0, 0.1), 0.15e12);
    EXPECT_LT(quantile_at(futures, 0, 0.9), 1e12);
    EXPECT_GT(quantile_at(futures, 0, 0.1), -0.5e12);
}

TEST(Growth, WithoutAHistoryIsThePooledRateAndSpread) {
    const auto m = growth_model({{0, 1e12}});
    EXPECT_DOUBLE_EQ(m.pull, 1);
    const auto futures = futures_of(m, {days_per_year}, 2000);
    EXPECT_NEAR(quantile_at(futures, 0, 0.5), 0.1e12, 0.02e12);
}

TEST(Growth, OfWhatNeverFellNeverFalls) {
    std::mt19937_64 random(3);
    std::vector<LivePoint> points = {{0, 1e9}};
    for (int d = 1; d <= 200; ++d)
        points.push_back({double(d), points.back().bytes + (random() % 20 == 0 ? 3e8 : 0)});
    std::vector<double> days;
    for (int d = 1; d <= 300; ++d) days.push_back(d);
    for (const auto& f : futures_of(growth_model(points), days, 200)) {
        EXPECT_GE(f.front(), 0);
        for (std::size_t i = 1; i < f.size(); ++i) EXPECT_GE(f[i], f[i - 1]);
    }
}

TEST(Growth, ScalesWithItsHistory) {
    std::mt19937_64 random(9);
    std::vector<LivePoint> one, thousand;
    double level = 1e9;
    for (int d = 0; d <= 120; ++d) {
        one.push_back({double(d), level});
        thousand.push_back({double(d), 1000 * level});
        level += double(random() % 1000) * 1e4 - 2e6;
    }
    const std::vector<double> days = {10, 100};
    const auto a = futures_of(growth_model(one).scaled(1000), days, 50);
    const auto b = futures_of(growth_model(thousand), days, 50);
    for (std::size_t i = 0; i < a.size(); ++i)
        for (std::size_t d = 0; d < days.size(); ++d) EXPECT_NEAR(a[i][d], b[i][d], 1e-6 * std::abs(b[i][d]) + 1);
}

TEST(Growth, StretchRunsFromThirtyToNinetyDays) {
    GrowthModel m;
    m.stretch_30 = 1.2;
    m.stretch_90 = 2.2;
    EXPECT_DOUBLE_EQ(m.stretch(1), 1.2);
    EXPECT_DOUBLE_EQ(m.stretch(30), 1.2);
    EXPECT_NEAR(m.stretch(30 * std::sqrt(3)), 1.7, 1e-12);
    EXPECT_DOUBLE_EQ(m.stretch(90), 2.2);
    EXPECT_DOUBLE_EQ(m.stretch(1000), 2.2);
}

/// Shares of truths within the 80 % interval 30 and 90 days ahead, of simulated histories of 180 days.
struct Cover {
    double at_30 = 0, at_90 = 0;
};

using Increments = std::function<double(std::mt19937_64&, int day)>;

Cover cover_of(const std::function<Increments(std::mt19937_64&)>& make) {
    constexpr int series = 150;
    constexpr int seen = 180;
    Cover cover;
    for (int s = 0; s < series; ++s) {
        std::mt19937_64 random(static_cast<std::uint64_t>(s) + 1);
        const auto increment = make(random);
        std::vector<LivePoint> points = {{0, 0}};
        double level = 0;
        for (int d = 1; d <= seen; ++d) points.push_back({double(d), level += increment(random, d)});
        double ahead[2] = {0, 0};
        double sum = 0;
        for (int d = 1; d <= 90; ++d) {
            sum += increment(random, seen + d);
            if (d == 30) ahead[0] = sum;
        }
        ahead[1] = sum;
        const auto futures = futures_of(growth_model(points), {30, 90}, 600);
        const auto inside = [&](std::size_t i) {
            return ahead[i] >= quantile_at(futures, i, 0.1) && ahead[i] <= quantile_at(futures, i, 0.9) ? 1 : 0;
        };
        cover.at_30 += double(inside(0)) / series;
        cover.at_90 += double(inside(1)) / series;
    }
    return cover;
}

double weekday(int day) { return day % 7 < 5 ? 1.28 : 0.3; }

double normal(std::mt19937_64& random) { return std::normal_distribution<double>()(random); }

// Six kinds of growth whose truth is known; a random walk with drift covers 26 and 6 % of the last. One
// standard error of a cover over 150 series is 3 points.
TEST(GrowthCover, OfIndependentDays) {
    const auto c = cover_of([](auto&) { return [](auto& r, int) { return 1 + 0.8 * normal(r); }; });
    EXPECT_GE(c.at_30, 0.72);
    EXPECT_LE(c.at_30, 0.90);
    EXPECT_GE(c.at_90, 0.72);
    EXPECT_LE(c.at_90, 0.96);
}

TEST(GrowthCover, OfAWorkingWeek) {
    const auto c = cover_of([](auto&) { return [](auto& r, int d) { return weekday(d) + 0.4 * normal(r); }; });
    EXPECT_GE(c.at_30, 0.72);
    EXPECT_LE(c.at_30, 0.92);
    EXPECT_GE(c.at_90, 0.72);
    EXPECT_LE(c.at_90, 0.96);
}

TEST(GrowthCover, OfDaysThatRememberTheDayBefore) {
    const auto c = cover_of([](auto&) {
        return [e = 0.0](auto& r, int d) mutable {
            e = 0.6 * e + 0.64 * normal(r);
            return weekday(d) + e;
        };
    });
    EXPECT_GE(c.at_30, 0.72);
    EXPECT_LE(c.at_30, 0.90);
    EXPECT_GE(c.at_90, 0.72);
}

TEST(GrowthCover, OfLoadsAndPurges) {
    const auto c = cover_of([](auto&) {
        return [](auto& r, int) {
            std::uniform_real_distribution<double> u;
            double step = 0;
            if (u(r) < 0.03) step = std::exp(2 + 0.6 * normal(r)) * (u(r) < 1.0 / 3 ? -1 : 1);
            return 0.9 + 0.3 * normal(r) + step;
        };
    });
    EXPECT_GE(c.at_30, 0.72);
    EXPECT_LE(c.at_30, 0.90);
    EXPECT_GE(c.at_90, 0.72);
    EXPECT_LE(c.at_90, 0.93);
}

TEST(GrowthCover, OfARateThatDrifts) {
    const auto c = cover_of([](auto&) {
        return [rate = 0.0](auto& r, int) mutable { return std::exp(rate += 0.015 * normal(r)) + 0.4 * normal(r); };
    });
    EXPECT_GE(c.at_30, 0.70);
    EXPECT_GE(c.at_90, 0.65);
}

// The day of the change lies anywhere in the 270 days: in every third series it is still to come, and
// nothing in the history tells.
TEST(GrowthCover, OfARateThatDoublesOneDay) {
    const auto c = cover_of([](auto& r) {
        const int change = static_cast<int>(r() % 270);
        return [change](auto& q, int d) { return (d < change ? 1 : 2) + 0.4 * normal(q); };
    });
    EXPECT_GE(c.at_30, 0.68);
    EXPECT_GE(c.at_90, 0.55);
}

}  // namespace
}  // namespace ullage
