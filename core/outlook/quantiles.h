// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Quantiles by linear interpolation between order statistics: type 7 of Hyndman and Fan, Sample
/// Quantiles in Statistical Packages, 1996. 0 ≤ p ≤ 1.

#include "core/outlook/outlook.h"

#include <algorithm>
#include <cstddef>
#include <vector>

namespace ullage {

/// Of values in rising order; at least one.
template <class T>
double quantile_of_sorted(const std::vector<T>& sorted, double p) {
    const double at = p * static_cast<double>(sorted.size() - 1);
    const auto low = static_cast<std::size_t>(at);
    const std::size_t high = std::min(low + 1, sorted.size() - 1);
    return sorted[low] + (sorted[high] - sorted[low]) * (at - static_cast<double>(low));
}

/// Of values in any order, which it rearranges; 0 for none.
inline double quantile_of(std::vector<double>& values, double p) {
    if (values.empty()) return 0;
    const double at = p * static_cast<double>(values.size() - 1);
    const auto low = static_cast<std::size_t>(at);
    const auto nth = values.begin() + static_cast<std::ptrdiff_t>(low);
    std::nth_element(values.begin(), nth, values.end());
    if (low + 1 >= values.size()) return *nth;
    const double next = *std::min_element(nth + 1, values.end());
    return *nth + (next - *nth) * (at - static_cast<double>(low));
}

inline RunQuantiles run_quantiles(std::vector<double> values) {
    return {quantile_of(values, 0.5), quantile_of(values, 0.9), quantile_of(values, 0.95)};
}

}  // namespace ullage
