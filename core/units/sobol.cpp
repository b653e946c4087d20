// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/sobol.h"

#include <algorithm>
#include <bit>
#include <boost/random/sobol.hpp>

namespace ullage {

namespace {

constexpr std::size_t word_bits = 32;
constexpr std::uint32_t top_bit = 0x80000000u;
constexpr std::uint32_t scramble_stream = 0x28000000u;
constexpr std::uint32_t beyond_stream = 0x30000000u;

using Engine = boost::random::sobol_engine<std::uint32_t, word_bits>;

/// The point that the engine gives as its `number`-th, from 1.
std::vector<std::uint32_t> point(Engine& engine, std::uint32_t number) {
    engine.seed(number - 1);
    std::vector<std::uint32_t> all(engine.dimension());
    for (auto& word : all) word = engine();
    return all;
}

/// Rows of a lower triangular matrix of bits, ones on its diagonal; the first acts on the highest bit.
using Matrix = std::array<std::uint32_t, word_bits>;

std::uint32_t product(const Matrix& rows, std::uint32_t word) {
    std::uint32_t out = 0;
    for (const std::uint32_t row : rows) out = out << 1 | static_cast<std::uint32_t>(std::popcount(row & word) & 1);
    return out;
}

}  // namespace

SobolPoints::SobolPoints(std::uint64_t seed, std::size_t coordinates) : seed_(seed) {
    const std::size_t count = std::min(coordinates, most_coordinates);
    if (count == 0) return;
    coordinates_.resize(count);
    Engine engine(count + 1);
    for (std::size_t k = 0; k < bits; ++k) {
        // The engine goes by Gray code: from one point to the next a single direction is added.
        const std::uint32_t number = std::uint32_t{1} << k;
        auto direction = point(engine, number);
        if (k > 0) {
            const auto before = point(engine, number - 1);
            for (std::size_t c = 0; c <= count; ++c) direction[c] ^= before[c];
        }
        for (std::size_t c = 0; c < count; ++c) coordinates_[c].direction[k] = direction[c + 1];
    }
    for (std::size_t c = 0; c < count; ++c) {
        WordLanes random;
        draw_words(seed, scramble_stream + static_cast<std::uint32_t>(c), 0, 0, random);
        Matrix rows;
        for (std::size_t i = 0; i < word_bits; ++i) {
            const std::uint32_t diagonal = top_bit >> i;
            rows[i] = (random[i / lanes][i % lanes] & ~(diagonal | (diagonal - 1))) | diagonal;
        }
        for (auto& direction : coordinates_[c].direction) direction = product(rows, direction);
        coordinates_[c].shift = random[2][0];
    }
}

void SobolPoints::words(std::size_t coordinate, std::uint32_t first, std::array<std::uint32_t, lanes>& out) const {
    if (coordinate >= coordinates_.size()) {
        WordLanes random;
        draw_words(seed_, beyond_stream + static_cast<std::uint32_t>(coordinate), first, 0, random);
        out = random[0];
        return;
    }
    const auto& [direction, shift] = coordinates_[coordinate];
    std::uint32_t all = shift;
    for (std::uint32_t rest = first; rest != 0; rest &= rest - 1) all ^= direction[std::size_t(std::countr_zero(rest))];
    out[0] = all;
    for (std::size_t k = 0; std::size_t{1} << k < lanes; ++k) {
        const std::size_t step = std::size_t{1} << k;
        for (std::size_t l = 0; l < step; ++l) out[step + l] = out[l] ^ direction[k];
    }
}

}  // namespace ullage
