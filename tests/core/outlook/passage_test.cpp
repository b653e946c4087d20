// SPDX-License-Identifier: GPL-3.0-or-later
// First passage of Brownian motion with drift: T is inverse Gaussian with mean d/μ and shape d²/σ².
// Quantiles from scipy.stats.invgauss(mu=m/lam, scale=lam), which agree with R statmod::qinvgauss:
// tests/reference/first_passage.tsv, made by first_passage.py beside it.
// Looking once a step of dt shifts d to d + 0.5825971579 σ √dt (Siegmund; Broadie, Glasserman and
// Kou 1997; the constant is −ζ(1/2)/√(2π)).
#include "core/outlook/paths.h"

#include "tests/reference/reference_table.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace ullage {
namespace {

constexpr double unit = 1e9;  // bytes: single precision must not matter
constexpr double start_level = 1000;

double normal_cdf(double z) { return 0.5 * std::erfc(-z / std::sqrt(2)); }

/// Distribution function of the passage; 2 μ d/σ² small enough that exp does not overflow.
double passage_cdf(double d, double mu, double sigma, double t) {
    return normal_cdf((mu * t - d) / (sigma * std::sqrt(t))) +
           std::exp(2 * mu * d / (sigma * sigma)) * normal_cdf(-(mu * t + d) / (sigma * std::sqrt(t)));
}
DatasetModel drifting(double mu, double sigma) {
    DatasetModel m;
    m.name = "d";
    m.live_bytes = start_level * unit;
    m.growth_per_day = mu * unit;
    m.growth_noise = sigma * unit;
    m.curves = {Curve()};
    return m;
}

PathsPlan plan_of(const std::vector<double>& days, int paths) {
    PathsPlan plan;
    plan.days = days;
    plan.boxes = 1;
    plan.other_bytes = {0};
    BoxPart part;
    part.kept.home = true;
    part.kept.at = KeptTimes(days.size());
    plan.parts = {part};
    plan.paths = paths;
    plan.threads = 1;
    return plan;
}

std::vector<double> every_day(int horizon) {
    std::vector<double> days;
    for (int d = 0; d <= horizon; ++d) days.push_back(d);
    return days;
}

/// First-passage days over `d` more than at the start, never counted as infinite, sorted.
std::vector<double> passages(const DatasetModel& m, const PathsPlan& plan, double d) {
    const auto paths = draw_paths({m}, plan, {}, 0, 1);
    EXPECT_TRUE(paths);
    std::vector<double> days;
    for (std::size_t p = 0; p < paths->paths; ++p)
        days.push_back(first_passage(plan.days, paths->used[0].path(p), block_paths, (start_level + d) * unit)
                           .value_or(INFINITY));
    std::sort(days.begin(), days.end());
    return days;
}

/// One quantile of the table.
struct PassageRow {
    double p = 0, continuous = 0, daily = 0, weekly = 0, density = 0;
    double error(int n) const { return std::sqrt(p * (1 - p) / n) / density; }
};
struct PassageCase {
    double d = 0, mu = 0, sigma = 0, drift_sd = 0;
    DatasetModel model() const {
        auto m = drifting(mu, sigma);
        m.growth_rate_sd = drift_sd * unit;
        return m;
    }
    std::string text() const {
        return "d " + std::to_string(d) + ", drift " + std::to_string(mu) + " ± " +
               std::to_string(drift_sd) + ", noise " + std::to_string(sigma);
    }
};

std::vector<std::pair<PassageCase, std::vector<PassageRow>>> passage_cases() {
    std::map<std::string, std::pair<PassageCase, std::vector<PassageRow>>> by_text;
    for (const auto& row : testing::reference_table("first_passage.tsv")) {
        const PassageCase c{row.number("d"), row.number("mu"), row.number("sigma"),
                            row.number("drift_sd")};
        auto& of = by_text[c.text()];
        of.first = c;
        of.second.push_back({row.number("p"), row.number("continuous"), row.number("daily"),
                             row.number("weekly"), row.number("daily_density")});
    }
    EXPECT_EQ(by_text.size(), 12u);
    std::vector<std::pair<PassageCase, std::vector<PassageRow>>> all;
    for (const auto& [text, of] : by_text) all.push_back(of);
    return all;
}

TEST(PassageLaw, TheClosedFormHereGivesTheQuantilesOfTheTable) {
    int looked_at = 0;
    for (const auto& [c, rows] : passage_cases()) {
        if (c.drift_sd > 0 || 2 * c.mu * c.d / (c.sigma * c.sigma) > 500) continue;
        for (const auto& row : rows) {
            EXPECT_NEAR(passage_cdf(c.d, c.mu, c.sigma, row.continuous), row.p, 1e-9)
                << c.text() << ", p " << row.p;
            ++looked_at;
        }
    }
    EXPECT_GE(looked_at, 60);
    // The same law for a path that may never come there, computed with scipy.
    EXPECT_NEAR(passage_cdf(100, 1, 2, 100), 0.5395066941, 1e-9);
    EXPECT_NEAR(passage_cdf(10, -0.05, 2, 365), 0.68581744, 1e-8);
}

/// The order statistic whose expected rank is nearest.
double of_sorted(const std::vector<double>& days, double p) {
    return days[std::size_t(p * double(days.size()))];
}

TEST(Passage, DailyPathsMeetTheCorrectedInverseGaussianAtEveryQuantile) {
    // tests/reference/first_passage.tsv; a quantile of n draws has the standard error √(p (1 − p) /
    // n) ÷ density.
    constexpr int n = 3000;
    for (const auto& [c, rows] : passage_cases()) {
        const int last = int(1.5 * rows.back().weekly) + 60;
        const auto days = passages(c.model(), plan_of(every_day(last), n), c.d);
        for (const auto& row : rows)
            EXPECT_NEAR(of_sorted(days, row.p), std::ceil(row.daily), 1 + 3 * row.error(n))
                << c.text() << ", p " << row.p;
    }
}

TEST(Passage, OnTheGridOfTheForecastItIsDailyFor60DaysAndThenLateByAtMostTheWeeklyCorrection) {
    // Each day until 60, then each week: noise within a week is not drawn, so a passage comes up to
    // 0.58 σ √7 ÷ μ later than in continuous time, and never sooner than Monte Carlo error allows.
    constexpr int n = 3000;
    int within = 0;
    int beyond = 0;
    for (const auto& [c, rows] : passage_cases()) {
        const auto grid = time_grid(1.5 * rows.back().weekly + 60, {});
        const auto days = passages(c.model(), plan_of(grid, n), c.d);
        for (const auto& row : rows) {
            const double day = of_sorted(days, row.p);
            const double slack = 3 * row.error(n);
            if (row.daily + 1 + slack <= 60) {
                EXPECT_NEAR(day, std::ceil(row.daily), 1 + slack) << c.text() << ", p " << row.p;
                ++within;
            } else {
                EXPECT_GE(day, row.continuous - slack) << c.text() << ", p " << row.p;
                EXPECT_LE(day, row.weekly + 1 + slack) << c.text() << ", p " << row.p;
                ++beyond;
            }
        }
    }
    EXPECT_GE(within, 20);
    EXPECT_GE(beyond, 20);
}

TEST(Passage, WithoutDriftOrShrinkingManyPathsNeverComeThere) {
    constexpr int n = 3000;
    for (const double mu : {0.0, -0.05, -0.2}) {
        const auto days = passages(drifting(mu, 2), plan_of(every_day(365), n), 10);
        const double corrected = 10 + 0.5825971579 * 2;
        for (const int t : {30, 90, 365}) {
            const double law = passage_cdf(corrected, mu, 2, t);
            const auto by = std::upper_bound(days.begin(), days.end(), double(t)) - days.begin();
            EXPECT_NEAR(double(by) / n, law, 0.01 + 3 * std::sqrt(law * (1 - law) / n)) << mu << " by " << t;
        }
    }
}

TEST(FirstPassage, IsTheFirstWholeDayOnTheStraightLines) {
    const std::vector<double> days = {0, 1, 8, 15};
    const std::array<float, 4> level = {0, 10, 80, 20};
    EXPECT_EQ(first_passage(days, level.data(), 1, 0), std::optional(0.0));
    EXPECT_EQ(first_passage(days, level.data(), 1, 5), std::optional(1.0));
    EXPECT_EQ(first_passage(days, level.data(), 1, 10), std::optional(1.0));
    EXPECT_EQ(first_passage(days, level.data(), 1, 30), std::optional(3.0));
    EXPECT_EQ(first_passage(days, level.data(), 1, 31), std::optional(4.0));
    EXPECT_EQ(first_passage(days, level.data(), 1, 80), std::optional(8.0));
    EXPECT_FALSE(first_passage(days, level.data(), 1, 81));
    const std::array<float, 8> two = {0, 100, 5, 0, 10, 0, 20, 0};  // the second path falls
    EXPECT_EQ(first_passage(days, &two[1], 2, 100), std::optional(0.0));
    EXPECT_EQ(first_passage(days, &two[0], 2, 10), std::optional(8.0));
}

TEST(TimeGrid, HasEveryDayAtFirstThenEveryWeekTheDaysAboutEventsAndBothEnds) {
    const auto g = time_grid(1826.25, {200, 400.0});
    EXPECT_EQ(g.front(), 0);
    EXPECT_EQ(g.back(), 1826.25);
    EXPECT_TRUE(std::is_sorted(g.begin(), g.end()));
    for (int d = 0; d <= 60; ++d) EXPECT_TRUE(std::binary_search(g.begin(), g.end(), double(d))) << d;
    for (const double d : {199.0, 200.0, 201.0, 202.0, 399.0, 400.0})
        EXPECT_TRUE(std::binary_search(g.begin(), g.end(), d)) << d;
    for (std::size_t i = 1; i < g.size(); ++i) {
        EXPECT_GT(g[i], g[i - 1]);
        EXPECT_LE(g[i] - g[i - 1], 7);
    }
    EXPECT_EQ(time_grid(10, {-5, 300}).size(), 11u);
}

TEST(DrawPaths, APathIsTheSameWhateverTheNumberOfPathsAndThreads) {
    std::vector<DatasetModel> models = {drifting(1, 2), drifting(0.5, 1)};
    models[0].curves = {Curve({{1, 1e10}}), Curve({{10, 2e10}}), Curve({{100, 3e10}})};
    models[1].curves = models[0].curves;
    for (auto& m : models) {
        m.growth_rate_sd = 0.2 * unit;
        m.churn_spread = 0.3;
        m.live_spread = 0.1;
        m.day_variation = 0.5;
        EventModel e;
        e.day = 20;
        e.bytes = 30 * unit;
        e.spread = 0.3;
        e.day_spread = 10;
        m.events = {e};
    }
    auto plan = plan_of(time_grid(300, {}), 41);
    KeptTimes kept(plan.days.size());
    for (std::size_t i = 0; i < plan.days.size(); ++i)
        for (int back = 10; back >= 0; --back)
            kept[i].push_back(plan.as_of + std::chrono::seconds(std::llround((plan.days[i] - back) * 86400)));
    plan.parts[0].kept.at = std::move(kept);
    plan.parts.push_back(plan.parts[0]);
    plan.parts[1].dataset = 1;
    plan.samples = 5;
    const auto few = draw_paths(models, plan, {}, 0, 1);
    plan.paths = 400;
    plan.threads = 2;
    plan.samples = 40;
    const auto many = draw_paths(models, plan, {}, 0, 1);
    ASSERT_TRUE(few && many);
    for (std::size_t i = 0; i < few->times; ++i)
        for (std::size_t p = 0; p < few->paths; ++p) {
            ASSERT_EQ(few->used[0].at(i, p), many->used[0].at(i, p)) << i << ", " << p;
            ASSERT_EQ(few->held[0].at(i, p), many->held[0].at(i, p)) << i << ", " << p;
        }
    for (std::size_t p = 0; p < 5; ++p)
        for (std::size_t d = 0; d < 2; ++d) {
            EXPECT_EQ(few->samples[p][d].live, many->samples[p][d].live);
            EXPECT_EQ(few->samples[p][d].churn, many->samples[p][d].churn);
        }
}

TEST(DrawPaths, EveryDatasetGoesThroughAllItsAlternativesEvenlyAndOnItsOwn) {
    std::vector<DatasetModel> models(10, drifting(0, 0));
    for (auto& m : models) m.curves = {Curve({{1, 1}}), Curve({{2, 1}}), Curve({{3, 1}})};
    auto plan = plan_of({0, 1}, 16 * 300);
    plan.samples = plan.paths;
    const auto paths = draw_paths(models, plan, {}, 0, 1);
    ASSERT_TRUE(paths);
    for (std::size_t d = 0; d < models.size(); ++d) {
        std::array<int, 3> times{};
        for (std::size_t p = 0; p < paths->paths; ++p) ++times[std::size_t(paths->samples[p][d].curve)];
        for (const int t : times) EXPECT_NEAR(t, 16 * 100, 2 * 16) << "dataset " << d;
    }
    for (std::size_t d = 1; d < models.size(); ++d) {
        // Of 300 blocks a third agree with the first dataset by chance: 100 ± 8.
        int same = 0;
        for (std::size_t p = 0; p < paths->paths; p += 16)
            same += paths->samples[p][0].curve == paths->samples[p][d].curve ? 1 : 0;
        EXPECT_NEAR(same, 100, 33) << "dataset " << d;
    }
}

TEST(DrawPaths, APlannedEventWhoseDateIsUncertainStillHappensOnEveryPath) {
    auto m = drifting(0, 0);
    EventModel e;
    e.day = 10;
    e.bytes = 50 * unit;
    e.day_spread = 30;  // a third of the draws lie before as_of
    m.events = {e};
    const auto plan = plan_of(every_day(300), 400);
    const auto paths = draw_paths({m}, plan, {}, 0, 1);
    ASSERT_TRUE(paths);
    for (std::size_t p = 0; p < paths->paths; ++p) {
        EXPECT_EQ(paths->used[0].at(0, p), float(start_level * unit)) << "today's live bytes are known";
        EXPECT_EQ(paths->used[0].at(300, p), float((start_level + 50) * unit)) << p;
    }
}

TEST(DrawPaths, AnEventOfThePastIsInTodaysLiveBytesAlready) {
    auto m = drifting(0, 0);
    EventModel e;
    e.day = -10;
    e.bytes = 50 * unit;
    e.day_spread = 30;
    m.events = {e};
    const auto plan = plan_of(every_day(100), 200);
    const auto paths = draw_paths({m}, plan, {}, 0, 1);
    ASSERT_TRUE(paths);
    for (std::size_t i = 0; i < paths->times; ++i)
        for (const float used : paths->used[0].row(i)) ASSERT_EQ(used, float(start_level * unit));
}

TEST(DrawPaths, LevelsAndNoiseHaveTheMeanAndTheSpreadThatWereAskedFor) {
    auto m = drifting(0, 0);
    m.churn_spread = 0.3;
    m.day_variation = 0.5;
    auto plan = plan_of(every_day(40), 4000);
    plan.samples = plan.paths;
    const auto paths = draw_paths({m}, plan, {}, 0, 1);
    ASSERT_TRUE(paths);
    double sum = 0;
    double squares = 0;
    for (const auto& s : paths->samples) {
        const double churn = s[0].churn[20];
        sum += churn;
        squares += churn * churn;
    }
    const double n = 4000;
    const double mean = sum / n;
    // Independent factors of mean 1: (1 + 0.3²)(1 + 0.5²) − 1 is the variance of the product.
    const double variance = 1.09 * 1.25 - 1;
    EXPECT_NEAR(mean, 1, 4 * std::sqrt(variance / n));
    EXPECT_NEAR(squares / n - mean * mean, variance, 0.1 * variance + 0.05);
}

}  // namespace
}  // namespace ullage
