// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What lanes.h is made of, for files whose loops over lanes are to become vector instructions of the machine they run
/// on: built as lanes.cpp is (the CMakeLists.txt beside it), each function marked ULLAGE_LANES.

#include "core/units/lanes.h"
#include "core/units/random_key.h"

#include <bit>
#include <cmath>
#include <numbers>

#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && defined(__linux__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define ULLAGE_LANES __attribute__((target_clones("avx512f", "avx2", "default")))
#else
#define ULLAGE_LANES
#endif
#define ULLAGE_INLINE inline __attribute__((always_inline))

namespace ullage::lane_math {

constexpr std::uint32_t multiplier_0 = 0xD2511F53u, multiplier_1 = 0xCD9E8D57u;
constexpr std::uint32_t weyl_0 = 0x9E3779B9u, weyl_1 = 0xBB67AE85u;
constexpr int rounds = 10;

/// `path` and `step`: what a lane is counted by.
template <class Path, class Step>
ULLAGE_INLINE void philox(std::uint64_t seed, std::uint32_t stream, const Path& path, const Step& step, WordLanes& out) {
    const RandomKey key = random_key(seed, stream);
    std::array<std::uint32_t, lanes> c0, c1, c2, c3;
    for (std::size_t l = 0; l < lanes; ++l) {
        c0[l] = path(l);
        c1[l] = step(l);
        c2[l] = counter_mark;
        c3[l] = 0;
    }
    std::uint32_t k0 = key.first, k1 = key.second;
    for (int round = 0; round < rounds; ++round) {
        for (std::size_t l = 0; l < lanes; ++l) {
            const std::uint64_t p0 = std::uint64_t{multiplier_0} * c0[l];
            const std::uint64_t p1 = std::uint64_t{multiplier_1} * c2[l];
            const std::uint32_t n0 = static_cast<std::uint32_t>(p1 >> 32) ^ c1[l] ^ k0;
            const std::uint32_t n2 = static_cast<std::uint32_t>(p0 >> 32) ^ c3[l] ^ k1;
            c1[l] = static_cast<std::uint32_t>(p1);
            c3[l] = static_cast<std::uint32_t>(p0);
            c0[l] = n0;
            c2[l] = n2;
        }
        k0 += weyl_0;
        k1 += weyl_1;
    }
    out = {c0, c1, c2, c3};
}

/// Natural logarithm of a positive, normal number.
ULLAGE_INLINE float log_of(float x) {
    std::int32_t bits = std::bit_cast<std::int32_t>(x);
    // The mantissa in [√½, √2), the exponent beside it.
    constexpr std::int32_t root_half = 0x3f3504f3;
    const std::int32_t e = (bits - root_half) >> 23;
    bits -= e * (1 << 23);
    const float m = std::bit_cast<float>(bits) - 1.0F;
    const float z = m * m;
    float y = 7.0376836292E-2F;
    y = y * m - 1.1514610310E-1F;
    y = y * m + 1.1676998740E-1F;
    y = y * m - 1.2420140846E-1F;
    y = y * m + 1.4249322787E-1F;
    y = y * m - 1.6668057665E-1F;
    y = y * m + 2.0000714765E-1F;
    y = y * m - 2.4999993993E-1F;
    y = y * m + 3.3333331174E-1F;
    y = y * m * z;
    const auto exponent = static_cast<float>(e);
    y = y - 2.12194440e-4F * exponent - 0.5F * z;
    return m + y + 0.693359375F * exponent;
}

ULLAGE_INLINE float normal_of(std::uint32_t word) {
    // The share on the nearer side of the middle, so that no tail is rounded to 1.
    const bool upper = (word >> 31) != 0;
    const std::uint32_t near = upper ? ~word : word;
    const float u = (static_cast<float>(static_cast<std::int32_t>(near)) + 0.5F) * 2.3283064365386963e-10F;
    const float x = 2.0F * u - 1.0F;
    const float w = -log_of(4.0F * u * (1.0F - u));
    const float a = w - 2.5F;
    float p = 2.81022636e-08F;
    p = p * a + 3.43273939e-07F;
    p = p * a - 3.5233877e-06F;
    p = p * a - 4.39150654e-06F;
    p = p * a + 0.00021858087F;
    p = p * a - 0.00125372503F;
    p = p * a - 0.00417768164F;
    p = p * a + 0.246640727F;
    p = p * a + 1.50140941F;
    const float b = std::sqrt(w < 0.0F ? 0.0F : w) - 3.0F;
    float q = -0.000200214257F;
    q = q * b + 0.000100950558F;
    q = q * b + 0.00134934322F;
    q = q * b - 0.00367342844F;
    q = q * b + 0.00573950773F;
    q = q * b - 0.0076224613F;
    q = q * b + 0.00943887047F;
    q = q * b + 1.00167406F;
    q = q * b + 2.83297682F;
    const float z = (w < 5.0F ? p : q) * x * std::numbers::sqrt2_v<float>;
    return upper ? -z : z;
}

ULLAGE_INLINE float exp_of(float x) {
    x = x < -87.0F ? -87.0F : x;
    x = x > 87.0F ? 87.0F : x;
    constexpr float to_whole = 12582912.0F;  // 1.5 × 2²³: adding it rounds to a whole number
    const float n = (x * std::numbers::log2e_v<float> + to_whole) - to_whole;
    const float r = (x - n * 0.693359375F) + n * 2.12194440e-4F;
    float y = 1.9875691500E-4F;
    y = y * r + 1.3981999507E-3F;
    y = y * r + 8.3334519073E-3F;
    y = y * r + 4.1665795894E-2F;
    y = y * r + 1.6666665459E-1F;
    y = y * r + 5.0000001201E-1F;
    y = y * r * r + r + 1.0F;
    const std::int32_t scale = (static_cast<std::int32_t>(n) + 127) << 23;
    return y * std::bit_cast<float>(scale);
}

}  // namespace ullage::lane_math
