// SPDX-License-Identifier: GPL-3.0-or-later
// What is said about a send, and the answers to the backward questions, from values set by hand.
#include "findings_testing.h"

#include "core/findings/questions.h"
#include "core/findings/send_findings.h"

#include <algorithm>
#include <nlohmann/json.hpp>

namespace ullage {
namespace {

using namespace testing;

Answer wired() {
    auto a = answer();
    Link link;
    link.name = "tunnel";
    a.site.links = {link};
    a.outlook.sends[0].line_bits_per_second = 100e6;
    return a;
}

std::vector<Finding> said(const Answer& a) {
    return send_findings(a.site, a.outlook, a.outlook.sends[0], Prefixes::decimal);
}

/// The level of the finding that holds the words; fails if none does.
Level level_of(const std::vector<Finding>& all, const std::string& words) {
    for (const auto& f : all)
        if (f.text.find(words) != std::string::npos) return f.level;
    ADD_FAILURE() << "nobody says: " << words;
    return Level::fits;
}
bool says(const std::vector<Finding>& all, const std::string& words) {
    return std::any_of(all.begin(), all.end(),
                       [&](const Finding& f) { return f.text.find(words) != std::string::npos; });
}

TEST(SendFindings, PlainTransportIsFastAndReadableUnlessTheDataAreSealedOrTheLineIsWrapped) {
    auto a = wired();
    EXPECT_EQ(level_of(said(a), "travels in plain over tunnel"), Level::tight);
    EXPECT_TRUE(says(said(a), "not sealed: whoever has the box can read them"));
    for (const auto w : {Wrapper::vlan, Wrapper::pppoe}) {
        a.site.links[0].wrappers = {w};
        EXPECT_TRUE(says(said(a), "travels in plain")) << "a frame's tag hides nothing";
    }
    for (const auto w :
         {Wrapper::wireguard, Wrapper::esp, Wrapper::esp_udp, Wrapper::ssh, Wrapper::tls}) {
        a.site.links[0].wrappers = {w};
        EXPECT_FALSE(says(said(a), "travels in plain"));
    }
    a.site.links[0].wrappers.clear();
    a.site.sends[0].payload = Send::Payload::sealed;
    const auto sealed = said(a);
    EXPECT_FALSE(says(sealed, "travels in plain"));
    EXPECT_TRUE(says(sealed, "plain transport costs nothing"));
    EXPECT_TRUE(says(sealed,
                     "needs no key, but a restore does: keep the key somewhere that survives the "
                     "loss of clinic"));
    EXPECT_TRUE(says(sealed, "cannot be compressed again on attic"));
}

TEST(SendFindings, ReceivingPracticeIsSaidOnceIfThereAreSends) {
    auto a = wired();
    const auto count = [&] {
        const auto all = findings(a.site, a.outlook);
        return std::count_if(all.begin(), all.end(),
                             [](const Finding& f) { return f.text == receiving_practice(); });
    };
    EXPECT_EQ(count(), 1);
    a.outlook.sends.push_back(a.outlook.sends[0]);
    EXPECT_EQ(count(), 1);
    a.outlook.sends.clear();
    EXPECT_EQ(count(), 0);
}

TEST(SendFindings, WhatWouldHaveToChangeIsARateThatIsSold) {
    auto a = wired();
    a.outlook.sends[0].chance_of_missing_window = 0.4;
    a.outlook.sends[0].line_rate_needed = 141e6;
    EXPECT_TRUE(says(said(a),
                     "a line of 141 Mbit/s in its direction instead of 100 Mbit/s; 150 Mbit/s is a "
                     "rate that is sold"));
    a.outlook.sends[0].line_rate_needed = 1e15;
    EXPECT_FALSE(says(said(a), "is sold"));
}

TEST(SendFindings, ARewriteThatDoesNotFitItsNightSaysHowManyTurnsItTakes) {
    auto a = wired();
    EventRun e;
    e.on = *parse_date("2028-01-10");
    e.dataset = "imaging";
    e.text = "rewrites 3 TB: re-encoded";
    e.bytes = {3e12, 3.1e12, 3.2e12};
    e.hours = {190, 200, 210};
    e.nights = {8, 9, 9};
    e.chance_of_fitting = 0;
    a.outlook.sends[0].events = {e};
    EXPECT_EQ(level_of(said(a),
                       "On 2028-01-10 “imaging” rewrites 3 TB: re-encoded. “nightly” then carries "
                       "3 TB in 8 days, "
                       "which takes 8 runs' turns."),
              Level::tight);
    a.outlook.sends[0].events[0].chance_of_fitting = 1;
    EXPECT_EQ(level_of(said(a), "within its window"), Level::note);
    a.outlook.sends[0].events[0].bytes = {14e9, 15e9, 16e9};  // a move: like any night
    EXPECT_FALSE(says(said(a), "2028-01-10"));
}

TEST(SendFindings, ABacklogThatPassesTheLadderIsSaidWithItsDay) {
    auto a = wired();
    a.outlook.sends[0].falls_behind = true;
    a.outlook.sends[0].days_until_behind = 100;
    a.outlook.sends[0].days_until_ladder_lost = 130;
    EXPECT_EQ(level_of(said(a), "Around 2027-03-11 the backlog passes the ladder"),
              Level::overruns);
    a.outlook.sends[0].days_until_ladder_lost.reset();
    EXPECT_FALSE(says(said(a), "passes the ladder"));
}

TEST(SendFindings, FirstCopyAndRestoreCompareTheirTwoWays) {
    auto a = wired();
    FirstCopyWays w;
    w.bytes = 9e12;
    w.link_days = 20;
    w.link_in_step_days = 21.5;
    w.courier_copy_days = 0.7;
    w.courier_away_days = 2;
    w.courier_days = 3.1;
    w.break_even_bytes = 1.5e12;
    w.carry = true;
    a.outlook.sends[0].first_copy = w;
    EXPECT_TRUE(
        says(said(a),
             "the first copy takes 22 days over the line. Carried by hand it takes 4 days (copying 17 "
             "hours, 48 hours on the road, the rest catching up). So carry it by hand. From 1.5 TB on, "
             "carrying is sooner."));
    a.outlook.sends[0].first_copy->link_base_expires = true;
    a.outlook.sends[0].first_copy->link_in_step_days.reset();
    EXPECT_TRUE(says(
        said(a),
        "does not get there over the line (clinic would let go of the snapshot it starts from)"));
    EXPECT_EQ(level_of(said(a), "lets go of the snapshot that the first copy starts from"),
              Level::overruns);
    a.site.sends[0].first_copy.by = FirstCopy::By::courier;  // the line's fault is not this way's
    EXPECT_FALSE(says(said(a), "lets go of the snapshot"));
    RestoreWays r;
    r.fetch_hours = 71;
    r.road_binds = true;
    a.outlook.sends[0].restore = {r};
    EXPECT_TRUE(says(said(a),
                     "takes 4 days (a year from now; the line's own rate binds). Fetching the box "
                     "takes 71 hours "
                     "(the road binds)."));
}

TEST(SendFindings, AStartInClosedHoursAndTimesBehindAreSaid) {
    auto a = wired();
    a.outlook.sends[0].starts_closed = true;
    EXPECT_EQ(level_of(said(a), "always starts while tunnel is closed"), Level::tight);
    a.outlook.sends[0].backlog.times_a_year = 2.2;
    a.outlook.sends[0].backlog.max_bytes = 40e9;
    a.outlook.sends[0].backlog.hours_to_drain = {14, 20, 22};
    a.outlook.sends[0].backlog.max_hours_to_drain = 90;
    EXPECT_TRUE(says(
        said(a),
        "gets behind 2 times a year: up to 40 GB are then left when its window closes, and it has "
        "caught up after 14 hours (at worst 4 days)."));
}

TEST(Questions, AnswersAreSaidInTextAndInJson) {
    SolveAnswer s;
    s.site = "Quayside";
    s.as_of = as_of;
    s.link_rates = {{"tunnel", {"nightly"}, 40e6, false, 58.2e6, 75e6, Limit::rate},
                    {"fibre", {"other"}, 40e6, false, {}, {}, Limit::cipher}};
    const auto text = solve_text(s);
    EXPECT_NE(
        text.find(
            "tunnel: “nightly” needs 58.2 Mbit/s (75 Mbit/s is sold), not today's 40 Mbit/s."),
        std::string::npos)
        << text;
    EXPECT_NE(text.find("fibre: no line rate carries “other”; the speed of the cipher binds."),
              std::string::npos);
    const auto json = nlohmann::json::parse(solve_json(s));
    EXPECT_EQ(json.at("answers").at(0).at("needed_bits_per_s"), 58.2e6);
    EXPECT_TRUE(json.at("answers").at(1).at("needed_bits_per_s").is_null());
    EXPECT_EQ(json.at("answers").at(1).at("bound_by"), "cipher");

    SolveAnswer l;
    l.what = SolveFor::ladder;
    l.ladders = {{"attic", 14, 40.0, false, true, {{"imaging", "1 d × 40"}}},
                 {"shed", 14, {}, false, false, {}}};
    const auto ladders = solve_text(l);
    EXPECT_NE(
        ladders.find(
            "attic: snapshots can be kept for 40 days (14 days today).\n    imaging: 1 d × 40"),
        std::string::npos)
        << ladders;
    EXPECT_NE(ladders.find("shed: no ladder fits"), std::string::npos);
    EXPECT_NE(ladders.find("ask for link-rate first"), std::string::npos);
}

TEST(Questions, TheDrillSaysWhetherTheBaseSurvivesAndWhatWouldRaiseIt) {
    OutageDrill d;
    d.send = "nightly";
    d.link = "tunnel";
    d.from = as_of;
    d.days = 20;
    d.backlog_bytes = {50e9, 60e9, 70e9};
    d.catch_up_days = {1.5, 2, 2.5};
    d.chance_of_catching_up = 1;
    d.chance_base_survives = 1;
    d.longest_outage_days = 29.4;
    d.remedies = {
        {OutageRemedy::Kind::hold_last_sent, "holding the last sent snapshot back at clinic", {}}};
    EXPECT_NE(drill_text(d).find("one increment catches up"), std::string::npos);
    EXPECT_NE(drill_text(d).find("longest outage survived is 29 days"), std::string::npos);
    EXPECT_NE(drill_text(d).find("With holding the last sent snapshot back at clinic: any length."),
              std::string::npos);
    EXPECT_TRUE(nlohmann::json::parse(drill_json(d)).at("full_resend").is_null());
    d.resends_whole = true;
    d.chance_base_survives = 0;
    d.resend_bytes = {9e12, 9e12, 9e12};
    d.resend_days = {9, 9, 9};
    d.room_needed_bytes = 10e12;
    d.room_free_bytes = 8e12;
    d.resent_datasets = {"imaging"};
    EXPECT_NE(
        drill_text(d).find("of “imaging” is gone in all futures: it is sent again whole, 9 TB "
                           "in 9 days."),
        std::string::npos);
    EXPECT_EQ(nlohmann::json::parse(drill_json(d)).at("full_resend").at("datasets"),
              nlohmann::json({"imaging"}));
    d.resent_datasets.push_back("mail");
    EXPECT_NE(drill_text(d).find("of “imaging”, “mail” is gone in all futures: they are sent"),
              std::string::npos);
    EXPECT_NE(
        drill_text(d).find(
            "needs 10 TB for it beside the old copy; it has 8 TB free then, which is too little"),
        std::string::npos);
    EXPECT_EQ(nlohmann::json::parse(drill_json(d)).at("full_resend").at("room_free_bytes"), 8e12);
}

TEST(OutlookJson, HasTheAddedKeysOfASend) {
    auto a = wired();
    auto& s = a.outlook.sends[0];
    WeekdayRuns w;
    w.weekday = 4;
    w.runs = 260;
    s.weekdays = {w};
    s.copy_age = {{as_of, 12, 24, 30}};
    s.first_copy = FirstCopyWays();
    s.restore = {RestoreWays()};
    s.events = {EventRun()};
    const auto json = nlohmann::json::parse(outlook_json(a)).at("sends").at(0);
    for (const char* key : {"next_limit", "relays", "open_share_per_run", "weekdays", "copy_age",
                            "backlog", "days_until_behind", "days_until_ladder_lost",
                            "line_rate_needed_bits_per_s", "events", "first_copy", "restore"})
        EXPECT_TRUE(json.contains(key)) << key;
    EXPECT_EQ(json.at("weekdays").at(0).at("weekday"), "Fri");
    EXPECT_EQ(json.at("next_limit").at("bound_by"), "window");
    EXPECT_TRUE(json.at("restore").at(0).at("dataset").is_null());
    EXPECT_EQ(json.at("first_copy").at("recommended"), "link");
    EXPECT_EQ(json.at("copy_age").at(0).at("max_hours"), 30);
}

}  // namespace
}  // namespace ullage
