// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/report/inputs.h"

#include "core/report/sentences.h"
#include "core/site/site_json.h"

#include <map>
#include <nlohmann/json.hpp>

namespace ullage {

namespace {

using Json = nlohmann::ordered_json;

/// A key as a client's engineer reads it. A key that is not here is read with its underscores as spaces.
std::string words_of(const std::string& key) {
    static const std::map<std::string, std::string> known = {
        {"as_of", "as of"}, {"ip", "IP version"}, {"outer_ip", "outer IP version"}, {"mtu", "largest packet (MTU), bytes"},
        {"esp", "ESP cipher"}, {"days_away", "days on the road"}, {"disk_rate", "rate of the disks"},
        {"week_shape", "weight of each weekday, Monday first"}, {"for", "kept for"}, {"count", "kept"},
        {"widen_to", "groups widened to, drives"}, {"usage", "file of its past size"}, {"listing", "list of snapshots"},
        {"listing_dataset", "dataset in that list"}, {"prepared_for", "prepared for"}, {"prepared_by", "prepared by"},
    };
    if (const auto at = known.find(key); at != known.end()) return at->second;
    std::string words = key;
    for (char& c : words)
        if (c == '_') c = ' ';
    return words;
}

bool users_own(const std::string& key) { return key.rfind("x-", 0) == 0; }

std::string value_text(const Json& value);

/// Never with an exponent: "0.00001".
std::string plain_number(double value) {
    std::string text = fmt::format("{}", value);
    if (text.find('e') == std::string::npos) return text;
    text = fmt::format("{:.12f}", value);
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
    return text;
}

std::string pairs(const Json& object) {
    std::string text;
    for (const auto& [key, value] : object.items())
        if (!users_own(key)) text += (text.empty() ? "" : ", ") + words_of(key) + " " + value_text(value);
    return text;
}

std::string value_text(const Json& value) {
    if (value.is_string()) return value.get<std::string>();
    if (value.is_boolean()) return value.get<bool>() ? "yes" : "no";
    if (value.is_object()) return pairs(value);
    if (value.is_number_float()) return plain_number(value.get<double>());
    if (!value.is_array()) return value.dump();
    std::string text;
    const bool of_objects = !value.empty() && value.front().is_object();
    for (const auto& each : value) text += (text.empty() ? "" : of_objects ? "; " : ", ") + value_text(each);
    return text.empty() ? "none" : text;
}

void add_rows(ReportTable& table, const std::string& before, const Json& object) {
    for (const auto& [key, value] : object.items()) {
        if (users_own(key)) continue;
        const std::string name = before.empty() ? words_of(key) : before + ", " + words_of(key);
        if (value.is_object()) add_rows(table, name, value);
        else table.rows.push_back({name, value_text(value)});
    }
}

ReportTable empty_table(std::string caption) {
    ReportTable table;
    table.caption = std::move(caption);
    table.header = {std::string(sentences::input), std::string(sentences::value)};
    return table;
}

}  // namespace

std::vector<ReportTable> input_tables(const Site& site) {
    const Json file = Json::parse(write_site(site));
    static const std::map<std::string, std::string> kinds = {
        {"datasets", "Dataset"}, {"boxes", "Box"}, {"links", "Line"}, {"sends", "Send"}, {"offers", "Offer"}};
    std::vector<ReportTable> tables = {empty_table(std::string(sentences::input_site))};
    for (const auto& [key, value] : file.items()) {
        if (users_own(key) || key == "format" || key == "version") continue;
        const auto kind = kinds.find(key);
        if (kind == kinds.end()) {
            if (value.is_object()) add_rows(tables.front(), words_of(key), value);
            else tables.front().rows.push_back({words_of(key), value_text(value)});
            continue;
        }
        for (const auto& item : value) {
            ReportTable table = empty_table(filled(sentences::input_of, kind->second, value_text(item["name"])));
            Json rest = item;
            rest.erase("name");
            add_rows(table, "", rest);
            if (!table.rows.empty()) tables.push_back(std::move(table));
        }
    }
    return tables;
}

}  // namespace ullage
