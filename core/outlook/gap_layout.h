// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Where the gaps between retained snapshots lie among the intervals of churn, at each time of the grid: the same for
/// every dataset that is kept alike, whatever its curves.

#include "core/outlook/paths.h"
#include "core/units/row_sums.h"

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace ullage {

struct GapLayout {
    /// Between two snapshots of a listing, by their places in it.
    struct Listed {
        std::size_t first = 0, last = 0;
    };
    std::vector<std::chrono::seconds> lengths;  ///< those that occur
    /// Gaps of one length that lie alike hold alike, whenever they are retained: together they are a shape.
    std::vector<std::uint32_t> length_of;       ///< per shape, of `lengths`
    RowSums churn;                              ///< per shape: the mean of the intervals it lies in
    RowSums shapes;                             ///< per time: how many gaps of each shape
    std::vector<std::size_t> first_listed;      ///< per time, and after the last
    std::vector<Listed> listed;                 ///< gaps that a listing shows both ends of; they are in no shape
};

/// `edges`: bounds of the intervals, rising days from as_of, at least two. What lies outside counts into the first and
/// the last. `taken`: the snapshots of the dataset's listing, oldest first; none: without.
GapLayout gap_layout(const KeptSnapshots& kept, const std::vector<double>& edges, Instant as_of,
                     const std::vector<double>& days, const std::vector<Instant>& taken);

}  // namespace ullage
