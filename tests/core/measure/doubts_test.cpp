// SPDX-License-Identifier: GPL-3.0-or-later
// Listings that cannot be true, or are too little: each is told in words a reader can act on, and a
// true listing is never doubted. What the columns mean: OpenZFS, zfsprops(7).
#include "core/measure/doubts.h"
#include "core/words/wording.h"

#include "core/measure/measure.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

namespace ullage {
namespace {

constexpr std::int64_t day_seconds = 86400;
constexpr std::int64_t midnight = 1'750'000'000 / day_seconds * day_seconds;

/// A block alive at the snapshots born ≤ i < dead.
struct Block {
    int born = 0, dead = 0;
    double bytes = 0;
    bool alive(int i) const { return born <= i && i < dead; }
};

/// What snapshots a day apart, none missing, show of the blocks.
Listing listing_of(const std::vector<Block>& blocks, int snapshots) {
    Listing l;
    l.dataset = "data";
    for (int i = 0; i < snapshots; ++i) {
        Snapshot s;
        s.name = "data@" + std::to_string(i);
        s.taken = Instant(std::chrono::seconds(midnight + i * day_seconds));
        for (const auto& b : blocks) {
            if (!b.alive(i)) continue;
            s.live_bytes += b.bytes;
            const bool is_new = i == 0 || !b.alive(i - 1);
            if (is_new) s.written_bytes += b.bytes;
            if (is_new && i + 1 < snapshots && !b.alive(i + 1)) s.unique_bytes += b.bytes;
        }
        l.snapshots.push_back(s);
    }
    return l;
}

/// A terabyte at rest; each day 5 GB written, of which 1 GB is gone the next day, 3 GB of older
/// data die.
std::vector<Block> steady_blocks(int snapshots) {
    std::vector<Block> blocks = {{0, 1000, 1e12}};
    for (int i = 0; i < snapshots; ++i) blocks.push_back({0, i, 3e9});
    for (int i = 1; i < snapshots; ++i) {
        blocks.push_back({i, i + 1, 1e9});
        blocks.push_back({i, 1000, 4e9});
    }
    return blocks;
}

Listing steady(int snapshots = 40) { return listing_of(steady_blocks(snapshots), snapshots); }

Listing changed(const std::function<void(Snapshot&, std::size_t)>& change, Listing l = steady()) {
    for (std::size_t i = 0; i < l.snapshots.size(); ++i) change(l.snapshots[i], i);
    return l;
}

/// The doubts as they are said in English.
std::vector<std::string> said_of(const Listing& l) {
    std::vector<std::string> all;
    for (const auto& doubt : doubts_of(l)) all.push_back(english(doubt));
    return all;
}

void expect_one(const Listing& l, const std::string& part) {
    const auto doubts = said_of(l);
    ASSERT_EQ(doubts.size(), 1u) << part;
    EXPECT_NE(doubts[0].find(part), std::string::npos) << doubts[0];
}

TEST(Doubts, ATrueListingHasNone) { EXPECT_TRUE(doubts_of(steady()).empty()); }

TEST(Doubts, NothingWrittenWhileLiveGrewIsSeenHoweverSmallTheSteps) {
    // 1 GB a day on 1 TB: a tenth of a percent, far below what rounded sizes could hide in one
    // step.
    const auto l = changed([](Snapshot& s, std::size_t i) {
        s.unique_bytes = 0;
        if (i > 0) s.written_bytes = 0;
    });
    expect_one(l, "39 of 39 snapshots grew by more than was written into them");
    const auto m = measure(l);
    ASSERT_TRUE(m);
    EXPECT_EQ(m->warnings, doubts_of(l));
}

TEST(Doubts, NothingWrittenAndNothingChangedIsATrueListing) {
    EXPECT_TRUE(doubts_of(listing_of({{0, 1000, 1e12}}, 30)).empty());
}

TEST(Doubts, ADatasetThatOnlyShrinksIsATrueListing) {
    std::vector<Block> blocks;
    for (int i = 1; i <= 60; ++i) blocks.push_back({0, i, 1e10});
    const auto l = listing_of(blocks, 40);
    EXPECT_TRUE(doubts_of(l).empty());
    const auto m = measure(l);
    ASSERT_TRUE(m) << m.error();
    EXPECT_LT(m->growth.bytes_per_day, -9e9);
    EXPECT_LT(m->written(1), 1e9) << "nothing was written: what is freed is what it shrinks by";
}

TEST(Doubts, WrittenInAnotherUnitIsSeenByGrowthAndByWhatEachSnapshotAloneHolds) {
    const auto l = changed([](Snapshot& s, std::size_t) { s.written_bytes /= 1024; });
    const auto doubts = said_of(l);
    ASSERT_EQ(doubts.size(), 2u);
    EXPECT_NE(doubts[0].find("grew by more than was written"), std::string::npos);
    EXPECT_NE(doubts[1].find("alone hold more than was written into them"), std::string::npos);
    EXPECT_NE(doubts[1].find("different units"), std::string::npos);
}

TEST(Doubts, UniqueAndWrittenSwappedIsSeen) {
    const auto l =
        changed([](Snapshot& s, std::size_t) { std::swap(s.unique_bytes, s.written_bytes); });
    const auto doubts = said_of(l);
    EXPECT_TRUE(std::any_of(doubts.begin(), doubts.end(), [](const std::string& d) {
        return d.find("alone hold more than was written") != std::string::npos &&
               d.find("swapped") != std::string::npos;
    }));
}

TEST(Doubts, AMissingUnitOfOneSizeIsSeenAndSaidInTheSingular) {
    expect_one(changed([](Snapshot& s, std::size_t i) {
                   if (i == 20) s.live_bytes *= 1000;
               }),
               "1 snapshot grew by more than was written into it");
}

TEST(Doubts, AClockThatWasNotSetIsSeenWithTheSnapshotsName) {
    for (const std::int64_t wrong : {std::int64_t(0), std::int64_t(200'000'000),
                                     std::int64_t(4'200'000'000), std::int64_t(-86400 * 365)}) {
        auto l = steady();
        auto& moved = wrong > midnight ? l.snapshots.back() : l.snapshots.front();
        moved.taken = Instant(std::chrono::seconds(wrong));
        expect_one(l, "1 snapshot is dated outside the years 2000 to 2100 (“" + moved.name +
                          "”: " + format_instant(moved.taken) + ")");
    }
    expect_one(changed([](Snapshot& s, std::size_t) { s.taken += std::chrono::days(365 * 200); }),
               "40 of 40 snapshots are dated outside");
}

TEST(Doubts, AGapOfYearsIsSeenAndOneOfAYearIsNot) {
    const auto with_gap = [](int days) {
        return changed([&](Snapshot& s, std::size_t i) {
            if (i >= 20) s.taken += std::chrono::days(days);
        });
    };
    EXPECT_TRUE(doubts_of(with_gap(365)).empty());
    expect_one(with_gap(4 * 365), "nothing between “data@19” and “data@20”, 4 y apart");
}

TEST(Doubts, OfManyLongGapsTheLongestIsNamed) {
    const auto l = changed([](Snapshot& s, std::size_t i) {
        s.taken += std::chrono::days(500 * int(i) + (i >= 30 ? 100 : 0));
    }, steady(40));
    expect_one(l, "nothing between “data@29” and “data@30”, 1.65 y apart (the longest of 39 such gaps)");
}

TEST(Doubts, TimesThatRunBackwardsAreSeenByTheSnapshotThatWasWrittenWhole) {
    auto l = steady();
    std::vector<Instant> times;
    for (const auto& s : l.snapshots) times.push_back(s.taken);
    std::reverse(l.snapshots.begin(), l.snapshots.end());
    for (std::size_t i = 0; i < times.size(); ++i) l.snapshots[i].taken = times[i];
    const auto doubts = said_of(l);
    ASSERT_FALSE(doubts.empty());
    EXPECT_NE(doubts.back().find("“data@0” was written whole"), std::string::npos) << doubts.back();
    EXPECT_NE(doubts.back().find("run backwards"), std::string::npos) << doubts.back();
}

TEST(Doubts, ADatasetWrittenAnewAfterItsFirstSnapshotIsATrueListing) {
    auto blocks = steady_blocks(40);
    for (auto& b : blocks) b.dead = std::min(b.dead, 20);
    for (auto& b : blocks)
        if (b.born > 20) b.bytes = 0;
    blocks.push_back({20, 1000, 1e12});
    EXPECT_TRUE(doubts_of(listing_of(blocks, 40)).empty());
}

TEST(Doubts, TwoSnapshotsOrAFewDaysAreTooShortForTheErrorOfTheGrowth) {
    expect_one(steady(2), "the listing covers 1 d, which is too short");
    expect_one(steady(10), "the listing covers 9 d, which is too short");
    EXPECT_TRUE(doubts_of(steady(15)).empty());
}

rc::Gen<std::vector<Block>> any_blocks(int snapshots) {
    const auto block = rc::gen::map(
        rc::gen::tuple(rc::gen::inRange(0, snapshots), rc::gen::inRange(1, 2 * snapshots),
                       rc::gen::inRange(1, 1 << 30)),
        [](const std::tuple<int, int, int>& drawn) {
            const auto [born, lives, bytes] = drawn;
            return Block{born, born + lives, double(bytes)};
        });
    return rc::gen::container<std::vector<Block>>(block);
}

/// To three digits, as listings for people print sizes.
double rounded(double bytes) {
    if (bytes <= 0) return 0;
    const double unit = std::pow(10, std::floor(std::log10(bytes)) - 2);
    return std::round(bytes / unit) * unit;
}

RC_GTEST_PROP(DoubtsProperty, WhatAnyBlocksReallyShowIsNeverDoubtedExactOrRounded, ()) {
    constexpr int snapshots = 20;
    auto blocks = *any_blocks(snapshots);
    blocks.push_back({0, 1000, double(*rc::gen::inRange(1, 1 << 30))});
    const auto l = listing_of(blocks, snapshots);
    RC_ASSERT(doubts_of(l).empty());
    const auto r = changed(
        [](Snapshot& s, std::size_t) {
            s.unique_bytes = rounded(s.unique_bytes);
            s.live_bytes = rounded(s.live_bytes);
            s.written_bytes = rounded(s.written_bytes);
        },
        l);
    RC_ASSERT(doubts_of(r).empty());
}

RC_GTEST_PROP(MeasureProperty, AnySizesGiveFiniteFiguresThatAreNotNegative, ()) {
    // Sizes that fit together or not: whatever a file can hold must not break the fit.
    Listing l;
    const auto size =
        rc::gen::map(rc::gen::pair(rc::gen::inRange(0, 1000), rc::gen::inRange(0, 13)),
                     [](const std::pair<int, int>& d) { return d.first * std::pow(10, d.second); });
    std::int64_t at = midnight;
    const int n = *rc::gen::inRange(2, 30);
    for (int i = 0; i < n; ++i) {
        Snapshot s;
        s.name = "data@" + std::to_string(i);
        s.taken = Instant(std::chrono::seconds(at));
        s.live_bytes = *size + (i + 1 == n ? 1 : 0);
        s.written_bytes = std::min(*size, s.live_bytes);
        s.unique_bytes = std::min(*size, s.live_bytes);
        l.snapshots.push_back(s);
        at += *rc::gen::element<std::int64_t>(1, 3600, 86400, 30 * 86400, 2000 * 86400);
    }
    MeasureOptions options;
    options.replicates = 1;
    const auto m = measure(l, options);
    RC_ASSERT(m);
    RC_ASSERT(std::isfinite(m->growth.bytes_per_day));
    RC_ASSERT(m->growth.standard_error >= 0);
    RC_ASSERT(std::isfinite(m->growth.noise_per_root_day));
    RC_ASSERT(m->held_bytes >= 0);
    for (const double step : {1.0 / 24, 1.0, 30.0, 365.0}) {
        RC_ASSERT(std::isfinite(m->written(step)));
        RC_ASSERT(m->written(step) >= 0);
        RC_ASSERT(m->fit.curve.freed(step) >= 0);
        // No more dies than is there.
        RC_ASSERT(m->fit.curve.freed(step) <= m->live_bytes * 1.001);
    }
}

RC_GTEST_PROP(MeasureProperty,
              AStepWritesAtLeastWhatItFreesWhereLiveGrowsAndAtMostThatWhereItShrinks, ()) {
    Measurement m;
    std::vector<CurveComponent> parts;
    for (const int bytes : *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 1 << 30)))
        parts.push_back({lifetime_grid()[parts.size() % lifetime_grid().size()], double(bytes)});
    m.fit.curve = Curve(parts);
    m.growth.bytes_per_day = *rc::gen::inRange(-(1 << 20), 1 << 20);
    const double step = *rc::gen::inRange(0, 400'000) / 1000.0;
    if (m.growth.bytes_per_day >= 0) {
        RC_ASSERT(m.written(step) >= m.fit.curve.freed(step));
    } else {
        RC_ASSERT(m.written(step) <= m.fit.curve.freed(step));
    }
    RC_ASSERT(m.written(step) >= 0);
}

}  // namespace
}  // namespace ullage
