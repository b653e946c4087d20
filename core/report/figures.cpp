// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/report/figures.h"

#include "core/findings/words.h"
#include "core/report/report_words.h"
#include "core/report/sentences.h"

#include <algorithm>
#include <cmath>

namespace ullage::report {

namespace {

using Row = std::vector<std::string>;

constexpr double hours_a_day = 24;

std::string text(std::string_view constant) { return std::string(constant); }

ReportTable table(std::string caption, Row header) {
    ReportTable t;
    t.caption = std::move(caption);
    t.header = std::move(header);
    return t;
}

Row size_row(std::string name, const RunQuantiles& q) { return {std::move(name), size(q.p50), size(q.p90), size(q.p95), ""}; }

std::string days_text(const std::optional<double>& days) {
    return days ? plural(std::lround(*days), "day", "days") : text(sentences::later);
}

std::string three_days(const DayQuantiles& q) {
    return fmt::format("{} / {} / {}", days_text(q.p10), days_text(q.p50), days_text(q.p90));
}

std::string standing(const OfferOutlook& o) {
    if (o.recommended) return text(sentences::recommended);
    if (!o.does_not_go_in.empty()) return text(sentences::no_room);
    if (!o.dominated_by.empty()) return filled(sentences::outdone, o.dominated_by);
    return text(o.holds ? sentences::lasting : sentences::not_lasting);
}

std::string if_nothing(const Outlook& o, const BoxOutlook& b) {
    const std::string horizon = say_horizon(o.horizon_days);
    if (b.full_now) return text(sentences::nothing_full_now);
    if (b.days_until_full.p50) return filled(sentences::nothing_full, say_days(*b.days_until_full.p50));
    if (b.chance_of_full_within_horizon > 0)
        return filled(sentences::nothing_some, horizon, say_futures(b.chance_of_full_within_horizon));
    if (b.chance_of_ceiling_within_horizon > 0)
        return filled(sentences::nothing_level, say_futures(b.chance_of_ceiling_within_horizon), horizon);
    return filled(sentences::nothing_stays, horizon);
}

/// The day a box goes into service, if that is still to come.
std::optional<Day> starts_later(const Answer& a, const BoxOutlook& b) {
    for (const auto& box : a.site.boxes)
        if (box.name == b.name && box.in_service && *box.in_service > a.outlook.as_of) return box.in_service;
    return {};
}

Row quantile_row(std::string name, const RunQuantiles& bytes, const RunQuantiles& hours) {
    return {std::move(name),
            fmt::format("{} / {} / {}", size(bytes.p50), size(bytes.p90), size(bytes.p95)),
            fmt::format("{} / {} / {}", say_hours(hours.p50), say_hours(hours.p90), say_hours(hours.p95))};
}

/// A send's numbers that only who checks them needs.
void add_send_tables(std::vector<ReportTable>& tables, const SendOutlook& s) {
    ReportTable limits = table(filled(sentences::figures_limits, s.name),
                               {text(sentences::step), text(sentences::left_after), text(sentences::alone)});
    for (const auto& step : s.goodput.chain)
        limits.rows.push_back({step.binding ? filled(sentences::binds, step.name) : step.name,
                               format_bit_rate({step.bits_per_second}), format_bit_rate({step.own_bits_per_second})});
    if (!limits.rows.empty()) tables.push_back(std::move(limits));

    ReportTable runs = table(filled(sentences::figures_runs, s.name),
                             {text(sentences::runs_of), text(sentences::bytes_three), text(sentences::hours_three),
                              text(sentences::missing)});
    for (const auto& w : s.weekdays) {
        runs.rows.push_back(quantile_row(text(sentences::weekdays[static_cast<std::size_t>(w.weekday)]), w.bytes, w.hours));
        runs.rows.back().push_back(say_share(w.chance_of_missing_window));
    }
    for (const auto& e : s.events) {
        runs.rows.push_back(quantile_row(filled(sentences::planned, format_date(e.on), e.dataset, e.text), e.bytes, e.hours));
        runs.rows.back().push_back(say_share(1 - e.chance_of_fitting));
    }
    if (s.backlog.times_a_year > 0) {
        runs.rows.push_back(quantile_row(filled(sentences::behind, fmt::format("{:.2g}", s.backlog.times_a_year)),
                                         s.backlog.bytes, s.backlog.hours_to_drain));
        runs.rows.back().emplace_back();
    }
    if (!runs.rows.empty()) tables.push_back(std::move(runs));

    ReportTable back = table(filled(sentences::figures_restore, s.name),
                             {text(sentences::what), text(sentences::bytes_three), text(sentences::over_line),
                              text(sentences::fetched)});
    for (const auto& w : s.restore) {
        back.rows.push_back(quantile_row(w.dataset.empty() ? text(sentences::everything) : w.dataset, w.bytes, w.link_hours));
        back.rows.back().push_back(say_hours(w.fetch_hours));
    }
    if (!back.rows.empty()) tables.push_back(std::move(back));
    if (!s.first_copy) return;
    const FirstCopyWays& f = *s.first_copy;
    const auto days = [](const std::optional<double>& d) { return d ? say_hours(*d * hours_a_day) : text(sentences::later); };
    ReportTable first = table(filled(sentences::figures_first, s.name), {text(sentences::figure), text(sentences::value)});
    first.rows.push_back({text(sentences::size), size(f.bytes)});
    first.rows.push_back({text(sentences::first_line), days(f.link_days)});
    first.rows.push_back({text(sentences::first_line_step), days(f.link_in_step_days)});
    first.rows.push_back({text(sentences::first_copying), days(f.courier_copy_days)});
    first.rows.push_back({text(sentences::first_road), days(f.courier_away_days)});
    first.rows.push_back({text(sentences::first_hand), days(f.courier_days)});
    if (f.break_even_bytes) first.rows.push_back({text(sentences::first_even), size(*f.break_even_bytes)});
    tables.push_back(std::move(first));
}

}  // namespace

ReportTable boxes_table(const Answer& a) {
    const Outlook& o = a.outlook;
    ReportTable t = table(text(sentences::boxes_caption),
                          {text(sentences::box), text(sentences::status), text(sentences::usable),
                           text(sentences::used_now), text(sentences::level), text(sentences::early),
                           text(sentences::middle), text(sentences::late), text(sentences::full_at)});
    for (const auto& b : o.boxes)
        t.rows.push_back({b.name, level_words(status_of(b, o.horizon_days)), size(b.usable_bytes),
                          starts_later(a, b) ? filled(sentences::from_day, format_date(*starts_later(a, b)))
                                             : size(b.used_now_bytes),
                          fmt::format("{} ({})", size(b.ceiling_bytes), ceiling_share(b)),
                          when(o, b.days_until_ceiling.p10), when(o, b.days_until_ceiling.p50),
                          when(o, b.days_until_ceiling.p90), when(o, b.days_until_full.p50)});
    return t;
}

ReportPicture gauge_picture(const Outlook& o, std::size_t box) {
    const BoxOutlook& b = o.boxes[box];
    const auto come = std::count_if(b.ceiling_marks.begin(), b.ceiling_marks.end(), [](const auto& m) { return m.has_value(); });
    return {ReportPicture::Of::gauge, box, filled(sentences::gauge_title, b.name),
            filled(sentences::gauge_text,
                   filled(sentences::marks_come, come, say_horizon(o.horizon_days)))};
}

ReportPicture fill_picture(const Answer& a, std::size_t box) {
    const BoxOutlook& b = a.outlook.boxes[box];
    const FillPoint& last = b.fill.back();
    const auto later = starts_later(a, b);
    const std::string now =
        later ? filled(sentences::fill_later, format_date(*later), size(b.usable_bytes))
              : filled(sentences::fill_now, size(b.used_now_bytes),
                       format_percent(b.usable_bytes > 0 ? b.used_now_bytes / b.usable_bytes : 0, 2), size(b.usable_bytes));
    return {ReportPicture::Of::fill, box, filled(sentences::fill_title, b.name),
            filled(sentences::fill_text, now, format_date(last.date), size(last.used_bytes.p50),
                   size(last.used_bytes.p10), size(last.used_bytes.p90))};
}

std::string band_in_words(const BoxOutlook& b) {
    const FillPoint& last = b.fill.back();
    return filled(sentences::band, b.name, format_date(last.date), size(last.used_bytes.p10), size(last.used_bytes.p90));
}

ReportTable send_table(const SendOutlook& s) {
    ReportTable t = table(filled(sentences::send_caption, s.name, s.from, s.to, s.link),
                          {text(sentences::figure), text(sentences::half_below), text(sentences::nine_below),
                           text(sentences::nineteen_below), text(sentences::worst)});
    const auto hours = [](std::string_view name, const RunQuantiles& q, std::string worst = {}) {
        return Row{text(name), say_hours(q.p50), say_hours(q.p90), say_hours(q.p95), std::move(worst)};
    };
    const auto one = [](std::string_view name, std::string value) { return Row{text(name), std::move(value), "", "", ""}; };
    t.rows.push_back(one(sentences::send_rate, fmt::format("{} ({})", format_bit_rate({s.goodput.bits_per_second}),
                                                           limit_words(s.goodput.bound_by))));
    t.rows.push_back(size_row(text(sentences::send_bytes), s.bytes_per_run));
    t.rows.push_back(hours(sentences::send_hours, s.hours_per_run));
    t.rows.push_back(one(sentences::send_open, say_hours(s.open_hours_per_run)));
    t.rows.push_back(one(sentences::send_late, say_share(s.chance_of_missing_window)));
    t.rows.push_back(hours(sentences::send_age, s.recovery_point_hours, say_hours(s.recovery_point_max_hours)));
    t.rows.push_back(hours(sentences::send_restore, s.restore_hours));
    if (s.first_copy_bytes > 0)
        t.rows.push_back(one(sentences::send_first,
                             fmt::format("{} ({})", s.first_copy_days.p50 ? say_days(std::ceil(*s.first_copy_days.p50)) : text(sentences::later),
                                         size(s.first_copy_bytes))));
    t.rows.push_back(one(sentences::send_outage, s.longest_outage_days ? say_days(std::floor(*s.longest_outage_days))
                                                                       : text(sentences::no_limit)));
    if (s.line_rate_needed) t.rows.push_back(one(sentences::send_needed, format_bit_rate({*s.line_rate_needed})));
    return t;
}

ReportPicture week_picture(const Outlook& o, std::size_t send) {
    const SendOutlook& s = o.sends[send];
    return {ReportPicture::Of::week, send, filled(sentences::week_title, s.name),
            filled(sentences::week_text, say_hours(s.hours_per_run.p50), say_hours(s.hours_per_run.p95))};
}

ReportTable offers_table(const Outlook& o, const std::string& box) {
    const std::string horizon = say_horizon(o.horizon_days);
    ReportTable t = table(filled(sentences::offers_caption, box),
                          {text(sentences::offer), text(sentences::usable), filled(sentences::lasts, horizon),
                           text(sentences::level_then), text(sentences::price), filled(sentences::cost, horizon),
                           text(sentences::standing)});
    std::vector<const OfferOutlook*> order;
    for (const auto& x : o.offers)
        if (x.box == box) order.push_back(&x);
    std::stable_sort(order.begin(), order.end(), [](const auto* a, const auto* b) { return a->rank < b->rank; });
    for (const auto* x : order) {
        if (x->recommended) t.stressed = static_cast<int>(t.rows.size());
        t.rows.push_back({x->name, size(x->usable_bytes), say_share(x->chance_of_lasting),
                          when(o, x->days_until_ceiling.p50), say_money(x->price, o.currency),
                          say_money(x->cost_total, o.currency), standing(*x)});
    }
    return t;
}

ReportTable order_table(const Outlook& o) {
    ReportTable t = table(text(sentences::order_caption),
                          {text(sentences::box), text(sentences::order_by), text(sentences::nothing_done)});
    for (const auto& b : o.boxes)
        t.rows.push_back({b.name,
                          !b.order_by             ? text(sentences::order_not)
                          : *b.order_by <= o.as_of ? filled(sentences::order_late, format_date(*b.order_by))
                                                   : format_date(*b.order_by),
                          if_nothing(o, b)});
    return t;
}

ReportTable rests_table(const Answer& a) {
    ReportTable t = table(text(sentences::rests_caption),
                          {text(sentences::dataset), text(sentences::size), text(sentences::growth),
                           text(sentences::daily_change), text(sentences::compression)});
    for (const auto& d : a.outlook.datasets) {
        const auto asked = std::find_if(a.site.datasets.begin(), a.site.datasets.end(),
                                        [&](const Dataset& x) { return x.name == d.name; });
        const bool known = asked != a.site.datasets.end();
        const auto told = [&](bool given, bool measured, const std::string& value) {
            return filled(given ? sentences::given_as : measured ? sentences::measured_from : sentences::assumed_as, value);
        };
        t.rows.push_back({d.name, told(known && (asked->live || asked->logical), d.measured, size(d.live_bytes)),
                          told(known && asked->growth, d.measured,
                               filled(sentences::a_year, size(d.growth_bytes_per_day * days_per_year))),
                          told(known && asked->turnover && asked->turnover->per_day, d.measured, size(d.written_1d)),
                          told(known && asked->compression_ratio, false, fmt::format("{:.3g}", d.compression_ratio))});
    }
    return t;
}

std::string backtest_in_words(const DatasetOutlook& d) {
    const Backtest& b = *d.backtest;
    const auto n = b.origins.size();
    return filled(sentences::backtest_line, d.name,
                  n == 1 ? text(sentences::backtest_times_one) : filled(sentences::backtest_times_more, n),
                  sentences::its, format_percent(b.live_error, 2), format_percent(b.live_inside, 2));
}

ReportTable drivers_table(const Outlook& o, const std::string& box) {
    ReportTable t = table(filled(sentences::drivers_caption, box),
                          {text(sentences::input), text(sentences::at_low), text(sentences::at_high),
                           text(sentences::spread_share)});
    for (const auto& d : o.drivers)
        if (d.box == box)
            t.rows.push_back({d.input, when(o, d.low_days), when(o, d.high_days), say_share(d.variance_share)});
    return t;
}

std::vector<ReportTable> figure_tables(const Outlook& o) {
    std::vector<ReportTable> tables;
    for (const auto& b : o.boxes) {
        ReportTable t = table(b.name, {text(sentences::figure), text(sentences::value)});
        if (b.raw_bytes > 0) t.rows.push_back({text(sentences::raw), size(b.raw_bytes)});
        if (b.capacity) {
            const PoolCapacity& c = *b.capacity;
            t.rows.push_back({text(sentences::labels), size(c.label_bytes)});
            t.rows.push_back({text(sentences::sectors), size(c.drive_bytes)});
            t.rows.push_back({text(sentences::spares), size(c.spare_bytes)});
            t.rows.push_back({text(sentences::formatted), size(c.formatted_bytes)});
            t.rows.push_back({text(sentences::charged), size(c.charged_bytes)});
            t.rows.push_back({text(sentences::reserve), size(c.reserve_bytes)});
        }
        t.rows.push_back({text(sentences::usable), size(b.usable_bytes)});
        t.rows.push_back({text(sentences::ceiling), size(b.ceiling_bytes)});
        t.rows.push_back({text(sentences::used_now), size(b.used_now_bytes)});
        t.rows.push_back({text(sentences::days_ceiling), three_days(b.days_until_ceiling)});
        t.rows.push_back({text(sentences::days_full), three_days(b.days_until_full)});
        t.rows.push_back({text(sentences::share_ceiling), say_share(b.chance_of_ceiling_within_horizon)});
        t.rows.push_back({text(sentences::share_full), say_share(b.chance_of_full_within_horizon)});
        if (!b.fill.empty()) {
            const FillPoint& p = b.fill.back();
            t.rows.push_back({filled(sentences::used_then, format_date(p.date)),
                              fmt::format("{} / {} / {}", size(p.used_bytes.p10), size(p.used_bytes.p50),
                                          size(p.used_bytes.p90))});
            t.rows.push_back({text(sentences::of_it_live), size(p.live_bytes.p50)});
            t.rows.push_back({text(sentences::of_it_held), size(p.held_bytes.p50)});
            t.rows.push_back({text(sentences::full_then), format_percent(p.fill)});
        }
        for (const auto& c : b.costs)
            t.rows.push_back({filled(sentences::stored_byte, c.dataset), filled(sentences::bytes_taken, fmt::format("{:.2f}", c.charge))});
        tables.push_back(std::move(t));
    }
    for (const auto& s : o.sends) add_send_tables(tables, s);
    if (!o.datasets.empty()) {
        ReportTable t = table(text(sentences::figures_datasets),
                              {text(sentences::dataset), text(sentences::live), text(sentences::growth_a_day), text(sentences::hour_1), text(sentences::day_1), text(sentences::days_7), text(sentences::days_30)});
        for (const auto& d : o.datasets)
            t.rows.push_back({d.name, size(d.live_bytes), size(d.growth_bytes_per_day), size(d.written_1h),
                              size(d.written_1d), size(d.written_7d), size(d.written_30d)});
        tables.push_back(std::move(t));
    }
    ReportTable curves = table(text(sentences::figures_curves), {text(sentences::dataset), text(sentences::lifetimes)});
    for (const auto& d : o.datasets) {
        std::string parts;
        for (const auto& c : d.curve)
            if (c.bytes >= 1)
                parts += fmt::format("{}{} / {}", parts.empty() ? "" : "; ", say_hours(c.lifetime_days * hours_a_day), size(c.bytes));
        if (!parts.empty()) curves.rows.push_back({d.name, parts});
    }
    if (!curves.rows.empty()) tables.push_back(std::move(curves));
    if (o.offers.empty()) return tables;
    ReportTable space = table(text(sentences::figures_offers),
                              {text(sentences::offer), text(sentences::box), text(sentences::usable), text(sentences::ceiling), text(sentences::drives_bought), text(sentences::runs_from),
                               text(sentences::lasts_share), text(sentences::too_late), text(sentences::days_ceiling_short)});
    ReportTable cost = table(text(sentences::figures_costs),
                             {text(sentences::offer), text(sentences::price), text(sentences::times_bought), text(sentences::buying_again), text(sentences::energy), text(sentences::in_all),
                              text(sentences::tib_year)});
    const auto money = [&](double amount) { return say_money(amount, o.currency); };
    for (const auto& x : o.offers) {
        space.rows.push_back({x.name, x.box, size(x.usable_bytes), size(x.ceiling_bytes),
                              x.drives > 0 ? fmt::format("{}", x.drives) : "", format_date(x.running_from),
                              say_share(x.chance_of_lasting), say_share(x.chance_too_late), three_days(x.days_until_ceiling)});
        cost.rows.push_back({x.name, money(x.price), fmt::format("{}", x.purchases), money(x.replacement_cost),
                             money(x.energy_cost), money(x.cost_total), money(x.cost_per_usable_tib_year)});
    }
    tables.push_back(std::move(space));
    tables.push_back(std::move(cost));
    return tables;
}

}  // namespace ullage::report
