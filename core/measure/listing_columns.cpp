// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/listing_columns.h"

#include "core/units/calendar.h"
#include "core/units/quantity_text.h"

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <fmt/format.h>

namespace ullage {

const std::vector<ColumnRole>& listing_roles() {
    static const std::vector<ColumnRole> roles = {
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

tl::expected<double, std::string> size_of(std::string_view field) {
    // Whole numbers that a double holds exactly, as nearly all are.
    constexpr std::size_t most_exact_digits = 15;
    if (!field.empty() && field.size() <= most_exact_digits) {
        std::int64_t bytes = 0;
        const auto [end, failure] = std::from_chars(field.data(), field.data() + field.size(), bytes);
        if (failure == std::errc() && end == field.data() + field.size() && bytes >= 0)
            return static_cast<double>(bytes);
    }
    std::string text(field);
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

namespace {

bool is_likely_time(std::string_view field) {
    const auto taken = parse_instant(field);
    if (!taken) return false;
    const auto year = std::chrono::year_month_day(std::chrono::floor<std::chrono::days>(*taken)).year();
    return year >= std::chrono::year(1990) && year <= std::chrono::year(2100);
}

std::vector<std::string> roles_by_content(const std::vector<std::string>& row) {
    std::vector<std::string> roles(row.size());
    const auto give = [&](const char* role, auto fits) {
        const auto it = std::find_if(row.begin(), row.end(), fits);
        if (it != row.end()) roles[std::size_t(it - row.begin())] = role;
    };
    give("taken", is_likely_time);
    give("snapshot", [](const std::string& field) { return field.find('@') != std::string::npos; });
    return roles;
}

}  // namespace

ListingPreview preview_listing(const NextPiece& next, std::size_t rows) {
    ListingPreview preview;
    preview.rows = first_rows(next, rows + 1);
    if (preview.rows.empty()) return preview;
    const auto& first = preview.rows.front();
    const bool is_header = std::none_of(first.begin(), first.end(), [](const std::string& field) {
        return parse_instant(field) || size_of(field);
    });
    if (is_header) {
        preview.header = first;
        preview.rows.erase(preview.rows.begin());
        preview.roles = roles_of_names(preview.header, listing_roles());
    } else {
        preview.roles = roles_by_content(first);
    }
    if (preview.rows.size() > rows) preview.rows.resize(rows);
    std::size_t longest = preview.roles.size();
    for (const auto& row : preview.rows) longest = std::max(longest, row.size());
    preview.roles.resize(longest);
    return preview;
}

}  // namespace ullage
