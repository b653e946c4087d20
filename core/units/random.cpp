// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/random.h"

#include "core/units/random_key.h"

#include <Random123/philox.h>
#include <cmath>
#include <numbers>

namespace ullage {

namespace {

/// Two numbers in (0, 1).
std::array<double, 2> uniforms(std::uint64_t seed, std::uint32_t stream, std::uint32_t path,
                               std::uint32_t step) {
    r123::Philox4x32 philox;
    const r123::Philox4x32::ctr_type counter = {{path, step, counter_mark, 0}};
    const RandomKey key = random_key(seed, stream);
    const auto r = philox(counter, {{key.first, key.second}});
    constexpr double scale = 1.0 / 18446744073709551616.0;  // 2^-64
    return {(static_cast<double>((std::uint64_t(r[0]) << 32) | r[1]) + 0.5) * scale,
            (static_cast<double>((std::uint64_t(r[2]) << 32) | r[3]) + 0.5) * scale};
}

}  // namespace

NormalPair normal_pair(std::uint64_t seed, std::uint32_t stream, std::uint32_t path, std::uint32_t step) {
    const auto [u, v] = uniforms(seed, stream, path, step);
    const double radius = std::sqrt(-2 * std::log(u));
    const double angle = 2 * std::numbers::pi * v;
    return {radius * std::cos(angle), radius * std::sin(angle)};
}

double normal_number(std::uint64_t seed, std::uint32_t stream, std::uint32_t path, std::uint32_t step) {
    return normal_pair(seed, stream, path, step).first;
}

double RandomSequence::uniform() {
    if (left_ == 0) {
        ready_ = uniforms(seed_, stream_, path_, step_++);
        left_ = 2;
    }
    return ready_[std::size_t(--left_)];
}

double RandomSequence::exponential() { return -std::log(uniform()); }

double RandomSequence::normal() {
    const double radius = std::sqrt(2 * exponential());
    return radius * std::cos(2 * std::numbers::pi * uniform());
}

}  // namespace ullage
