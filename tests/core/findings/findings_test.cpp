// SPDX-License-Identifier: GPL-3.0-or-later
// Sentences are the program's own; the dates in them are counted from 2026-11-01 by the calendar.
#include "findings_testing.h"

#include <algorithm>
#include <functional>

namespace ullage {
namespace {

using namespace testing;

std::string listed(const std::vector<Finding>& all) {
    std::string text;
    for (const auto& f : all) text += to_string(f.level) + " " + f.about + " " + f.text + "\n";
    return text;
}

std::vector<Finding> with(const std::function<void(Answer&)>& change) {
    Answer a = answer();
    change(a);
    return findings(a.site, a.outlook);
}

void expect_said(const std::vector<Finding>& all, Level level, const std::string& about, const std::string& part) {
    EXPECT_TRUE(std::any_of(all.begin(), all.end(), [&](const Finding& f) {
        return f.level == level && f.about == about && f.text.find(part) != std::string::npos;
    })) << "expected " << to_string(level) << " at " << about << ": " << part << "\nin\n" << listed(all);
}
void expect_unsaid(const std::vector<Finding>& all, const std::string& part) {
    EXPECT_EQ(listed(all).find(part), std::string::npos) << listed(all);
}

TEST(SayDays, RoundsAsPeopleDo) {
    const std::vector<std::pair<double, std::string>> table = {
        {0, "0 days"}, {0.4, "0 days"}, {1, "1 day"}, {1.4, "1 day"}, {2, "2 days"}, {45.3, "45 days"},
        {59.4, "59 days"}, {60, "about 2 months"}, {91, "about 3 months"}, {365.25, "about 12 months"},
        {608, "about 20 months"}, {730, "about 24 months"}, {731, "about 2 years"}, {1278, "about 3.5 years"},
        {1826.25, "about 5 years"}, {3000, "about 8.2 years"}};
    for (const auto& [days, text] : table) EXPECT_EQ(say_days(days), text) << days;
}

TEST(Status, OfABoxFollowsItsRule) {
    auto b = box();
    const double horizon = 5 * days_per_year;
    EXPECT_EQ(status_of(b, horizon), Level::fits);
    b.days_until_ceiling = {42, 900, 1700};  // twice a lead time of 21 d
    EXPECT_EQ(status_of(b, horizon), Level::tight);
    b.days_until_ceiling = {43, 900, 1700};
    EXPECT_EQ(status_of(b, horizon), Level::fits);
    b.days_until_ceiling = {43, 365, 1700};  // half within a year
    EXPECT_EQ(status_of(b, horizon), Level::tight);
    b.days_until_ceiling = {5, 21, 30};      // half within the lead time
    EXPECT_EQ(status_of(b, horizon), Level::overruns);
    b.lead_time_days.reset();                // 90 d are taken
    b.days_until_ceiling = {70, 90, 300};
    EXPECT_EQ(status_of(b, horizon), Level::overruns);
    b.days_until_ceiling = {};
    EXPECT_EQ(status_of(b, horizon), Level::fits);
    b.over_ceiling_now = true;
    EXPECT_EQ(status_of(b, horizon), Level::overruns);
}

TEST(Status, OfASendFollowsTheConfidence) {
    auto s = send();
    EXPECT_EQ(status_of(s, 0.9), Level::fits);
    s.chance_of_missing_window = 0.03;
    EXPECT_EQ(status_of(s, 0.9), Level::tight);
    s.chance_of_missing_window = 0.11;
    EXPECT_EQ(status_of(s, 0.9), Level::overruns);
    EXPECT_EQ(status_of(s, 0.8), Level::tight);
    s = send();
    s.falls_behind = true;
    EXPECT_EQ(status_of(s, 0.9), Level::overruns);
    s = send();
    s.first_copy_days = {};
    EXPECT_EQ(status_of(s, 0.9), Level::overruns);
}

TEST(Findings, ABoxSentenceHasItsCeilingItsDaysAndItsMonths) {
    const auto all = answer().findings;
    // 1300 d after 2026-11-01 is 2030-05-24; 1000 d 2029-07-28; 1700 d 2031-06-28.
    expect_said(all, Level::fits, "/boxes/1",
                "attic reaches its 80 % ceiling in about 3.6 years, around May 2030. 1 in 10: before Jul 2029; "
                "9 in 10: before Jun 2031.");
    expect_said(all, Level::note, "/boxes/1", "Order more space for attic by 2029-07-07: 1 future in 10 reaches the "
                                              "ceiling 21 days later");
    expect_said(all, Level::note, "/boxes/1", "After 5 years, snapshots alone hold 9 TB on attic, 25 % of what is used.");
}

TEST(Findings, AreSaidInGermanWithItsCasesAndFigures) {
    const auto all = in_language(answer(), Language::german).findings;
    expect_said(all, Level::fits, "/boxes/1",
                "attic erreicht die Füllgrenze von 80 % in etwa 3,6 Jahren, etwa im Mai 2030. 1 von 10: vor Juli 2029; "
                "9 von 10: vor Juni 2031.");
    expect_said(all, Level::note, "/boxes/1", "Mehr Platz für attic bis zum 07.07.2029 bestellen: In 1 von 10 Verläufen "
                                              "ist die Füllgrenze 21 Tage später erreicht");
    expect_said(all, Level::note, "/sends/0", "Alles in der Gegenrichtung der Leitung zurückzuholen dauert 4 Tage");
    const auto english = answer().findings;
    ASSERT_EQ(all.size(), english.size());
    for (std::size_t i = 0; i < all.size(); ++i) {
        EXPECT_EQ(all[i].level, english[i].level) << all[i].text;
        EXPECT_EQ(all[i].about, english[i].about) << all[i].text;
        EXPECT_NE(all[i].text, english[i].text);
    }
}

TEST(Findings, TheJsonKeepsItsKeysInGermanAndSaysItsSentences) {
    const std::string json = outlook_json(in_language(answer(), Language::german));
    for (const char* part : {"\"level\": \"fits\"", "\"bound_by\": \"rate\"", "attic erreicht die Füllgrenze",
                             "Keine Streuung des Umschlags ist angegeben"})
        EXPECT_NE(json.find(part), std::string::npos) << part;
}

TEST(Findings, WhatMayNeverComeIsSaidWithItsChance) {
    auto all = with([](Answer& a) { a.outlook.boxes[0].days_until_ceiling.p90.reset(); });
    expect_said(all, Level::fits, "/boxes/1", "1 in 10 futures stay below it for 5 years.");
    all = with([](Answer& a) {
        a.outlook.boxes[0].days_until_ceiling.p90.reset();
        a.outlook.boxes[0].chance_of_ceiling_within_horizon = 0.5;
    });
    expect_said(all, Level::fits, "/boxes/1", "half of the futures stay below it");
    all = with([](Answer& a) {
        a.outlook.boxes[0].days_until_ceiling = {1000, {}, {}};
        a.outlook.boxes[0].chance_of_ceiling_within_horizon = 0.3;
    });
    expect_said(all, Level::fits, "/boxes/1", "most likely stays below its 80 % ceiling for 5 years; 3 in 10 futures "
                                              "reach it, the first of them around Jul 2029");
    all = with([](Answer& a) {
        a.outlook.boxes[0].days_until_ceiling = {};
        a.outlook.boxes[0].chance_of_ceiling_within_horizon = 0.02;
        a.outlook.boxes[0].order_by.reset();
    });
    expect_said(all, Level::fits, "/boxes/1", "fewer than 1 in 10 futures reach it");
    expect_unsaid(all, "Order more space");
    all = with([](Answer& a) {
        a.outlook.boxes[0].days_until_ceiling = {};
        a.outlook.boxes[0].chance_of_ceiling_within_horizon = 0;
    });
    expect_said(all, Level::fits, "/boxes/1", "in every future drawn; it ends at 90 % full");
}

TEST(Findings, ABoxThatIsFullOrLateIsSaidFirst) {
    auto all = with([](Answer& a) {
        a.outlook.boxes[0].full_now = true;
        a.outlook.boxes[0].over_ceiling_now = true;
        a.outlook.boxes[0].used_now_bytes = 41e12;
    });
    EXPECT_EQ(all.front().level, Level::overruns);
    EXPECT_EQ(all.front().text, "attic is full today: 41 TB would be stored on 40 TB of usable space.");
    all = with([](Answer& a) {
        a.outlook.boxes[0].over_ceiling_now = true;
        a.outlook.boxes[0].used_now_bytes = 33e12;
    });
    expect_said(all, Level::overruns, "/boxes/1", "attic is over its 80 % ceiling today, at 33 TB of 40 TB usable.");
    all = with([](Answer& a) { a.outlook.boxes[0].order_by = as_of - std::chrono::days(10); });
    expect_said(all, Level::overruns, "/boxes/1", "should have been ordered by 2026-10-22");
    expect_said(all, Level::overruns, "/boxes/1", "a delivery of 21 days");
}

TEST(Findings, SizesFollowThePrefixesAskedFor) {
    const auto a = answer();
    const auto all = findings(a.site, a.outlook, Prefixes::binary);
    expect_said(all, Level::note, "/boxes/1", "hold 8.19 TiB on attic");  // 9e12 ÷ 2^40 = 8.185
    expect_unsaid(all, " TB");
}

TEST(Findings, ASendSentenceHasItsBytesHoursAndHoursOpen) {
    const auto all = answer().findings;
    expect_said(all, Level::fits, "/sends/0",
                "“nightly” carries 14 GB a run in 24 minutes (9 in 10 runs: up to 21 GB in 2.3 hours); 10 hours are "
                "open for it.");
    expect_said(all, Level::note, "/sends/0", "The line gives 94 Mbit/s of payload; the line's own rate binds, and "
                                              "without it the receive window over the round trip would stop at "
                                              "400 Mbit/s.");
    expect_said(all, Level::note, "/sends/0", "usually 13 hours old (19 in 20 times: under 26 hours; worst 3 days)");
    expect_said(all, Level::note, "/sends/0", "may be down for 13 days before clinic and attic share no snapshot");
    expect_said(all, Level::note, "/sends/0", "The first copy (9 TB) is complete after 4 days.");
    expect_said(all, Level::note, "/sends/0", "takes 4 days");  // 100 h
}

TEST(Findings, MissedWindowsAreCounted) {
    auto all = with([](Answer& a) { a.outlook.sends[0].chance_of_missing_window = 0.031; });
    expect_said(all, Level::tight, "/sends/0", "3 % of all runs miss their window.");
    all = with([](Answer& a) { a.outlook.sends[0].chance_of_missing_window = 0.52; });
    expect_said(all, Level::overruns, "/sends/0", "The window is missed by half of the runs.");
    all = with([](Answer& a) { a.outlook.sends[0].chance_of_missing_window = 1; });
    expect_said(all, Level::overruns, "/sends/0", "The window is missed by all runs.");
}

TEST(Findings, ASendThatFallsBehindOrNeverGetsItsFirstCopyOverruns) {
    auto all = with([](Answer& a) {
        a.outlook.sends[0].falls_behind = true;
        a.outlook.sends[0].days_until_behind = 181;
    });
    expect_said(all, Level::overruns, "/sends/0", "falls behind for good from about May 2027");
    expect_said(all, Level::overruns, "/sends/0", "more than tunnel carries at 94 Mbit/s");
    all = with([](Answer& a) { a.outlook.sends[0].first_copy_days = {}; });
    expect_said(all, Level::overruns, "/sends/0", "The first copy of “nightly” (9 TB) is not over the line within 5 years");
    expect_unsaid(all, "The line gives");
}

TEST(Findings, ALastSentSnapshotIsSaidToBeHeldOnlyWhenItIs) {
    auto all = with([](Answer& a) {
        a.outlook.sends[0].longest_outage_days.reset();
        a.site.sends[0].hold_last_sent = true;
    });
    expect_said(all, Level::note, "/sends/0", "is held back at clinic");
    all = with([](Answer& a) { a.outlook.sends[0].longest_outage_days.reset(); });  // no run to tell it by
    expect_unsaid(all, "held back");
    all = with([](Answer& a) { a.outlook.sends[0].longest_outage_days = 1.9; });
    expect_said(all, Level::tight, "/sends/0", "down for 1 day before");
}

TEST(Findings, OneIsSingularAndMoreArePlural) {
    auto all = with([](Answer& a) {
        a.outlook.horizon_days = days_per_year;
        a.outlook.sends[0].first_copy_days = {1, 1, 1};
        a.outlook.sends[0].hours_per_run.p50 = 1.0 / 60;
    });
    expect_said(all, Level::note, "/boxes/1", "After 1 year, ");
    expect_said(all, Level::note, "/sends/0", "complete after 1 day.");
    expect_said(all, Level::fits, "/sends/0", "in 1 minute (");
    all = with([](Answer& a) { a.outlook.horizon_days = 400; });
    expect_said(all, Level::note, "/boxes/1", "After 400 days, ");
}

TEST(Findings, AssumptionsTheReachOfAListingAndWhatIsNotForecastAreSaid) {
    auto all = answer().findings;
    expect_said(all, Level::note, "/datasets/0", "imaging: No spread of the turnover is given");
    expect_unsaid(all, "extrapolation");
    all = with([](Answer& a) { a.outlook.datasets[0].measured = true; });
    expect_said(all, Level::note, "/datasets/0", "gaps of up to 30 days; what happens over longer times is an extrapolation");
    all = with([](Answer& a) { a.outlook.boxes.clear(); });
    expect_said(all, Level::note, "", "No box has a pool or a usable size");
    all = with([](Answer& a) { a.site.sends[0].ladder = KeepAll(); });
    expect_said(all, Level::tight, "/sends/0", "keeps every snapshot");
}

TEST(Findings, TheGravestComeFirst) {
    const auto all = with([](Answer& a) {
        a.outlook.sends[0].falls_behind = true;
        a.site.sends[0].ladder = KeepAll();
    });
    const auto rank = [](Level l) { return l == Level::overruns ? 0 : l == Level::tight ? 1 : l == Level::fits ? 2 : 3; };
    for (std::size_t i = 1; i < all.size(); ++i) EXPECT_LE(rank(all[i - 1].level), rank(all[i].level)) << listed(all);
    EXPECT_EQ(all.front().level, Level::overruns);
    EXPECT_EQ(all.back().level, Level::note);
}

TEST(Answer, IsTheOutlookAndItsFindings) {
    Site s;
    s.name = "Small";
    s.as_of = as_of;
    Dataset d;
    d.name = "d";
    d.home = "home";
    d.live = Entered<Bytes>(Bytes{1e12});
    Box home;
    home.name = "home";
    home.usable = Entered<Bytes>(Bytes{2e12});
    s.datasets = {d};
    s.boxes = {home};
    Settings settings;
    settings.paths = 10;
    const auto a = ullage::answer(s, {}, settings);
    ASSERT_TRUE(a);
    EXPECT_EQ(a->site, s);
    EXPECT_EQ(a->outlook, *compute(s, {}, settings));
    EXPECT_EQ(a->findings, findings(s, a->outlook));
    settings.paths = 0;
    EXPECT_FALSE(ullage::answer(s, {}, settings));
}

TEST(Findings, WhatMattersMostIsTheFirstDriverOfTheBox) {
    const auto said = [](std::optional<double> low, std::optional<double> high) {
        return with([&](Answer& a) {
            a.outlook.drivers = {{"attic", "growth of “scans”", "/datasets/0", low, high, 0.62},
                                 {"attic", "turnover of “scans”", "/datasets/0", 1400, 1250, 0.2}};
        });
    };
    // As say_days has 1700, 1000 and 500 days.
    const std::string start = "What matters most for “attic” is the growth of “scans”: ";
    const auto both = said(1700, 500);
    expect_said(both, Level::note, "/boxes/1",
                start + "at its low (1 in 10 is lower) the ceiling comes in about 4.7 years, at its high (1 in 10 is "
                        "higher) in about 16 months.");
    expect_unsaid(both, "turnover of “scans”");
    expect_said(said({}, 1000), Level::note, "/boxes/1",
                "the ceiling does not come within 5 years, at its high (1 in 10 is higher) it comes in about 2.7 years.");
    expect_said(said(1000, {}), Level::note, "/boxes/1",
                "comes in about 2.7 years, at its high (1 in 10 is higher) it does not come within 5 years.");
    expect_said(said(1000, 1001), Level::note, "/boxes/1", "(1 in 10 is higher) in much the same time.");
    expect_said(said({}, {}), Level::note, "/boxes/1",
                start + "62 % of the spread between the futures goes with it, but neither its low nor its high alone "
                        "brings the ceiling within 5 years.");
    expect_unsaid(with([](Answer&) {}), "What matters most");
}

}  // namespace
}  // namespace ullage
