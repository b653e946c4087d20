// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/fuzz/targets.h"

#include "app/cli/arguments.h"
#include "app/cli/measure_report.h"
#include "core/link/hours.h"
#include "core/measure/listing.h"
#include "core/measure/listing_columns.h"
#include "core/outlook/measured_view.h"
#include "core/site/site_json.h"
#include "core/units/quantity_text.h"
#include "tests/core/site/values_of.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstring>
#include <fmt/format.h>
#include <vector>

namespace ullage::fuzzing {

namespace {

/// Empty if a terminal can show the words as they are; else what is in them.
std::string strange(const std::string& words) {
    for (std::size_t i = 0; i < words.size(); ++i) {
        const auto c = static_cast<unsigned char>(words[i]);
        if (c < 0x20 || c == 0x7F) return fmt::format("the control character {:#x}", c);
    }
    return {};
}

std::string fault_of(const Problems& problems) {
    if (problems.empty()) return "refused without a problem";
    for (const Problem& p : problems) {
        if (p.what.empty()) return "a problem without words at " + p.where;
        for (const std::string& words : {p.where, p.what})
            if (const std::string what = strange(words); !what.empty()) return what + " in " + words;
        if (!p.where.empty() && p.where[0] != '/' && p.where.rfind("line ", 0) != 0)
            return "a place that is no pointer and no line: " + p.where;
    }
    return {};
}

std::string fault_of(const std::string& sentence) {
    return sentence.empty() ? "refused without a word" : strange(sentence);
}

std::vector<std::string_view> lines_of(std::string_view text) {
    std::vector<std::string_view> lines;
    while (!text.empty()) {
        const std::size_t end = text.find('\n');
        lines.push_back(text.substr(0, end));
        if (end == std::string_view::npos) break;
        text.remove_prefix(end + 1);
    }
    return lines;
}

bool near(double a, double b, double relative) { return std::fabs(a - b) <= relative * std::fabs(b); }

// -- quantities

template <class T>
double value_of(const T& quantity) {
    return quantity.value;
}
double value_of(double value) { return value; }

template <class Parse, class Exact, class Shown>
std::string try_unit(const char* name, std::string_view text, Parse parse, Exact exact, Shown shown) {
    const auto value = parse(text);
    if (!value) {
        const std::string fault = fault_of(value.error());
        return fault.empty() ? "" : fmt::format("{}: {}", name, fault);
    }
    if (!std::isfinite(value_of(*value))) return fmt::format("{}: not finite", name);
    const std::string words = exact(*value);
    const auto back = parse(words);
    if (!back || !(*back == *value)) return fmt::format("{}: {} reads back otherwise", name, words);
    if (exact(*back) != words) return fmt::format("{}: {} is written otherwise again", name, words);
    // Seventeen digits tell any double apart; the sum of the conversions may lose the last of them.
    const std::string long_words = shown(*value, 17);
    const auto shown_back = parse(long_words);
    if (!shown_back) return fmt::format("{}: {} cannot be read", name, long_words);
    if (std::fabs(value_of(*value)) > 1e-290 && !near(value_of(*shown_back), value_of(*value), 1e-14))
        return fmt::format("{}: {} reads as {}", name, long_words, value_of(*shown_back));
    return {};
}

template <class T, class Parse, class Exact>
std::string try_number(const char* name, T value, Parse parse, Exact exact) {
    const auto back = parse(exact(value));
    if (!back || !(*back == value)) return fmt::format("{}: {} does not come back", name, exact(value));
    return {};
}

std::string exact_share(double value) { return to_text(Amount{value, Amount::Of::live_share}); }

template <class Parse, class Format>
std::string try_text(const char* name, std::string_view text, Parse parse, Format format) {
    const auto value = parse(text);
    if (!value) {
        const std::string fault = fault_of(value.error());
        return fault.empty() ? "" : fmt::format("{}: {}", name, fault);
    }
    const auto back = parse(format(*value));
    if (!back || !(*back == *value)) return fmt::format("{}: {} reads back otherwise", name, format(*value));
    return {};
}

// -- listings

std::string in_field(const std::string& text) {
    std::string out = "\"";
    for (const char c : text) out += c == '"' ? std::string("\"\"") : std::string(1, c);
    return out + "\"";
}

std::string written_out(const std::vector<Listing>& listings) {
    std::string out = "snapshot\ttaken\tunique\tlive\twritten\n";
    for (const auto& listing : listings)
        for (const auto& s : listing.snapshots)
            out += fmt::format("{}\t{}\t{}\t{}\t{}\n", in_field(s.name), s.taken.time_since_epoch().count(),
                               exact_bytes({s.unique_bytes}), exact_bytes({s.live_bytes}),
                               exact_bytes({s.written_bytes}));
    return out;
}

std::string fault_of(const std::vector<Listing>& listings) {
    if (listings.empty()) return "read, and nothing in it";
    for (const auto& listing : listings) {
        if (listing.snapshots.empty()) return "a dataset without snapshots";
        for (std::size_t i = 0; i < listing.snapshots.size(); ++i) {
            const auto& s = listing.snapshots[i];
            for (const double bytes : {s.unique_bytes, s.live_bytes, s.written_bytes})
                if (!std::isfinite(bytes) || bytes < 0) return fmt::format("a size of {}", bytes);
            if (i > 0 && s.taken <= listing.snapshots[i - 1].taken) return "times that do not rise";
        }
        for (const auto& warning : listing.warnings)
            if (const auto fault = fault_of(warning); !fault.empty()) return fault;
    }
    return {};
}

bool same_snapshots(const std::vector<Listing>& a, const std::vector<Listing>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Listing& x, const Listing& y) {
        return x.dataset == y.dataset &&
               std::equal(x.snapshots.begin(), x.snapshots.end(), y.snapshots.begin(), y.snapshots.end(),
                          [](Snapshot s, const Snapshot& t) {
                              s.line = t.line;
                              return s == t;
                          });
    });
}

std::string fault_of_measuring(const Listing& listing) {
    MeasureOptions few;
    few.replicates = 2;
    const auto m = measure(listing, few);
    if (!m) return fault_of(m.error());
    for (const double figure : {m->live_bytes, m->held_bytes, m->fit.relative_error, m->growth.middle_rate(),
                                m->growth.rate_spread(), m->written(1), m->written(days_per_month),
                                m->day_variation()})
        if (!std::isfinite(figure)) return fmt::format("measured: a figure of {}", figure);
    if (m->held_bytes < 0 || m->written(1) < 0) return "measured: bytes below 0";
    const std::vector<cli::Measured> all{{*m, measured_steps(listing), {}}};
    const std::string words = cli::measure_text(all);
    if (words.find("nan") != std::string::npos && listing.dataset.find("nan") == std::string::npos)
        return "measured: not a number in " + words;
    return cli::measure_json(all).empty() ? "measured: no JSON" : "";
}

}  // namespace

std::string try_site(std::string_view text) {
    const auto site = parse_site(text);
    if (!site) return fault_of(site.error());
    if (const auto problems = validate(*site); !problems.empty())
        return "parsed, but not valid: " + problems.front().where + ": " + problems.front().what;
    const std::string once = write_site(*site);
    const auto again = parse_site(once);
    if (!again)
        return "what was written is refused: " + again.error().front().where + ": " +
               again.error().front().what;
    if (testing::values_of(*again) != testing::values_of(*site)) return "read back with other values";
    const std::string twice = write_site(*again);
    if (twice != once) return "written otherwise the second time";
    const auto third = parse_site(twice);
    if (!third || *third != *again) return "read otherwise the second time";
    return {};
}

std::string try_quantity(std::string_view text) {
    std::string broke;
    const auto note = [&](std::string fault) {
        if (broke.empty()) broke = std::move(fault);
    };
    note(try_unit("bytes", text, parse_bytes, exact_bytes,
                  [](Bytes v, int digits) { return format_bytes(v, Prefixes::decimal, digits); }));
    note(try_unit("bytes, binary", text, parse_bytes, exact_bytes,
                  [](Bytes v, int digits) { return format_bytes(v, Prefixes::binary, digits); }));
    note(try_unit("bit rate", text, parse_bit_rate, exact_bit_rate, format_bit_rate));
    note(try_unit("byte rate", text, parse_byte_rate, exact_byte_rate, format_byte_rate));
    note(try_unit("duration", text, parse_duration, exact_duration, format_duration));
    note(try_unit("share", text, parse_fraction, exact_share, format_percent));
    note(try_text("power", text, parse_power, exact_power));
    note(try_text("date", text, parse_date, format_date));
    note(try_text("instant", text, parse_instant, format_instant));
    note(try_text("time of day", text, parse_time_of_day, format_time_of_day));
    note(try_text("amount", text, parse_amount, [](const Amount& a) { return to_text(a); }));
    note(try_text("period", text, parse_period, [](const Period& p) { return to_text(p); }));
    note(try_text("redundancy", text, parse_redundancy, [](const Redundancy& r) { return to_text(r); }));
    note(try_text("wrapper", text, parse_wrapper, [](Wrapper w) { return to_text(w); }));
    note(try_text("days", text, parse_days, days_text));
    const std::vector<std::string> known{"datasets", "boxes", "per_day", ""};
    const std::string hint = nearest_word(text, known);
    if (!hint.empty() && std::find(known.begin(), known.end(), hint) == known.end())
        note("a hint that is not known");
    double number = 0;
    if (text.size() >= sizeof number) {
        std::memcpy(&number, text.data(), sizeof number);
        if (std::isfinite(number)) {
            note(try_number("bytes", Bytes{number}, parse_bytes, exact_bytes));
            note(try_number("bit rate", BitsPerSecond{number}, parse_bit_rate, exact_bit_rate));
            note(try_number("byte rate", BytesPerSecond{number}, parse_byte_rate, exact_byte_rate));
            note(try_number("duration", Duration{number}, parse_duration, exact_duration));
            note(try_number("power", Power{number}, parse_power, exact_power));
            note(try_number("share", number, parse_fraction, exact_share));
        }
    }
    return broke;
}

std::string try_listing(std::string_view text) {
    constexpr std::size_t few_rows = 6;
    const auto preview = preview_listing(whole_text(text), few_rows);
    if (preview.rows.size() > few_rows) return "a preview with more rows than asked for";
    for (const auto& row : preview.rows)
        if (row.size() > preview.columns()) return "a preview with a row wider than its columns";
    const auto strict = parse_listing(text);
    ListingOptions loose_options;
    loose_options.skip_bad_lines = true;
    const auto loose = parse_listing(text, loose_options);
    if (const auto usage = parse_usage(text); !usage) {
        if (const auto fault = fault_of(usage.error()); !fault.empty()) return "usage: " + fault;
    } else {
        for (std::size_t i = 0; i < usage->size(); ++i) {
            if (!std::isfinite((*usage)[i].live_bytes) || (*usage)[i].live_bytes < 0) return "usage: a size";
            if (i > 0 && (*usage)[i].time <= (*usage)[i - 1].time) return "usage: times that do not rise";
        }
    }
    if (!loose) {
        if (strict) return "refused only when bad lines may be left out";
        if (const auto fault = fault_of(loose.error()); !fault.empty()) return fault;
    } else if (const auto fault = fault_of(*loose); !fault.empty()) {
        return fault;
    }
    if (!strict) return fault_of(strict.error());
    if (*strict != *loose) return "read otherwise when bad lines may be left out, and there are none";
    if (const auto fault = fault_of(*strict); !fault.empty()) return fault;
    if (!preview.header.empty()) {
        const auto by_roles = parse_listing(text, {preview.roles, false});
        if (!by_roles || !same_snapshots(*by_roles, *strict)) return "read otherwise by the roles its header gives";
    }
    const auto again = parse_listing(written_out(*strict));
    if (!again) return "what was written is refused: " + again.error().front().what;
    if (!same_snapshots(*again, *strict)) return "read back with other snapshots";
    constexpr std::size_t most_measured = 8;  // a fit takes milliseconds, and grows with the gaps
    for (const auto& listing : *strict)
        if (listing.snapshots.size() <= most_measured)
            if (const auto fault = fault_of_measuring(listing); !fault.empty()) return fault;
    return {};
}

/// The first line names a zone, the second a moment; each further one is "DAYS FROM TO SHARE".
std::string try_hours(std::string_view text) {
    const auto lines = lines_of(text);
    if (lines.empty()) return {};
    const auto zone = TimeZone::find(std::string(lines[0]));
    if (!zone) return fault_of(zone.error());
    const auto moment = lines.size() > 1 ? parse_instant(lines[1]) : parse_instant("0");
    if (!moment) return fault_of(moment.error());
    std::vector<OpenHours> hours;
    constexpr std::size_t most_lines = 40;
    for (std::size_t i = 2; i < std::min(lines.size(), most_lines); ++i) {
        std::array<std::string_view, 4> words{};
        std::string_view rest = lines[i];
        for (auto& word : words) {
            const std::size_t space = rest.find(' ');
            word = rest.substr(0, space);
            rest.remove_prefix(space == std::string_view::npos ? rest.size() : space + 1);
        }
        const auto days = parse_days(words[0]);
        const auto from = parse_time_of_day(words[1]);
        const auto to = parse_time_of_day(words[2]);
        const auto share = parse_fraction(words[3]);
        if (!days) return fault_of(days.error());
        if (!from) return fault_of(from.error());
        if (!to) return fault_of(to.error());
        if (!share) return fault_of(share.error());
        OpenHours h;
        h.days = *days;
        h.from = *from;
        h.to = *to;
        h.share = *share;
        hours.push_back(h);
    }
    const WeeklyHours week(hours, *zone);
    const double open = week.open_hours_per_week();
    if (!(open >= 0 && open <= 168)) return fmt::format("{} open hours a week", open);
    if (week.never_opens() && open != 0) return "never opens, and has open hours";
    if (week.always_open() && open != 168) return fmt::format("always open, for {} hours", open);
    const Instant end = *moment + std::chrono::days(15);
    Instant last = *moment;
    double open_s = 0;
    for (const auto& s : week.stretches(*moment, end)) {
        if (s.from < last || s.to <= s.from || s.to > end) return "stretches out of order";
        if (!(s.share > 0 && s.share <= 1)) return fmt::format("a share of {}", s.share);
        for (const Instant t : {s.from, s.to - std::chrono::seconds(1)})
            if (week.share_at(t) != s.share) return "the share at an instant is not that of its stretch";
        if (s.from > last && week.share_at(last) != 0) return "open between two stretches";
        last = s.to;
        open_s += static_cast<double>((s.to - s.from).count());
    }
    // Fifteen days hold two weeks and a day; a change of clocks moves some hours.
    if (open_s / 3600 < 2 * open - 26 || open_s / 3600 > 2 * open + 50)
        return fmt::format("{} h open in 15 days, {} in a week", open_s / 3600, open);
    return {};
}

/// One word a line.
std::string try_arguments(std::string_view text) {
    std::vector<std::string> words;
    for (const auto line : lines_of(text)) words.emplace_back(line);
    const auto a = cli::parse_arguments(words);
    if (!a) return a.error().empty() ? "refused without a word" : "";
    if (*a != *cli::parse_arguments(words)) return "read otherwise the second time";
    using Command = cli::Arguments::Command;
    if (a->command == Command::help || a->command == Command::version) return {};
    if (a->settings.paths < 1 || a->settings.paths > 1'000'000) return "paths out of range";
    if (a->settings.threads < 0 || a->settings.threads > 1024) return "threads out of range";
    if (a->confidence && !(*a->confidence > 0.5 && *a->confidence < 1)) return "confidence out of range";
    if (!std::isfinite(a->outage_days) || a->outage_days < 0) return "outage days out of range";
    if (a->command != Command::window && a->files.empty()) return "a command without a file";
    if (a->command == Command::outage && !(a->send && a->outage_from && a->outage_days > 0))
        return "an outage without its question";
    // A bare word more never turns what is accepted into another command.
    words.insert(words.end(), {"--", "one more"});
    const auto more = cli::parse_arguments(words);
    if (more && (more->command != a->command || more->settings != a->settings)) return "a file changes the rest";
    return {};
}

}  // namespace ullage::fuzzing
