// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/cli/measure_report.h"

#include "core/findings/backtest_json.h"
#include "core/units/quantity_text.h"
#include "core/words/wording.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>
#include <nlohmann/json.hpp>
#include <utility>

namespace ullage::cli {

namespace {

constexpr std::array<std::pair<const char*, double>, 5> steps = {
    {{"1 h", 1.0 / 24}, {"1 d", 1}, {"7 d", 7}, {"30 d", 30}, {"365 d", 365}}};

/// Middle 80 % of the refitted curves' written bytes of a step.
std::pair<double, double> spread_of(const Measurement& m, double step) {
    std::vector<double> values;
    for (const auto& c : m.replicates)
        values.push_back(std::max(0.0, c.freed(step) + m.growth.bytes_per_day * step));
    if (values.empty()) return {m.written(step), m.written(step)};
    std::sort(values.begin(), values.end());
    const auto at = [&](double p) {
        return values[static_cast<std::size_t>(std::lround(p * static_cast<double>(values.size() - 1)))];
    };
    return {at(0.1), at(0.9)};
}

std::string size(double bytes) { return format_bytes({bytes}); }

/// A share as "7 of 10".
std::string in_ten(double share) { return fmt::format("{:.0f} of 10", 10 * share); }

std::string week_text(const Measurement& m) {
    static constexpr std::array<const char*, 7> names{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};
    std::string text = fmt::format("  days          what a day frees varies by {} of its mean; ",
                                   format_percent(m.day_variation(), 2));
    if (std::all_of(m.week.begin(), m.week.end(), [](double w) { return w == 1; }))
        return text + "no weekday stands out, or too few days were seen\n";
    text += "written on a mean day ×\n               ";
    for (std::size_t d = 0; d < names.size(); ++d) text += fmt::format(" {} {:.2f}", names[d], m.week[d]);
    return text + "\n";
}

std::string growth_text(const GrowthModel& g) {
    std::string text = fmt::format("  growth        {} a day in the listing", size(g.bytes_per_day));
    int found = 0;
    double stepped = 0;
    for (const auto& b : g.blocks)
        if (b.step) {
            ++found;
            stepped += b.bytes;
        }
    if (found > 0)
        text += fmt::format(" ({} one-off step{} of {} in all count{} in part)", found, found == 1 ? "" : "s",
                            size(stepped), found == 1 ? "s" : "");
    text += fmt::format("\n                forecast with {} a day, give or take {}\n", size(g.middle_rate()),
                        size(g.rate_spread()));
    if (g.judged == 0)
        text += "                too short to judge itself by its own past: bands 1.3 × wider\n";
    else
        text += fmt::format("                own past errors made the bands {:.2g} × wider a month ahead, {:.2g} × "
                            "from three months on\n", g.stretch_30, g.stretch_90);
    return text;
}

std::string backtest_text(const std::optional<Backtest>& b) {
    if (!b) return "  backtest      the listing is too short to be cut and judged\n";
    std::string text = fmt::format(
        "  backtest      cut at {} earlier date{}, measured again and forecast to its end:\n"
        "                live bytes {} off, {} inside the 80 % band; freed bytes {} off, {} inside\n",
        b->origins.size(), b->origins.size() == 1 ? "" : "s", format_percent(b->live_error, 2),
        in_ten(b->live_inside), format_percent(b->freed_error, 2), in_ten(b->freed_inside));
    for (const auto& o : b->origins) {
        const auto& live = o.live.back();
        const auto& freed = o.freed.back();
        text += fmt::format("    {}  {:>4.0f} d on: live {} ({} to {}), came {}; freed {} ({} to {}), came {}\n",
                            format_instant(o.origin).substr(0, 10), live.days_ahead, size(live.p50),
                            size(live.p10), size(live.p90), size(live.came), size(freed.p50), size(freed.p10),
                            size(freed.p90), size(freed.came));
    }
    return text;
}

}  // namespace

std::string measure_text(const std::vector<Measured>& all) {
    std::string text;
    for (const auto& [m, seen, judged] : all) {
        text += fmt::format("{}: {} snapshots from {} to {}\n",
                            m.dataset.empty() ? "(unnamed)" : m.dataset, m.snapshots,
                            format_instant(m.first), format_instant(m.last));
        text += fmt::format("  live          {}\n", size(m.live_bytes));
        text += fmt::format("  held          {} by the listed snapshots besides\n", size(m.held_bytes));
        text += growth_text(m.growth);
        text += week_text(m);
        text += "  written by a step of\n";
        for (const auto& [name, step] : steps) {
            const auto [low, high] = spread_of(m, step);
            text += fmt::format("    {:>5}       {} ({} to {}){}\n", name, size(m.written(step)), size(low),
                                size(high), step > m.fit.longest_days ? ", extrapolated" : "");
        }
        text += fmt::format("  gaps seen     {} to {}; beyond that the curve is an extrapolation\n",
                            format_duration(days(m.shortest_days)), format_duration(days(m.fit.longest_days)));
        text +=
            fmt::format("  fit           {} of what the gaps freed is not explained by the curve\n",
                        format_percent(m.fit.relative_error < 1e-4 ? 0 : m.fit.relative_error, 2));
        text += "  steps seen    (mean length, how many, bytes freed by one)\n";
        for (const auto& s : seen)
            text += fmt::format("    {:>10}  {:>5} × {} ({} to {})\n", format_duration(days(s.gap_days), 2), s.steps,
                                size(s.freed_bytes), size(s.low_bytes), size(s.high_bytes));
        text += backtest_text(judged);
        text += "  turnover curve (bytes that die, by mean lifetime)\n";
        for (const auto& c : m.fit.curve.components())
            if (c.bytes > 1e-3 * m.fit.curve.total())
                text += fmt::format("    {:>10}  {}\n", format_duration(days(c.lifetime_days), 2), size(c.bytes));
        for (const auto& w : m.warnings) text += fmt::format("  note: {}\n", english(w));
    }
    return text;
}

std::string measure_json(const std::vector<Measured>& all) {
    using Json = nlohmann::ordered_json;
    Json datasets = Json::array();
    for (const auto& [m, seen, judged] : all) {
        Json written = Json::object();
        for (const auto& [name, step] : steps) {
            const auto [low, high] = spread_of(m, step);
            written[name] = {{"mean", m.written(step)}, {"p10", low}, {"p90", high},
                             {"extrapolated", step > m.fit.longest_days}};
        }
        Json warnings = Json::array();
        for (const auto& w : m.warnings) warnings.push_back(english(w));
        Json curve = Json::array();
        for (const auto& c : m.fit.curve.components())
            curve.push_back({{"lifetime_days", c.lifetime_days}, {"bytes", c.bytes}});
        datasets.push_back({{"name", m.dataset},
                            {"snapshots", m.snapshots},
                            {"first", format_instant(m.first)},
                            {"last", format_instant(m.last)},
                            {"live_bytes", m.live_bytes},
                            {"held_bytes", m.held_bytes},
                            {"growth_bytes_per_day", m.growth.bytes_per_day},
                            {"growth_standard_error", m.growth.standard_error},
                            {"growth_forecast_bytes_per_day", m.growth.middle_rate()},
                            {"growth_forecast_spread", m.growth.rate_spread()},
                            {"growth_stretch", m.growth.stretch_90},
                            {"written_bytes", std::move(written)},
                            {"curve", std::move(curve)},
                            {"shortest_gap_days", m.shortest_days},
                            {"longest_gap_days", m.fit.longest_days},
                            {"fit_relative_error", m.fit.relative_error},
                            {"day_variation", m.day_variation()},
                            {"week_shape", m.week},
                            {"measured_steps", measured_steps_json(seen)},
                            {"backtest", backtest_json(judged)},
                            {"warnings", std::move(warnings)}});
    }
    const Json document = {{"format", "ullage-measure"}, {"version", 1}, {"datasets", std::move(datasets)}};
    return document.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace ullage::cli
