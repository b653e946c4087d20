// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The site file: JSON in and out, and validation.
///
/// Reading reports every problem in one run, each with its JSON pointer, what is wrong and what would
/// be right; an unknown key names the nearest known one; a key that starts with "x-" is kept. Text
/// that is not JSON at all is one problem, whose `where` is "line 3, column 7".
/// A quantity that was typed keeps its text; a plain JSON number has none and is written as the
/// shortest exact text ("131072" comes back as "128 KiB"). A text that no longer says its value (the
/// value was changed in code) is not written.
/// Writing then reading gives an equal site, but that values without a text have got their exact one;
/// writing what was read, then reading and writing again, gives the same bytes.
/// A plain number of `days` and `days_away` is in days, as the keys say.
/// Limits: a file of at most 64 MiB, a million values, nested at most 64 deep; numbers finite; names
/// of at most 200 bytes; no control characters in texts (quoted_text.h); at most 500 of each kind of
/// item, 1000 events of a dataset; sizes up to 1000 EB, rates up to 1000 Tbit/s, times up to 100 years.

#include "core/site/site.h"
#include "core/units/problem.h"

#include <string>
#include <string_view>
#include <tl/expected.hpp>

namespace ullage {

/// Reads a site from JSON text. On success the site is valid.
tl::expected<Site, Problems> parse_site(std::string_view json_text);

/// The site as JSON text, two-space indent, keys in the order of the format, a newline at the end.
/// Members equal to their default that were optional are left out.
std::string write_site(const Site&);

/// What is wrong with the meaning of a site: names that do not exist or are used twice, quantities
/// out of range, a send to its own source, sends that form a cycle, week figures that contradict day
/// figures, pools that cannot be built. Empty: valid.
Problems validate(const Site&);

/// Reads and parses a file; the error names the file. Touches no other file.
tl::expected<Site, BadInput> read_site_file(const std::string& path);

/// Writes atomically (a new file beside it, flushed, then renamed); the old file survives a failure.
/// The error is a sentence.
tl::expected<void, std::string> write_site_file(const std::string& path, const Site&);

// Texts of single values, as the file and the forms use them.
std::string to_text(const Amount&);
std::string to_text(const Period&);        ///< "1 d", "15 min", "1 mo"
std::string to_text(Money);                ///< "2150": the shortest that reads back the same
std::string to_text(const Redundancy&);    ///< "parity-2", "mirror-2", "none"
std::string to_text(Wrapper);
std::string to_text(Offer::As);            ///< "drives", "added", "box"
std::string days_text(const std::array<bool, 7>&);  ///< "Mon-Fri", "Sat-Sun", "Mon,Wed"
tl::expected<Amount, std::string> parse_amount(std::string_view);
tl::expected<Period, std::string> parse_period(std::string_view);
/// A number, its currency after it if any, and "/kWh" after that: "2150", "2150 EUR", "0.32 EUR/kWh".
tl::expected<Money, std::string> parse_money(std::string_view);
/// What follows the number: "EUR", "EUR/kWh", or nothing.
std::string unit_of_money(std::string_view);
tl::expected<Redundancy, std::string> parse_redundancy(std::string_view);
tl::expected<Wrapper, std::string> parse_wrapper(std::string_view);
tl::expected<std::array<bool, 7>, std::string> parse_days(std::string_view);

}  // namespace ullage
