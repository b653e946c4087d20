// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Random numbers that depend on what they are for, not on when they are drawn: Philox 4×32-10, keyed by
/// seed and stream, counted by path and step. The same arguments give the same number on any thread.
/// Source of the generator: Salmon et al., Parallel Random Numbers: As Easy as 1, 2, 3 (SC11).

#include <array>
#include <cstdint>

namespace ullage {

/// Two independent standard normal numbers (Box–Muller).
struct NormalPair {
    double first = 0, second = 0;
};
NormalPair normal_pair(std::uint64_t seed, std::uint32_t stream, std::uint32_t path, std::uint32_t step);

/// The first of the pair.
double normal_number(std::uint64_t seed, std::uint32_t stream, std::uint32_t path, std::uint32_t step);

/// Numbers one after another for one path of one stream.
class RandomSequence {
public:
    RandomSequence(std::uint64_t seed, std::uint32_t stream, std::uint32_t path)
        : seed_(seed), stream_(stream), path_(path) {}

    double uniform();      ///< in (0, 1)
    double exponential();  ///< mean 1
    double normal();       ///< mean 0, variance 1

private:
    std::uint64_t seed_;
    std::uint32_t stream_, path_;
    std::uint32_t step_ = 0;
    std::array<double, 2> ready_{};
    int left_ = 0;
};

}  // namespace ullage
