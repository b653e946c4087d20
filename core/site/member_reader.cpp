// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/member_reader.h"

#include "core/units/quoted_text.h"

#include <climits>
#include <cmath>
#include <set>

namespace ullage {

MemberReader::MemberReader(ReadReport& report, const JsonNode& node, std::string at, std::string_view expected)
    : report_(report), node_(node), at_(std::move(at)) {
    if (node.type != JsonNode::Type::object) {
        add(at_, fmt::format("found {}, expected {}", found(node), expected));
    }
}

void MemberReader::finish(Extras& extras) {
    std::set<std::string> misspelt;
    for (std::size_t i = 0; i < node_.keys.size(); ++i) {
        const std::string& key = node_.keys[i];
        if (std::find(known_.begin(), known_.end(), key) != known_.end()) continue;
        if (key.rfind("x-", 0) == 0) {
            extras[key] = one_line(node_.items[i]);
            continue;
        }
        // Beyond this many the file is something else, and hints would only cost time.
        constexpr int most_hints = 1000;
        const std::string near = ++report_.hints <= most_hints ? nearest_word(key, known_) : "";
        if (near.empty()) {
            add(at(key), fmt::format("unknown key {}; known here are {} (a key of your own "
                                     "starts with x-)",
                                     in_quotes(key), fmt::join(known_, ", ")));
        } else {
            add(at(key),
                fmt::format("unknown key {}; did you mean \"{}\"?", in_quotes(key), near));
            report_.unread.insert(at(near));
            misspelt.insert(near);
        }
    }
    for (const auto& [key, expected] : missing_) {
        if (misspelt.count(key) == 0)
            add(at(key), fmt::format("missing; expected {}", expected));
    }
}

void read_text(MemberReader& fields, std::string_view key, std::string& out,
               Presence presence) {
    constexpr std::string_view expected = "a text";
    const JsonNode* node =
        presence == Presence::required ? fields.need(key, expected) : fields.get(key);
    if (node == nullptr) return;
    if (node->type != JsonNode::Type::text) {
        fields.wrong_type(key, *node, expected);
    } else {
        out = node->text;
    }
}

void read_flag(MemberReader& fields, std::string_view key, bool& out) {
    const JsonNode* node = fields.get(key);
    if (node == nullptr) return;
    if (node->type != JsonNode::Type::boolean) {
        fields.wrong_type(key, *node, "true or false");
    } else {
        out = node->flag;
    }
}

/// A number, or where `share` a text with %.
std::optional<double> number_of(ReadReport& report, const std::string& at, const JsonNode& node,
                                bool share) {
    if (node.type == JsonNode::Type::number) return node.number;
    if (share && node.type == JsonNode::Type::text) {
        const auto value = parse_fraction(node.text);
        if (value) return *value;
        report.add(at, value.error());
        return std::nullopt;
    }
    report.add(at,
               fmt::format("found {}, expected {}", found(node),
                           share ? "a share, as a number or with %" : "a number without quotes"));
    return std::nullopt;
}

/// True if the key was there and could be read.
bool read_number(MemberReader& fields, std::string_view key, double& out, bool share,
                 Presence presence) {
    const JsonNode* node = presence == Presence::required
                           ? fields.need(key, share ? "a share" : "a number")
                           : fields.get(key);
    if (node == nullptr) return false;
    const auto value = number_of(fields.report(), fields.at(key), *node, share);
    if (value) out = *value;
    return value.has_value();
}

void read_number(MemberReader& fields, std::string_view key, std::optional<double>& out, bool share) {
    double value = 0;
    if (read_number(fields, key, value, share)) out = value;
}

bool read_whole(MemberReader& fields, std::string_view key, int& out,
                Presence presence) {
    constexpr std::string_view expected = "a whole number";
    const JsonNode* node =
        presence == Presence::required ? fields.need(key, expected) : fields.get(key);
    if (node == nullptr) return false;
    const double value = node->number;
    if (node->type != JsonNode::Type::number || value != std::floor(value) ||
        std::fabs(value) > INT_MAX) {
        fields.wrong_type(key, *node, expected);
        return false;
    }
    out = static_cast<int>(value);
    return true;
}

void read_date(MemberReader& fields, std::string_view key, Day& out,
               Presence presence) {
    constexpr std::string_view expected = "a date such as \"2026-11-01\"";
    const JsonNode* node =
        presence == Presence::required ? fields.need(key, expected) : fields.get(key);
    if (node == nullptr) return;
    if (node->type != JsonNode::Type::text) {
        fields.wrong_type(key, *node, expected);
        return;
    }
    const auto day = parse_date(node->text);
    if (day) {
        out = *day;
    } else {
        fields.add(fields.at(key), day.error());
    }
}

void read_time(MemberReader& fields, std::string_view key, int& out) {
    const JsonNode* node = fields.get(key);
    if (node == nullptr) return;
    if (node->type != JsonNode::Type::text) {
        fields.wrong_type(key, *node, "a time of day such as \"20:00\"");
        return;
    }
    const auto time = parse_time_of_day(node->text);
    if (time) {
        out = *time;
    } else {
        fields.add(fields.at(key), time.error());
    }
}

/// A length of time whose key says "days": a plain number, quoted or not, counts days.
bool read_days(MemberReader& fields, std::string_view key, Entered<Duration>& out) {
    constexpr std::string_view expected = "a number of days, or a length of time such as \"2 w\"";
    const JsonNode* node = fields.get(key);
    if (node == nullptr) return false;
    if (node->type == JsonNode::Type::number) {
        out = Entered<Duration>(days(node->number));
        return true;
    }
    if (node->type != JsonNode::Type::text) {
        fields.wrong_type(key, *node, expected);
        return false;
    }
    if (node->text.find('%') == std::string::npos) {
        if (const auto plain = parse_fraction(node->text)) {
            out = Entered<Duration>(days(*plain));
            return true;
        }
    }
    const auto value = parse_duration(node->text);
    if (!value) {
        fields.add(fields.at(key), value.error());
        return false;
    }
    out = Entered<Duration>(*value, node->text);
    return true;
}

}  // namespace ullage
