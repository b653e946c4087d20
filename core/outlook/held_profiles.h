// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What the snapshots of every part of a plan hold: each ladder's kernel found once, for all parts that keep the
/// same snapshots of a dataset and for every draw over the same days.

#include "core/outlook/held_kernel.h"

#include <cstddef>
#include <vector>

namespace ullage {

struct HeldProfile {
    int dataset = 0;
    HeldKernel kernel;                       ///< of the model's curves, and after them of its mean curve
    std::vector<double> newest, oldest;      ///< per time: days of the retained ends
    std::vector<GridPlace> newest_place;     ///< … and where the newest lies on the grid
    std::vector<std::size_t> parts;          ///< of the plan
};

struct HeldProfiles {
    std::vector<double> edges;               ///< bounds of the churn's intervals, days, rising
    std::size_t past = 0;                    ///< intervals before as_of
    std::vector<HeldProfile> all;
    std::vector<std::vector<std::size_t>> rising;  ///< per dataset: its curves by what the boxes would hold at the last time
};

/// Of a plan's parts over its days.
HeldProfiles held_profiles(const std::vector<DatasetModel>& models, const PathsPlan& plan);

}  // namespace ullage
