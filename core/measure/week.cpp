// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/week.h"

#include <algorithm>
#include <vector>

namespace ullage {

namespace {

constexpr double shortest_day = 0.75;
constexpr double longest_day = 1.25;
constexpr std::size_t least_days = 28;

double mean_of(const std::vector<double>& values) {
    double sum = 0;
    for (const double v : values) sum += v;
    return values.empty() ? 0 : sum / static_cast<double>(values.size());
}

}  // namespace

WeekShape week_shape(const Listing& listing) {
    WeekShape flat;
    flat.fill(1);
    std::array<std::vector<double>, 7> by_weekday;
    std::vector<double> all;
    const auto& list = listing.snapshots;
    for (std::size_t i = 1; i < list.size(); ++i) {
        const double gap = days_between(list[i - 1].taken, list[i].taken);
        if (gap < shortest_day || gap > longest_day) continue;
        const Instant middle = list[i - 1].taken + (list[i].taken - list[i - 1].taken) / 2;
        const std::chrono::weekday weekday(std::chrono::floor<std::chrono::days>(middle));
        const double a_day = list[i].written_bytes / gap;
        by_weekday[weekday.iso_encoding() - 1].push_back(a_day);
        all.push_back(a_day);
    }
    const double mean = mean_of(all);
    if (all.size() < least_days || !(mean > 0)) return flat;

    double within = 0;
    for (const auto& days : by_weekday) {
        if (days.empty()) return flat;
        const double own = mean_of(days);
        for (const double d : days) within += (d - own) * (d - own);
    }
    within /= static_cast<double>(all.size() - by_weekday.size());
    double between = 0;
    double error = 0;
    for (const auto& days : by_weekday) {
        const double off = mean_of(days) - mean;
        between += off * off / 6;
        error += within / static_cast<double>(days.size()) / 7;
    }
    const double real = std::max(between - error, 0.0);
    if (!(real > 0)) return flat;

    WeekShape shape;
    double sum = 0;
    for (std::size_t w = 0; w < shape.size(); ++w) {
        const double trust = real / (real + within / static_cast<double>(by_weekday[w].size()));
        shape[w] = std::max(0.0, 1 + trust * (mean_of(by_weekday[w]) / mean - 1));
        sum += shape[w];
    }
    for (double& s : shape) s *= 7 / sum;
    return shape;
}

}  // namespace ullage
