// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What is wrong with an input, where, and how to mend it.

#include <string>
#include <vector>

namespace ullage {

/// One fault of a file. `where` is a JSON pointer ("/boxes/0/pool/width") for a site, "line 12" for
/// a listing, empty for the file as a whole. `what` says what is wrong and what would be right.
struct Problem {
    std::string where;
    std::string what;
    bool operator==(const Problem&) const = default;
};
using Problems = std::vector<Problem>;

/// The faults of one file, and whether it could be read at all.
struct BadInput {
    std::string file;
    Problems problems;
    bool unreadable = false;  ///< true: the file could not be opened or read (exit status 3)
    bool operator==(const BadInput&) const = default;
};

}  // namespace ullage
