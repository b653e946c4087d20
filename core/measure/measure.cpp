// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/measure.h"

#include "core/measure/doubts.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <random>

namespace ullage {

namespace {

constexpr int even_points = 120;       // steps at which live is read off for the slope
constexpr double block_days = 7;       // of the increments: a whole week, so weekdays even out
constexpr int most_blocks = 26;

double gap_days(const Snapshot& a, const Snapshot& b) { return days_between(a.taken, b.taken); }

double median_of(std::vector<double>& values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    if (values.size() % 2 == 1) return *middle;
    const double upper = *middle;
    return (upper + *std::max_element(values.begin(), middle)) / 2;
}

/// Live bytes at `day`, straight lines between the points.
double live_at(const std::vector<LivePoint>& points, double day) {
    if (day <= points.front().day) return points.front().bytes;
    if (day >= points.back().day) return points.back().bytes;
    const auto next = std::upper_bound(points.begin(), points.end(), day,
                                       [](double d, const LivePoint& p) { return d < p.day; });
    const auto& b = *next;
    const auto& a = *(next - 1);
    return a.bytes + (b.bytes - a.bytes) * (day - a.day) / (b.day - a.day);
}

std::vector<LivePoint> even_points_of(const std::vector<LivePoint>& points, int steps) {
    std::vector<LivePoint> even;
    const double first = points.front().day;
    const double span = points.back().day - first;
    for (int i = 0; i <= steps; ++i) {
        const double day = first + span * i / steps;
        even.push_back({day, live_at(points, day)});
    }
    return even;
}

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

struct Rows {
    std::vector<Observation> rows;
    std::vector<std::size_t> snapshot;  // index of the newer snapshot of each row
};

Rows rows_of(const std::vector<Snapshot>& list, double growth) {
    Rows result;
    const auto put = [&](Observation o, std::size_t i) {
        result.rows.push_back(o);
        result.snapshot.push_back(i);
    };
    for (std::size_t i = 1; i < list.size(); ++i) {
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

double theil_sen_slope(const std::vector<LivePoint>& points) {
    std::vector<double> slopes;
    for (std::size_t i = 0; i < points.size(); ++i)
        for (std::size_t j = i + 1; j < points.size(); ++j)
            if (points[j].day > points[i].day)
                slopes.push_back((points[j].bytes - points[i].bytes) / (points[j].day - points[i].day));
    return slopes.empty() ? 0 : median_of(slopes);
}

GrowthEstimate estimate_growth(const std::vector<LivePoint>& points) {
    GrowthEstimate growth;
    const double span = points.back().day - points.front().day;
    if (!(span > 0)) return growth;
    growth.bytes_per_day = theil_sen_slope(even_points_of(points, even_points));

    const int blocks = std::clamp(static_cast<int>(span / block_days), 2, most_blocks);
    const auto ends = even_points_of(points, blocks);
    const double length = span / blocks;
    double squares = 0;
    for (int i = 0; i < blocks; ++i) {
        const double off = ends[static_cast<std::size_t>(i) + 1].bytes -
                           ends[static_cast<std::size_t>(i)].bytes - growth.bytes_per_day * length;
        squares += off * off;
    }
    const double variance = squares / (blocks - 1);
    growth.noise_per_root_day = std::sqrt(variance / length);
    growth.standard_error = std::sqrt(variance / blocks) / length;
    return growth;
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
    result.warnings = listing.warnings;
    const double mean = mean_live(list);
    if (!(mean > 0) || !(result.live_bytes > 0))
        return tl::unexpected(fmt::format("the newest snapshot has {} live bytes: there is nothing to "
                                          "forecast from", result.live_bytes));

    std::vector<LivePoint> live;
    for (const auto& s : list) live.push_back({days_between(list.front().taken, s.taken), s.live_bytes});
    result.growth = estimate_growth(live);

    result.shortest_days = gap_days(list.front(), list.back());
    for (std::size_t i = 1; i < list.size(); ++i) {
        result.shortest_days = std::min(result.shortest_days, gap_days(list[i - 1], list[i]));
        result.held_bytes += std::max(freed_between(list[i - 1], list[i]), 0.0);
    }
    for (auto& doubt : doubts_of(listing)) result.warnings.push_back(std::move(doubt));

    const Rows rows = rows_of(list, (list.back().live_bytes - list.front().live_bytes) /
                                        gap_days(list.front(), list.back()));
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
    return result;
}

}  // namespace ullage
