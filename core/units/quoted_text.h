// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What a user typed, as it appears in a message: in quotes, at most 60 bytes of it, without what could
/// steer a terminal or turn the order of what is read.
///
/// Controls are those of C0 and C1, DEL, the line and paragraph separators, and the embeddings, overrides
/// and isolates of text direction (Unicode 15, UAX 9: U+202A…202E, U+2066…2069). The marks that right-to-left
/// names need (U+200E, 200F, 061C) are none.

#include <optional>
#include <string>
#include <string_view>

namespace ullage {

/// The first control of a text, as "U+0007"; empty if there is none. Bytes that are not UTF-8 are none.
std::optional<std::string> control_character(std::string_view text);

/// Controls written as in JSON ("\u001b"), bytes that are not UTF-8 as "\xff".
std::string without_controls(std::string_view text);

std::string in_quotes(std::string_view text);

}  // namespace ullage
