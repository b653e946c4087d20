// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/backtest_json.h"

#include "core/findings/json_values.h"

#include <nlohmann/json.hpp>

namespace ullage {

namespace {

using Json = nlohmann::ordered_json;
using namespace json;

Json forecasts_json(const std::vector<ForecastThen>& forecasts) {
    Json all = Json::array();
    for (const auto& f : forecasts)
        all.push_back({{"at", format_instant(f.at)}, {"p10", number(f.p10)}, {"p50", number(f.p50)},
                       {"p90", number(f.p90)}, {"came", number(f.came)}});
    return all;
}

}  // namespace

Json backtest_json(const std::optional<Backtest>& b) {
    if (!b) return nullptr;
    Json origins = Json::array();
    for (const auto& o : b->origins)
        origins.push_back({{"origin", format_instant(o.origin)},
                           {"snapshots", o.snapshots},
                           {"live_bytes", number(o.live_bytes)},
                           {"live", forecasts_json(o.live)},
                           {"freed", forecasts_json(o.freed)}});
    return {{"live_error", number(b->live_error)},
            {"live_inside", number(b->live_inside)},
            {"freed_error", number(b->freed_error)},
            {"freed_inside", number(b->freed_inside)},
            {"origins", std::move(origins)}};
}

Json measured_steps_json(const std::vector<MeasuredStep>& steps) {
    Json all = Json::array();
    for (const auto& s : steps)
        all.push_back({{"gap_days", number(s.gap_days)},
                       {"freed_bytes", number(s.freed_bytes)},
                       {"low_bytes", number(s.low_bytes)},
                       {"high_bytes", number(s.high_bytes)},
                       {"steps", s.steps}});
    return all;
}

}  // namespace ullage
