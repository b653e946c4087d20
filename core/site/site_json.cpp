// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site_json.h"

#include "core/site/file_handle.h"
#include "core/site/partly_read.h"
#include "core/site/replace_file.h"
#include "core/units/quantity_text.h"
#include "core/units/quoted_text.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <climits>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <exception>
#include <iterator>
#include <nlohmann/json.hpp>
#include <set>
#include <unordered_set>
#include <utility>

namespace ullage {
namespace {

constexpr std::size_t most_bytes = std::size_t{64} << 20U;
constexpr std::size_t most_depth = 64;
constexpr std::size_t most_values = 1000000;
constexpr int known_version = 1;

// ---------------------------------------------------------------------------------------------
// Texts

std::string lower(std::string_view text) {
    std::string out(text);
    for (char& c : out) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    return out;
}

std::string_view trimmed(std::string_view text) {
    const std::size_t first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

template <class T>
struct Word {
    std::string_view text;
    T value;
};

template <class T, std::size_t N>
std::string all_words(const std::array<Word<T>, N>& words) {
    std::string out;
    for (const Word<T>& word : words) {
        if (!out.empty()) out += ", ";
        out += fmt::format("\"{}\"", word.text);
    }
    return out;
}

template <class T, std::size_t N>
tl::expected<T, std::string> parse_word(std::string_view text,
                                        const std::array<Word<T>, N>& words) {
    std::vector<std::string> known;
    for (const Word<T>& word : words) {
        if (word.text == text) return word.value;
        known.emplace_back(word.text);
    }
    const std::string near = nearest_word(text, known);
    return tl::make_unexpected(near.empty() ? fmt::format("{} is not known; known are {}",
                                                          in_quotes(text), all_words(words))
                                            : fmt::format("{} is not known; did you mean \"{}\"? "
                                                          "Known are {}",
                                                          in_quotes(text), near, all_words(words)));
}

template <class T, std::size_t N>
std::string word_of(T value, const std::array<Word<T>, N>& words) {
    for (const Word<T>& word : words) {
        if (word.value == value) return std::string(word.text);
    }
    return {};
}

constexpr std::array wrapper_words{Word<Wrapper>{"vlan", Wrapper::vlan},
                                   Word<Wrapper>{"pppoe", Wrapper::pppoe},
                                   Word<Wrapper>{"wireguard", Wrapper::wireguard},
                                   Word<Wrapper>{"esp", Wrapper::esp},
                                   Word<Wrapper>{"esp-udp", Wrapper::esp_udp},
                                   Word<Wrapper>{"ssh", Wrapper::ssh},
                                   Word<Wrapper>{"tls", Wrapper::tls}};
constexpr std::array kind_words{Word<Dataset::Kind>{"files", Dataset::Kind::files},
                                Word<Dataset::Kind>{"volume", Dataset::Kind::volume}};
constexpr std::array congestion_words{Word<Congestion>{"cubic", Congestion::cubic},
                                      Word<Congestion>{"reno", Congestion::reno}};
constexpr std::array esp_words{Word<EspCipher>{"aes-gcm-16", EspCipher::aes_gcm_16},
                               Word<EspCipher>{"chacha20-poly1305", EspCipher::chacha20_poly1305},
                               Word<EspCipher>{"aes-cbc-sha1", EspCipher::aes_cbc_sha1},
                               Word<EspCipher>{"aes-cbc-sha256", EspCipher::aes_cbc_sha256},
                               Word<EspCipher>{"aes-cbc-sha512", EspCipher::aes_cbc_sha512}};
constexpr std::array sharing_words{Word<Sharing>{"evenly", Sharing::evenly},
                                   Word<Sharing>{"in turn", Sharing::in_turn}};
constexpr std::array steps_words{Word<Send::Steps>{"newest", Send::Steps::newest},
                                 Word<Send::Steps>{"every", Send::Steps::every}};
constexpr std::array payload_words{Word<Send::Payload>{"stored", Send::Payload::stored},
                                   Word<Send::Payload>{"expanded", Send::Payload::expanded},
                                   Word<Send::Payload>{"sealed", Send::Payload::sealed}};
constexpr std::array first_copy_words{Word<FirstCopy::By>{"link", FirstCopy::By::link},
                                      Word<FirstCopy::By>{"courier", FirstCopy::By::courier},
                                      Word<FirstCopy::By>{"present", FirstCopy::By::present}};
constexpr std::array offer_words{Word<Offer::As>{"drives", Offer::As::drives},
                                 Word<Offer::As>{"added", Offer::As::added},
                                 Word<Offer::As>{"box", Offer::As::box}};
constexpr std::array change_words{
    Word<BoxChange::Kind>{"add_groups", BoxChange::Kind::add_groups},
    Word<BoxChange::Kind>{"swap_drives", BoxChange::Kind::swap_drives},
    Word<BoxChange::Kind>{"widen_to", BoxChange::Kind::widen},
    Word<BoxChange::Kind>{"usable", BoxChange::Kind::resize}};
constexpr std::array event_words{Word<Event::Kind>{"add", Event::Kind::add},
                                 Word<Event::Kind>{"remove", Event::Kind::remove},
                                 Word<Event::Kind>{"rewrite", Event::Kind::rewrite},
                                 Word<Event::Kind>{"move", Event::Kind::move}};

/// The words of the format come first; the rest is understood too.
constexpr std::array period_words{Word<Period::Unit>{"min", Period::Unit::minute},
                                  Word<Period::Unit>{"h", Period::Unit::hour},
                                  Word<Period::Unit>{"d", Period::Unit::day},
                                  Word<Period::Unit>{"w", Period::Unit::week},
                                  Word<Period::Unit>{"mo", Period::Unit::month},
                                  Word<Period::Unit>{"y", Period::Unit::year},
                                  Word<Period::Unit>{"minute", Period::Unit::minute},
                                  Word<Period::Unit>{"minutes", Period::Unit::minute},
                                  Word<Period::Unit>{"hour", Period::Unit::hour},
                                  Word<Period::Unit>{"hours", Period::Unit::hour},
                                  Word<Period::Unit>{"day", Period::Unit::day},
                                  Word<Period::Unit>{"days", Period::Unit::day},
                                  Word<Period::Unit>{"week", Period::Unit::week},
                                  Word<Period::Unit>{"weeks", Period::Unit::week},
                                  Word<Period::Unit>{"month", Period::Unit::month},
                                  Word<Period::Unit>{"months", Period::Unit::month},
                                  Word<Period::Unit>{"year", Period::Unit::year},
                                  Word<Period::Unit>{"years", Period::Unit::year}};

constexpr std::array<std::string_view, 7> day_names{"Mon", "Tue", "Wed", "Thu",
                                                    "Fri", "Sat", "Sun"};
constexpr std::array<std::string_view, 7> long_day_names{
    "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"};

std::optional<std::size_t> day_number(std::string_view text) {
    const std::string name = lower(trimmed(text));
    for (std::size_t i = 0; i < 7; ++i) {
        if (name == long_day_names[i] || name == lower(day_names[i])) return i;
    }
    return std::nullopt;
}

/// A number of seconds as the largest of days, hours, minutes that it is a whole number of.
tl::expected<Period, std::string> period_of_seconds(double value) {
    struct Step {
        double length;
        Period::Unit unit;
    };
    for (const Step& step :
         {Step{seconds_per_day, Period::Unit::day}, Step{seconds_per_hour, Period::Unit::hour},
          Step{seconds_per_minute, Period::Unit::minute}}) {
        const double n = value / step.length;
        if (n >= 1 && n <= INT_MAX && n == std::floor(n)) {
            return Period{static_cast<int>(n), step.unit};
        }
    }
    return tl::make_unexpected(
        fmt::format("{} seconds is not a period: write a whole number of minutes, hours, days, "
                    "weeks, months or years, for example \"15 min\" or \"1 d\"",
                    value));
}

// ---------------------------------------------------------------------------------------------
// The JSON tree: members in the order of the file, numbers with their digits

struct Node {
    enum class Type { null, boolean, number, text, list, object };
    Type type = Type::null;
    bool flag = false;
    double number = 0;
    std::string text;               ///< of a text, or the digits of a number
    std::vector<std::string> keys;  ///< of an object, beside items
    std::vector<Node> items;

    static Node of_text(std::string value) {
        Node node;
        node.type = Type::text;
        node.text = std::move(value);
        return node;
    }
    static Node of_number(double value) {
        Node node;
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
    static Node of_flag(bool value) {
        Node node;
        node.type = Type::boolean;
        node.flag = value;
        return node;
    }
    static Node list() {
        Node node;
        node.type = Type::list;
        return node;
    }
    static Node object() {
        Node node;
        node.type = Type::object;
        return node;
    }
    Node& put(std::string key, Node value) {
        keys.push_back(std::move(key));
        items.push_back(std::move(value));
        return *this;
    }
    const Node* find(std::string_view key) const {
        const auto hit = std::find(keys.begin(), keys.end(), key);
        return hit == keys.end() ? nullptr : &items[static_cast<std::size_t>(hit - keys.begin())];
    }
};

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

std::string below(const std::string& at, std::string_view key) {
    return at + "/" + escaped_key(key);
}
std::string below(const std::string& at, std::size_t index) {
    return fmt::format("{}/{}", at, index);
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

    Node root;
    Problems problems;

    bool null() override { return add({}) != nullptr; }
    bool boolean(bool value) override { return add(Node::of_flag(value)) != nullptr; }
    bool number_integer(number_integer_t value) override { return add_whole(value); }
    bool number_unsigned(number_unsigned_t value) override { return add_whole(value); }
    bool number_float(number_float_t value, const string_t& digits) override {
        Node node = Node::of_number(value);
        node.text = digits;
        return add(std::move(node)) != nullptr;
    }
    bool string(string_t& value) override {
        return add(Node::of_text(std::move(value))) != nullptr;
    }
    bool binary(binary_t& /*value*/) override { return false; }
    bool start_object(std::size_t /*size*/) override { return open(Node::object()); }
    bool start_array(std::size_t /*size*/) override { return open(Node::list()); }
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
                                : "this is not JSON: " + reason(fault.what())});
        return false;
    }

private:
    struct Open {
        Node* node;
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
            if (open.node->type == Node::Type::object) {
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

    Node* add(Node node) {
        if (++values_ > most_values) {
            limit(fmt::format("more than {} values; a site file has far fewer", most_values));
            return nullptr;
        }
        if (open_.empty()) {
            root = std::move(node);
            return &root;
        }
        std::vector<Node>& items = open_.back().node->items;
        items.push_back(std::move(node));
        return &items.back();
    }

    template <class Int>
    bool add_whole(Int value) {
        Node node = Node::of_number(static_cast<double>(value));
        node.text = fmt::format("{}", value);
        return add(std::move(node)) != nullptr;
    }

    bool open(Node node) {
        if (open_.size() >= most_depth) {
            return limit(fmt::format("nested more than {} deep; a site file needs 6", most_depth));
        }
        Node* added = add(std::move(node));
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

struct Tree {
    Node root;
    Problems problems;
    bool complete = false;  ///< the text was JSON within the limits
};

Tree read_tree(std::string_view text) {
    Tree tree;
    if (text.size() > most_bytes) {
        tree.problems.push_back({"", fmt::format("{} bytes; a site file has at most {} ({} MiB)",
                                                 text.size(), most_bytes, most_bytes >> 20U)});
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

std::string json_text(const std::string& text) {
    return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

std::string one_line(const Node& node) {
    switch (node.type) {
        case Node::Type::null:
            return "null";
        case Node::Type::boolean:
            return node.flag ? "true" : "false";
        case Node::Type::number:
            return node.text;
        case Node::Type::text:
            return json_text(node.text);
        case Node::Type::list: {
            std::string out = "[";
            for (std::size_t i = 0; i < node.items.size(); ++i) {
                if (i > 0) out += ", ";
                out += one_line(node.items[i]);
            }
            return out + "]";
        }
        case Node::Type::object: {
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

/// Two spaces a level; a list or object below the site's own lists stays on one line if it fits
/// there in 100 columns.
void write_node(std::string& out, const Node& node, std::size_t depth, std::size_t column) {
    constexpr std::size_t widest = 100;
    const bool container = node.type == Node::Type::list || node.type == Node::Type::object;
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
    const bool object = node.type == Node::Type::object;
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

// ---------------------------------------------------------------------------------------------
// Reading

std::string found(const Node& node) {
    switch (node.type) {
        case Node::Type::null:
            return "null";
        case Node::Type::boolean:
            return node.flag ? "true" : "false";
        case Node::Type::number:
            return "the number " + node.text;
        case Node::Type::text:
            return "the text " + in_quotes(node.text);
        case Node::Type::list:
            return "a list";
        case Node::Type::object:
            return "an object";
    }
    return {};
}

/// What reading found wrong, and the members that are not to be judged further.
struct Report {
    Problems problems;
    Unread unread;
    int hints = 0;  ///< times the nearest key was looked for
    void add(std::string where, std::string what) {
        unread.insert(where);
        problems.push_back({std::move(where), std::move(what)});
    }
};

/// The members of one object. Every key asked for is a known one; `finish` judges the others, and
/// reports the needed ones that are missing.
class Fields {
public:
    Fields(Report& report, const Node& node, std::string at, std::string_view expected)
        : report_(report), node_(node), at_(std::move(at)) {
        if (node.type != Node::Type::object) {
            add(at_, fmt::format("found {}, expected {}", found(node), expected));
        }
    }

    const Node* get(std::string_view key) {
        if (std::find(known_.begin(), known_.end(), key) == known_.end()) known_.emplace_back(key);
        return node_.find(key);
    }
    const Node* need(std::string_view key, std::string_view expected) {
        const Node* node = get(key);
        if (node == nullptr && node_.type == Node::Type::object) {
            missing_.emplace_back(key, expected);
        }
        return node;
    }
    std::string at(std::string_view key) const { return below(at_, key); }
    void add(std::string where, std::string what) {
        report_.add(std::move(where), std::move(what));
    }
    void wrong_type(std::string_view key, const Node& node, std::string_view expected) {
        add(at(key), fmt::format("found {}, expected {}", found(node), expected));
    }
    Report& report() { return report_; }

    void finish(Extras& extras) {
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

private:
    Report& report_;
    const Node& node_;
    std::string at_;
    std::vector<std::string> known_;
    std::vector<std::pair<std::string, std::string>> missing_;
};

enum class Presence { optional, required };

void read_text(Fields& fields, std::string_view key, std::string& out,
               Presence presence = Presence::optional) {
    constexpr std::string_view expected = "a text";
    const Node* node =
        presence == Presence::required ? fields.need(key, expected) : fields.get(key);
    if (node == nullptr) return;
    if (node->type != Node::Type::text) {
        fields.wrong_type(key, *node, expected);
    } else {
        out = node->text;
    }
}

template <class T, std::size_t N>
void read_word(Fields& fields, std::string_view key, T& out, const std::array<Word<T>, N>& words) {
    const Node* node = fields.get(key);
    if (node == nullptr) return;
    if (node->type != Node::Type::text) {
        fields.wrong_type(key, *node, "one of " + all_words(words));
        return;
    }
    const auto value = parse_word(node->text, words);
    if (value) {
        out = *value;
    } else {
        fields.add(fields.at(key), value.error());
    }
}

void read_flag(Fields& fields, std::string_view key, bool& out) {
    const Node* node = fields.get(key);
    if (node == nullptr) return;
    if (node->type != Node::Type::boolean) {
        fields.wrong_type(key, *node, "true or false");
    } else {
        out = node->flag;
    }
}

/// A number, or where `share` a text with %.
std::optional<double> number_of(Report& report, const std::string& at, const Node& node,
                                bool share) {
    if (node.type == Node::Type::number) return node.number;
    if (share && node.type == Node::Type::text) {
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
bool read_number(Fields& fields, std::string_view key, double& out, bool share,
                 Presence presence = Presence::optional) {
    const Node* node = presence == Presence::required
                           ? fields.need(key, share ? "a share" : "a number")
                           : fields.get(key);
    if (node == nullptr) return false;
    const auto value = number_of(fields.report(), fields.at(key), *node, share);
    if (value) out = *value;
    return value.has_value();
}

void read_number(Fields& fields, std::string_view key, std::optional<double>& out, bool share) {
    double value = 0;
    if (read_number(fields, key, value, share)) out = value;
}

bool read_whole(Fields& fields, std::string_view key, int& out,
                Presence presence = Presence::optional) {
    constexpr std::string_view expected = "a whole number";
    const Node* node =
        presence == Presence::required ? fields.need(key, expected) : fields.get(key);
    if (node == nullptr) return false;
    const double value = node->number;
    if (node->type != Node::Type::number || value != std::floor(value) ||
        std::fabs(value) > INT_MAX) {
        fields.wrong_type(key, *node, expected);
        return false;
    }
    out = static_cast<int>(value);
    return true;
}

void read_date(Fields& fields, std::string_view key, Day& out,
               Presence presence = Presence::optional) {
    constexpr std::string_view expected = "a date such as \"2026-11-01\"";
    const Node* node =
        presence == Presence::required ? fields.need(key, expected) : fields.get(key);
    if (node == nullptr) return;
    if (node->type != Node::Type::text) {
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

void read_time(Fields& fields, std::string_view key, int& out) {
    const Node* node = fields.get(key);
    if (node == nullptr) return;
    if (node->type != Node::Type::text) {
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

template <class T>
struct Traits;
template <>
struct Traits<Bytes> {
    static constexpr std::string_view expected = "a size such as \"42 GB\", or a number of bytes";
    static auto parse(std::string_view text) { return parse_bytes(text); }
    static auto exact(Bytes value) { return exact_bytes(value); }
    static tl::expected<Bytes, std::string> of(double value) { return Bytes{value}; }
};
template <>
struct Traits<BitsPerSecond> {
    static constexpr std::string_view expected =
        "a line rate such as \"100 Mbit/s\", or a number of bit/s";
    static auto parse(std::string_view text) { return parse_bit_rate(text); }
    static auto exact(BitsPerSecond value) { return exact_bit_rate(value); }
    static tl::expected<BitsPerSecond, std::string> of(double value) {
        return BitsPerSecond{value};
    }
};
template <>
struct Traits<BytesPerSecond> {
    static constexpr std::string_view expected =
        "a rate such as \"180 MB/s\", or a number of bytes per second";
    static auto parse(std::string_view text) { return parse_byte_rate(text); }
    static auto exact(BytesPerSecond value) { return exact_byte_rate(value); }
    static tl::expected<BytesPerSecond, std::string> of(double value) {
        return BytesPerSecond{value};
    }
};
template <>
struct Traits<Duration> {
    static constexpr std::string_view expected =
        "a length of time such as \"21 d\", or a number of seconds";
    static auto parse(std::string_view text) { return parse_duration(text); }
    static auto exact(Duration value) { return exact_duration(value); }
    static tl::expected<Duration, std::string> of(double value) { return Duration{value}; }
};
template <>
struct Traits<Power> {
    static constexpr std::string_view expected = "a power such as \"48 W\", or a number of watts";
    static auto parse(std::string_view text) { return parse_power(text); }
    static auto exact(Power value) { return exact_power(value); }
    static tl::expected<Power, std::string> of(double value) { return Power{value}; }
};
template <>
struct Traits<Amount> {
    static constexpr std::string_view expected =
        "a size such as \"14 GB\", a share of the live bytes such as \"0.4 %\", or a number of "
        "bytes";
    static auto parse(std::string_view text) { return parse_amount(text); }
    static auto exact(const Amount& value) { return to_text(value); }
    static tl::expected<Amount, std::string> of(double value) {
        return Amount{value, Amount::Of::bytes};
    }
};
template <>
struct Traits<Period> {
    static constexpr std::string_view expected =
        "a period such as \"15 min\", \"1 d\", \"1 mo\", or a number of seconds";
    static auto parse(std::string_view text) { return parse_period(text); }
    static auto exact(const Period& value) { return to_text(value); }
    static tl::expected<Period, std::string> of(double value) { return period_of_seconds(value); }
};

template <>
struct Traits<Money> {
    static constexpr std::string_view expected =
        "a price such as 2150 or \"2150 EUR\", in the site's currency";
    static auto parse(std::string_view text) { return parse_money(text); }
    static auto exact(Money value) { return to_text(value); }
    static tl::expected<Money, std::string> of(double value) { return Money{value}; }
};

template <class T>
bool read_entered(Fields& fields, std::string_view key, Entered<T>& out,
                  Presence presence = Presence::optional) {
    const Node* node =
        presence == Presence::required ? fields.need(key, Traits<T>::expected) : fields.get(key);
    if (node == nullptr) return false;
    if (node->type != Node::Type::text && node->type != Node::Type::number) {
        fields.wrong_type(key, *node, Traits<T>::expected);
        return false;
    }
    const bool typed = node->type == Node::Type::text;
    const tl::expected<T, std::string> value =
        typed ? Traits<T>::parse(node->text) : Traits<T>::of(node->number);
    if (!value) {
        fields.add(fields.at(key), value.error());
        return false;
    }
    out = Entered<T>(*value, typed ? node->text : std::string());
    return true;
}

template <class T>
void read_entered(Fields& fields, std::string_view key, std::optional<Entered<T>>& out) {
    Entered<T> value;
    if (read_entered(fields, key, value)) out = std::move(value);
}

/// A length of time whose key says "days": a plain number, quoted or not, counts days.
bool read_days(Fields& fields, std::string_view key, Entered<Duration>& out) {
    constexpr std::string_view expected = "a number of days, or a length of time such as \"2 w\"";
    const Node* node = fields.get(key);
    if (node == nullptr) return false;
    if (node->type == Node::Type::number) {
        out = Entered<Duration>(days(node->number));
        return true;
    }
    if (node->type != Node::Type::text) {
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

template <class T, class ReadItem>
void read_list(Fields& fields, std::string_view key, std::vector<T>& out, ReadItem read_item,
               Presence presence = Presence::optional) {
    constexpr std::string_view expected = "a list, [ … ]";
    const Node* node =
        presence == Presence::required ? fields.need(key, expected) : fields.get(key);
    if (node == nullptr) return;
    if (node->type != Node::Type::list) {
        fields.wrong_type(key, *node, expected);
        return;
    }
    // An item that cannot be read still takes its place, so that later pointers stay right.
    out.resize(node->items.size());
    for (std::size_t i = 0; i < node->items.size(); ++i) {
        read_item(fields.report(), node->items[i], below(fields.at(key), i), out[i]);
    }
}

void read_text_item(Report& report, const Node& node, const std::string& at, std::string& out) {
    if (node.type == Node::Type::text) {
        out = node.text;
    } else {
        report.add(at, fmt::format("found {}, expected a text", found(node)));
    }
}

void read_wrapper(Report& report, const Node& node, const std::string& at, Wrapper& out) {
    if (node.type != Node::Type::text) {
        report.add(
            at, fmt::format("found {}, expected one of {}", found(node), all_words(wrapper_words)));
        return;
    }
    const auto wrapper = parse_wrapper(node.text);
    if (wrapper) {
        out = *wrapper;
    } else {
        report.add(at, wrapper.error());
    }
}

void read_rung(Report& report, const Node& node, const std::string& at, Rung& out) {
    Fields fields(report, node, at, "a rung such as { \"every\": \"1 d\", \"count\": 30 }");
    read_entered(fields, "every", out.every, Presence::required);
    int count = 0;
    if (read_whole(fields, "count", count)) out.count = count;
    read_entered(fields, "for", out.keep_for);
    fields.finish(out.extras);
}

void read_growth(Report& report, const Node& node, const std::string& at, Growth& out) {
    Fields fields(report, node, at, "an object such as { \"per_year\": \"1.6 TB\" }");
    read_entered(fields, "per_year", out.per_year, Presence::required);
    read_number(fields, "spread", out.spread, true);
    fields.finish(out.extras);
}

void read_turnover(Report& report, const Node& node, const std::string& at, Turnover& out) {
    Fields fields(report, node, at, "an object such as { \"per_day\": \"14 GB\" }");
    read_entered(fields, "per_day", out.per_day);
    read_entered(fields, "per_week", out.per_week);
    read_entered(fields, "per_month", out.per_month);
    read_number(fields, "spread", out.spread, true);
    read_text(fields, "listing", out.listing);
    read_text(fields, "listing_dataset", out.listing_dataset);
    fields.finish(out.extras);
}

/// What happens is told by which of the words is a key: exactly one is.
template <class T, std::size_t N, class ReadIt>
void read_kind(Fields& fields, const Node& node, const std::string& at, std::string_view noun,
               const std::array<Word<T>, N>& words, T& kind, ReadIt read_it) {
    std::vector<std::string> given;
    for (const Word<T>& word : words) {
        if (fields.get(word.text) == nullptr) continue;
        given.emplace_back(word.text);
        kind = word.value;
        read_it(word);
    }
    if (given.size() == 1 || node.type != Node::Type::object) return;
    fields.add(at, given.empty()
                       ? fmt::format("{} needs one of {}", noun, all_words(words))
                       : fmt::format("{} is one of {}, but this one has {}; make it {} of them",
                                     noun, all_words(words), fmt::join(given, " and "),
                                     given.size()));
}

void read_event(Report& report, const Node& node, const std::string& at, Event& out) {
    Fields fields(report, node, at,
                  "an event such as { \"on\": \"2027-03-01\", \"add\": \"2.5 TB\" }");
    read_date(fields, "on", out.on, Presence::required);
    read_kind(fields, node, at, "an event", event_words, out.kind,
              [&](const auto& word) { read_entered(fields, word.text, out.amount); });
    read_number(fields, "spread", out.spread, true);
    Entered<Duration> date_spread;
    if (read_days(fields, "days", date_spread)) out.date_spread = date_spread;
    read_text(fields, "note", out.note);
    fields.finish(out.extras);
}

void read_week_shape(Fields& fields, std::optional<std::array<double, 7>>& out) {
    constexpr std::string_view expected = "a list of 7 numbers, Monday first";
    const Node* node = fields.get("week_shape");
    if (node == nullptr) return;
    if (node->type != Node::Type::list) {
        fields.wrong_type("week_shape", *node, expected);
        return;
    }
    if (node->items.size() != 7) {
        fields.add(fields.at("week_shape"),
                   fmt::format("found {} items, expected {}", node->items.size(), expected));
        return;
    }
    std::array<double, 7> shape{};
    bool complete = true;
    for (std::size_t i = 0; i < 7; ++i) {
        const auto value =
            number_of(fields.report(), below(fields.at("week_shape"), i), node->items[i], true);
        complete = complete && value;
        shape[i] = value.value_or(0);
    }
    if (complete) out = shape;
}

void read_dataset(Report& report, const Node& node, const std::string& at, Dataset& out) {
    Fields fields(report, node, at, "a dataset, { … }");
    read_text(fields, "name", out.name, Presence::required);
    read_word(fields, "kind", out.kind, kind_words);
    read_entered(fields, "block_size", out.block_size);
    read_text(fields, "home", out.home);
    read_entered(fields, "live", out.live);
    read_entered(fields, "logical", out.logical);
    read_number(fields, "compression_ratio", out.compression_ratio, false);
    read_number(fields, "compression_spread", out.compression_spread, true);
    if (const Node* growth = fields.get("growth")) {
        read_growth(report, *growth, fields.at("growth"), out.growth.emplace());
    }
    if (const Node* turnover = fields.get("turnover")) {
        read_turnover(report, *turnover, fields.at("turnover"), out.turnover.emplace());
    }
    read_week_shape(fields, out.week_shape);
    read_list(fields, "ladder", out.ladder, read_rung);
    read_list(fields, "events", out.events, read_event);
    read_text(fields, "usage", out.usage);
    fields.finish(out.extras);
}

/// Groups, width, redundancy and drive, which a pool and its further groups have alike.
template <class Groups>
void read_shape(Fields& fields, Groups& out) {
    read_whole(fields, "groups", out.groups);
    const bool width = read_whole(fields, "width", out.width);
    constexpr std::string_view expected =
        "\"none\", \"mirror-2\" to \"mirror-4\" or \"parity-1\" to \"parity-3\"";
    if (const Node* redundancy = fields.need("redundancy", expected)) {
        if (redundancy->type != Node::Type::text) {
            fields.wrong_type("redundancy", *redundancy, expected);
        } else if (const auto value = parse_redundancy(redundancy->text)) {
            out.redundancy = *value;
        } else {
            fields.add(fields.at("redundancy"), value.error());
        }
    }
    if (!width && out.redundancy.kind == Redundancy::Kind::parity) {
        fields.need("width", "the number of drives in a group");
    } else if (!width) {
        out.width = out.redundancy.n;
    }
    read_entered(fields, "drive", out.drive, Presence::required);
}

void read_groups(Report& report, const Node& node, const std::string& at, DriveGroups& out) {
    Fields fields(report, node, at,
                  "groups such as { \"groups\": 1, \"width\": 6, \"redundancy\": \"parity-2\", "
                  "\"drive\": \"16 TB\" }");
    read_shape(fields, out);
    read_entered(fields, "sector", out.sector);
    fields.finish(out.extras);
}

void read_pool(Report& report, const Node& node, const std::string& at, Pool& out) {
    Fields fields(report, node, at,
                  "a pool such as { \"groups\": 1, \"width\": 6, \"redundancy\": \"parity-2\", "
                  "\"drive\": \"12 TB\" }");
    read_shape(fields, out);
    read_whole(fields, "spares", out.spares);
    read_entered(fields, "sector", out.sector);
    read_list(fields, "further", out.further, read_groups);
    fields.finish(out.extras);
}

void read_change(Report& report, const Node& node, const std::string& at, BoxChange& out) {
    Fields fields(report, node, at,
                  "a change such as { \"on\": \"2027-06-01\", \"swap_drives\": \"20 TB\" }");
    read_date(fields, "on", out.on, Presence::required);
    read_kind(fields, node, at, "a change", change_words, out.kind, [&](const auto& word) {
        switch (word.value) {
            case BoxChange::Kind::add_groups:
                read_groups(report, *fields.get(word.text), fields.at(word.text), out.added);
                break;
            case BoxChange::Kind::swap_drives:
                read_entered(fields, word.text, out.drive);
                break;
            case BoxChange::Kind::widen:
                read_whole(fields, word.text, out.width);
                break;
            case BoxChange::Kind::resize:
                read_entered(fields, word.text, out.usable);
                break;
        }
    });
    read_whole(fields, "set", out.set);
    read_text(fields, "note", out.note);
    fields.finish(out.extras);
}

void read_enclosure(Report& report, const Node& node, const std::string& at, Enclosure& out) {
    Fields fields(report, node, at, "an enclosure such as { \"bays\": 8 }");
    int bays = 0;
    if (read_whole(fields, "bays", bays)) out.bays = bays;
    read_entered(fields, "power", out.power);
    fields.finish(out.extras);
}

void read_box(Report& report, const Node& node, const std::string& at, Box& out) {
    Fields fields(report, node, at, "a box, { … }");
    read_text(fields, "name", out.name, Presence::required);
    if (fields.get("in_service") != nullptr)
        read_date(fields, "in_service", out.in_service.emplace());
    read_number(fields, "ceiling", out.ceiling, true);
    read_entered(fields, "lead_time", out.lead_time);
    if (const Node* pool = fields.get("pool")) {
        read_pool(report, *pool, fields.at("pool"), out.pool.emplace());
    }
    read_entered(fields, "usable", out.usable);
    read_entered(fields, "other_data", out.other_data);
    read_entered(fields, "disk_rate", out.disk_rate);
    if (const Node* enclosure = fields.get("enclosure")) {
        read_enclosure(report, *enclosure, fields.at("enclosure"), out.enclosure.emplace());
    }
    read_list(fields, "changes", out.changes, read_change);
    fields.finish(out.extras);
}

void read_hours(Report& report, const Node& node, const std::string& at, OpenHours& out) {
    Fields fields(
        report, node, at,
        "hours such as { \"days\": \"Mon-Fri\", \"from\": \"19:00\", \"to\": \"06:00\" }");
    if (const Node* typed = fields.get("days")) {
        if (typed->type != Node::Type::text) {
            fields.wrong_type("days", *typed, "days such as \"Mon-Fri\"");
        } else if (const auto value = parse_days(typed->text)) {
            out.days = *value;
            out.days_text = typed->text;
        } else {
            fields.add(fields.at("days"), value.error());
        }
    }
    read_time(fields, "from", out.from);
    read_time(fields, "to", out.to);
    read_number(fields, "share", out.share, true);
    fields.finish(out.extras);
}

void read_link(Report& report, const Node& node, const std::string& at, Link& out) {
    Fields fields(report, node, at, "a link, { … }");
    read_text(fields, "name", out.name, Presence::required);
    read_entered(fields, "up", out.up, Presence::required);
    out.down = out.up;
    read_entered(fields, "down", out.down);
    read_entered(fields, "round_trip", out.round_trip);
    read_number(fields, "loss", out.loss, true);
    read_whole(fields, "mtu", out.mtu);
    read_whole(fields, "ip", out.ip_version);
    int outer = 0;
    if (read_whole(fields, "outer_ip", outer)) out.outer_ip_version = outer;
    read_list(fields, "wrappers", out.wrappers, read_wrapper);
    read_word(fields, "esp", out.esp, esp_words);
    read_entered(fields, "receive_window", out.receive_window);
    read_word(fields, "congestion", out.congestion, congestion_words);
    read_whole(fields, "streams", out.streams);
    read_word(fields, "sharing", out.sharing, sharing_words);
    read_list(fields, "hours", out.hours, read_hours);
    fields.finish(out.extras);
}

void read_first_copy(Report& report, const Node& node, const std::string& at, FirstCopy& out) {
    Fields fields(report, node, at, "an object such as { \"by\": \"link\" }");
    read_word(fields, "by", out.by, first_copy_words);
    read_entered(fields, "copy_rate", out.copy_rate);
    Entered<Duration> away;
    if (read_days(fields, "days_away", away)) out.days_away = in_days(away.value);
    fields.finish(out.extras);
}

void read_box_ladder(Fields& fields, BoxLadder& out) {
    constexpr std::string_view expected = "\"as source\", \"keep all\" or a list of rungs";
    const Node* node = fields.get("ladder");
    if (node == nullptr) return;
    if (node->type == Node::Type::list) {
        Ladder ladder;
        read_list(fields, "ladder", ladder, read_rung);
        out = std::move(ladder);
    } else if (node->type == Node::Type::text && node->text == "as source") {
        out = AsSource{};
    } else if (node->type == Node::Type::text && node->text == "keep all") {
        out = KeepAll{};
    } else {
        fields.wrong_type("ladder", *node, expected);
    }
}

void read_send(Report& report, const Node& node, const std::string& at, Send& out) {
    Fields fields(report, node, at, "a send, { … }");
    read_text(fields, "name", out.name, Presence::required);
    read_list(fields, "datasets", out.datasets, read_text_item, Presence::required);
    read_text(fields, "from", out.from, Presence::required);
    read_text(fields, "to", out.to, Presence::required);
    read_text(fields, "over", out.over, Presence::required);
    if (const Node* start = fields.get("start")) {
        Fields inner(report, *start, fields.at("start"),
                     "an object such as { \"every\": \"1 d\", \"at\": \"20:00\" }");
        read_entered(inner, "every", out.every);
        read_time(inner, "at", out.at);
        read_flag(inner, "after_each_snapshot", out.after_each_snapshot);
        for (const std::string_view key : {"every", "at"}) {
            if (out.after_each_snapshot && inner.get(key) != nullptr) {
                inner.add(inner.at(key),
                          "a send that starts after each snapshot has no time of its "
                          "own; leave one of the two out");
            }
        }
        inner.finish(out.start_extras);
    }
    read_word(fields, "steps", out.steps, steps_words);
    read_word(fields, "payload", out.payload, payload_words);
    read_number(fields, "stream_ratio", out.stream_ratio, false);
    read_entered(fields, "cipher_rate", out.cipher_rate);
    read_box_ladder(fields, out.ladder);
    read_flag(fields, "hold_last_sent", out.hold_last_sent);
    if (const Node* first = fields.get("first_copy")) {
        read_first_copy(report, *first, fields.at("first_copy"), out.first_copy);
    }
    fields.finish(out.extras);
}

void read_offer(Report& report, const Node& node, const std::string& at, Offer& out) {
    Fields fields(report, node, at, "an offer, { … }");
    read_text(fields, "name", out.name, Presence::required);
    read_text(fields, "box", out.box, Presence::required);
    read_word(fields, "as", out.as, offer_words);
    read_entered(fields, "price", out.price, Presence::required);
    read_entered(fields, "power", out.power);
    read_entered(fields, "life", out.life);
    read_entered(fields, "lead_time", out.lead_time);
    read_entered(fields, "drive_rate", out.drive_rate);
    read_number(fields, "failure_rate", out.failure_rate, true);
    if (const Node* pool = fields.get("pool")) {
        read_pool(report, *pool, fields.at("pool"), out.pool.emplace());
    }
    read_entered(fields, "usable", out.usable);
    fields.finish(out.extras);
}

/// False: of another format or version, so that the rest would be misjudged.
bool read_header(Fields& fields) {
    bool ours = true;
    if (const Node* format = fields.need("format", "\"ullage-site\"")) {
        if (format->type != Node::Type::text || format->text != "ullage-site") {
            fields.wrong_type("format", *format, "\"ullage-site\"");
            ours = false;
        }
    }
    if (const Node* version = fields.need("version", fmt::format("{}", known_version))) {
        if (version->type != Node::Type::number) {
            fields.wrong_type("version", *version, fmt::format("the number {}", known_version));
        } else if (version->number != known_version) {
            fields.add(fields.at("version"), fmt::format("found version {}; this program reads "
                                                         "version {}",
                                                         version->text, known_version));
            ours = false;
        }
    }
    return ours;
}

// ---------------------------------------------------------------------------------------------
// Writing

template <class T>
std::string text_of(const Entered<T>& entered) {
    if (!entered.text.empty()) {
        const auto value = Traits<T>::parse(entered.text);
        if (value && *value == entered.value) return entered.text;
    }
    return Traits<T>::exact(entered.value);
}

template <class T>
bool same(const Entered<T>& a, const Entered<T>& standard) {
    return a.value == standard.value && (a.text.empty() || a.text == standard.text);
}

void put_text(Node& node, std::string_view key, const std::string& text) {
    if (!text.empty()) node.put(std::string(key), Node::of_text(text));
}

template <class T>
void put(Node& node, std::string_view key, const Entered<T>& entered) {
    node.put(std::string(key), Node::of_text(text_of(entered)));
}

/// A price that was typed as a number, or not typed, is a number.
void put(Node& node, std::string_view key, const Entered<Money>& entered) {
    node.put(std::string(key), entered.text.empty() ? Node::of_number(entered.value.value)
                                                    : Node::of_text(text_of(entered)));
}

template <class T>
void put(Node& node, std::string_view key, const std::optional<Entered<T>>& entered) {
    if (entered) put(node, key, *entered);
}

template <class T>
void put_unless(Node& node, std::string_view key, const Entered<T>& entered,
                const Entered<T>& standard) {
    if (!same(entered, standard)) put(node, key, entered);
}

void put(Node& node, std::string_view key, double value) {
    node.put(std::string(key), Node::of_number(value));
}

void put(Node& node, std::string_view key, const std::optional<double>& value) {
    if (value) put(node, key, *value);
}

void put_unless(Node& node, std::string_view key, double value, double standard) {
    if (value != standard) put(node, key, value);
}

template <class T, std::size_t N>
void put_word_unless(Node& node, std::string_view key, T value, T standard,
                     const std::array<Word<T>, N>& words) {
    if (value != standard) node.put(std::string(key), Node::of_text(word_of(value, words)));
}

void put_extras(Node& node, const Extras& extras) {
    for (const auto& [key, text] : extras) {
        Tree tree = read_tree(text);
        // A text that is not JSON can only have been put there in code; it is kept as a text.
        node.put(key, tree.complete ? std::move(tree.root) : Node::of_text(text));
    }
}

Node to_node(const Rung& rung) {
    Node node = Node::object();
    put(node, "every", rung.every);
    if (rung.count) put(node, "count", *rung.count);
    put(node, "for", rung.keep_for);
    put_extras(node, rung.extras);
    return node;
}

Node to_node(const Event& event) {
    Node node = Node::object();
    node.put("on", Node::of_text(format_date(event.on)));
    put(node, word_of(event.kind, event_words), event.amount);
    put_unless(node, "spread", event.spread, 0);
    put(node, "days", event.date_spread);
    put_text(node, "note", event.note);
    put_extras(node, event.extras);
    return node;
}

Node to_node(const Dataset& dataset);
Node to_node(const DriveGroups& groups);
Node to_node(const BoxChange& change);
Node to_node(const Box& box);
Node to_node(const OpenHours& hours);
Node to_node(Wrapper wrapper);
Node to_node(const std::string& text);
Node to_node(const Link& link);
Node to_node(const Send& send);
Node to_node(const Offer& offer);

template <class T>
Node list_of(const std::vector<T>& items) {
    Node node = Node::list();
    for (const T& item : items) node.items.push_back(to_node(item));
    return node;
}

template <class T>
void put_list(Node& node, std::string_view key, const std::vector<T>& items) {
    if (!items.empty()) node.put(std::string(key), list_of(items));
}

Node to_node(const Dataset& dataset) {
    const Dataset standard;
    Node node = Node::object();
    node.put("name", Node::of_text(dataset.name));
    put_word_unless(node, "kind", dataset.kind, standard.kind, kind_words);
    put_unless(node, "block_size", dataset.block_size, standard.block_size);
    put_text(node, "home", dataset.home);
    put(node, "live", dataset.live);
    put(node, "logical", dataset.logical);
    put(node, "compression_ratio", dataset.compression_ratio);
    put(node, "compression_spread", dataset.compression_spread);
    if (dataset.growth) {
        Node growth = Node::object();
        put(growth, "per_year", dataset.growth->per_year);
        put(growth, "spread", dataset.growth->spread);
        put_extras(growth, dataset.growth->extras);
        node.put("growth", std::move(growth));
    }
    if (dataset.turnover) {
        Node turnover = Node::object();
        put(turnover, "per_day", dataset.turnover->per_day);
        put(turnover, "per_week", dataset.turnover->per_week);
        put(turnover, "per_month", dataset.turnover->per_month);
        put(turnover, "spread", dataset.turnover->spread);
        put_text(turnover, "listing", dataset.turnover->listing);
        put_text(turnover, "listing_dataset", dataset.turnover->listing_dataset);
        put_extras(turnover, dataset.turnover->extras);
        node.put("turnover", std::move(turnover));
    }
    if (dataset.week_shape) {
        Node shape = Node::list();
        for (const double part : *dataset.week_shape) shape.items.push_back(Node::of_number(part));
        node.put("week_shape", std::move(shape));
    }
    put_list(node, "ladder", dataset.ladder);
    put_list(node, "events", dataset.events);
    put_text(node, "usage", dataset.usage);
    put_extras(node, dataset.extras);
    return node;
}

template <class Groups>
void put_shape(Node& node, const Groups& groups) {
    put(node, "groups", groups.groups);
    put(node, "width", groups.width);
    node.put("redundancy", Node::of_text(to_text(groups.redundancy)));
    put(node, "drive", groups.drive);
}

Node to_node(const DriveGroups& groups) {
    Node node = Node::object();
    put_shape(node, groups);
    put(node, "sector", groups.sector);
    put_extras(node, groups.extras);
    return node;
}

Node to_node(const Pool& pool) {
    const Pool standard;
    Node node = Node::object();
    put_shape(node, pool);
    put_unless(node, "spares", pool.spares, standard.spares);
    put_unless(node, "sector", pool.sector, standard.sector);
    put_list(node, "further", pool.further);
    put_extras(node, pool.extras);
    return node;
}

Node to_node(const BoxChange& change) {
    const BoxChange standard;
    Node node = Node::object();
    node.put("on", Node::of_text(format_date(change.on)));
    const std::string key = word_of(change.kind, change_words);
    switch (change.kind) {
        case BoxChange::Kind::add_groups:
            node.put(key, to_node(change.added));
            break;
        case BoxChange::Kind::swap_drives:
            put(node, key, change.drive);
            break;
        case BoxChange::Kind::widen:
            put(node, key, change.width);
            break;
        case BoxChange::Kind::resize:
            put(node, key, change.usable);
            break;
    }
    put_unless(node, "set", change.set, standard.set);
    put_text(node, "note", change.note);
    put_extras(node, change.extras);
    return node;
}

Node to_node(const Box& box) {
    const Box standard;
    Node node = Node::object();
    node.put("name", Node::of_text(box.name));
    if (box.in_service) node.put("in_service", Node::of_text(format_date(*box.in_service)));
    put_unless(node, "ceiling", box.ceiling, standard.ceiling);
    put(node, "lead_time", box.lead_time);
    if (box.pool) node.put("pool", to_node(*box.pool));
    put(node, "usable", box.usable);
    put_unless(node, "other_data", box.other_data, standard.other_data);
    put(node, "disk_rate", box.disk_rate);
    if (box.enclosure) {
        Node enclosure = Node::object();
        if (box.enclosure->bays) put(enclosure, "bays", *box.enclosure->bays);
        put(enclosure, "power", box.enclosure->power);
        put_extras(enclosure, box.enclosure->extras);
        node.put("enclosure", std::move(enclosure));
    }
    put_list(node, "changes", box.changes);
    put_extras(node, box.extras);
    return node;
}

Node to_node(const OpenHours& hours) {
    const OpenHours standard;
    Node node = Node::object();
    const auto typed = parse_days(hours.days_text);
    if (typed && *typed == hours.days) {
        node.put("days", Node::of_text(hours.days_text));
    } else if (hours.days != standard.days) {
        node.put("days", Node::of_text(days_text(hours.days)));
    }
    if (hours.from != standard.from) {
        node.put("from", Node::of_text(format_time_of_day(hours.from)));
    }
    if (hours.to != standard.to) node.put("to", Node::of_text(format_time_of_day(hours.to)));
    put_unless(node, "share", hours.share, standard.share);
    put_extras(node, hours.extras);
    return node;
}

Node to_node(Wrapper wrapper) { return Node::of_text(to_text(wrapper)); }
Node to_node(const std::string& text) { return Node::of_text(text); }

Node to_node(const Link& link) {
    const Link standard;
    Node node = Node::object();
    node.put("name", Node::of_text(link.name));
    put(node, "up", link.up);
    put_unless(node, "down", link.down, link.up);
    put_unless(node, "round_trip", link.round_trip, standard.round_trip);
    put_unless(node, "loss", link.loss, standard.loss);
    put_unless(node, "mtu", link.mtu, standard.mtu);
    put_unless(node, "ip", link.ip_version, standard.ip_version);
    if (link.outer_ip_version) put(node, "outer_ip", *link.outer_ip_version);
    put_list(node, "wrappers", link.wrappers);
    put_word_unless(node, "esp", link.esp, standard.esp, esp_words);
    put_unless(node, "receive_window", link.receive_window, standard.receive_window);
    put_word_unless(node, "congestion", link.congestion, standard.congestion, congestion_words);
    put_unless(node, "streams", link.streams, standard.streams);
    put_word_unless(node, "sharing", link.sharing, standard.sharing, sharing_words);
    put_list(node, "hours", link.hours);
    put_extras(node, link.extras);
    return node;
}

Node to_node(const Send& send) {
    const Send standard;
    Node node = Node::object();
    node.put("name", Node::of_text(send.name));
    node.put("datasets", list_of(send.datasets));
    node.put("from", Node::of_text(send.from));
    node.put("to", Node::of_text(send.to));
    node.put("over", Node::of_text(send.over));
    Node start = Node::object();
    if (send.after_each_snapshot) {
        start.put("after_each_snapshot", Node::of_flag(true));
    } else {
        put_unless(start, "every", send.every, standard.every);
        if (send.at != standard.at) start.put("at", Node::of_text(format_time_of_day(send.at)));
    }
    put_extras(start, send.start_extras);
    if (!start.items.empty()) node.put("start", std::move(start));
    put_word_unless(node, "steps", send.steps, standard.steps, steps_words);
    put_word_unless(node, "payload", send.payload, standard.payload, payload_words);
    put_unless(node, "stream_ratio", send.stream_ratio, standard.stream_ratio);
    put(node, "cipher_rate", send.cipher_rate);
    if (std::holds_alternative<KeepAll>(send.ladder)) {
        node.put("ladder", Node::of_text("keep all"));
    } else if (const auto* ladder = std::get_if<Ladder>(&send.ladder)) {
        node.put("ladder", list_of(*ladder));
    }
    if (send.hold_last_sent) node.put("hold_last_sent", Node::of_flag(true));
    Node first = Node::object();
    put_word_unless(first, "by", send.first_copy.by, standard.first_copy.by, first_copy_words);
    put(first, "copy_rate", send.first_copy.copy_rate);
    put_unless(first, "days_away", send.first_copy.days_away, standard.first_copy.days_away);
    put_extras(first, send.first_copy.extras);
    if (!first.items.empty()) node.put("first_copy", std::move(first));
    put_extras(node, send.extras);
    return node;
}

Node to_node(const Offer& offer) {
    const Offer standard;
    Node node = Node::object();
    node.put("name", Node::of_text(offer.name));
    node.put("box", Node::of_text(offer.box));
    put_word_unless(node, "as", offer.as, standard.as, offer_words);
    put(node, "price", offer.price);
    put(node, "power", offer.power);
    put(node, "life", offer.life);
    put(node, "lead_time", offer.lead_time);
    put(node, "drive_rate", offer.drive_rate);
    put(node, "failure_rate", offer.failure_rate);
    if (offer.pool) node.put("pool", to_node(*offer.pool));
    put(node, "usable", offer.usable);
    put_extras(node, offer.extras);
    return node;
}

// ---------------------------------------------------------------------------------------------
// Files

BadInput unreadable(const std::string& path, std::string what) {
    return BadInput{path, {{"", std::move(what)}}, true};
}

}  // namespace

tl::expected<Site, Problems> parse_site(std::string_view json_text) {
    Tree tree = read_tree(json_text);
    if (!tree.complete) return tl::make_unexpected(std::move(tree.problems));
    Report report;
    for (Problem& problem : tree.problems) report.add(problem.where, problem.what);
    Site site;
    Fields fields(report, tree.root, "", "a site, { \"format\": \"ullage-site\", … }");
    if (tree.root.type != Node::Type::object || !read_header(fields)) {
        return tl::make_unexpected(std::move(report.problems));
    }
    read_text(fields, "name", site.name, Presence::required);
    read_text(fields, "prepared_for", site.prepared_for);
    read_text(fields, "prepared_by", site.prepared_by);
    read_date(fields, "as_of", site.as_of, Presence::required);
    read_text(fields, "time_zone", site.time_zone);
    read_entered(fields, "horizon", site.horizon);
    read_number(fields, "confidence", site.confidence, true);
    read_text(fields, "currency", site.currency);
    read_entered(fields, "energy_price", site.energy_price);
    read_list(fields, "datasets", site.datasets, read_dataset, Presence::required);
    read_list(fields, "boxes", site.boxes, read_box, Presence::required);
    read_list(fields, "links", site.links, read_link);
    read_list(fields, "sends", site.sends, read_send);
    read_list(fields, "offers", site.offers, read_offer);
    fields.finish(site.extras);
    Problems faults = validate_partly_read(site, report.unread);
    std::move(faults.begin(), faults.end(), std::back_inserter(report.problems));
    if (!report.problems.empty()) return tl::make_unexpected(std::move(report.problems));
    return site;
}

std::string write_site(const Site& site) {
    const Site standard;
    Node node = Node::object();
    node.put("format", Node::of_text("ullage-site"));
    put(node, "version", known_version);
    node.put("name", Node::of_text(site.name));
    put_text(node, "prepared_for", site.prepared_for);
    put_text(node, "prepared_by", site.prepared_by);
    node.put("as_of", Node::of_text(format_date(site.as_of)));
    if (site.time_zone != standard.time_zone) {
        node.put("time_zone", Node::of_text(site.time_zone));
    }
    put_unless(node, "horizon", site.horizon, standard.horizon);
    put_unless(node, "confidence", site.confidence, standard.confidence);
    if (site.currency != standard.currency) node.put("currency", Node::of_text(site.currency));
    put(node, "energy_price", site.energy_price);
    node.put("datasets", list_of(site.datasets));
    node.put("boxes", list_of(site.boxes));
    put_list(node, "links", site.links);
    put_list(node, "sends", site.sends);
    put_list(node, "offers", site.offers);
    put_extras(node, site.extras);
    std::string out;
    write_node(out, node, 0, 0);
    return out + "\n";
}

tl::expected<Site, BadInput> read_site_file(const std::string& path) {
    // Not blocking, so that a pipe without a writer cannot hold the program up.
    FileHandle file(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC));
    if (!file.open()) {
        return tl::make_unexpected(
            unreadable(path, fmt::format("cannot be opened: {}", system_says(errno))));
    }
    struct stat status {};
    if (::fstat(file.number(), &status) != 0) {
        return tl::make_unexpected(
            unreadable(path, fmt::format("cannot be read: {}", system_says(errno))));
    }
    if (!S_ISREG(status.st_mode)) {
        return tl::make_unexpected(
            unreadable(path, not_regular(status.st_mode) + "; name a site file"));
    }
    std::string text;
    std::array<char, 65536> buffer{};
    // One byte past the limit is enough for parse_site to refuse it.
    while (text.size() <= most_bytes) {
        const ssize_t got = ::read(file.number(), buffer.data(), buffer.size());
        if (got == 0) break;
        if (got < 0) {
            if (errno == EINTR) continue;
            return tl::make_unexpected(
                unreadable(path, fmt::format("cannot be read: {}", system_says(errno))));
        }
        text.append(buffer.data(), static_cast<std::size_t>(got));
    }
    auto site = parse_site(text);
    if (!site) return tl::make_unexpected(BadInput{path, std::move(site.error()), false});
    return std::move(*site);
}

tl::expected<void, std::string> write_site_file(const std::string& path, const Site& site) {
    if (path.empty()) return tl::make_unexpected(std::string("a file name is expected"));
    const auto written = replace_file(path, write_site(site));
    if (!written) return tl::make_unexpected(fmt::format("{}: {}", path, written.error()));
    return {};
}

std::string to_text(const Amount& amount) {
    if (amount.of == Amount::Of::bytes) return exact_bytes(Bytes{amount.value});
    constexpr int most_digits = 17;
    for (int digits = 1; digits < most_digits; ++digits) {
        std::string text = format_percent(amount.value, digits);
        const auto back = parse_fraction(text);
        if (back && *back == amount.value) return text;
    }
    return format_percent(amount.value, most_digits);
}

std::string to_text(const Period& period) {
    return fmt::format("{} {}", period.n, word_of(period.unit, period_words));
}

std::string to_text(Money money) { return fmt::format("{}", money.value); }

std::string to_text(const Redundancy& redundancy) {
    switch (redundancy.kind) {
        case Redundancy::Kind::none:
            return "none";
        case Redundancy::Kind::mirror:
            return fmt::format("mirror-{}", redundancy.n);
        case Redundancy::Kind::parity:
            return fmt::format("parity-{}", redundancy.n);
    }
    return {};
}

std::string to_text(Wrapper wrapper) { return word_of(wrapper, wrapper_words); }

std::string to_text(Offer::As as) { return word_of(as, offer_words); }

std::string days_text(const std::array<bool, 7>& days) {
    std::string out;
    for (std::size_t i = 0; i < 7; ++i) {
        if (!days[i]) continue;
        std::size_t last = i;
        while (last + 1 < 7 && days[last + 1]) ++last;
        if (!out.empty()) out += ",";
        out += day_names[i];
        if (last > i) out += fmt::format("-{}", day_names[last]);
        i = last;
    }
    return out;
}

tl::expected<Amount, std::string> parse_amount(std::string_view text) {
    if (text.find('%') != std::string_view::npos) {
        const auto share = parse_fraction(text);
        if (!share) return tl::make_unexpected(share.error());
        return Amount{*share, Amount::Of::live_share};
    }
    const auto bytes = parse_bytes(text);
    if (!bytes) return tl::make_unexpected(bytes.error() + "; or a share of the live bytes, in %");
    return Amount{bytes->value, Amount::Of::bytes};
}

namespace {

/// Where the number of a price ends: the last character that is part of it, and 1.
std::size_t end_of_number(std::string_view text) {
    const std::size_t last = text.find_last_of("0123456789.%");
    return last == std::string_view::npos ? 0 : last + 1;
}

}  // namespace

tl::expected<Money, std::string> parse_money(std::string_view text) {
    const std::string_view number = text.substr(0, end_of_number(text));
    const auto value = parse_fraction(number);
    if (!value || number.find('%') != std::string_view::npos) {
        return tl::make_unexpected(fmt::format(
            "{} is not a price; write a number and, if you like, the currency after it, such as "
            "\"2150 EUR\"",
            in_quotes(text)));
    }
    return Money{*value};
}

std::string unit_of_money(std::string_view text) {
    return std::string(trimmed(text.substr(end_of_number(text))));
}

tl::expected<Period, std::string> parse_period(std::string_view text) {
    const auto fail = [&](std::string_view why) {
        return tl::make_unexpected(
            fmt::format("{} is not a period: {}; write for example \"15 min\", \"1 h\", \"1 d\", "
                        "\"1 w\", \"1 mo\" or \"1 y\"",
                        in_quotes(text), why));
    };
    const std::string_view typed = trimmed(text);
    int n = 0;
    const auto [end, failure] = std::from_chars(typed.data(), typed.data() + typed.size(), n);
    if (failure == std::errc::result_out_of_range) return fail("the number is too large");
    if (failure != std::errc()) return fail("a whole number comes first");
    const std::string_view unit =
        trimmed(typed.substr(static_cast<std::size_t>(end - typed.data())));
    if (unit.empty()) return period_of_seconds(n);
    if (unit.front() == '.' || unit.front() == ',' || unit.front() == 'e') {
        return fail("the number must be whole");
    }
    if (n < 1) return fail("the number must be at least 1");
    for (const Word<Period::Unit>& word : period_words) {
        if (word.text == unit) return Period{n, word.value};
    }
    if (unit == "s" || unit == "ms") return fail("the shortest is a minute");
    if (unit == "m" || unit == "M") return fail("m could be minutes or months");
    return fail(fmt::format("unknown unit {}; known are min, h, d, w, mo, y", in_quotes(unit)));
}

tl::expected<Redundancy, std::string> parse_redundancy(std::string_view text) {
    constexpr std::array words{
        Word<std::pair<Redundancy::Kind, int>>{"none", {Redundancy::Kind::none, 1}},
        Word<std::pair<Redundancy::Kind, int>>{"mirror-2", {Redundancy::Kind::mirror, 2}},
        Word<std::pair<Redundancy::Kind, int>>{"mirror-3", {Redundancy::Kind::mirror, 3}},
        Word<std::pair<Redundancy::Kind, int>>{"mirror-4", {Redundancy::Kind::mirror, 4}},
        Word<std::pair<Redundancy::Kind, int>>{"parity-1", {Redundancy::Kind::parity, 1}},
        Word<std::pair<Redundancy::Kind, int>>{"parity-2", {Redundancy::Kind::parity, 2}},
        Word<std::pair<Redundancy::Kind, int>>{"parity-3", {Redundancy::Kind::parity, 3}}};
    const auto value = parse_word(text, words);
    if (!value) return tl::make_unexpected(value.error());
    return Redundancy{value->first, value->second};
}

tl::expected<Wrapper, std::string> parse_wrapper(std::string_view text) {
    return parse_word(text, wrapper_words);
}

tl::expected<std::array<bool, 7>, std::string> parse_days(std::string_view text) {
    const auto fail = [&](std::string_view part) {
        return tl::make_unexpected(fmt::format(
            "{}: {} is not a day or a run of days; write for example \"Mon-Fri\" or \"Sat,Sun\"",
            in_quotes(text), in_quotes(part)));
    };
    std::array<bool, 7> days{};
    std::string_view rest = text;
    while (true) {
        const std::size_t comma = rest.find(',');
        const std::string_view part = trimmed(rest.substr(0, comma));
        const std::size_t dash = part.find('-');
        const auto first = day_number(part.substr(0, dash));
        const auto last =
            dash == std::string_view::npos ? first : day_number(part.substr(dash + 1));
        if (!first || !last) return fail(part);
        // "Sat-Mon" runs over the end of the week.
        for (std::size_t i = *first;; i = (i + 1) % 7) {
            days[i] = true;
            if (i == *last) break;
        }
        if (comma == std::string_view::npos) return days;
        rest.remove_prefix(comma + 1);
    }
}

}  // namespace ullage
