// SPDX-License-Identifier: GPL-3.0-or-later
// R's quantile(values, p, type = 7): tests/reference/quantiles.tsv, made by quantiles.R beside it.
#include "core/units/quantiles.h"

#include "tests/reference/reference_table.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace ullage {
namespace {

TEST(Quantiles, BothFunctionsGiveWhatRGivesForType7) {
    const auto rows = testing::reference_table("quantiles.tsv");
    EXPECT_GE(rows.size(), 90u);
    for (const auto& row : rows) {
        auto values = row.numbers("values");
        const double p = row.number("p");
        const double expected = row.number("quantile");
        auto sorted = values;
        std::sort(sorted.begin(), sorted.end());
        // Interpolation between two neighbours rounds once or twice in their size, p·(n − 1)
        // besides.
        const double slack = 1e-13 * std::max(std::abs(sorted.front()), std::abs(sorted.back()));
        EXPECT_NEAR(quantile_of_sorted(sorted, p), expected, slack)
            << row.text("sample") << ", p " << p;
        EXPECT_NEAR(quantile_of(values, p), expected, slack) << row.text("sample") << ", p " << p;
        std::sort(values.begin(), values.end());
        EXPECT_EQ(values, sorted) << "rearranged, not changed";
    }
}

TEST(Quantiles, OfSinglePrecisionValuesAreInterpolatedAlike) {
    EXPECT_EQ(quantile_of_sorted(std::vector<float>{1, 2, 4, 8}, 0.5), 3);
    EXPECT_EQ(quantile_of_sorted(std::vector<float>{1, 2, 4, 8}, 1), 8);
}

TEST(Quantiles, OfNothingAreZeroWhereThatIsAllowed) {
    std::vector<double> none;
    EXPECT_EQ(quantile_of(none, 0.5), 0);
}

}  // namespace
}  // namespace ullage
