// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/measure.h"

#include "core/measure/doubts.h"
#include "core/measure/thinning.h"
#include "core/units/quantiles.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <map>
#include <random>

namespace ullage {

namespace {

constexpr std::size_t most_fitted = 1000;  // snapshots whose rows are fitted
constexpr std::size_t most_levels = 50'000;  // snapshots whose live bytes growth is read from

double gap_days(const Snapshot& a, const Snapshot& b) { return days_between(a.taken, b.taken); }

/// Live averaged over time by the trapezoid rule.
double mean_live(const std::vector<Snapshot>& list) {
    double area = 0;
    double span = 0;
    for (std::size_t i = 1; i < list.size(); ++i) {
        const double gap = gap_days(list[i - 1], list[i]);
        area += gap * (list[i - 1].live_bytes + list[i].live_bytes) / 2;
        span += gap;
    }
    return area / span;
}

/// Rows weighted by how often their snapshot's block was drawn.
std::vector<Observation> resampled(const std::vector<Observation>& rows,
                                   const std::vector<std::size_t>& snapshot_of_row,
                                   std::size_t snapshots, std::mt19937_64& random) {
    const auto block = std::max<std::size_t>(
        2, static_cast<std::size_t>(std::lround(std::cbrt(static_cast<double>(snapshots)))));
    std::vector<double> times(snapshots, 0);
    for (std::size_t drawn = 0; drawn < snapshots;) {
        // The engine's own numbers: the library's distributions differ between implementations.
        const std::size_t start = random() % snapshots;
        for (std::size_t j = 0; j < block && drawn < snapshots; ++j, ++drawn)
            times[(start + j) % snapshots] += 1;
    }
    std::vector<Observation> result;
    for (std::size_t r = 0; r < rows.size(); ++r) {
        if (times[snapshot_of_row[r]] == 0) continue;
        result.push_back(rows[r]);
        result.back().weight = times[snapshot_of_row[r]];
    }
    return result;
}

/// Scales the parts of the alternatives so that at each lifetime their median frees what `middle` does.
void centre(std::vector<Curve>& alternatives, const Curve& middle) {
    if (alternatives.empty()) return;
    std::map<double, double> factor;  // by lifetime
    for (const double lifetime : lifetime_grid()) {
        std::vector<double> freed;
        for (const auto& c : alternatives) freed.push_back(c.freed(lifetime));
        const double median = quantile_of(freed, 0.5);
        factor[lifetime] = median > 0 ? middle.freed(lifetime) / median : 1;
    }
    for (auto& c : alternatives) {
        auto parts = c.components();
        for (auto& part : parts) part.bytes *= factor.at(part.lifetime_days);
        c = Curve(std::move(parts));
    }
}

/// Live bytes over time; of very many snapshots every k-th, back from the newest.
std::vector<LivePoint> live_points(const std::vector<Snapshot>& list) {
    const std::size_t stride = stride_of(list.size(), most_levels);
    std::vector<LivePoint> points;
    for (std::size_t i = (list.size() - 1) % stride; i < list.size(); i += stride)
        points.push_back({days_between(list.front().taken, list[i].taken), list[i].live_bytes});
    return points;
}

struct Rows {
    std::vector<Observation> rows;
    std::vector<std::size_t> snapshot;  // index of the newer snapshot of each row
};

/// `stride`: of so many snapshots one has rows.
Rows rows_of(const std::vector<Snapshot>& list, double growth, std::size_t stride = 1) {
    Rows result;
    const auto put = [&](Observation o, std::size_t i) {
        result.rows.push_back(o);
        result.snapshot.push_back(i);
    };
    for (std::size_t i = 1; i < list.size(); i += stride) {
        const double gap = gap_days(list[i - 1], list[i]);
        put({Observation::Kind::freed, gap, 0, freed_between(list[i - 1], list[i]), 1}, i);
        put({Observation::Kind::written, gap, 0, list[i].written_bytes - growth * gap, 1}, i);
        if (i + 1 < list.size())
            put({Observation::Kind::unique, gap, gap_days(list[i], list[i + 1]),
                 list[i].unique_bytes, 1}, i);
    }
    return result;
}

}  // namespace

double freed_between(const Snapshot& older, const Snapshot& newer) {
    return older.live_bytes + newer.written_bytes - newer.live_bytes;
}

double Measurement::written(double delta_days) const {
    return std::max(0.0, fit.curve.freed(delta_days) + growth.bytes_per_day * delta_days);
}

double Measurement::day_variation() const {
    const double day = fit.curve.freed(1);
    return day > 0 ? std::sqrt(fit.burst_bytes / day) : 0;
}

std::vector<Observation> observations_of(const Listing& listing, double growth_bytes_per_day) {
    return rows_of(listing.snapshots, growth_bytes_per_day).rows;
}

tl::expected<Measurement, std::string> measure(const Listing& listing, const MeasureOptions& options) {
    const auto& list = listing.snapshots;
    if (list.size() < 2)
        return tl::unexpected(fmt::format(
            "the listing{} has {} snapshot{}; at least two are needed to see what changes between them",
            listing.dataset.empty() ? "" : " of “" + listing.dataset + "”", list.size(),
            list.size() == 1 ? "" : "s"));
    Measurement result;
    result.dataset = listing.dataset;
    result.snapshots = static_cast<int>(list.size());
    result.first = list.front().taken;
    result.last = list.back().taken;
    result.live_bytes = list.back().live_bytes;
    result.warnings.assign(listing.warnings.begin(), listing.warnings.end());
    const double mean = mean_live(list);
    if (!(mean > 0) || !(result.live_bytes > 0))
        return tl::unexpected(fmt::format("the newest snapshot has {} live bytes: there is nothing to "
                                          "forecast from", result.live_bytes));

    result.growth = growth_model(live_points(list));
    result.week = week_shape(listing);

    result.shortest_days = gap_days(list.front(), list.back());
    for (std::size_t i = 1; i < list.size(); ++i) {
        result.shortest_days = std::min(result.shortest_days, gap_days(list[i - 1], list[i]));
        result.held_bytes += std::max(freed_between(list[i - 1], list[i]), 0.0);
    }
    for (auto& doubt : doubts_of(listing)) result.warnings.push_back(std::move(doubt));

    const Rows rows = rows_of(list,
                              (list.back().live_bytes - list.front().live_bytes) /
                                  gap_days(list.front(), list.back()),
                              stride_of(list.size(), most_fitted));
    FitOptions fit = options.fit;
    fit.live_bytes = mean;
    auto fitted = fit_curve(rows.rows, fit);
    if (!fitted) return tl::unexpected(fitted.error());
    result.fit = *std::move(fitted);
    const double scale = result.live_bytes / mean;
    result.fit.curve = result.fit.curve.scaled(scale);
    result.fit.burst_bytes *= scale;

    std::mt19937_64 random(options.seed);
    FitOptions quick = fit;
    quick.refinements = 2;
    for (int b = 0; b < options.replicates; ++b) {
        quick.shape_draw = (b + 0.5) / options.replicates;
        const auto some = resampled(rows.rows, rows.snapshot, list.size(), random);
        const auto refit = fit_curve(some, quick);
        result.replicates.push_back(refit ? refit->curve.scaled(scale) : result.fit.curve);
    }
    centre(result.replicates, result.fit.curve);
    return result;
}

}  // namespace ullage
