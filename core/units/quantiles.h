// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Quantiles by linear interpolation between order statistics: type 7 of Hyndman and Fan, Sample
/// Quantiles in Statistical Packages, 1996. 0 ≤ p ≤ 1.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
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

/// The same for several p that rise: each looks only above the one before.
template <std::size_t N, class T>
std::array<double, N> quantiles_of(std::vector<T>& values, const std::array<double, N>& rising) {
    std::array<double, N> found{};
    if (values.empty()) return found;
    auto from = values.begin();
    for (std::size_t k = 0; k < N; ++k) {
        const double at = rising[k] * static_cast<double>(values.size() - 1);
        const auto low = static_cast<std::size_t>(at);
        const auto nth = values.begin() + static_cast<std::ptrdiff_t>(low);
        if (nth >= from) std::nth_element(from, nth, values.end());
        found[k] = static_cast<double>(*nth);
        if (low + 1 < values.size()) {
            if (nth + 1 >= from) std::iter_swap(nth + 1, std::min_element(nth + 1, values.end()));
            found[k] += (static_cast<double>(*(nth + 1)) - static_cast<double>(*nth)) * (at - static_cast<double>(low));
        }
        // What lies below is in its place.
        from = std::max(from, nth + std::min<std::ptrdiff_t>(2, values.end() - nth));
    }
    return found;
}

/// Inverse distribution function (their type 1) of `all` values of which only those that came are given, in
/// rising order: the least value that a share `p` of all lies at or below; empty if that many never came.
inline std::optional<double> inverse_distribution(const std::vector<double>& came, double p,
                                                  std::size_t all) {
    // A share times a count is a whole number too rarely in binary: without the slack, 0.1 × 2,000 could
    // be the 201st value.
    const auto rank = static_cast<std::size_t>(std::max(1.0, std::ceil(p * static_cast<double>(all) - 1e-9)));
    if (rank > came.size()) return {};
    return came[rank - 1];
}

}  // namespace ullage
