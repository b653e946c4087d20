// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The translators' catalogue of a language, built into the program.

#include "core/words/language.h"

#include <string>

namespace ullage {

/// The translation of an English text, or the text itself where there is none; `context` tells equal
/// English words apart and may be empty.
std::string translated(Language language, const char* context, const std::string& text);
/// The form of `one` and `many` that the language has for `count`.
std::string translated(Language language, const char* context, const std::string& one, const std::string& many,
                       long count);

}  // namespace ullage
