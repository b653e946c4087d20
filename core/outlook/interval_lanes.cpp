// SPDX-License-Identifier: GPL-3.0-or-later
// Loops over lanes; built with -O3 and without fused multiply-add (CMakeLists.txt).
#include "core/outlook/interval_lanes.h"

#include "core/units/lane_math.h"

namespace ullage {

ULLAGE_LANES void walk_live(const double* __restrict from, const DoubleLanes& rate, double days, double walk,
                            const FloatLanes& z, double* __restrict to) {
    for (std::size_t l = 0; l < lanes; ++l) {
        const double there = from[l] + rate[l] * days + walk * static_cast<double>(z[l]);
        to[l] = there < 0 ? 0 : there;
    }
}

ULLAGE_LANES void middle_live(const double* __restrict from, const double* __restrict to, DoubleLanes& middle) {
    for (std::size_t l = 0; l < lanes; ++l) middle[l] = (from[l] + to[l]) / 2;
}

ULLAGE_LANES void live_before(const DoubleLanes& start, const DoubleLanes& rate, double day, double least_share,
                              DoubleLanes& live) {
    for (std::size_t l = 0; l < lanes; ++l) {
        const double then = start[l] + rate[l] * day;
        const double least = least_share * start[l];
        live[l] = then < least ? least : then;
    }
}

ULLAGE_LANES void churn_of(const DoubleLanes& per_live, const DoubleLanes& live, float* __restrict churn) {
    for (std::size_t l = 0; l < lanes; ++l) churn[l] = static_cast<float>(per_live[l] * live[l]);
}

ULLAGE_LANES void noisy_churn_of(const DoubleLanes& per_live, const DoubleLanes& live, float spread, float shift,
                                 const FloatLanes& z, float* __restrict churn) {
    for (std::size_t l = 0; l < lanes; ++l)
        churn[l] = static_cast<float>(per_live[l] * live[l]) * lane_math::exp_of(spread * z[l] - shift);
}

ULLAGE_LANES void wander_of(float keep, float step, float shift, const FloatLanes& z, const float* __restrict churn,
                            FloatLanes& level, float* __restrict added) {
    for (std::size_t l = 0; l < lanes; ++l) {
        level[l] = keep * level[l] + step * z[l];
        added[l] = churn[l] * (lane_math::exp_of(level[l] - shift) - 1.0F);
    }
}

}  // namespace ullage
