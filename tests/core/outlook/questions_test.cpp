// SPDX-License-Identifier: GPL-3.0-or-later
// Outage drill, first copy, restore and the backward questions, on sites without uncertainty: each
// expected value is arithmetic on the site's own numbers.
#include "outlook_testing.h"

#include "core/outlook/models.h"
#include "core/outlook/outage_drill.h"
#include "core/outlook/solve.h"

#include <cmath>

namespace ullage {
namespace {

using namespace testing;

constexpr double payload = 1 + 312.0 / 131072;

Site plain(double megabits = 100, int ladder_days = 14) {
    auto d = dataset("d", 1 * tb, 0);
    churn(d, 6 * gb, 25 * gb);
    d.ladder = daily(ladder_days);
    auto s = site(300, {d}, {box("home", 90 * tb), box("attic", 3 * tb)});
    add_send(s, megabits);
    return s;
}

Settings one_path() {
    Settings settings;
    settings.paths = 1;
    settings.threads = 1;
    return settings;
}

template <class T>
T answer_of(const tl::expected<T, ComputeError>& result) {
    if (result) return *result;
    if (const auto* problems = std::get_if<Problems>(&result.error()))
        for (const auto& p : *problems) ADD_FAILURE() << p.where << ": " << p.what;
    return {};
}

template <class T>
std::string said(const tl::expected<T, ComputeError>& result) {
    if (result) return "";
    std::string text;
    if (const auto* problems = std::get_if<Problems>(&result.error()))
        for (const auto& p : *problems) text += p.where + ": " + p.what;
    return text;
}

OutageDrill drill_of(const Site& s, double days) {
    return answer_of(
        outage_drill(s, {}, one_path(), {"nightly", as_of + std::chrono::days(100), days}));
}

TEST(Outage, AShortOneLeavesOneIncrementThatCatchesUp) {
    const auto s = plain();
    const auto curve = dataset_models(s, {}, as_of)->front().mean_curve;
    const auto d = drill_of(s, 5);
    // The run of the first night waits with a day's change; the four after it become one of five
    // days.
    const double run = curve.freed(1) * payload;
    const double later = curve.freed(5) * payload;
    EXPECT_NEAR(d.backlog_bytes.p50 / (run + later), 1, 0.01);
    const double goodput = outlook_of(s, 1).sends[0].goodput.bits_per_second;
    EXPECT_NEAR(d.catch_up_days.p50, (run + later) * 8 / goodput / 86400, 0.01);
    EXPECT_EQ(d.chance_of_catching_up, 1);
    EXPECT_EQ(d.chance_base_survives, 1);
    EXPECT_FALSE(d.resends_whole);
    // A copy of the night before, 6 days old at the end of the outage.
    EXPECT_NEAR(d.oldest_copy_hours.p50, 6 * 24, 0.5);
    EXPECT_NEAR(*d.longest_outage_days, 14, 0.05);
}

TEST(Outage, DayByDayTheCopyAgesThroughItAndWhatWaitsIsCarriedAfterIt) {
    const auto s = plain();
    const auto d = drill_of(s, 5);
    ASSERT_GE(d.daily.size(), 7u + 5 + 4);
    EXPECT_EQ(d.daily.front().date, d.from - std::chrono::days(7));
    for (std::size_t i = 0; i < d.daily.size(); ++i) {
        const auto& day = d.daily[i];
        EXPECT_EQ(day.date, d.daily.front().date + std::chrono::days(i));
        EXPECT_LE(day.age_p50_hours, day.age_p95_hours);
        const double into = double((day.date - d.from).count());  // whole days of outage before it
        if (into >= 0 && into < 5) {
            // The copy of the midnight before, a day older at the end of each day.
            EXPECT_NEAR(day.age_p50_hours, 24 * (into + 2), 0.5) << i;
            EXPECT_GT(day.waiting_p50_bytes, d.daily[i - 1].waiting_p50_bytes) << i;
        } else if (into < 0 || into > 5) {
            EXPECT_LT(day.age_p50_hours, 25) << i;
            EXPECT_EQ(day.waiting_p50_bytes, 0) << i;
        }
    }
    // On its last day all that waits is there, and the oldest copy of all.
    const auto& last = d.daily[7 + 4];
    EXPECT_NEAR(last.waiting_p50_bytes / d.backlog_bytes.p50, 1, 0.01);
    EXPECT_NEAR(last.age_p50_hours, d.oldest_copy_hours.p50, 0.5);
}

TEST(Outage, DaysAreToldWithinTheHorizonOnly) {
    const auto d = answer_of(
        outage_drill(plain(), {}, one_path(), {"nightly", as_of + std::chrono::days(2), 297}));
    ASSERT_FALSE(d.daily.empty());
    EXPECT_EQ(d.daily.front().date, as_of);
    EXPECT_LE(d.daily.back().date, as_of + std::chrono::days(300));
}

TEST(Outage, OneLongerThanTheLadderSendsEverythingAgainAndNeedsRoomForIt) {
    const auto s = plain();
    const auto d = drill_of(s, 20);
    EXPECT_EQ(d.chance_base_survives, 0);
    ASSERT_TRUE(d.resends_whole);
    EXPECT_NEAR(d.resend_bytes.p50 / (1 * tb * payload), 1, 1e-6);
    EXPECT_NEAR(d.room_needed_bytes, 1 * tb, 1e6);
    const auto attic = outlook_of(s, 1).boxes[1];
    ASSERT_TRUE(d.room_free_bytes);
    EXPECT_NEAR(*d.room_free_bytes, 3 * tb - point_at(attic, 123).used_bytes.p50, 1 * gb);
    // the old increment, then everything
    const double goodput = outlook_of(s, 1).sends[0].goodput.bits_per_second;
    EXPECT_NEAR(d.resend_days.p50, 1 * tb * payload * 8 / goodput / 86400, 0.001);
    EXPECT_GT(d.catch_up_days.p50, d.resend_days.p50);
}

TEST(Outage, OnlyWhatLostItsSnapshotIsSentAgainAndNeedsRoom) {
    auto s = plain();
    auto small = dataset("small", 0.25 * tb, 0);
    churn(small, 1 * gb);
    small.ladder = daily(60);
    s.datasets.push_back(small);
    s.sends[0].datasets.push_back("small");
    const auto d = drill_of(s, 20);
    EXPECT_EQ(d.resent_datasets, std::vector<std::string>{"d"});
    EXPECT_NEAR(d.room_needed_bytes, 1 * tb, 1e6);
    // The same run carries twenty days of the small one.
    EXPECT_GT(d.resend_bytes.p50, 1 * tb * payload);
    EXPECT_LT(d.resend_bytes.p50, 1.1 * tb);
    EXPECT_TRUE(drill_of(s, 5).resent_datasets.empty());
    s.datasets[1].ladder = daily(14);
    EXPECT_EQ(drill_of(s, 20).resent_datasets, (std::vector<std::string>{"d", "small"}));
    EXPECT_NEAR(drill_of(s, 20).room_needed_bytes, 1.25 * tb, 1e6);
}

TEST(Outage, HoldingTheLastSentOrALongerLadderRaisesWhatIsSurvived) {
    auto s = plain();
    const auto d = drill_of(s, 20);
    ASSERT_EQ(d.remedies.size(), 2u);
    EXPECT_EQ(d.remedies[0].kind, OutageRemedy::Kind::hold_last_sent);
    EXPECT_FALSE(d.remedies[0].longest_days);
    EXPECT_EQ(d.remedies[1].kind, OutageRemedy::Kind::longer_ladder);
    EXPECT_NEAR(*d.remedies[1].longest_days, 28, 0.05);
    // and so it is when they are taken
    s.sends[0].hold_last_sent = true;
    EXPECT_EQ(drill_of(s, 20).chance_base_survives, 1);
    EXPECT_TRUE(drill_of(s, 20).remedies.empty());
    EXPECT_EQ(drill_of(plain(100, 28), 20).chance_base_survives, 1);
}

TEST(Outage, ALongerOneNeverLeavesLessToCarryOrSurvivesBetter) {
    double backlog = 0;
    double survives = 1;
    for (const double days : {0.5, 1.0, 3.0, 8.0, 12.0, 13.0, 15.0, 40.0}) {
        const auto d = drill_of(plain(20), days);
        EXPECT_GE(d.backlog_bytes.p50, backlog) << days;
        EXPECT_LE(d.chance_base_survives, survives) << days;
        backlog = d.backlog_bytes.p50;
        survives = d.chance_base_survives;
        const double longest = *d.longest_outage_days;
        EXPECT_TRUE(days > longest - 0.1 || d.chance_base_survives == 1) << days;
        EXPECT_TRUE(days < longest + 1 || d.chance_base_survives == 0) << days;
    }
}

TEST(Outage, WhatCannotBeAskedIsNamed) {
    const auto ask = [](const OutageQuestion& q) {
        return said(outage_drill(plain(), {}, one_path(), q));
    };
    EXPECT_NE(ask({"daily", as_of, 3}).find("known are “nightly”"), std::string::npos);
    EXPECT_NE(ask({"nightly", as_of - std::chrono::days(1), 3}).find("outside the horizon"),
              std::string::npos);
    EXPECT_NE(ask({"nightly", as_of + std::chrono::days(400), 3}).find("outside the horizon"),
              std::string::npos);
    EXPECT_NE(ask({"nightly", as_of, 0}).find("above 0"), std::string::npos);
    EXPECT_NE(ask({"nightly", as_of + std::chrono::days(290), 20}).find("does not end within"),
              std::string::npos);
    auto s = plain(0.1);
    s.sends[0].first_copy.by = FirstCopy::By::link;
    EXPECT_NE(said(outage_drill(s, {}, one_path(), {"nightly", as_of, 3})).find("first copy"),
              std::string::npos);
}

TEST(FirstCopyWays, OverAFastLineIsSoonerAndOfMuchDataNot) {
    auto s = plain(60, 60);  // 1.6 days: one night comes due meanwhile
    s.sends[0].first_copy.by = FirstCopy::By::link;
    const auto o = outlook_of(s, 1).sends[0];
    ASSERT_TRUE(o.first_copy);
    const auto& w = *o.first_copy;
    const double per_day = o.goodput.bits_per_second / 8 * 86400;
    EXPECT_NEAR(*w.link_days, 1 * tb * payload / per_day, 0.001);
    // The day's change that waited behind it is carried when it is done.
    EXPECT_NEAR(*w.link_in_step_days - *w.link_days, 6 * gb * payload / per_day, 0.002);
    EXPECT_FALSE(w.carry);
    ASSERT_EQ(w.assumptions.size(), 1u) << "no courier was given";
    EXPECT_NEAR(w.courier_copy_days, 1 * tb / 150e6 / 86400, 1e-6);

    s.datasets[0].live = Entered<Bytes>(Bytes{20 * tb});
    const auto much = *outlook_of(s, 1).sends[0].first_copy;
    EXPECT_TRUE(much.carry);
    EXPECT_NEAR(*much.link_days, 20 * tb * payload / per_day, 0.01);
    // copying, the road, and what was written meanwhile
    EXPECT_GT(*much.courier_days, 20 * tb / 150e6 / 86400 + 2);
    EXPECT_LT(*much.courier_days, 20 * tb / 150e6 / 86400 + 3);
    // At the break-even both take equally long: S payload/line = S/copy + 2 d + what was written
    // (the churn of 6 GB a day is the same for the site of 1 TB).
    const auto curve = dataset_models(plain(60, 60), {}, as_of)->front().mean_curve;
    const double size = *w.break_even_bytes;
    const double away = size / 150e6 / 86400 + 2;
    EXPECT_NEAR(size * payload / per_day, away + curve.freed(away) * payload / per_day, 0.002);
}

TEST(FirstCopyWays, ACopyThatTakesLongerThanTheLadderLosesItsBase) {
    auto s = plain(10, 3);  // 1 TB at 10 Mbit/s takes ten days
    s.sends[0].first_copy.by = FirstCopy::By::link;
    EXPECT_TRUE(outlook_of(s, 1).sends[0].first_copy->link_base_expires);
    s.sends[0].hold_last_sent = true;
    EXPECT_FALSE(outlook_of(s, 1).sends[0].first_copy->link_base_expires);
    s.sends[0].first_copy.by = FirstCopy::By::present;
    EXPECT_FALSE(outlook_of(s, 1).sends[0].first_copy);
}

TEST(FirstCopyWays, AnotherSendOnTheLineDelaysIt) {
    auto s = plain(20, 60);
    s.sends[0].first_copy.by = FirstCopy::By::link;
    const double alone = *outlook_of(s, 1).sends[0].first_copy->link_days;
    auto big = dataset("big", 1 * tb, 0);
    churn(big, 40 * gb);
    big.ladder = daily(14);
    s.datasets.push_back(big);
    s.boxes.push_back(box("cabin", 90 * tb));
    auto other = s.sends[0];
    other.name = "other";
    other.datasets = {"big"};
    other.to = "cabin";
    other.first_copy.by = FirstCopy::By::present;
    s.sends.push_back(other);
    const auto o = outlook_of(s, 1);
    // The other send takes 40 GB a day of the line first or last; so much less is left for the
    // copy.
    const double per_day = o.sends[0].goodput.bits_per_second / 8 * 86400;
    EXPECT_NEAR(*o.sends[0].first_copy->link_days / (alone / (1 - 40 * gb * payload / per_day)), 1,
                0.06);
}

TEST(RestoreWays, OneDatasetOrAllByTheOtherDirectionOrFetched) {
    auto s = plain();
    auto small = dataset("small", 0.25 * tb, 0);
    churn(small, 1 * gb);
    small.ladder = daily(14);
    s.datasets.push_back(small);
    s.sends[0].datasets.push_back("small");
    s.links[0].down = Entered<BitsPerSecond>(BitsPerSecond{400e6});
    s.sends[0].first_copy.days_away = 1;
    s.sends[0].first_copy.copy_rate = Entered<BytesPerSecond>(BytesPerSecond{100e6});
    const auto o = outlook_of(s, 1).sends[0];
    ASSERT_EQ(o.restore.size(), 3u);
    const double down = o.goodput.shape.efficiency() * 400e6;
    EXPECT_EQ(o.restore[0].dataset, "");
    EXPECT_NEAR(o.restore[0].link_hours.p50, 1.25 * tb * payload * 8 / down / 3600, 0.01);
    EXPECT_NEAR(o.restore_hours.p50, o.restore[0].link_hours.p50, 0.01);
    EXPECT_EQ(o.restore[2].dataset, "small");
    EXPECT_NEAR(o.restore[2].link_hours.p50, 0.25 * tb * payload * 8 / down / 3600, 0.01);
    EXPECT_NEAR(o.restore[0].fetch_hours, 24 + 1.25 * tb / 100e6 / 3600, 1e-6);
    EXPECT_TRUE(o.restore[0].road_binds);
    EXPECT_EQ(o.restore[0].bound_by, Limit::rate);
    s.boxes[0].disk_rate = Entered<BytesPerSecond>(BytesPerSecond{20e6});
    EXPECT_EQ(outlook_of(s, 1).sends[0].restore[0].bound_by, Limit::disk);
}

SolveAnswer solved(const Site& s, SolveFor what, std::optional<double> confidence = {}) {
    SolveQuestion q;
    q.what = what;
    q.confidence = confidence;
    return answer_of(solve(s, {}, one_path(), q));
}

TEST(Solve, TheLineRateIsThatWhichCarriesTheNightInItsHour) {
    auto s = plain(10);
    OpenHours one;
    one.from = 0;
    one.to = 3600;
    s.links[0].hours = {one};
    const auto o = outlook_of(s, 1).sends[0];
    const auto a = solved(s, SolveFor::link_rate);
    ASSERT_EQ(a.link_rates.size(), 1u);
    const auto& r = a.link_rates[0];
    // The same 6 GB every night, in an hour.
    const auto curve = dataset_models(s, {}, as_of)->front().mean_curve;
    const double needed = curve.freed(1) * payload * 8 / 3600 / o.goodput.shape.efficiency();
    ASSERT_TRUE(r.needed_bits_per_second);
    EXPECT_GE(*r.needed_bits_per_second, needed * 0.9999);
    EXPECT_LE(*r.needed_bits_per_second, needed * 1.011);
    EXPECT_EQ(*r.sold_bits_per_second, 20e6);  // 14.2 Mbit/s, rounded up
    EXPECT_FALSE(r.enough_today);
    s.links[0].up = Entered<BitsPerSecond>(BitsPerSecond{50e6});
    const auto enough = solved(s, SolveFor::link_rate).link_rates[0];
    EXPECT_TRUE(enough.enough_today);
    EXPECT_NEAR(*enough.needed_bits_per_second / needed, 1, 0.011);
    // A cipher that is too slow for it: no line helps.
    s.sends[0].cipher_rate = Entered<BytesPerSecond>(BytesPerSecond{1e6});
    const auto never = solved(s, SolveFor::link_rate).link_rates[0];
    EXPECT_FALSE(never.needed_bits_per_second);
    EXPECT_EQ(never.other_limit, Limit::cipher);
}

TEST(Solve, UsableIsTheMostUsedOverTheCeiling) {
    const auto s = plain();
    const auto attic = outlook_of(s, 1).boxes[1];
    double most = 0;
    for (const auto& p : attic.fill) most = std::max(most, p.used_bytes.p50);
    const auto a = solved(s, SolveFor::usable);
    ASSERT_EQ(a.usable.size(), 2u);
    EXPECT_NEAR(a.usable[1].needed_bytes, most / 0.8, 1e3);
    EXPECT_EQ(a.usable[1].today_bytes, 3 * tb);
}

TEST(Solve, UsableWithMoreConfidenceIsNeverLessAndKeepsTheBoxBelowItsCeiling) {
    auto s = plain();
    s.datasets[0].growth->per_year = amount(0.5 * tb);
    s.datasets[0].growth->spread = 0.5;
    Settings settings;
    settings.paths = 400;
    settings.threads = 1;
    double before = 0;
    for (const double c : {0.6, 0.8, 0.9, 0.99}) {
        SolveQuestion q;
        q.what = SolveFor::usable;
        q.confidence = c;
        q.box = "attic";
        const auto a = answer_of(solve(s, {}, settings, q));
        ASSERT_EQ(a.usable.size(), 1u);
        EXPECT_GE(a.usable[0].needed_bytes, before);
        before = a.usable[0].needed_bytes;
        auto with = s;
        with.boxes[1].usable = Entered<Bytes>(Bytes{before});
        EXPECT_NEAR(outlook_of(with, 400).boxes[1].chance_of_ceiling_within_horizon, 1 - c, 0.01);
    }
}

TEST(Solve, TheOrderDateIsThatOfTheOutlookAtNineInTen) {
    auto s = plain();
    s.boxes[1].lead_time = Entered<Duration>(days(21));
    s.boxes[1].usable = Entered<Bytes>(Bytes{1.5 * tb});
    s.datasets[0].growth->per_year = amount(1 * tb);
    s.datasets[0].growth->spread = 0.3;
    Settings settings;
    settings.paths = 300;
    settings.threads = 1;
    SolveQuestion q;
    q.what = SolveFor::order_date;
    q.box = "attic";
    const auto a = answer_of(solve(s, {}, settings, q));
    ASSERT_EQ(a.order_dates.size(), 1u);
    const auto o = outlook_of(s, 300).boxes[1];
    ASSERT_TRUE(a.order_dates[0].order_by);
    EXPECT_EQ(a.order_dates[0].order_by, o.order_by);
    q.confidence = 0.6;  // less sure: later
    EXPECT_GT(*answer_of(solve(s, {}, settings, q)).order_dates[0].order_by, *o.order_by);
    EXPECT_FALSE(solved(plain(), SolveFor::order_date).order_dates[1].order_by) << "it never fills";
}

TEST(Solve, TheLongestLadderFitsAndOneStepMoreDoesNot) {
    auto s = plain();
    s.boxes[1].usable = Entered<Bytes>(Bytes{1.5 * tb});
    const auto a = solved(s, SolveFor::ladder);
    const auto attic = std::find_if(a.ladders.begin(), a.ladders.end(),
                                    [](const auto& l) { return l.box == "attic"; });
    ASSERT_NE(attic, a.ladders.end());
    EXPECT_EQ(attic->today_days, 14);
    ASSERT_TRUE(attic->longest_days);
    EXPECT_FALSE(attic->as_long_as_the_horizon);
    EXPECT_TRUE(attic->sends_fit);
    const int longest = static_cast<int>(*attic->longest_days);
    EXPECT_EQ(attic->ladders.at(0).ladder, "1 d × " + std::to_string(longest));
    const auto over = [&](int days) {
        s.datasets[0].ladder = daily(days);
        return outlook_of(s, 1).boxes[1].chance_of_ceiling_within_horizon > 0;
    };
    EXPECT_FALSE(over(longest));
    EXPECT_TRUE(over(longest + 1));
    // Home has room for anything within the horizon.
    EXPECT_TRUE(a.ladders[0].as_long_as_the_horizon);
}

TEST(Solve, ABoxThatComesToItsCeilingIsToldTheLadderThatFits) {
    auto s = plain();
    EXPECT_FALSE(outlook_of(s, 1).boxes[1].ladder_that_fits);
    s.boxes[1].usable = Entered<Bytes>(Bytes{1.3 * tb});
    s.datasets[0].ladder = daily(60);
    const auto told = outlook_of(s, 1).boxes[1].ladder_that_fits;
    ASSERT_TRUE(told && told->longest_days);
    EXPECT_EQ(told->today_days, 60);
    EXPECT_LT(*told->longest_days, 60);
    s.datasets[0].ladder = daily(static_cast<int>(*told->longest_days));
    EXPECT_EQ(outlook_of(s, 1).boxes[1].chance_of_ceiling_within_horizon, 0);
    s.boxes[1].usable = Entered<Bytes>(Bytes{1 * tb});  // the live data alone pass the ceiling
    const auto none = outlook_of(s, 1).boxes[1].ladder_that_fits;
    ASSERT_TRUE(none);
    EXPECT_FALSE(none->longest_days);
}

TEST(Solve, ABoxesOwnLadderIsMovedAndTheSourcesIsNot) {
    auto s = plain();
    s.boxes[1].usable = Entered<Bytes>(Bytes{1.5 * tb});
    s.sends[0].ladder = Ladder{rung(1, Period::Unit::day, 7), rung(1, Period::Unit::week, 4)};
    SolveQuestion q;
    q.what = SolveFor::ladder;
    q.box = "attic";
    const auto a = answer_of(solve(s, {}, one_path(), q));
    ASSERT_EQ(a.ladders.size(), 1u);
    EXPECT_EQ(a.ladders[0].ladders.at(0).ladder.find("1 d × 7, 1 w × "), 0u);
    auto& own = std::get<Ladder>(s.sends[0].ladder);
    own[1].count = static_cast<int>(*a.ladders[0].longest_days / 7);
    EXPECT_EQ(outlook_of(s, 1).boxes[1].chance_of_ceiling_within_horizon, 0);
    own[1].count = *own[1].count + 1;
    EXPECT_EQ(outlook_of(s, 1).boxes[1].chance_of_ceiling_within_horizon, 1);
}

TEST(Solve, WhatIsNotThereIsNamed) {
    const auto ask = [](SolveQuestion q, const Site& s = plain()) {
        return said(solve(s, {}, one_path(), q));
    };
    SolveQuestion q;
    q.send = "dayly";
    EXPECT_NE(ask(q).find("“nightly”"), std::string::npos);
    q = {};
    q.box = "shed";
    EXPECT_NE(ask(q).find("“home”, “attic”"), std::string::npos);
    q = {};
    q.confidence = 1;
    EXPECT_NE(ask(q).find("confidence"), std::string::npos);
    q = {};
    auto none = plain();
    none.sends.clear();
    EXPECT_NE(ask(q, none).find("no send"), std::string::npos);
}

TEST(SoldRates, AreReadSortedAndRoundedUpTo) {
    const auto rates = parse_sold_rates("# mine\n100 Mbit/s\n10 Mbit/s  # small\n\n100 Mbit/s\n");
    ASSERT_TRUE(rates);
    ASSERT_EQ(rates->size(), 2u);
    EXPECT_EQ(rounded_up({10e6}, *rates)->value, 10e6);
    EXPECT_EQ(rounded_up({10.1e6}, *rates)->value, 100e6);
    EXPECT_FALSE(rounded_up({101e6}, *rates));
    const auto bad = parse_sold_rates("10 Mbit/s\nfast\n0 bit/s\n");
    ASSERT_FALSE(bad);
    ASSERT_EQ(bad.error().size(), 2u);
    EXPECT_EQ(bad.error()[0].where, "line 2");
    EXPECT_EQ(bad.error()[1].where, "line 3");
    EXPECT_FALSE(parse_sold_rates("# nothing\n"));
    EXPECT_GT(usual_sold_rates().size(), 10u);
}

}  // namespace
}  // namespace ullage
