// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/benchmarks/accuracy/scores.h"

#include "tests/benchmarks/accuracy/ceiling.h"

#include <gtest/gtest.h>

namespace ullage::accuracy {
namespace {

TEST(Scores, PinballLossIsTheOneOfScikitLearn) {
    // sklearn.metrics.mean_pinball_loss([12], [10], alpha=0.9) and 0.1.
    EXPECT_DOUBLE_EQ(pinball(10, 12, 0.9), 1.8);
    EXPECT_DOUBLE_EQ(pinball(10, 12, 0.1), 0.2);
    EXPECT_DOUBLE_EQ(pinball(12, 10, 0.9), 0.2);
    EXPECT_DOUBLE_EQ(pinball(10, 10, 0.5), 0);
}

TEST(Scores, TheInverseOfTheDistributionIsTheQuantileOfTypeOneOfR) {
    // R: quantile(c(3,1,4,1,5,9,2,6,5,3,5), p, type = 1) and quantile(1:10, p, type = 1).
    const std::vector<double> digits = {1, 1, 2, 3, 3, 4, 5, 5, 5, 6, 9};
    EXPECT_EQ(inverse_distribution(digits, 0.1), 1);
    EXPECT_EQ(inverse_distribution(digits, 0.2), 2);
    EXPECT_EQ(inverse_distribution(digits, 0.5), 4);
    EXPECT_EQ(inverse_distribution(digits, 0.9), 6);
    const std::vector<double> ten = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10};
    EXPECT_EQ(inverse_distribution(ten, 0), 1);
    EXPECT_EQ(inverse_distribution(ten, 0.1), 1);
    EXPECT_EQ(inverse_distribution(ten, 0.3), 3);
    EXPECT_EQ(inverse_distribution(ten, 0.35), 4);
    EXPECT_EQ(inverse_distribution(ten, 1), 10);
}

TEST(Scores, OfTwoOriginsAreTheOnesWorkedByHand) {
    Score s;
    // 90 … 110 about 100, twice, against 100 and 120: error 200 ÷ 220 − 1, one of two inside.
    s.add({{90, 100, 110}, {90, 100, 110}}, {100, 120});
    s.add(300, {200});  // a point: error +0.5
    const double low = 1 - 200.0 / 220;
    EXPECT_NEAR(s.median_error(), (low + 0.5) / 2, 1e-12);
    EXPECT_NEAR(s.mean_error(), (low + 0.5) / 2, 1e-12);
    EXPECT_NEAR(s.bias(), (0.5 - low) / 2, 1e-12);
    EXPECT_NEAR(s.inside(), 1.0 / 3, 1e-12);
    // (1 + 0 + 1) ÷ 3, (3 + 10 + 9) ÷ 3, and 100 × (0.9 + 0.5 + 0.1) ÷ 3; truths sum to 420.
    EXPECT_NEAR(s.loss(), (2.0 / 3 + 22.0 / 3 + 50) / 420, 1e-12);
}

TEST(Scores, ReproduceTheLossesOfTheReferenceTable) {
    const auto rows = read_ceiling_rows(ULLAGE_SOURCE_DIR "/tests/reference/ceiling_days.tsv");
    std::map<std::string, CeilingScore> live;
    for (const auto& row : rows)
        if (row.series == "live")
            for (const auto& [method, days] : row.methods) live[method].add(days, row.truth_days);
    // The summary of the script that made the table, to its decimals.
    EXPECT_NEAR(live["arima"].mean_loss(), 15.7, 0.05);
    EXPECT_NEAR(live["ets"].mean_loss(), 17.7, 0.05);
    EXPECT_NEAR(live["rwf"].mean_loss(), 22.5, 0.05);
    EXPECT_EQ(live["arima"].reached, 19);
}

}  // namespace
}  // namespace ullage::accuracy
