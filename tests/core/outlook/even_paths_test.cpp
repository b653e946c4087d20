// SPDX-License-Identifier: GPL-3.0-or-later
// What a path draws once is spread evenly over the paths (units/sobol.h).
#include "core/outlook/paths.h"
#include "core/outlook/send_study.h"
#include "outlook_testing.h"

#include <cmath>
#include <set>

namespace ullage {
namespace {

using namespace testing;

constexpr double spread = 0.3;
constexpr std::size_t curves = 8;

std::vector<DrawnInputs> drawn_of(int paths) {
    std::vector<Dataset> datasets = {dataset("a", 1 * tb, 200 * gb, spread), dataset("b", 2 * tb, 100 * gb, spread)};
    for (auto& d : datasets) {
        churn(d, 6 * gb, 25 * gb, spread);
        d.ladder = daily(60);
    }
    auto s = site(200, datasets, {box("home", 90 * tb), box("attic", 90 * tb)});
    add_send(s, 200);
    auto study = study_sends(s, {}, {}, {});
    EXPECT_TRUE(study);
    for (const auto& m : study->models) EXPECT_EQ(m.curves.size(), curves);
    study->plan.paths = paths;
    return draw_paths(study->models, study->plan, {}, 0, 1)->drawn;
}

TEST(EvenPaths, ACurveIsDrawnAsOftenAsAnyOther) {
    const int paths = 1024;
    const auto all = drawn_of(paths);
    for (const auto& of_dataset : all) {
        const auto& drawn = of_dataset.curve;
        ASSERT_EQ(drawn.size(), std::size_t(paths));
        std::set<int> first;
        std::vector<std::size_t> counts(curves, 0);
        for (std::size_t p = 0; p < drawn.size(); p += block_paths) {
            ++counts[std::size_t(drawn[p])];
            if (p < curves * block_paths) first.insert(drawn[p]);
            for (std::size_t lane = 0; lane < block_paths; ++lane) EXPECT_EQ(drawn[p + lane], drawn[p]);
        }
        EXPECT_EQ(first.size(), curves) << "the first blocks have one each";
        for (const std::size_t n : counts) EXPECT_EQ(n, std::size_t(paths) / block_paths / curves);
    }
    EXPECT_NE(all[0].curve, all[1].curve);
}

TEST(EvenPaths, TheFewThatAreReplayedHaveCurvesOfTheirOwn) {
    // One that dies sooner than the next, so that all of them hold differently.
    DatasetModel m;
    m.live_bytes = 1 * tb;
    m.churn_spread = spread;
    for (std::size_t c = 0; c < curves; ++c) m.curves.push_back(Curve({{1.0 + double(c), 10 * gb}}));
    m.mean_curve = m.curves.front();
    PathsPlan plan;
    plan.as_of = Instant(as_of);
    plan.days = {0, 1, 2};
    plan.paths = 64;
    plan.samples = int(curves);
    const auto paths = draw_paths({m}, plan, {}, 0, 1);
    ASSERT_TRUE(paths);
    std::set<int> replayed;
    for (const auto& path : paths->samples) replayed.insert(path.front().curve);
    EXPECT_EQ(replayed.size(), curves);
    for (std::size_t p = 1; p < block_paths; ++p) EXPECT_EQ(paths->drawn.front().curve[p], paths->drawn.front().curve[0]);
}

TEST(EvenPaths, LevelsOfChurnLieOneInEachOfAsManyLikelyParts) {
    const auto all = drawn_of(512);
    const double variance = std::log1p(spread * spread);
    for (const auto& drawn : all)
        for (const std::size_t n : {16U, 64U}) {
            std::set<int> parts;
            for (std::size_t p = 0; p < n; ++p) {
                const double z = (std::log(double(drawn.level[p])) + variance / 2) / std::sqrt(variance);
                parts.insert(static_cast<int>(std::erfc(-z / std::sqrt(2)) / 2 * double(n)));
            }
            EXPECT_EQ(parts.size(), n);
        }
    EXPECT_NE(all[0].level, all[1].level);
}

TEST(EvenPaths, TellTheDayOfTheCeilingCloserThanIndependentOnesWould) {
    // Growth g (1 + 0.3 z) a year from 1 TB: the ceiling is reached after room ÷ rate. With 2,048 independent paths the
    // standard error of the middle day were √(¼ ÷ 2048) ÷ φ(0) × 0.3 of it, nine days here.
    for (const std::uint64_t seed : {1U, 2U, 3U, 4U}) {
        const auto s = site(3650, {dataset("d", 1 * tb, 0.2 * tb, spread)}, {box("home", 2 * tb)});
        const auto b = outlook_of(s, 2048, seed).boxes[0];
        const double room = b.ceiling_bytes - 1 * tb;
        ASSERT_GT(room, 0.3 * tb);
        const auto day = [&](double z) { return room / (0.2 * tb * (1 + spread * z)) * 365.25; };
        EXPECT_NEAR(*b.days_until_ceiling.p10, day(1.2815515655), 2);
        EXPECT_NEAR(*b.days_until_ceiling.p50, day(0), 2);
        EXPECT_NEAR(*b.days_until_ceiling.p90, day(-1.2815515655), 4);
    }
}

TEST(EvenPaths, APathIsTheSameHoweverManyThereAre) {
    const auto few = drawn_of(100), many = drawn_of(400);
    for (std::size_t d = 0; d < 2; ++d)
        for (std::size_t p = 0; p < 100; ++p) {
            EXPECT_EQ(few[d].level[p], many[d].level[p]);
            EXPECT_EQ(few[d].curve[p], many[d].curve[p]);
        }
}

}  // namespace
}  // namespace ullage
