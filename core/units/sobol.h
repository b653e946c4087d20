// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Points that fill a unit cube more evenly than independent random ones, so that fewer tell as much: of the first 2^m
/// points exactly one lies in each of 2^m equal parts of every coordinate.
///
/// Sobol's sequence in its natural order, each coordinate scrambled for itself by a random lower triangular matrix of
/// bits and a random shift: every single point is uniform, and another seed gives an independent set.
/// The first coordinate of the sequence, the number of the point with its bits reversed, is left out: what goes by
/// that number (every fourth point, blocks of sixteen) is a coordinate of its own, evenly spread beside the others.
/// Sources: direction numbers of Joe and Kuo, Constructing Sobol sequences with better two-dimensional projections
/// (SIAM J. Sci. Comput. 30, 2008), from Boost.Random; scrambling: Matoušek, On the L2-discrepancy for anchored boxes
/// (J. Complexity 14, 1998).

#include "core/units/lanes.h"

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace ullage {

class SobolPoints {
public:
    static constexpr std::size_t bits = 20;                ///< of a point's number
    static constexpr std::size_t most_coordinates = 3666;  ///< beyond them numbers are independent random ones

    SobolPoints(std::uint64_t seed, std::size_t coordinates);

    /// A coordinate of the points `first` … `first` + 15, each as the number of one of 2³² equal parts of 0…1.
    /// `first`: a multiple of 16 below 2^20; `coordinate`: any.
    void words(std::size_t coordinate, std::uint32_t first, std::array<std::uint32_t, lanes>& out) const;

private:
    struct Coordinate {
        std::array<std::uint32_t, bits> direction;  // of each bit of the number, scrambled
        std::uint32_t shift;
    };
    std::uint64_t seed_;
    std::vector<Coordinate> coordinates_;
};

}  // namespace ullage
