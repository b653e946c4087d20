// SPDX-License-Identifier: GPL-3.0-or-later
#include "findings_testing.h"

#include "core/findings/words.h"

#include <algorithm>

namespace ullage {
namespace {

using namespace testing;

OfferOutlook offer(const std::string& name, int rank, double cost, double chance) {
    OfferOutlook o;
    o.name = name;
    o.box = "attic";
    o.rank = rank;
    o.price = o.cost_total = cost;
    o.chance_of_lasting = chance;
    o.holds = chance >= 0.9;
    o.recommended = rank == 1 && o.holds;
    o.running_from = *parse_date("2026-11-29");
    return o;
}

std::string said_of(const Answer& a) {
    std::string text;
    for (const auto& f : findings(a.site, a.outlook))
        text += to_string(f.level) + " " + f.about + " " + f.text + "\n";
    return text;
}

/// With these offers for "attic".
Answer with_offers(std::vector<OfferOutlook> offers) {
    Answer a = answer();
    a.outlook.offers = std::move(offers);
    a.outlook.currency = "EUR";
    return a;
}

#define EXPECT_SAID(text, part) EXPECT_NE((text).find(part), std::string::npos) << text

TEST(OfferFindings, TheRecommendedOneIsNamedWithItsCosts) {
    auto best = offer("six 16 TB drives", 1, 2150, 0.97);
    best.energy_cost = 701.4;
    best.replacement_cost = 2150;
    best.cost_total = 5001.4;
    best.cost_per_usable_tib_year = 12.345;
    const auto text = said_of(with_offers({offer("other", 2, 9000, 1), best}));
    EXPECT_SAID(text,
                "fits /offers/1 Of the 2 offers for attic, “six 16 TB drives” is the cheapest that lasts for 5 years in "
                "9 of 10 futures: 5,001 EUR in all (2,150 EUR to buy, 2,150 EUR to buy again when its life is over, "
                "701 EUR for energy), 12.3 EUR for each usable TiB and year.\n");
}

TEST(OfferFindings, ASingleOfferIsNotCalledTheCheapest) {
    const auto text = said_of(with_offers({offer("drives", 1, 100, 1)}));
    EXPECT_SAID(text, "“drives” lasts for 5 years on attic in all futures drawn: 100 EUR.\n");
    EXPECT_EQ(text.find("cheapest"), std::string::npos);
}

TEST(OfferFindings, WhereNoneHoldsTheLikeliestIsNamed) {
    const auto text = said_of(with_offers({offer("a", 2, 100, 0.31), offer("b", 1, 300, 0.7)}));
    EXPECT_SAID(text, "tight /offers/1 No offer for attic lasts for 5 years in 9 of 10 futures; the likeliest to, “b”, does "
                      "in 7 of 10 futures.\n");
}

TEST(OfferFindings, WhatDoesNotGoInIsOutdoneOrComesTooLateIsSaid) {
    auto wide = offer("wide", 3, 100, 1);
    wide.does_not_go_in = "12 drives do not go into 8 bays";
    wide.holds = false;
    auto dear = offer("dear", 2, 900, 0.95);
    dear.dominated_by = "good";
    auto good = offer("good", 1, 400, 0.96);
    good.chance_too_late = 0.31;
    const auto text = said_of(with_offers({wide, dear, good}));
    EXPECT_SAID(text, "note /offers/0 “wide” does not go into attic: 12 drives do not go into 8 bays.\n");
    EXPECT_SAID(text, "note /offers/1 “dear” can be left aside: “good” costs no more and lasts no less often.\n");
    EXPECT_SAID(text, "tight /offers/2 Even ordered today, “good” runs from 2026-11-29: in 31 % of futures attic is over "
                      "its ceiling before.\n");
    auto only = wide;
    only.rank = 1;
    EXPECT_SAID(said_of(with_offers({only})), "tight /offers/0 No offer for attic goes into it.\n");
}

TEST(OfferFindings, ARebuildIsSaidWithItsCaveat) {
    auto o = offer("drives", 1, 100, 1);
    o.rebuild = RebuildExposure{20.4, 5, 1, 0.0157, 0.000183};
    EXPECT_SAID(said_of(with_offers({o})),
                "“drives”: to rebuild one drive takes 20 hours at least; 1 more in its group may fail meanwhile without "
                "loss. The chance that another of the 5 left fails in that time is 0.018 % at 1.57 % of drives a year, "
                "if they failed independently; real failures cluster, so take it as a lower bound.\n");
    o.rebuild->spare_failures = 0;
    EXPECT_SAID(said_of(with_offers({o})), "another failure in its group meanwhile loses the pool.");
}

TEST(SpaceFindings, ChangesBlocksAndLayoutsAreSaid) {
    Answer a = answer();
    auto& b = a.outlook.boxes[0];
    b.changes = {{*parse_date("2027-09-01"), "groups widened to 6 drives", 28.6e12, 22.9e12}};
    b.costs = {{"volume", 8192, 2.178, 3.9e12, 131072, 1.003}, {"files", 1048576, 1.0, 9e12, {}, 1}};
    b.better_shape = BetterShape{"1 group of 10 drives, parity-2", 5e12, 1.15, 1.34, 0.5};
    auto text = said_of(a);
    EXPECT_SAID(text, "note /boxes/1 On 2027-09-01, attic: groups widened to 6 drives; 28.6 TB usable from then on.\n");
    EXPECT_SAID(text, "“volume” with blocks of 8 KiB takes 2.18 times its stored size on attic; blocks of 128 KiB would "
                      "take 1.00 times, about 2.1 TB less at the end of 5 years.");
    EXPECT_EQ(text.find("“files” with blocks"), std::string::npos);
    EXPECT_SAID(text, "The drives of attic as 1 group of 10 drives, parity-2 would hold 50 % more of this data");
    b.costs[0].better_block_bytes.reset();
    EXPECT_SAID(said_of(a), "on attic, for parity and padding beside small blocks.\n");
}

TEST(SpaceFindings, WhatHappensIfNothingIsBoughtIsSaid) {
    Answer a = answer();
    auto& b = a.outlook.boxes[0];
    b.order_by = *parse_date("2029-07-07");
    b.days_until_full = {900, 1500, {}};
    EXPECT_SAID(said_of(a), "If nothing is bought, attic is full in about 4.1 years, around Dec 2030, in half of the "
                            "futures");
    b.days_until_full = {};
    b.chance_of_full_within_horizon = 0.2;
    EXPECT_SAID(said_of(a), "If nothing is bought, attic is full within 5 years in 2 of 10 futures.\n");
    b.chance_of_full_within_horizon = 0;
    EXPECT_SAID(said_of(a), "passes its ceiling but is not full within 5 years in any future drawn.\n");
}

TEST(SpaceFindings, HowMuchSpaceItWouldTakeIsSaidWhereThereIsTooLittle) {
    Answer a = answer();
    auto& b = a.outlook.boxes[0];
    EXPECT_EQ(said_of(a).find("would need"), std::string::npos);
    b.usable_needed_bytes = 51.2e12;
    EXPECT_SAID(said_of(a), "note /boxes/1 To stay below its ceiling for 5 years in 9 of 10 futures, attic would need 51.2 TB of "
                            "usable space; it has 40 TB.\n");
    b.changes = {{*parse_date("2027-09-01"), "usable becomes 40 TB", 40e12, 32e12}};
    EXPECT_SAID(said_of(a), "it has 40 TB by then.\n");
}

TEST(SayMoney, GroupsThousandsAndKeepsSmallSumsReadable) {
    EXPECT_EQ(say_money(0, "EUR"), "0.00 EUR");
    EXPECT_EQ(say_money(8.604, "GBP"), "8.60 GBP");
    EXPECT_EQ(say_money(34.27, "GBP"), "34.3 GBP");
    EXPECT_EQ(say_money(999.6, "EUR"), "1,000 EUR");
    EXPECT_EQ(say_money(2150, "EUR"), "2,150 EUR");
    EXPECT_EQ(say_money(1234567.8, "EUR"), "1,234,568 EUR");
}

TEST(SayFutures, CountsInTensWhereItCan) {
    EXPECT_EQ(say_futures(0.9), "9 of 10 futures");
    EXPECT_EQ(say_futures(0.95), "95 % of futures");
    EXPECT_EQ(say_futures(0.001), "1 % of futures");
    EXPECT_EQ(say_futures(0.9996), "99 % of futures");
    EXPECT_EQ(say_futures(1), "all futures drawn");
    EXPECT_EQ(say_futures(0), "no future drawn");
}

}  // namespace
}  // namespace ullage
