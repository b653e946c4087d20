// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/findings.h"
#include "core/findings/words.h"

#include <algorithm>
#include <cmath>
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

std::string three_days(const DayQuantiles& q, const Wording& w) {
    if (!q.p10) return w.say("not in sight");
    const auto one = [&](const std::optional<double>& days) {
        return days ? w.whole(std::lround(*days)) : w.say("later");
    };
    return fmt::format("{} / {} / {} d", one(q.p10), one(q.p50), one(q.p90));
}

/// What moves the day of the box that comes to its ceiling soonest, of those with drivers.
std::string what_matters(const Outlook& o, const Wording& w) {
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
    const auto when = [&](const std::optional<double>& days) {
        return days ? fmt::format("{:.0f} d", *days) : w.say("not in sight");
    };
    std::vector<std::vector<std::string>> rows = {{w.say("What matters most for {}", soonest->name),
                                                   w.say("at its low"), w.say("at its high"), w.say("of the spread")}};
    for (const auto& d : o.drivers)
        if (d.box == soonest->name && rows.size() <= most_rows)
            rows.push_back({w(d.input), when(d.low_days), when(d.high_days), fmt::format("{:.0f} %", 100 * d.variance_share)});
    return "\n" + table(rows) + "  " +
           w.say("days until the ceiling with one input low (1 in 10 is lower) or high, the others in the middle") + "\n  " +
           w.say("missing to 100 %: what changes from day to day, and what inputs do together") + "\n";
}

std::string standing(const OfferOutlook& x, const Wording& w) {
    if (x.recommended) return w.say("recommended");
    if (!x.does_not_go_in.empty()) return w.say("does not go in");
    if (!x.dominated_by.empty()) return w.say("outdone");
    return x.holds ? w.say("holds") : w.say("does not last");
}

std::string offers_table(const Outlook& o, const Wording& w) {
    if (o.offers.empty()) return {};
    std::vector<std::vector<std::string>> rows = {{w.say("Offers"), w.say_as("for a box", "for"), w.say("usable"),
                                                   w.say_as("an offer", "lasts"), w.say("ceiling in"), w.say("cost"),
                                                   w.say("a TiB-year"), w.say("what of it")}};
    std::vector<const OfferOutlook*> order;
    for (const auto& x : o.offers) order.push_back(&x);
    std::stable_sort(order.begin(), order.end(), [](const auto* a, const auto* b) {
        return std::make_tuple(a->box, a->rank) < std::make_tuple(b->box, b->rank);
    });
    for (const auto* x : order)
        rows.push_back({x->name, x->box, w.bytes(x->usable_bytes), w.percent(x->chance_of_lasting, 2),
                        three_days(x->days_until_ceiling, w), w.money(x->cost_total, o.currency),
                        w.money(x->cost_per_usable_tib_year, o.currency), standing(*x, w)});
    return "\n" + table(rows) + "  " +
           w.say("lasts: share of the futures below the ceiling to the horizon; cost: over the horizon") + "\n";
}

std::string limit_word(Limit limit, const Wording& w) {
    switch (limit) {
        case Limit::rate: return w.say_as("limit", "rate");
        case Limit::window: return w.say_as("limit", "window");
        case Limit::loss: return w.say_as("limit", "loss");
        case Limit::cipher: return w.say_as("limit", "cipher");
        case Limit::disk: return w.say_as("limit", "disk");
        case Limit::hours: return w.say_as("limit", "hours");
    }
    return {};
}

std::string short_hours(double h, const Wording& w) { return w.decimals(h, h < 10 ? 1 : 0); }

std::string boxes_table(const Outlook& o, const Wording& w) {
    if (o.boxes.empty()) return {};
    std::vector<std::vector<std::string>> rows = {{w.say("Boxes"), w.say("status"), w.say("usable"), w.say("used now"),
                                                   w.say("at end"), w.say("ceiling in"), w.say("full in"),
                                                   w.say("order by")}};
    for (const auto& b : o.boxes)
        rows.push_back({b.name, level_word(status_of(b, o.horizon_days), w), w.bytes(b.usable_bytes),
                        w.bytes(b.used_now_bytes), w.bytes(b.fill.back().used_bytes.p50),
                        three_days(b.days_until_ceiling, w), three_days(b.days_until_full, w),
                        b.order_by ? w.date(*b.order_by) : w.say("not needed")});
    return "\n" + table(rows) + "  " +
           w.say("ceiling, full: days until 1 in 10 / half / 9 in 10 futures have come to it") + "\n";
}

std::string sends_table(const Outlook& o, const Wording& w) {
    if (o.sends.empty()) return {};
    std::vector<std::vector<std::string>> rows = {{w.say("Sends"), w.say("status"), w.say("goodput"), w.say("bound by"),
                                                   w.say("a run"), w.say("hours"), w.say("open h"), w.say("late"),
                                                   w.say("copy age h"), w.say("outage d")}};
    for (const auto& s : o.sends)
        rows.push_back({s.name, level_word(status_of(s, o.confidence), w), w.bit_rate(s.goodput.bits_per_second),
                        limit_word(s.bound_by, w),
                        fmt::format("{} / {}", w.bytes(s.bytes_per_run.p50), w.bytes(s.bytes_per_run.p95)),
                        fmt::format("{} / {}", short_hours(s.hours_per_run.p50, w), short_hours(s.hours_per_run.p95, w)),
                        short_hours(s.open_hours_per_run, w), w.percent(s.chance_of_missing_window, 2),
                        short_hours(s.recovery_point_hours.p50, w),
                        s.longest_outage_days ? fmt::format("{:.0f}", *s.longest_outage_days)
                        : s.weekdays.empty()  ? w.say("no run")
                                              : w.say("no limit")});
    return "\n" + table(rows) + "  " + w.say("a run, hours: half of the runs / 19 in 20 stay below") + "\n";
}

std::string datasets_table(const Outlook& o, const Wording& w) {
    if (o.datasets.empty()) return {};
    std::vector<std::vector<std::string>> rows = {{w.say("Datasets"), w.say_as("bytes", "live"), w.say("growth a day"),
                                                   w.say("written 1 h"), "1 d", "7 d", "30 d", w.say("turnover")}};
    for (const auto& d : o.datasets)
        rows.push_back({d.name, w.bytes(d.live_bytes), w.bytes(d.growth_bytes_per_day), w.bytes(d.written_1h),
                        w.bytes(d.written_1d), w.bytes(d.written_7d), w.bytes(d.written_30d),
                        d.measured        ? w.say("measured")
                        : d.curve.empty() ? w.say_as("turnover", "none")
                                          : w.say("typed")});
    return "\n" + table(rows);
}

}  // namespace

std::string outlook_tables(const Answer& answer, int width) {
    const auto& o = answer.outlook;
    const Wording w(answer.language);
    std::string text = w.say("{}, as of {}, {} years ahead, {} paths, seed {}", o.site, w.date(o.as_of),
                             w.decimals(o.horizon_days / days_per_year, 1), o.paths, std::to_string(o.seed)) + "\n";
    text += boxes_table(o, w) + sends_table(o, w) + datasets_table(o, w) + offers_table(o, w) + what_matters(o, w);
    text += "\n" + w.say("Findings") + "\n";
    constexpr std::size_t indent = 12;
    for (const auto& f : answer.findings)
        text += "  " + padded(level_word(f.level, w), indent - 2, false) +
                wrapped(f.text, indent, static_cast<std::size_t>(std::max(width, 40))) + "\n";
    text += "\n" + w.say("A forecast is not a backup, and a copy counts when a restore from it has been tried.") + "\n";
    return text;
}

}  // namespace ullage
