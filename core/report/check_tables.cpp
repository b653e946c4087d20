// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/report/check_tables.h"

#include "core/report/report_words.h"

#include <cmath>

namespace ullage::report {

namespace {

using Row = std::vector<std::string>;

constexpr double hours_a_day = 24;

void add(std::vector<ReportTable>& tables, ReportTable table) {
    if (!table.rows.empty()) tables.push_back(std::move(table));
}

std::string days_text(const std::optional<double>& days, const Wording& w) {
    return days ? w.say_n("{} day", "{} days", std::lround(*days), std::lround(*days)) : w.say("later");
}

std::string three_days(const DayQuantiles& q, const Wording& w) {
    return days_text(q.p10, w) + " / " + days_text(q.p50, w) + " / " + days_text(q.p90, w);
}

Row quantile_row(std::string name, const RunQuantiles& bytes, const RunQuantiles& hours, std::string last,
                 const Wording& w) {
    return {std::move(name), w.bytes(bytes.p50) + " / " + w.bytes(bytes.p90) + " / " + w.bytes(bytes.p95),
            w.hours(hours.p50) + " / " + w.hours(hours.p90) + " / " + w.hours(hours.p95), std::move(last)};
}

std::string weekday_words(int weekday, const Wording& w) {
    switch (weekday) {
        case 0: return w.say("Monday");
        case 1: return w.say("Tuesday");
        case 2: return w.say("Wednesday");
        case 3: return w.say("Thursday");
        case 4: return w.say("Friday");
        case 5: return w.say("Saturday");
        case 6: return w.say("Sunday");
        default: return {};
    }
}

ReportTable limits_table(const SendOutlook& s, const Wording& w) {
    ReportTable t{w.say("“{0}”: what the line gives, step by step", s.name),
                  {w.say("Step"), w.say("Left after it"), w.say("It alone would allow")}};
    for (const auto& step : s.goodput.chain) {
        const std::string name = step_words(step.name, w);
        t.rows.push_back({step.binding ? w.say("{0} (binds)", name) : name, w.bit_rate(step.bits_per_second),
                          w.bit_rate(step.own_bits_per_second)});
    }
    return t;
}

ReportTable runs_table(const SendOutlook& s, const Wording& w) {
    ReportTable t{w.say("“{0}”: its runs; half / 9 in 10 / 19 in 20 are below", s.name),
                  {w.say("Runs"), w.say("Carried"), w.say("Time"), w.say("Miss their window")}};
    for (const auto& day : s.weekdays)
        t.rows.push_back(quantile_row(weekday_words(day.weekday, w), day.bytes, day.hours,
                                      say_share(day.chance_of_missing_window, w), w));
    for (const auto& e : s.events)
        t.rows.push_back(quantile_row(w.say("{0}, “{1}” {2}", w.date(e.on), e.dataset, e.text), e.bytes, e.hours,
                                      say_share(1 - e.chance_of_fitting, w), w));
    if (s.backlog.times_a_year > 0)
        t.rows.push_back(quantile_row(
            w.say("Behind, {0} times a year: left, and time to catch up", w.number(s.backlog.times_a_year, 2)),
            s.backlog.bytes, s.backlog.hours_to_drain, "", w));
    return t;
}

ReportTable restore_table(const SendOutlook& s, const Wording& w) {
    ReportTable t{w.say("“{0}”: getting data back, a year ahead; half / 9 in 10 / 19 in 20 are below", s.name),
                  {w.say("What"), w.say("Carried"), w.say("Over the line"), w.say("By fetching the box")}};
    for (const auto& way : s.restore)
        t.rows.push_back(quantile_row(way.dataset.empty() ? w.say("everything") : way.dataset, way.bytes,
                                      way.link_hours, w.hours(way.fetch_hours), w));
    return t;
}

ReportTable first_copy_table(const SendOutlook& s, const Wording& w) {
    ReportTable t{w.say("“{0}”: two ways for its first copy", s.name), {w.say("Figure"), w.say("Value")}};
    if (!s.first_copy) return t;
    const FirstCopyWays& f = *s.first_copy;
    const auto days = [&](const std::optional<double>& d) {
        return d ? w.hours(*d * hours_a_day, Case::dative) : w.say("later");
    };
    t.rows = {{w.say("Size"), w.bytes(f.bytes)},
              {w.say("Over the line, complete after"), days(f.link_days)},
              {w.say("Over the line, the runs that waited done after"), days(f.link_in_step_days)},
              {w.say("By hand: copying beside the source"), w.hours(f.courier_copy_days * hours_a_day)},
              {w.say("By hand: on the road"), w.hours(f.courier_away_days * hours_a_day)},
              {w.say("By hand, complete and caught up after"), days(f.courier_days)}};
    if (f.break_even_bytes) t.rows.push_back({w.say("Size from which carrying is sooner"), w.bytes(*f.break_even_bytes)});
    return t;
}

}  // namespace

std::vector<ReportTable> box_tables(const Outlook& o, const Wording& w) {
    std::vector<ReportTable> tables;
    for (const auto& b : o.boxes) {
        ReportTable t{b.name, {w.say("Figure"), w.say("Value")}};
        const auto put = [&](std::string name, std::string value) {
            t.rows.push_back({std::move(name), std::move(value)});
        };
        if (b.raw_bytes > 0) put(w.say("Formatted, copies of mirrors counted once"), w.bytes(b.raw_bytes));
        if (b.capacity) {
            const PoolCapacity& c = *b.capacity;
            put(w.say("Labels of all drives"), w.bytes(c.label_bytes));
            put(w.say("Drives by their sectors"), w.bytes(c.drive_bytes));
            put(w.say("Spare drives"), w.bytes(c.spare_bytes));
            put(w.say("Formatted"), w.bytes(c.formatted_bytes));
            put(w.say("Less redundancy"), w.bytes(c.charged_bytes));
            put(w.say("Kept back as a reserve"), w.bytes(c.reserve_bytes));
        }
        put(w.say("Usable"), w.bytes(b.usable_bytes));
        put(w.say("Ceiling"), w.bytes(b.ceiling_bytes));
        put(w.say("Used today"), w.bytes(b.used_now_bytes));
        put(w.say("Days until the ceiling: 1 in 10 / half / 9 in 10 futures"), three_days(b.days_until_ceiling, w));
        put(w.say("Days until full: 1 in 10 / half / 9 in 10 futures"), three_days(b.days_until_full, w));
        put(w.say("Futures that come to the ceiling"), say_share(b.chance_of_ceiling_within_horizon, w));
        put(w.say("Futures that come to full"), say_share(b.chance_of_full_within_horizon, w));
        if (!b.fill.empty()) {
            const FillPoint& p = b.fill.back();
            put(w.say("Used on {0}: 1 in 10 / half / 9 in 10 futures below", w.date(p.date)),
                w.bytes(p.used_bytes.p10) + " / " + w.bytes(p.used_bytes.p50) + " / " + w.bytes(p.used_bytes.p90));
            put(w.say("Of it live"), w.bytes(p.live_bytes.p50));
            put(w.say("Of it held by snapshots alone"), w.bytes(p.held_bytes.p50));
            put(w.say("Full then"), w.percent(p.fill));
        }
        for (const auto& c : b.costs)
            put(w.say("A stored byte of “{0}” takes", c.dataset), w.say("{0} bytes", w.decimals(c.charge, 2)));
        tables.push_back(std::move(t));
    }
    return tables;
}

std::vector<ReportTable> send_tables(const SendOutlook& s, const Wording& w) {
    std::vector<ReportTable> tables;
    add(tables, limits_table(s, w));
    add(tables, runs_table(s, w));
    add(tables, restore_table(s, w));
    add(tables, first_copy_table(s, w));
    return tables;
}

std::vector<ReportTable> dataset_tables(const Outlook& o, const Wording& w) {
    std::vector<ReportTable> tables;
    ReportTable written{w.say("Datasets: bytes written between two snapshots that far apart"),
                        {w.say("Dataset"), w.say_as("bytes", "Live"), w.say("Growth a day"), w.say("1 hour"),
                         w.say("1 day"), w.say("7 days"), w.say("30 days")}};
    ReportTable curves{w.say("Turnover: parts of each dataset"),
                       {w.say("Dataset"), w.say("Mean lifetime / bytes at any time that live so long")}};
    for (const auto& d : o.datasets) {
        written.rows.push_back({d.name, w.bytes(d.live_bytes), w.bytes(d.growth_bytes_per_day), w.bytes(d.written_1h),
                                w.bytes(d.written_1d), w.bytes(d.written_7d), w.bytes(d.written_30d)});
        std::string parts;
        for (const auto& c : d.curve)
            if (c.bytes >= 1)
                parts += (parts.empty() ? "" : "; ") + w.hours(c.lifetime_days * hours_a_day) + " / " + w.bytes(c.bytes);
        if (!parts.empty()) curves.rows.push_back({d.name, parts});
    }
    add(tables, std::move(written));
    add(tables, std::move(curves));
    return tables;
}

std::vector<ReportTable> offer_tables(const Outlook& o, const Wording& w) {
    std::vector<ReportTable> tables;
    ReportTable space{w.say("Offers: space and time"),
                      {w.say("Offer"), w.say("Box"), w.say("Usable"), w.say("Ceiling"), w.say("Drives bought"),
                       w.say("Runs from"), w.say_as("an offer", "Lasts"), w.say("Box over its ceiling before"),
                       w.say("Days until the ceiling: 1 in 10 / half / 9 in 10")}};
    ReportTable cost{w.say("Offers: cost"),
                     {w.say("Offer"), w.say("Price"), w.say("Times bought"), w.say("Buying again"), w.say("Energy"),
                      w.say("In all"), w.say("For each usable TiB and year")}};
    const auto money = [&](double amount) { return w.money(amount, o.currency); };
    for (const auto& x : o.offers) {
        space.rows.push_back({x.name, x.box, w.bytes(x.usable_bytes), w.bytes(x.ceiling_bytes),
                              x.drives > 0 ? w.whole(x.drives) : "", w.date(x.running_from),
                              say_share(x.chance_of_lasting, w), say_share(x.chance_too_late, w),
                              three_days(x.days_until_ceiling, w)});
        cost.rows.push_back({x.name, money(x.price), w.whole(x.purchases), money(x.replacement_cost),
                             money(x.energy_cost), money(x.cost_total), money(x.cost_per_usable_tib_year)});
    }
    add(tables, std::move(space));
    add(tables, std::move(cost));
    return tables;
}

}  // namespace ullage::report
