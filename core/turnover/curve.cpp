// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/turnover/curve.h"

#include <algorithm>
#include <cmath>

namespace ullage {

double Curve::freed(double delta_days) const {
    const double d = std::max(delta_days, 0.0);
    double sum = 0;
    for (const auto& c : components_) sum -= c.bytes * std::expm1(-d / c.lifetime_days);
    return sum;
}

double Curve::unique(double gap_days, double next_gap_days) const {
    const double g = std::max(gap_days, 0.0);
    const double h = std::max(next_gap_days, 0.0);
    double sum = 0;  // freed(g) + freed(h) − freed(g + h), without its cancellation
    for (const auto& c : components_)
        sum += c.bytes * std::expm1(-g / c.lifetime_days) * std::expm1(-h / c.lifetime_days);
    return sum;
}

double Curve::total() const {
    double sum = 0;
    for (const auto& c : components_) sum += c.bytes;
    return sum;
}

Curve Curve::scaled(double factor) const {
    Curve result = *this;
    for (auto& c : result.components_) c.bytes *= factor;
    return result;
}

const std::vector<double>& lifetime_grid() {
    static const std::vector<double> grid = [] {
        constexpr int n = 32;
        constexpr double first = 0.02;
        constexpr double last = 3650;
        std::vector<double> g(n);
        for (int k = 0; k < n; ++k) g[k] = first * std::pow(last / first, double(k) / (n - 1));
        return g;
    }();
    return grid;
}

}  // namespace ullage
