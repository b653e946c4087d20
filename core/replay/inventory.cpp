// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/replay/inventory.h"

#include <algorithm>

namespace ullage {

namespace {

constexpr std::size_t most_unsettled = 4096;

/// What is asked for is most often one of the newest.
bool has(const std::vector<Instant>& sorted, Instant s) {
    constexpr std::ptrdiff_t newest = 8;
    auto from = sorted.begin();
    if (sorted.end() - from > newest && *(sorted.end() - newest) <= s) from = sorted.end() - newest;
    return std::binary_search(from, sorted.end(), s);
}

}  // namespace

LadderGrid::LadderGrid(const LadderClock& ladder, Instant from, Instant to) {
    for (const auto& rung : ladder.rungs()) {
        Rung r{rung.grid.between(from, to), rung.lasts};
        rungs_.push_back(std::move(r));
    }
}

std::chrono::seconds LadderGrid::longest() const {
    std::chrono::seconds longest(0);
    for (const auto& rung : rungs_) longest = std::max(longest, rung.lasts);
    return longest;
}

Inventory::Inventory(const LadderGrid* grid) : grid_(grid) {
    if (grid_) rungs_.resize(grid_->rungs().size());
}

void Inventory::receive(Instant snapshot) {
    if (snapshot <= newest_) return;
    newest_ = snapshot;
    if (!grid_) {
        all_.push_back(snapshot);
        return;
    }
    unsettled_.push_back(snapshot);
    if (unsettled_.size() >= most_unsettled) settle();
}

void Inventory::settle() const {
    for (const Instant snapshot : unsettled_) {
        for (std::size_t r = 0; r < rungs_.size(); ++r) {
            auto& rung = rungs_[r];
            const auto& points = grid_->rungs()[r].points;
            const bool first_of_its_period =
                first_ || (rung.next_point < points.size() && points[rung.next_point] <= snapshot);
            if (!first_of_its_period) continue;
            rung.stand_ins.push_back(snapshot);
            // Most often the next period is the one after; the rest is for gaps and the first of all.
            if (!first_) ++rung.next_point;
            const auto from = points.begin() + static_cast<std::ptrdiff_t>(rung.next_point);
            if (from != points.end() && *from <= snapshot)
                rung.next_point = static_cast<std::size_t>(
                    std::upper_bound(from, points.end(), snapshot) - points.begin());
        }
        first_ = false;
    }
    unsettled_.clear();
}

bool Inventory::holds(Instant snapshot, Instant t) const {
    if (newest_ == snapshot) return true;
    if (!grid_) return has(all_, snapshot);
    settle();
    for (std::size_t r = 0; r < rungs_.size(); ++r)
        if (snapshot + grid_->rungs()[r].lasts > t && has(rungs_[r].stand_ins, snapshot))
            return true;
    return false;
}

Instant Inventory::expires(Instant snapshot) const {
    if (!grid_) return Instant::max();
    settle();
    Instant last = snapshot;
    for (std::size_t r = 0; r < rungs_.size(); ++r)
        if (has(rungs_[r].stand_ins, snapshot))
            last = std::max(last, snapshot + grid_->rungs()[r].lasts);
    return last;
}

std::vector<Instant> Inventory::kept(Instant t) const {
    if (!grid_) return all_;
    settle();
    std::vector<Instant> kept;
    for (std::size_t r = 0; r < rungs_.size(); ++r) {
        const auto& all = rungs_[r].stand_ins;
        kept.insert(kept.end(),
                    std::upper_bound(all.begin(), all.end(), t - grid_->rungs()[r].lasts),
                    all.end());
    }
    if (!empty()) kept.push_back(newest_);
    std::sort(kept.begin(), kept.end());
    kept.erase(std::unique(kept.begin(), kept.end()), kept.end());
    return kept;
}

Instant Inventory::newest_lasting(std::chrono::seconds at_least, Instant t) const {
    if (empty() || !grid_ || rungs_.empty()) return newest_;
    settle();
    const auto needed = std::min(at_least, grid_->longest());
    Instant found = no_snapshot;
    for (std::size_t r = 0; r < rungs_.size(); ++r) {
        const auto& rung = grid_->rungs()[r];
        const auto& all = rungs_[r].stand_ins;
        if (rung.lasts < needed || all.empty() || all.back() + rung.lasts <= t) continue;
        found = std::max(found, all.back());
    }
    return found != no_snapshot ? found : newest_;
}

}  // namespace ullage
