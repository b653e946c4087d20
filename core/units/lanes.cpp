// SPDX-License-Identifier: GPL-3.0-or-later
// Loops over lanes; built with -O3 and without fused multiply-add (CMakeLists.txt).
#include "core/units/lanes.h"

#include "core/units/lane_math.h"

#include <cstring>

namespace ullage {

using namespace lane_math;

namespace {

/// All lanes as one value; the compiler splits it where the machine's vectors are shorter.
using Vector = float __attribute__((vector_size(lanes * sizeof(float))));
/// The same at any address of a float.
using Unaligned = float __attribute__((vector_size(lanes * sizeof(float)), aligned(alignof(float)), may_alias));

ULLAGE_INLINE Vector load(const float* from) { return *reinterpret_cast<const Unaligned*>(from); }

}  // namespace

ULLAGE_LANES void draw_words(std::uint64_t seed, std::uint32_t stream, std::uint32_t first_path,
                             std::uint32_t step, WordLanes& out) {
    philox(
        seed, stream, [first_path](std::size_t l) { return first_path + static_cast<std::uint32_t>(l); },
        [step](std::size_t) { return step; }, out);
}

ULLAGE_LANES void draw_words(std::uint64_t seed, std::uint32_t stream, const std::array<std::uint32_t, lanes>& path,
                             const std::array<std::uint32_t, lanes>& step, WordLanes& out) {
    philox(
        seed, stream, [&path](std::size_t l) { return path[l]; }, [&step](std::size_t l) { return step[l]; }, out);
}

float normal_at(std::uint64_t seed, std::uint32_t stream, std::uint32_t path, std::uint32_t step) {
    WordLanes words;
    draw_words(seed, stream, path, step, words);
    return normal_of(words[0][0]);
}

float exponential_at(float x) { return exp_of(x); }

ULLAGE_LANES void normal_of(const std::array<std::uint32_t, lanes>& words, FloatLanes& out) {
    for (std::size_t l = 0; l < lanes; ++l) out[l] = normal_of(words[l]);
}

ULLAGE_LANES void exponential_of(const FloatLanes& x, FloatLanes& out) {
    for (std::size_t l = 0; l < lanes; ++l) out[l] = exp_of(x[l]);
}

ULLAGE_LANES void weighted_sum(const float* weight, std::size_t n, const float* a, const float* b, float share,
                               float start, FloatLanes& out) {
    // Two sums, so that one addition need not wait for the last.
    Vector even = Vector{} + start;
    Vector odd{};
    std::size_t j = 0;
    for (; j + 1 < n; j += 2) {
        even += weight[j] * (load(a + j * lanes) + share * load(b + j * lanes));
        odd += weight[j + 1] * (load(a + (j + 1) * lanes) + share * load(b + (j + 1) * lanes));
    }
    if (j < n) even += weight[j] * (load(a + j * lanes) + share * load(b + j * lanes));
    const Vector sum = even + odd;
    std::memcpy(out.data(), &sum, sizeof(sum));
}

ULLAGE_LANES void point_between(const double* __restrict from, const double* __restrict to, double part,
                                DoubleLanes& out) {
    for (std::size_t l = 0; l < lanes; ++l) out[l] = from[l] + (to[l] - from[l]) * part;
}

ULLAGE_LANES void add_charged(const DoubleLanes& live, float live_charge, const FloatLanes& held, float held_charge,
                              float* __restrict used_sum, float* __restrict live_sum, float* __restrict held_sum) {
    FloatLanes live_bytes, held_bytes;
    for (std::size_t l = 0; l < lanes; ++l) live_bytes[l] = static_cast<float>(live[l]) * live_charge;
    for (std::size_t l = 0; l < lanes; ++l) held_bytes[l] = held[l] * held_charge;
    for (std::size_t l = 0; l < lanes; ++l) used_sum[l] += live_bytes[l] + held_bytes[l];
    for (std::size_t l = 0; l < lanes; ++l) live_sum[l] += live_bytes[l];
    for (std::size_t l = 0; l < lanes; ++l) held_sum[l] += held_bytes[l];
}

ULLAGE_LANES void add_charged(const DoubleLanes& live, float live_charge, const FloatLanes& held, float held_charge,
                              float* __restrict used_sum) {
    for (std::size_t l = 0; l < lanes; ++l)
        used_sum[l] += static_cast<float>(live[l]) * live_charge + held[l] * held_charge;
}

}  // namespace ullage
