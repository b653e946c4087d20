// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Very many snapshots are looked at by every k-th of them: time and memory stay bounded.

#include <algorithm>
#include <cstddef>

namespace ullage {

/// The least k for which every k-th of `count` are at most `most`; 1 or more.
inline std::size_t stride_of(std::size_t count, std::size_t most) {
    return std::max<std::size_t>((count + most - 1) / most, 1);
}

}  // namespace ullage
