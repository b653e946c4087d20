// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/report/report_answer.h"

#include "core/findings/words.h"
#include "core/report/report_words.h"

#include <algorithm>
#include <limits>
#include <tuple>

namespace ullage::report {

namespace {

constexpr double never = std::numeric_limits<double>::infinity();

std::string how_full(const Outlook& o, const Wording& w) {
    if (o.boxes.empty()) return w.say("No box is forecast, since none has a stated size.");
    const auto trouble = [](const BoxOutlook& b) {
        const double end = b.fill.empty() ? 0 : b.fill.back().fill;
        return std::make_tuple(!b.full_now, !b.over_ceiling_now, b.days_until_ceiling.p50.value_or(never),
                               -b.chance_of_ceiling_within_horizon, -end);
    };
    const BoxOutlook& b = *std::min_element(o.boxes.begin(), o.boxes.end(),
                                            [&](const auto& x, const auto& y) { return trouble(x) < trouble(y); });
    const std::string horizon = w.horizon(o.horizon_days, Case::dative);
    const std::string level = ceiling_share(b, w);
    const auto& q = b.days_until_ceiling;
    if (b.full_now) return w.say("{0} is full today: nothing more can be written there.", b.name);
    if (b.over_ceiling_now) return w.say("{0} has already passed the level to act at ({1} full) today.", b.name, level);
    if (q.p50 && q.p10 && q.p90)
        return w.say(
            "{0} will most likely be {1} full, the level to act at, in {2} (around {3}); in 8 of 10 futures that we "
            "drew it takes {4}.",
            b.name, level, w.span(*q.p50, Case::dative), month_of(o.as_of, *q.p50, w), say_between(*q.p10, *q.p90, w));
    if (q.p50)
        return w.say(
            "{0} will most likely be {1} full, the level to act at, in {2} (around {3}), hardly sooner than in {4}, "
            "and perhaps not within {5}.",
            b.name, level, w.span(*q.p50, Case::dative), month_of(o.as_of, *q.p50, w),
            w.span(q.p10.value_or(*q.p50), Case::dative), horizon);
    if (b.chance_of_ceiling_within_horizon > 0)
        return w.say(
            "Most likely no box reaches the level to act at within {0}; the likeliest to do so is {1}, which reaches "
            "{2} full in {3}.",
            horizon, b.name, level, say_futures(b.chance_of_ceiling_within_horizon, w));
    return w.say(
        "No box reaches the level to act at within {0} in any future that we drew; the fullest then is {1}, at {2}.",
        horizon, b.name, w.percent(b.fill.empty() ? 0 : b.fill.back().fill, 2));
}

std::string does_it_arrive(const Outlook& o, const Wording& w) {
    if (o.sends.empty())
        return w.say(
            "No copy is sent to another box in this plan, so nothing here protects against the loss of a box.");
    const auto trouble = [](const SendOutlook& s) {
        return std::make_tuple(s.first_copy_days.p50.has_value(), !s.falls_behind, -s.chance_of_missing_window);
    };
    const SendOutlook& s = *std::min_element(o.sends.begin(), o.sends.end(),
                                             [&](const auto& x, const auto& y) { return trouble(x) < trouble(y); });
    if (!s.first_copy_days.p50)
        return w.say(
            "The first copy of “{0}” is not complete over the line within {1}: carry it by hand, or use a faster line.",
            s.name, w.horizon(o.horizon_days, Case::dative));
    if (s.falls_behind)
        return w.say("The regular copy “{0}” falls behind for good from about {1}: more changes than the line carries.",
                     s.name, month_of(o.as_of, s.days_until_behind.value_or(0), w));
    switch (status_of(s, o.confidence)) {
        case Level::overruns:
            return w.say(
                "The regular copy “{0}” does not arrive in time: {1} of its runs take longer than the line is open for "
                "them.",
                s.name, say_share(s.chance_of_missing_window, w));
        case Level::tight:
            return w.say(
                "The regular copy “{0}” mostly arrives in time, but {1} of its runs take longer than the line is open "
                "for them.",
                s.name, say_share(s.chance_of_missing_window, w));
        case Level::fits:
        case Level::note:
            break;
    }
    if (o.sends.size() == 1)
        return w.say("The regular copy “{0}” arrives in time: it is made in the hours that the line is open for it.",
                     s.name);
    if (o.sends.size() == 2)
        return w.say("Both regular copies arrive in time: each is made in the hours that the line is open for it.");
    return w.say("All {0} regular copies arrive in time: each is made in the hours that the line is open for it.",
                 o.sends.size());
}

std::string what_to_do(const Outlook& o, const Wording& w) {
    std::vector<const BoxOutlook*> due;
    for (const auto& b : o.boxes)
        if (b.order_by || b.full_now || b.over_ceiling_now) due.push_back(&b);
    if (due.empty()) return w.say("Nothing needs to be bought now.");
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
        if (offered)
            return w.say("None of the offers for {0} is sure enough to last for {1}, so ask for others.", b.name,
                         w.horizon(o.horizon_days));
        if (day(b) <= o.as_of)
            return w.say("More space for {0} should be ordered now; offers to compare were not given.", b.name);
        return w.say("More space for {0} should be ordered by {1}; offers to compare were not given.", b.name,
                     w.date(day(b)));
    }
    const auto [b, offer] = proposed.front();
    std::string more = day(*b) <= o.as_of ? w.say(", ordered now") : w.say(", ordered by {0}", w.date(day(*b)));
    if (proposed.size() == 2) more += w.say(", and one more purchase that is named below");
    if (proposed.size() > 2) more += w.say(", and {0} more purchases that are named below", proposed.size() - 1);
    return w.say("We propose “{0}” for {1}, {2} in all over {3}{4}.", offer->name, offer->box,
                 w.money(offer->cost_total, o.currency), w.horizon(o.horizon_days), more);
}

}  // namespace

std::array<std::string, 3> three_sentences(const Answer& a) {
    const Wording w(a.language);
    return {how_full(a.outlook, w), does_it_arrive(a.outlook, w), what_to_do(a.outlook, w)};
}

}  // namespace ullage::report
