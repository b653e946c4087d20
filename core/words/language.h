// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The languages that the program speaks, as values: who wants sentences says in which.

#include <optional>
#include <string>
#include <string_view>

namespace ullage {

enum class Language { english, german };

/// ISO 639-1: "en", "de".
std::string code_of(Language language);

/// Of "de", "de_DE.UTF-8", "de-AT", in any case; "C" and "POSIX" are English. Empty for a
/// language that is not spoken, and for no text.
std::optional<Language> language_of(std::string_view name);

/// What POSIX's variables choose for messages: the first of them that is not empty. Any of them may be null.
/// A language that is not spoken, or none, is English. Source: POSIX.1-2017, Base Definitions, 8.2.
Language language_of_environment(const char* lc_all, const char* lc_messages, const char* lang);

}  // namespace ullage
