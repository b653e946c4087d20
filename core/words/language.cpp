// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/words/language.h"

#include <algorithm>
#include <cctype>

namespace ullage {

std::string code_of(Language language) { return language == Language::german ? "de" : "en"; }

std::optional<Language> language_of(std::string_view name) {
    std::string word(name.substr(0, name.find_first_of("_-.@")));
    std::transform(word.begin(), word.end(), word.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    if (word == "de") return Language::german;
    if (word == "en" || word == "c" || word == "posix") return Language::english;
    return {};
}

Language language_of_environment(const char* lc_all, const char* lc_messages, const char* lang) {
    for (const char* name : {lc_all, lc_messages, lang})
        if (name && *name != '\0') return language_of(name).value_or(Language::english);
    return Language::english;
}

}  // namespace ullage
