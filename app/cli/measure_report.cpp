// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/cli/measure_report.h"

#include "core/units/quantity_text.h"

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

}  // namespace

std::string measure_text(const std::vector<Measurement>& all) {
    std::string text;
    for (const auto& m : all) {
        text += fmt::format("{}: {} snapshots from {} to {}\n",
                            m.dataset.empty() ? "(unnamed)" : m.dataset, m.snapshots,
                            format_instant(m.first), format_instant(m.last));
        text += fmt::format("  live          {}\n", size(m.live_bytes));
        text += fmt::format("  held          {} by the listed snapshots besides\n", size(m.held_bytes));
        text += fmt::format("  growth        {} a day, give or take {} (standard error)\n",
                            size(m.growth.bytes_per_day), size(m.growth.rate_spread()));
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
        text += "  turnover curve (bytes that die, by mean lifetime)\n";
        for (const auto& c : m.fit.curve.components())
            if (c.bytes > 1e-3 * m.fit.curve.total())
                text += fmt::format("    {:>10}  {}\n", format_duration(days(c.lifetime_days), 2), size(c.bytes));
        for (const auto& w : m.warnings) text += fmt::format("  note: {}\n", w);
    }
    return text;
}

std::string measure_json(const std::vector<Measurement>& all) {
    using Json = nlohmann::ordered_json;
    Json datasets = Json::array();
    for (const auto& m : all) {
        Json written = Json::object();
        for (const auto& [name, step] : steps) {
            const auto [low, high] = spread_of(m, step);
            written[name] = {{"mean", m.written(step)}, {"p10", low}, {"p90", high},
                             {"extrapolated", step > m.fit.longest_days}};
        }
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
                            {"growth_standard_error", m.growth.rate_spread()},
                            {"written_bytes", std::move(written)},
                            {"curve", std::move(curve)},
                            {"shortest_gap_days", m.shortest_days},
                            {"longest_gap_days", m.fit.longest_days},
                            {"fit_relative_error", m.fit.relative_error},
                            {"warnings", m.warnings}});
    }
    const Json document = {{"format", "ullage-measure"}, {"version", 1}, {"datasets", std::move(datasets)}};
    return document.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace ullage::cli
