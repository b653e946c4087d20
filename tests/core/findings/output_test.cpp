// SPDX-License-Identifier: GPL-3.0-or-later
// The JSON's keys are the program's published contract: what scripts read must not go away.
#include "findings_testing.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <limits>
#include <sstream>

namespace ullage {
namespace {

using namespace testing;
using Json = nlohmann::json;

Json parsed(const Answer& a) { return Json::parse(outlook_json(a)); }

void expect_keys(const Json& object, const std::vector<std::string>& keys) {
    ASSERT_TRUE(object.is_object()) << object;
    for (const auto& k : keys) EXPECT_TRUE(object.contains(k)) << k << " in " << object;
}

TEST(OutlookJson, HasEveryKeyOfTheContract) {
    const Json j = parsed(answer());
    expect_keys(j, {"format", "version", "site", "as_of", "paths", "seed", "boxes", "sends", "datasets", "offers",
                    "drivers", "findings"});
    EXPECT_EQ(j["format"], "ullage-outlook");
    EXPECT_EQ(j["version"], 1);
    EXPECT_EQ(j["as_of"], "2026-11-01");

    const Json& b = j["boxes"].at(0);
    expect_keys(b, {"name", "raw_bytes", "usable_bytes", "ceiling_bytes", "days_until_ceiling", "days_until_full",
                    "chance_of_ceiling_within_horizon", "chance_of_full_within_horizon", "order_by", "fill"});
    expect_keys(b["days_until_ceiling"], {"p10", "p50", "p90"});
    expect_keys(b["days_until_full"], {"p10", "p50", "p90"});
    const Json& f = b["fill"].at(0);
    expect_keys(f, {"date", "used_bytes", "live_bytes", "held_bytes", "fill"});
    expect_keys(f["used_bytes"], {"p10", "p50", "p90"});
    expect_keys(f["held_bytes"], {"p10", "p50", "p90"});
    EXPECT_TRUE(f["live_bytes"].is_number());

    const Json& s = j["sends"].at(0);
    expect_keys(s, {"name", "goodput_bits_per_s", "bound_by", "bytes_per_run", "hours_per_run", "open_hours_per_run",
                    "chance_of_missing_window", "recovery_point_hours", "first_copy_days", "longest_outage_days",
                    "restore_hours"});
    expect_keys(s["bytes_per_run"], {"p50", "p90", "p95"});
    expect_keys(s["hours_per_run"], {"p50", "p90", "p95"});
    expect_keys(s["recovery_point_hours"], {"p50", "p95", "max"});
    expect_keys(s["first_copy_days"], {"p10", "p50", "p90"});
    expect_keys(s["restore_hours"], {"p50", "p90"});

    const Json& d = j["datasets"].at(0);
    expect_keys(d, {"name", "live_bytes", "growth_bytes_per_day", "written_bytes", "curve"});
    expect_keys(d["written_bytes"], {"1 h", "1 d", "7 d", "30 d"});
    expect_keys(d["curve"].at(0), {"lifetime_days", "bytes"});
    for (const auto& finding : j["findings"]) expect_keys(finding, {"level", "about", "text"});
    EXPECT_TRUE(j["drivers"].is_array());

    Answer a = answer();
    a.outlook.offers.resize(1);
    const Json o = parsed(a)["offers"].at(0);
    expect_keys(o, {"name", "usable_bytes", "chance_of_lasting", "days_until_ceiling", "cost_total",
                    "cost_per_usable_tib_year"});
    expect_keys(o["days_until_ceiling"], {"p10", "p50", "p90"});
}

TEST(OutlookJson, SaysTheNumbersOfTheOutlook) {
    const Json j = parsed(answer());
    EXPECT_EQ(j["boxes"][0]["usable_bytes"], 40'000'000'000'000);
    EXPECT_EQ(j["boxes"][0]["days_until_ceiling"]["p50"], 1300);
    EXPECT_EQ(j["boxes"][0]["order_by"], "2029-07-07");
    EXPECT_EQ(j["boxes"][0]["fill"].size(), 3u);
    EXPECT_EQ(j["boxes"][0]["fill"][2]["date"], "2031-11-01");
    EXPECT_EQ(j["boxes"][0]["fill"][2]["fill"], 0.9);
    EXPECT_EQ(j["sends"][0]["bound_by"], "rate");
    EXPECT_EQ(j["sends"][0]["recovery_point_hours"]["max"], 80);
    EXPECT_EQ(j["sends"][0]["recovery_point_hours"]["p95"], 26);
    EXPECT_EQ(j["datasets"][0]["written_bytes"]["7 d"], 61e9);
    EXPECT_EQ(j["findings"].size(), answer().findings.size());
}

TEST(OutlookJson, WhatNeverComesOrIsNotKnownIsNull) {
    Answer a = answer();
    a.outlook.boxes[0].days_until_full = {};
    a.outlook.boxes[0].order_by.reset();
    a.outlook.boxes[0].raw_bytes = 0;
    a.outlook.sends[0].longest_outage_days.reset();
    a.outlook.sends[0].first_copy_days = {};
    a.outlook.sends[0].open_hours_per_run = std::numeric_limits<double>::infinity();
    const Json j = parsed(a);
    EXPECT_TRUE(j["boxes"][0]["days_until_full"]["p10"].is_null());
    EXPECT_TRUE(j["boxes"][0]["days_until_full"]["p90"].is_null());
    EXPECT_TRUE(j["boxes"][0]["order_by"].is_null());
    EXPECT_TRUE(j["boxes"][0]["raw_bytes"].is_null());
    EXPECT_TRUE(j["sends"][0]["longest_outage_days"].is_null());
    EXPECT_TRUE(j["sends"][0]["first_copy_days"]["p50"].is_null());
    EXPECT_TRUE(j["sends"][0]["open_hours_per_run"].is_null());
}

TEST(OutlookJson, TheSameAnswerGivesTheSameBytesAndSeveralAnswersAnArray) {
    EXPECT_EQ(outlook_json(answer()), outlook_json(answer()));
    EXPECT_EQ(outlook_json(answer()).back(), '\n');
}

TEST(OutlookJson, ComputedOnOneThreadOrTwoIsTheSameByteForByte) {
    Site s;
    s.name = "Small";
    s.as_of = as_of;
    Dataset d;
    d.name = "d";
    d.home = "home";
    d.live = Entered<Bytes>(Bytes{1e12});
    d.growth = Growth();
    d.growth->per_year = Amount{3e11, Amount::Of::bytes};
    d.turnover = Turnover();
    d.turnover->per_day = Amount{6e9, Amount::Of::bytes};
    Rung r;
    r.count = 30;
    d.ladder = {r};
    Box home;
    home.name = "home";
    home.usable = Entered<Bytes>(Bytes{2e12});
    Box attic = home;
    attic.name = "attic";
    Link l;
    l.name = "line";
    l.up = l.down = Entered<BitsPerSecond>(BitsPerSecond{5e7});
    Send send;
    send.name = "nightly";
    send.datasets = {"d"};
    send.from = "home";
    send.to = "attic";
    send.over = "line";
    s.datasets = {d};
    s.boxes = {home, attic};
    s.links = {l};
    s.sends = {send};
    Settings settings;
    settings.paths = 300;
    settings.threads = 1;
    const auto one = ullage::answer(s, {}, settings);
    settings.threads = 2;
    const auto two = ullage::answer(s, {}, settings);
    ASSERT_TRUE(one && two);
    EXPECT_EQ(outlook_json(*one), outlook_json(*two));
    EXPECT_EQ(outlook_csv(*one), outlook_csv(*two));
    EXPECT_EQ(outlook_tables(*one), outlook_tables(*two));
}

TEST(OutlookJson, NamesWithQuotesControlsOrBrokenTextAreStillJson) {
    Answer a = answer();
    a.outlook.boxes[0].name = "at\"tic\n\x01";
    a.outlook.site = "broken \xFF text";
    const Json j = parsed(a);
    EXPECT_EQ(j["boxes"][0]["name"], "at\"tic\n\x01");
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) lines.push_back(line);
    return lines;
}

/// Two inputs of the attic, and one of a box that comes to its ceiling later.
Answer answer_with_drivers() {
    Answer a = answer();
    a.outlook.boxes.push_back(box());
    a.outlook.boxes[1].name = "barn";
    a.outlook.boxes[1].days_until_ceiling.p50 = 1500;
    a.outlook.drivers = {{"barn", "growth of “imaging”", "/datasets/0", {}, 900, 0.7},
                         {"attic", "growth of “imaging”", "/datasets/0", 1700, 1000.5, 0.625},
                         {"attic", "turnover of “imaging”", "/datasets/0", 1400, 1250, 0.25}};
    return a;
}

TEST(OutlookJson, DriversSayTheBoxTheInputAndTheDaysAtItsLowAndHigh) {
    const Json j = parsed(answer_with_drivers())["drivers"];
    ASSERT_EQ(j.size(), 3u);
    EXPECT_EQ(j[0], Json::parse(R"({"box": "barn", "input": "growth of “imaging”", "about": "/datasets/0",
                                    "effect_days": {"low": null, "high": 900}, "variance_share": 0.7})"));
    EXPECT_EQ(j[1]["effect_days"], Json::parse(R"({"low": 1700, "high": 1000.5})"));
}

TEST(OutlookTables, WhatMattersMostIsOfTheBoxThatFillsSoonestAndAtMostFiveRows) {
    Answer a = answer_with_drivers();
    for (int i = 0; i < 6; ++i)
        a.outlook.drivers.push_back({"attic", "turnover of “a" + std::to_string(i) + "”", "", 1310, {}, 0.01});
    const std::string text = outlook_tables(a);
    const auto from = text.find("What matters most for attic");
    ASSERT_NE(from, std::string::npos);
    EXPECT_EQ(text.find("What matters most for barn"), std::string::npos);
    const std::string block = text.substr(from, text.find("Findings", from) - from);
    EXPECT_NE(block.find("1700 d         1000 d            62 %"), std::string::npos) << block;
    EXPECT_NE(block.find("not in sight"), std::string::npos) << block;
    EXPECT_NE(block.find("“a2”"), std::string::npos) << block;
    EXPECT_EQ(block.find("“a3”"), std::string::npos) << block;
    EXPECT_EQ(outlook_tables(answer()).find("What matters"), std::string::npos);
}

TEST(OutlookTables, ASendWithoutARunHasNoOutageToTell) {
    Answer a = answer();
    auto& send = a.outlook.sends.at(0);
    send.longest_outage_days.reset();
    send.weekdays = {WeekdayRuns{0, 5, {}, {}, {}, 0}};
    EXPECT_NE(outlook_tables(a).find("no limit"), std::string::npos);
    send.weekdays.clear();
    EXPECT_EQ(outlook_tables(a).find("no limit"), std::string::npos);
    EXPECT_NE(outlook_tables(a).find("no run"), std::string::npos);
}

TEST(OutlookCsv, HasAHeaderAndARowForEachPointOfEachBox) {
    const auto lines = lines_of(outlook_csv(answer()) + outlook_csv(answer(), false));
    ASSERT_EQ(lines.size(), 1u + 2 * 3);
    EXPECT_EQ(lines[0], "site,box,date,used_p10_bytes,used_p50_bytes,used_p90_bytes,live_p50_bytes,held_p50_bytes,"
                        "usable_bytes,fill");
    EXPECT_EQ(lines[1], "Quayside,attic,2026-11-01,18000000000000,20000000000000,22000000000000,18000000000000,"
                        "2000000000000,40000000000000,0.500000");
    for (const auto& line : lines) EXPECT_EQ(std::count(line.begin(), line.end(), ','), 9) << line;
}

TEST(OutlookCsv, FieldsWithSeparatorsOrQuotesAreQuoted) {
    // RFC 4180, section 2, rules 6 and 7.
    Answer a = answer();
    a.outlook.site = "Quay, \"North\"";
    EXPECT_EQ(lines_of(outlook_csv(a))[1].rfind("\"Quay, \"\"North\"\"\",attic,", 0), 0u);
}

std::size_t columns(const std::string& line) {
    return std::size_t(std::count_if(line.begin(), line.end(),
                                     [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

TEST(OutlookTables, FindingsKeepToTheWidthAndBreakNoWord) {
    const auto a = answer();
    for (const int width : {60, 80, 120}) {
        const std::string text = outlook_tables(a, width);
        const auto lines = lines_of(text.substr(text.find("\nFindings\n") + 1));
        std::string joined;
        for (std::size_t i = 1; i + 2 < lines.size(); ++i) {
            EXPECT_LE(columns(lines[i]), std::size_t(width)) << lines[i];
            joined += " " + lines[i].substr(std::min<std::size_t>(12, lines[i].size()));
        }
        // Put together again, every sentence is there word for word.
        for (const auto& f : a.findings) EXPECT_NE(joined.find(" " + f.text), std::string::npos) << f.text << "\n" << joined;
    }
}

TEST(OutlookTables, ShowEveryItemWithItsNumbers) {
    const std::string text = outlook_tables(answer(), 100);
    for (const char* part : {"Quayside, as of 2026-11-01, 5.0 years ahead, 2000 paths, seed 1", "attic", "40 TB", "20 TB",
                             "36 TB", "1000 / 1300 / 1700 d", "1500 / later / later d", "2029-07-07", "nightly", "94 Mbit/s",
                             "imaging", "9.2 TB", "61 GB", "typed", "A forecast is not a backup"})
        EXPECT_NE(text.find(part), std::string::npos) << part << " in\n" << text;
}

TEST(OutlookTables, OfABoxThatNeverFillsSaySo) {
    Answer a = answer();
    a.outlook.boxes[0].days_until_ceiling = {};
    a.outlook.boxes[0].days_until_full = {};
    a.outlook.boxes[0].order_by.reset();
    const std::string text = outlook_tables(a, 80);
    EXPECT_NE(text.find("not in sight"), std::string::npos);
    EXPECT_NE(text.find("not needed"), std::string::npos);
}

TEST(OutlookTables, NothingToShowIsStillATable) {
    Answer a;
    a.outlook.site = "Empty";
    a.outlook.as_of = as_of;
    EXPECT_NE(outlook_tables(a).find("Empty, as of 2026-11-01"), std::string::npos);
}

}  // namespace
}  // namespace ullage
