// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/turnover/fit.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <random>
#include <vector>

namespace ullage {
namespace {

using Kind = Observation::Kind;

/// The gaps of a listing with 24 hourly, 14 daily, 8 weekly and 12 snapshots of 30 days.
std::vector<double> tiered_gaps() {
    std::vector<double> gaps(9, 30);
    gaps.insert(gaps.end(), 6, 7);
    gaps.insert(gaps.end(), 13, 1);
    gaps.insert(gaps.end(), 23, 1.0 / 24);
    return gaps;
}

std::vector<Observation> rows_of(const Curve& c, const std::vector<double>& gaps) {
    std::vector<Observation> rows;
    for (std::size_t i = 0; i < gaps.size(); ++i) {
        rows.push_back({Kind::freed, gaps[i], 0, c.freed(gaps[i]), 1});
        rows.push_back({Kind::written, gaps[i], 0, c.freed(gaps[i]), 1});
        if (i + 1 < gaps.size())
            rows.push_back({Kind::unique, gaps[i], gaps[i + 1], c.unique(gaps[i], gaps[i + 1]), 1});
    }
    return rows;
}

double held(const Curve& c, const std::vector<double>& gaps) {
    double sum = 0;
    for (const double g : gaps) sum += c.freed(g);
    return sum;
}

const std::vector<Curve>& known_curves() {
    static const std::vector<Curve> curves = {
        Curve({{0.3, 2e9}, {4, 1.2e10}, {40, 5e10}, {600, 3e11}}),
        Curve({{30, 4e11}}),
        Curve({{1, 3e9}, {2000, 9e11}}),
        Curve({{7, 1e10}, {90, 1e10}, {365, 1e10}}),
    };
    return curves;
}

TEST(FitCurve, RecoversTheHeldBytesOfAKnownCurveOnTheSameLadderAndOnAnother) {
    for (std::size_t c = 0; c < known_curves().size(); ++c) {
        const Curve& truth = known_curves()[c];
        FitOptions options;
        options.live_bytes = 1e12;
        const auto fit = fit_curve(rows_of(truth, tiered_gaps()), options);
        ASSERT_TRUE(fit) << fit.error();
        EXPECT_NEAR(held(fit->curve, tiered_gaps()) / held(truth, tiered_gaps()), 1, 0.015) << c;
        const std::vector<double> weekly(52, 7);
        EXPECT_NEAR(held(fit->curve, weekly) / held(truth, weekly), 1, 0.03) << c;
        EXPECT_LE(fit->relative_error, 0.01) << c;
        EXPECT_DOUBLE_EQ(fit->longest_days, 60) << c;
        EXPECT_LE(fit->curve.total(), options.live_bytes);
    }
}

TEST(FitCurve, BurstsOnTheRowsLeaveTheHeldBytesNearTheTruth) {
    std::mt19937_64 random(31);
    const Curve truth = known_curves()[0];
    double worst = 0;
    for (int trial = 0; trial < 20; ++trial) {
        auto rows = rows_of(truth, tiered_gaps());
        const double burst = 2e8;
        for (auto& r : rows) {
            // Compound Poisson: bursts of one size, their number drawn.
            std::poisson_distribution<int> count(r.bytes / burst);
            r.bytes = burst * count(random);
        }
        const auto fit = fit_curve(rows, {});
        ASSERT_TRUE(fit) << fit.error();
        worst = std::max(worst, std::abs(held(fit->curve, tiered_gaps()) / held(truth, tiered_gaps()) - 1));
        EXPECT_GT(fit->burst_bytes, burst / 4);
        EXPECT_LT(fit->burst_bytes, burst * 4);
    }
    EXPECT_LE(worst, 0.06);
}

TEST(FitCurve, ScalesWithItsRows) {
    const auto rows = rows_of(known_curves()[0], tiered_gaps());
    auto larger = rows;
    for (auto& r : larger) r.bytes *= 1024;
    const auto one = fit_curve(rows, {});
    const auto other = fit_curve(larger, {});
    ASSERT_TRUE(one && other);
    for (const double d : {0.04, 1.0, 7.0, 30.0, 365.0})
        EXPECT_NEAR(other->curve.freed(d) / one->curve.freed(d), 1024, 0.1) << d;
}

TEST(FitCurve, AWeightOfTwoCountsLikeTwoEqualRows) {
    auto rows = rows_of(known_curves()[0], {1, 1, 7, 7, 30});
    rows[0].bytes *= 1.3;  // so that weights matter
    auto doubled = rows;
    auto weighted = rows;
    doubled.push_back(rows[0]);
    weighted[0].weight = 2;
    const auto a = fit_curve(doubled, {});
    const auto b = fit_curve(weighted, {});
    ASSERT_TRUE(a && b);
    for (const double d : {1.0, 7.0, 30.0})
        EXPECT_NEAR(a->curve.freed(d) / b->curve.freed(d), 1, 1e-6) << d;
}

TEST(FitCurve, NoMoreEverDiesThanIsLive) {
    // 30 daily steps that each free a tenth of what is live: beyond them the bound must hold.
    for (const double live : {1e9, 3e9, 1e10}) {
        std::vector<Observation> rows;
        for (int i = 0; i < 30; ++i) rows.push_back({Kind::freed, 1, 0, 1e8, 1});
        rows.push_back({Kind::freed, 30, 0, 3e9, 1});
        FitOptions options;
        options.live_bytes = live;
        const auto fit = fit_curve(rows, options);
        ASSERT_TRUE(fit) << fit.error();
        EXPECT_LE(fit->curve.total(), live * (1 + 1e-12));
        EXPECT_GT(fit->curve.total(), 0);
    }
}

TEST(FitCurve, RowsInWhichNothingDiesGiveAnEmptyCurve) {
    const auto fit = fit_curve({{Kind::freed, 1, 0, 0, 1}, {Kind::unique, 1, 2, 0, 1}}, {});
    ASSERT_TRUE(fit) << fit.error();
    EXPECT_TRUE(fit->curve.components().empty());
    EXPECT_EQ(fit->longest_days, 3);
    EXPECT_EQ(fit->relative_error, 0);
    const auto shrinking = fit_curve({{Kind::freed, 1, 0, -5e9, 1}}, {});
    ASSERT_TRUE(shrinking) << shrinking.error();
    EXPECT_EQ(shrinking->curve.freed(30), 0);
}

TEST(FitCurve, ImpossibleRowsAreErrorsThatNameThem) {
    EXPECT_FALSE(fit_curve({}, {}));
    constexpr double nan = std::numeric_limits<double>::quiet_NaN();
    constexpr double inf = std::numeric_limits<double>::infinity();
    const Observation good{Kind::freed, 1, 0, 1e6, 1};
    for (const Observation bad : {Observation{Kind::freed, 0, 0, 1e6, 1}, {Kind::freed, -1, 0, 1e6, 1},
                                  {Kind::freed, nan, 0, 1e6, 1}, {Kind::unique, 1, 0, 1e6, 1},
                                  {Kind::freed, 1, 0, nan, 1}, {Kind::freed, 1, 0, inf, 1},
                                  {Kind::freed, 1, 0, 1e6, 0}, {Kind::freed, 1, 0, 1e6, -1}}) {
        const auto fit = fit_curve({good, bad}, {});
        ASSERT_FALSE(fit);
        EXPECT_NE(fit.error().find("observation 1"), std::string::npos) << fit.error();
    }
}

void expect_meets(const std::vector<CurveComponent>& figures, double live, const FitOptions& given) {
    FitOptions options = given;
    options.live_bytes = live;
    const auto curve = curve_through(figures, options);
    ASSERT_TRUE(curve) << curve.error();
    for (const auto& f : figures)
        EXPECT_NEAR(curve->freed(f.lifetime_days) / f.bytes, 1, 0.01)
            << "at " << f.lifetime_days << " d of " << figures.size() << " figures, live " << live;
    EXPECT_LE(curve->total(), live * (1 + 1e-12));
    double before = 0;
    for (double d = 0.01; d < 4000; d *= 1.5) {
        EXPECT_GE(curve->freed(d), before);
        before = curve->freed(d);
    }
}

TEST(CurveThrough, MeetsTypedFiguresOfPowerLawsToAPercent) {
    // freed(δ) = a δ^β with 0 < β < 1 is a mixture of exponentials (a Bernstein function, from memory).
    for (double beta = 0.15; beta < 0.96; beta += 0.1)
        for (const double day_share : {0.0001, 0.001, 0.01}) {
            const double live = 8e12;
            const double day = day_share * live;
            const double week = day * std::pow(7, beta);
            const double month = day * std::pow(30, beta);
            if (month > 0.15 * live) continue;  // no curve within the live bytes goes on so straight
            expect_meets({{1, day}, {7, week}, {30, month}}, live, {});
            expect_meets({{1, day}, {7, week}}, live, {});
            expect_meets({{1, day}}, live, {});
        }
}

TEST(CurveThrough, MeetsTypedFiguresOfRandomMixturesToAPercent) {
    std::mt19937_64 random(32);
    std::uniform_real_distribution<double> unit(0, 1);
    for (int trial = 0; trial < 150; ++trial) {
        std::vector<CurveComponent> parts;
        for (int k = 0; k < 3; ++k)
            parts.push_back({0.1 * std::pow(2e4, unit(random)), 1e11 * (0.02 + unit(random))});
        const Curve truth(parts);
        expect_meets({{1, truth.freed(1)}, {7, truth.freed(7)}, {30, truth.freed(30)}},
                     1.5 * truth.total(), {});
    }
}

TEST(CurveThrough, EveryAlternativeShapeMeetsTheFiguresAndTheyDifferBeyond) {
    std::vector<double> yearly;
    for (int i = 0; i < 8; ++i) {
        FitOptions options;
        options.shape_draw = (i + 0.5) / 8;
        expect_meets({{1, 1e9}}, 1e12, options);
        options.live_bytes = 1e12;
        yearly.push_back(curve_through({{1, 1e9}}, options)->freed(365));
    }
    // One daily figure leaves the year open; it may be a few days' worth or most of the 365.
    EXPECT_GT(yearly.back(), 1.5 * yearly.front());
    EXPECT_LT(yearly.back(), 365e9);
    EXPECT_GT(yearly.front(), 1e9);
}

TEST(CurveThrough, FiguresOfNothingGiveAnEmptyCurveAndImpossibleOnesAnError) {
    const auto none = curve_through({{1, 0}, {7, 0}}, {});
    ASSERT_TRUE(none);
    EXPECT_EQ(none->total(), 0);
    EXPECT_FALSE(curve_through({}, {}));
    EXPECT_FALSE(curve_through({{0, 5}}, {}));
    EXPECT_FALSE(curve_through({{1, -5}}, {}));
    EXPECT_FALSE(curve_through({{1, std::numeric_limits<double>::quiet_NaN()}}, {}));
    EXPECT_FALSE(curve_through({{1, std::numeric_limits<double>::infinity()}}, {}));
}

}  // namespace
}  // namespace ullage
