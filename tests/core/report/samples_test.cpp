// SPDX-License-Identifier: GPL-3.0-or-later
/// Whole sites through the model into the report: every input stands in it, and its figures are the outlook's.
#include "report_testing.h"

#include "core/findings/words.h"
#include "core/measure/evidence.h"
#include "core/report/inputs.h"
#include "core/site/site_json.h"

#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>
#include <tuple>

namespace ullage {
namespace {

using namespace testing;

Answer answer_of(const std::string& file) {
    const auto site = read_site_file(file);
    EXPECT_TRUE(site) << file;
    const auto evidence = load_evidence(*site, folder_of(file), {});
    EXPECT_TRUE(evidence) << file;
    Settings settings;
    settings.paths = 60;
    auto a = ullage::answer(*site, *evidence, settings);
    EXPECT_TRUE(a) << file;
    return *a;
}

class Samples : public ::testing::TestWithParam<std::tuple<const char*, Language>> {};

TEST_P(Samples, TheReportHasEveryFindingAndTheFiguresOfTheJson) {
    const auto [site, language] = GetParam();
    const Wording w(language);
    const Answer a =
        in_language(answer_of(std::string(ULLAGE_SOURCE_DIR) + "/sample-sites/" + site + ".site.json"), language);
    const std::string text = text_of_report(report_of(a));
    const auto json = nlohmann::json::parse(outlook_json(a));
    const auto has = [&](const std::string& part) { EXPECT_NE(text.find(part), std::string::npos) << part; };
    const auto size = [&](const nlohmann::json& bytes) { has(w.bytes(bytes.get<double>())); };
    const auto hours = [&](double n) {
        // Whole seconds are often half a minute, and nine digits then round the other way.
        const std::string up = w.hours(n * (1 + 1e-8));
        has(text.find(up) != std::string::npos ? up : w.hours(n));
    };
    const auto date = [&](const nlohmann::json& day) { return w.date(*parse_date(day.get<std::string>())); };
    const auto days = [&](const nlohmann::json& n) {
        if (!n.is_null()) has(w.say_n("{} day", "{} days", std::lround(n.get<double>()), std::lround(n.get<double>())));
    };
    ASSERT_FALSE(json["findings"].empty());
    for (const auto& f : json["findings"]) has("* " + f["text"].get<std::string>() + "\n");
    for (const auto& b : json["boxes"]) {
        for (const char* key : {"usable_bytes", "ceiling_bytes"}) size(b[key]);
        for (const char* key : {"days_until_ceiling", "days_until_full"})
            for (const char* q : {"p10", "p50", "p90"}) days(b[key][q]);
        if (!b["order_by"].is_null()) has(date(b["order_by"]));
        for (const char* q : {"p10", "p50", "p90"}) size(b["fill"].back()["used_bytes"][q]);
        size(b["fill"].back()["live_bytes"]);
    }
    for (const auto& s : json["sends"]) {
        has(w.bit_rate(s["goodput_bits_per_s"].get<double>()));
        for (const char* q : {"p50", "p90", "p95"}) {
            size(s["bytes_per_run"][q]);
            hours(s["hours_per_run"][q].get<double>());
        }
        for (const char* q : {"p50", "p95", "max"}) hours(s["recovery_point_hours"][q].get<double>());
        for (const char* q : {"p50", "p90"}) hours(s["restore_hours"][q].get<double>());
    }
    for (const auto& s : json["sends"]) {
        const auto rate = [&](const nlohmann::json& r) { has(w.bit_rate(r.get<double>())); };
        for (const auto& step : s["limits"]) {
            rate(step["bits_per_second"]);
            rate(step["own_bits_per_second"]);
        }
        for (const char* q : {"p50", "p90", "p95"}) {
            for (const auto& day : s["weekdays"]) {
                size(day["bytes"][q]);
                hours(day["hours"][q].get<double>());
            }
            for (const auto& e : s["events"]) {
                size(e["bytes"][q]);
                hours(e["hours"][q].get<double>());
            }
            for (const auto& way : s["restore"]) {
                size(way["bytes"][q]);
                hours(way["link_hours"][q].get<double>());
            }
        }
        if (!s["first_copy"].is_null()) size(s["first_copy"]["bytes"]);
    }
    for (const auto& d : json["datasets"]) {
        for (const auto& c : d["curve"])
            if (c["bytes"].get<double>() >= 1) size(c["bytes"]);
        size(d["live_bytes"]);
        size(d["growth_bytes_per_day"]);
        for (const auto& written : d["written_bytes"]) size(written);
    }
    for (const auto& o : json["offers"]) {
        size(o["usable_bytes"]);
        has(date(o["running_from"]));
        for (const char* key : {"price", "energy_cost", "replacement_cost", "cost_total", "cost_per_usable_tib_year"})
            has(w.money(o[key].get<double>(), a.outlook.currency));
    }
}

INSTANTIATE_TEST_SUITE_P(All, Samples,
                         ::testing::Combine(::testing::Values("harbour-clinic", "saltmarsh-seeds", "fellside-mapmakers",
                                                              "brackenfold-archive"),
                                            ::testing::Values(Language::english, Language::german)));

void every_value(const nlohmann::json& value, const std::string& text) {
    for (const auto& [key, each] : value.items()) {
        if (key.rfind("x-", 0) == 0) continue;
        if (each.is_structured()) {
            every_value(each, text);
        } else if (!each.is_boolean()) {
            const std::string said = key == "loss" ? "0.00001" : each.is_string() ? each.get<std::string>() : each.dump();
            EXPECT_NE(text.find(said), std::string::npos) << key << " " << said;
        }
    }
}

TEST(ReportInputs, EveryKeyHasGermanWords) {
    const auto site = read_site_file(std::string(ULLAGE_TEST_DATA) + "/site/every-key.site.json");
    ASSERT_TRUE(site);
    const auto english = input_tables(*site), german = input_tables(*site, Wording(Language::german));
    ASSERT_EQ(english.size(), german.size());
    // The same in both: names, and units of them.
    const std::set<std::string> alike = {"name", "set, name"};
    for (std::size_t t = 0; t < english.size(); ++t)
        for (std::size_t r = 0; r < english[t].rows.size(); ++r) {
            const std::string& key = english[t].rows[r][0];
            EXPECT_TRUE(key != german[t].rows[r][0] || alike.count(key) == 1) << key;
        }
}

TEST(ReportInputs, HoldEveryValueOfASiteThatUsesEveryKey) {
    const auto site = read_site_file(std::string(ULLAGE_TEST_DATA) + "/site/every-key.site.json");
    ASSERT_TRUE(site);
    std::string text;
    for (const auto& table : input_tables(*site)) text += TextOfPart{}(table);
    auto file = nlohmann::json::parse(write_site(*site));
    file.erase("format");
    file.erase("version");
    every_value(file, text);
    EXPECT_EQ(text.find('_'), std::string::npos) << "keys are said in words\n" << text;
    EXPECT_EQ(text.find("x-"), std::string::npos) << text;
}

}  // namespace
}  // namespace ullage
