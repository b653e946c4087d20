// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/dataset_draw.h"

#include "core/outlook/growth_rows.h"
#include "core/outlook/interval_lanes.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace ullage {

namespace {

using Lanes = DoubleLanes;

constexpr double least_live_share = 0.05; // of today's, when going back in time
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

double live_then(double start, double rate, double day) {
    return std::max(start + rate * day, least_live_share * start);
}

/// Churn goes with live: its level for each live byte.
double per_live_byte(const DatasetModel& m, double level) {
    return m.live_bytes > 0 ? level / m.live_bytes : 0;
}

double with_event(const DatasetModel& m, const BlockDraw& draw, std::size_t e, double day, std::size_t lane,
                  double live) {
    // What happened up to as_of is in today's live already.
    const double on = draw.event_day[e * block_paths + lane];
    if (on <= 0 || on > day) return live;
    const double bytes = draw.event_bytes[e * block_paths + lane];
    if (m.events[e].kind == Event::Kind::add) return live + bytes;
    if (m.events[e].kind == Event::Kind::remove) return live - std::min(bytes, live);
    return live;
}

/// What has been added and taken away by a day, of all lanes.
void add_events(const DatasetModel& m, const BlockDraw& draw, double day, Lanes& live) {
    for (std::size_t e = 0; e < m.events.size(); ++e)
        for (std::size_t lane = 0; lane < block_paths; ++lane)
            live[lane] = with_event(m, draw, e, day, lane, live[lane]);
}

}  // namespace

DatasetDrawer::DatasetDrawer(const std::vector<DatasetModel>& models, const PathsPlan& plan, const HeldProfiles& profiles,
                             std::vector<DrawnInputs>& drawn)
    : models_(models), plan_(plan), edges_(profiles.edges), past_(profiles.past), rising_(profiles.rising), drawn_(drawn),
      points_(plan.seed, plan.set.empty() ? set_coordinates() : 0) {
    for (const double day : plan.growth_days) growth_places_.push_back(place_on(plan.days, day));
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

/// Which coordinates of a path's point are each dataset's, after one a dataset for its blocks' curves; how many
/// there are.
std::size_t DatasetDrawer::set_coordinates() {
    std::size_t next = models_.size();
    for (const auto& m : models_) {
        first_coordinate_.push_back(next);
        next += coordinates_of(m);
    }
    return next;
}

DatasetDrawer::NoiseScales DatasetDrawer::scales_of(const DatasetModel& m) const {
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

void DatasetDrawer::draw(std::size_t d, std::size_t block, std::size_t n, BlockDraw& draw) const {
    const auto& m = models_[d];
    const std::size_t first = block * block_paths;
    draw.n = n;
    draw.curve = plan_.set.empty() ? curve_of(d, block) : std::size_t(plan_.set[first][d].curve);
    draw.live.resize(plan_.days.size() * block_paths);
    draw.churn.resize((edges_.size() - 1) * block_paths);
    draw.wander.resize(plan_.set.empty() && m.wander > 0 ? draw.churn.size() : 0);
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

void DatasetDrawer::set_path(std::size_t d, const SetInputs& set, std::size_t lane, BlockDraw& draw) const {
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

/// Keeps what a path drew; each path has places of its own, so blocks need not wait for one another.
void DatasetDrawer::keep_inputs(std::size_t d, std::uint32_t path, std::size_t lane, const BlockDraw& draw, double level,
                                double live_factor) const {
    auto& kept = drawn_[d];
    kept.level[path] = static_cast<float>(level);
    kept.live_factor[path] = static_cast<float>(live_factor);
    kept.curve[path] = static_cast<int>(draw.curve);
    for (std::size_t g = 0; g < growth_places_.size(); ++g) {
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

/// The curve of a number: of first numbers each curve comes as often as any other, from the one that holds least to the
/// one that holds most.
std::size_t DatasetDrawer::curve_of(std::size_t d, std::size_t number) const {
    std::array<std::uint32_t, lanes> words;
    points_.words(d, static_cast<std::uint32_t>(number / lanes * lanes), words);
    const auto& rising = rising_[d];
    return rising[std::size_t(std::uint64_t{words[number % lanes]} * rising.size() >> 32)];
}

/// All lanes of a block, those past the last path too.
void DatasetDrawer::draw_paths_of(std::size_t d, std::uint32_t first, BlockDraw& draw) const {
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

void DatasetDrawer::draw_measured_growth(std::size_t d, std::uint32_t first, const Lanes& start, BlockDraw& draw) const {
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
void DatasetDrawer::draw_intervals(std::size_t d, std::uint32_t first, const Lanes& start, const Lanes& rate,
                                   const Lanes& level, BlockDraw& draw) const {
    const auto& m = models_[d];
    const NoiseScales& scales = noise_[d];
    const bool wanders = !draw.wander.empty();
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

void DatasetDrawer::live(std::size_t d, const BlockDraw& draw, double day, GridPlace place, Lanes& live) const {
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

double DatasetDrawer::live_at(std::size_t d, const BlockDraw& draw, double day, std::size_t lane) const {
    Lanes live;
    this->live(d, draw, day, place_on(plan_.days, day), live);
    return live[lane];
}

DatasetPath DatasetDrawer::sample(std::size_t d, const BlockDraw& draw, std::size_t block, std::size_t lane) const {
    DatasetPath path;
    path.curve = static_cast<int>(plan_.set.empty() ? curve_of(d, block * block_paths + lane) : draw.curve);
    for (std::size_t i = 0; i < plan_.days.size(); ++i) path.live.push_back(draw.live[i * block_paths + lane]);
    for (std::size_t j = 0; j + 1 < edges_.size(); ++j)
        path.churn.push_back(draw.churn[j * block_paths + lane]);
    for (std::size_t j = 0; j * block_paths < draw.wander.size(); ++j)
        path.churn[j] += young_share(1) * static_cast<double>(draw.wander[j * block_paths + lane]);
    for (std::size_t e = 0; e < models_[d].events.size(); ++e)
        path.events.push_back({models_[d].events[e].kind, draw.event_day[e * block_paths + lane],
                               draw.event_bytes[e * block_paths + lane]});
    return path;
}

}  // namespace ullage
