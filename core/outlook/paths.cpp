// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/paths.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

namespace ullage {

namespace {

constexpr double daily_days = 60;         // each day at first, where answers are given in days
constexpr double least_live_share = 0.05; // of today's, when going back in time
constexpr double soonest_day = 1e-3;      // of an event that is yet to come
constexpr double young_days = 4;
constexpr double wander_returns_days = 60;
constexpr std::uint32_t alternatives_stream = 0x20000000u;

// Steps of a path's own stream; interval noise is counted from 0 in streams of its own.
enum Draw : std::uint32_t { own_growth, own_churn, own_live, own_events };
enum Stream : std::uint32_t { stream_path, stream_live, stream_churn, stream_wander, streams };

std::uint32_t stream_of(int dataset, Stream s) {
    return static_cast<std::uint32_t>(dataset) * streams + s;
}

/// Of what a gap frees, the share that follows the wander of what dies young.
double young_share(double gap_days) { return 1 / (1 + gap_days / young_days); }

/// For each time, a band of weights over the churn intervals: held = Σ weight × churn.
struct HeldKernel {
    std::vector<std::size_t> first, offset, count;  // per time
    std::vector<std::vector<double>> weights;       // per curve
    std::vector<std::vector<double>> known;         // per curve and time: bytes that no churn moves
    std::vector<double> young;                      // per time: share that follows the wander
};

/// Days from as_of.
double day_of(Instant as_of, Instant t) { return days_between(as_of, t); }

/// What the gap freed by the listing, per curve; empty if the listing does not hold both its ends.
std::vector<double> known_freed(const KnownPast& past, const std::vector<Curve>& curves, Instant from,
                                Instant to) {
    const auto a = std::lower_bound(past.taken.begin(), past.taken.end(), from);
    const auto b = std::lower_bound(a, past.taken.end(), to);
    if (a == past.taken.end() || b == past.taken.end() || *a != from || *b != to) return {};
    const auto first = static_cast<std::size_t>(a - past.taken.begin());
    const auto last = static_cast<std::size_t>(b - past.taken.begin());
    double sum = 0;
    for (std::size_t i = first + 1; i <= last; ++i) sum += past.freed[i];
    std::vector<double> bytes(curves.size(), sum);
    if (last == first + 1) return bytes;
    for (std::size_t c = 0; c < curves.size(); ++c) {
        double steps = 0;
        for (std::size_t i = first + 1; i <= last; ++i)
            steps += curves[c].freed(days_between(past.taken[i - 1], past.taken[i]));
        if (steps > 0) bytes[c] *= std::min(1.0, curves[c].freed(days_between(from, to)) / steps);
    }
    return bytes;
}

HeldKernel kernel_of(const BoxPart& part, const DatasetModel& model, const std::vector<double>& edges,
                     const PathsPlan& plan) {
    const auto& curves = model.curves;
    HeldKernel k;
    k.weights.resize(curves.size());
    k.known.assign(curves.size(), std::vector<double>(plan.days.size(), 0.0));
    std::map<std::int64_t, std::vector<double>> freed_by_gap;
    const auto freed = [&](Instant a, Instant b) -> const std::vector<double>& {
        const auto seconds = (b - a).count();
        const auto [it, is_new] = freed_by_gap.try_emplace(seconds);
        if (is_new)
            for (const auto& c : curves) it->second.push_back(c.freed(double(seconds) / seconds_per_day));
        return it->second;
    };
    for (std::size_t i = 0; i < plan.days.size(); ++i) {
        const auto& snapshots = part.kept.at[i];
        std::vector<Instant> ends = snapshots;
        if (part.kept.home && !snapshots.empty())
            ends.push_back(plan.as_of + std::chrono::seconds(std::llround(plan.days[i] * seconds_per_day)));
        k.offset.push_back(k.weights.front().size());
        if (ends.size() < 2) {
            k.first.push_back(0);
            k.count.push_back(0);
            k.young.push_back(0);
            continue;
        }
        const auto interval = [&](double day) {
            const auto it = std::upper_bound(edges.begin(), edges.end(), day);
            const auto at = std::max<std::ptrdiff_t>(it - edges.begin() - 1, 0);
            return std::min(static_cast<std::size_t>(at), edges.size() - 2);
        };
        const std::size_t first = interval(day_of(plan.as_of, ends.front()));
        const std::size_t last = interval(day_of(plan.as_of, ends.back()));
        k.first.push_back(first);
        k.count.push_back(last - first + 1);
        for (auto& w : k.weights) w.resize(w.size() + last - first + 1, 0.0);
        double all = 0;
        double young = 0;
        for (std::size_t g = 1; g < ends.size(); ++g) {
            if (ends[g] <= ends[g - 1]) continue;
            if (const auto known = known_freed(model.known, curves, ends[g - 1], ends[g]); !known.empty()) {
                for (std::size_t c = 0; c < curves.size(); ++c) k.known[c][i] += known[c];
                continue;
            }
            const double from = day_of(plan.as_of, ends[g - 1]);
            const double to = day_of(plan.as_of, ends[g]);
            const auto& bytes = freed(ends[g - 1], ends[g]);
            all += bytes.front();
            young += bytes.front() * young_share(to - from);
            for (std::size_t j = interval(from); j <= interval(to); ++j) {
                // What lies before the first edge counts into the first interval.
                const double a = j == 0 ? from : std::max(from, edges[j]);
                const double b = j + 2 == edges.size() ? to : std::min(to, edges[j + 1]);
                if (b <= a) continue;
                for (std::size_t c = 0; c < curves.size(); ++c)
                    k.weights[c][k.offset.back() + j - first] += bytes[c] * (b - a) / (to - from);
            }
        }
        k.young.push_back(all > 0 ? young / all : 0);
    }
    return k;
}

/// Days to which the kernels reach back, so that past churn has intervals.
double reach_back(const PathsPlan& plan) {
    double earliest = 0;
    for (const auto& part : plan.parts)
        for (const auto& at : part.kept.at)
            if (!at.empty()) earliest = std::min(earliest, day_of(plan.as_of, at.front()));
    return -earliest;
}

std::vector<double> churn_edges(const PathsPlan& plan) {
    std::vector<double> edges;
    const int weeks = static_cast<int>(std::ceil(reach_back(plan) / days_per_week));
    for (int w = weeks; w >= 1; --w) edges.push_back(-days_per_week * w);
    edges.insert(edges.end(), plan.days.begin(), plan.days.end());
    return edges;
}

/// One dataset over one block of paths.
struct BlockDraw {
    std::size_t n = 0;                       // paths of the block
    std::size_t curve = 0;
    std::vector<double> live;                // [time × block_paths + lane], events left out
    std::vector<double> churn;               // [interval × block_paths + lane]
    std::vector<double> wander;              // the same: what to add to it for what dies young
    std::vector<double> event_day, event_bytes;  // [event × block_paths + lane]
    std::vector<double> added;               // growth of one path, per time
};

class PathDrawer {
public:
    PathDrawer(const std::vector<DatasetModel>& models, const PathsPlan& plan, Paths& out)
        : models_(models), plan_(plan), out_(out), edges_(churn_edges(plan)) {
        past_ = edges_.size() - plan.days.size();
        out_.edges = edges_;
        for (const auto& m : models)
            middle_growth_.push_back(m.growth && plan.set.empty() ? middle_growth(*m.growth, plan.days)
                                                                  : std::vector<double>());
        for (const auto& part : plan.parts) {
            kernels_.push_back(kernel_of(part, models[std::size_t(part.dataset)], edges_, plan));
            auto& days = newest_.emplace_back();
            auto& oldest = oldest_.emplace_back();
            for (std::size_t i = 0; i < plan.days.size(); ++i) {
                const auto& at = part.kept.at[i];
                const double now = plan.days[i];
                days.push_back(part.kept.home ? now : at.empty() ? now : day_of(plan.as_of, at.back()));
                oldest.push_back(at.empty() ? now : day_of(plan.as_of, at.front()));
            }
        }
    }

    void draw_block(std::size_t block) {
        const std::size_t first = block * block_paths;
        std::vector<BlockDraw> draws;
        for (std::size_t d = 0; d < models_.size(); ++d) draws.push_back(draw_dataset(d, block));
        const std::size_t n = draws.empty() ? std::min<std::size_t>(block_paths, out_.paths - first)
                                            : draws.front().n;
        for (std::size_t b = 0; b < out_.used.size(); ++b)
            for (std::size_t i = 0; i < out_.times; ++i)
                std::fill_n(&out_.used[b][i * out_.paths + first], n,
                            static_cast<float>(plan_.other_bytes[b]));
        for (std::size_t o = 0; o < out_.offer_used.size(); ++o)
            for (std::size_t i = 0; i < out_.times; ++i)
                std::fill_n(&out_.offer_used[o][i * out_.paths + first], n,
                            static_cast<float>(plan_.offer_other_bytes[o]));
        for (std::size_t p = 0; p < plan_.parts.size(); ++p)
            add_part(p, draws[std::size_t(plan_.parts[p].dataset)], first);
        for (std::size_t q = 0; q < plan_.probes.size(); ++q)
            for (std::size_t lane = 0; lane < n; ++lane) {
                double sum = 0;
                for (const int d : plan_.probes[q].datasets)
                    sum += live_at(std::size_t(d), draws[std::size_t(d)], plan_.probes[q].day, lane);
                out_.probes[q][first + lane] = sum;
            }
        for (std::size_t lane = 0; lane < n && first + lane < out_.samples.size(); ++lane)
            for (std::size_t d = 0; d < models_.size(); ++d)
                out_.samples[first + lane][d] = sample_of(d, draws[d], lane);
    }

private:
    BlockDraw draw_dataset(std::size_t d, std::size_t block) const {
        const auto& m = models_[d];
        const std::size_t first = block * block_paths;
        BlockDraw draw;
        draw.n = std::min<std::size_t>(block_paths, out_.paths - first);
        draw.curve = plan_.set.empty() ? alternative(d, block) : std::size_t(plan_.set[first][d].curve);
        draw.live.resize(out_.times * block_paths);
        draw.churn.resize((edges_.size() - 1) * block_paths);
        draw.wander.resize(draw.churn.size());
        draw.event_day.resize(m.events.size() * block_paths);
        draw.event_bytes.resize(m.events.size() * block_paths);
        for (std::size_t lane = 0; lane < draw.n; ++lane)
            if (plan_.set.empty()) draw_path(d, static_cast<std::uint32_t>(first + lane), lane, draw);
            else set_path(d, plan_.set[first + lane][d], lane, draw);
        return draw;
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
        for (std::size_t j = 0; j + 1 < edges_.size(); ++j)
            draw.churn[j * block_paths + lane] = churn_of_live(d, draw, lane, j, start, set.rate, set.level);
    }

    /// The churn of an interval without noise: the level, as live was then.
    double churn_of_live(std::size_t d, const BlockDraw& draw, std::size_t lane, std::size_t interval,
                         double start, double rate, double level) const {
        const double middle = (edges_[interval] + edges_[interval + 1]) / 2;
        const double then = interval < past_ ? std::max(start + rate * middle, least_live_share * start)
                                             : live_at(d, draw, middle, lane);
        return models_[d].live_bytes > 0 ? level / models_[d].live_bytes * then : 0;
    }

    /// Keeps what a path drew; each path has places of its own, so blocks need not wait for one another.
    void keep_inputs(std::size_t d, std::uint32_t path, std::size_t lane, const BlockDraw& draw, double level,
                     double live_factor) const {
        auto& kept = out_.drawn[d];
        kept.level[path] = static_cast<float>(level);
        kept.live_factor[path] = static_cast<float>(live_factor);
        kept.curve[path] = static_cast<int>(draw.curve);
        for (std::size_t g = 0; g < plan_.growth_days.size(); ++g) {
            const auto [i, part] = place_on(plan_.days, plan_.growth_days[g]);
            const double a = draw.live[(i - 1) * block_paths + lane];
            const double b = draw.live[i * block_paths + lane];
            kept.growth[g][path] = static_cast<float>(a + (b - a) * part - draw.live[lane]);
        }
        for (std::size_t e = 0; e < models_[d].events.size(); ++e) {
            kept.event_day[e][path] = static_cast<float>(draw.event_day[e * block_paths + lane]);
            kept.event_bytes[e][path] = static_cast<float>(draw.event_bytes[e * block_paths + lane]);
        }
    }

    /// Which of a dataset's curves a block draws: each round of blocks goes through all of them, in an
    /// order of its own, so that none are tied to another dataset's.
    std::size_t alternative(std::size_t d, std::size_t block) const {
        const std::size_t n = models_[d].curves.size();
        std::vector<std::pair<double, std::size_t>> order;
        for (std::size_t c = 0; c < n; ++c)
            order.emplace_back(normal_number(plan_.seed, alternatives_stream + static_cast<std::uint32_t>(d),
                                             static_cast<std::uint32_t>(block / n),
                                             static_cast<std::uint32_t>(c)), c);
        std::sort(order.begin(), order.end());
        return order[block % n].second;
    }

    void draw_path(std::size_t d, std::uint32_t path, std::size_t lane, BlockDraw& draw) const {
        const auto& m = models_[d];
        const auto own = [&](std::uint32_t step) {
            return normal_pair(plan_.seed, stream_of(int(d), stream_path), path, step);
        };
        const double rate = m.growth_per_day + m.growth_rate_sd * own(own_growth).first;
        const double level = log_normal(m.churn_spread, own(own_churn).first);
        const double live_factor = log_normal(m.live_spread, own(own_live).first);
        const double start = m.live_bytes * live_factor;
        for (std::size_t e = 0; e < m.events.size(); ++e) {
            const auto z = own(own_events + static_cast<std::uint32_t>(e));
            draw.event_bytes[e * block_paths + lane] = event_bytes(m.events[e], z.first);
            draw.event_day[e * block_paths + lane] = event_day(m.events[e], z.second);
        }
        const auto& days = plan_.days;
        double live = start;
        draw.live[lane] = live;
        if (m.growth) {
            RandomSequence random(plan_.seed, stream_of(int(d), stream_live), path);
            auto& added = draw.added;
            draw_growth(*m.growth, static_cast<int>(path % growth_kinds), random, days, added);
            stretch_growth(*m.growth, days, middle_growth_[d], added);
            for (std::size_t i = 1; i < days.size(); ++i)
                draw.live[i * block_paths + lane] = std::max(0.0, start + added[i]);
        }
        for (std::size_t i = 1; i < days.size() && !m.growth; ++i) {
            const double dt = days[i] - days[i - 1];
            double step = rate * dt;
            if (m.growth_noise > 0)
                step += m.growth_noise * std::sqrt(dt) *
                        normal_pair(plan_.seed, stream_of(int(d), stream_live), path, std::uint32_t(i)).first;
            live = std::max(0.0, live + step);
            draw.live[i * block_paths + lane] = live;
        }
        keep_inputs(d, path, lane, draw, level, live_factor);
        const double wander_sd = std::sqrt(std::log1p(m.wander * m.wander));
        double wander = 0;
        for (std::size_t j = 0; j + 1 < edges_.size(); ++j) {
            double noise = 1;
            if (j >= past_ && m.day_variation > 0) {
                const double dt = edges_[j + 1] - edges_[j];
                noise = log_normal(
                    m.day_variation / std::sqrt(dt),
                    normal_pair(plan_.seed, stream_of(int(d), stream_churn), path, std::uint32_t(j - past_)).first);
            }
            draw.churn[j * block_paths + lane] =
                churn_of_live(d, draw, lane, j, start, rate, level) * noise;
            if (wander_sd <= 0) continue;
            const double z =
                normal_pair(plan_.seed, stream_of(int(d), stream_wander), path, std::uint32_t(j)).first;
            const double keep = j == 0 ? 0 : std::exp(-(edges_[j + 1] - edges_[j]) / wander_returns_days);
            wander = keep * wander + wander_sd * std::sqrt(1 - keep * keep) * z;
            draw.wander[j * block_paths + lane] = draw.churn[j * block_paths + lane] *
                                                  std::expm1(wander - wander_sd * wander_sd / 2);
        }
    }

    /// Live bytes of a lane at any day: straight lines between the times, and the events so far.
    double live_at(std::size_t d, const BlockDraw& draw, double day, std::size_t lane) const {
        const auto& days = plan_.days;
        double live;
        if (day <= 0) {
            const double slope = days.size() > 1 ? (draw.live[block_paths + lane] - draw.live[lane]) /
                                                       (days[1] - days[0]) : 0;
            // Before as_of the data grew at its rate; the noise of the first day is not stretched back.
            const double back = models_[d].growth_noise > 0 ? models_[d].growth_per_day : slope;
            live = std::max(draw.live[lane] + back * day, least_live_share * draw.live[lane]);
        } else {
            const auto [i, part] = place_on(days, day);
            const double a = draw.live[(i - 1) * block_paths + lane];
            live = a + (draw.live[i * block_paths + lane] - a) * part;
        }
        for (std::size_t e = 0; e < models_[d].events.size(); ++e) {
            // What happened up to as_of is in today's live already.
            const double on = draw.event_day[e * block_paths + lane];
            if (on <= 0 || on > day) continue;
            const double bytes = draw.event_bytes[e * block_paths + lane];
            if (models_[d].events[e].kind == Event::Kind::add) live += bytes;
            if (models_[d].events[e].kind == Event::Kind::remove) live -= std::min(bytes, live);
        }
        return live;
    }

    void add_part(std::size_t p, const BlockDraw& draw, std::size_t first) {
        const auto& part = plan_.parts[p];
        const auto& m = models_[std::size_t(part.dataset)];
        const auto& k = kernels_[p];
        const auto& weights = k.weights[draw.curve];
        std::array<double, block_paths> held{};
        const double listed_until = m.known.taken.empty() ? -std::numeric_limits<double>::infinity()
                                                          : day_of(plan_.as_of, m.known.taken.back());
        for (std::size_t i = 0; i < out_.times; ++i) {
            const double now = plan_.days[i];
            double present = 1;
            if (!part.kept.home && now < part.kept.arrives_day) {
                if (!part.kept.ramps || now <= part.kept.ramp_from_day) continue;
                present = (now - part.kept.ramp_from_day) /
                          (part.kept.arrives_day - part.kept.ramp_from_day);
            }
            held.fill(k.known[draw.curve][i]);
            const double* w = weights.data() + k.offset[i];
            const double* churn = draw.churn.data() + k.first[i] * block_paths;
            const double* wander = draw.wander.data() + k.first[i] * block_paths;
            const double young = m.wander > 0 ? k.young[i] : 0;
            for (std::size_t j = 0; j < k.count[i]; ++j)
                for (std::size_t lane = 0; lane < block_paths; ++lane)
                    held[lane] += w[j] * (churn[j * block_paths + lane] + young * wander[j * block_paths + lane]);
            for (std::size_t lane = 0; lane < draw.n; ++lane) {
                double kept = held[lane];
                for (std::size_t e = 0; e < m.events.size(); ++e) {
                    const auto kind = m.events[e].kind;
                    if (kind != Event::Kind::remove && kind != Event::Kind::rewrite) continue;
                    const double on = draw.event_day[e * block_paths + lane];
                    if (on <= listed_until) continue;  // a listing has counted what it freed
                    if (oldest_[p][i] < on && on <= newest_[p][i])
                        kept += draw.event_bytes[e * block_paths + lane];
                }
                const double live =
                    live_at(std::size_t(part.dataset), draw, newest_[p][i], lane) * present;
                const double holds = present < 1 ? 0 : kept;
                const std::size_t at = i * out_.paths + first + lane;
                if (part.box >= 0) {
                    const auto b = std::size_t(part.box);
                    const double live_bytes = live * part.charges.of_live(i);
                    const double held_bytes = holds * part.charges.of_held(i);
                    out_.live[b][at] += static_cast<float>(live_bytes);
                    out_.held[b][at] += static_cast<float>(held_bytes);
                    out_.used[b][at] += static_cast<float>(live_bytes + held_bytes);
                }
                for (const auto& offer : part.offers)
                    out_.offer_used[std::size_t(offer.offer)][at] += static_cast<float>(
                        live * offer.charges.of_live(i) + holds * offer.charges.of_held(i));
            }
        }
    }

    DatasetPath sample_of(std::size_t d, const BlockDraw& draw, std::size_t lane) const {
        DatasetPath path;
        path.curve = static_cast<int>(draw.curve);
        for (std::size_t i = 0; i < out_.times; ++i) path.live.push_back(draw.live[i * block_paths + lane]);
        for (std::size_t j = 0; j + 1 < edges_.size(); ++j)
            path.churn.push_back(draw.churn[j * block_paths + lane] +
                                 young_share(1) * draw.wander[j * block_paths + lane]);
        for (std::size_t e = 0; e < models_[d].events.size(); ++e)
            path.events.push_back({models_[d].events[e].kind, draw.event_day[e * block_paths + lane],
                                   draw.event_bytes[e * block_paths + lane]});
        return path;
    }

    const std::vector<DatasetModel>& models_;
    const PathsPlan& plan_;
    Paths& out_;
    std::vector<double> edges_;
    std::size_t past_ = 0;
    std::vector<std::vector<double>> middle_growth_;    // per dataset: bytes added at each time
    std::vector<HeldKernel> kernels_;                   // per part
    std::vector<std::vector<double>> newest_, oldest_;  // per part and time: days of the retained ends
};

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
    const auto i = std::min(static_cast<std::size_t>(after - days.begin()), days.size() - 1);
    return {i, std::clamp((day - days[i - 1]) / (days[i] - days[i - 1]), 0.0, 1.0)};
}

std::optional<Paths> draw_paths(const std::vector<DatasetModel>& models, const PathsPlan& plan,
                                const Progress& progress, double progress_from, double progress_to) {
    Paths out;
    out.paths = static_cast<std::size_t>(plan.paths);
    out.times = plan.days.size();
    const std::vector<float> empty(out.paths * out.times, 0.0F);
    out.used.assign(std::size_t(plan.boxes), empty);
    out.live.assign(std::size_t(plan.boxes), empty);
    out.held.assign(std::size_t(plan.boxes), empty);
    out.offer_used.assign(std::size_t(plan.offers), empty);
    out.probes.assign(plan.probes.size(), std::vector<double>(out.paths, 0));
    out.samples.assign(std::size_t(std::min(plan.samples, plan.paths)),
                       std::vector<DatasetPath>(models.size()));
    if (plan.set.empty()) make_room(out.drawn, models, plan);
    PathDrawer drawer(models, plan, out);

    const std::size_t blocks = (out.paths + block_paths - 1) / block_paths;
    // A round of blocks at a time, so that progress is told from the calling thread and a stop is seen.
    const std::size_t round = std::max<std::size_t>(blocks / 20, 8);
    tbb::task_arena arena(plan.threads > 0 ? plan.threads : tbb::task_arena::automatic);
    for (std::size_t from = 0; from < blocks; from += round) {
        if (progress.stop.stop_requested()) return {};
        const std::size_t to = std::min(from + round, blocks);
        arena.execute([&] {
            tbb::parallel_for(tbb::blocked_range<std::size_t>(from, to), [&](const auto& range) {
                for (std::size_t b = range.begin(); b != range.end(); ++b)
                    if (!progress.stop.stop_requested()) drawer.draw_block(b);
            });
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
