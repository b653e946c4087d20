// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/paths.h"

#include "core/outlook/growth_rows.h"
#include "core/outlook/held_profiles.h"
#include "core/outlook/interval_lanes.h"
#include "core/outlook/threads.h"
#include "core/units/lanes.h"
#include "core/units/large_array.h"
#include "core/units/row_sums.h"
#include "core/units/sobol.h"

#include <algorithm>
#include <boost/align/aligned_allocator.hpp>
#include <cmath>
#include <limits>

namespace ullage {

namespace {

constexpr double daily_days = 60;         // each day at first, where answers are given in days
constexpr double least_live_share = 0.05; // of today's, when going back in time
constexpr double soonest_day = 1e-3;      // of an event that is yet to come
constexpr double wander_returns_days = 60;

// Coordinates of a dataset's point: two of each event from own_events on, then those of a measured growth's rate.
enum Coordinate : std::size_t { own_growth, own_churn, own_live, own_events };
enum Stream : std::uint32_t { stream_growth, stream_live, stream_churn, stream_wander, streams };

std::size_t coordinates_of(const DatasetModel& m) {
    return own_events + 2 * m.events.size() + (m.growth ? growth_rate_numbers : 0);
}

std::uint32_t stream_of(int dataset, Stream s) {
    return static_cast<std::uint32_t>(dataset) * streams + s;
}

using Lanes = DoubleLanes;
static_assert(block_paths == lanes);

/// Room for rows of lanes, each in a line of the cache.
template <class T>
using Rows = std::vector<T, boost::alignment::aligned_allocator<T, lanes * sizeof(float)>>;

/// One dataset over one block of paths.
struct BlockDraw {
    std::size_t n = 0;                       // paths of the block
    std::size_t curve = 0;
    Rows<double> live;                       // [time × block_paths + lane], events left out
    Rows<float> churn;                       // [interval × block_paths + lane]
    Rows<float> wander;                      // the same: what to add to it for what dies young
    std::vector<double> event_day, event_bytes;  // [event × block_paths + lane]
    std::vector<double> added;               // growth of one path, per time
    Rows<float> shapes, young;               // [shape of a profile's gaps × block_paths + lane]: bytes each holds
    Rows<float> held;                        // [time × block_paths + lane]
};

/// One kind of noise of a block of a dataset's paths: standard normal numbers of each interval, four to a draw.
class Noise {
public:
    Noise(std::uint64_t seed, std::uint32_t stream, std::uint32_t first_path)
        : seed_(seed), stream_(stream), first_path_(first_path) {}

    /// `interval`: counted from as_of, before it negative. Neighbours are best asked for one after another.
    void draw(std::ptrdiff_t interval, FloatLanes& z) {
        const std::ptrdiff_t draw = interval >> 2;
        if (draw != drawn_) draw_words(seed_, stream_, first_path_, static_cast<std::uint32_t>(draw), words_);
        drawn_ = draw;
        normal_of(words_[std::size_t(interval & 3)], z);
    }

private:
    std::uint64_t seed_;
    std::uint32_t stream_, first_path_;
    std::ptrdiff_t drawn_ = std::numeric_limits<std::ptrdiff_t>::max();
    WordLanes words_{};
};

/// What the noise of one dataset's intervals is made of, and where they lie.
struct NoiseScales {
    std::vector<float> churn_sd, churn_shift;  // per interval from as_of: exp(sd z − shift)
    std::vector<float> wander_step;            // per interval
    float wander_shift = 0;
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
        : models_(models), plan_(plan), out_(out), edges_(profiles.edges), past_(profiles.past),
          profiles_(profiles.all), rising_(profiles.rising),
          profiles_of_(models.size()), points_(plan.seed, plan.set.empty() ? set_coordinates() : 0) {
        out_.edges = edges_;
        for (const double day : plan.growth_days) growth_places_.push_back(place_on(plan.days, day));
        for (std::size_t q = 0; q < profiles_.size(); ++q) {
            profiles_of_[std::size_t(profiles_[q].dataset)].push_back(q);
            set_targets(profiles_[q]);
        }
        for (std::size_t j = 0; j + 1 < edges_.size(); ++j) {
            const double keep = j == 0 ? 0 : std::exp(-(edges_[j + 1] - edges_[j]) / wander_returns_days);
            wander_keep_.push_back(static_cast<float>(keep));
            wander_step_.push_back(static_cast<float>(std::sqrt(1 - keep * keep)));
        }
        for (const auto& m : models) {
            middle_growth_.push_back(m.growth && plan.set.empty() ? growth_rows(*m.growth, plan.days)->middle
                                                                  : std::vector<double>());
            noise_.push_back(scales_of(m));
        }
    }

    /// `draw`: room to work in.
    void draw_block(std::size_t block, BlockDraw& draw) const {
        const std::size_t first = block * block_paths;
        const std::size_t n = std::min<std::size_t>(block_paths, out_.paths - first);
        start(out_.used, block, plan_.other_bytes);
        start(out_.offer_used, block, plan_.offer_other_bytes);
        start(out_.live, block, {});
        start(out_.held, block, {});
        for (std::size_t d = 0; d < models_.size(); ++d) {
            draw_dataset(d, block, n, draw);
            for (const std::size_t q : profiles_of_[d]) add_profile(q, draw, block);
            add_probes(d, draw, first);
            for (std::size_t lane = 0; lane < n && first + lane < out_.samples.size(); ++lane)
                out_.samples[first + lane][d] = sample_of(d, draw, lane);
        }
    }

private:
    /// Which coordinates of a path's point are each dataset's, after one a dataset for its blocks' curves; how many
    /// there are.
    std::size_t set_coordinates() {
        std::size_t next = models_.size();
        for (const auto& m : models_) {
            first_coordinate_.push_back(next);
            next += coordinates_of(m);
        }
        return next;
    }

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
            Lanes live;
            live_lanes(d, draw, probe.day, place_on(plan_.days, probe.day), live);
            for (std::size_t lane = 0; lane < draw.n; ++lane) out_.probes[q][first + lane] += live[lane];
        }
    }

    NoiseScales scales_of(const DatasetModel& m) const {
        NoiseScales s;
        for (std::size_t j = past_; j + 1 < edges_.size(); ++j) {
            const double cv = m.day_variation / std::sqrt(edges_[j + 1] - edges_[j]);
            const double variance = std::log1p(cv * cv);
            s.churn_sd.push_back(static_cast<float>(std::sqrt(variance)));
            s.churn_shift.push_back(static_cast<float>(variance / 2));
        }
        const double wander = std::log1p(m.wander * m.wander);
        for (const float step : wander_step_) s.wander_step.push_back(static_cast<float>(std::sqrt(wander)) * step);
        s.wander_shift = static_cast<float>(wander / 2);
        return s;
    }

    void draw_dataset(std::size_t d, std::size_t block, std::size_t n, BlockDraw& draw) const {
        const auto& m = models_[d];
        const std::size_t first = block * block_paths;
        draw.n = n;
        draw.curve = plan_.set.empty() ? alternative(d, block) : std::size_t(plan_.set[first][d].curve);
        draw.live.resize(out_.times * block_paths);
        draw.churn.resize((edges_.size() - 1) * block_paths);
        draw.wander.resize(draw.churn.size());
        if (!plan_.set.empty() || m.wander <= 0) std::fill(draw.wander.begin(), draw.wander.end(), 0.0F);
        draw.event_day.assign(m.events.size() * block_paths, 0.0);
        draw.event_bytes.assign(m.events.size() * block_paths, 0.0);
        if (plan_.set.empty()) {
            draw_paths_of(d, static_cast<std::uint32_t>(first), draw);
            return;
        }
        // Those beyond n are copies, so that no lane is without numbers.
        for (std::size_t lane = 0; lane < block_paths; ++lane)
            set_path(d, plan_.set[first + std::min(lane, n - 1)][d], lane, draw);
    }

    void set_path(std::size_t d, const SetInputs& set, std::size_t lane, BlockDraw& draw) const {
        const auto& m = models_[d];
        for (std::size_t e = 0; e < m.events.size(); ++e) {
            draw.event_bytes[e * block_paths + lane] = set.event_bytes[e];
            draw.event_day[e * block_paths + lane] = set.event_day[e];
        }
        const double start = m.live_bytes * set.live_factor;
        for (std::size_t i = 0; i < plan_.days.size(); ++i)
            draw.live[i * block_paths + lane] = std::max(0.0, start + set.added[i]);
        for (std::size_t j = 0; j + 1 < edges_.size(); ++j) {
            const double middle = (edges_[j] + edges_[j + 1]) / 2;
            const double then = j < past_ ? live_then(start, set.rate, middle) : live_at(d, draw, middle, lane);
            draw.churn[j * block_paths + lane] = static_cast<float>(per_live_byte(m, set.level) * then);
        }
    }

    static double live_then(double start, double rate, double day) {
        return std::max(start + rate * day, least_live_share * start);
    }

    /// Churn goes with live: its level for each live byte.
    static double per_live_byte(const DatasetModel& m, double level) {
        return m.live_bytes > 0 ? level / m.live_bytes : 0;
    }

    /// Keeps what a path drew; each path has places of its own, so blocks need not wait for one another.
    void keep_inputs(std::size_t d, std::uint32_t path, std::size_t lane, const BlockDraw& draw, double level,
                     double live_factor) const {
        auto& kept = out_.drawn[d];
        kept.level[path] = static_cast<float>(level);
        kept.live_factor[path] = static_cast<float>(live_factor);
        kept.curve[path] = static_cast<int>(draw.curve);
        for (std::size_t g = 0; g < plan_.growth_days.size(); ++g) {
            const auto [i, part] = growth_places_[g];
            const double a = draw.live[(i - 1) * block_paths + lane];
            const double b = draw.live[i * block_paths + lane];
            kept.growth[g][path] = static_cast<float>(a + (b - a) * part - draw.live[lane]);
        }
        for (std::size_t e = 0; e < models_[d].events.size(); ++e) {
            kept.event_day[e][path] = static_cast<float>(draw.event_day[e * block_paths + lane]);
            kept.event_bytes[e][path] = static_cast<float>(draw.event_bytes[e * block_paths + lane]);
        }
    }

    /// Which of a dataset's curves a block draws: they are spread evenly over the blocks, from the one that holds least
    /// to the one that holds most.
    std::size_t alternative(std::size_t d, std::size_t block) const {
        std::array<std::uint32_t, lanes> words;
        points_.words(d, static_cast<std::uint32_t>(block / lanes * lanes), words);
        const auto& rising = rising_[d];
        return rising[std::size_t(std::uint64_t{words[block % lanes]} * rising.size() >> 32)];
    }

    /// All lanes of a block, those past the last path too.
    void draw_paths_of(std::size_t d, std::uint32_t first, BlockDraw& draw) const {
        const auto& m = models_[d];
        Lanes start, rate, level, factor;
        const auto normals = [&](std::size_t coordinate) {
            std::array<std::uint32_t, lanes> words;
            points_.words(first_coordinate_[d] + coordinate, first, words);
            FloatLanes z;
            normal_of(words, z);
            return z;
        };
        const FloatLanes of_growth = normals(own_growth), of_churn = normals(own_churn), of_live = normals(own_live);
        for (std::size_t lane = 0; lane < block_paths; ++lane) {
            rate[lane] = m.growth_per_day + m.growth_rate_sd * static_cast<double>(of_growth[lane]);
            level[lane] = log_normal(m.churn_spread, static_cast<double>(of_churn[lane]));
            factor[lane] = log_normal(m.live_spread, static_cast<double>(of_live[lane]));
            start[lane] = m.live_bytes * factor[lane];
            draw.live[lane] = start[lane];
        }
        for (std::size_t e = 0; e < m.events.size(); ++e) {
            const FloatLanes of_size = normals(own_events + 2 * e), of_day = normals(own_events + 2 * e + 1);
            for (std::size_t lane = 0; lane < block_paths; ++lane) {
                draw.event_bytes[e * block_paths + lane] = event_bytes(m.events[e], static_cast<double>(of_size[lane]));
                draw.event_day[e * block_paths + lane] = event_day(m.events[e], static_cast<double>(of_day[lane]));
            }
        }
        if (m.growth) draw_measured_growth(d, first, start, draw);
        draw_intervals(d, first, start, rate, level, draw);
        for (std::size_t lane = 0; lane < draw.n; ++lane)
            keep_inputs(d, first + static_cast<std::uint32_t>(lane), lane, draw, level[lane], factor[lane]);
    }

    void draw_measured_growth(std::size_t d, std::uint32_t first, const Lanes& start, BlockDraw& draw) const {
        const auto& m = models_[d];
        std::array<std::array<std::uint32_t, lanes>, growth_rate_numbers> words;
        for (std::size_t k = 0; k < growth_rate_numbers; ++k)
            points_.words(first_coordinate_[d] + own_events + 2 * m.events.size() + k, first, words[k]);
        std::array<std::uint32_t, growth_rate_numbers> given;
        for (std::size_t lane = 0; lane < block_paths; ++lane) {
            for (std::size_t k = 0; k < growth_rate_numbers; ++k) given[k] = words[k][lane];
            const std::uint32_t path = first + static_cast<std::uint32_t>(lane);
            RandomSequence random(plan_.seed, stream_of(int(d), stream_growth), path);
            draw_growth(*m.growth, static_cast<int>(path % growth_kinds), given, random, plan_.days, draw.added);
            stretch_growth(*m.growth, plan_.days, middle_growth_[d], draw.added);
            for (std::size_t i = 1; i < plan_.days.size(); ++i)
                draw.live[i * block_paths + lane] = std::max(0.0, start[lane] + draw.added[i]);
        }
    }

    /// Live from day to day where it is a walk, churn, and the wander of what dies young.
    void draw_intervals(std::size_t d, std::uint32_t first, const Lanes& start, const Lanes& rate,
                        const Lanes& level, BlockDraw& draw) const {
        const auto& m = models_[d];
        const NoiseScales& scales = noise_[d];
        const bool wanders = m.wander > 0;
        const bool varies = m.day_variation > 0;
        const bool walks = !m.growth && m.growth_noise > 0;
        Lanes per_live, then;
        for (std::size_t lane = 0; lane < block_paths; ++lane) per_live[lane] = per_live_byte(m, level[lane]);
        const auto noise_of = [&](Stream kind) { return Noise(plan_.seed, stream_of(int(d), kind), first); };
        Noise of_live = noise_of(stream_live), of_churn = noise_of(stream_churn), of_wander = noise_of(stream_wander);
        FloatLanes z{}, wander{};
        for (std::size_t j = 0; j + 1 < edges_.size(); ++j) {
            const bool ahead = j >= past_;
            const std::size_t i = j - past_;  // the interval's first time; of no use before as_of
            const auto interval = static_cast<std::ptrdiff_t>(i);
            const double middle = (edges_[j] + edges_[j + 1]) / 2;
            if (ahead) {
                double* here = &draw.live[i * block_paths];
                double* next = here + block_paths;
                const double days = edges_[j + 1] - edges_[j];
                if (walks) of_live.draw(interval, z);
                if (!m.growth) walk_live(here, rate, days, m.growth_noise * std::sqrt(days), z, next);
                middle_live(here, next, then);
                add_events(m, draw, middle, then);
            } else {
                live_before(start, rate, middle, least_live_share, then);
            }
            float* churn = &draw.churn[j * block_paths];
            if (ahead && varies) {
                of_churn.draw(interval, z);
                noisy_churn_of(per_live, then, scales.churn_sd[i], scales.churn_shift[i], z, churn);
            } else {
                churn_of(per_live, then, churn);
            }
            if (wanders) {
                of_wander.draw(interval, z);
                wander_of(wander_keep_[j], scales.wander_step[j], scales.wander_shift, z, churn, wander,
                          &draw.wander[j * block_paths]);
            }
        }
    }

    /// What has been added and taken away by a day, of all lanes.
    static void add_events(const DatasetModel& m, const BlockDraw& draw, double day, Lanes& live) {
        for (std::size_t e = 0; e < m.events.size(); ++e)
            for (std::size_t lane = 0; lane < block_paths; ++lane)
                live[lane] = with_event(m, draw, e, day, lane, live[lane]);
    }

    static double with_event(const DatasetModel& m, const BlockDraw& draw, std::size_t e, double day,
                             std::size_t lane, double live) {
        // What happened up to as_of is in today's live already.
        const double on = draw.event_day[e * block_paths + lane];
        if (on <= 0 || on > day) return live;
        const double bytes = draw.event_bytes[e * block_paths + lane];
        if (m.events[e].kind == Event::Kind::add) return live + bytes;
        if (m.events[e].kind == Event::Kind::remove) return live - std::min(bytes, live);
        return live;
    }

    /// Live bytes of all lanes at a day, which lies at `place` if it is above 0: straight lines between the
    /// times, and the events so far.
    void live_lanes(std::size_t d, const BlockDraw& draw, double day, GridPlace place, Lanes& live) const {
        const auto& m = models_[d];
        if (day <= 0) {
            const double length = plan_.days.size() > 1 ? plan_.days[1] - plan_.days[0] : 0;
            for (std::size_t lane = 0; lane < block_paths; ++lane) {
                // Before as_of the data grew at its rate; the noise of the first day is not stretched back.
                const double slope =
                    m.growth_noise > 0 ? m.growth_per_day
                    : length > 0       ? (draw.live[block_paths + lane] - draw.live[lane]) / length
                                       : 0;
                live[lane] = live_then(draw.live[lane], slope, day);
            }
        } else {
            const double* after = &draw.live[place.next * block_paths];
            point_between(after - block_paths, after, place.part, live);
        }
        add_events(m, draw, day, live);
    }

    double live_at(std::size_t d, const BlockDraw& draw, double day, std::size_t lane) const {
        Lanes live;
        live_lanes(d, draw, day, place_on(plan_.days, day), live);
        return live[lane];
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

    /// Bytes held at each time from `from` on.
    void set_held(const HeldProfile& profile, std::size_t from, BlockDraw& draw) const {
        const HeldKernel& k = profile.kernel;
        const auto& shapes = k.layout->length_of;
        draw.shapes.resize(shapes.size() * block_paths);
        sum_rows(k.layout->churn, 0, shapes.size(), draw.churn.data(), draw.shapes.data());
        if (models_[std::size_t(profile.dataset)].wander > 0) {
            draw.young.resize(draw.shapes.size());
            sum_rows(k.layout->churn, 0, shapes.size(), draw.wander.data(), draw.young.data());
            add_rows(shapes.data(), shapes.size(), k.young.data(), draw.young.data(), draw.shapes.data());
        }
        scale_rows(shapes.data(), shapes.size(), k.freed[draw.curve].data(), draw.shapes.data());
        draw.held.resize(out_.times * block_paths);
        sum_rows(k.layout->shapes, from, out_.times, draw.shapes.data(), draw.held.data());
    }

    void add_profile(std::size_t q, BlockDraw& draw, std::size_t block) const {
        const HeldProfile& profile = profiles_[q];
        const auto& known = models_[std::size_t(profile.dataset)].known;
        const double listed_until = known.taken.empty() ? -std::numeric_limits<double>::infinity()
                                                        : days_between(plan_.as_of, known.taken.back());
        const auto& targets = targets_[q];
        std::size_t from = out_.times;
        for (const Target& target : targets) from = std::min(from, target.from_time);
        set_held(profile, from, draw);
        FloatLanes held;
        Lanes live;
        for (std::size_t i = from; i < out_.times; ++i) {
            std::copy_n(&draw.held[i * block_paths], block_paths, held.begin());
            if (!profile.kernel.known.empty())
                for (float& bytes : held) bytes += static_cast<float>(profile.kernel.known[draw.curve][i]);
            hold_events(profile, draw, i, listed_until, held);
            live_lanes(std::size_t(profile.dataset), draw, profile.newest[i], profile.newest_place[i], live);
            for (const Target& target : targets)
                if (i >= target.from_time) add_to(target, i, live, held, block);
        }
    }

    static void add_to(const Target& target, std::size_t i, const Lanes& live, const FloatLanes& held,
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

    DatasetPath sample_of(std::size_t d, const BlockDraw& draw, std::size_t lane) const {
        DatasetPath path;
        path.curve = static_cast<int>(draw.curve);
        for (std::size_t i = 0; i < out_.times; ++i) path.live.push_back(draw.live[i * block_paths + lane]);
        for (std::size_t j = 0; j + 1 < edges_.size(); ++j)
            path.churn.push_back(static_cast<double>(draw.churn[j * block_paths + lane]) +
                                 young_share(1) * static_cast<double>(draw.wander[j * block_paths + lane]));
        for (std::size_t e = 0; e < models_[d].events.size(); ++e)
            path.events.push_back({models_[d].events[e].kind, draw.event_day[e * block_paths + lane],
                                   draw.event_bytes[e * block_paths + lane]});
        return path;
    }

    const std::vector<DatasetModel>& models_;
    const PathsPlan& plan_;
    Paths& out_;
    const std::vector<double>& edges_;
    const std::size_t past_;                            // intervals before as_of
    const std::vector<HeldProfile>& profiles_;
    const std::vector<std::vector<std::size_t>>& rising_;
    std::vector<std::vector<std::size_t>> profiles_of_; // per dataset, of these
    std::vector<std::size_t> first_coordinate_;         // per dataset
    SobolPoints points_;                                // of paths that are drawn
    std::vector<GridPlace> growth_places_;              // of the plan's growth_days
    std::vector<std::vector<Target>> targets_;          // per profile
    std::vector<float> wander_keep_, wander_step_;      // per interval
    std::vector<NoiseScales> noise_;                    // per dataset
    std::vector<std::vector<double>> middle_growth_;    // per dataset: bytes added at each time
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
    PerThread<BlockDraw> rooms;

    const std::size_t blocks = (out.paths + block_paths - 1) / block_paths;
    // A round of blocks at a time, so that progress is told from the calling thread.
    const std::size_t round = progress.report ? std::max<std::size_t>(blocks / 20, 32) : blocks;
    for (std::size_t from = 0; from < blocks; from += round) {
        const std::size_t to = std::min(from + round, blocks);
        side_by_side(plan.threads, from, to, [&](std::size_t block) {
            if (!progress.stop.stop_requested()) drawer.draw_block(block, rooms.local());
        });
        if (progress.report)
            progress.report(progress_from +
                            (progress_to - progress_from) * double(to) / double(blocks));
    }
    if (progress.stop.stop_requested()) return {};
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
