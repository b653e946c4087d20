// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Delimited text, line by line: what listings and usage histories have in common.
///
/// Fields are separated by tab, semicolon, comma, or runs of spaces, by what the first line holds; they may be
/// quoted with `"`. Blank lines and lines that start with `#` are passed over, and so is a byte-order mark.
/// The text comes in pieces, so that a file need not be in memory as a whole.

#include "core/units/problem.h"

#include <functional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace ullage {

/// The next piece of a text; empty: there is no more. It must stay as it is until the next one is asked for.
using NextPiece = std::function<std::string_view()>;

/// A whole text as one piece.
NextPiece whole_text(std::string_view text);

/// What a column may be, and the names accepted for it (lower case, the best first).
struct ColumnRole {
    std::string_view name;
    std::vector<std::string_view> accepted;
    bool required = true;
};

/// The fields of one line by role.
class LineFields {
public:
    LineFields(const std::vector<ColumnRole>& roles, const std::vector<int>& columns) : roles_(roles), columns_(columns) {}

    void split(std::string_view line, char separator);
    /// Of a line that is too short: which field is missing.
    tl::expected<std::string_view, std::string> at(std::size_t role) const;

private:
    const std::vector<ColumnRole>& roles_;
    const std::vector<int>& columns_;  ///< which field holds which role; −1: none
    std::vector<std::string_view> fields_;
    std::vector<std::string> unquoted_;  ///< what the fields of a quoted line refer to
};

/// The role that each name stands for; empty: none, or one that another column has by a better name.
std::vector<std::string> roles_of_names(const std::vector<std::string>& names, const std::vector<ColumnRole>& roles);

/// The fields of the first rows, a header row among them, at most `count`.
std::vector<std::vector<std::string>> first_rows(const NextPiece& next, std::size_t count);

/// Calls `row` with the number (from 1) and the fields of each line below the header row, or of each line where
/// `given` names the columns. Errors: no line at all, a required column that is missing.
tl::expected<void, Problems> read_delimited(const NextPiece& next, const std::vector<ColumnRole>& roles,
                                            const std::vector<std::string>& given,
                                            const std::function<void(int, const LineFields&)>& row);

}  // namespace ullage
