// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/questions.h"

#include "core/findings/findings.h"
#include "core/findings/json_values.h"
#include "core/findings/words.h"
#include "core/units/quantity_text.h"

#include <fmt/format.h>
#include <cmath>
#include <nlohmann/json.hpp>

namespace ullage {

namespace {

using Json = nlohmann::ordered_json;
using namespace json;

constexpr int answer_version = 1;

std::string rate(double bits_per_second) { return format_bit_rate({bits_per_second}); }
std::string size(double b) { return format_bytes({b}); }

std::string of_futures(double confidence) {
    return fmt::format("with {} confidence", format_percent(confidence, 3));
}

std::string one(const LinkRateAnswer& a) {
    const std::string sends = fmt::format("“{}”", fmt::join(a.sends, "”, “"));
    if (!a.needed_bits_per_second)
        return fmt::format("{}: no line rate carries {}; {} binds.", a.link, sends,
                           limit_words(a.other_limit));
    const std::string sold = a.sold_bits_per_second
                                 ? fmt::format("{} is sold", rate(*a.sold_bits_per_second))
                                 : "no rate on the list is that high";
    return a.enough_today
               ? fmt::format("{}: today's {} is enough for {}; the least is {} ({}).", a.link,
                             rate(a.today_bits_per_second), sends, rate(*a.needed_bits_per_second),
                             sold)
               : fmt::format("{}: {} needs {} ({}), not today's {}.", a.link, sends,
                             rate(*a.needed_bits_per_second), sold, rate(a.today_bits_per_second));
}

std::string one(const UsableAnswer& a) {
    return fmt::format("{}: {} usable keeps it below {} ({} today).", a.box, size(a.needed_bytes),
                       format_percent(a.ceiling), size(a.today_bytes));
}

std::string one(const LadderAnswer& a) {
    std::string text;
    if (!a.longest_days) {
        text = fmt::format("{}: no ladder fits; even the shortest passes the ceiling.", a.box);
    } else {
        text = fmt::format(
            "{}: snapshots can be kept for {}{} ({} today).", a.box, say_days(*a.longest_days),
            a.as_long_as_the_horizon ? " and longer, as far as the horizon tells" : "",
            say_days(a.today_days));
        for (const auto& l : a.ladders) text += fmt::format("\n    {}: {}", l.dataset, l.ladder);
    }
    if (!a.sends_fit)
        text += "\n    Its sends miss their windows whatever the ladder: ask for link-rate first.";
    return text;
}

std::string one(const OrderDateAnswer& a, Day as_of) {
    if (!a.order_by) return fmt::format("{}: nothing to order within the horizon.", a.box);
    std::string text = fmt::format(
        "{}: order by {}{}; the ceiling may come on {}, and a delivery takes {}. If nothing is "
        "bought, it is ",
        a.box, format_date(*a.order_by), *a.order_by <= as_of ? ", which is past" : "",
        format_date(add_days(as_of, *a.ceiling_day)), say_days(a.lead_time_days));
    if (a.full_day)
        return text + fmt::format("full around {} in half of the futures.", month_of(as_of, *a.full_day));
    return text + (a.chance_of_full > 0
                       ? fmt::format("full within the horizon in {}.", say_futures(a.chance_of_full))
                       : std::string("not full within the horizon, but over its ceiling."));
}

}  // namespace

std::string solve_text(const SolveAnswer& a) {
    std::string text = fmt::format("{}, as of {}: {} {}\n", a.site, format_date(a.as_of),
                                   to_string(a.what), of_futures(a.confidence));
    const auto add = [&](const std::string& line) { text += "  " + line + "\n"; };
    for (const auto& x : a.link_rates) add(one(x));
    for (const auto& x : a.usable) add(one(x));
    for (const auto& x : a.ladders) add(one(x));
    for (const auto& x : a.order_dates) add(one(x, a.as_of));
    if (a.link_rates.empty() && a.usable.empty() && a.ladders.empty() && a.order_dates.empty())
        add("there is nothing to solve for: no box with a size, or no ladder");
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

std::string drill_text(const OutageDrill& d) {
    std::string text = fmt::format("“{}”: {} down from {} for {:g} days\n", d.send, d.link,
                                   format_date(d.from), d.days);
    const auto add = [&](const std::string& line) { text += "  " + line + "\n"; };
    add(fmt::format("When the line is back, {} are waiting (19 in 20: under {}).",
                    size(d.backlog_bytes.p50), size(d.backlog_bytes.p95)));
    if (d.chance_of_catching_up > 0)
        add(fmt::format("Caught up after {} (19 in 20: within {}).",
                        say_hours(d.catch_up_days.p50 * 24), say_hours(d.catch_up_days.p95 * 24)));
    if (d.chance_of_catching_up < 1)
        add(fmt::format("It does not catch up within the horizon in {} futures.",
                        say_chance(1 - d.chance_of_catching_up)));
    add(fmt::format("The newest complete copy is {} old at its worst.",
                    say_hours(d.oldest_copy_hours.p50)));
    if (!d.resends_whole) {
        add("Both ends still share a snapshot, so one increment catches up.");
    } else {
        add(fmt::format(
            "The last common snapshot of “{}” is gone in {} futures: {} sent again whole, {} in "
            "{}.",
            fmt::join(d.resent_datasets, "”, “"), say_chance(1 - d.chance_base_survives),
            d.resent_datasets.size() == 1 ? "it is" : "they are", size(d.resend_bytes.p50),
            say_hours(d.resend_days.p50 * 24)));
        add(fmt::format(
            "The box needs {} for it beside the old copy{}.", size(d.room_needed_bytes),
            d.room_free_bytes
                ? fmt::format("; it has {} free then{}", size(std::max(0.0, *d.room_free_bytes)),
                              *d.room_free_bytes < d.room_needed_bytes
                                  ? ", which is too little: the old copy would have to go first"
                                  : "")
                : ""));
    }
    add(d.longest_outage_days ? fmt::format("The longest outage survived is {}.",
                                            say_days(std::floor(*d.longest_outage_days)))
                              : std::string("An outage of any length is survived."));
    for (const auto& r : d.remedies)
        add(fmt::format("With {}: {}.", r.text,
                        r.longest_days ? say_days(std::floor(*r.longest_days)) : "any length"));
    return text;
}

std::string drill_json(const OutageDrill& d) {
    Json remedies = Json::array();
    for (const auto& r : d.remedies)
        remedies.push_back(
            {{"kind",
              r.kind == OutageRemedy::Kind::hold_last_sent ? "hold-last-sent" : "longer-ladder"},
             {"text", r.text},
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
