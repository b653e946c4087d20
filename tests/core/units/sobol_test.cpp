// SPDX-License-Identifier: GPL-3.0-or-later
// Laws of a digital net: Niederreiter, Random Number Generation and Quasi-Monte Carlo Methods (1992), chapter 4. Published
// direction numbers: Joe and Kuo 2008.
#include "core/units/sobol.h"

#include <gtest/gtest.h>

#include <bit>
#include <cmath>
#include <set>
#include <vector>

namespace ullage {
namespace {

constexpr double part = 1.0 / 4294967296.0;

std::vector<std::uint32_t> words_of(const SobolPoints& points, std::size_t coordinate, std::uint32_t count) {
    std::vector<std::uint32_t> all;
    std::array<std::uint32_t, lanes> words;
    for (std::uint32_t first = 0; first < count; first += lanes) {
        points.words(coordinate, first, words);
        all.insert(all.end(), words.begin(), words.end());
    }
    return all;
}

std::uint32_t reversed(std::uint32_t x) {
    std::uint32_t y = 0;
    for (int i = 0; i < 32; ++i) y = y << 1 | (x >> i & 1);
    return y;
}

TEST(SobolPoints, OneOfThemLiesInEachOfAsManyEqualPartsOfEveryCoordinate) {
    const SobolPoints points(7, SobolPoints::most_coordinates);
    for (const std::size_t coordinate : {0, 1, 2, 9, 100, 1000, 3665})
        for (const std::uint32_t bits : {4U, 7U, 11U}) {
            std::set<std::uint32_t> parts;
            for (const std::uint32_t w : words_of(points, coordinate, 1U << bits)) parts.insert(w >> (32 - bits));
            EXPECT_EQ(parts.size(), std::size_t{1} << bits) << coordinate;
        }
}

TEST(SobolPoints, FollowingPiecesAreAsEvenAsTheFirst) {
    const SobolPoints points(3, 4);
    for (const std::size_t coordinate : {0, 3}) {
        const auto words = words_of(points, coordinate, 4096);
        for (std::size_t from = 0; from < words.size(); from += 64) {
            std::set<std::uint32_t> parts;
            for (std::size_t i = from; i < from + 64; ++i) parts.insert(words[i] >> 26);
            EXPECT_EQ(parts.size(), 64U) << from;
        }
    }
}

TEST(SobolPoints, TheNumberOfAPointIsACoordinateToo) {
    // With it the first makes a (0, m, 2) net: one point in each rectangle of 2^-a × 2^-(m − a).
    const SobolPoints points(11, 1);
    constexpr std::uint32_t m = 10;
    const auto words = words_of(points, 0, 1U << m);
    for (std::uint32_t a = 1; a < m; ++a) {
        std::set<std::pair<std::uint32_t, std::uint32_t>> rectangles;
        for (std::uint32_t i = 0; i < words.size(); ++i) rectangles.emplace(reversed(i) >> (32 - a), words[i] >> (32 - (m - a)));
        EXPECT_EQ(rectangles.size(), words.size()) << a;
    }
}

TEST(SobolPoints, ASinglePointIsUniformOverTheSeeds) {
    for (const std::uint32_t point : {0U, 5U}) {
        std::array<int, 16> counts{};
        constexpr int seeds = 4096;
        for (int seed = 1; seed <= seeds; ++seed) {
            const SobolPoints points(std::uint64_t(seed), 2);
            std::array<std::uint32_t, lanes> words;
            points.words(1, 0, words);
            ++counts[words[point] >> 28];
        }
        double chi = 0;
        for (const int n : counts) chi += (n - seeds / 16.0) * (n - seeds / 16.0) / (seeds / 16.0);
        EXPECT_LT(chi, 37.7);  // 15 degrees of freedom, 0.1 %
    }
}

TEST(SobolPoints, CoordinatesGoTheirOwnWays) {
    const SobolPoints points(1, 40);
    constexpr std::uint32_t count = 4096;
    std::vector<std::vector<std::uint32_t>> all;
    for (std::size_t c = 0; c < 40; ++c) all.push_back(words_of(points, c, count));
    for (std::size_t a = 0; a < all.size(); ++a)
        for (std::size_t b = 0; b < a; ++b) {
            double sum = 0;
            for (std::size_t i = 0; i < count; ++i) sum += (all[a][i] * part - 0.5) * (all[b][i] * part - 0.5);
            EXPECT_LT(std::abs(sum / count * 12), 0.05) << a << " and " << b;
        }
}

TEST(SobolPoints, TellAMeanWithFewerPointsThanRandomOnesWould) {
    // ∏ (1 + (x − ½)) over 8 coordinates has the mean 1 and the variance (13/12)⁸ − 1.
    constexpr std::size_t coordinates = 8;
    constexpr std::uint32_t count = 2048;
    constexpr int seeds = 20;
    double squares = 0;
    for (int seed = 1; seed <= seeds; ++seed) {
        const SobolPoints points(std::uint64_t(seed), coordinates);
        std::vector<double> products(count, 1.0);
        for (std::size_t c = 0; c < coordinates; ++c) {
            const auto words = words_of(points, c, count);
            for (std::size_t i = 0; i < count; ++i) products[i] *= 1 + (words[i] + 0.5) * part - 0.5;
        }
        double mean = 0;
        for (const double p : products) mean += p / count;
        squares += (mean - 1) * (mean - 1) / seeds;
    }
    const double random = std::sqrt((std::pow(13.0 / 12, coordinates) - 1) / count);
    EXPECT_LT(std::sqrt(squares), random / 10);
    EXPECT_GT(squares, 0);
}

TEST(SobolPoints, BeyondTheTableNumbersAreRandom) {
    const SobolPoints points(1, SobolPoints::most_coordinates + 5);
    const auto words = words_of(points, SobolPoints::most_coordinates + 2, 4096);
    double mean = 0;
    for (const std::uint32_t w : words) mean += w * part / double(words.size());
    EXPECT_NEAR(mean, 0.5, 0.02);
    EXPECT_NE(words, words_of(points, SobolPoints::most_coordinates + 3, 4096));
    EXPECT_NE(words, words_of(SobolPoints(2, 1), SobolPoints::most_coordinates + 2, 4096));
}

}  // namespace
}  // namespace ullage
