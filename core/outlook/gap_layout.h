// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Where the gaps between retained snapshots lie among the intervals of churn, at each time of the grid: the same for
/// every dataset that is kept alike, whatever its curves.

#include "core/outlook/paths.h"

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace ullage {

struct GapLayout {
    struct Gap {
        Instant from{}, to{};
        std::uint32_t length = 0;        ///< of `lengths`
        std::uint32_t first_piece = 0;   ///< its pieces end where the next gap's begin
    };
    /// The part of a gap that lies in one interval.
    struct Piece {
        std::uint32_t interval = 0;      ///< counted from the time's first
        double share = 0;                ///< of the gap
    };
    std::vector<std::chrono::seconds> lengths;       ///< those that occur
    std::vector<std::size_t> first, count, offset;   ///< per time: first interval, how many; place of its weights
    std::size_t weights = 0;                         ///< of all times
    std::vector<std::size_t> first_gap;              ///< per time, and after the last
    std::vector<Gap> gaps;
    std::vector<Piece> pieces;

    std::size_t last_piece(std::size_t gap) const {
        return gap + 1 < gaps.size() ? gaps[gap + 1].first_piece : pieces.size();
    }
};

/// `edges`: bounds of the intervals, rising days from as_of, at least two.
GapLayout gap_layout(const KeptSnapshots& kept, const std::vector<double>& edges, Instant as_of,
                     const std::vector<double>& days);

}  // namespace ullage
