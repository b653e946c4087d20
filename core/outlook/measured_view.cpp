// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/measured_view.h"

#include "core/measure/thinning.h"
#include "core/units/quantiles.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace ullage {

namespace {

constexpr std::size_t most_steps = 100'000;  // of more than that every k-th is looked at
constexpr double alike = 1.25;            // gaps of a group, the longest by the shortest
constexpr int band_points = 48;
constexpr double shortest_days = 1.0 / 24;
constexpr double longest_days = 5 * days_per_year;
// Quantiles of the standard normal at 1/18, 3/18 … 17/18: nine equally likely levels.
constexpr std::array<double, 9> levels = {-1.59322, -0.96742, -0.58946, -0.28222, 0,
                                          0.28222,  0.58946,  0.96742,  1.59322};

}  // namespace

std::vector<MeasuredStep> measured_steps(const Listing& listing) {
    std::vector<std::pair<double, double>> steps;  // gap, freed
    const auto& list = listing.snapshots;
    const std::size_t stride = stride_of(list.size(), most_steps);
    steps.reserve(list.size() / stride + 1);
    for (std::size_t i = 1; i < list.size(); i += stride) {
        const double gap = days_between(list[i - 1].taken, list[i].taken);
        if (gap > 0) steps.emplace_back(gap, std::max(freed_between(list[i - 1], list[i]), 0.0));
    }
    std::sort(steps.begin(), steps.end());
    std::vector<MeasuredStep> groups;
    for (std::size_t from = 0; from < steps.size();) {
        MeasuredStep group;
        double gaps = 0;
        std::size_t to = from;
        for (; to < steps.size() && steps[to].first <= alike * steps[from].first; ++to) {
            gaps += steps[to].first;
            group.freed_bytes += steps[to].second;
        }
        std::vector<double> freed;
        freed.reserve(to - from);
        for (std::size_t i = from; i < to; ++i) freed.push_back(steps[i].second);
        group.steps = static_cast<int>(to - from);
        group.gap_days = gaps / group.steps;
        group.freed_bytes /= group.steps;
        group.low_bytes = quantile_of(freed, 0.1);
        group.high_bytes = quantile_of(freed, 0.9);
        groups.push_back(group);
        from = to;
    }
    return groups;
}

std::vector<CurveBand> curve_band(const DatasetModel& model) {
    std::vector<CurveBand> band;
    if (!(model.mean_curve.total() > 0)) return band;
    const double variance = std::log1p(model.churn_spread * model.churn_spread);
    std::vector<double> values;
    for (int i = 0; i < band_points; ++i) {
        const double gap =
            shortest_days * std::pow(longest_days / shortest_days, double(i) / (band_points - 1));
        values.clear();
        for (const auto& curve : model.curves) {
            const double freed = curve.freed(gap);
            for (const double z : levels)
                values.push_back(freed * std::exp(std::sqrt(variance) * z - variance / 2));
        }
        std::sort(values.begin(), values.end());
        band.push_back({gap, quantile_of_sorted(values, 0.1), quantile_of_sorted(values, 0.5),
                        quantile_of_sorted(values, 0.9)});
    }
    return band;
}

}  // namespace ullage
