// SPDX-License-Identifier: GPL-3.0-or-later
// Loops over lanes; built with -O3 and without fused multiply-add (CMakeLists.txt).
#include "core/units/row_sums.h"

#include "core/units/lane_math.h"

#include <cstring>

namespace ullage {

namespace {

/// All lanes as one value; the compiler splits it where the machine's vectors are shorter.
using Vector = float __attribute__((vector_size(lanes * sizeof(float))));
/// The same at any address of a float.
using Unaligned = float __attribute__((vector_size(lanes * sizeof(float)), aligned(alignof(float)), may_alias));

ULLAGE_INLINE Vector load(const float* from) { return *reinterpret_cast<const Unaligned*>(from); }
ULLAGE_INLINE void store(const Vector& value, float* to) { std::memcpy(to, &value, sizeof(value)); }

}  // namespace

ULLAGE_LANES void sum_rows(const RowSums& sums, std::size_t first, std::size_t last, const float* table, float* out) {
    for (std::size_t s = first; s < last; ++s) {
        // Two sums, so that one addition need not wait for the last.
        Vector even{}, odd{};
        const RowSums::Row* row = sums.begin(s);
        const RowSums::Row* const end = sums.end(s);
        for (; end - row >= 2; row += 2) {
            even += row[0].weight * load(table + row[0].row * lanes);
            odd += row[1].weight * load(table + row[1].row * lanes);
        }
        if (row < end) even += row->weight * load(table + row->row * lanes);
        store(even + odd, out + s * lanes);
    }
}

ULLAGE_LANES void scale_rows(const std::uint32_t* which, std::size_t n, const float* factor, float* rows) {
    for (std::size_t r = 0; r < n; ++r, rows += lanes) store(load(rows) * factor[which[r]], rows);
}

}  // namespace ullage
