// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/json_tree.h"

#include "core/units/quoted_text.h"

#include <cmath>
#include <exception>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <unordered_set>

namespace ullage {
namespace {

constexpr std::size_t most_depth = 64;
constexpr std::size_t most_values = 1000000;

std::string escaped_key(std::string_view key) {
    // RFC 6901, section 3: "~" is written "~0" and "/" is written "~1"; section 5: as JSON text,
    // control characters are escaped.
    std::string out;
    for (const char c : without_controls(key)) {
        if (c == '~') {
            out += "~0";
        } else if (c == '/') {
            out += "~1";
        } else {
            out += c;
        }
    }
    return out;
}

/// "line 3, column 7" of a byte, the column counted in characters.
std::string line_and_column(std::string_view text, std::size_t byte) {
    std::size_t line = 1;
    std::size_t column = 1;
    for (const char c : text.substr(0, byte)) {
        if (c == '\n') {
            ++line;
            column = 1;
        } else if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) {
            ++column;
        }
    }
    return fmt::format("line {}, column {}", line, column);
}

/// Builds the tree from the reader's events. Stops at the first fault of syntax or at a limit;
/// doubled keys are collected.
class TreeBuilder : public nlohmann::json_sax<nlohmann::json> {
public:
    explicit TreeBuilder(std::string_view text) : text_(text) {}

    JsonNode root;
    Problems problems;

    bool null() override { return add({}) != nullptr; }
    bool boolean(bool value) override { return add(JsonNode::of_flag(value)) != nullptr; }
    bool number_integer(number_integer_t value) override { return add_whole(value); }
    bool number_unsigned(number_unsigned_t value) override { return add_whole(value); }
    bool number_float(number_float_t value, const string_t& digits) override {
        JsonNode node = JsonNode::of_number(value);
        node.text = digits;
        return add(std::move(node)) != nullptr;
    }
    bool string(string_t& value) override {
        return add(JsonNode::of_text(std::move(value))) != nullptr;
    }
    bool binary(binary_t& /*value*/) override { return false; }
    bool start_object(std::size_t /*size*/) override { return open(JsonNode::object()); }
    bool start_array(std::size_t /*size*/) override { return open(JsonNode::list()); }
    bool end_object() override { return close(); }
    bool end_array() override { return close(); }
    bool key(string_t& value) override {
        Open& object = open_.back();
        object.node->keys.push_back(value);
        if (!object.seen.insert(value).second) {
            problems.push_back(
                {pointer(), fmt::format("the key {} appears twice in one object; keep one of them",
                                        in_quotes(value))});
        }
        return true;
    }
    bool parse_error(std::size_t position, const std::string& /*last_token*/,
                     const nlohmann::json::exception& fault) override {
        constexpr int out_of_range = 406;
        const std::size_t byte = position == 0 ? 0 : std::min(position - 1, text_.size());
        problems.clear();
        problems.push_back({line_and_column(text_, byte),
                            fault.id == out_of_range
                                ? "a number is too large to be held (at most about 1e308)"
                                : "this is not JSON: " + without_controls(reason(fault.what()))});
        return false;
    }

private:
    struct Open {
        JsonNode* node;
        std::unordered_set<std::string> seen;
    };

    /// What the reader says, without its prefix and without the text it last read, which may be
    /// long or not be text.
    static std::string reason(std::string_view what) {
        const std::size_t start = what.find("syntax error ");
        std::string_view rest = start == std::string_view::npos ? what : what.substr(start + 13);
        constexpr std::string_view last_read = "; last read: '";
        const std::size_t cut = rest.find(last_read);
        std::string out(rest.substr(0, cut));
        if (cut != std::string_view::npos) {
            const std::size_t expected = rest.rfind("'; expected ");
            if (expected != std::string_view::npos && expected > cut) {
                out += rest.substr(expected + 1);
            }
        }
        return out;
    }

    std::string pointer() const {
        std::string at;
        for (const Open& open : open_) {
            if (open.node->type == JsonNode::Type::object) {
                if (!open.node->keys.empty()) at = below(at, open.node->keys.back());
            } else {
                at = below(at, open.node->items.size() - 1);
            }
        }
        return at;
    }

    bool limit(std::string what) {
        problems.clear();
        problems.push_back({"", std::move(what)});
        return false;
    }

    JsonNode* add(JsonNode node) {
        if (++values_ > most_values) {
            limit(fmt::format("more than {} values; a site file has far fewer", most_values));
            return nullptr;
        }
        if (open_.empty()) {
            root = std::move(node);
            return &root;
        }
        std::vector<JsonNode>& items = open_.back().node->items;
        items.push_back(std::move(node));
        return &items.back();
    }

    template <class Int>
    bool add_whole(Int value) {
        JsonNode node = JsonNode::of_number(static_cast<double>(value));
        node.text = fmt::format("{}", value);
        return add(std::move(node)) != nullptr;
    }

    bool open(JsonNode node) {
        if (open_.size() >= most_depth) {
            return limit(fmt::format("nested more than {} deep; a site file needs 6", most_depth));
        }
        JsonNode* added = add(std::move(node));
        if (added == nullptr) return false;
        open_.push_back({added, {}});
        return true;
    }

    bool close() {
        open_.pop_back();
        return true;
    }

    std::string_view text_;
    std::vector<Open> open_;
    std::size_t values_ = 0;
};

std::string json_text(const std::string& text) {
    return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

void write_node(std::string& out, const JsonNode& node, std::size_t depth, std::size_t column) {
    constexpr std::size_t widest = 100;
    const bool container = node.type == JsonNode::Type::list || node.type == JsonNode::Type::object;
    if (!container || node.items.empty()) {
        out += one_line(node);
        return;
    }
    if (depth >= 2) {
        const std::string line = one_line(node);
        if (column + line.size() < widest) {
            out += line;
            return;
        }
    }
    const bool object = node.type == JsonNode::Type::object;
    const std::string indent(2 * (depth + 1), ' ');
    out += object ? "{\n" : "[\n";
    for (std::size_t i = 0; i < node.items.size(); ++i) {
        std::string start = indent;
        if (object) start += json_text(node.keys[i]) + ": ";
        out += start;
        write_node(out, node.items[i], depth + 1, start.size());
        out += i + 1 < node.items.size() ? ",\n" : "\n";
    }
    out += std::string(2 * depth, ' ') + (object ? "}" : "]");
}

}  // namespace

JsonNode JsonNode::of_number(double value) {
    JsonNode node;
    node.type = std::isfinite(value) ? Type::number : Type::null;
    node.number = value;
    node.text = fmt::format("{}", value);
    // "1e-5" as people write it, not "1e-05".
    const std::size_t exponent = node.text.find('e');
    if (exponent != std::string::npos && node.text.size() == exponent + 4 &&
        node.text[exponent + 2] == '0') {
        node.text.erase(exponent + 2, 1);
    }
    return node;
}

std::string below(const std::string& at, std::string_view key) {
    return at + "/" + escaped_key(key);
}
std::string below(const std::string& at, std::size_t index) {
    return fmt::format("{}/{}", at, index);
}

JsonTree read_tree(std::string_view text) {
    JsonTree tree;
    if (text.size() > most_json_bytes) {
        // What is read of a file ends soon after the limit, so its whole size is not told.
        tree.problems.push_back({"", fmt::format("too large; a site file has at most {} bytes ({} MiB)",
                                                 most_json_bytes, most_json_bytes >> 20U)});
        return tree;
    }
    try {
        TreeBuilder builder(text);
        tree.complete = nlohmann::json::sax_parse(text, &builder);
        tree.root = std::move(builder.root);
        tree.problems = std::move(builder.problems);
        if (!tree.complete && tree.problems.empty()) {
            tree.problems.push_back({"", "this is not JSON"});
        }
    } catch (const std::exception& fault) {
        tree.complete = false;
        tree.problems = {{"", fmt::format("could not be read: {}", fault.what())}};
    }
    return tree;
}

std::string one_line(const JsonNode& node) {
    switch (node.type) {
        case JsonNode::Type::null:
            return "null";
        case JsonNode::Type::boolean:
            return node.flag ? "true" : "false";
        case JsonNode::Type::number:
            return node.text;
        case JsonNode::Type::text:
            return json_text(node.text);
        case JsonNode::Type::list: {
            std::string out = "[";
            for (std::size_t i = 0; i < node.items.size(); ++i) {
                if (i > 0) out += ", ";
                out += one_line(node.items[i]);
            }
            return out + "]";
        }
        case JsonNode::Type::object: {
            std::string out = "{";
            for (std::size_t i = 0; i < node.items.size(); ++i) {
                out += i > 0 ? ", " : " ";
                out += json_text(node.keys[i]) + ": " + one_line(node.items[i]);
            }
            return out + (node.items.empty() ? "}" : " }");
        }
    }
    return {};
}

std::string write_tree(const JsonNode& node) {
    std::string out;
    write_node(out, node, 0, 0);
    return out;
}

std::string found(const JsonNode& node) {
    switch (node.type) {
        case JsonNode::Type::null:
            return "null";
        case JsonNode::Type::boolean:
            return node.flag ? "true" : "false";
        case JsonNode::Type::number:
            return "the number " + node.text;
        case JsonNode::Type::text:
            return "the text " + in_quotes(node.text);
        case JsonNode::Type::list:
            return "a list";
        case JsonNode::Type::object:
            return "an object";
    }
    return {};
}

}  // namespace ullage
