// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What the snapshots of one dataset hold over time, as weights over the churn of a path:
///
///     held(t) = known(t) + Σ_j weight(t, j) × churn_j
///
/// churn_j is a path's level of churn in interval j, 1 on the mean. Each gap between two retained
/// snapshots adds freed(gap) of the curve, in parts as the gap lies in the intervals; a gap whose both ends a
/// listing shows adds what the listing shows.

#include "core/outlook/models.h"
#include "core/outlook/paths.h"

#include <cstddef>
#include <vector>

namespace ullage {

/// Of what a gap frees, the share that follows the wander of what dies young.
double young_share(double gap_days);

struct HeldKernel {
    std::vector<std::size_t> first, offset, count;  ///< per time: first interval; place and number of its weights
    std::vector<std::vector<float>> weights;        ///< per curve of the model, and after them of its mean curve
    std::vector<std::vector<double>> known;         ///< likewise, and per time: bytes that no churn moves
    std::vector<float> young;                       ///< per time: share that follows the wander
};

/// `edges`: bounds of the intervals, rising days from as_of, at least two.
HeldKernel held_kernel(const KeptSnapshots& kept, const DatasetModel& model, const std::vector<double>& edges,
                       Instant as_of, const std::vector<double>& days);

}  // namespace ullage
