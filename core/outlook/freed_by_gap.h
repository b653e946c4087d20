// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What curves free over the gaps between snapshots, each length of gap worked out once: ladders have few of them.

#include "core/turnover/curve.h"
#include "core/units/calendar.h"
#include "core/units/units.h"

#include <chrono>
#include <cstdint>
#include <unordered_map>
#include <vector>

namespace ullage {

class FreedByGap {
public:
    explicit FreedByGap(std::vector<Curve> curves) : curves_(std::move(curves)) {}

    /// freed(gap) of every curve, bytes; gap ≥ 0. Stays valid.
    const std::vector<double>& operator()(std::chrono::seconds gap) {
        const auto [it, is_new] = known_.try_emplace(gap.count());
        if (is_new)
            for (const auto& c : curves_)
                it->second.push_back(c.freed(static_cast<double>(gap.count()) / seconds_per_day));
        return it->second;
    }

private:
    std::vector<Curve> curves_;
    std::unordered_map<std::int64_t, std::vector<double>> known_;
};

}  // namespace ullage
