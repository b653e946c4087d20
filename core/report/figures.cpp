// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/report/figures.h"

#include "core/report/report_words.h"

#include <algorithm>
#include <cmath>

namespace ullage::report {

namespace {

using Row = std::vector<std::string>;

constexpr double fill_share = 0.6;  // of a line of text, beside a gauge

std::string both(const std::string& one, const std::string& two) { return one == two ? one : one + " / " + two; }

std::string standing(const OfferOutlook& o, const Wording& w) {
    if (o.recommended) return w.say("we propose this");
    if (!o.does_not_go_in.empty()) return w.say("does not go in");
    if (!o.dominated_by.empty()) return w.say("outdone by “{0}”", o.dominated_by);
    return o.holds ? w.say_as("an offer", "lasts") : w.say("does not last");
}

std::string if_nothing(const Outlook& o, const BoxOutlook& b, const Wording& w) {
    const std::string within = w.horizon(o.horizon_days, Case::dative);
    if (b.full_now) return w.say("is full already");
    if (b.days_until_full.p50)
        return w.say("full in {0} in half of the futures; then nothing more is written there, and no copy arrives",
                     w.span(*b.days_until_full.p50, Case::dative));
    if (b.chance_of_full_within_horizon > 0)
        return w.say("full within {0} in {1}", within, say_futures(b.chance_of_full_within_horizon, w));
    if (b.chance_of_ceiling_within_horizon > 0)
        return w.say("passes the level to act at in {0}, but is not full within {1}",
                     say_futures(b.chance_of_ceiling_within_horizon, w), within);
    return w.say("stays below the level to act at for {0}", w.horizon(o.horizon_days));
}

/// The day a box goes into service, if that is still to come.
std::optional<Day> starts_later(const Answer& a, const BoxOutlook& b) {
    for (const auto& box : a.site.boxes)
        if (box.name == b.name && box.in_service && *box.in_service > a.outlook.as_of) return box.in_service;
    return {};
}

}  // namespace

ReportTable boxes_table(const Answer& a, const Wording& w) {
    const Outlook& o = a.outlook;
    ReportTable t{w.say("All boxes"),
                  {w.say("Box"), w.say("Status"), w.say("Usable"), w.say("Used today"), w.say("Level to act at"),
                   w.say("Early (1 in 10)"), w.say_as("median", "Likely"), w.say("Late (9 in 10)"),
                   w.say("Full (likely)")}};
    for (const auto& b : o.boxes) {
        const auto later = starts_later(a, b);
        t.rows.push_back({b.name, level_words(status_of(b, o.horizon_days), w), w.bytes(b.usable_bytes),
                          later ? w.say("from {0}", w.date(*later)) : w.bytes(b.used_now_bytes),
                          w.bytes(b.ceiling_bytes) + " (" + ceiling_share(b, w) + ")",
                          when(o, b.days_until_ceiling.p10, w), when(o, b.days_until_ceiling.p50, w),
                          when(o, b.days_until_ceiling.p90, w), when(o, b.days_until_full.p50, w)});
    }
    return t;
}

ReportPicture gauge_picture(const Outlook& o, std::size_t box, const Wording& w) {
    const BoxOutlook& b = o.boxes[box];
    const auto come =
        std::count_if(b.ceiling_marks.begin(), b.ceiling_marks.end(), [](const auto& m) { return m.has_value(); });
    ReportPicture picture{ReportPicture::Of::gauge, box, w.say("Days until full: {0}", b.name),
                          w.say("Each round mark is one of 20 equally likely futures, at the time it reaches the level "
                                "to act at. {0} of 20 come within {1}.",
                                come, w.horizon(o.horizon_days, Case::dative))};
    picture.share = 1 - fill_share;
    picture.captioned = false;
    return picture;
}

ReportPicture fill_picture(const Answer& a, std::size_t box, const Wording& w) {
    const BoxOutlook& b = a.outlook.boxes[box];
    const FillPoint& last = b.fill.back();
    const auto later = starts_later(a, b);
    const std::string now =
        later ? w.say("It is in service from {0}, with {1} usable.", w.date(*later), w.bytes(b.usable_bytes))
              : w.say("Today {0} of {1} are used ({2}).", w.bytes(b.used_now_bytes), w.bytes(b.usable_bytes),
                      w.percent(b.usable_bytes > 0 ? b.used_now_bytes / b.usable_bytes : 0, 2));
    ReportPicture picture{ReportPicture::Of::fill, box, w.say("How full {0} gets", b.name),
                          now + " " + w.say("On {0}: {1} in the middle, {2} to {3} in 8 of 10 futures.",
                                            w.date(last.date), w.bytes(last.used_bytes.p50),
                                            w.bytes(last.used_bytes.p10), w.bytes(last.used_bytes.p90))};
    picture.share = fill_share;
    return picture;
}

std::string band_in_words(const BoxOutlook& b, const Wording& w) {
    const FillPoint& last = b.fill.back();
    return w.say("How to read the pictures: half of the futures stay below the line in the middle; the dark band "
                 "holds half of them, the light one 8 of 10. For {0} on {1}, 1 in 10 ends below {2} and 1 in 10 "
                 "above {3}. A broad band means that little is known.",
                 b.name, w.date(last.date), w.bytes(last.used_bytes.p10), w.bytes(last.used_bytes.p90));
}

ReportTable sends_table(const Outlook& o, const Wording& w) {
    ReportTable t{w.say("Regular copies: usually / in 19 of 20 cases at most"),
                  {w.say("Copy"), w.say("From, to"), w.say("Carries"), w.say("Takes"), w.say("Time open for it"),
                   w.say("Late runs"), w.say("Age of the newest copy"), w.say("Getting everything back")}};
    for (const auto& s : o.sends)
        t.rows.push_back({s.name, s.from + " → " + s.to,
                          both(w.bytes(s.bytes_per_run.p50), w.bytes(s.bytes_per_run.p95)),
                          both(w.hours(s.hours_per_run.p50), w.hours(s.hours_per_run.p95)),
                          w.hours(s.open_hours_per_run), say_share(s.chance_of_missing_window, w),
                          both(w.hours(s.recovery_point_hours.p50), w.hours(s.recovery_point_hours.p95)),
                          both(w.hours(s.restore_hours.p50), w.hours(s.restore_hours.p95))});
    return t;
}

ReportTable send_table(const SendOutlook& s, const Wording& w) {
    ReportTable t{w.say("“{0}”, from {1} to {2} over {3}", s.name, s.from, s.to, s.link),
                  {w.say("Figure"), w.say("Usual"), w.say("9 in 10 below"), w.say("19 in 20 below"), w.say("Worst")}};
    const auto three = [&](std::string name, const RunQuantiles& q, std::string worst = {}) {
        t.rows.push_back({std::move(name), w.hours(q.p50), w.hours(q.p90), w.hours(q.p95), std::move(worst)});
    };
    const auto one = [&](std::string name, std::string value) {
        t.rows.push_back({std::move(name), std::move(value), "", "", ""});
    };
    one(w.say("Payload that the line gives"),
        w.bit_rate(s.goodput.bits_per_second) + " (" + limit_words(s.goodput.bound_by, w) + ")");
    t.rows.push_back({w.say("Carried in a run"), w.bytes(s.bytes_per_run.p50), w.bytes(s.bytes_per_run.p90),
                      w.bytes(s.bytes_per_run.p95), ""});
    three(w.say("Time of a run"), s.hours_per_run);
    one(w.say("Time the line is open for a run"), w.hours(s.open_hours_per_run));
    one(w.say("Runs that miss their window"), say_share(s.chance_of_missing_window, w));
    three(w.say("Age of the newest complete copy"), s.recovery_point_hours, w.hours(s.recovery_point_max_hours));
    three(w.say("Getting everything back over the line"), s.restore_hours);
    if (s.first_copy_bytes > 0)
        one(w.say("First copy complete after"),
            (s.first_copy_days.p50 ? w.span(std::ceil(*s.first_copy_days.p50), Case::dative) : w.say("later")) + " (" +
                w.bytes(s.first_copy_bytes) + ")");
    one(w.say("Longest time the line may be down"),
        s.longest_outage_days ? w.span(std::floor(*s.longest_outage_days)) : w.say("no limit"));
    if (s.line_rate_needed) one(w.say("Line that would keep the windows"), w.bit_rate(*s.line_rate_needed));
    return t;
}

ReportPicture week_picture(const Outlook& o, std::size_t send, const Wording& w) {
    const SendOutlook& s = o.sends[send];
    return {ReportPicture::Of::week, send, w.say("The week of “{0}”", s.name),
            w.say("When the line is open (shaded) and when the copy runs (bars), Monday to Sunday. Usually a run takes "
                  "{0}; 19 in 20 take less than {1}.",
                  w.hours(s.hours_per_run.p50), w.hours(s.hours_per_run.p95))};
}

ReportTable offers_table(const Answer& a, const std::string& box, const Wording& w) {
    const Outlook& o = a.outlook;
    const std::string horizon = w.horizon(o.horizon_days);
    ReportTable t{w.say("Offers for {0}", box),
                  {w.say("Offer"), w.say("Usable"), w.say("Lasts for {0}", horizon), w.say("Level reached (likely)"),
                   w.say("Price"), w.say("Cost over {0}", horizon), w.say("Order by"), w.say("What of it")}};
    std::vector<const OfferOutlook*> order;
    for (const auto& x : o.offers)
        if (x.box == box) order.push_back(&x);
    std::stable_sort(order.begin(), order.end(), [](const auto* x, const auto* y) { return x->rank < y->rank; });
    for (const auto* x : order) {
        if (x->recommended) t.stressed = static_cast<int>(t.rows.size());
        const auto by = order_by(a, *x);
        t.rows.push_back({x->name, w.bytes(x->usable_bytes), say_share(x->chance_of_lasting, w),
                          when(o, x->days_until_ceiling.p50, w), w.money(x->price, o.currency),
                          w.money(x->cost_total, o.currency),
                          !by               ? w.say("not needed")
                          : *by <= o.as_of ? w.say("now")
                                            : w.date(*by),
                          standing(*x, w)});
    }
    return t;
}

ReportTable order_table(const Outlook& o, const Wording& w) {
    ReportTable t{w.say("When to order, how large, and what happens if nothing is done"),
                  {w.say("Box"), w.say("Order by"), w.say("Usable now"),
                   w.say("Usable that lasts for {0} in {1}", w.horizon(o.horizon_days), say_futures(o.confidence, w)),
                   w.say("If nothing is done")}};
    for (const auto& b : o.boxes) {
        const double then = b.fill.empty() ? b.usable_bytes : b.fill.back().usable_bytes;
        t.rows.push_back({b.name,
                          !b.order_by              ? w.say("not needed")
                          : *b.order_by <= o.as_of ? w.say("{0}, which has passed: now", w.date(*b.order_by))
                                                   : w.date(*b.order_by),
                          w.bytes(b.usable_bytes),
                          b.usable_needed_bytes > then ? w.bytes(b.usable_needed_bytes) : w.say("no more than it has"),
                          if_nothing(o, b, w)});
    }
    return t;
}

ReportTable rests_table(const Answer& a, std::size_t most, const Wording& w) {
    ReportTable t{w.say("Measured, given or assumed"),
                  {w.say("Dataset"), w.say("Size"), w.say("Growth"), w.say("Change in a day"), w.say("Compression")}};
    std::vector<const DatasetOutlook*> shown;
    for (const auto& d : a.outlook.datasets) shown.push_back(&d);
    if (most > 0 && shown.size() > most) {
        std::stable_sort(shown.begin(), shown.end(),
                         [](const auto* x, const auto* y) { return x->live_bytes > y->live_bytes; });
        shown.resize(most);
    }
    for (const auto* d : shown) {
        const auto asked = std::find_if(a.site.datasets.begin(), a.site.datasets.end(),
                                        [&](const Dataset& x) { return x.name == d->name; });
        const bool known = asked != a.site.datasets.end();
        const auto told = [&](bool given, bool measured, const std::string& value) {
            return given      ? w.say("{0} (given)", value)
                   : measured ? w.say("{0} (measured)", value)
                              : w.say("{0} (assumed)", value);
        };
        t.rows.push_back({d->name, told(known && (asked->live || asked->logical), d->measured, w.bytes(d->live_bytes)),
                          told(known && asked->growth, d->measured,
                               w.say("{0} a year", w.bytes(d->growth_bytes_per_day * days_per_year))),
                          told(known && asked->turnover && asked->turnover->per_day, d->measured, w.bytes(d->written_1d)),
                          told(known && asked->compression_ratio, false, w.number(d->compression_ratio))});
    }
    return t;
}

std::string backtest_in_words(const DatasetOutlook& d, const Wording& w) {
    const Backtest& b = *d.backtest;
    const auto n = b.origins.size();
    return w.say_n("{0}: forecast once from its own past, the size was off by {2} in the middle case, and what came lay "
                   "inside the light band in {3} of cases (8 in 10 would be exact).",
                   "{0}: forecast {1} times from its own past, the size was off by {2} in the middle case, and what came "
                   "lay inside the light band in {3} of cases (8 in 10 would be exact).",
                   static_cast<long>(n), d.name, n, w.percent(b.live_error, 2), w.percent(b.live_inside, 2));
}

ReportTable drivers_table(const Outlook& o, const std::string& box, std::size_t most, const Wording& w) {
    ReportTable t{w.say("What moves the day of {0} most", box),
                  {w.say("Input"), w.say("If low"), w.say("If high"), w.say("Share of the spread")}};
    for (const auto& d : o.drivers)
        if (d.box == box && (most == 0 || t.rows.size() < most))
            t.rows.push_back({w(d.input), when(o, d.low_days, w), when(o, d.high_days, w), say_share(d.variance_share, w)});
    return t;
}

}  // namespace ullage::report
