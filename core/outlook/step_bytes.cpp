// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/step_bytes.h"

#include "core/units/lanes.h"

#include <algorithm>
#include <cmath>

namespace ullage {

namespace {

constexpr std::uint32_t run_noise_stream = 0x40000000u;

/// As std::upper_bound, from where the last search ended.
std::size_t first_later(const std::vector<double>& rising, double than, std::size_t& from) {
    while (from > 0 && rising[from - 1] > than) --from;
    while (from < rising.size() && rising[from] <= than) ++from;
    return from;
}

/// Bytes that events put on the wire in (from, to]; `net`: what they leave live instead.
double events_between(const DatasetPath& path, double from, double to, bool net) {
    double bytes = 0;
    for (const auto& e : path.events) {
        if (e.day <= std::max(from, 0.0) || e.day > to) continue;
        if (e.kind == Event::Kind::add) bytes += e.bytes;
        if (e.kind == Event::Kind::rewrite && !net) bytes += e.bytes;
        if (e.kind == Event::Kind::remove && net) bytes -= e.bytes;
    }
    return bytes;
}

std::uint32_t noise_stream_of(std::size_t dataset) { return run_noise_stream + static_cast<std::uint32_t>(dataset); }

}  // namespace

StepBytes::StepBytes(const SendContext& c, const PathsPlan& plan, const std::vector<double>& edges,
                     std::size_t dataset, int only_curve)
    : model_(&c.models[dataset]),
      days_(&plan.days),
      edges_(&edges),
      start_(c.start),
      first_weekday_(weekday_of(c.site.as_of)),
      only_curve_(only_curve),
      freed_(only_curve < 0 ? model_->curves : std::vector<Curve>{model_->curves[std::size_t(only_curve)]}) {}

StepBytes::Step StepBytes::step(Instant from, Instant to) {
    Step s;
    s.begin = days_between(start_, from);
    s.end = days_between(start_, to);
    const double gap = s.end - s.begin;
    s.live_begin = place_of(s.begin);
    s.live_end = place_of(s.end);
    s.freed = freed_(to - from).data();
    s.shape = shape_between(s.begin, s.end);
    s.hour = static_cast<std::uint32_t>(std::llround(s.end * 24));
    const auto& edges = *edges_;
    const std::size_t intervals = edges.size() - 1;
    s.interval = std::min(std::max<std::size_t>(first_later(edges, s.begin, edge_), 1) - 1, intervals - 1);
    s.crosses = s.interval + 1 < intervals && edges[s.interval + 1] < s.end;
    const double day = model_->day_variation;
    if (day <= 0) return s;
    const std::size_t later = first_later(edges, s.end, edge_);
    const double interval = later == 0 || later == edges.size() ? days_per_week : edges[later] - edges[later - 1];
    if (noise_gap_ != gap || noise_interval_ != interval) {
        // A run shorter than the paths' intervals varies more than they do: the rest of a day's variance.
        const double variance = day * day * (1 / gap - 1 / std::max(gap, interval));
        const double log_variance = variance > 0 ? std::log1p(variance) : 0;
        noise_gap_ = gap;
        noise_interval_ = interval;
        spread_ = static_cast<float>(std::sqrt(log_variance));
        shift_ = static_cast<float>(log_variance / 2);
    }
    s.spread = spread_;
    s.shift = shift_;
    return s;
}

double StepBytes::bytes(const Step& s, const DatasetPath& path, float noise) const {
    const double freed = s.freed[only_curve_ < 0 ? path.curve : 0] * churn_of(s, path) * s.shape * static_cast<double>(noise);
    const double live = live_at(path, s.end, s.live_end);
    const double written = std::max(0.0, freed + live - live_at(path, s.begin, s.live_begin));
    if (path.events.empty()) return std::min(written, live);
    return std::min(written + events_between(path, s.begin, s.end, false),
                    std::max(0.0, live + events_between(path, 0, s.end, true)));
}

void StepBytes::draw_noise(std::uint64_t seed, std::size_t dataset, const std::vector<Step>& steps, std::uint32_t paths,
                           std::vector<float>& noise) {
    noise.assign(steps.size() * paths, 1.0F);
    WordLanes words;
    std::array<std::uint32_t, lanes> path, hour;
    FloatLanes z, power;
    for (std::size_t from = 0; from < noise.size(); from += lanes) {
        const std::size_t n = std::min(lanes, noise.size() - from);
        for (std::size_t l = 0; l < lanes; ++l) {
            const std::size_t at = from + std::min(l, n - 1);
            path[l] = static_cast<std::uint32_t>(at / steps.size());
            hour[l] = steps[at % steps.size()].hour;
        }
        draw_words(seed, noise_stream_of(dataset), path, hour, words);
        normal_of(words[0], z);
        for (std::size_t l = 0; l < n; ++l) {
            const Step& s = steps[(from + l) % steps.size()];
            power[l] = s.spread * z[l] - s.shift;
        }
        exponential_of(power, z);
        std::copy_n(z.begin(), n, noise.begin() + static_cast<std::ptrdiff_t>(from));
    }
}

float StepBytes::noise_of(std::uint64_t seed, std::size_t dataset, const Step& step, std::uint32_t path) {
    if (step.spread <= 0) return 1;
    return exponential_at(step.spread * normal_at(seed, noise_stream_of(dataset), path, step.hour) - step.shift);
}

double StepBytes::live_bytes(const DatasetPath& path, Instant t) {
    const double day = days_between(start_, t);
    return std::max(0.0, live_at(path, day, place_of(day)) + events_between(path, 0, day, true));
}

GridPlace StepBytes::place_of(double day) {
    const auto& days = *days_;
    if (day <= 0) return {};
    const std::size_t i = std::clamp<std::size_t>(first_later(days, day, day_), 1, days.size() - 1);
    return {i, std::clamp((day - days[i - 1]) / (days[i] - days[i - 1]), 0.0, 1.0)};
}

/// Live without events: straight lines between the times; before as_of, back along the growth.
double StepBytes::live_at(const DatasetPath& path, double day, GridPlace place) const {
    const auto& live = path.live;
    if (day <= 0) return std::max(0.0, live[0] + model_->growth_per_day * day);
    return live[place.next - 1] + (live[place.next] - live[place.next - 1]) * place.part;
}

double StepBytes::churn_of(const Step& s, const DatasetPath& path) const {
    const auto& churn = path.churn;
    if (!s.crosses) return churn[s.interval];
    const auto& edges = *edges_;
    double sum = 0;
    double at = s.begin;
    for (std::size_t j = s.interval; at < s.end; ++j) {
        const double end = j + 1 < churn.size() ? std::min(s.end, std::max(edges[j + 1], at)) : s.end;
        sum += churn[j] * (end - at);
        at = end;
    }
    return sum / (s.end - s.begin);
}

double StepBytes::shape_between(double from, double to) const {
    const auto& shape = model_->week_shape;
    double sum = 0;
    for (double at = from; at < to;) {
        const double day = std::floor(at + 1e-9);
        const double end = std::min(to, day + 1);
        const int weekday =
            static_cast<int>((static_cast<long long>(day) % 7 + 7 + first_weekday_) % 7);
        sum += shape[std::size_t(weekday)] * (end - at);
        at = end;
    }
    return sum / (to - from);
}

}  // namespace ullage
