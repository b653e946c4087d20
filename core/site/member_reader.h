// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Reading the members of a JSON object into values, each problem with its pointer.

#include "core/site/json_tree.h"
#include "core/site/partly_read.h"
#include "core/site/quantity_traits.h"
#include "core/site/site_words.h"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace ullage {

/// What reading found wrong, and the members that are not to be judged further.
struct ReadReport {
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
class MemberReader {
public:
    /// What is not an object is a problem, which says what was expected.
    MemberReader(ReadReport& report, const JsonNode& node, std::string at, std::string_view expected);

    const JsonNode* get(std::string_view key) {
        if (std::find(known_.begin(), known_.end(), key) == known_.end()) known_.emplace_back(key);
        return node_.find(key);
    }
    const JsonNode* need(std::string_view key, std::string_view expected) {
        const JsonNode* node = get(key);
        if (node == nullptr && node_.type == JsonNode::Type::object) {
            missing_.emplace_back(key, expected);
        }
        return node;
    }
    std::string at(std::string_view key) const { return below(at_, key); }
    void add(std::string where, std::string what) {
        report_.add(std::move(where), std::move(what));
    }
    void wrong_type(std::string_view key, const JsonNode& node, std::string_view expected) {
        add(at(key), fmt::format("found {}, expected {}", found(node), expected));
    }
    ReadReport& report() { return report_; }

    void finish(Extras& extras);

private:
    ReadReport& report_;
    const JsonNode& node_;
    std::string at_;
    std::vector<std::string> known_;
    std::vector<std::pair<std::string, std::string>> missing_;
};

enum class Presence { optional, required };

/// Each of these reads one member into `out`, where it is there; what cannot be read is a problem, and `out`
/// stays as it was.
void read_text(MemberReader& fields, std::string_view key, std::string& out,
               Presence presence = Presence::optional);
void read_flag(MemberReader& fields, std::string_view key, bool& out);
/// A number, or where `share` a text with %.
std::optional<double> number_of(ReadReport& report, const std::string& at, const JsonNode& node,
                                bool share);
/// True if the key was there and could be read.
bool read_number(MemberReader& fields, std::string_view key, double& out, bool share,
                 Presence presence = Presence::optional);
void read_number(MemberReader& fields, std::string_view key, std::optional<double>& out, bool share);
bool read_whole(MemberReader& fields, std::string_view key, int& out,
                Presence presence = Presence::optional);
void read_date(MemberReader& fields, std::string_view key, Day& out,
               Presence presence = Presence::optional);
void read_time(MemberReader& fields, std::string_view key, int& out);
/// A length of time whose key says "days": a plain number, quoted or not, counts days.
bool read_days(MemberReader& fields, std::string_view key, Entered<Duration>& out);

template <class T, std::size_t N>
void read_word(MemberReader& fields, std::string_view key, T& out, const std::array<Word<T>, N>& words) {
    const JsonNode* node = fields.get(key);
    if (node == nullptr) return;
    if (node->type != JsonNode::Type::text) {
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

template <class T>
bool read_entered(MemberReader& fields, std::string_view key, Entered<T>& out,
                  Presence presence = Presence::optional) {
    const JsonNode* node =
        presence == Presence::required ? fields.need(key, Traits<T>::expected) : fields.get(key);
    if (node == nullptr) return false;
    if (node->type != JsonNode::Type::text && node->type != JsonNode::Type::number) {
        fields.wrong_type(key, *node, Traits<T>::expected);
        return false;
    }
    const bool typed = node->type == JsonNode::Type::text;
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
void read_entered(MemberReader& fields, std::string_view key, std::optional<Entered<T>>& out) {
    Entered<T> value;
    if (read_entered(fields, key, value)) out = std::move(value);
}

template <class T, class ReadItem>
void read_list(MemberReader& fields, std::string_view key, std::vector<T>& out, ReadItem read_item,
               Presence presence = Presence::optional) {
    constexpr std::string_view expected = "a list, [ … ]";
    const JsonNode* node =
        presence == Presence::required ? fields.need(key, expected) : fields.get(key);
    if (node == nullptr) return;
    if (node->type != JsonNode::Type::list) {
        fields.wrong_type(key, *node, expected);
        return;
    }
    // An item that cannot be read still takes its place, so that later pointers stay right.
    out.resize(node->items.size());
    for (std::size_t i = 0; i < node->items.size(); ++i) {
        read_item(fields.report(), node->items[i], below(fields.at(key), i), out[i]);
    }
}

/// What happens is told by which of the words is a key: exactly one is.
template <class T, std::size_t N, class ReadIt>
void read_kind(MemberReader& fields, const JsonNode& node, const std::string& at, std::string_view noun,
               const std::array<Word<T>, N>& words, T& kind, ReadIt read_it) {
    std::vector<std::string> given;
    for (const Word<T>& word : words) {
        if (fields.get(word.text) == nullptr) continue;
        given.emplace_back(word.text);
        kind = word.value;
        read_it(word);
    }
    if (given.size() == 1 || node.type != JsonNode::Type::object) return;
    fields.add(at, given.empty()
                       ? fmt::format("{} needs one of {}", noun, all_words(words))
                       : fmt::format("{} is one of {}, but this one has {}; make it {} of them",
                                     noun, all_words(words), fmt::join(given, " and "),
                                     given.size()));
}

}  // namespace ullage
