// SPDX-License-Identifier: GPL-3.0-or-later
// Loops over lanes; built with -O3 and without fused multiply-add (CMakeLists.txt).
#include "core/units/lanes.h"

#include "core/units/lane_math.h"

namespace ullage {

ULLAGE_LANES void draw_words(std::uint64_t seed, std::uint32_t stream, std::uint32_t first_path,
                             std::uint32_t step, WordLanes& out) {
    lane_math::philox(
        seed, stream, [first_path](std::size_t l) { return first_path + static_cast<std::uint32_t>(l); },
        [step](std::size_t) { return step; }, out);
}

ULLAGE_LANES void draw_words(std::uint64_t seed, std::uint32_t stream, const std::array<std::uint32_t, lanes>& path,
                             const std::array<std::uint32_t, lanes>& step, WordLanes& out) {
    lane_math::philox(
        seed, stream, [&path](std::size_t l) { return path[l]; }, [&step](std::size_t l) { return step[l]; }, out);
}

float normal_at(std::uint64_t seed, std::uint32_t stream, std::uint32_t path, std::uint32_t step) {
    WordLanes words;
    draw_words(seed, stream, path, step, words);
    return lane_math::normal_of(words[0][0]);
}

float exponential_at(float x) { return lane_math::exp_of(x); }

float normal_of(std::uint32_t word) { return lane_math::normal_of(word); }

ULLAGE_LANES void normal_of(const std::array<std::uint32_t, lanes>& words, FloatLanes& out) {
    for (std::size_t l = 0; l < lanes; ++l) out[l] = lane_math::normal_of(words[l]);
}

ULLAGE_LANES void exponential_of(const FloatLanes& x, FloatLanes& out) {
    for (std::size_t l = 0; l < lanes; ++l) out[l] = lane_math::exp_of(x[l]);
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
