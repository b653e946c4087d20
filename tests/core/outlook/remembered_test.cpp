// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/growth_rows.h"
#include "core/outlook/remembered.h"

#include "core/measure/listing.h"
#include "core/outlook/models.h"
#include "core/outlook/outlook.h"

#include "outlook_testing.h"

#include <gtest/gtest.h>

#include <fmt/format.h>

#include <string>
#include <thread>
#include <vector>

namespace ullage {
namespace {

TEST(Remembered, GivesWhatTheFunctionGivesAndAsksItOnce) {
    Remembered<int, std::string> known(3);
    int asked = 0;
    const auto text_of = [&](int n) { return *known.get(n, [&] { return ++asked, std::to_string(n); }); };
    for (int round = 0; round < 5; ++round)
        for (int n = 0; n < 3; ++n) EXPECT_EQ(text_of(n), std::to_string(n));
    EXPECT_EQ(asked, 3);
    EXPECT_EQ(text_of(7), "7");  // the oldest goes
    EXPECT_EQ(known.size(), 3u);
    EXPECT_EQ(text_of(2), "2");
    EXPECT_EQ(asked, 4);
    EXPECT_EQ(text_of(0), "0");
    EXPECT_EQ(asked, 5);
}

TEST(Remembered, IsBoundedAndRightFromManyThreads) {
    Remembered<int, int> known(16);
    std::vector<std::jthread> threads;
    std::vector<int> wrong(4);
    for (std::size_t t = 0; t < wrong.size(); ++t)
        threads.emplace_back([&, t] {
            for (int i = 0; i < 20'000; ++i) {
                const int n = (i * 7 + static_cast<int>(t)) % 40;
                wrong[t] += *known.get(n, [n] { return n * n; }) != n * n;
            }
        });
    threads.clear();
    EXPECT_EQ(wrong, std::vector<int>(4));
    EXPECT_LE(known.size(), 16u);
}

/// Daily snapshots of a dataset.
Listing daily(double step) {
    std::string text = "name,taken,used,live,written\n";
    for (int i = 0; i < 40; ++i)
        text += fmt::format("d@{},{},{},{},{}\n", i, 1'764'547'200 + 86'400 * i, 1'000'000, 5'000'000'000 + i * 1'000'000L,
                            30'000'000 + (i % 5) * step);
    return parse_listing(text)->front();
}

TEST(Models, OfAChangedListingOrChangedFiguresAreNotTheOldOnes) {
    Site site;
    site.name = "S";
    site.as_of = std::chrono::year(2026) / 3 / 1;
    site.boxes.push_back({});
    site.boxes[0].name = "b";
    for (const char* name : {"listed", "typed"}) {
        Dataset d;
        d.name = name;
        d.home = "b";
        d.turnover.emplace();
        site.datasets.push_back(d);
    }
    site.datasets[0].turnover->listing = "a.tsv";
    site.datasets[1].live = Entered<Bytes>{{1e12}, "1 TB"};
    site.datasets[1].turnover->per_day = Entered<Amount>{{1e10, Amount::Of::bytes}, "10 GB"};
    Evidence evidence;
    const auto models = [&](double step, double per_day) {
        evidence.listings["a.tsv"] = {daily(step)};
        evidence.listings["a.tsv"].front().dataset.clear();
        site.datasets[1].turnover->per_day->value.value = per_day;
        auto all = dataset_models(site, evidence, site.as_of);
        EXPECT_TRUE(all);
        return *all;
    };
    const auto freed = [](const DatasetModel& m) { return m.mean_curve.freed(7); };
    const auto first = models(1e6, 1e10), listed = models(2e6, 1e10), typed = models(1e6, 2e10), again = models(1e6, 1e10);
    EXPECT_NE(freed(first[0]), freed(listed[0]));
    EXPECT_EQ(freed(first[1]), freed(listed[1]));
    EXPECT_NE(freed(first[1]), freed(typed[1]));
    EXPECT_EQ(freed(first[0]), freed(again[0]));
    EXPECT_EQ(freed(first[1]), freed(again[1]));
}

TEST(GrowthRows, OfAChangedModelOrGridAreNotTheOldOnes) {
    std::vector<LivePoint> points;
    for (int i = 0; i < 60; ++i) points.push_back({double(i), 1e12 + 1e9 * i + 3e8 * (i * 7 % 5)});
    const GrowthModel model = growth_model(points);
    points.back().bytes += 1;
    const GrowthModel changed = growth_model(points);
    const std::vector<double> days = {0, 1, 30, 365}, other_days = {0, 1, 30, 366};
    const auto rows = growth_rows(model, days);
    EXPECT_EQ(rows->low, growth_quantiles(model, days, {0.1}).front());
    EXPECT_EQ(rows->middle, middle_growth(model, days));
    EXPECT_EQ(rows->high, growth_quantiles(model, days, {0.9}).front());
    EXPECT_EQ(growth_rows(model, days), rows) << "worked out anew";
    EXPECT_EQ(growth_rows(changed, days)->middle, middle_growth(changed, days));
    EXPECT_NE(growth_rows(changed, days)->middle, rows->middle);
    EXPECT_EQ(growth_rows(model, other_days)->middle, middle_growth(model, other_days));
}

}  // namespace
}  // namespace ullage
