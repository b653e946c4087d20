// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Sums of weighted rows of a table, a number for each of sixteen lanes in every row.

#include <cstddef>
#include <cstdint>
#include <vector>

namespace ullage {

/// Which rows go into each of some sums, one sum after another.
class RowSums {
public:
    struct Row {
        std::uint32_t row = 0;
        float weight = 0;
    };

    /// To the sum that is open; the first is from the start.
    void add(std::uint32_t row, float weight) { rows_.push_back({row, weight}); }
    /// The next rows are another sum's.
    void close() { first_.push_back(rows_.size()); }

    std::size_t size() const { return first_.size() - 1; }
    const Row* begin(std::size_t sum) const { return rows_.data() + first_[sum]; }
    const Row* end(std::size_t sum) const { return rows_.data() + first_[sum + 1]; }

private:
    std::vector<std::size_t> first_{0};
    std::vector<Row> rows_;
};

/// The sums from `first` up to before `last`: out[16 sum + lane] = Σ weight × table[16 row + lane].
void sum_rows(const RowSums& sums, std::size_t first, std::size_t last, const float* table, float* out);

/// rows[16 r + lane] ×= factor[which[r]], r < n.
void scale_rows(const std::uint32_t* which, std::size_t n, const float* factor, float* rows);

}  // namespace ullage
