// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/paths.h"

#include "core/outlook/dataset_draw.h"
#include "core/outlook/held_profiles.h"
#include "core/outlook/threads.h"
#include "core/units/lanes.h"
#include "core/units/large_array.h"
#include "core/units/row_sums.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace ullage {

namespace {

constexpr double daily_days = 60;         // each day at first, where answers are given in days
constexpr double soonest_day = 1e-3;      // of an event that is yet to come

/// Room to draw a block in.
struct PathRoom {
    BlockDraw draw;
    Rows<float> shapes;       // [shape of a profile's gaps × block_paths + lane]: bytes each holds
    Rows<float> held, young;  // [time × block_paths + lane]; young: by the wander alone
};

/// Where a part's bytes go, and what a stored byte of it takes there at each time.
struct Target {
    PathTable* used = nullptr;
    PathTable* live = nullptr;  // null: not told apart …
    PathTable* held = nullptr;  // … nor this
    std::vector<float> live_charge, held_charge;
    std::size_t from_time = 0;  // before which nothing has arrived
};

class PathDrawer {
public:
    PathDrawer(const std::vector<DatasetModel>& models, const PathsPlan& plan, const HeldProfiles& profiles, Paths& out)
        : models_(models), plan_(plan), out_(out), profiles_(profiles.all), profiles_of_(models.size()),
          datasets_(models, plan, profiles, out.drawn) {
        out_.edges = profiles.edges;
        for (std::size_t q = 0; q < profiles_.size(); ++q) {
            profiles_of_[std::size_t(profiles_[q].dataset)].push_back(q);
            set_targets(profiles_[q]);
        }
    }

    void draw_block(std::size_t block, PathRoom& room) const {
        const std::size_t first = block * block_paths;
        const std::size_t n = std::min<std::size_t>(block_paths, out_.paths - first);
        start(out_.used, block, plan_.other_bytes);
        start(out_.offer_used, block, plan_.offer_other_bytes);
        start(out_.live, block, {});
        start(out_.held, block, {});
        for (std::size_t d = 0; d < models_.size(); ++d) {
            datasets_.draw(d, block, n, room.draw);
            for (const std::size_t q : profiles_of_[d]) add_profile(q, room, block);
            add_probes(d, room.draw, first);
            for (std::size_t lane = 0; lane < n && first + lane < out_.samples.size(); ++lane)
                out_.samples[first + lane][d] = datasets_.sample(d, room.draw, block, lane);
        }
    }

private:
    /// Every table's block begins with what `from` says of it, or with nothing.
    static void start(std::vector<PathTable>& tables, std::size_t block, const std::vector<double>& from) {
        for (std::size_t b = 0; b < tables.size(); ++b)
            if (block < tables[b].blocks())
                std::fill_n(tables[b].block(block), tables[b].times() * block_paths,
                            from.empty() ? 0.0F : static_cast<float>(from[b]));
    }

    void add_probes(std::size_t d, const BlockDraw& draw, std::size_t first) const {
        for (std::size_t q = 0; q < plan_.probes.size(); ++q) {
            const auto& probe = plan_.probes[q];
            if (std::find(probe.datasets.begin(), probe.datasets.end(), static_cast<int>(d)) == probe.datasets.end()) continue;
            DoubleLanes live;
            datasets_.live(d, draw, probe.day, place_on(plan_.days, probe.day), live);
            for (std::size_t lane = 0; lane < draw.n; ++lane) out_.probes[q][first + lane] += live[lane];
        }
    }

    /// The share of a part that has arrived at time i: below 1 nothing of it holds snapshots yet.
    double present(const KeptSnapshots& kept, std::size_t i) const {
        const double now = plan_.days[i];
        if (kept.home || now >= kept.arrives_day) return 1;
        if (!kept.ramps || now <= kept.ramp_from_day) return 0;
        return (now - kept.ramp_from_day) / (kept.arrives_day - kept.ramp_from_day);
    }

    /// Bytes that `remove` and `rewrite` freed and a retained snapshot still holds.
    void hold_events(const HeldProfile& profile, const BlockDraw& draw, std::size_t i, double listed_until,
                     FloatLanes& held) const {
        const auto& m = models_[std::size_t(profile.dataset)];
        for (std::size_t e = 0; e < m.events.size(); ++e) {
            const auto kind = m.events[e].kind;
            if (kind != Event::Kind::remove && kind != Event::Kind::rewrite) continue;
            for (std::size_t lane = 0; lane < block_paths; ++lane) {
                const double on = draw.event_day[e * block_paths + lane];
                if (on <= listed_until) continue;  // a listing has counted what it freed
                if (profile.oldest[i] < on && on <= profile.newest[i])
                    held[lane] += static_cast<float>(draw.event_bytes[e * block_paths + lane]);
            }
        }
    }

    /// What the gaps hold at each time from `from` on, if churn were `churn`.
    void sum_gaps(const HeldKernel& k, std::size_t curve, std::size_t from, const Rows<float>& churn, Rows<float>& shapes,
                  Rows<float>& held) const {
        const auto& length_of = k.layout->length_of;
        shapes.resize(length_of.size() * block_paths);
        held.resize(out_.times * block_paths);
        sum_rows(k.layout->churn, 0, length_of.size(), churn.data(), shapes.data());
        scale_rows(length_of.data(), length_of.size(), k.freed[curve].data(), shapes.data());
        sum_rows(k.layout->shapes, from, out_.times, shapes.data(), held.data());
    }

    void add_profile(std::size_t q, PathRoom& room, std::size_t block) const {
        const BlockDraw& draw = room.draw;
        const HeldProfile& profile = profiles_[q];
        const auto& known = models_[std::size_t(profile.dataset)].known;
        const double listed_until = known.taken.empty() ? -std::numeric_limits<double>::infinity()
                                                        : days_between(plan_.as_of, known.taken.back());
        const auto& targets = targets_[q];
        std::size_t from = out_.times;
        for (const Target& target : targets) from = std::min(from, target.from_time);
        const HeldKernel& kernel = profile.kernel;
        sum_gaps(kernel, draw.curve, from, draw.churn, room.shapes, room.held);
        const bool wanders = !draw.wander.empty();
        if (wanders) sum_gaps(kernel, draw.curve, from, draw.wander, room.shapes, room.young);
        FloatLanes held;
        DoubleLanes live;
        for (std::size_t i = from; i < out_.times; ++i) {
            std::copy_n(&room.held[i * block_paths], block_paths, held.begin());
            if (wanders)
                for (std::size_t lane = 0; lane < block_paths; ++lane)
                    held[lane] += kernel.young[i] * room.young[i * block_paths + lane];
            if (!kernel.known.empty())
                for (float& bytes : held) bytes += static_cast<float>(kernel.known[draw.curve][i]);
            hold_events(profile, draw, i, listed_until, held);
            datasets_.live(std::size_t(profile.dataset), draw, profile.newest[i], profile.newest_place[i], live);
            for (const Target& target : targets)
                if (i >= target.from_time) add_to(target, i, live, held, block);
        }
    }

    static void add_to(const Target& target, std::size_t i, const DoubleLanes& live, const FloatLanes& held,
                       std::size_t block) {
        const std::size_t at = i * block_paths;
        float* used = target.used->block(block) + at;
        if (target.live && block < target.live->blocks())
            add_charged(live, target.live_charge[i], held, target.held_charge[i], used,
                        target.live->block(block) + at, target.held->block(block) + at);
        else
            add_charged(live, target.live_charge[i], held, target.held_charge[i], used);
    }

    void set_targets(const HeldProfile& profile) {
        auto& targets = targets_.emplace_back();
        for (const std::size_t p : profile.parts) {
            const auto& part = plan_.parts[p];
            if (part.box >= 0) {
                const auto b = std::size_t(part.box);
                targets.push_back(target_of(part, part.charges, out_.used[b]));
                targets.back().live = &out_.live[b];
                targets.back().held = &out_.held[b];
            }
            for (const auto& offer : part.offers)
                targets.push_back(target_of(part, offer.charges, out_.offer_used[std::size_t(offer.offer)]));
        }
    }

    Target target_of(const BoxPart& part, const Charges& charges, PathTable& used) const {
        Target target;
        target.used = &used;
        for (std::size_t i = 0; i < out_.times; ++i) {
            const double share = present(part.kept, i);
            if (share <= 0) target.from_time = i + 1;
            target.live_charge.push_back(static_cast<float>(charges.of_live(i) * share));
            target.held_charge.push_back(share < 1 ? 0.0F : static_cast<float>(charges.of_held(i)));
        }
        return target;
    }

    const std::vector<DatasetModel>& models_;
    const PathsPlan& plan_;
    Paths& out_;
    const std::vector<HeldProfile>& profiles_;
    std::vector<std::vector<std::size_t>> profiles_of_; // per dataset, of these
    std::vector<std::vector<Target>> targets_;          // per profile
    DatasetDrawer datasets_;
};

/// All tables in one room, `parted` paths of live and held.
void set_tables(Paths& out, std::size_t boxes, std::size_t offers, std::size_t parted) {
    const std::size_t whole = PathTable::size_of(out.paths, out.times);
    const std::size_t part = PathTable::size_of(parted, out.times);
    const std::shared_ptr<float[]> room(large_array<float>(boxes * (whole + 2 * part) + offers * whole));
    std::size_t at = 0;
    const auto add = [&](std::vector<PathTable>& tables, std::size_t count, std::size_t paths, std::size_t size) {
        for (std::size_t k = 0; k < count; ++k, at += size)
            tables.emplace_back(paths, out.times, std::shared_ptr<float[]>(room, room.get() + at));
    };
    add(out.used, boxes, out.paths, whole);
    add(out.live, boxes, parted, part);
    add(out.held, boxes, parted, part);
    add(out.offer_used, offers, out.paths, whole);
}

void make_room(std::vector<DrawnInputs>& drawn, const std::vector<DatasetModel>& models,
               const PathsPlan& plan) {
    const auto paths = static_cast<std::size_t>(plan.paths);
    const std::vector<float> empty(paths, 0.0F);
    for (const auto& m : models) {
        auto& d = drawn.emplace_back();
        d.level = d.live_factor = empty;
        d.curve.assign(paths, 0);
        d.growth.assign(plan.growth_days.size(), empty);
        d.event_day.assign(m.events.size(), empty);
        d.event_bytes.assign(m.events.size(), empty);
    }
}

}  // namespace

double log_normal(double cv, double z) {
    if (cv <= 0) return 1;
    const double variance = std::log1p(cv * cv);
    return std::exp(std::sqrt(variance) * z - variance / 2);
}

double event_bytes(const EventModel& event, double z) {
    return std::max(0.0, event.bytes * (1 + event.spread * z));
}

double event_day(const EventModel& event, double z) {
    // What is planned is yet to come, whatever is drawn; what has been is over.
    return event.day > 0 ? std::max(soonest_day, event.day + event.day_spread * z) : event.day;
}

std::vector<double> time_grid(double horizon_days, const std::vector<double>& event_days) {
    std::vector<double> days;
    for (double d = 0; d < std::min(daily_days, horizon_days); d += 1) days.push_back(d);
    for (double d = daily_days; d < horizon_days; d += days_per_week) days.push_back(d);
    for (const double e : event_days)
        for (const double d : {e - 1, e, e + 1, e + 2})
            if (d > 0 && d < horizon_days) days.push_back(std::floor(d));
    days.push_back(horizon_days);
    std::sort(days.begin(), days.end());
    days.erase(std::unique(days.begin(), days.end()), days.end());
    return days;
}

GridPlace place_on(const std::vector<double>& days, double day) {
    const auto after = std::upper_bound(days.begin(), days.end(), day);
    const auto i = std::clamp<std::size_t>(static_cast<std::size_t>(after - days.begin()), 1, days.size() - 1);
    return {i, std::clamp((day - days[i - 1]) / (days[i] - days[i - 1]), 0.0, 1.0)};
}

std::optional<Paths> draw_paths(const std::vector<DatasetModel>& models, const PathsPlan& plan,
                                const Progress& progress, double progress_from, double progress_to) {
    return draw_paths(models, plan, held_profiles(models, plan), progress, progress_from, progress_to);
}

std::optional<Paths> draw_paths(const std::vector<DatasetModel>& models, const PathsPlan& plan,
                                const HeldProfiles& profiles, const Progress& progress, double progress_from,
                                double progress_to) {
    Paths out;
    out.paths = static_cast<std::size_t>(plan.paths);
    out.times = plan.days.size();
    const auto parted = static_cast<std::size_t>(std::min(plan.paths, plan.most_parted));
    set_tables(out, static_cast<std::size_t>(plan.boxes), static_cast<std::size_t>(plan.offers), parted);
    out.probes.assign(plan.probes.size(), std::vector<double>(out.paths, 0));
    out.samples.assign(std::size_t(std::min(plan.samples, plan.paths)),
                       std::vector<DatasetPath>(models.size()));
    if (plan.set.empty()) make_room(out.drawn, models, plan);
    const PathDrawer drawer(models, plan, profiles, out);
    PerThread<PathRoom> rooms;

    const std::size_t blocks = (out.paths + block_paths - 1) / block_paths;
    const bool all = side_by_side_told(plan.threads, blocks, std::max<std::size_t>(blocks / 20, 32), progress, progress_from,
                                       progress_to, [&](std::size_t block) { drawer.draw_block(block, rooms.local()); });
    if (!all) return {};
    return out;
}

std::optional<double> first_passage(const std::vector<double>& days, const float* level,
                                    std::size_t stride, double limit) {
    return first_passage(days, level, stride, std::vector<double>(days.size(), limit));
}

std::optional<double> first_passage(const std::vector<double>& days, const float* level,
                                    std::size_t stride, const std::vector<double>& limits) {
    if (level[0] >= limits[0]) return 0;
    for (std::size_t i = 1; i < days.size(); ++i) {
        const double here = level[i * stride];
        const double limit = limits[i - 1];
        if (here >= limit) {
            const double before = level[(i - 1) * stride];
            const double day =
                days[i - 1] + (days[i] - days[i - 1]) * (limit - before) / (here - before);
            // A hundredth of a day of rounding must not cost a day.
            const double reached = std::ceil(day - 0.01);
            // On the day of a change the new limit counts.
            if (limit == limits[i] || reached < days[i]) return reached;
        }
        if (here >= limits[i]) return days[i];
    }
    return {};
}

}  // namespace ullage
