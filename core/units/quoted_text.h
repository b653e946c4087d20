// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What a user typed, as it appears in a message: in quotes, at most 60 bytes of it, control
/// characters written as in JSON ("\u001b"), so that a file cannot steer the terminal.

#include <string>
#include <string_view>

namespace ullage {

/// Control characters (C0 and DEL) as "\u001b".
inline std::string without_controls(std::string_view text) {
    constexpr std::string_view hex = "0123456789abcdef";
    std::string out;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (byte < 0x20 || byte == 0x7F) {
            out += "\\u00";
            out += hex[byte >> 4U];
            out += hex[byte & 0x0FU];
        } else {
            out += c;
        }
    }
    return out;
}

inline std::string in_quotes(std::string_view text) {
    constexpr std::size_t most = 60;
    if (text.size() <= most) return "\"" + without_controls(text) + "\"";
    std::size_t end = most;
    // Not in the middle of a UTF-8 character.
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
    return "\"" + without_controls(text.substr(0, end)) + "…\"";
}

}  // namespace ullage
