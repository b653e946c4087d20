// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// One interval of sixteen paths of a dataset: how live bytes get from one time to the next, its churn.
/// The laws are paths.h's; the same bits on every machine, as lanes.h.

#include "core/units/lanes.h"

#include <cstdint>

namespace ullage {

/// to = from + rate × days + walk × z, at least 0, of 16 doubles each.
void walk_live(const double* from, const DoubleLanes& rate, double days, double walk, const FloatLanes& z, double* to);
/// Halfway between two times.
void middle_live(const double* from, const double* to, DoubleLanes& middle);
/// The live bytes of a day before as_of (`day` < 0), at least a share of those at as_of.
void live_before(const DoubleLanes& start, const DoubleLanes& rate, double day, double least_share, DoubleLanes& live);

/// churn = per_live × live, of 16 floats; …
void churn_of(const DoubleLanes& per_live, const DoubleLanes& live, float* churn);
/// … the same × e^(spread × z − shift).
void noisy_churn_of(const DoubleLanes& per_live, const DoubleLanes& live, float spread, float shift, const FloatLanes& z,
                    float* churn);
/// The level leans back, level = keep × level + step × z, and adds churn × (e^(level − shift) − 1).
void wander_of(float keep, float step, float shift, const FloatLanes& z, const float* churn, FloatLanes& level,
               float* added);

}  // namespace ullage
