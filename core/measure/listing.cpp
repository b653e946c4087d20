// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/listing.h"

#include "core/measure/listing_columns.h"
#include "core/units/quantity_text.h"
#include "core/units/quoted_text.h"
#include "core/words/message.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <functional>
#include <fmt/format.h>

namespace ullage {

namespace {

constexpr std::size_t most_problems = 50;  // enough to see a pattern, short enough to read

const std::vector<ColumnRole>& usage_roles() {
    static const std::vector<ColumnRole> roles = {
        {"time", {"time", "taken", "date"}, true},
        {"live", {"live", "referenced", "refer", "used"}, true},
    };
    return roles;
}

void add(Problems& problems, int line, const std::string& what) {
    if (problems.size() < most_problems)
        problems.push_back({fmt::format("line {}", line), without_controls(what)});
    else if (problems.size() == most_problems)
        problems.push_back({"", fmt::format("and more; the first {} are listed", most_problems)});
}

/// What a history is taken to reach over at most; a time that is wrong by a digit lies far beyond.
constexpr double most_years = 100;

void check_reach(Problems& problems, Instant first, Instant last, int last_line) {
    const double years = days_between(first, last) / days_per_year;
    if (years > most_years)
        add(problems, last_line,
            fmt::format("{} lies {:.0f} years after the earliest time, {}; at most {:.0f} are taken: is one of them "
                        "wrong?", format_instant(last), years, format_instant(first), most_years));
}

/// The snapshot that a line tells of.
tl::expected<Snapshot, std::string> snapshot_of(int line, const LineFields& fields) {
    Snapshot s;
    s.line = line;
    std::array<std::string_view, 5> texts;
    for (std::size_t r = 0; r < texts.size(); ++r) {
        const auto field = fields.at(r);
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
    return s;
}

/// Whether a line that is no snapshot is a header row: neither its time nor any of its sizes can be read.
bool names_columns(const LineFields& fields) {
    const auto reads = [&](std::size_t role, auto read) {
        const auto field = fields.at(role);
        return field && bool(read(*field));
    };
    if (reads(1, [](std::string_view f) { return parse_instant(f); })) return false;
    for (const std::size_t role : {2, 3, 4})
        if (reads(role, [](std::string_view f) { return size_of(f); })) return false;
    return true;
}

/// What stands before the @ of a snapshot's name; empty without one.
std::string_view dataset_of(std::string_view name) {
    const std::size_t at = name.find('@');
    return at == std::string_view::npos ? std::string_view() : name.substr(0, at);
}

}  // namespace

tl::expected<std::vector<Listing>, Problems> parse_listing(std::string_view text,
                                                           const ListingOptions& options) {
    return parse_listing(whole_text(text), options);
}

tl::expected<ListingLines, Problems> read_listing_lines(const NextPiece& next, const std::vector<std::string>& columns,
                                                         std::size_t text_bytes) {
    ListingLines all;
    auto& listings = all.listings;
    std::map<std::string, std::size_t, std::less<>> index;
    std::size_t last = 0;  // most lines are of the dataset of the line before
    const auto listing_of = [&](std::string_view dataset) -> Listing& {
        if (last < listings.size() && listings[last].dataset == dataset) return listings[last];
        auto it = index.find(dataset);
        if (it == index.end()) {
            it = index.emplace(dataset, listings.size()).first;
            listings.push_back({std::string(dataset), {}, {}});
        }
        last = it->second;
        return listings[last];
    };
    std::size_t seen_bytes = 0;
    const auto counted = [&] {
        const auto piece = next();
        seen_bytes += piece.size();
        return piece;
    };
    // Room for all to come at once, where one dataset fills the text: a list that grows by copying takes more. What
    // is not written to costs nothing.
    const auto make_room = [&](std::vector<Snapshot>& list) {
        constexpr std::size_t many = 1 << 16;
        constexpr double slack = 4.0 / 3;
        if (list.size() != list.capacity() || list.size() < many || listings.size() > 1 || text_bytes <= seen_bytes) return;
        list.reserve(static_cast<std::size_t>(slack * static_cast<double>(list.size()) *
                                              (static_cast<double>(text_bytes) / static_cast<double>(seen_bytes))));
    };
    bool may_be_header = !columns.empty();
    const auto read = read_delimited(counted, listing_roles(), columns, [&](int line, const LineFields& fields) {
        auto parsed = snapshot_of(line, fields);
        if (parsed) {
            auto& listing = listing_of(dataset_of(parsed->name));
            make_room(listing.snapshots);
            listing.snapshots.push_back(*std::move(parsed));
        } else if (!may_be_header || !names_columns(fields)) {
            ++all.bad_line_count;
            if (all.bad_lines.size() < most_problems) add(all.bad_lines, line, parsed.error());
        }
        may_be_header = false;
    });
    if (!read) return tl::unexpected(read.error());

    Problems problems;
    for (auto& listing : listings) {
        auto& list = listing.snapshots;
        const auto earlier = [](const Snapshot& a, const Snapshot& b) { return a.taken < b.taken; };
        const auto later = [](const Snapshot& a, const Snapshot& b) { return a.taken > b.taken; };
        if (!std::is_sorted(list.begin(), list.end(), earlier)) {
            const bool newest_first = std::is_sorted(list.begin(), list.end(), later);
            std::stable_sort(list.begin(), list.end(), earlier);
            if (!newest_first)
                listing.warnings.emplace_back(translatable("the lines were not in order of time; they were sorted"));
        }
        for (std::size_t i = 1; i < list.size(); ++i)
            if (list[i].taken == list[i - 1].taken)
                add(problems, list[i].line,
                    fmt::format("“{}” was taken at {}, as was “{}” (line {}): two snapshots of a "
                                "dataset at one instant cannot be told apart",
                                list[i].name, format_instant(list[i].taken), list[i - 1].name,
                                list[i - 1].line));
        check_reach(problems, list.front().taken, list.back().taken, list.back().line);
    }
    if (!problems.empty()) return tl::unexpected(problems);
    return all;
}

tl::expected<std::vector<Listing>, Problems> parse_listing(const NextPiece& next, const ListingOptions& options,
                                                           std::size_t text_bytes) {
    auto all = read_listing_lines(next, options.columns, text_bytes);
    if (!all) return tl::unexpected(std::move(all.error()));
    const std::size_t more = all->bad_line_count - all->bad_lines.size();
    if (all->bad_line_count > 0 && !options.skip_bad_lines) {
        if (more > 0)
            all->bad_lines.push_back({"", fmt::format("and more; the first {} are listed", most_problems)});
        return tl::unexpected(std::move(all->bad_lines));
    }
    if (all->listings.empty())
        return tl::unexpected(Problems{{"", "no line of the listing could be read"}});
    auto& warnings = all->listings.front().warnings;
    for (const auto& bad : all->bad_lines)
        warnings.push_back(fmt::format("{} left out: {}", bad.where, bad.what));
    if (more > 0) warnings.push_back(fmt::format("{} more lines left out", more));
    return std::move(all->listings);
}

tl::expected<std::vector<UsagePoint>, Problems> parse_usage(std::string_view text) {
    return parse_usage(whole_text(text));
}

tl::expected<std::vector<UsagePoint>, Problems> parse_usage(const NextPiece& next) {
    Problems problems;
    std::vector<std::pair<UsagePoint, int>> read;  // and its line
    const auto done = read_delimited(next, usage_roles(), {}, [&](int line, const LineFields& fields) {
        const auto time = fields.at(0).and_then(
            [](std::string_view f) -> tl::expected<Instant, std::string> { return parse_instant(f); });
        const auto live = fields.at(1).and_then([](std::string_view f) { return size_of(f); });
        if (!time) add(problems, line, time.error());
        if (!live) add(problems, line, live.error());
        if (time && live) read.push_back({{*time, *live}, line});
    });
    if (!done) return tl::unexpected(done.error());
    std::stable_sort(read.begin(), read.end(),
                     [](const auto& a, const auto& b) { return a.first.time < b.first.time; });
    for (std::size_t i = 1; i < read.size(); ++i)
        if (read[i].first.time == read[i - 1].first.time)
            add(problems, read[i].second,
                fmt::format("a second point at {}, as on line {}: give one a moment",
                            format_instant(read[i].first.time), read[i - 1].second));
    if (!read.empty()) check_reach(problems, read.front().first.time, read.back().first.time, read.back().second);
    if (!problems.empty()) return tl::unexpected(problems);
    std::vector<UsagePoint> points;
    for (const auto& [point, line] : read) points.push_back(point);
    return points;
}

}  // namespace ullage
