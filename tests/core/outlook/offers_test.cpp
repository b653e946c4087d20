// SPDX-License-Identifier: GPL-3.0-or-later
// Costs are worked out by hand in the comment beside each.
#include "outlook_testing.h"
#include "core/words/wording.h"

#include "core/outlook/solve.h"

#include <cmath>
#include <random>

namespace ullage {
namespace {

using namespace testing;

Offer offer(const std::string& name, double price, double usable) {
    Offer o;
    o.name = name;
    o.box = "home";
    o.price = Money{price};
    o.usable = Entered<Bytes>(Bytes{usable});
    return o;
}

Offer drives(const std::string& name, double price, const Pool& p) {
    Offer o = offer(name, price, 1);
    o.usable.reset();
    o.pool = p;
    return o;
}

/// A box of 2 TB with 1 TB in it that grows by 0.2 TB a year.
Site growing(double spread = 0.3) {
    auto d = dataset("d", 1 * tb, 0.2 * tb, spread);
    churn(d, 5 * gb, 20 * gb, 0.3);
    d.ladder = daily(14);
    return site(5 * 365.25, {d}, {box("home", 2 * tb)});
}

const OfferOutlook& of(const Outlook& o, const std::string& name) {
    for (const auto& x : o.offers)
        if (x.name == name) return x;
    ADD_FAILURE() << "no offer " << name;
    return o.offers.front();
}

TEST(Offers, CostsAreThoseWorkedOutByHand) {
    // 5 years = 1826.25 d, lead time 26.25 d (runs from day 27): 1799.25 d are left, 4.9261 years.
    auto s = growing();
    s.energy_price = Entered<Money>(Money{0.30});
    Offer o = offer("a", 1000, 4 * tb);
    o.lead_time = days(26.25);
    o.power = Entered<Power>(Power{50});
    o.life = days(2 * 365.25);
    s.offers = {o};
    const auto a = of(outlook_of(s), "a");
    EXPECT_EQ(a.running_from, as_of + std::chrono::days(27));
    EXPECT_EQ(a.purchases, 3);             // 4.93 years at 2 years each
    EXPECT_EQ(a.replacement_cost, 2000);
    // 0.05 kW × 24 h × 1799.25 d × 0.30 = 647.73
    EXPECT_NEAR(a.energy_cost, 647.73, 0.005);
    EXPECT_NEAR(a.cost_total, 3647.73, 0.005);
    // 4 TB = 3.63798 TiB, × 4.9261 years = 17.9210 TiB-years: 203.55
    EXPECT_NEAR(a.cost_per_usable_tib_year, 3647.73 / (4e12 / 1099511627776.0 * 1799.25 / 365.25), 1e-3);
    EXPECT_NEAR(a.cost_per_usable_tib_year, 203.55, 0.02);
}

TEST(Offers, WithoutPowerOrLifeOnlyThePriceCountsAndItIsSaid) {
    auto s = growing();
    s.offers = {offer("a", 1000, 4 * tb)};
    const auto a = of(outlook_of(s), "a");
    EXPECT_EQ(a.cost_total, 1000);
    EXPECT_EQ(a.purchases, 1);
    std::string said;
    for (const auto& line : a.assumptions) said += english(line) + "\n";
    for (const char* part : {"no lead time", "no power", "no life", "only its usable size"})
        EXPECT_NE(said.find(part), std::string::npos) << part << "\n" << said;
}

TEST(Offers, ALifeThatEndsWithTheHorizonIsNotBoughtAgain) {
    auto s = growing();
    Offer o = offer("a", 1000, 4 * tb);
    o.life = s.horizon;
    s.offers = {o};
    EXPECT_EQ(of(outlook_of(s), "a").purchases, 1);
}

TEST(Offers, WhatTheBoxHasTodayOfferedAgainComesOutTheSame) {
    auto s = growing();
    s.offers = {offer("the same", 1, 2 * tb)};
    const auto o = outlook_of(s, 200);
    EXPECT_EQ(of(o, "the same").days_until_ceiling, o.boxes[0].days_until_ceiling);
    EXPECT_NEAR(of(o, "the same").chance_of_lasting, 1 - o.boxes[0].chance_of_ceiling_within_horizon, 1e-12);
    EXPECT_EQ(of(o, "the same").chance_too_late, 0);
}

TEST(Offers, LeaveTheForecastOfTheBoxAsItIs) {
    auto s = growing();
    const auto without = outlook_of(s, 64);
    s.offers = {offer("a", 1, 4 * tb), offer("b", 1, 6 * tb)};
    const auto with = outlook_of(s, 64);
    EXPECT_EQ(with.boxes, without.boxes);
    EXPECT_EQ(with.drivers, without.drivers);
}

TEST(Offers, NothingIsLookedAtBeforeAnOfferRuns) {
    // Over the ceiling on day 2 of 60; the larger box comes on day 60 and lasts.
    auto s = site(730, {dataset("d", 1.59 * tb, 2 * tb)}, {box("home", 2 * tb)});
    Offer o = offer("late", 1, 20 * tb);
    o.lead_time = days(60);
    s.offers = {o};
    const auto a = of(outlook_of(s), "late");
    EXPECT_EQ(a.chance_of_lasting, 1);
    EXPECT_EQ(a.chance_too_late, 1);
    EXPECT_FALSE(a.days_until_ceiling.p10);
}

TEST(Offers, ForABoxWithoutASizeAreCompared) {
    // 0.6 TB of headroom (2 TB × 0.8 − 1 TB) at 0.2 TB a year: 1095.75 d.
    auto s = site(5 * 365.25, {dataset("d", 1 * tb, 0.2 * tb)}, {box("home")});
    s.offers = {offer("two", 1, 2 * tb), offer("three", 2, 3 * tb)};
    const auto o = outlook_of(s);
    EXPECT_TRUE(o.boxes.empty());
    EXPECT_EQ(of(o, "two").days_until_ceiling.p50, std::optional(1096.0));
    EXPECT_EQ(of(o, "two").chance_of_lasting, 0);
    EXPECT_EQ(of(o, "three").chance_of_lasting, 1);
    EXPECT_TRUE(of(o, "three").recommended);
}

TEST(Offers, AddedSpaceComesOnTopAndCostsPerWhatItAdds) {
    auto s = growing();
    Offer o = offer("more", 500, 3 * tb);
    o.as = Offer::As::added;
    s.offers = {o};
    const auto a = of(outlook_of(s), "more");
    EXPECT_EQ(a.usable_bytes, 5 * tb);
    EXPECT_NEAR(a.cost_per_usable_tib_year, 500 / (3e12 / 1099511627776.0 * 5), 1e-9);
}

TEST(Offers, TheCheapestThatHoldsIsRecommendedAndTheOutdoneAreNamed) {
    auto s = growing();
    s.offers = {offer("small", 100, 2 * tb), offer("dear", 900, 8 * tb), offer("right", 400, 8 * tb),
                offer("huge", 2000, 30 * tb)};
    const auto o = outlook_of(s, 400);
    EXPECT_TRUE(of(o, "right").recommended);
    EXPECT_EQ(of(o, "right").rank, 1);
    EXPECT_EQ(of(o, "dear").dominated_by, "right");
    EXPECT_EQ(of(o, "right").dominated_by, "");
    EXPECT_FALSE(of(o, "small").holds);
    EXPECT_EQ(of(o, "small").rank, 4);
    EXPECT_EQ(std::count_if(o.offers.begin(), o.offers.end(), [](const auto& x) { return x.recommended; }), 1);
}

TEST(Offers, TheEnclosureLimitsDrivesButNotAWholeBox) {
    auto s = site(5 * 365.25, {dataset("d", 1 * tb, 0.2 * tb)}, {box("home")});
    s.boxes[0].pool = pool_of(1, 4, parity(1), 4);
    s.boxes[0].enclosure = Enclosure{6, Entered<Power>(Power{100}), {}};
    Offer eight = drives("eight", 100, pool_of(1, 8, parity(2), 4));
    Offer added = drives("two more", 50, pool_of(1, 2, mirror(2), 4));
    added.as = Offer::As::added;
    Offer three = added;
    three.name = "three more";
    three.pool->spares = 1;
    Offer hungry = drives("hungry", 10, pool_of(1, 4, parity(1), 8));
    hungry.power = Entered<Power>(Power{120});
    Offer whole = eight;
    whole.name = "whole";
    whole.as = Offer::As::box;
    s.offers = {eight, added, three, hungry, whole};
    const auto o = outlook_of(s);
    EXPECT_EQ(english(of(o, "eight").does_not_go_in), "8 drives do not go into 6 bays");
    EXPECT_EQ(english(of(o, "two more").does_not_go_in), "");
    EXPECT_EQ(of(o, "two more").drives, 2);
    EXPECT_EQ(english(of(o, "three more").does_not_go_in), "7 drives do not go into 6 bays");
    EXPECT_EQ(english(of(o, "hungry").does_not_go_in), "it draws 120 W, more than the 100 W of the supply");
    EXPECT_EQ(english(of(o, "whole").does_not_go_in), "");
    EXPECT_FALSE(of(o, "eight").holds);
    EXPECT_FALSE(of(o, "hungry").recommended);
}

TEST(Offers, TheRebuildIsThatOfTheGroupThatStandsTheFewestFailures) {
    auto s = growing();
    Offer o = drives("mixed", 100, pool_of(1, 6, parity(2), 12));
    o.pool->further.push_back({});
    o.pool->further[0].width = 2;
    o.pool->further[0].redundancy = mirror(2);
    o.pool->further[0].drive = Bytes{20 * tb};
    o.drive_rate = BytesPerSecond{285e6};
    o.failure_rate = 0.05;
    Offer bare = drives("bare", 100, pool_of(1, 2, {}, 12));
    s.offers = {o, bare};
    const auto out = outlook_of(s);
    const auto r = of(out, "mixed").rebuild;
    ASSERT_TRUE(r);
    EXPECT_EQ(r->spare_failures, 0);
    EXPECT_EQ(r->others, 1);
    EXPECT_NEAR(r->hours, 28.7, 0.05);
    EXPECT_NEAR(r->chance_of_another, 1 - std::exp(-0.05 * r->hours / 8760), 1e-12);
    EXPECT_FALSE(of(out, "bare").rebuild);
}

TEST(Offers, MoreDrivesNeverLastLessOften) {
    auto s = growing();
    s.boxes[0].usable.reset();
    for (int width = 4; width <= 12; ++width)
        s.offers.push_back(drives(std::to_string(width), 100, pool_of(1, width, parity(2), 0.6)));
    const auto o = outlook_of(s, 200);
    for (std::size_t i = 1; i < o.offers.size(); ++i) {
        EXPECT_GE(o.offers[i].chance_of_lasting, o.offers[i - 1].chance_of_lasting) << o.offers[i].name;
        EXPECT_GE(o.offers[i].usable_bytes, o.offers[i - 1].usable_bytes) << o.offers[i].name;
    }
    EXPECT_LT(o.offers.front().chance_of_lasting, o.offers.back().chance_of_lasting);
}

TEST(Offers, OneThatDominatesIsNeverRankedBehind) {
    std::mt19937 random(3);
    const auto pick = [&](int low, int high) { return std::uniform_int_distribution<int>(low, high)(random); };
    int dominated = 0;
    for (int round = 0; round < 20; ++round) {
        auto s = growing();
        s.boxes[0].enclosure = Enclosure{{}, Entered<Power>(Power{100}), {}};
        for (int i = 0; i < 8; ++i) {
            Offer o = drives("o" + std::to_string(i), pick(1, 6) * 100.0,
                             pool_of(1, pick(3, 8), parity(1), pick(3, 9) / 10.0));
            o.power = Entered<Power>(Power{pick(20, 120) * 1.0});
            s.offers.push_back(o);
        }
        const auto o = outlook_of(s, 32);
        for (const auto& b : o.offers) {
            if (b.dominated_by.empty()) continue;
            ++dominated;
            const auto& a = of(o, b.dominated_by);
            EXPECT_LT(a.rank, b.rank);
            EXPECT_LE(a.cost_total, b.cost_total);
            EXPECT_GE(a.chance_of_lasting, b.chance_of_lasting);
            EXPECT_FALSE(b.recommended);
        }
    }
    EXPECT_GT(dominated, 20);
}

TEST(Offers, APoolThatCannotBeBuiltIsAProblemOfTheOffer) {
    auto s = growing();
    Offer o = drives("a", 100, pool_of(1, 300, parity(2), 4));  // wider than any group
    s.offers = {o};
    const auto result = compute(s, {}, {});
    ASSERT_FALSE(result);
    const auto* problems = std::get_if<Problems>(&result.error());
    ASSERT_TRUE(problems);
    ASSERT_EQ(problems->size(), 1u);
    EXPECT_EQ(problems->front().where, "/offers/0/pool");
}

TEST(Offers, AnOfferOfTheSizeThatIsSolvedForHolds) {
    auto s = growing();
    Settings settings;
    settings.paths = 400;
    settings.threads = 1;
    SolveQuestion q;
    q.what = SolveFor::usable;
    const auto answer = solve(s, {}, settings, q);
    ASSERT_TRUE(answer);
    const double needed = answer->usable.at(0).needed_bytes;
    EXPECT_EQ(outlook_of(s, 400).boxes[0].usable_needed_bytes, needed);
    s.offers = {offer("enough", 1, needed * 1.005), offer("short", 1, needed * 0.98)};
    const auto o = outlook_of(s, 400);
    EXPECT_TRUE(of(o, "enough").holds) << of(o, "enough").chance_of_lasting;
    EXPECT_FALSE(of(o, "short").holds) << of(o, "short").chance_of_lasting;
}

TEST(Offers, DoNotDependOnThreads) {
    auto s = growing();
    s.offers = {offer("a", 100, 3 * tb), drives("b", 200, pool_of(1, 4, parity(1), 1))};
    EXPECT_EQ(outlook_of(s, 100, 5, 1).offers, outlook_of(s, 100, 5, 2).offers);
}

TEST(BlockCosts, SmallBlocksOnAWideGroupAndWhatWouldBeBetter) {
    auto d = dataset("volume", 1 * tb, 0);
    d.kind = Dataset::Kind::volume;
    d.block_size = kib(8);
    auto s = site(365, {d}, {box("home")});
    s.boxes[0].pool = pool_of(1, 8, parity(2), 4);
    const auto b = outlook_of(s).boxes[0];
    ASSERT_EQ(b.costs.size(), 1u);
    // 8-wide parity-2, 4 KiB sectors: 213.3 % at 8 KiB, 106.6 % at 16 to 64 KiB, 100.0 % at 128 KiB (issue 3255
    // of OpenZFS), and the metadata.
    EXPECT_NEAR(b.costs[0].charge, 2.133 * 1.02, 0.002);
    EXPECT_EQ(b.costs[0].better_block_bytes, std::optional(131072.0));
    EXPECT_NEAR(b.costs[0].better_charge, 1.000 * 1.002, 0.002);
    EXPECT_NEAR(b.costs[0].used_bytes, b.used_now_bytes, 0.001 * b.used_now_bytes);
    // Two sectors of data take two of parity and two of padding in a group of 4 as well, so nothing is gained.
    EXPECT_FALSE(b.better_shape);
}

TEST(BlockCosts, ALayoutThatPadsLessHoldsMore) {
    auto d = dataset("volume", 1 * tb, 0);
    d.kind = Dataset::Kind::volume;
    d.block_size = kib(16);
    auto s = site(365, {d}, {box("home")});
    s.boxes[0].pool = pool_of(2, 5, parity(2), 4);
    const auto b = outlook_of(s).boxes[0];
    // 16 KiB are 4 sectors: in a group of 5 they take 4 of parity and 1 of padding, 36 KiB; in one of 10 they take
    // 2 of parity, 24 KiB (table 1.4: 133.2 % and 114.3 % of charged bytes).
    EXPECT_NEAR(b.costs.at(0).charge, 1.332 * 1.01, 0.002);
    ASSERT_TRUE(b.better_shape);
    EXPECT_EQ(english(b.better_shape->text), "1 group of 10 drives, parity-2");
    EXPECT_NEAR(b.better_shape->charge, 1.143 * 1.01, 0.002);
    EXPECT_NEAR(b.better_shape->gain, 0.5, 0.01);
}

TEST(BlockCosts, FilesOfLargeRecordsNeedNoAdvice) {
    auto s = site(365, {dataset("files", 1 * tb, 0)}, {box("home")});
    s.datasets[0].block_size = mib(1);
    s.boxes[0].pool = pool_of(1, 8, parity(2), 4);
    const auto b = outlook_of(s).boxes[0];
    ASSERT_EQ(b.costs.size(), 1u);
    EXPECT_FALSE(b.costs[0].better_block_bytes);
    EXPECT_FALSE(b.better_shape);
    EXPECT_TRUE(outlook_of(site(365, {dataset("files", tb, 0)}, {box("home", 9 * tb)})).boxes[0].costs.empty());
}

}  // namespace
}  // namespace ullage
