// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The words of the format: each value of an enumeration with its text.

#include "core/site/site.h"
#include "core/units/quantity_text.h"
#include "core/units/quoted_text.h"

#include <array>
#include <fmt/format.h>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace ullage {

inline constexpr int known_version = 1;  ///< of the format

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

inline constexpr std::array wrapper_words{Word<Wrapper>{"vlan", Wrapper::vlan},
                                   Word<Wrapper>{"pppoe", Wrapper::pppoe},
                                   Word<Wrapper>{"wireguard", Wrapper::wireguard},
                                   Word<Wrapper>{"esp", Wrapper::esp},
                                   Word<Wrapper>{"esp-udp", Wrapper::esp_udp},
                                   Word<Wrapper>{"ssh", Wrapper::ssh},
                                   Word<Wrapper>{"tls", Wrapper::tls}};
inline constexpr std::array kind_words{Word<Dataset::Kind>{"files", Dataset::Kind::files},
                                Word<Dataset::Kind>{"volume", Dataset::Kind::volume}};
inline constexpr std::array congestion_words{Word<Congestion>{"cubic", Congestion::cubic},
                                      Word<Congestion>{"reno", Congestion::reno}};
inline constexpr std::array esp_words{Word<EspCipher>{"aes-gcm-16", EspCipher::aes_gcm_16},
                               Word<EspCipher>{"chacha20-poly1305", EspCipher::chacha20_poly1305},
                               Word<EspCipher>{"aes-cbc-sha1", EspCipher::aes_cbc_sha1},
                               Word<EspCipher>{"aes-cbc-sha256", EspCipher::aes_cbc_sha256},
                               Word<EspCipher>{"aes-cbc-sha512", EspCipher::aes_cbc_sha512}};
inline constexpr std::array sharing_words{Word<Sharing>{"evenly", Sharing::evenly},
                                   Word<Sharing>{"in turn", Sharing::in_turn}};
inline constexpr std::array steps_words{Word<Send::Steps>{"newest", Send::Steps::newest},
                                 Word<Send::Steps>{"every", Send::Steps::every}};
inline constexpr std::array payload_words{Word<Send::Payload>{"stored", Send::Payload::stored},
                                   Word<Send::Payload>{"expanded", Send::Payload::expanded},
                                   Word<Send::Payload>{"sealed", Send::Payload::sealed}};
inline constexpr std::array first_copy_words{Word<FirstCopy::By>{"link", FirstCopy::By::link},
                                      Word<FirstCopy::By>{"courier", FirstCopy::By::courier},
                                      Word<FirstCopy::By>{"present", FirstCopy::By::present}};
inline constexpr std::array offer_words{Word<Offer::As>{"drives", Offer::As::drives},
                                 Word<Offer::As>{"added", Offer::As::added},
                                 Word<Offer::As>{"box", Offer::As::box}};
inline constexpr std::array change_words{
    Word<BoxChange::Kind>{"add_groups", BoxChange::Kind::add_groups},
    Word<BoxChange::Kind>{"swap_drives", BoxChange::Kind::swap_drives},
    Word<BoxChange::Kind>{"widen_to", BoxChange::Kind::widen},
    Word<BoxChange::Kind>{"usable", BoxChange::Kind::resize}};
inline constexpr std::array event_words{Word<Event::Kind>{"add", Event::Kind::add},
                                 Word<Event::Kind>{"remove", Event::Kind::remove},
                                 Word<Event::Kind>{"rewrite", Event::Kind::rewrite},
                                 Word<Event::Kind>{"move", Event::Kind::move}};

/// The words of the format come first; the rest is understood too.
inline constexpr std::array period_words{Word<Period::Unit>{"min", Period::Unit::minute},
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

}  // namespace ullage
