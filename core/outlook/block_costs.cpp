// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/block_costs.h"

#include "core/outlook/send_plan.h"
#include "core/outlook/space_text.h"
#include "core/retention/ladder.h"

#include <algorithm>
#include <cmath>

namespace ullage {

namespace {

constexpr double near_the_least = 1.05;  // a larger block is not worth the last twentieth
constexpr double worth_a_change = 0.9;   // less than a tenth saved is not worth another block size
constexpr double costs_much = 1.1;    // of a stored byte: below it a layout is not chosen for its blocks
constexpr double least_gain = 0.05;
constexpr int widest_worth_naming = 16;  // wider groups are not advised by anyone; common practice, no source

/// Stored bytes of a part at the last time, by the mean curve: live and held.
double stored_at_end(const DatasetModel& m, const BoxPart& part, Instant as_of,
                     const std::vector<double>& days) {
    const double live = std::max(0.0, m.live_bytes + m.growth_per_day * days.back());
    const auto& kept = part.kept.at->back();
    const double freed = part.kept.home
                             ? held_bytes(m.mean_curve, kept, add_days(as_of, days.back()))
                             : held_bytes(m.mean_curve, kept);
    return live + freed * (m.live_bytes > 0 ? live / m.live_bytes : 1);
}

void find_better_block(BlockCost& cost, const Dataset& dataset, double ratio, const PoolShape& shape) {
    if (dataset.kind != Dataset::Kind::volume) return;
    const double most = kib(128).value;
    std::vector<std::pair<double, double>> tried;  // block, charge
    for (double block = 2 * cost.block_bytes; block <= most; block *= 2)
        tried.emplace_back(block, charge_per_stored_byte(shape, Bytes{block}, ratio));
    double least = cost.charge;
    for (const auto& [block, charge] : tried) least = std::min(least, charge);
    for (const auto& [block, charge] : tried) {
        if (charge > near_the_least * least) continue;
        if (charge > worth_a_change * cost.charge) return;
        cost.better_block_bytes = block;
        cost.better_charge = charge;
        return;
    }
}

/// All layouts of the pool's drives that survive as many failures in a group.
std::vector<Pool> layouts(const Pool& pool) {
    std::vector<Pool> all;
    const int drives = pool.groups * pool.width;
    const int lost = pool.redundancy.kind == Redundancy::Kind::parity ? pool.redundancy.n
                                                                       : pool.redundancy.n - 1;
    const auto take = [&](int width, Redundancy redundancy) {
        if (drives % width != 0) return;
        Pool other = pool;
        other.width = width;
        other.groups = drives / width;
        other.redundancy = redundancy;
        if (other != pool) all.push_back(other);
    };
    if (lost < 1) return all;
    if (lost <= 3) take(lost + 1, {Redundancy::Kind::mirror, lost + 1});
    for (int width = lost + 2; width <= std::min(drives, widest_worth_naming); ++width)
        if (lost <= 3) take(width, {Redundancy::Kind::parity, lost});
    return all;
}

}  // namespace

std::vector<BlockCost> block_costs(const std::vector<Dataset>& datasets,
                                   const std::vector<DatasetModel>& models,
                                   const std::vector<const BoxPart*>& parts, const BoxSpace& space,
                                   Instant as_of, const std::vector<double>& days) {
    std::vector<BlockCost> costs;
    const SpaceEra& today = space.at(0);
    if (!today.shape) return costs;
    for (const BoxPart* part : parts) {
        const auto d = static_cast<std::size_t>(part->dataset);
        const double ratio = models[d].compression_ratio;
        BlockCost cost;
        cost.dataset = datasets[d].name;
        cost.block_bytes = datasets[d].block_size.value.value;
        cost.charge = today.cost(datasets[d], ratio);
        cost.used_bytes = cost.charge * stored_at_end(models[d], *part, as_of, days);
        find_better_block(cost, datasets[d], ratio, *today.shape);
        costs.push_back(std::move(cost));
    }
    return costs;
}

std::optional<BetterShape> better_shape(const std::vector<Dataset>& datasets,
                                        const std::vector<DatasetModel>& models,
                                        const std::vector<const BoxPart*>& parts,
                                        const std::vector<BlockCost>& costs, const Pool& pool) {
    double stored = 0;
    double used = 0;
    for (const auto& cost : costs) {
        stored += cost.used_bytes / cost.charge;
        used += cost.used_bytes;
    }
    const auto now = capacity(pool);
    if (!pool.further.empty() || !(stored > 0) || !(used / stored >= costs_much) || !now) return {};
    std::optional<BetterShape> best;
    for (const Pool& other : layouts(pool)) {
        const auto size = capacity(other);
        if (!size) continue;
        double there = 0;
        for (std::size_t i = 0; i < parts.size(); ++i) {
            const auto d = static_cast<std::size_t>(parts[i]->dataset);
            there += costs[i].used_bytes / costs[i].charge *
                     charge_per_stored_byte(other, datasets[d].block_size.value,
                                            models[d].compression_ratio);
        }
        BetterShape shape;
        shape.charge = there / stored;
        shape.charge_now = used / stored;
        shape.usable_bytes = size->usable_bytes;
        shape.gain = (size->usable_bytes / shape.charge) / (now->usable_bytes / shape.charge_now) - 1;
        if (shape.gain < least_gain || (best && shape.gain <= best->gain)) continue;
        shape.text = groups_text(other.groups, other.width, other.redundancy);
        best = std::move(shape);
    }
    return best;
}

}  // namespace ullage
