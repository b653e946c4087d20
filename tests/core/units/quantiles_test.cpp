// SPDX-License-Identifier: GPL-3.0-or-later
// R's quantile(values, p, type = 7): tests/reference/quantiles.tsv, made by quantiles.R beside it.
#include "core/units/quantiles.h"

#include "tests/reference/reference_table.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
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
    EXPECT_EQ((quantiles_of<2>(none, {0.5, 0.9})), (std::array<double, 2>{0, 0}));
}

TEST(Quantiles, OfSeveralAtOnceAreThoseOfEachAlone) {
    std::mt19937 draw(11);
    for (int round = 0; round < 2000; ++round) {
        const int count = 1 + static_cast<int>(draw() % 40);
        std::vector<double> values;
        for (int i = 0; i < count; ++i) values.push_back(static_cast<double>(draw() % 15));  // with ties
        std::array<double, 4> p{};
        for (double& each : p) each = static_cast<double>(draw() % 1001) / 1000;
        std::sort(p.begin(), p.end());
        auto together = values;
        const auto found = quantiles_of<4>(together, p);
        for (std::size_t k = 0; k < p.size(); ++k) {
            auto alone = values;
            EXPECT_EQ(found[k], quantile_of(alone, p[k])) << count << " values, p " << p[k];
        }
        std::sort(values.begin(), values.end());
        std::sort(together.begin(), together.end());
        EXPECT_EQ(together, values);
    }
}

}  // namespace
}  // namespace ullage
