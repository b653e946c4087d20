// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What the snapshots of one dataset hold over time, by what each gap between two of them frees:
///
///     held(t) = known(t) + Σ over the gaps at t: freed(gap) × mean of the churn in the gap
///
/// Churn is a path's level in each interval, 1 on the mean. A gap whose both ends a listing shows adds what the
/// listing shows.

#include "core/outlook/gap_layout.h"
#include "core/outlook/models.h"

#include <cstddef>
#include <memory>
#include <vector>

namespace ullage {

/// Of what a gap frees, the share that follows the wander of what dies young.
double young_share(double gap_days);

struct HeldKernel {
    std::shared_ptr<const GapLayout> layout;
    std::vector<std::vector<float>> freed;   ///< per curve of the model, and after them its mean curve: bytes of each length of gap
    std::vector<std::vector<double>> known;  ///< per curve and time: bytes that no churn moves; empty: none
    std::vector<float> young;                ///< per time: share of all that gaps free then that follows the wander

    /// Bytes at a time while churn is at its mean.
    double held(std::size_t curve, std::size_t time) const;
};

/// `layout`: made for the snapshots of the model's listing.
HeldKernel held_kernel(std::shared_ptr<const GapLayout> layout, const DatasetModel& model);

}  // namespace ullage
