// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/benchmarks/accuracy/forecast.h"

#include "core/outlook/kept_copies.h"

#include <algorithm>
#include <cmath>

namespace ullage::accuracy {

namespace {

Ladder ladder_of(const std::vector<std::pair<Period, int>>& rungs) {
    Ladder ladder;
    for (const auto& [every, count] : rungs) {
        Rung rung;
        rung.every = every;
        rung.count = count;
        ladder.push_back(rung);
    }
    return ladder;
}

std::string first_of(const Problems& problems) {
    return problems.empty() ? "unknown" : problems.front().what;
}

}  // namespace

const std::vector<NamedLadder>& ladders() {
    using U = Period::Unit;
    static const std::vector<NamedLadder> all = {
        {"tiered",
         ladder_of({{{1, U::hour}, 24}, {{1, U::day}, 14}, {{7, U::day}, 8}, {{30, U::day}, 12}})},
        {"weekly52", ladder_of({{{7, U::day}, 52}})},
        {"daily30", ladder_of({{{1, U::day}, 30}})},
        {"daily90", ladder_of({{{1, U::day}, 90}})},
    };
    return all;
}

const Ladder& tiered() { return ladders().front().ladder; }

tl::expected<DatasetModel, std::string> model_of(const std::string& listing,
                                                 const std::string& usage, Instant as_of) {
    Site site;
    site.as_of = std::chrono::floor<std::chrono::days>(as_of);
    Dataset dataset;
    dataset.name = "store";
    dataset.turnover.emplace().listing = "listing";
    Evidence evidence;
    auto listings = parse_listing(listing);
    if (!listings) return tl::unexpected(first_of(listings.error()));
    evidence.listings["listing"] = *std::move(listings);
    if (!usage.empty()) {
        dataset.usage = "usage";
        auto points = parse_usage(usage);
        if (!points) return tl::unexpected(first_of(points.error()));
        evidence.usages["usage"] = *std::move(points);
    }
    site.datasets.push_back(dataset);
    auto models = dataset_models(site, evidence, site.as_of);
    if (!models) return tl::unexpected(first_of(models.error()));
    return models->front();
}

std::vector<double> Year::at(const PathTable& table, double day) const {
    const auto time =
        static_cast<std::size_t>(std::lower_bound(days.begin(), days.end(), day) - days.begin());
    const auto row = table.row(time);
    return {row.begin(), row.end()};
}

std::vector<double> Year::days_until(const PathTable& table, double limit) const {
    std::vector<double> until;
    for (std::size_t p = 0; p < table.paths(); ++p)
        until.push_back(
            std::min(first_passage(days, table.path(p), block_paths, limit).value_or(year_days),
                     year_days));
    return until;
}

Year forecast_year(const DatasetModel& model, Instant as_of, const std::vector<Ladder>& kept,
                   const std::vector<double>& days) {
    PathsPlan plan;
    plan.as_of = as_of;
    plan.paths = plan.most_parted = path_count;
    plan.boxes = static_cast<int>(kept.size());
    plan.other_bytes.assign(kept.size(), 0);
    plan.days = time_grid(days.empty() ? year_days : std::max(year_days, days.back()), days);
    KeptMemo memo(1);
    for (std::size_t b = 0; b < kept.size(); ++b) {
        BoxPart part;
        part.box = static_cast<int>(b);
        part.kept = kept_at_home(LadderClock(kept[b], TimeZone()), model.known, as_of, plan.days, memo);
        plan.parts.push_back(std::move(part));
    }
    Year year;
    year.paths = *draw_paths({model}, plan, {}, 0, 1);
    year.days = std::move(plan.days);
    return year;
}

}  // namespace ullage::accuracy
