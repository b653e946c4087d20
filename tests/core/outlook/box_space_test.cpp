// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/box_space.h"

#include "outlook_testing.h"

#include <cmath>
#include <limits>
#include <random>

namespace ullage {
namespace {

using namespace testing;

BoxChange widen(int days_after, int width) {
    BoxChange c;
    c.on = as_of + std::chrono::days(days_after);
    c.kind = BoxChange::Kind::widen;
    c.width = width;
    return c;
}
BoxChange resize(int days_after, double usable) {
    BoxChange c;
    c.on = as_of + std::chrono::days(days_after);
    c.kind = BoxChange::Kind::resize;
    c.usable = Bytes{usable};
    return c;
}

BoxSpace space(const Box& box) {
    const auto s = space_of(box, as_of, "/boxes/0");
    EXPECT_TRUE(s) << s.error().what;
    return s.value_or(BoxSpace{{SpaceEra{}}, 0.8});
}

DatasetModel model_of(double live, std::vector<CurveComponent> parts, double growth = 0) {
    DatasetModel m;
    m.live_bytes = live;
    m.growth_per_day = growth;
    m.mean_curve = Curve(std::move(parts));
    m.curves = {m.mean_curve};
    return m;
}

KeptSnapshots daily_at_home(const std::vector<double>& days, int keep, Instant start) {
    KeptSnapshots kept;
    kept.home = true;
    KeptTimes all;
    for (const double now : days) {
        auto& at = all.emplace_back();
        for (int age = keep; age >= 1; --age)
            at.push_back(start + std::chrono::seconds(std::llround((std::floor(now) - age) * 86400)));
    }
    kept.at = std::move(all);
    return kept;
}

TEST(BoxSpace, AChangeCountsFromItsDayOn) {
    Box b = box("home", 10 * tb);
    b.changes = {resize(200, 20 * tb), resize(100, 15 * tb)};
    const auto s = space(b);
    EXPECT_EQ(s.usable_on({0, 99, 100, 199, 200, 400}),
              (std::vector<double>{10 * tb, 10 * tb, 15 * tb, 15 * tb, 20 * tb, 20 * tb}));
    EXPECT_EQ(s.ceiling_on({100}), std::vector<double>{12 * tb});
}

TEST(BoxSpace, WhatIsDatedBeforeTodayHasBeenDone) {
    Box b = box("home", 10 * tb);
    b.changes = {resize(-5, 15 * tb)};
    EXPECT_EQ(space(b).usable_on({0}), std::vector<double>{15 * tb});
}

TEST(BoxSpace, AChangeThatCannotBeMadeIsNamedByItsPointer) {
    Box b = box("home");
    b.pool = pool_of(1, 6, parity(2), 12);
    b.changes = {widen(10, 8), widen(20, 7)};
    const auto s = space_of(b, as_of, "/boxes/3");
    ASSERT_FALSE(s);
    EXPECT_EQ(s.error().where, "/boxes/3/changes/1");
    EXPECT_NE(s.error().what.find("8 drives cannot be widened to 7"), std::string::npos) << s.error().what;
}

TEST(BoxSpace, TheCostIsOneNumberWhereAllErasCostTheSame) {
    Box b = box("home");
    b.pool = pool_of(1, 6, parity(2), 12);
    BoxChange bigger;
    bigger.on = as_of + std::chrono::days(50);
    bigger.kind = BoxChange::Kind::swap_drives;
    bigger.drive = Bytes{16 * tb};
    b.changes = {bigger};
    Dataset d = dataset("d", tb, 0);
    d.block_size = kib(16);
    const std::vector<double> days{0, 100};
    const auto charges = space(b).charges(d, model_of(tb, {{5, 0.1 * tb}}), daily_at_home(days, 3, Instant{}),
                                          Instant{}, days);
    EXPECT_TRUE(charges.live.empty() && charges.held.empty());
    EXPECT_EQ(charges.of_live(1), charge_per_stored_byte(*b.pool, kib(16), 1));
}

TEST(BoxSpace, OldBlocksKeepTheirCostUntilTheyDieAndTheLadderLetsThemGo) {
    Box b = box("home");
    b.pool = pool_of(1, 4, parity(1), 12);
    b.changes = {widen(10, 9)};
    Dataset d = dataset("d", tb, 0);
    d.block_size = mib(1);
    const auto s = space(b);
    const double old = s.eras[0].cost(d, 1), wide = s.eras[1].cost(d, 1);
    ASSERT_LT(wide, old);
    const std::vector<double> days{0, 9, 10, 30, 400, 3000};
    // All of it dies, after 20 days on the mean; 30 days are kept.
    const auto c = s.charges(d, model_of(tb, {{20, tb}}), daily_at_home(days, 30, Instant{}), Instant{}, days);
    EXPECT_EQ(c.of_live(1), old);
    EXPECT_EQ(c.of_held(1), old);
    EXPECT_NEAR(c.of_live(2), old, 1e-12);  // on the day itself nothing has been rewritten
    EXPECT_NEAR(c.of_live(3), wide + std::exp(-1.0) * (old - wide), 1e-12);
    EXPECT_NEAR(c.of_live(5), wide, 1e-12);
    EXPECT_NEAR(c.of_held(5), wide, 1e-9);
    for (std::size_t i = 1; i < days.size(); ++i) {
        EXPECT_LE(c.of_live(i), c.of_live(i - 1));
        EXPECT_LE(c.of_held(i), c.of_held(i - 1) + 1e-12);
    }
}

TEST(BoxSpace, SharesOfOldBlocksAreThoseOfASimulationBlockByBlock) {
    // A steady mixture of two lifetimes, daily snapshots of which 12 are kept. At day 0 the pool is
    // widened; on day 9 blocks born before are counted, in what is live and in what is held.
    constexpr int n = 60000;
    constexpr double now = 9, keep = 12;
    std::mt19937_64 random(7);
    std::exponential_distribution<double> unit(1);
    std::uniform_real_distribution<double> place(0, 1);
    double live = 0, live_old = 0, held = 0, held_old = 0;
    for (const double lifetime : {4.0, 60.0}) {
        for (int i = 0; i < n; ++i) {
            // One place on disk, rewritten again and again, from long before.
            double born = -400 - unit(random) * lifetime;
            while (born < now) {
                const double dies = born + unit(random) * lifetime;
                const bool old = born < 0;
                if (dies > now && born <= now) {
                    live += 1;
                    live_old += old;
                } else if (dies <= now) {
                    // Held by a retained snapshot (whole days, now − 12 … now − 1) between birth and death.
                    const double first = std::max(std::ceil(born), now - keep);
                    if (first <= now - 1 && first < dies) {
                        held += 1;
                        held_old += old;
                    }
                }
                born = dies;
            }
        }
    }
    Box b = box("home");
    b.pool = pool_of(1, 4, parity(1), 12);
    b.changes = {widen(0, 9)};
    Dataset d = dataset("d", tb, 0);
    d.block_size = mib(1);
    const auto s = space(b);
    const double old = s.eras[0].cost(d, 1), wide = s.eras[1].cost(d, 1);
    const std::vector<double> days{now};
    const auto c = s.charges(d, model_of(2.0 * n, {{4, n}, {60, n}}), daily_at_home(days, 12, Instant{}),
                             Instant{}, days);
    const auto share = [&](double charge) { return (charge - wide) / (old - wide); };
    const auto error = [](double p, double count) { return 4 * std::sqrt(p * (1 - p) / count); };
    EXPECT_NEAR(share(c.of_live(0)), live_old / live, error(live_old / live, live));
    EXPECT_NEAR(share(c.of_held(0)), held_old / held, error(held_old / held, held));
    EXPECT_GT(held_old / held, 0.1);
    EXPECT_LT(held_old / held, 0.9);
}

TEST(BoxSpace, WhatArrivesAfterAChangeIsLaidOutByIt) {
    Box b = box("attic");
    b.pool = pool_of(1, 4, parity(1), 12);
    b.changes = {widen(10, 9)};
    Dataset d = dataset("d", tb, 0);
    d.block_size = mib(1);
    const auto s = space(b);
    const std::vector<double> days{0, 20};
    KeptSnapshots kept = daily_at_home(days, 3, Instant{});
    kept.home = false;
    kept.arrives_day = 15;
    const auto late = s.charges(d, model_of(tb, {}), kept, Instant{}, days);
    EXPECT_EQ(late.of_live(1), s.eras[1].cost(d, 1));
    kept.arrives_day = 5;
    const auto early = s.charges(d, model_of(tb, {}), kept, Instant{}, days);
    EXPECT_EQ(early.of_live(1), s.eras[0].cost(d, 1));
}

TEST(BoxSpace, OtherDrivesBeginAfreshAndDrivesBesideDoNot) {
    Box b = box("home");
    b.pool = pool_of(1, 4, parity(1), 12);
    Offer offer;
    offer.pool = pool_of(1, 9, parity(1), 12);
    Dataset d = dataset("d", tb, 0);
    d.block_size = mib(1);
    const std::vector<double> days{0, 30, 31};
    const auto instead = space(b).with(offer, 30);
    ASSERT_TRUE(instead);
    const auto moved = instead->charges(d, model_of(tb, {}), daily_at_home(days, 3, Instant{}), Instant{}, days);
    EXPECT_EQ(moved.of_live(0), charge_per_stored_byte(*b.pool, mib(1), 1));
    EXPECT_EQ(moved.of_live(1), charge_per_stored_byte(*offer.pool, mib(1), 1));
    offer.as = Offer::As::added;
    const auto beside = space(b).with(offer, 30);
    ASSERT_TRUE(beside);
    const auto kept = beside->charges(d, model_of(tb, {}), daily_at_home(days, 3, Instant{}), Instant{}, days);
    EXPECT_EQ(kept.of_live(2), kept.of_live(0));  // none of it ever dies
    EXPECT_GT(beside->eras.back().usable_bytes, instead->eras.back().usable_bytes);
}

TEST(FirstPassage, ARisingLimitIsMetByItsOwnDays) {
    const std::vector<double> days{0, 10, 20, 30, 40};
    const std::vector<float> level{0, 10, 20, 30, 40};
    const double never = std::numeric_limits<double>::infinity();
    const auto passage = [&](std::vector<double> limits) { return first_passage(days, level.data(), 1, limits); };
    EXPECT_EQ(passage({15, 15, 15, 15, 15}), std::optional(15.0));
    EXPECT_EQ(passage({15, 15, 35, 35, 35}), std::optional(15.0));  // reached before the change
    EXPECT_EQ(passage({25, 25, 35, 35, 35}), std::optional(35.0));  // raised in time
    EXPECT_EQ(passage({20, 20, 35, 35, 35}), std::optional(35.0));  // on the day of the change the new one counts
    EXPECT_EQ(passage({never, never, 15, 15, 15}), std::optional(20.0));
    EXPECT_EQ(passage({never, never, never, never, never}), std::nullopt);
    EXPECT_EQ(passage({50, 50, 5, 50, 50}), std::optional(20.0));  // a limit that falls is met at once
}

TEST(Compute, APlannedChangeMovesTheCeilingAndTheDay) {
    auto s = site(20 * 365.25, {dataset("d", 1 * tb, 0.1 * tb)}, {box("home", 2 * tb)});
    // Unchanged: 0.6 TB to the ceiling, 2192 days. Half as much again in time: 1.4 TB, 5113.5 days.
    s.boxes[0].changes = {resize(2000, 3 * tb)};
    auto b = outlook_of(s).boxes[0];
    EXPECT_EQ(b.days_until_ceiling.p50, std::optional(5114.0));
    EXPECT_EQ(b.usable_bytes, 2 * tb);
    ASSERT_EQ(b.changes.size(), 1u);
    EXPECT_EQ(b.changes[0].usable_bytes, 3 * tb);
    EXPECT_EQ(b.changes[0].text, message("usable becomes {}", Exact{"3 TB"}));
    EXPECT_EQ(point_at(b, 1999).usable_bytes, 2 * tb);
    EXPECT_EQ(point_at(b, 2000).usable_bytes, 3 * tb);
    EXPECT_NEAR(point_at(b, 2000).fill, point_at(b, 2000).used_bytes.p50 / (3 * tb), 1e-12);
    s.boxes[0].changes = {resize(3000, 3 * tb)};
    EXPECT_EQ(outlook_of(s).boxes[0].days_until_ceiling.p50, std::optional(2192.0));
}

}  // namespace
}  // namespace ullage
