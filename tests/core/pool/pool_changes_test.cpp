// SPDX-License-Identifier: GPL-3.0-or-later
// Pools of several sets of groups, and what planned changes make of them. Published values are
// outputs that people posted in OpenZFS's issues (named by number) and its documentation.
#include "core/pool/pool.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <string>

namespace ullage {
namespace {

constexpr double GiB = 1073741824.0;
constexpr double TiB = 1099511627776.0;
constexpr double KiB = 1024;

Redundancy parity(int p) { return {Redundancy::Kind::parity, p}; }
Redundancy mirror(int copies) { return {Redundancy::Kind::mirror, copies}; }

DriveGroups groups_of(int groups, int width, Redundancy r, double drive_bytes) {
    DriveGroups g;
    g.groups = groups;
    g.width = width;
    g.redundancy = r;
    g.drive = Bytes{drive_bytes};
    return g;
}

Pool pool_of(int groups, int width, Redundancy r, double drive_bytes) {
    Pool p;
    p.groups = groups;
    p.width = width;
    p.redundancy = r;
    p.drive = Bytes{drive_bytes};
    return p;
}

PoolShape shape(const Pool& pool) {
    const auto s = shape_of(pool);
    EXPECT_TRUE(s) << s.error();
    return s.value_or(PoolShape{});
}

PoolShape after(PoolShape shape, const BoxChange& change) {
    const auto s = changed(std::move(shape), change);
    EXPECT_TRUE(s) << s.error();
    return s.value_or(PoolShape{});
}

BoxChange widen(int width) {
    BoxChange c;
    c.kind = BoxChange::Kind::widen;
    c.width = width;
    return c;
}

BoxChange swap(double drive) {
    BoxChange c;
    c.kind = BoxChange::Kind::swap_drives;
    c.drive = Bytes{drive};
    return c;
}

BoxChange add(const DriveGroups& groups) {
    BoxChange c;
    c.added = groups;
    return c;
}

TEST(PoolShape, OfOneSetHasTheCapacityOfThePool) {
    Pool pool = pool_of(2, 6, parity(2), 12e12);
    pool.spares = 1;
    EXPECT_EQ(capacity(shape(pool)), capacity(pool).value());
    EXPECT_EQ(drives_of(shape(pool)), 13);
}

TEST(PoolShape, FurtherGroupsAlikeAreTheSameAsMoreGroups) {
    Pool two = pool_of(1, 6, parity(2), 16e12);
    two.further = {groups_of(1, 6, parity(2), 16e12)};
    EXPECT_EQ(capacity(two).value(), capacity(pool_of(2, 6, parity(2), 16e12)).value());
    // 2 groups of 6 x 16 TB, parity 2, version 2.1 and later, to the byte (regression value).
    EXPECT_EQ(capacity(two)->usable_bytes, 127'739'038'269'440.0);
}

TEST(PoolShape, SetsOfDifferentShapeAddTheirRawAndChargedBytes) {
    Pool both = pool_of(1, 6, parity(2), 16e12);
    both.further = {groups_of(2, 2, mirror(2), 8e12)};
    const auto a = capacity(pool_of(1, 6, parity(2), 16e12)).value();
    const auto b = capacity(pool_of(2, 2, mirror(2), 8e12)).value();
    const auto c = capacity(both).value();
    EXPECT_EQ(c.raw_bytes, a.raw_bytes + b.raw_bytes);
    EXPECT_EQ(c.formatted_bytes, a.raw_bytes + 2 * b.raw_bytes);
    EXPECT_EQ(c.charged_bytes, a.charged_bytes + b.charged_bytes);
    EXPECT_EQ(c.log_bytes, a.log_bytes + b.log_bytes);
    // One reserve for all: at most 128 GiB, less the log.
    EXPECT_EQ(c.reserve_bytes, 128 * GiB - c.log_bytes);
    EXPECT_EQ(c.usable_bytes, c.charged_bytes - c.log_bytes - c.reserve_bytes);
}

TEST(PoolShape, AStoredByteCostsTheMeanOverSetsOfDifferentShape) {
    Pool both = pool_of(1, 8, parity(2), 12e12);
    both.further = {groups_of(1, 2, mirror(2), 12e12)};
    const Pool wide = pool_of(1, 8, parity(2), 12e12), pair = pool_of(1, 2, mirror(2), 12e12);
    const Bytes block{8 * KiB};
    const double cost = charge_per_stored_byte(both, block, 1);
    const double dear = charge_per_stored_byte(wide, block, 1);
    const double cheap = charge_per_stored_byte(pair, block, 1);
    EXPECT_GT(cost, cheap);
    EXPECT_LT(cost, dear);
    const double a = capacity(wide)->charged_bytes, b = capacity(pair)->charged_bytes;
    EXPECT_NEAR(cost, (a * dear + b * cheap) / (a + b), 1e-12);
}

TEST(PoolChanges, AGroupWidenedFromThreeToFourDrivesShowsWhatIssue18711Shows) {
    // 3 x 3 TB, parity 1, widened to 4 (version 2.4.3): SIZE 10.9T, used + available 7.14T.
    const auto c = capacity(after(shape(pool_of(1, 3, parity(1), 3e12)), widen(4)));
    EXPECT_NEAR(c.raw_bytes / TiB, 10.9, 0.05);
    EXPECT_NEAR(c.usable_bytes / TiB, 7.14, 0.005);
    EXPECT_EQ(c.label_bytes, 4 * 3e12);
    // Made anew with 4 drives it would show a tenth more.
    EXPECT_NEAR(capacity(pool_of(1, 4, parity(1), 3e12))->usable_bytes / c.usable_bytes, 1.09, 0.01);
}

TEST(PoolChanges, EachDriveAddedToATripleParityTwoGroupShowsAThirdOfItselfAsInIssue12225) {
    // 3-wide parity 2 of 20G files: each added one shows about 6.66G more, six show about 40G and
    // not 80G. Ours are partitioned, so a little less.
    auto s = shape(pool_of(1, 3, parity(2), 20 * GiB));
    double before = capacity(s).charged_bytes / GiB;
    for (int width = 4; width <= 6; ++width) {
        s = after(s, widen(width));
        const double now = capacity(s).charged_bytes / GiB;
        EXPECT_NEAR(now - before, 6.66, 0.2) << width;
        before = now;
    }
    EXPECT_NEAR(before, 39.84, 0.5);
    // Five files of 10G written then show 25G: 0.498 of their size, in 128 KiB blocks.
    const double metadata = 1 + metadata_share(Bytes{128 * KiB});
    EXPECT_NEAR(charge_per_stored_byte(s, Bytes{128 * KiB}, 1) / metadata, 0.498, 0.0005);
}

TEST(PoolChanges, OldBlocksKeepTheirCostAndNewOnesAreLaidOutWide) {
    const auto old = shape(pool_of(1, 5, parity(1), 4e12));
    const auto wide = after(old, widen(9));
    EXPECT_LT(charge_per_stored_byte(wide, Bytes{1024 * KiB}, 1),
              charge_per_stored_byte(old, Bytes{1024 * KiB}, 1));
    // The smallest blocks take a data and a parity sector at any width.
    EXPECT_EQ(charge_per_stored_byte(wide, Bytes{4 * KiB}, 1),
              charge_per_stored_byte(old, Bytes{4 * KiB}, 1));
}

TEST(PoolChanges, LargerDrivesGiveTheirRoomInTheOldUnits) {
    // From 3 TB on the unit is 16 GiB whatever the drive, so a swapped group has what a new one has.
    const auto swapped = after(shape(pool_of(1, 6, parity(2), 12e12)), swap(20e12));
    EXPECT_EQ(capacity(swapped), capacity(pool_of(1, 6, parity(2), 20e12)).value());
    // A mirror of 1 TB drives has units of 8 GiB and goes on with them.
    const auto small = after(shape(pool_of(1, 2, mirror(2), 1e12)), swap(8e12));
    EXPECT_LE(capacity(pool_of(1, 2, mirror(2), 8e12))->raw_bytes, capacity(small).raw_bytes);
    EXPECT_NEAR(capacity(small).raw_bytes / 8e12, 1, 0.002);
}

TEST(PoolChanges, GroupsAddedHaveTheRateOfTheirOwnWidth) {
    auto s = after(shape(pool_of(1, 3, parity(1), 3e12)), widen(4));
    s = after(s, add(groups_of(1, 4, parity(1), 3e12)));
    ASSERT_EQ(s.sets.size(), 2U);
    EXPECT_NEAR(capacity(s).charged_bytes,
                capacity(after(shape(pool_of(1, 3, parity(1), 3e12)), widen(4))).charged_bytes +
                    capacity(pool_of(1, 4, parity(1), 3e12))->charged_bytes,
                1);
    EXPECT_EQ(drives_of(s), 8);
}

TEST(PoolChanges, NoChangeLowersUsable) {
    std::mt19937 random(11);
    const auto pick = [&](int low, int high) {
        return std::uniform_int_distribution<int>(low, high)(random);
    };
    for (int i = 0; i < 300; ++i) {
        const int p = pick(1, 3);
        const int width = pick(p + 1, 14);
        const double drive = pick(1, 22) * 1e12;
        auto s = shape(pool_of(pick(1, 4), width, parity(p), drive));
        for (int step = 0; step < 3; ++step) {
            const double before = capacity(s).usable_bytes;
            const int kind = pick(0, 2);
            s = kind == 0   ? after(s, widen(s.sets[0].width + pick(1, 4)))
                : kind == 1 ? after(s, swap(static_cast<double>(s.sets[0].drive) + 1e12))
                            : after(s, add(groups_of(1, pick(p + 1, 12), parity(p), 4e12)));
            ASSERT_GE(capacity(s).usable_bytes, before) << "kind " << kind;
        }
    }
}

TEST(PoolChanges, WhatCannotBeDoneIsSaid) {
    const auto six = shape(pool_of(1, 6, parity(2), 12e12));
    EXPECT_NE(changed(six, widen(6)).error().find("cannot be widened"), std::string::npos);
    EXPECT_NE(changed(six, swap(12e12)).error().find("no larger"), std::string::npos);
    EXPECT_NE(changed(shape(pool_of(1, 2, mirror(2), 8e12)), widen(3)).error().find("only parity"),
              std::string::npos);
    BoxChange other = swap(16e12);
    other.set = 2;
    EXPECT_NE(changed(six, other).error().find("no set 2"), std::string::npos);
    DriveGroups coarse = groups_of(1, 6, parity(2), 12e12);
    coarse.sector = Entered<Bytes>(kib(16));
    EXPECT_NE(changed(six, add(coarse)).error().find("not modelled"), std::string::npos);
    EXPECT_FALSE(changed(six, add(groups_of(1, 2, parity(2), 12e12))));
    BoxChange resize;
    resize.kind = BoxChange::Kind::resize;
    EXPECT_FALSE(changed(six, resize));
}

TEST(CapacitySteps, GoFromTheLabelsToWhatIsYours) {
    Pool pool = pool_of(1, 6, parity(2), 16e12);
    pool.spares = 1;
    const auto c = capacity(pool).value();
    const auto steps = capacity_steps(c, 0.8);
    ASSERT_EQ(steps.size(), 6U);
    EXPECT_EQ(steps.front().left_bytes, 7 * 16e12);
    EXPECT_EQ(steps[1].taken_bytes, 16e12);
    EXPECT_EQ(steps[2].left_bytes, 96'001'109'000'192.0);  // published shape, regression value
    EXPECT_EQ(steps[3].left_bytes, c.charged_bytes);
    EXPECT_EQ(steps[4].left_bytes, 63'800'799'657'984.0);
    EXPECT_EQ(steps[5].left_bytes, 0.8 * 63'800'799'657'984.0);
    for (std::size_t i = 1; i < steps.size(); ++i) {
        EXPECT_EQ(steps[i].left_bytes, steps[i - 1].left_bytes - steps[i].taken_bytes);
    }
}

TEST(CapacitySteps, AMirrorsCopiesAreWhatRedundancyTakes) {
    const auto c = capacity(pool_of(3, 2, mirror(2), 12e12)).value();
    const auto steps = capacity_steps(c, 1);
    EXPECT_EQ(steps[2].what, CapacityStep::What::redundancy);
    EXPECT_EQ(steps[2].taken_bytes, c.raw_bytes);
    EXPECT_EQ(steps.back().taken_bytes, 0);
}

}  // namespace
}  // namespace ullage
