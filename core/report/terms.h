// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Terms of the trade and what they mean, each told once.

#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace ullage {

struct Term {
    std::vector<std::string> words;  ///< one of them, as a whole word, in any case: the term is used
    std::string meaning;             ///< a sentence or two
};

const std::vector<Term>& terms();

/// What is between “ and ” is a name and uses no term.
class Explainer {
public:
    /// The meanings of terms that `text` uses for the first time, and of those these meanings use.
    std::vector<std::string> first_used_in(std::string_view text);

private:
    std::set<std::size_t> told_;
};

}  // namespace ullage
