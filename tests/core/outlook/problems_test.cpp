// SPDX-License-Identifier: GPL-3.0-or-later
#include "outlook_testing.h"
#include "core/words/wording.h"

namespace ullage {
namespace {

using namespace testing;

void expect_problem(const Site& s, const std::string& where, const std::string& part, const Evidence& evidence = {},
                    Settings settings = {}) {
    if (settings.paths == Settings().paths) settings.paths = 20;
    const auto o = compute(s, evidence, settings);
    ASSERT_FALSE(o) << "expected at " << where << ": " << part;
    const auto* problems = std::get_if<Problems>(&o.error());
    ASSERT_NE(problems, nullptr);
    std::string said;
    bool found = false;
    for (const auto& p : *problems) {
        said += p.where + ": " + p.what + "\n";
        found = found || (p.where == where && p.what.find(part) != std::string::npos);
    }
    EXPECT_TRUE(found) << "expected at " << where << ": " << part << ", got\n" << said;
}

Site plain() {
    auto d = dataset("d", 1 * tb, 0.1 * tb);
    churn(d, 5 * gb);
    d.ladder = daily(10);
    auto s = site(300, {d}, {box("home", 4 * tb), box("attic", 4 * tb)});
    add_send(s, 100);
    return s;
}

Listing listing(const std::string& name, Day newest, int snapshots = 5) {
    Listing l;
    l.dataset = name;
    for (int i = 0; i < snapshots; ++i) {
        Snapshot s;
        s.name = name + "@" + std::to_string(i);
        s.taken = Instant(newest) - std::chrono::days(snapshots - 1 - i);
        s.live_bytes = 1 * tb;
        s.written_bytes = i == 0 ? 1 * tb : 2 * gb;
        l.snapshots.push_back(s);
    }
    return l;
}

Site listed() {
    auto s = plain();
    s.datasets[0].turnover = Turnover();
    s.datasets[0].turnover->listing = "l.tsv";
    s.datasets[0].live.reset();
    return s;
}

TEST(ComputeProblems, AnInvalidSiteIsReportedAsValidationDoes) {
    auto s = plain();
    s.datasets[0].home = "nowhere";
    expect_problem(s, "/datasets/0/home", "nowhere");
}

TEST(ComputeProblems, PathsOutsideOneToAMillionAreRefusedWithTheNumber) {
    Settings settings;
    for (const int paths : {0, -5, 1'000'001}) {
        settings.paths = paths;
        expect_problem(plain(), "", std::to_string(paths), {}, settings);
    }
}

TEST(ComputeProblems, AListingThatWasNotReadOrDoesNotHoldTheDatasetIsNamed) {
    expect_problem(listed(), "/datasets/0/turnover/listing", "l.tsv");
    Evidence e;
    e.listings["l.tsv"] = {listing("x", as_of), listing("y", as_of)};
    expect_problem(listed(), "/datasets/0/turnover", "x, y", e);
    auto s = listed();
    s.datasets[0].turnover->listing_dataset = "z";
    e.listings["l.tsv"] = {listing("x", as_of)};
    expect_problem(s, "/datasets/0/turnover/listing_dataset", "“z”", e);
    e.listings["l.tsv"] = {listing("d", as_of, 1)};
    expect_problem(listed(), "/datasets/0/turnover/listing", "1 snapshot", e);
}

TEST(ComputeProblems, TheOnlyDatasetOfAListingServesWhateverItsName) {
    Evidence e;
    e.listings["l.tsv"] = {listing("x", as_of)};
    EXPECT_TRUE(outlook_of(listed(), 20, 1, 1, e).datasets[0].measured);
}

TEST(ComputeProblems, AListingNewerThanAsOfIsRefusedWithBothDates) {
    Evidence e;
    e.listings["l.tsv"] = {listing("d", as_of + std::chrono::days(9))};
    expect_problem(listed(), "/datasets/0/turnover/listing", "2026-11-11", e);
    expect_problem(listed(), "/datasets/0/turnover/listing", "2026-11-02", e);
    // A few hours into the day of as_of is fine.
    e.listings["l.tsv"] = {listing("d", as_of)};
    for (auto& s : e.listings["l.tsv"][0].snapshots) s.taken += std::chrono::hours(20);
    EXPECT_EQ(outlook_of(listed(), 20, 1, 1, e).datasets.size(), 1u);
}

TEST(ComputeProblems, AnOldListingIsUsedAndSaidToBeOld) {
    Evidence e;
    e.listings["l.tsv"] = {listing("d", as_of - std::chrono::days(100))};
    const auto o = outlook_of(listed(), 20, 1, 1, e);
    bool said = false;
    for (const auto& a : o.datasets[0].assumptions) said = said || english(a).find("100 days before") != std::string::npos;
    EXPECT_TRUE(said);
}

TEST(ComputeProblems, GrowthAboveWhatADayWritesIsRefusedWithBothNumbers) {
    auto s = plain();
    s.datasets[0].growth->per_year = amount(3.6525 * tb);  // 10 GB a day, and 5 GB are written
    expect_problem(s, "/datasets/0/turnover/per_day", "5 GB");
    expect_problem(s, "/datasets/0/turnover/per_day", "10 GB");
}

TEST(ComputeProblems, ARelayFromABoxThatNoSendFillsIsRefused) {
    auto s = plain();
    s.boxes.push_back(box("far", 4 * tb));
    s.boxes.push_back(box("empty", 4 * tb));
    auto onward = s.sends[0];
    onward.name = "onward";
    onward.from = "empty";
    onward.to = "far";
    s.sends.push_back(onward);
    expect_problem(s, "/sends/1/datasets/0", "no other send carries it");
}

TEST(ComputeProblems, WhatALineCannotBeIsNamedWithItsNumbers) {
    auto s = plain();
    s.links[0].hours = {OpenHours()};
    s.links[0].hours[0].share = 0;
    expect_problem(s, "/links/0/hours", "never opens");
    s = plain();
    s.links[0].loss = 1;
    expect_problem(s, "/links/0/loss", "1");
    s = plain();
    s.sends[0].cipher_rate = Entered<BytesPerSecond>(BytesPerSecond{0});
    expect_problem(s, "/sends/0/cipher_rate", "0");
    s = plain();
    s.links[0].mtu = 576;
    s.links[0].wrappers.assign(10, Wrapper::wireguard);
    expect_problem(s, "/links/0", "576");
}

TEST(ComputeProblems, ASendOfADatasetWithoutSnapshotsIsRefused) {
    auto s = plain();
    s.datasets[0].ladder.clear();
    expect_problem(s, "/sends/0/datasets", "ladder");
}

Evidence usage(int days_long, double live_now, double per_day) {
    Evidence e;
    for (int i = 0; i <= days_long; i += 5)
        e.usages["u.csv"].push_back({Instant(as_of) - std::chrono::days(days_long - i), live_now - per_day * (days_long - i)});
    return e;
}

TEST(Usage, AHistoryOfLiveBytesGivesTheGrowthUnlessItIsTyped) {
    auto s = plain();
    s.datasets[0].usage = "u.csv";
    s.datasets[0].growth.reset();
    const auto e = usage(400, 2 * tb, 2 * gb);
    // The history's last is 2 TB and 1 TB is typed: the rate is halved with it. The pooled rate pulls a little.
    EXPECT_NEAR(outlook_of(s, 20, 1, 1, e).datasets[0].growth_bytes_per_day, 1 * gb, 0.01 * gb);
    s.datasets[0].growth = Growth();
    s.datasets[0].growth->per_year = amount(0.36525 * tb * 3);
    EXPECT_NEAR(outlook_of(s, 20, 1, 1, e).datasets[0].growth_bytes_per_day, 3 * gb, 1);
}

TEST(Usage, TheLongerOfListingAndHistoryCounts) {
    auto s = listed();
    s.datasets[0].growth.reset();
    s.datasets[0].usage = "u.csv";
    auto e = usage(100, 1 * tb, 0.5 * gb);
    e.listings["l.tsv"] = {listing("d", as_of)};  // four days, no growth
    EXPECT_NEAR(outlook_of(s, 20, 1, 1, e).datasets[0].growth_bytes_per_day, 0.5 * gb, 0.03 * gb);
    e.listings["l.tsv"] = {listing("d", as_of, 150)};
    EXPECT_NEAR(outlook_of(s, 20, 1, 1, e).datasets[0].growth_bytes_per_day, 0, 0.05 * gb);
}

TEST(Usage, OneThatWasNotReadOrShowsNoGrowthUpToAsOfIsAProblem) {
    auto s = plain();
    s.datasets[0].usage = "u.csv";
    expect_problem(s, "/datasets/0/usage", "u.csv");
    Evidence e;
    e.usages["u.csv"] = {{Instant(as_of), 1e12}, {Instant(as_of) + std::chrono::days(9), 1e12}};
    expect_problem(s, "/datasets/0/usage", "has 1 point up to 2026-11-02", e);
}

TEST(Assumptions, EveryDefaultThatStandsInIsASentence) {
    Dataset d;
    d.name = "d";
    d.home = "home";
    d.logical = Entered<Bytes>(Bytes{1 * tb});
    auto o = outlook_of(site(300, {d}, {box("home", 4 * tb)}), 20);
    std::string said;
    for (const auto& a : o.datasets[0].assumptions) said += english(a) + "\n";
    for (const char* part : {"No compression ratio", "No growth is given", "No turnover is given"})
        EXPECT_NE(said.find(part), std::string::npos) << part << " in\n" << said;

    auto typed = dataset("d", 1 * tb, 0.1 * tb);
    churn(typed, 5 * gb);
    typed.growth->spread.reset();
    typed.turnover->spread.reset();
    o = outlook_of(site(300, {typed}, {box("home", 4 * tb)}), 20);
    said.clear();
    for (const auto& a : o.datasets[0].assumptions) said += english(a) + "\n";
    for (const char* part : {"No spread of the growth", "No spread of the turnover", "a day only"})
        EXPECT_NE(said.find(part), std::string::npos) << part << " in\n" << said;
    EXPECT_NEAR(o.datasets[0].growth_spread_bytes_per_day, 0.25 * 0.1 * tb / 365.25, 1);
}

}  // namespace
}  // namespace ullage
