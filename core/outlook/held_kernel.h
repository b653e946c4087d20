// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What the snapshots of one dataset hold over time, as weights over the churn of a path:
///
///     held(t) = known(t) + Σ_j weight(t, j) × churn_j
///
/// churn_j is a path's level of churn in interval j, 1 on the mean. Each gap between two retained
/// snapshots adds freed(gap) of the curve, in parts as the gap lies in the intervals; a gap whose both ends a
/// listing shows adds what the listing shows.

#include "core/outlook/gap_layout.h"
#include "core/outlook/models.h"

#include <cstddef>
#include <memory>
#include <vector>

namespace ullage {

/// Of what a gap frees, the share that follows the wander of what dies young.
double young_share(double gap_days);

struct HeldKernel {
    std::shared_ptr<const GapLayout> layout;        ///< where each time's weights lie
    const float* weights = nullptr;                 ///< [curve of the model, and after them its mean curve][the layout's weights]
    std::vector<std::vector<double>> known;         ///< per curve and time: bytes that no churn moves
    std::vector<float> young;                       ///< per time: share that follows the wander

    /// Of a curve at a time: as many as the layout counts, from its first interval on.
    const float* at(std::size_t curve, std::size_t time) const {
        return weights + curve * layout->weights + layout->offset[time];
    }
};

/// How many weights a dataset's kernel has.
inline std::size_t weights_of(const GapLayout& layout, const DatasetModel& model) {
    return layout.weights * (model.curves.size() + 1);
}

/// `weights`: room for all of them, which must outlive the kernel.
HeldKernel held_kernel(std::shared_ptr<const GapLayout> layout, const DatasetModel& model, float* weights);

}  // namespace ullage
