// SPDX-License-Identifier: GPL-3.0-or-later
// How well a listing foretells the next year, on fifteen cuts of three public histories
// (tests/data/measured/README.md names them and says how their bytes were counted).
#include "core/measure/listing.h"
#include "core/words/wording.h"
#include "core/measure/measure.h"
#include "core/retention/ladder.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <map>
#include <sstream>
#include <string>
#include <vector>

namespace ullage {
namespace {

const std::string folder = std::string(ULLAGE_TEST_DATA) + "/measured/";

std::string text_of(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    EXPECT_TRUE(file) << path;
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

struct Truth {
    Instant as_of{};
    std::map<std::string, std::vector<std::pair<Instant, double>>> held;  // by ladder
};

std::map<std::string, Truth> truths() {
    std::map<std::string, Truth> all;
    std::istringstream lines(text_of(folder + "held.tsv"));
    std::string cut, as_of, ladder, on;
    std::getline(lines, cut);
    double bytes = 0;
    while (lines >> cut >> as_of >> ladder >> on >> bytes) {
        all[cut].as_of = *parse_instant(as_of);
        all[cut].held[ladder].emplace_back(*parse_instant(on), bytes);
    }
    return all;
}

Rung rung(int n, Period::Unit unit, int count) {
    Rung r;
    r.every = Period{n, unit};
    r.count = count;
    return r;
}

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return values[values.size() / 2];
}

struct Errors {
    std::vector<double> absolute;
    std::string report;
};

/// The mean held bytes over the five dates, forecast from the tiered listing, against the truth.
Errors errors_on(const std::string& ladder_name, const Ladder& ladder) {
    Errors errors;
    const LadderClock clock(ladder, TimeZone());
    for (const auto& [cut, truth] : truths()) {
        const auto listings = parse_listing(text_of(folder + cut + "-tiered.tsv"));
        EXPECT_TRUE(listings) << cut;
        MeasureOptions options;
        options.replicates = 0;
        const auto m = measure(listings->front(), options);
        EXPECT_TRUE(m) << m.error();
        double expected = 0;
        double held = 0;
        for (const auto& [on, bytes] : truth.held.at(ladder_name)) {
            auto ends = clock.retained(on);
            ends.push_back(on);
            for (std::size_t i = 1; i < ends.size(); ++i) {
                // What dies in a gap is in proportion to what was live in the middle of it.
                const double gap = days_between(ends[i - 1], ends[i]);
                const double middle = days_between(truth.as_of, ends[i - 1]) + gap / 2;
                const double live = m->live_bytes + m->growth.bytes_per_day * middle;
                expected += m->fit.curve.freed(gap) * live / m->live_bytes;
            }
            held += bytes;
        }
        const double error = expected / held - 1;
        errors.absolute.push_back(std::abs(error));
        errors.report += cut + " " + std::to_string(std::lround(1000 * error)) + "\n";
    }
    errors.report = "errors in thousandths:\n" + errors.report + "median absolute: " +
                    std::to_string(std::lround(1000 * median(errors.absolute)));
    return errors;
}

TEST(Accuracy, ATieredListingForetellsItsOwnLadderWithinSevenPercent) {
    using Unit = Period::Unit;
    const auto errors = errors_on("tiered", {rung(1, Unit::hour, 24), rung(1, Unit::day, 14),
                                             rung(7, Unit::day, 8), rung(30, Unit::day, 12)});
    ASSERT_EQ(errors.absolute.size(), 15u);
    EXPECT_LE(median(errors.absolute), 0.07) << errors.report;
    RecordProperty("errors", errors.report);
}

TEST(Accuracy, ATieredListingForetells52WeeklySnapshotsWithinFiveAndAHalfPercent) {
    const auto errors = errors_on("weekly52", {rung(7, Period::Unit::day, 52)});
    ASSERT_EQ(errors.absolute.size(), 15u);
    EXPECT_LE(median(errors.absolute), 0.055) << errors.report;
    RecordProperty("errors", errors.report);
}

TEST(Accuracy, TheListingsOwnHeldBytesAreExact) {
    // Σ freed over the listed gaps: the truth needs no forecast at the date of the cut, so the law
    // live(old) + written − live(new) must never give less than nothing.
    for (const auto& [cut, truth] : truths()) {
        const auto listings = parse_listing(text_of(folder + cut + "-tiered.tsv"));
        ASSERT_TRUE(listings);
        const auto& list = listings->front().snapshots;
        MeasureOptions options;
        options.replicates = 0;
        const auto m = measure(listings->front(), options);
        ASSERT_TRUE(m);
        EXPECT_EQ(list.back().taken, truth.as_of) << cut;
        double held = 0;
        double unique = 0;
        for (std::size_t i = 1; i < list.size(); ++i) {
            const double freed = list[i - 1].live_bytes + list[i].written_bytes - list[i].live_bytes;
            EXPECT_GE(freed, 0) << cut << ", line " << list[i].line;
            // What a snapshot alone holds was written into it, and has gone from the next.
            EXPECT_LE(list[i - 1].unique_bytes, freed) << cut << ", line " << list[i].line;
            held += freed;
            unique += list[i - 1].unique_bytes;
        }
        EXPECT_DOUBLE_EQ(m->held_bytes, held) << cut;
        EXPECT_GE(held, unique) << cut;
        EXPECT_TRUE(m->warnings.empty()) << cut << ": " << english(m->warnings.front());
    }
}

}  // namespace
}  // namespace ullage
