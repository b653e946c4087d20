// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/delimited.h"

#include "core/units/quoted_text.h"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <optional>

namespace ullage {

namespace {

std::string_view trimmed(std::string_view s) {
    while (!s.empty() && (s.front() == ' ' || s.front() == '\t')) s.remove_prefix(1);
    while (!s.empty() && (s.back() == ' ' || s.back() == '\t' || s.back() == '\r')) s.remove_suffix(1);
    return s;
}

/// Calls `use` with each line and its number until it says false. A line that is cut by the end of a piece is put
/// together again.
template <class Use>
void each_line(const NextPiece& next, Use&& use) {
    std::string begun;
    int number = 0;
    bool first = true;
    for (std::string_view piece = next(); !piece.empty(); piece = next()) {
        if (first && piece.substr(0, 3) == "\xEF\xBB\xBF") piece.remove_prefix(3);
        first = false;
        for (std::size_t end = piece.find('\n'); end != std::string_view::npos; end = piece.find('\n')) {
            if (begun.empty()) {
                if (!use(++number, piece.substr(0, end))) return;
            } else {
                begun += piece.substr(0, end);
                if (!use(++number, std::string_view(begun))) return;
                begun.clear();
            }
            piece.remove_prefix(end + 1);
        }
        begun += piece;
    }
    if (!begun.empty()) use(++number, std::string_view(begun));
}

bool says_nothing(std::string_view line) {
    const auto t = trimmed(line);
    return t.empty() || t.front() == '#';
}

char separator_of(std::string_view line) {
    for (const char c : {'\t', ';', ','})
        if (line.find(c) != std::string_view::npos) return c;
    return ' ';
}

/// The fields of a line, quotes taken off.
std::vector<std::string> unquoted_fields(std::string_view line, char separator) {
    std::vector<std::string> fields;
    std::string field;
    bool quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const char c = line[i];
        if (c == '"') {
            if (quoted && i + 1 < line.size() && line[i + 1] == '"') {
                field += '"';
                ++i;
            } else {
                quoted = !quoted;
            }
        } else if (c == separator && !quoted) {
            fields.emplace_back(trimmed(field));
            field.clear();
            if (separator == ' ')
                while (i + 1 < line.size() && line[i + 1] == ' ') ++i;
        } else {
            field += c;
        }
    }
    fields.emplace_back(trimmed(field));
    return fields;
}

std::string_view stripped(std::string_view line, char separator) {
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    return separator == ' ' ? trimmed(line) : line;
}

std::string lower(std::string s) {
    for (auto& c : s)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return s;
}

/// Which column has the best name of each role; −1: none.
std::vector<int> best_columns(const std::vector<std::string>& names, const std::vector<ColumnRole>& roles) {
    std::vector<int> columns(roles.size(), -1);
    std::vector<std::ptrdiff_t> best;  // place of the name found among those accepted
    for (const auto& role : roles) best.push_back(static_cast<std::ptrdiff_t>(role.accepted.size()));
    for (std::size_t i = 0; i < names.size(); ++i) {
        const std::string name = lower(names[i]);
        for (std::size_t r = 0; r < roles.size(); ++r) {
            const auto& accepted = roles[r].accepted;
            const auto rank = std::find(accepted.begin(), accepted.end(), name) - accepted.begin();
            if (rank >= best[r]) continue;  // also of two equal names: the first column
            best[r] = rank;
            columns[r] = static_cast<int>(i);
        }
    }
    return columns;
}

tl::expected<std::vector<int>, std::string> columns_of(const std::vector<std::string>& names,
                                                       const std::vector<ColumnRole>& roles, bool from_header) {
    auto columns = best_columns(names, roles);
    std::vector<std::string_view> missing;
    for (std::size_t r = 0; r < roles.size(); ++r)
        if (roles[r].required && columns[r] < 0) missing.push_back(roles[r].name);
    if (!missing.empty())
        return tl::unexpected(fmt::format(
            "no column for {}; the {} “{}”. {}", fmt::join(missing, ", "),
            from_header ? "first row reads" : "columns given are", fmt::join(names, " "),
            from_header ? "Name the columns in the first row, or give them with --columns"
                        : "Give a role for each column, in order"));
    return columns;
}

}  // namespace

NextPiece whole_text(std::string_view text) {
    return [text]() mutable {
        const std::string_view all = text;
        text = {};
        return all;
    };
}

void LineFields::split(std::string_view line, char separator) {
    fields_.clear();
    line = stripped(line, separator);
    if (line.find('"') != std::string_view::npos) {
        unquoted_ = unquoted_fields(line, separator);
        fields_.assign(unquoted_.begin(), unquoted_.end());
        return;
    }
    while (true) {
        const std::size_t end = line.find(separator);
        fields_.push_back(trimmed(line.substr(0, end)));
        if (end == std::string_view::npos) return;
        line.remove_prefix(end + 1);
        if (separator == ' ')
            while (!line.empty() && line.front() == ' ') line.remove_prefix(1);
    }
}

tl::expected<std::string_view, std::string> LineFields::at(std::size_t role) const {
    const int column = columns_[role];
    if (column < 0 || static_cast<std::size_t>(column) >= fields_.size())
        return tl::unexpected(
            fmt::format("{} fields, but {} is field {}", fields_.size(), roles_[role].name, column + 1));
    return fields_[static_cast<std::size_t>(column)];
}

std::vector<std::string> roles_of_names(const std::vector<std::string>& names, const std::vector<ColumnRole>& roles) {
    std::vector<std::string> found(names.size());
    const auto columns = best_columns(names, roles);
    for (std::size_t r = 0; r < roles.size(); ++r)
        if (columns[r] >= 0) found[static_cast<std::size_t>(columns[r])] = roles[r].name;
    return found;
}

std::vector<std::vector<std::string>> first_rows(const NextPiece& next, std::size_t count) {
    std::vector<std::vector<std::string>> rows;
    char separator = '\t';
    if (count == 0) return rows;
    each_line(next, [&](int, std::string_view line) {
        if (says_nothing(line)) return true;
        if (rows.empty()) separator = separator_of(line);
        rows.push_back(unquoted_fields(stripped(line, separator), separator));
        return rows.size() < count;
    });
    return rows;
}

tl::expected<void, Problems> read_delimited(const NextPiece& next, const std::vector<ColumnRole>& roles,
                                            const std::vector<std::string>& given,
                                            const std::function<void(int, const LineFields&)>& row) {
    const bool from_header = given.empty();
    char separator = '\t';
    std::vector<int> columns;
    LineFields fields(roles, columns);
    std::optional<Problems> wrong_header;
    bool any_line = false;
    bool any_row = false;
    each_line(next, [&](int number, std::string_view line) {
        if (says_nothing(line)) return true;
        if (!any_line) {
            any_line = true;
            separator = separator_of(line);
            auto found = columns_of(from_header ? unquoted_fields(stripped(line, separator), separator) : given,
                                    roles, from_header);
            if (!found) {
                wrong_header = Problems{{from_header ? fmt::format("line {}", number) : "",
                                         without_controls(found.error())}};
                return false;
            }
            columns = *std::move(found);
            if (from_header) return true;
        }
        any_row = true;
        fields.split(line, separator);
        row(number, fields);
        return true;
    });
    if (wrong_header) return tl::unexpected(*wrong_header);
    if (!any_line) return tl::unexpected(Problems{{"", "the file is empty: it needs a header row and data"}});
    if (!any_row) return tl::unexpected(Problems{{"", "there is a header row and nothing below it"}});
    return {};
}

}  // namespace ullage
