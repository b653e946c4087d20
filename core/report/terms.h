// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Terms of the trade and what they mean, each told once.

#include "core/words/wording.h"

#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace ullage {

struct Term {
    std::vector<std::string> words;  ///< one of them, as a whole word, in lower case: the term is used
    std::string meaning;             ///< a sentence or two
};

std::vector<Term> terms(const Wording&);

/// What is between quotation marks is a name and uses no term.
class Explainer {
public:
    explicit Explainer(const Wording& w = Wording());
    /// The meanings of terms that `text` uses for the first time, and of those these meanings use.
    std::vector<std::string> first_used_in(std::string_view text);

private:
    std::string searchable(std::string_view text) const;

    std::vector<Term> terms_;
    std::string open_, close_;
    std::set<std::size_t> told_;
};

}  // namespace ullage
