// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Sixteen paths at a time: random numbers, exponentials and sums in lanes, which the compiler turns into
/// vector instructions of the machine it runs on.
///
/// The same lanes give the same bits on every machine: each is computed by itself, in one order, without
/// fused operations.
/// Accuracy: normal numbers within 1e-6 + 2e-6 of themselves of the inverse normal distribution, the outermost
/// hundred-millionth on either side within 0.003; exp within 2.5e-7 of itself.
/// Sources: Philox 4×32-10: Salmon et al. (SC11), as random.h; the inverse error function: Giles, Approximating
/// the erfinv function (GPU Computing Gems, 2011), single precision; log and exp: polynomials of the Cephes
/// library (Moshier).

#include <array>
#include <cstddef>
#include <cstdint>

namespace ullage {

inline constexpr std::size_t lanes = 16;
using FloatLanes = std::array<float, lanes>;

/// Four independent words for each of the paths `first_path` … + 15, one draw of Philox each: [which][lane].
using WordLanes = std::array<std::array<std::uint32_t, lanes>, 4>;
void draw_words(std::uint64_t seed, std::uint32_t stream, std::uint32_t first_path, std::uint32_t step,
                WordLanes& out);
/// The same of any path and step in each lane.
void draw_words(std::uint64_t seed, std::uint32_t stream, const std::array<std::uint32_t, lanes>& path,
                const std::array<std::uint32_t, lanes>& step, WordLanes& out);
/// The standard normal number of which a share (word + ½) ÷ 2³² lies below.
void normal_of(const std::array<std::uint32_t, lanes>& words, FloatLanes& out);
/// The same bits for one word.
float normal_of(std::uint32_t word);

/// e^x; x is clamped to −87 … 87.
void exponential_of(const FloatLanes& x, FloatLanes& out);

/// The same bits as in lanes: the normal number of a draw's first word, and e^x.
float normal_at(std::uint64_t seed, std::uint32_t stream, std::uint32_t path, std::uint32_t step);
float exponential_at(float x);

/// out = from + part × (to − from), of 16 doubles each.
using DoubleLanes = std::array<double, lanes>;
void point_between(const double* from, const double* to, double part, DoubleLanes& out);

/// Adds live × live_charge to live_sum, held × held_charge to held_sum, and both to used_sum, of 16 floats each that
/// do not overlap.
void add_charged(const DoubleLanes& live, float live_charge, const FloatLanes& held, float held_charge, float* used_sum,
                 float* live_sum, float* held_sum);
/// The same to a used sum alone.
void add_charged(const DoubleLanes& live, float live_charge, const FloatLanes& held, float held_charge, float* used_sum);

}  // namespace ullage
