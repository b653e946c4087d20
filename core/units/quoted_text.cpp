// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/quoted_text.h"

#include <fmt/format.h>

#include <cstddef>
#include <cstdint>

namespace ullage {

namespace {

struct Character {
    char32_t code = 0;
    std::size_t bytes = 1;
    bool valid = false;  ///< false: one byte that is not UTF-8
};

std::uint8_t byte_at(std::string_view text, std::size_t i) { return static_cast<std::uint8_t>(text[i]); }

/// The first character of a text that is not empty (RFC 3629).
Character first_of(std::string_view text) {
    const unsigned lead = byte_at(text, 0);
    if (lead < 0x80) return {lead, 1, true};
    const std::size_t length = lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    if (lead < 0xC2 || lead > 0xF4 || text.size() < length) return {};
    char32_t code = lead & (0xFFU >> (length + 1));
    for (std::size_t i = 1; i < length; ++i) {
        if ((byte_at(text, i) & 0xC0U) != 0x80U) return {};
        code = (code << 6U) | (byte_at(text, i) & 0x3FU);
    }
    constexpr char32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
    if (code < least[length] || code > 0x10FFFF || surrogate) return {};
    return {code, length, true};
}

bool is_control(char32_t c) {
    return c < 0x20 || (c >= 0x7F && c <= 0x9F) || c == 0x2028 || c == 0x2029 ||
           (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069);
}

}  // namespace

std::optional<std::string> control_character(std::string_view text) {
    while (!text.empty()) {
        const Character c = first_of(text);
        if (c.valid && is_control(c.code)) {
            return fmt::format("U+{:04X}", static_cast<std::uint32_t>(c.code));
        }
        text.remove_prefix(c.bytes);
    }
    return std::nullopt;
}

std::string without_controls(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        const Character c = first_of(text);
        if (!c.valid) {
            out += fmt::format("\\x{:02x}", byte_at(text, 0));
        } else if (is_control(c.code)) {
            out += fmt::format("\\u{:04x}", static_cast<std::uint32_t>(c.code));
        } else {
            out += text.substr(0, c.bytes);
        }
        text.remove_prefix(c.bytes);
    }
    return out;
}

std::string in_quotes(std::string_view text) {
    constexpr std::size_t most = 60;
    if (text.size() <= most) return "\"" + without_controls(text) + "\"";
    std::size_t end = most;
    // Not in the middle of a UTF-8 character.
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
    return "\"" + without_controls(text.substr(0, end)) + "…\"";
}

}  // namespace ullage
