// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/box_space.h"

#include "core/outlook/freed_by_gap.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <optional>

namespace ullage {

namespace {

/// Mean live bytes at a day: growth, and the events by then.
double mean_live(const DatasetModel& m, double day) {
    double live = m.live_bytes + m.growth_per_day * day;
    for (const auto& e : m.events) {
        if (e.day <= 0 || e.day > day) continue;
        if (e.kind == Event::Kind::add) live += e.bytes;
        if (e.kind == Event::Kind::remove) live -= e.bytes;
    }
    return std::max(0.0, live);
}

/// Share of the live bytes at `now` that were there at `era`, 0…1.
double live_before(const DatasetModel& m, double era, double now) {
    double old = mean_live(m, era) - m.mean_curve.freed(now - era);
    for (const auto& e : m.events)
        if ((e.kind == Event::Kind::rewrite || e.kind == Event::Kind::remove) && e.day > era && e.day <= now)
            old -= e.bytes;
    const double live = mean_live(m, now);
    return live > 0 ? std::clamp(old / live, 0.0, 1.0) : 1.0;
}

/// Of what the snapshots at `ends` hold, by `freed` of one curve.
class HeldAges {
public:
    HeldAges(const Curve& curve, FreedByGap& freed, const std::vector<Instant>& ends) : curve_(curve), ends_(ends) {
        upto_.assign(std::max<std::size_t>(ends.size(), 1), 0.0);
        for (std::size_t i = 1; i < ends.size(); ++i)
            upto_[i] = upto_[i - 1] + freed(ends[i] - ends[i - 1]).front();
    }

    /// The share that was written before `era`, 0…1.
    double share_before(Instant era) const {
        if (!(upto_.back() > 0)) return 1;
        // What a gap that began before the era freed is old. Of a later gap, what lived from the era into it: over
        // neighbouring gaps that adds up to what the curve frees between their outer ends.
        const auto first = std::lower_bound(ends_.begin(), ends_.end(), era);
        if (first == ends_.end()) return 1;
        const double old = upto_[static_cast<std::size_t>(first - ends_.begin())] +
                           curve_.freed(days_between(era, ends_.back())) - curve_.freed(days_between(era, *first));
        return std::clamp(old / upto_.back(), 0.0, 1.0);
    }

private:
    const Curve& curve_;
    const std::vector<Instant>& ends_;
    std::vector<double> upto_;  // what all gaps up to each end freed
};

SpaceEra era_of(double day, PoolShape shape) {
    SpaceEra era;
    era.from_day = day;
    era.usable_bytes = capacity(shape).usable_bytes;
    era.shape = std::move(shape);
    return era;
}

SpaceEra era_of(double day, double usable_bytes) {
    SpaceEra era;
    era.from_day = day;
    era.usable_bytes = usable_bytes;
    return era;
}

}  // namespace

double SpaceEra::cost(const Dataset& dataset, double compression_ratio) const {
    return shape ? charge_per_stored_byte(*shape, dataset.block_size.value, compression_ratio) : 1.0;
}

std::size_t BoxSpace::index_at(double day) const {
    std::size_t k = 0;
    while (k + 1 < eras.size() && eras[k + 1].from_day <= day) ++k;
    return k;
}

const SpaceEra& BoxSpace::at(double day) const { return eras[index_at(day)]; }

std::vector<double> BoxSpace::usable_on(const std::vector<double>& days) const {
    std::vector<double> usable;
    usable.reserve(days.size());
    for (const double day : days) usable.push_back(at(day).usable_bytes);
    return usable;
}

std::vector<double> BoxSpace::ceiling_on(const std::vector<double>& days) const {
    auto bytes = usable_on(days);
    for (double& b : bytes) b *= ceiling;
    return bytes;
}

Charges BoxSpace::charges(const Dataset& dataset, const DatasetModel& model, const KeptSnapshots& kept,
                          Instant as_of, const std::vector<double>& days) const {
    std::vector<double> cost;
    cost.reserve(eras.size());
    for (const auto& era : eras) cost.push_back(era.cost(dataset, model.compression_ratio));
    if (std::all_of(cost.begin(), cost.end(), [&](double c) { return c == cost.front(); }))
        return Charges(cost.front());
    Charges charges(cost.front());
    FreedByGap freed({model.mean_curve});
    for (std::size_t i = 0; i < days.size(); ++i) {
        const double now = days[i];
        const std::size_t k = index_at(now);
        std::size_t first = 0;
        for (std::size_t e = 1; e <= k; ++e)
            if (eras[e].fresh || (!kept.home && eras[e].from_day <= kept.arrives_day)) first = e;
        const auto ends = kept.gap_ends(i, add_days(as_of, now));
        std::optional<HeldAges> ages;  // made if needed
        double live = cost[k];
        double held = cost[k];
        for (std::size_t e = first + 1; e <= k; ++e) {
            if (cost[e] == cost[e - 1]) continue;
            live += live_before(model, eras[e].from_day, now) * (cost[e - 1] - cost[e]);
            if (!ages) ages.emplace(model.mean_curve, freed, ends);
            held += ages->share_before(add_days(as_of, eras[e].from_day)) * (cost[e - 1] - cost[e]);
        }
        charges.live.push_back(live);
        charges.held.push_back(held);
    }
    return charges;
}

tl::expected<BoxSpace, std::string> BoxSpace::with(const Offer& offer, double day) const {
    BoxSpace space;
    space.ceiling = ceiling;
    for (const auto& era : eras)
        if (space.eras.empty() || era.from_day <= day) space.eras.push_back(era);
    const SpaceEra& before = space.eras.back();
    const bool added = offer.as == Offer::As::added;
    SpaceEra era;
    if (offer.pool) {
        if (added && !before.shape)
            return tl::make_unexpected(std::string("drives can only be added to a box with a pool"));
        auto shape = added ? with_pool(*before.shape, *offer.pool) : shape_of(*offer.pool);
        if (!shape) return tl::make_unexpected(shape.error());
        era = era_of(day, *std::move(shape));
    } else {
        era = era_of(day, offer.usable->value.value + (added ? before.usable_bytes : 0));
    }
    era.fresh = !added;
    space.eras.push_back(std::move(era));
    return space;
}

tl::expected<BoxSpace, Problem> space_of(const Box& box, Day as_of, const std::string& at) {
    BoxSpace space;
    space.ceiling = box.ceiling;
    if (!box.pool) {
        space.eras.push_back(era_of(0, box.usable ? box.usable->value.value : 0));
    } else {
        auto shape = shape_of(*box.pool);
        if (!shape) return tl::make_unexpected(Problem{at + "/pool", shape.error()});
        space.eras.push_back(era_of(0, *std::move(shape)));
    }
    std::vector<std::size_t> order(box.changes.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return box.changes[a].on < box.changes[b].on; });
    for (const std::size_t i : order) {
        const BoxChange& change = box.changes[i];
        const double day = days_between(as_of, change.on);
        const SpaceEra& before = space.eras.back();
        if (change.kind == BoxChange::Kind::resize) {
            space.eras.push_back(era_of(day, change.usable.value.value));
        } else {
            if (!before.shape)
                return tl::make_unexpected(
                    Problem{fmt::format("{}/changes/{}", at, i), "the box has no pool to change"});
            auto shape = changed(*before.shape, change);
            if (!shape)
                return tl::make_unexpected(Problem{fmt::format("{}/changes/{}", at, i), shape.error()});
            space.eras.push_back(era_of(day, *std::move(shape)));
        }
        space.eras.back().change = change;
    }
    return space;
}

std::vector<double> change_days(const Site& site) {
    std::vector<double> days;
    for (const auto& box : site.boxes)
        for (const auto& change : box.changes) {
            const double day = days_between(site.as_of, change.on);
            if (day > 0) days.push_back(day);
        }
    return days;
}

}  // namespace ullage
