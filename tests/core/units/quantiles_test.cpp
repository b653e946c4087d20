// SPDX-License-Identifier: GPL-3.0-or-later
// R's quantile(values, p, type = 7): tests/reference/quantiles.tsv, made by quantiles.R beside it.
#include "core/units/slot_quantiles.h"

#include "tests/reference/reference_table.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
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

/// Values of `kind`: alike, evenly spread, few different ones, with a long tail, or so far apart that no slot has a
/// width.
template <class T>
std::vector<T> some_values(std::mt19937& draw, int kind, std::size_t count) {
    std::vector<T> values;
    for (std::size_t i = 0; i < count; ++i) {
        const double u = (static_cast<double>(draw()) + 0.5) / 4294967296.0;
        const double value = kind == 0   ? 7.5
                             : kind == 1 ? 1e12 * (1 + u)
                             : kind == 2 ? std::floor(5 * u)
                             : kind == 3 ? std::pow(u, -4.0)
                                         : (u < 0.5 ? -1.0 : 1.0) * static_cast<double>(std::numeric_limits<T>::max());
        values.push_back(static_cast<T>(value));
    }
    return values;
}

template <class T>
void are_those_of_sorted(std::uint32_t seed) {
    std::mt19937 draw(seed);
    SlotQuantiles<T> quantiles;
    for (int round = 0; round < 500; ++round) {
        const std::size_t count = 1 + draw() % (round % 10 == 0 ? 5000 : 700);
        std::array<double, 5> p{};
        for (double& each : p) each = static_cast<double>(draw() % 1001) / 1000;
        std::sort(p.begin(), p.end());
        const int kind = round % 4;
        auto values = some_values<T>(draw, kind, count);
        const auto found = quantiles.template of<5>(values.data(), values.size(), p);
        std::sort(values.begin(), values.end());
        for (std::size_t k = 0; k < p.size(); ++k) {
            const double expected = quantile_of_sorted(std::vector<double>(values.begin(), values.end()), p[k]);
            ASSERT_NEAR(found[k], expected, 1e-15 * std::abs(expected)) << kind << ", " << count << " values, p " << p[k];
        }
    }
}

TEST(Quantiles, CountedInSlotsAreThoseOfTheSortedValues) {
    are_those_of_sorted<float>(5);
    are_those_of_sorted<double>(6);
    std::mt19937 draw(7);
    const auto apart = some_values<float>(draw, 4, 1000);
    const auto ends = SlotQuantiles<float>().of<2>(apart.data(), apart.size(), {0, 1});
    EXPECT_EQ(ends[0], -static_cast<double>(std::numeric_limits<float>::max()));
    EXPECT_EQ(ends[1], static_cast<double>(std::numeric_limits<float>::max()));
    EXPECT_EQ((SlotQuantiles<double>().of<2>(nullptr, 0, {0.5, 0.9})), (std::array<double, 2>{0, 0}));
}

}  // namespace
}  // namespace ullage
