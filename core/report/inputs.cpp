// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/report/inputs.h"

#include "core/report/input_words.h"
#include "core/site/site_json.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace ullage {

namespace {

using namespace report;
using Json = nlohmann::ordered_json;

bool users_own(const std::string& key) { return key.rfind("x-", 0) == 0; }

std::string value_text(const Json& value, const Wording& w);

/// Never with an exponent: "0.00001".
std::string plain_number(double value) {
    std::string text = fmt::format("{}", value);
    if (text.find('e') == std::string::npos) return text;
    text = fmt::format("{:.12f}", value);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string pairs(const Json& object, const Wording& w) {
    std::string text;
    for (const auto& [key, value] : object.items())
        if (!users_own(key)) text += (text.empty() ? "" : ", ") + input_words(key, w) + " " + value_text(value, w);
    return text;
}

std::string value_text(const Json& value, const Wording& w) {
    if (value.is_string()) return value.get<std::string>();
    if (value.is_boolean()) return value.get<bool>() ? w.say("yes") : w.say("no");
    if (value.is_object()) return pairs(value, w);
    if (value.is_number_float()) return plain_number(value.get<double>());
    if (!value.is_array()) return value.dump();
    std::string text;
    const bool of_objects = !value.empty() && value.front().is_object();
    for (const auto& each : value) text += (text.empty() ? "" : of_objects ? "; " : ", ") + value_text(each, w);
    return text.empty() ? w.say_as("a list", "none") : text;
}

void add_rows(ReportTable& table, const std::string& before, const Json& object, const Wording& w) {
    for (const auto& [key, value] : object.items()) {
        if (users_own(key)) continue;
        const std::string words = input_words(key, w);
        const std::string name = before.empty() ? words : before + ", " + words;
        if (value.is_object()) add_rows(table, name, value, w);
        else table.rows.push_back({name, value_text(value, w)});
    }
}

/// What an item of that list is, with its name.
std::string caption_of(const std::string& list, const std::string& name, const Wording& w) {
    if (list == "datasets") return w.say("Dataset “{0}”", name);
    if (list == "boxes") return w.say("Box “{0}”", name);
    if (list == "links") return w.say("Line “{0}”", name);
    if (list == "sends") return w.say("Send “{0}”", name);
    if (list == "offers") return w.say("Offer “{0}”", name);
    return {};
}

}  // namespace

std::vector<ReportTable> input_tables(const Site& site, const Wording& w) {
    const Json file = Json::parse(write_site(site));
    const std::vector<std::string> header = {w.say("Input"), w.say("Value")};
    std::vector<ReportTable> tables = {{w.say("Site"), header}};
    for (const auto& [key, value] : file.items()) {
        if (users_own(key) || key == "format" || key == "version") continue;
        if (caption_of(key, "", w).empty()) {
            if (value.is_object()) add_rows(tables.front(), input_words(key, w), value, w);
            else tables.front().rows.push_back({input_words(key, w), value_text(value, w)});
            continue;
        }
        for (const auto& item : value) {
            ReportTable table{caption_of(key, value_text(item["name"], w), w), header};
            Json rest = item;
            rest.erase("name");
            add_rows(table, "", rest, w);
            if (!table.rows.empty()) tables.push_back(std::move(table));
        }
    }
    return tables;
}

}  // namespace ullage
