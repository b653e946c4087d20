// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/listing.h"

#include "core/units/quantity_text.h"
#include "core/units/quoted_text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <fmt/ranges.h>

namespace ullage {

namespace {

constexpr std::size_t most_problems = 50;  // enough to see a pattern, short enough to read

struct Line {
    int number = 0;  // from 1
    std::string_view text;
};

std::string_view trimmed(std::string_view s) {
    while (!s.empty() && (s.front() == ' ' || s.front() == '\t')) s.remove_prefix(1);
    while (!s.empty() && (s.back() == ' ' || s.back() == '\t' || s.back() == '\r')) s.remove_suffix(1);
    return s;
}

/// Lines with something on them; comments and blank lines left out, a byte-order mark passed over.
std::vector<Line> lines_of(std::string_view text) {
    if (text.substr(0, 3) == "\xEF\xBB\xBF") text.remove_prefix(3);
    std::vector<Line> lines;
    int number = 0;
    while (!text.empty()) {
        const std::size_t end = text.find('\n');
        const std::string_view line = text.substr(0, end);
        ++number;
        if (const auto t = trimmed(line); !t.empty() && t.front() != '#') lines.push_back({number, line});
        if (end == std::string_view::npos) break;
        text.remove_prefix(end + 1);
    }
    return lines;
}

/// '\t', ';', ',' by what the first line holds; ' ' for runs of spaces.
char separator_of(std::string_view line) {
    for (const char c : {'\t', ';', ','})
        if (line.find(c) != std::string_view::npos) return c;
    return ' ';
}

std::vector<std::string> fields_of(std::string_view line, char separator) {
    std::vector<std::string> fields;
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    if (separator == ' ') line = trimmed(line);
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

std::string lower(std::string s) {
    for (auto& c : s)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return s;
}

struct Role {
    std::string_view name;
    std::vector<std::string_view> accepted;
    bool required = true;
};

const std::vector<Role>& listing_roles() {
    static const std::vector<Role> roles = {
        {"snapshot", {"snapshot", "name"}, true},
        {"taken", {"taken", "creation", "time"}, true},
        {"unique", {"unique", "used"}, true},
        {"live", {"live", "referenced", "refer"}, true},
        {"written", {"written"}, true},
        {"logical", {"logical", "logicalreferenced", "lrefer"}, false},
        {"compression", {"compression", "compressratio", "ratio"}, false},
    };
    return roles;
}

const std::vector<Role>& usage_roles() {
    static const std::vector<Role> roles = {
        {"time", {"time", "taken", "date"}, true},
        {"live", {"live", "referenced", "refer", "used"}, true},
    };
    return roles;
}

/// Which field holds which role; −1: none.
struct Columns {
    std::vector<int> of_role;
    int at(std::size_t role) const { return of_role[role]; }
};

tl::expected<Columns, std::string> columns_of(const std::vector<std::string>& names,
                                              const std::vector<Role>& roles, bool from_header) {
    Columns columns{std::vector<int>(roles.size(), -1)};
    std::vector<std::ptrdiff_t> best;  // place of the name found among those accepted
    for (const auto& role : roles) best.push_back(static_cast<std::ptrdiff_t>(role.accepted.size()));
    for (std::size_t i = 0; i < names.size(); ++i) {
        const std::string name = lower(names[i]);
        for (std::size_t r = 0; r < roles.size(); ++r) {
            const auto& accepted = roles[r].accepted;
            const auto rank = std::find(accepted.begin(), accepted.end(), name) - accepted.begin();
            if (rank >= best[r]) continue;  // also of two equal names: the first column
            best[r] = rank;
            columns.of_role[r] = static_cast<int>(i);
        }
    }
    std::vector<std::string_view> missing;
    for (std::size_t r = 0; r < roles.size(); ++r)
        if (roles[r].required && columns.of_role[r] < 0) missing.push_back(roles[r].name);
    if (!missing.empty())
        return tl::unexpected(fmt::format(
            "no column for {}; the {} “{}”. {}", fmt::join(missing, ", "),
            from_header ? "first row reads" : "columns given are", fmt::join(names, " "),
            from_header ? "Name the columns in the first row, or give them with --columns"
                        : "Give a role for each column, in order"));
    return columns;
}

/// Bytes: a plain number, a number with a unit, or with one letter (K, M, G, T, P: binary, as the
/// usual listings print them).
tl::expected<double, std::string> size_of(const std::string& field) {
    std::string text = field;
    if (text.size() > 1) {
        constexpr std::string_view letters = "KMGTP";
        const char last = text.back();
        if (letters.find(last) != std::string_view::npos && text[text.size() - 2] >= '0' &&
            text[text.size() - 2] <= '9')
            text += "iB";
    }
    const auto bytes = parse_bytes(text);
    if (!bytes) return tl::unexpected(fmt::format("“{}” is not a size: {}", field, bytes.error()));
    if (bytes->value < 0)
        return tl::unexpected(fmt::format("the size “{}” is negative; sizes are 0 or more", field));
    return bytes->value;
}

struct Table {
    std::vector<Line> lines;
    char separator = '\t';
    Columns columns;
};

tl::expected<Table, Problems> table_of(std::string_view text, const std::vector<Role>& roles,
                                       const std::vector<std::string>& given_columns) {
    Table table;
    table.lines = lines_of(text);
    if (table.lines.empty())
        return tl::unexpected(Problems{{"", "the file is empty: it needs a header row and data"}});
    table.separator = separator_of(table.lines.front().text);
    const bool from_header = given_columns.empty();
    const auto names = from_header ? fields_of(table.lines.front().text, table.separator) : given_columns;
    auto columns = columns_of(names, roles, from_header);
    if (!columns)
        return tl::unexpected(Problems{
            {from_header ? fmt::format("line {}", table.lines.front().number) : "",
             without_controls(columns.error())}});
    table.columns = *std::move(columns);
    if (from_header) table.lines.erase(table.lines.begin());
    if (table.lines.empty())
        return tl::unexpected(Problems{{"", "there is a header row and nothing below it"}});
    return table;
}

void add(Problems& problems, int line, const std::string& what) {
    if (problems.size() < most_problems)
        problems.push_back({fmt::format("line {}", line), without_controls(what)});
    else if (problems.size() == most_problems)
        problems.push_back({"", fmt::format("and more; the first {} are listed", most_problems)});
}

tl::expected<std::string, std::string> field_at(const std::vector<std::string>& fields, int index,
                                                std::string_view role) {
    if (index < 0 || static_cast<std::size_t>(index) >= fields.size())
        return tl::unexpected(fmt::format("{} fields, but {} is field {}", fields.size(), role, index + 1));
    return fields[static_cast<std::size_t>(index)];
}

/// One line of a listing, the dataset's name beside it.
tl::expected<std::pair<std::string, Snapshot>, std::string> snapshot_of(const Table& table,
                                                                        const Line& line) {
    const auto fields = fields_of(line.text, table.separator);
    Snapshot s;
    s.line = line.number;
    std::array<std::string, 5> texts;
    for (std::size_t r = 0; r < texts.size(); ++r) {
        auto field = field_at(fields, table.columns.at(r), listing_roles()[r].name);
        if (!field) return tl::unexpected(field.error());
        texts[r] = *field;
    }
    s.name = texts[0];
    if (s.name.empty()) return tl::unexpected(std::string("the snapshot has no name"));
    if (const auto control = control_character(s.name))
        return tl::unexpected(fmt::format("the name contains the control character {}; leave it out", *control));
    const auto taken = parse_instant(texts[1]);
    if (!taken) return tl::unexpected(taken.error());
    s.taken = *taken;
    const std::array<double*, 3> sizes = {&s.unique_bytes, &s.live_bytes, &s.written_bytes};
    for (std::size_t i = 0; i < sizes.size(); ++i) {
        const auto size = size_of(texts[i + 2]);
        if (!size) return tl::unexpected(fmt::format("{}: {}", listing_roles()[i + 2].name, size.error()));
        *sizes[i] = *size;
    }
    // Rounded sizes ("1.2T") may cross by a rounding step.
    const double most = s.live_bytes * 1.02 + 4096;
    const auto above_live = [&](std::size_t field, const char* what) {
        return tl::unexpected(fmt::format("{} ({}) is more than live ({}): a snapshot cannot hold less than {}; "
                                          "are columns swapped, or in different units?",
                                          listing_roles()[field].name, texts[field], texts[3], what));
    };
    if (s.written_bytes > most) return above_live(4, "what is new in it");
    if (s.unique_bytes > most) return above_live(2, "what it alone holds");
    const std::size_t at = s.name.find('@');
    return std::pair(at == std::string::npos ? std::string() : s.name.substr(0, at), s);
}

}  // namespace

tl::expected<std::vector<Listing>, Problems> parse_listing(std::string_view text,
                                                           const ListingOptions& options) {
    auto table = table_of(text, listing_roles(), options.columns);
    if (!table) return tl::unexpected(table.error());

    Problems problems;
    std::vector<Listing> listings;
    std::map<std::string, std::size_t> index;
    std::vector<std::string> skipped;
    for (const auto& line : table->lines) {
        auto parsed = snapshot_of(*table, line);
        if (!parsed) {
            if (options.skip_bad_lines)
                skipped.push_back(fmt::format("line {} left out: {}", line.number, without_controls(parsed.error())));
            else
                add(problems, line.number, parsed.error());
            continue;
        }
        const auto [it, is_new] = index.try_emplace(parsed->first, listings.size());
        if (is_new) listings.push_back({parsed->first, {}, {}});
        listings[it->second].snapshots.push_back(std::move(parsed->second));
    }
    if (!problems.empty()) return tl::unexpected(problems);
    if (listings.empty())
        return tl::unexpected(Problems{{"", "no line of the listing could be read"}});

    for (auto& listing : listings) {
        auto& list = listing.snapshots;
        const auto earlier = [](const Snapshot& a, const Snapshot& b) { return a.taken < b.taken; };
        const auto later = [](const Snapshot& a, const Snapshot& b) { return a.taken > b.taken; };
        if (!std::is_sorted(list.begin(), list.end(), earlier)) {
            const bool newest_first = std::is_sorted(list.begin(), list.end(), later);
            std::stable_sort(list.begin(), list.end(), earlier);
            if (!newest_first)
                listing.warnings.emplace_back("the lines were not in order of time; they were sorted");
        }
        for (std::size_t i = 1; i < list.size(); ++i)
            if (list[i].taken == list[i - 1].taken)
                add(problems, list[i].line,
                    fmt::format("“{}” was taken at {}, as was “{}” (line {}): two snapshots of a "
                                "dataset at one instant cannot be told apart",
                                list[i].name, format_instant(list[i].taken), list[i - 1].name,
                                list[i - 1].line));
    }
    if (!problems.empty()) return tl::unexpected(problems);
    if (!skipped.empty())
        listings.front().warnings.insert(listings.front().warnings.end(), skipped.begin(), skipped.end());
    return listings;
}

tl::expected<std::vector<UsagePoint>, Problems> parse_usage(std::string_view text) {
    auto table = table_of(text, usage_roles(), {});
    if (!table) return tl::unexpected(table.error());
    Problems problems;
    std::vector<std::pair<UsagePoint, int>> read;  // and its line
    for (const auto& line : table->lines) {
        const auto fields = fields_of(line.text, table->separator);
        const auto time = field_at(fields, table->columns.at(0), "time").and_then(
            [](const std::string& f) -> tl::expected<Instant, std::string> { return parse_instant(f); });
        const auto live = field_at(fields, table->columns.at(1), "live").and_then(
            [](const std::string& f) { return size_of(f); });
        if (!time) add(problems, line.number, time.error());
        if (!live) add(problems, line.number, live.error());
        if (time && live) read.push_back({{*time, *live}, line.number});
    }
    std::stable_sort(read.begin(), read.end(),
                     [](const auto& a, const auto& b) { return a.first.time < b.first.time; });
    for (std::size_t i = 1; i < read.size(); ++i)
        if (read[i].first.time == read[i - 1].first.time)
            add(problems, read[i].second,
                fmt::format("a second point at {}, as on line {}: give one a moment",
                            format_instant(read[i].first.time), read[i - 1].second));
    if (!problems.empty()) return tl::unexpected(problems);
    std::vector<UsagePoint> points;
    for (const auto& [point, line] : read) points.push_back(point);
    return points;
}

}  // namespace ullage
