// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Quantiles of many values in any order, as quantiles.h gives them, found without sorting them all: values are
/// counted in slots of equal width, and only the slots that hold a wanted rank are sorted. Few values, or such as lie
/// nearly all in a few slots, are parted as there.

#include "core/units/quantiles.h"

#include <cstdint>
#include <limits>

namespace ullage {

/// Keeps its room between calls; T: float or double.
template <class T>
class SlotQuantiles {
public:
    /// For each of `rising` (0 ≤ p ≤ 1, in order) the quantile of `n` values, none of them NaN; 0 for none.
    template <std::size_t N>
    std::array<double, N> of(const T* values, std::size_t n, const std::array<double, N>& rising) {
        std::array<double, N> found{};
        if (n == 0) return found;
        range(values, n);
        slots_ = n < many ? few_slots : most_slots;
        const T width = (most_ - least_) / static_cast<T>(slots_);
        per_width_ = 1 / width;
        // All alike, or too far apart for slots of a width.
        if (n < least_counted || !(width > 0) || !std::isfinite(width) || !std::isfinite(per_width_))
            return parted(values, n, rising);
        std::fill_n(counts_.begin(), slots_, 0U);
        for (std::size_t i = 0; i < n; ++i) ++counts_[slot(values[i])];
        // Where each wanted slot's values go among those picked, and how many lie below it.
        std::fill_n(wanted_.begin(), slots_, unwanted);
        std::size_t slot_of_rank = 0;
        std::size_t below = 0;
        std::uint32_t picked = 0;
        std::array<std::size_t, 2 * N> place;  // among the picked, of each rank
        for (std::size_t k = 0; k < 2 * N; ++k) {
            const std::size_t rank = std::min(rank_of(rising[k / 2], n) + k % 2, n - 1);
            // Ranks rise but for one: the upper neighbour of a quantile may lie above the next one's lower.
            while (slot_of_rank > 0 && rank < below) below -= counts_[--slot_of_rank];
            while (rank >= below + counts_[slot_of_rank]) below += counts_[slot_of_rank++];
            if (wanted_[slot_of_rank] == unwanted) {
                wanted_[slot_of_rank] = picked;
                picked += counts_[slot_of_rank];
            }
            place[k] = wanted_[slot_of_rank] + (rank - below);
        }
        if (picked > n / most_picked) return parted(values, n, rising);
        std::copy_n(wanted_.begin(), slots_, next_.begin());
        picked_.resize(picked);
        for (std::size_t i = 0; i < n; ++i) {
            std::uint32_t& to = next_[slot(values[i])];
            if (to != unwanted) picked_[to++] = values[i];
        }
        for (std::size_t s = 0; s < slots_; ++s)
            if (wanted_[s] != unwanted) std::sort(picked_.begin() + wanted_[s], picked_.begin() + next_[s]);
        for (std::size_t k = 0; k < N; ++k)
            found[k] = between(picked_[place[2 * k]], picked_[place[2 * k + 1]], rising[k], n);
        return found;
    }

private:
    static constexpr std::size_t most_slots = 1024, few_slots = 256;
    static constexpr std::size_t many = 1024;          // values, for the most slots
    static constexpr std::size_t least_counted = 64;
    static constexpr std::size_t most_picked = 4;      // one in as many
    static constexpr std::uint32_t unwanted = std::numeric_limits<std::uint32_t>::max();

    static std::size_t rank_of(double p, std::size_t n) {
        return static_cast<std::size_t>(p * static_cast<double>(n - 1));
    }
    static double between(double at, double next, double p, std::size_t n) {
        return at + (next - at) * (p * static_cast<double>(n - 1) - static_cast<double>(rank_of(p, n)));
    }
    std::size_t slot(T value) const {
        return std::min(static_cast<std::size_t>((value - least_) * per_width_), slots_ - 1);
    }

    /// Side by side: one comparison need not wait for the one before.
    void range(const T* values, std::size_t n) {
        std::array<T, 8> least, most;
        least.fill(values[0]);
        most.fill(values[0]);
        std::size_t i = 0;
        for (; i + least.size() <= n; i += least.size())
            for (std::size_t k = 0; k < least.size(); ++k) {
                least[k] = std::min(least[k], values[i + k]);
                most[k] = std::max(most[k], values[i + k]);
            }
        for (; i < n; ++i) {
            least[0] = std::min(least[0], values[i]);
            most[0] = std::max(most[0], values[i]);
        }
        least_ = *std::min_element(least.begin(), least.end());
        most_ = *std::max_element(most.begin(), most.end());
    }

    template <std::size_t N>
    std::array<double, N> parted(const T* values, std::size_t n, const std::array<double, N>& rising) {
        picked_.assign(values, values + n);
        return quantiles_of(picked_, rising);
    }

    T least_ = 0, most_ = 0, per_width_ = 0;
    std::size_t slots_ = most_slots;
    std::array<std::uint32_t, most_slots> counts_{}, wanted_{}, next_{};
    std::vector<T> picked_;
};

}  // namespace ullage
