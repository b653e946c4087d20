// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/report/report_answer.h"

#include "core/findings/words.h"
#include "core/report/report_words.h"
#include "core/report/sentences.h"

#include <algorithm>
#include <limits>
#include <tuple>

namespace ullage::report {

namespace {

constexpr double never = std::numeric_limits<double>::infinity();

std::string how_full(const Outlook& o) {
    if (o.boxes.empty()) return std::string(sentences::answer_no_box);
    const auto trouble = [](const BoxOutlook& b) {
        const double end = b.fill.empty() ? 0 : b.fill.back().fill;
        return std::make_tuple(!b.full_now, !b.over_ceiling_now, b.days_until_ceiling.p50.value_or(never),
                               -b.chance_of_ceiling_within_horizon, -end);
    };
    const BoxOutlook& b = *std::min_element(o.boxes.begin(), o.boxes.end(), [&](const auto& x, const auto& y) {
        return trouble(x) < trouble(y);
    });
    const std::string horizon = say_horizon(o.horizon_days);
    const std::string level = ceiling_share(b);
    const auto& q = b.days_until_ceiling;
    if (b.full_now) return filled(sentences::answer_full, b.name);
    if (b.over_ceiling_now) return filled(sentences::answer_over, b.name, level);
    if (q.p50 && q.p10 && q.p90)
        return filled(sentences::answer_when, b.name, level, say_days(*q.p50), month_of(o.as_of, *q.p50),
                      say_between(*q.p10, *q.p90));
    if (q.p50)
        return filled(sentences::answer_when_open, b.name, level, say_days(*q.p50), month_of(o.as_of, *q.p50),
                      say_days(q.p10.value_or(*q.p50)), horizon);
    if (b.chance_of_ceiling_within_horizon > 0)
        return filled(sentences::answer_perhaps, horizon, b.name, level,
                      say_futures(b.chance_of_ceiling_within_horizon));
    return filled(sentences::answer_never, horizon, b.name,
                  format_percent(b.fill.empty() ? 0 : b.fill.back().fill, 2));
}

std::string does_it_arrive(const Outlook& o) {
    if (o.sends.empty()) return std::string(sentences::answer_no_send);
    const auto trouble = [](const SendOutlook& s) {
        return std::make_tuple(s.first_copy_days.p50.has_value(), !s.falls_behind, -s.chance_of_missing_window);
    };
    const SendOutlook& s = *std::min_element(o.sends.begin(), o.sends.end(), [&](const auto& x, const auto& y) {
        return trouble(x) < trouble(y);
    });
    if (!s.first_copy_days.p50)
        return filled(sentences::answer_send_never, s.name, say_horizon(o.horizon_days));
    if (s.falls_behind)
        return filled(sentences::answer_send_behind, s.name, month_of(o.as_of, s.days_until_behind.value_or(0)));
    switch (status_of(s, o.confidence)) {
        case Level::overruns: return filled(sentences::answer_send_late, s.name, say_share(s.chance_of_missing_window));
        case Level::tight: return filled(sentences::answer_send_tight, s.name, say_share(s.chance_of_missing_window));
        case Level::fits:
        case Level::note: break;
    }
    if (o.sends.size() == 1) return filled(sentences::answer_one_send, s.name);
    if (o.sends.size() == 2) return std::string(sentences::answer_both_sends);
    return filled(sentences::answer_all_sends, o.sends.size());
}

std::string what_to_do(const Outlook& o) {
    std::vector<const BoxOutlook*> due;
    for (const auto& b : o.boxes)
        if (b.order_by || b.full_now || b.over_ceiling_now) due.push_back(&b);
    if (due.empty()) return std::string(sentences::answer_nothing);
    const auto day = [&](const BoxOutlook& b) { return b.order_by.value_or(o.as_of); };
    std::stable_sort(due.begin(), due.end(), [&](const auto* x, const auto* y) { return day(*x) < day(*y); });

    std::vector<std::pair<const BoxOutlook*, const OfferOutlook*>> proposed;
    bool offered = false;
    for (const auto* b : due)
        for (const auto& offer : o.offers) {
            if (offer.box != b->name) continue;
            if (b == due.front()) offered = true;
            if (offer.recommended) proposed.emplace_back(b, &offer);
        }
    if (proposed.empty() || proposed.front().first != due.front()) {
        const BoxOutlook& b = *due.front();
        if (offered) return filled(sentences::answer_no_offer, b.name, say_horizon(o.horizon_days));
        if (day(b) <= o.as_of) return filled(sentences::answer_order_now, b.name);
        return filled(sentences::answer_order, b.name, format_date(day(b)));
    }
    const auto [b, offer] = proposed.front();
    std::string more = day(*b) <= o.as_of ? std::string(sentences::answer_offer_now)
                                          : filled(sentences::answer_offer_by, format_date(day(*b)));
    if (proposed.size() == 2) more += sentences::answer_offer_more;
    if (proposed.size() > 2) more += filled(sentences::answer_offers_more, proposed.size() - 1);
    return filled(sentences::answer_offer, offer->name, offer->box, say_money(offer->cost_total, o.currency),
                  say_horizon(o.horizon_days), more);
}

}  // namespace

std::array<std::string, 3> three_sentences(const Answer& a) {
    return {how_full(a.outlook), does_it_arrive(a.outlook), what_to_do(a.outlook)};
}

}  // namespace ullage::report
