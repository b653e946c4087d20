// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/findings.h"
#include "core/findings/words.h"

#include <algorithm>
#include <fmt/format.h>
#include <limits>
#include <tuple>

namespace ullage {

namespace {

/// Columns a text takes in a terminal: code points, which is exact for the Latin scripts.
std::size_t columns(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    }));
}

std::string padded(const std::string& text, std::size_t width, bool right) {
    const std::size_t has = columns(text);
    const std::string space(width > has ? width - has : 0, ' ');
    return right ? space + text : text + space;
}

/// Rows of equal length, the first the header; the first column to the left, the rest to the right.
std::string table(const std::vector<std::vector<std::string>>& rows) {
    std::vector<std::size_t> widths(rows.front().size(), 0);
    for (const auto& row : rows)
        for (std::size_t c = 0; c < row.size(); ++c) widths[c] = std::max(widths[c], columns(row[c]));
    std::string text;
    for (std::size_t r = 0; r < rows.size(); ++r) {
        std::string line = "  ";
        for (std::size_t c = 0; c < rows[r].size(); ++c)
            line += padded(rows[r][c], widths[c], c > 0) + (c + 1 < rows[r].size() ? "   " : "");
        while (!line.empty() && line.back() == ' ') line.pop_back();
        text += line + "\n";
    }
    return text;
}

/// Words broken so that no line passes `width` columns; later lines indented.
std::string wrapped(const std::string& text, std::size_t indent, std::size_t width) {
    std::string result;
    std::size_t at = indent;
    std::size_t from = 0;
    bool first_word = true;
    while (from < text.size()) {
        const std::size_t end = std::min(text.find(' ', from), text.size());
        const std::string word = text.substr(from, end - from);
        const std::size_t takes = columns(word);
        if (!first_word && at + 1 + takes > width) {
            result += "\n" + std::string(indent, ' ');
            at = indent;
            first_word = true;
        }
        if (!first_word) {
            result += ' ';
            ++at;
        }
        result += word;
        at += takes;
        first_word = false;
        from = end + 1;
    }
    return result;
}

std::string three_days(const DayQuantiles& q) {
    if (!q.p10) return "not in sight";
    const auto one = [](const std::optional<double>& days) {
        return days ? fmt::format("{:.0f}", *days) : "later";
    };
    return fmt::format("{} / {} / {} d", one(q.p10), one(q.p50), one(q.p90));
}

/// What moves the day of the box that comes to its ceiling soonest, of those with drivers.
std::string what_matters(const Outlook& o) {
    constexpr std::size_t most_rows = 5;
    const auto key = [](const BoxOutlook& b) {
        constexpr double never = std::numeric_limits<double>::infinity();
        return std::make_tuple(b.days_until_ceiling.p50.value_or(never), b.days_until_ceiling.p10.value_or(never),
                               -b.chance_of_ceiling_within_horizon);
    };
    const BoxOutlook* soonest = nullptr;
    for (const auto& b : o.boxes) {
        const bool has = std::any_of(o.drivers.begin(), o.drivers.end(),
                                     [&](const Driver& d) { return d.box == b.name; });
        if (has && (!soonest || key(b) < key(*soonest))) soonest = &b;
    }
    if (!soonest) return {};
    const auto when = [](const std::optional<double>& days) {
        return days ? fmt::format("{:.0f} d", *days) : std::string("not in sight");
    };
    std::vector<std::vector<std::string>> rows = {
        {fmt::format("What matters most for {}", soonest->name), "at its low", "at its high", "of the spread"}};
    for (const auto& d : o.drivers)
        if (d.box == soonest->name && rows.size() <= most_rows)
            rows.push_back({d.input, when(d.low_days), when(d.high_days), fmt::format("{:.0f} %", 100 * d.variance_share)});
    return "\n" + table(rows) +
           "  days until the ceiling with one input low (1 in 10 is lower) or high, the others in the middle\n"
           "  missing to 100 %: what changes from day to day, and what inputs do together\n";
}

std::string offers_table(const Outlook& o) {
    if (o.offers.empty()) return {};
    std::vector<std::vector<std::string>> rows = {
        {"Offers", "for", "usable", "lasts", "ceiling in", "cost", "a TiB-year", "what of it"}};
    std::vector<const OfferOutlook*> order;
    for (const auto& x : o.offers) order.push_back(&x);
    std::stable_sort(order.begin(), order.end(), [](const auto* a, const auto* b) {
        return std::make_tuple(a->box, a->rank) < std::make_tuple(b->box, b->rank);
    });
    for (const auto* x : order)
        rows.push_back({x->name, x->box, format_bytes({x->usable_bytes}), format_percent(x->chance_of_lasting, 2),
                        three_days(x->days_until_ceiling), say_money(x->cost_total, o.currency),
                        say_money(x->cost_per_usable_tib_year, o.currency),
                        x->recommended            ? "recommended"
                        : !x->does_not_go_in.empty() ? "does not go in"
                        : !x->dominated_by.empty()   ? "outdone"
                        : x->holds                   ? "holds"
                                                     : "does not last"});
    return "\n" + table(rows) + "  lasts: share of the futures below the ceiling to the horizon; cost: over the horizon\n";
}

std::string short_hours(double h) { return fmt::format("{:.{}f}", h, h < 10 ? 1 : 0); }

}  // namespace

std::string outlook_tables(const Answer& answer, int width) {
    const auto& o = answer.outlook;
    std::string text = fmt::format("{}, as of {}, {:.1f} years ahead, {} paths, seed {}\n", o.site,
                                   format_date(o.as_of), o.horizon_days / days_per_year, o.paths, o.seed);

    if (!o.boxes.empty()) {
        std::vector<std::vector<std::string>> rows = {
            {"Boxes", "status", "usable", "used now", "at end", "ceiling in", "full in", "order by"}};
        for (const auto& b : o.boxes)
            rows.push_back({b.name, to_string(status_of(b, o.horizon_days)), format_bytes({b.usable_bytes}),
                            format_bytes({b.used_now_bytes}), format_bytes({b.fill.back().used_bytes.p50}),
                            three_days(b.days_until_ceiling), three_days(b.days_until_full),
                            b.order_by ? format_date(*b.order_by) : "not needed"});
        text += "\n" + table(rows) +
                "  ceiling, full: days until 1 in 10 / half / 9 in 10 futures have come to it\n";
    }
    if (!o.sends.empty()) {
        std::vector<std::vector<std::string>> rows = {{"Sends", "status", "goodput", "bound by", "a run",
                                                       "hours", "open h", "late", "copy age h",
                                                       "outage d"}};
        for (const auto& s : o.sends)
            rows.push_back({s.name, to_string(status_of(s, o.confidence)),
                            format_bit_rate({s.goodput.bits_per_second}), to_string(s.bound_by),
                            fmt::format("{} / {}", format_bytes({s.bytes_per_run.p50}),
                                        format_bytes({s.bytes_per_run.p95})),
                            fmt::format("{} / {}", short_hours(s.hours_per_run.p50),
                                        short_hours(s.hours_per_run.p95)),
                            short_hours(s.open_hours_per_run), format_percent(s.chance_of_missing_window, 2),
                            short_hours(s.recovery_point_hours.p50),
                            s.longest_outage_days ? fmt::format("{:.0f}", *s.longest_outage_days)
                            : s.weekdays.empty() ? "no run"
                                                  : "no limit"});
        text += "\n" + table(rows) + "  a run, hours: half of the runs / 19 in 20 stay below\n";
    }
    if (!o.datasets.empty()) {
        std::vector<std::vector<std::string>> rows = {
            {"Datasets", "live", "growth a day", "written 1 h", "1 d", "7 d", "30 d", "turnover"}};
        for (const auto& d : o.datasets)
            rows.push_back({d.name, format_bytes({d.live_bytes}), format_bytes({d.growth_bytes_per_day}),
                            format_bytes({d.written_1h}), format_bytes({d.written_1d}),
                            format_bytes({d.written_7d}), format_bytes({d.written_30d}),
                            d.measured ? "measured" : d.curve.empty() ? "none" : "typed"});
        text += "\n" + table(rows);
    }
    text += offers_table(o);
    text += what_matters(o);
    text += "\nFindings\n";
    constexpr std::size_t indent = 12;
    for (const auto& f : answer.findings)
        text += "  " + padded(to_string(f.level), indent - 2, false) +
                wrapped(f.text, indent, static_cast<std::size_t>(std::max(width, 40))) + "\n";
    text += "\nA forecast is not a backup, and a copy counts when a restore from it has been tried.\n";
    return text;
}

}  // namespace ullage
