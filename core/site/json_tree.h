// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A JSON text as a tree: members in the order of the file, numbers with their digits, so that what is not
/// understood is written back as it was.
/// Limits: a text of at most 64 MiB, a million values, nested at most 64 deep, numbers finite. A key given
/// twice is a problem with its pointer (RFC 6901).

#include "core/units/problem.h"

#include <algorithm>
#include <cstddef>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace ullage {

inline constexpr std::size_t most_json_bytes = std::size_t{64} << 20U;

struct JsonNode {
    enum class Type { null, boolean, number, text, list, object };
    Type type = Type::null;
    bool flag = false;
    double number = 0;
    std::string text;               ///< of a text, or the digits of a number
    std::vector<std::string> keys;  ///< of an object, beside items
    std::vector<JsonNode> items;

    static JsonNode of_text(std::string value) {
        JsonNode node;
        node.type = Type::text;
        node.text = std::move(value);
        return node;
    }
    static JsonNode of_number(double value);  ///< null where it is not finite
    static JsonNode of_flag(bool value) {
        JsonNode node;
        node.type = Type::boolean;
        node.flag = value;
        return node;
    }
    static JsonNode list() {
        JsonNode node;
        node.type = Type::list;
        return node;
    }
    static JsonNode object() {
        JsonNode node;
        node.type = Type::object;
        return node;
    }
    JsonNode& put(std::string key, JsonNode value) {
        keys.push_back(std::move(key));
        items.push_back(std::move(value));
        return *this;
    }
    const JsonNode* find(std::string_view key) const {
        const auto hit = std::find(keys.begin(), keys.end(), key);
        return hit == keys.end() ? nullptr : &items[static_cast<std::size_t>(hit - keys.begin())];
    }
};

struct JsonTree {
    JsonNode root;
    Problems problems;
    bool complete = false;  ///< the text was JSON within the limits
};

JsonTree read_tree(std::string_view text);

/// Two spaces a level; a list or object below the root's own lists stays on one line if it fits there in 100
/// columns.
std::string write_tree(const JsonNode&);
std::string one_line(const JsonNode&);

/// What a reader found, in words: "the number 5", "the text “x”", "a list".
std::string found(const JsonNode&);

/// The pointer of a member, or of an item, of what is at `at`.
std::string below(const std::string& at, std::string_view key);
std::string below(const std::string& at, std::size_t index);

}  // namespace ullage
