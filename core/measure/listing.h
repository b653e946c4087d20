// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Snapshot listings and usage histories: delimited text in, checked tables out.
///
/// A listing is one snapshot a line, oldest first or not; separated by tab, comma, semicolon or runs
/// of spaces; a header row names the columns, or `ListingOptions::columns` does. Roles and the names
/// accepted for them (any case):
///   snapshot    snapshot, name           what stands before an `@` names the dataset
///   taken       taken, creation, time    epoch seconds or ISO 8601
///   unique      unique, used
///   live        live, referenced, refer
///   written     written
///   logical, compression                 read over; other columns are ignored
/// If several columns have a name of one role, the name that stands first here counts.
/// Sizes are exact bytes or carry a unit. Blank lines and lines that start with `#` are passed over.
/// Fields may be quoted with `"`. A line that cannot be read is a problem with its line number.

#include "core/measure/delimited.h"
#include "core/units/calendar.h"
#include "core/units/problem.h"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace ullage {

struct Snapshot {
    std::string name;
    Instant taken{};
    double unique_bytes = 0;   ///< held by this snapshot alone
    double live_bytes = 0;     ///< reachable from it
    double written_bytes = 0;  ///< in it and not in the one before
    int line = 0;              ///< of the file, from 1
    bool operator==(const Snapshot&) const = default;
};

/// The snapshots of one dataset, oldest first, times strictly increasing.
struct Listing {
    std::string dataset;  ///< empty if the names have no `@`
    std::vector<Snapshot> snapshots;
    std::vector<std::string> warnings;  ///< e.g. "lines were not in order of time: sorted"
    bool operator==(const Listing&) const = default;
};

struct ListingOptions {
    /// Roles by position, anything else for a column that is not used; empty: the first row is a header. With
    /// roles given, a first row in which neither the time nor any size can be read is a header too, and passed over.
    std::vector<std::string> columns;
    bool skip_bad_lines = false;       ///< leave out lines that cannot be read (reported as warnings)
};

/// All that the lines say, those that cannot be read beside the others.
struct ListingLines {
    std::vector<Listing> listings;   ///< one per dataset, in order of first appearance; may be none
    Problems bad_lines;              ///< the first 50 that cannot be read
    std::size_t bad_line_count = 0;  ///< all of them
};
/// `text_bytes`: how long the text is in all, if that is known, so that room can be made at once.
/// Errors: no line at all, a missing required column, two snapshots of a dataset at the same instant, times more
/// than 100 years apart.
tl::expected<ListingLines, Problems> read_listing_lines(const NextPiece& next, const std::vector<std::string>& columns,
                                                         std::size_t text_bytes = 0);

/// One Listing per dataset, in order of first appearance. Errors: no snapshot at all, a missing
/// required column, lines that cannot be read, two snapshots of a dataset at the same instant, times too far apart,
/// negative sizes, written or unique bytes larger than live bytes.
tl::expected<std::vector<Listing>, Problems> parse_listing(std::string_view text,
                                                           const ListingOptions& = {});
/// The same of a text that comes in pieces.
tl::expected<std::vector<Listing>, Problems> parse_listing(const NextPiece& next, const ListingOptions& = {},
                                                           std::size_t text_bytes = 0);

/// Live bytes over time: columns `time`, `live`, same rules.
struct UsagePoint {
    Instant time{};
    double live_bytes = 0;
    bool operator==(const UsagePoint&) const = default;
};
tl::expected<std::vector<UsagePoint>, Problems> parse_usage(std::string_view text);
tl::expected<std::vector<UsagePoint>, Problems> parse_usage(const NextPiece& next);

/// The measured files a site refers to, by the path text written in the site.
struct Evidence {
    std::map<std::string, std::vector<Listing>> listings;
    std::map<std::string, std::vector<UsagePoint>> usages;
};

}  // namespace ullage
