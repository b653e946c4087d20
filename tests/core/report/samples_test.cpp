// SPDX-License-Identifier: GPL-3.0-or-later
/// Whole sites through the model into the report: every input stands in it, and its figures are the outlook's.
#include "report_testing.h"

#include "core/findings/words.h"
#include "core/measure/evidence.h"
#include "core/report/inputs.h"
#include "core/site/site_json.h"

#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

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

class Samples : public ::testing::TestWithParam<const char*> {};

TEST_P(Samples, TheReportHasEveryFindingAndTheFiguresOfTheJson) {
    const Answer a = answer_of(std::string(ULLAGE_SOURCE_DIR) + "/sample-sites/" + GetParam() + ".site.json");
    const std::string text = text_of_report(report_of(a));
    const auto json = nlohmann::json::parse(outlook_json(a));
    const auto has = [&](const std::string& part) { EXPECT_NE(text.find(part), std::string::npos) << part; };
    const auto size = [&](const nlohmann::json& bytes) { has(format_bytes({bytes.get<double>()})); };
    const auto days = [&](const nlohmann::json& n) {
        if (!n.is_null()) has(plural(std::lround(n.get<double>()), "day", "days"));
    };
    ASSERT_FALSE(json["findings"].empty());
    for (const auto& f : json["findings"]) has("* " + f["text"].get<std::string>() + "\n");
    for (const auto& b : json["boxes"]) {
        for (const char* key : {"usable_bytes", "ceiling_bytes"}) size(b[key]);
        for (const char* key : {"days_until_ceiling", "days_until_full"})
            for (const char* q : {"p10", "p50", "p90"}) days(b[key][q]);
        if (!b["order_by"].is_null()) has(b["order_by"].get<std::string>());
        for (const char* q : {"p10", "p50", "p90"}) size(b["fill"].back()["used_bytes"][q]);
        size(b["fill"].back()["live_bytes"]);
    }
    for (const auto& s : json["sends"]) {
        has(format_bit_rate({s["goodput_bits_per_s"].get<double>()}));
        for (const char* q : {"p50", "p90", "p95"}) {
            size(s["bytes_per_run"][q]);
            has(say_hours(s["hours_per_run"][q].get<double>()));
        }
        for (const char* q : {"p50", "p95", "max"}) has(say_hours(s["recovery_point_hours"][q].get<double>()));
        for (const char* q : {"p50", "p90"}) has(say_hours(s["restore_hours"][q].get<double>()));
    }
    for (const auto& s : json["sends"]) {
        const auto rate = [&](const nlohmann::json& r) { has(format_bit_rate({r.get<double>()})); };
        for (const auto& step : s["limits"]) {
            rate(step["bits_per_second"]);
            rate(step["own_bits_per_second"]);
        }
        for (const char* q : {"p50", "p90", "p95"}) {
            for (const auto& w : s["weekdays"]) {
                size(w["bytes"][q]);
                has(say_hours(w["hours"][q].get<double>()));
            }
            for (const auto& e : s["events"]) {
                size(e["bytes"][q]);
                has(say_hours(e["hours"][q].get<double>()));
            }
            for (const auto& w : s["restore"]) {
                size(w["bytes"][q]);
                has(say_hours(w["link_hours"][q].get<double>()));
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
        has(o["running_from"].get<std::string>());
        for (const char* key : {"price", "energy_cost", "replacement_cost", "cost_total", "cost_per_usable_tib_year"})
            has(say_money(o[key].get<double>(), a.outlook.currency));
    }
}

INSTANTIATE_TEST_SUITE_P(All, Samples, ::testing::Values("harbour-clinic", "saltmarsh-seeds", "fellside-mapmakers",
                                                         "brackenfold-archive"));

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
