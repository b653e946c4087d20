// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/row_sums.h"

#include "core/units/lanes.h"

#include <gtest/gtest.h>

#include <random>

namespace ullage {
namespace {

std::vector<float> random_rows(std::mt19937& random, std::size_t rows) {
    std::uniform_real_distribution<float> unit(0, 1);
    std::vector<float> table(rows * lanes);
    for (float& x : table) x = unit(random);
    return table;
}

TEST(RowSums, EachIsTheSumOfItsWeightedRows) {
    std::mt19937 random(3);
    constexpr std::size_t rows = 70;
    const auto table = random_rows(random, rows);
    RowSums sums;
    for (const std::size_t n : {0, 1, 2, 7, 60}) {
        for (std::size_t k = 0; k < n; ++k) sums.add(std::uint32_t(random() % rows), float(1 + random() % 5) / 3);
        sums.close();
    }
    ASSERT_EQ(sums.size(), 5U);
    std::vector<float> out(5 * lanes, -1.0F);
    sum_rows(sums, 1, 5, table.data(), out.data());
    for (std::size_t l = 0; l < lanes; ++l) EXPECT_EQ(out[l], -1) << "not asked for";
    sum_rows(sums, 0, 1, table.data(), out.data());
    for (std::size_t s = 0; s < 5; ++s)
        for (std::size_t l = 0; l < lanes; ++l) {
            double expected = 0;
            for (const auto* row = sums.begin(s); row < sums.end(s); ++row)
                expected += double(row->weight) * double(table[row->row * lanes + l]);
            EXPECT_NEAR(out[s * lanes + l], expected, 1e-6 * expected) << s;
        }
}

TEST(RowSums, RowsAreScaledByWhatEachIsOf) {
    std::mt19937 random(4);
    const std::vector<std::uint32_t> which = {2, 0, 2, 1};
    const std::vector<float> factor = {3, 0.5F, 7};
    const auto rows = random_rows(random, which.size());
    auto scaled = rows;
    scale_rows(which.data(), which.size(), factor.data(), scaled.data());
    for (std::size_t r = 0; r < which.size(); ++r)
        for (std::size_t at = r * lanes; at < (r + 1) * lanes; ++at)
            EXPECT_EQ(scaled[at], rows[at] * factor[which[r]]);
}

}  // namespace
}  // namespace ullage
