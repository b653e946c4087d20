// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/benchmarks/accuracy/scores.h"

#include "core/units/quantiles.h"

#include <algorithm>
#include <cmath>

namespace ullage::accuracy {

double pinball(double q, double truth, double level) {
    return std::max(level * (truth - q), (level - 1) * (truth - q));
}

double inverse_distribution(const std::vector<double>& sorted, double level) {
    return ullage::inverse_distribution(sorted, level, sorted.size()).value();
}

double Band::loss(double truth) const {
    return (pinball(p10, truth, 0.1) + pinball(p50, truth, 0.5) + pinball(p90, truth, 0.9)) / 3;
}

Band band_of(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return {quantile_of_sorted(values, 0.1), quantile_of_sorted(values, 0.5),
            quantile_of_sorted(values, 0.9)};
}

Band band_of_days(std::vector<double> days) {
    std::sort(days.begin(), days.end());
    return {inverse_distribution(days, 0.1), inverse_distribution(days, 0.5),
            inverse_distribution(days, 0.9)};
}

double mean_of(const std::vector<double>& values) {
    double sum = 0;
    for (const double x : values) sum += x;
    return values.empty() ? 0 : sum / static_cast<double>(values.size());
}

void Score::add(const std::vector<Band>& forecasts, const std::vector<double>& truths) {
    double middle = 0;
    double came = 0;
    for (std::size_t i = 0; i < truths.size(); ++i) {
        middle += forecasts[i].p50;
        came += truths[i];
        inside_ += forecasts[i].holds(truths[i]) ? 1 : 0;
        loss_ += forecasts[i].loss(truths[i]);
    }
    errors_.push_back(middle / came - 1);
    size_ += came;
    truths_ += static_cast<double>(truths.size());
}

void Score::add(double point, const std::vector<double>& truths) {
    add(std::vector<Band>(truths.size(), Band{point, point, point}), truths);
}

double Score::median_error() const {
    std::vector<double> sizes;
    for (const double e : errors_) sizes.push_back(std::abs(e));
    return quantile_of(sizes, 0.5);
}

double Score::mean_error() const {
    std::vector<double> sizes;
    for (const double e : errors_) sizes.push_back(std::abs(e));
    return mean_of(sizes);
}

double Score::bias() const { return mean_of(errors_); }
double Score::inside() const { return truths_ > 0 ? inside_ / truths_ : 0; }
double Score::loss() const { return size_ > 0 ? loss_ / size_ : 0; }

}  // namespace ullage::accuracy
