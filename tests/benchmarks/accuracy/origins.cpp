// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/benchmarks/accuracy/origins.h"

#include "core/measure/evidence.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>

namespace fs = std::filesystem;

namespace ullage::accuracy {

namespace {

Dated dated_of(const nlohmann::json& dates, Instant as_of) {
    std::map<double, double> by_day;
    for (const auto& [date, bytes] : dates.items())
        by_day[std::round(days_between(as_of, *parse_instant(date)))] = bytes.get<double>();
    Dated d;
    for (const auto& [day, bytes] : by_day) {
        d.days.push_back(day);
        d.bytes.push_back(bytes);
    }
    return d;
}

tl::expected<Origin, std::string> read_origin(const fs::path& folder) {
    Origin origin;
    origin.history = folder.parent_path().filename().string();
    origin.name = folder.filename().string();
    const auto truth = read_text_file((folder / "truth.json").string());
    if (!truth) return tl::unexpected(truth.error());
    try {
        const auto json = nlohmann::json::parse(*truth);
        origin.as_of = *parse_instant(json.at("as_of").get<std::string>());
        for (const auto& [ladder, dates] : json.at("held").items())
            origin.held[ladder] = dated_of(dates, origin.as_of);
        origin.live = dated_of(json.at("live"), origin.as_of);
        origin.live_daily = json.at("live_daily").get<std::vector<double>>();
    } catch (const std::exception& e) {
        return tl::unexpected(fmt::format("{}: {}", (folder / "truth.json").string(), e.what()));
    }
    for (const std::string ladder : {"tiered", "daily90", "daily30"}) {
        const fs::path path = folder / ("listing-" + ladder + ".tsv");
        if (!fs::exists(path)) continue;
        const auto text = read_text_file(path.string());
        if (!text) return tl::unexpected(text.error());
        origin.listings[ladder] = *text;
    }
    if (const auto usage = folder / "live.tsv"; fs::exists(usage)) {
        const auto text = read_text_file(usage.string());
        if (!text) return tl::unexpected(text.error());
        origin.usage = *text;
    }
    return origin;
}

}  // namespace

tl::expected<std::vector<Origin>, std::string> read_origins(const std::string& folder) {
    std::vector<fs::path> paths;
    std::error_code failed;
    for (const auto& entry : fs::recursive_directory_iterator(folder, failed))
        if (entry.path().filename() == "truth.json") paths.push_back(entry.path().parent_path());
    if (failed) return tl::unexpected(fmt::format("{}: {}", folder, failed.message()));
    std::sort(paths.begin(), paths.end());
    std::vector<Origin> origins;
    for (const auto& path : paths) {
        auto origin = read_origin(path);
        if (!origin) return tl::unexpected(origin.error());
        origins.push_back(*std::move(origin));
    }
    return origins;
}

}  // namespace ullage::accuracy
