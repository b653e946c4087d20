// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// How seed and stream make the generator's key, and what marks our counters: one rule for random.h and lanes.h.

#include <cstdint>

namespace ullage {

struct RandomKey {
    std::uint32_t first = 0, second = 0;
};

constexpr RandomKey random_key(std::uint64_t seed, std::uint32_t stream) {
    return {static_cast<std::uint32_t>(seed) ^ (static_cast<std::uint32_t>(seed >> 32) * 0x9E3779B9u), stream};
}

/// Third word of every counter, after path and step.
inline constexpr std::uint32_t counter_mark = 0x756c6c61u;

}  // namespace ullage
