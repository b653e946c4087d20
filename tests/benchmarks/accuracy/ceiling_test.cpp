// SPDX-License-Identifier: GPL-3.0-or-later
// The day on which a ceiling is reached, forecast from the tiered listings of fifteen cuts of three
// public histories (tests/data/measured/README.md), against three general methods of R's `forecast`
// package on two years of weekly live bytes of the same cuts (tests/reference/README.md).
#include "tests/benchmarks/accuracy/ceiling.h"
#include "core/measure/listing.h"
#include "tests/benchmarks/accuracy/forecast.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <limits>
#include <map>

namespace ullage::accuracy {
namespace {

std::string text_of(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    EXPECT_TRUE(file) << path;
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

/// history-a, origin1 → a1-tiered.tsv.
std::string listing_of(const CeilingRow& row) {
    const std::string name = {row.history.back(), row.origin.back()};
    return text_of(std::string(ULLAGE_TEST_DATA) + "/measured/" + name + "-tiered.tsv");
}

struct Losses {
    CeilingScore ours;
    std::map<std::string, CeilingScore> general;

    double best_general() const {
        double best = std::numeric_limits<double>::infinity();
        for (const auto& [method, score] : general) best = std::min(best, score.mean_loss());
        return best;
    }
};

Losses losses_on(const std::string& series) {
    Losses losses;
    std::string at;
    double start = 0;
    Year year;
    for (const auto& row :
         read_ceiling_rows(ULLAGE_SOURCE_DIR "/tests/reference/ceiling_days.tsv")) {
        if (row.series != series) continue;
        if (row.history + row.origin != at) {
            at = row.history + row.origin;
            const std::string text = listing_of(row);
            const auto newest = parse_listing(text)->front().snapshots.back();
            const auto model = model_of(text, "", newest.taken);
            EXPECT_TRUE(model) << at << ": " << model.error();
            if (!model) return losses;
            start = newest.live_bytes;
            if (series == "used")
                for (const double freed : model->known.freed) start += freed;
            year = forecast_year(*model, newest.taken, {tiered()});
        }
        const PathTable& table = series == "used" ? year.paths.used[0] : year.paths.live[0];
        losses.ours.add(band_of_days(year.days_until(table, row.factor * start)), row.truth_days);
        for (const auto& [method, days] : row.methods)
            losses.general[method].add(days, row.truth_days);
    }
    return losses;
}

TEST(Ceiling, OfLiveBytesIsForetoldFromAListingWithATenthLessLossThanByTheBestGeneralMethod) {
    const auto losses = losses_on("live");
    ASSERT_EQ(losses.ours.losses.size(), 60u);
    ASSERT_EQ(losses.general.size(), 3u);
    EXPECT_LE(losses.ours.mean_loss(), 0.9 * losses.best_general());
    RecordProperty("loss_days", std::to_string(losses.ours.mean_loss()));
}

TEST(Ceiling, OfUsedBytesIsForetoldFromAListingWithAThirdLessLossThanByTheBestGeneralMethod) {
    const auto losses = losses_on("used");
    ASSERT_EQ(losses.ours.losses.size(), 60u);
    ASSERT_EQ(losses.general.size(), 3u);
    EXPECT_LE(losses.ours.mean_loss(), 0.67 * losses.best_general());
    RecordProperty("loss_days", std::to_string(losses.ours.mean_loss()));
}

}  // namespace
}  // namespace ullage::accuracy
