// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/measure.h"
#include "core/words/wording.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace ullage {
namespace {

constexpr std::int64_t midnight = 1'600'000'000 / 86400 * 86400;

Instant day(double d) { return Instant(std::chrono::seconds(midnight + std::llround(d * 86400))); }

Snapshot snapshot(double at_day, double unique, double live, double written) {
    Snapshot s;
    s.name = "d@" + std::to_string(at_day);
    s.taken = day(at_day);
    s.unique_bytes = unique;
    s.live_bytes = live;
    s.written_bytes = written;
    return s;
}

/// A listing that shows exactly what a curve and a steady growth give at these days.
Listing listing_of(const Curve& c, double live, double growth, const std::vector<double>& at) {
    Listing l;
    l.dataset = "d";
    for (std::size_t i = 0; i < at.size(); ++i) {
        const double gap = i > 0 ? at[i] - at[i - 1] : 0;
        const double next = i + 1 < at.size() ? at[i + 1] - at[i] : 0;
        const double now = live + growth * (at[i] - at.back());
        const double written = i > 0 ? c.freed(gap) + growth * gap : now;
        l.snapshots.push_back(snapshot(at[i], i > 0 ? c.unique(gap, next) : 0, now, written));
    }
    return l;
}

std::vector<double> daily(int n) {
    std::vector<double> at;
    for (int i = 0; i < n; ++i) at.push_back(i);
    return at;
}

TEST(Measure, GivesLiveGrowthAndHeldBytesOfAKnownHistory) {
    const Curve c({{1, 4e9}, {20, 2e10}, {300, 1e11}});
    const auto l = listing_of(c, 1e12, 1e9, daily(31));
    const auto m = measure(l, {});
    ASSERT_TRUE(m) << m.error();
    EXPECT_EQ(m->dataset, "d");
    EXPECT_EQ(m->snapshots, 31);
    EXPECT_EQ(m->first, day(0));
    EXPECT_EQ(m->last, day(30));
    EXPECT_DOUBLE_EQ(m->live_bytes, 1e12);
    EXPECT_NEAR(m->growth.bytes_per_day, 1e9, 1);
    EXPECT_NEAR(m->held_bytes, 30 * c.freed(1), 1);
    EXPECT_DOUBLE_EQ(m->shortest_days, 1);
    EXPECT_DOUBLE_EQ(m->fit.longest_days, 2);
    EXPECT_NEAR(m->written(1), c.freed(1) + 1e9, 0.02 * c.freed(1));
    EXPECT_EQ(m->replicates.size(), static_cast<std::size_t>(MeasureOptions().replicates));
    EXPECT_TRUE(m->warnings.empty());
}

TEST(Measure, WritesNothingLessThanNothing) {
    const auto l = listing_of(Curve({{10, 1e9}}), 1e12, -3e9, daily(20));
    const auto m = measure(l, {});
    ASSERT_TRUE(m) << m.error();
    EXPECT_EQ(m->written(30), 0);
}

TEST(Measure, TheRowsAreTheThreeIdentitiesOfAListing) {
    Listing l;
    l.snapshots = {snapshot(0, 7, 1000, 1000), snapshot(1, 30, 1100, 250), snapshot(3, 0, 1050, 200)};
    const auto rows = observations_of(l, 10);
    ASSERT_EQ(rows.size(), 5u);
    using Kind = Observation::Kind;
    EXPECT_EQ(rows[0], (Observation{Kind::freed, 1, 0, 150, 1}));     // 1000 + 250 − 1100
    EXPECT_EQ(rows[1], (Observation{Kind::written, 1, 0, 240, 1}));   // 250 − 10 · 1
    EXPECT_EQ(rows[2], (Observation{Kind::unique, 1, 2, 30, 1}));     // born in the first gap, dead in the second
    EXPECT_EQ(rows[3], (Observation{Kind::freed, 2, 0, 250, 1}));     // 1100 + 200 − 1050
    EXPECT_EQ(rows[4], (Observation{Kind::written, 2, 0, 180, 1}));   // 200 − 10 · 2
}

TEST(Measure, TheSameSeedGivesTheSameAlternatives) {
    Listing l = listing_of(Curve({{1, 4e9}, {50, 5e10}}), 1e12, 1e9, daily(20));
    std::mt19937_64 random(42);
    for (auto& s : l.snapshots) s.written_bytes *= 0.5 + double(random() % 1000) / 1000;
    MeasureOptions options;
    options.replicates = 6;
    const auto a = measure(l, options);
    const auto b = measure(l, options);
    options.seed = 2;
    const auto c = measure(l, options);
    ASSERT_TRUE(a && b && c);
    EXPECT_EQ(*a, *b);
    EXPECT_NE(a->replicates, c->replicates);
    double least = 1e300;
    double most = 0;
    for (const auto& r : a->replicates) {
        least = std::min(least, r.freed(30));
        most = std::max(most, r.freed(30));
    }
    EXPECT_GT(most, 1.02 * least) << "resampled rows must give different curves";
    EXPECT_LT(most, 10 * least);
}

// Of so many only every k-th is looked at; the newest always is.
TEST(Measure, ReadsTheSameOutOfVeryManySnapshots) {
    const Curve c({{1, 4e9}, {20, 2e10}, {300, 1e11}});
    std::vector<double> at;
    for (int i = 0; i <= 100'003; ++i) at.push_back(i / 48.0);
    MeasureOptions few;
    few.replicates = 1;
    const auto m = measure(listing_of(c, 1e13, 1e9, at), few);
    ASSERT_TRUE(m) << m.error();
    EXPECT_DOUBLE_EQ(m->live_bytes, 1e13);
    EXPECT_NEAR(m->growth.bytes_per_day, 1e9, 1e3);
    // The listing shows the same curve at every size; what is measured at the mean size is scaled to the newest.
    const double scaled = c.freed(1.0 / 48) * 1e13 / (1e13 - 1e9 * at.back() / 2);
    EXPECT_NEAR(m->fit.curve.freed(1.0 / 48), scaled, 0.005 * scaled);
}

TEST(Measure, OneSnapshotOrNothingLiveIsAnErrorThatSaysSo) {
    Listing one;
    one.dataset = "d";
    one.snapshots = {snapshot(0, 0, 5, 5)};
    const auto m = measure(one, {});
    ASSERT_FALSE(m);
    EXPECT_NE(m.error().find("1 snapshot;"), std::string::npos) << m.error();
    EXPECT_NE(m.error().find("“d”"), std::string::npos) << m.error();
    EXPECT_FALSE(measure(Listing(), {}));
    Listing empty;
    empty.snapshots = {snapshot(0, 0, 0, 0), snapshot(1, 0, 0, 0)};
    EXPECT_FALSE(measure(empty, {}));
}

TEST(Measure, ADatasetThatNeverChangesHasAnEmptyCurve) {
    Listing l;
    for (int i = 0; i < 10; ++i) l.snapshots.push_back(snapshot(i, 0, 1e9, i == 0 ? 1e9 : 0));
    const auto m = measure(l, {});
    ASSERT_TRUE(m) << m.error();
    EXPECT_EQ(m->fit.curve.freed(365), 0);
    EXPECT_EQ(m->held_bytes, 0);
    EXPECT_EQ(m->written(30), 0);
}

TEST(Measure, MoreGrowthThanWasWrittenIsAWarning) {
    Listing l;
    for (int i = 0; i < 5; ++i) l.snapshots.push_back(snapshot(i, 0, 1e9 * (i + 1), i == 0 ? 1e9 : 1e8));
    const auto m = measure(l, {});
    ASSERT_TRUE(m) << m.error();
    ASSERT_EQ(m->warnings.size(), 2u);  // it is short besides
    EXPECT_NE(english(m->warnings[1]).find("4 of 4 snapshots grew by more than was written"),
              std::string::npos);
    EXPECT_EQ(m->held_bytes, 0);
}

}  // namespace
}  // namespace ullage
