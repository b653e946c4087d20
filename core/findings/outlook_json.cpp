// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/backtest_json.h"
#include "core/findings/findings.h"

#include "core/findings/json_values.h"
#include "core/site/site_json.h"

#include <array>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace ullage {

namespace {

using Json = nlohmann::ordered_json;
using namespace json;

constexpr int outlook_version = 1;

Json sentences_json(const std::vector<Message>& messages, const Wording& w) {
    Json all = Json::array();
    for (const auto& m : messages) all.push_back(w(m));
    return all;
}

Json day_quantiles(const DayQuantiles& q) {
    return {{"p10", number(q.p10)}, {"p50", number(q.p50)}, {"p90", number(q.p90)}};
}

Json byte_band(const Band& b) {
    return {{"p10", bytes(b.p10)}, {"p50", bytes(b.p50)}, {"p90", bytes(b.p90)}};
}

Json capacity_json(const std::optional<PoolCapacity>& c) {
    if (!c) return nullptr;
    return {{"label_bytes", bytes(c->label_bytes)},       {"drive_bytes", bytes(c->drive_bytes)},
            {"spare_bytes", bytes(c->spare_bytes)},       {"formatted_bytes", bytes(c->formatted_bytes)},
            {"raw_bytes", bytes(c->raw_bytes)},           {"charged_bytes", bytes(c->charged_bytes)},
            {"reserve_bytes", bytes(c->reserve_bytes)},   {"log_bytes", bytes(c->log_bytes)},
            {"usable_bytes", bytes(c->usable_bytes)}};
}

Json costs_json(const std::vector<BlockCost>& costs) {
    Json all = Json::array();
    for (const auto& c : costs)
        all.push_back({{"dataset", c.dataset},
                       {"block_bytes", bytes(c.block_bytes)},
                       {"used_per_stored_byte", number(c.charge)},
                       {"better_block_bytes", bytes(c.better_block_bytes)},
                       {"used_per_stored_byte_then",
                        c.better_block_bytes ? number(c.better_charge) : Json(nullptr)}});
    return all;
}

Json shape_json(const std::optional<BetterShape>& s, const Wording& w) {
    if (!s) return nullptr;
    return {{"text", w(s->text)},
            {"usable_bytes", bytes(s->usable_bytes)},
            {"used_per_stored_byte", number(s->charge)},
            {"used_per_stored_byte_now", number(s->charge_now)},
            {"holds_more", number(s->gain)}};
}

Json box_json(const BoxOutlook& b, const Wording& w) {
    Json fill = Json::array();
    for (const auto& p : b.fill)
        fill.push_back({{"date", format_date(p.date)},
                        {"used_bytes", byte_band(p.used_bytes)},
                        {"live_bytes", bytes(p.live_bytes.p50)},
                        {"held_bytes", byte_band(p.held_bytes)},
                        {"usable_bytes", bytes(p.usable_bytes)},
                        {"fill", number(p.fill)}});
    Json changes = Json::array();
    for (const auto& c : b.changes)
        changes.push_back({{"on", format_date(c.on)},
                           {"text", w(c.text)},
                           {"usable_bytes", bytes(c.usable_bytes)},
                           {"ceiling_bytes", bytes(c.ceiling_bytes)}});
    return {{"name", b.name},
            {"raw_bytes", b.raw_bytes > 0 ? bytes(b.raw_bytes) : Json(nullptr)},
            {"usable_bytes", bytes(b.usable_bytes)},
            {"ceiling_bytes", bytes(b.ceiling_bytes)},
            {"days_until_ceiling", day_quantiles(b.days_until_ceiling)},
            {"days_until_full", day_quantiles(b.days_until_full)},
            {"chance_of_ceiling_within_horizon", number(b.chance_of_ceiling_within_horizon)},
            {"chance_of_full_within_horizon", number(b.chance_of_full_within_horizon)},
            {"order_by", b.order_by ? Json(format_date(*b.order_by)) : Json(nullptr)},
            {"usable_needed_bytes", bytes(b.usable_needed_bytes)},
            {"ladder_that_fits_days", b.ladder_that_fits ? number(b.ladder_that_fits->longest_days) : Json(nullptr)},
            {"capacity", capacity_json(b.capacity)},
            {"block_costs", costs_json(b.costs)},
            {"better_shape", shape_json(b.better_shape, w)},
            {"changes", std::move(changes)},
            {"fill", std::move(fill)}};
}

Json rebuild_json(const std::optional<RebuildExposure>& r) {
    if (!r) return nullptr;
    return {{"hours", number(r->hours)},
            {"others_in_group", r->others},
            {"further_failures_survived", r->spare_failures},
            {"yearly_failure_rate", number(r->yearly_failures)},
            {"chance_of_another_failure", number(r->chance_of_another)}};
}

Json offer_json(const OfferOutlook& o, const Wording& w) {
    return {{"name", o.name},
            {"box", o.box},
            {"as", to_text(o.as)},
            {"usable_bytes", bytes(o.usable_bytes)},
            {"ceiling_bytes", bytes(o.ceiling_bytes)},
            {"drives", o.drives},
            {"running_from", format_date(o.running_from)},
            {"chance_of_lasting", number(o.chance_of_lasting)},
            {"chance_too_late", number(o.chance_too_late)},
            {"days_until_ceiling", day_quantiles(o.days_until_ceiling)},
            {"price", number(o.price)},
            {"purchases", o.purchases},
            {"replacement_cost", number(o.replacement_cost)},
            {"energy_cost", number(o.energy_cost)},
            {"cost_total", number(o.cost_total)},
            {"cost_per_usable_tib_year", number(o.cost_per_usable_tib_year)},
            {"rebuild", rebuild_json(o.rebuild)},
            {"goes_in", o.does_not_go_in.empty()},
            {"obstacle", o.does_not_go_in.empty() ? Json(nullptr) : Json(w(o.does_not_go_in))},
            {"holds", o.holds},
            {"recommended", o.recommended},
            {"dominated_by", o.dominated_by.empty() ? Json(nullptr) : Json(o.dominated_by)},
            {"rank", o.rank},
            {"capacity", capacity_json(o.capacity)},
            {"assumptions", sentences_json(o.assumptions, w)}};
}

Json weekday_json(const WeekdayRuns& w) {
    static constexpr std::array<const char*, 7> names{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
    return {{"weekday", names[std::size_t(w.weekday)]},
            {"runs", w.runs},
            {"bytes", byte_quantiles(w.bytes)},
            {"hours", run_quantiles(w.hours)},
            {"open_share", run_quantiles(w.open_share)},
            {"chance_of_missing_window", number(w.chance_of_missing_window)}};
}

Json event_json(const EventRun& e, const Wording& w) {
    return {{"on", format_date(e.on)},
            {"dataset", e.dataset},
            {"text", w(e.text)},
            {"bytes", byte_quantiles(e.bytes)},
            {"hours", run_quantiles(e.hours)},
            {"nights", run_quantiles(e.nights)},
            {"chance_of_fitting", number(e.chance_of_fitting)}};
}

Json first_copy_json(const FirstCopyWays& f, const Wording& w) {
    return {{"bytes", bytes(f.bytes)},
            {"link_days", number(f.link_days)},
            {"link_in_step_days", number(f.link_in_step_days)},
            {"link_base_expires", f.link_base_expires},
            {"courier_copy_days", number(f.courier_copy_days)},
            {"courier_away_days", number(f.courier_away_days)},
            {"courier_in_step_days", number(f.courier_days)},
            {"courier_base_expires", f.courier_base_expires},
            {"break_even_bytes", bytes(f.break_even_bytes)},
            {"recommended", f.carry ? "courier" : "link"},
            {"assumptions", sentences_json(f.assumptions, w)}};
}

Json restore_json(const RestoreWays& w) {
    return {{"dataset", w.dataset.empty() ? Json(nullptr) : Json(w.dataset)},
            {"bytes", byte_quantiles(w.bytes)},
            {"link_hours", run_quantiles(w.link_hours)},
            {"bound_by", to_string(w.bound_by)},
            {"fetch_hours", number(w.fetch_hours)},
            {"fetch_bound_by", w.road_binds ? "road" : "copying"}};
}

Json backlog_json(const BacklogOutlook& b) {
    return {{"times_a_year", number(b.times_a_year)},
            {"bytes", byte_quantiles(b.bytes)},
            {"max_bytes", bytes(b.max_bytes)},
            {"hours_to_drain", run_quantiles(b.hours_to_drain)},
            {"max_hours_to_drain", number(b.max_hours_to_drain)}};
}

/// Added to the contract's keys of a send.
void add_more(Json& json, const SendOutlook& s, const Wording& w) {
    Json weekdays = Json::array();
    for (const auto& each : s.weekdays) weekdays.push_back(weekday_json(each));
    Json ages = Json::array();
    for (const auto& a : s.copy_age)
        ages.push_back({{"from", format_date(a.from)},
                        {"p50_hours", number(a.p50_hours)},
                        {"p95_hours", number(a.p95_hours)},
                        {"max_hours", number(a.max_hours)}});
    Json events = Json::array();
    for (const auto& e : s.events) events.push_back(event_json(e, w));
    Json restore = Json::array();
    for (const auto& each : s.restore) restore.push_back(restore_json(each));
    json["next_limit"] = {{"bound_by", to_string(s.goodput.next_limit)},
                          {"bits_per_second", number(s.goodput.next_bits_per_second)}};
    json["relays"] = s.relays;
    json["open_share_per_run"] = run_quantiles(s.open_share_per_run);
    json["weekdays"] = std::move(weekdays);
    json["copy_age"] = std::move(ages);
    json["backlog"] = backlog_json(s.backlog);
    json["days_until_behind"] = number(s.days_until_behind);
    json["days_until_ladder_lost"] = number(s.days_until_ladder_lost);
    json["line_rate_needed_bits_per_s"] = number(s.line_rate_needed);
    json["events"] = std::move(events);
    json["first_copy"] = s.first_copy ? first_copy_json(*s.first_copy, w) : Json(nullptr);
    json["restore"] = std::move(restore);
}

Json send_json(const SendOutlook& s, const Wording& w) {
    Json limits = Json::array();
    for (const auto& step : s.goodput.chain)
        limits.push_back({{"step", step.name},
                          {"bits_per_second", number(step.bits_per_second)},
                          {"own_bits_per_second", number(step.own_bits_per_second)},
                          {"binding", step.binding}});
    Json json = {{"name", s.name},
            {"goodput_bits_per_s", number(s.goodput.bits_per_second)},
            {"bound_by", to_string(s.bound_by)},
            {"limits", std::move(limits)},
            {"bytes_per_run", byte_quantiles(s.bytes_per_run)},
            {"hours_per_run", run_quantiles(s.hours_per_run)},
            {"open_hours_per_run", number(s.open_hours_per_run)},
            {"chance_of_missing_window", number(s.chance_of_missing_window)},
            {"falls_behind", s.falls_behind},
            {"recovery_point_hours", {{"p50", number(s.recovery_point_hours.p50)},
                                      {"p95", number(s.recovery_point_hours.p95)},
                                      {"max", number(s.recovery_point_max_hours)}}},
            {"first_copy_days", day_quantiles(s.first_copy_days)},
            {"longest_outage_days", number(s.longest_outage_days)},
            {"restore_hours", {{"p50", number(s.restore_hours.p50)}, {"p90", number(s.restore_hours.p90)}}}};
    add_more(json, s, w);
    return json;
}

Json dataset_json(const DatasetOutlook& d, const Wording& w) {
    Json curve = Json::array();
    for (const auto& c : d.curve)
        curve.push_back({{"lifetime_days", number(c.lifetime_days)}, {"bytes", number(c.bytes)}});
    Json band = Json::array();
    for (const auto& b : d.curve_band)
        band.push_back({{"gap_days", number(b.gap_days)},
                        {"p10", number(b.p10)},
                        {"p50", number(b.p50)},
                        {"p90", number(b.p90)}});
    return {{"name", d.name},
            {"live_bytes", bytes(d.live_bytes)},
            {"growth_bytes_per_day", number(d.growth_bytes_per_day)},
            {"written_bytes", {{"1 h", number(d.written_1h)},
                               {"1 d", number(d.written_1d)},
                               {"7 d", number(d.written_7d)},
                               {"30 d", number(d.written_30d)}}},
            {"measured", d.measured},
            {"curve", std::move(curve)},
            {"curve_band", std::move(band)},
            {"measured_steps", measured_steps_json(d.measured_steps)},
            {"backtest", backtest_json(d.backtest)},
            {"growth_stretch", number(d.stretch)},
            {"assumptions", sentences_json(d.assumptions, w)}};
}

Json driver_json(const Driver& d, const Wording& w) {
    return {{"box", d.box},
            {"input", w(d.input)},
            {"about", d.about},
            {"effect_days", {{"low", number(d.low_days)}, {"high", number(d.high_days)}}},
            {"variance_share", number(d.variance_share)}};
}

Json answer_json(const Answer& a) {
    const auto& o = a.outlook;
    const Wording w(a.language);
    Json boxes = Json::array();
    for (const auto& b : o.boxes) boxes.push_back(box_json(b, w));
    Json sends = Json::array();
    for (const auto& s : o.sends) sends.push_back(send_json(s, w));
    Json datasets = Json::array();
    for (const auto& d : o.datasets) datasets.push_back(dataset_json(d, w));
    Json offers = Json::array();
    for (const auto& offer : o.offers) offers.push_back(offer_json(offer, w));
    Json drivers = Json::array();
    for (const auto& d : o.drivers) drivers.push_back(driver_json(d, w));
    Json findings = Json::array();
    for (const auto& f : a.findings)
        findings.push_back({{"level", to_string(f.level)}, {"about", f.about}, {"text", f.text}});
    return {{"format", "ullage-outlook"},
            {"version", outlook_version},
            {"site", o.site},
            {"as_of", format_date(o.as_of)},
            {"horizon_days", number(o.horizon_days)},
            {"paths", o.paths},
            {"seed", o.seed},
            {"currency", o.currency},
            {"boxes", std::move(boxes)},
            {"sends", std::move(sends)},
            {"datasets", std::move(datasets)},
            {"offers", std::move(offers)},
            {"drivers", std::move(drivers)},
            {"findings", std::move(findings)}};
}

std::string csv_field(const std::string& text) {
    if (text.find_first_of(",\"\n\r") == std::string::npos) return text;
    std::string quoted = "\"";
    for (const char c : text) quoted += c == '"' ? std::string("\"\"") : std::string(1, c);
    return quoted + "\"";
}

}  // namespace

std::string outlook_json(const Answer& answer) { return text_of(answer_json(answer)); }

std::string outlook_csv(const Answer& a, bool with_header) {
    std::string csv = with_header ? "site,box,date,used_p10_bytes,used_p50_bytes,used_p90_bytes,live_p50_bytes,"
                                    "held_p50_bytes,usable_bytes,fill\n"
                                  : "";
    for (const auto& b : a.outlook.boxes)
        for (const auto& p : b.fill)
            csv += fmt::format("{},{},{},{:.0f},{:.0f},{:.0f},{:.0f},{:.0f},{:.0f},{:.6f}\n",
                               csv_field(a.outlook.site), csv_field(b.name), format_date(p.date), p.used_bytes.p10,
                               p.used_bytes.p50, p.used_bytes.p90, p.live_bytes.p50, p.held_bytes.p50,
                               p.usable_bytes, p.fill);
    return csv;
}

}  // namespace ullage
