// SPDX-License-Identifier: GPL-3.0-or-later
// The laws follow from the definition of a mixture of exponential lifetimes; no outside source.
#include "core/turnover/curve.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace ullage {
namespace {

Curve random_curve(std::mt19937_64& random) {
    std::uniform_real_distribution<double> unit(0, 1);
    std::vector<CurveComponent> parts;
    const int n = 1 + static_cast<int>(random() % 6);
    for (int k = 0; k < n; ++k)
        parts.push_back({0.02 * std::pow(3650 / 0.02, unit(random)), 1e12 * unit(random)});
    return Curve(parts);
}

TEST(Curve, OneComponentIsTheExponentialLaw) {
    const Curve c({{10, 1000}});
    EXPECT_NEAR(c.freed(10), 1000 * (1 - std::exp(-1.0)), 1e-9);
    EXPECT_NEAR(c.freed(5) + c.freed(5) - c.freed(10), c.unique(5, 5), 1e-9);
    EXPECT_DOUBLE_EQ(c.total(), 1000);
}

TEST(Curve, NothingIsFreedInNoTimeAndNegativeTimeCountsAsNone) {
    const Curve c({{10, 1000}, {0.5, 30}});
    EXPECT_EQ(c.freed(0), 0);
    EXPECT_EQ(c.freed(-3), 0);
    EXPECT_EQ(c.unique(0, 5), 0);
    EXPECT_EQ(Curve().freed(5), 0);
    EXPECT_EQ(Curve().total(), 0);
}

TEST(Curve, AShortStepOfALongLifetimeLosesNoDigits) {
    // 1 − exp(−x) = x − x²/2 for small x (Taylor).
    const Curve c({{3650, 1e15}});
    const double x = 1e-9 / 3650;
    EXPECT_NEAR(c.freed(1e-9) / (1e15 * x), 1, 1e-12);
    EXPECT_NEAR(c.unique(1e-9, 1e-9) / (1e15 * x * x), 1, 1e-9);
}

TEST(Curve, RisesBendsDownAndStaysUnderItsTotal) {
    std::mt19937_64 random(11);
    for (int trial = 0; trial < 50; ++trial) {
        const Curve c = random_curve(random);
        const double slack = 1e-9 * c.total();
        double before = 0;
        double slope_before = c.freed(0.05) / 0.05 + slack;
        for (double d = 0.05; d < 1000; d *= 1.3) {
            EXPECT_GE(c.freed(d), before);
            EXPECT_LE(c.freed(d), c.total() + slack);
            const double slope = (c.freed(d * 1.01) - c.freed(d)) / (0.01 * d);
            EXPECT_LE(slope, slope_before + slack) << d;
            slope_before = slope;
            before = c.freed(d);
        }
        EXPECT_NEAR(c.freed(1e9), c.total(), slack);
    }
}

TEST(Curve, TwoStepsFreeAtLeastWhatOneLongStepDoesAndUniqueIsTheDifference) {
    std::mt19937_64 random(12);
    std::uniform_real_distribution<double> gap(0.01, 200);
    for (int trial = 0; trial < 500; ++trial) {
        const Curve c = random_curve(random);
        const double g = gap(random);
        const double h = gap(random);
        const double difference = c.freed(g) + c.freed(h) - c.freed(g + h);
        EXPECT_GE(difference, -1e-9 * c.total());
        EXPECT_NEAR(c.unique(g, h), difference, 1e-9 * c.total());
        EXPECT_DOUBLE_EQ(c.unique(g, h), c.unique(h, g));
    }
}

TEST(Curve, ScalingScalesEveryFigure) {
    const Curve c({{2, 100}, {60, 7}});
    EXPECT_NEAR(c.scaled(2.5).freed(9), 2.5 * c.freed(9), 1e-9);
    EXPECT_NEAR(c.scaled(2.5).unique(1, 3), 2.5 * c.unique(1, 3), 1e-9);
    EXPECT_NEAR(c.scaled(0).total(), 0, 0);
}

TEST(LifetimeGrid, GoesFromHalfAnHourToTenYearsInEvenLogSteps) {
    const auto& g = lifetime_grid();
    ASSERT_EQ(g.size(), 32u);
    EXPECT_NEAR(g.front(), 0.02, 1e-12);
    EXPECT_NEAR(g.back(), 3650, 1e-8);
    for (std::size_t k = 2; k < g.size(); ++k)
        EXPECT_NEAR(g[k] / g[k - 1], g[1] / g[0], 1e-9);
}

}  // namespace
}  // namespace ullage
