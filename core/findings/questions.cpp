// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/questions.h"

#include "core/findings/findings.h"
#include "core/findings/json_values.h"
#include "core/findings/words.h"
#include "core/units/quantity_text.h"

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

namespace ullage {

namespace {

using Json = nlohmann::ordered_json;
using namespace json;

constexpr int answer_version = 1;

std::string one(const LinkRateAnswer& a, const Wording& w) {
    std::string sends;
    for (const auto& name : a.sends) sends += (sends.empty() ? "" : ", ") + w.say("“{}”", name);
    if (!a.needed_bits_per_second)
        return w.say("{}: no line rate carries {}; {} binds.", a.link, sends, limit_words(a.other_limit, w));
    const std::string sold = a.sold_bits_per_second ? w.say("{} is sold", w.bit_rate(*a.sold_bits_per_second))
                                                    : w.say("no rate on the list is that high");
    const std::string today = w.bit_rate(a.today_bits_per_second), needed = w.bit_rate(*a.needed_bits_per_second);
    return a.enough_today
               ? w.say("{}: today's {} is enough for {}; the least is {} ({}).", a.link, today, sends, needed, sold)
               : w.say("{}: {} needs {} ({}), not today's {}.", a.link, sends, needed, sold, today);
}

std::string one(const UsableAnswer& a, const Wording& w) {
    return w.say("{}: {} usable keeps it below {} ({} today).", a.box, w.bytes(a.needed_bytes), w.percent(a.ceiling),
                 w.bytes(a.today_bytes));
}

std::string one(const LadderAnswer& a, const Wording& w) {
    std::string text;
    if (!a.longest_days) {
        text = w.say("{}: no ladder fits; even the shortest passes the ceiling.", a.box);
    } else {
        const std::string longest = w.span(*a.longest_days), today = w.span(a.today_days);
        text = a.as_long_as_the_horizon
                   ? w.say("{}: snapshots can be kept for {} and longer, as far as the horizon tells ({} today).", a.box,
                           longest, today)
                   : w.say("{}: snapshots can be kept for {} ({} today).", a.box, longest, today);
        for (const auto& l : a.ladders) text += "\n    " + l.dataset + ": " + l.ladder;
    }
    if (!a.sends_fit)
        text += "\n    " + w.say("Its sends miss their windows whatever the ladder: ask for link-rate first.");
    return text;
}

std::string one(const OrderDateAnswer& a, Day as_of, const Wording& w) {
    if (!a.order_by) return w.say("{}: nothing to order within the horizon.", a.box);
    const std::string by = w.date(*a.order_by), comes = w.date(add_days(as_of, *a.ceiling_day));
    const std::string takes = w.span(a.lead_time_days);
    return (*a.order_by <= as_of
                ? w.say("{}: order by {}, which is past; the ceiling may come on {}, and a delivery takes {}.", a.box, by,
                        comes, takes)
                : w.say("{}: order by {}; the ceiling may come on {}, and a delivery takes {}.", a.box, by, comes,
                        takes)) +
           " " +
           (a.full_day             ? w.say("If nothing is bought, it is full around {} in half of the futures.",
                                           month_of(as_of, *a.full_day, w))
            : a.chance_of_full > 0 ? w.say("If nothing is bought, it is full within the horizon in {}.",
                                           say_futures(a.chance_of_full, w))
                                   : w.say("If nothing is bought, it is not full within the horizon, but over its "
                                           "ceiling."));
}

}  // namespace

std::string solve_text(const SolveAnswer& a, Language language) {
    const Wording w(language);
    std::string text = w.say("{}, as of {}: {} with {} confidence", a.site, w.date(a.as_of), to_string(a.what),
                             w.percent(a.confidence)) + "\n";
    const auto add = [&](const std::string& line) { text += "  " + line + "\n"; };
    for (const auto& x : a.link_rates) add(one(x, w));
    for (const auto& x : a.usable) add(one(x, w));
    for (const auto& x : a.ladders) add(one(x, w));
    for (const auto& x : a.order_dates) add(one(x, a.as_of, w));
    if (a.link_rates.empty() && a.usable.empty() && a.ladders.empty() && a.order_dates.empty())
        add(w.say("there is nothing to solve for: no box with a size, or no ladder"));
    return text;
}

std::string solve_json(const SolveAnswer& a) {
    Json answers = Json::array();
    for (const auto& x : a.link_rates)
        answers.push_back(
            {{"link", x.link},
             {"sends", x.sends},
             {"today_bits_per_s", number(x.today_bits_per_second)},
             {"enough_today", x.enough_today},
             {"needed_bits_per_s", number(x.needed_bits_per_second)},
             {"sold_bits_per_s", number(x.sold_bits_per_second)},
             {"bound_by",
              x.needed_bits_per_second ? Json("rate") : Json(to_string(x.other_limit))}});
    for (const auto& x : a.usable)
        answers.push_back({{"box", x.box},
                           {"today_bytes", bytes(x.today_bytes)},
                           {"needed_bytes", bytes(x.needed_bytes)},
                           {"ceiling", number(x.ceiling)}});
    for (const auto& x : a.ladders) {
        Json ladders = Json::array();
        for (const auto& l : x.ladders)
            ladders.push_back({{"dataset", l.dataset}, {"ladder", l.ladder}});
        answers.push_back({{"box", x.box},
                           {"today_days", number(x.today_days)},
                           {"longest_days", number(x.longest_days)},
                           {"as_long_as_the_horizon", x.as_long_as_the_horizon},
                           {"sends_fit", x.sends_fit},
                           {"ladders", std::move(ladders)}});
    }
    for (const auto& x : a.order_dates)
        answers.push_back(
            {{"box", x.box},
             {"order_by", x.order_by ? Json(format_date(*x.order_by)) : Json(nullptr)},
             {"days_until_ceiling", number(x.ceiling_day)},
             {"lead_time_days", number(x.lead_time_days)},
             {"days_until_full", number(x.full_day)},
             {"chance_of_full_within_horizon", number(x.chance_of_full)}});
    return text_of({{"format", "ullage-solve"},
                    {"version", answer_version},
                    {"site", a.site},
                    {"as_of", format_date(a.as_of)},
                    {"for", to_string(a.what)},
                    {"confidence", number(a.confidence)},
                    {"answers", std::move(answers)}});
}

std::string drill_text(const OutageDrill& d, Language language) {
    const Wording w(language);
    std::string text = w.say("“{}”: {} down from {} for {} days", d.send, d.link, w.date(d.from), w.number(d.days, 6)) + "\n";
    const auto add = [&](const std::string& line) { text += "  " + line + "\n"; };
    add(w.say("When the line is back, {} are waiting (19 in 20: under {}).", w.bytes(d.backlog_bytes.p50),
              w.bytes(d.backlog_bytes.p95)));
    if (d.chance_of_catching_up > 0)
        add(w.say("Caught up after {} (19 in 20: within {}).", w.hours(d.catch_up_days.p50 * 24, Case::dative),
                  w.hours(d.catch_up_days.p95 * 24, Case::dative)));
    if (d.chance_of_catching_up < 1)
        add(w.say("It does not catch up within the horizon in {}.", chance_of_futures(1 - d.chance_of_catching_up, w)));
    add(w.say("The newest complete copy is {} old at its worst.", w.hours(d.oldest_copy_hours.p50)));
    if (!d.resends_whole) {
        add(w.say("Both ends still share a snapshot, so one increment catches up."));
    } else {
        std::string resent;
        for (const auto& name : d.resent_datasets) resent += (resent.empty() ? "" : ", ") + w.say("“{}”", name);
        const std::string gone = chance_of_futures(1 - d.chance_base_survives, w);
        add(w.say_n("The last common snapshot of {} is gone in {}: it is sent again whole, {} in {}.",
                    "The last common snapshot of {} is gone in {}: they are sent again whole, {} in {}.",
                    static_cast<long>(d.resent_datasets.size()), resent, gone, w.bytes(d.resend_bytes.p50),
                    w.hours(d.resend_days.p50 * 24, Case::dative)));
        const std::string needed = w.bytes(d.room_needed_bytes);
        if (!d.room_free_bytes) {
            add(w.say("The box needs {} for it beside the old copy.", needed));
        } else {
            const std::string free = w.bytes(std::max(0.0, *d.room_free_bytes));
            add(*d.room_free_bytes < d.room_needed_bytes
                    ? w.say("The box needs {} for it beside the old copy; it has {} free then, which is too little: the "
                            "old copy would have to go first.", needed, free)
                    : w.say("The box needs {} for it beside the old copy; it has {} free then.", needed, free));
        }
    }
    add(d.longest_outage_days
            ? w.say("The longest outage survived is {}.", w.span(std::floor(*d.longest_outage_days)))
            : w.say("An outage of any length is survived."));
    for (const auto& r : d.remedies)
        add(r.longest_days ? w.say("With {}: {}.", r.text, w.span(std::floor(*r.longest_days)))
                           : w.say("With {}: any length.", r.text));
    return text;
}

std::string drill_json(const OutageDrill& d, Language language) {
    const Wording w(language);
    Json remedies = Json::array();
    for (const auto& r : d.remedies)
        remedies.push_back(
            {{"kind",
              r.kind == OutageRemedy::Kind::hold_last_sent ? "hold-last-sent" : "longer-ladder"},
             {"text", w(r.text)},
             {"longest_outage_days", number(r.longest_days)}});
    Json daily = Json::array();
    for (const auto& day : d.daily)
        daily.push_back(
            {{"date", format_date(day.date)},
             {"oldest_copy_hours",
              {{"p50", number(day.age_p50_hours)}, {"p95", number(day.age_p95_hours)}}},
             {"waiting_bytes",
              {{"p50", bytes(day.waiting_p50_bytes)}, {"p95", bytes(day.waiting_p95_bytes)}}}});
    Json resend = nullptr;
    if (d.resends_whole)
        resend = {
            {"datasets", d.resent_datasets},
            {"bytes", byte_quantiles(d.resend_bytes)},
            {"days", run_quantiles(d.resend_days)},
            {"room_needed_bytes", bytes(d.room_needed_bytes)},
            {"room_free_bytes", d.room_free_bytes ? bytes(*d.room_free_bytes) : Json(nullptr)}};
    return text_of({{"format", "ullage-outage"},
                    {"version", answer_version},
                    {"send", d.send},
                    {"link", d.link},
                    {"from", format_date(d.from)},
                    {"days", number(d.days)},
                    {"backlog_bytes", byte_quantiles(d.backlog_bytes)},
                    {"catch_up_days",
                     d.chance_of_catching_up > 0 ? run_quantiles(d.catch_up_days) : Json(nullptr)},
                    {"chance_of_catching_up", number(d.chance_of_catching_up)},
                    {"oldest_copy_hours", run_quantiles(d.oldest_copy_hours)},
                    {"daily", std::move(daily)},
                    {"chance_base_survives", number(d.chance_base_survives)},
                    {"longest_outage_days", number(d.longest_outage_days)},
                    {"remedies", std::move(remedies)},
                    {"full_resend", std::move(resend)}});
}

}  // namespace ullage
