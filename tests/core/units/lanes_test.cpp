// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/lanes.h"

#include "core/units/random_key.h"

#include <Random123/philox.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>
#include <vector>

namespace ullage {
namespace {

TEST(Lanes, WordsAreThoseOfThePublishedGenerator) {
    // The library of the generator's authors, which carries their known answers.
    r123::Philox4x32 philox;
    for (const std::uint64_t seed : {0ULL, 1ULL, 0xFEDCBA9876543210ULL})
        for (const std::uint32_t stream : {0u, 7u, 0xFFFFFFFFu})
            for (const std::uint32_t path : {0u, 1984u, 0xFFFFFFF0u})
                for (const std::uint32_t step : {0u, 5u, 0xFFFFFFC0u}) {
                    WordLanes words;
                    draw_words(seed, stream, path, step, words);
                    for (std::uint32_t l = 0; l < lanes; ++l) {
                        const RandomKey key = random_key(seed, stream);
                        const auto expected = philox({{path + l, step, counter_mark, 0}}, {{key.first, key.second}});
                        for (std::size_t w = 0; w < 4; ++w) EXPECT_EQ(words[w][l], expected[w]);
                    }
                }
}

TEST(Lanes, OfAnyPathsAndStepsAreThoseOfEachAlone) {
    std::mt19937 random(3);
    for (int round = 0; round < 200; ++round) {
        std::array<std::uint32_t, lanes> path, step;
        for (std::size_t l = 0; l < lanes; ++l) {
            path[l] = random();
            step[l] = random();
        }
        WordLanes together;
        draw_words(9, 4, path, step, together);
        FloatLanes z;
        normal_of(together[0], z);
        FloatLanes e;
        exponential_of(z, e);
        for (std::size_t l = 0; l < lanes; ++l) {
            WordLanes alone;
            draw_words(9, 4, path[l], step[l], alone);
            for (std::size_t w = 0; w < 4; ++w) ASSERT_EQ(together[w][l], alone[w][0]);
            ASSERT_EQ(z[l], normal_at(9, 4, path[l], step[l]));
            ASSERT_EQ(e[l], exponential_at(z[l]));
        }
    }
}

/// The share of standard normal numbers below z.
double below(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

TEST(Lanes, NormalNumbersAreQuantilesOfTheNormalDistribution) {
    std::array<std::uint32_t, lanes> words{};
    std::mt19937 random(1);
    std::vector<std::uint32_t> all{0, 1, 2, 255, 65536, 0x7FFFFFFF, 0x80000000, 0xFFFFFFFE, 0xFFFFFFFF};
    for (int i = 0; i < 20000; ++i) all.push_back(random() >> (i % 32));
    for (const std::uint32_t word : all) {
        words.fill(word);
        FloatLanes z;
        normal_of(words, z);
        // Compared in the lower tail, where the share itself is precise.
        const bool upper = word >= 0x80000000u;
        const double share = (static_cast<double>(upper ? ~word : word) + 0.5) / 4294967296.0;
        const double got = upper ? -static_cast<double>(z[3]) : static_cast<double>(z[3]);
        // A step of z by dz moves the share by its density × dz.
        const double density = std::exp(-got * got / 2) / std::sqrt(2 * std::acos(-1.0));
        const double tolerance = share < 1.1e-8 ? 3e-3 : 1e-6 + 2e-6 * std::abs(got);
        EXPECT_NEAR((below(got) - share) / density, 0, tolerance) << word;
        EXPECT_LE(got, 0) << word;
    }
}

using NormalLanes = std::array<FloatLanes, 3>;

NormalLanes normals(std::uint64_t seed, std::uint32_t stream, std::uint32_t first_path, std::uint32_t step) {
    WordLanes words;
    draw_words(seed, stream, first_path, step, words);
    NormalLanes z;
    for (std::size_t which = 0; which < z.size(); ++which) normal_of(words[which], z[which]);
    return z;
}

TEST(Lanes, DrawnNumbersHaveMeanNoughtAndVarianceOneAndAreNotTied) {
    constexpr int n = 4000;
    double sum = 0, squares = 0, crossed = 0;
    for (std::uint32_t step = 0; step < n; ++step) {
        const NormalLanes z = normals(42, 3, 160, step);
        for (std::size_t l = 0; l < lanes; ++l)
            for (std::size_t w = 0; w < 3; ++w) {
                const double a = z[w][l], b = z[(w + 1) % 3][l];
                sum += a;
                squares += a * a;
                crossed += a * b;
            }
    }
    const double count = n * 48.0;
    EXPECT_NEAR(sum / count, 0, 4 / std::sqrt(count));
    EXPECT_NEAR(squares / count, 1, 4 * std::sqrt(2 / count));
    EXPECT_NEAR(crossed / count, 0, 4 / std::sqrt(count));
}

TEST(Lanes, APathsNumbersDoNotDependOnTheLaneItIsIn) {
    const NormalLanes here = normals(5, 2, 32, 9), there = normals(5, 2, 40, 9);
    for (std::size_t w = 0; w < 3; ++w)
        for (std::size_t l = 0; l < 8; ++l) EXPECT_EQ(here[w][l + 8], there[w][l]);
}

TEST(Lanes, ExponentialsAreThoseOfTheLibrary) {
    for (double x = -86.9; x < 86.9; x += 0.0137) {
        FloatLanes in, out;
        in.fill(static_cast<float>(x));
        exponential_of(in, out);
        const double expected = std::exp(static_cast<double>(in[0]));
        EXPECT_NEAR(out[7] / expected, 1, 2.5e-7) << x;
    }
    FloatLanes far, out;
    far.fill(-1e9F);
    far[1] = 1e9F;
    exponential_of(far, out);
    EXPECT_GE(out[0], 0);
    EXPECT_TRUE(std::isfinite(out[1]));
}

TEST(Lanes, OneWordGivesWhatItGivesAmongSixteen) {
    WordLanes words;
    draw_words(9, 4, 32, 7, words);
    FloatLanes z;
    normal_of(words[2], z);
    for (std::size_t l = 0; l < lanes; ++l) EXPECT_EQ(z[l], normal_of(words[2][l]));
}

}  // namespace
}  // namespace ullage
