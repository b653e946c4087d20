// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/run_bytes.h"

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

constexpr std::size_t most_known_gaps = 64;  // most sends have one, or a few where clocks change

}  // namespace

PathBytes::PathBytes(const SendContext& c, const std::vector<PlannedSend>& sends,
                     const PathsPlan& plan, const Paths& paths, std::size_t path)
    : c_(c),
      sends_(sends),
      plan_(plan),
      edges_(paths.edges),
      sample_(paths.samples[path]),
      path_(static_cast<std::uint32_t>(path)),
      first_weekday_(weekday_of(c.site.as_of)),
      freed_(c.models.size()),
      place_(c.models.size()),
      noise_(c.models.size()) {}

double PathBytes::operator()(int send, int dataset, std::optional<Instant> from, Instant to) {
    const auto d = static_cast<std::size_t>(dataset);
    const auto& planned = sends_[std::size_t(send)];
    const auto at = std::find(planned.datasets.begin(), planned.datasets.end(), dataset);
    const double payload = planned.payload_per_stored[std::size_t(at - planned.datasets.begin())];
    const double end = days_between(c_.start, to);
    if (!from) return payload * live_bytes(d, to);
    const double begin = days_between(c_.start, *from);
    const double gap = end - begin;
    if (gap <= 0) return 0;
    const double freed = freed_in(d, gap) * churn_between(d, begin, end) *
                         shape_between(d, begin, end) * run_noise(d, gap, end);
    const double live = live_at(d, end);
    const double written =
        std::max(0.0, freed + live - live_at(d, begin)) + events_between(d, begin, end, false);
    return payload * std::min(written, std::max(0.0, live + events_between(d, 0, end, true)));
}

double PathBytes::freed_in(std::size_t d, double gap) {
    const auto key = std::llround(gap * seconds_per_day);
    auto& known = freed_[d];
    for (const auto& k : known)
        if (k.seconds == key) return k.bytes;
    const double bytes = c_.models[d].curves[std::size_t(sample_[d].curve)].freed(gap);
    if (known.size() < most_known_gaps) known.push_back({key, bytes});
    return bytes;
}

double PathBytes::live_bytes(std::size_t d, Instant t) {
    const double day = days_between(c_.start, t);
    return std::max(0.0, live_at(d, day) + events_between(d, 0, day, true));
}

/// Live without events: straight lines between the times; before as_of, back along the growth.
double PathBytes::live_at(std::size_t d, double day) {
    const auto& live = sample_[d].live;
    if (day <= 0) return std::max(0.0, live[0] + c_.models[d].growth_per_day * day);
    const auto& days = plan_.days;
    const std::size_t i = std::clamp<std::size_t>(first_later(days, day, place_[d].day), 1, days.size() - 1);
    const double part = std::clamp((day - days[i - 1]) / (days[i] - days[i - 1]), 0.0, 1.0);
    return live[i - 1] + (live[i] - live[i - 1]) * part;
}

/// Bytes that events put on the wire in (from, to]; `net`: what they leave live instead.
double PathBytes::events_between(std::size_t d, double from, double to, bool net) const {
    double bytes = 0;
    for (const auto& e : sample_[d].events) {
        if (e.day <= std::max(from, 0.0) || e.day > to) continue;
        if (e.kind == Event::Kind::add) bytes += e.bytes;
        if (e.kind == Event::Kind::rewrite && !net) bytes += e.bytes;
        if (e.kind == Event::Kind::remove && net) bytes -= e.bytes;
    }
    return bytes;
}

double PathBytes::churn_between(std::size_t d, double from, double to) {
    const auto& churn = sample_[d].churn;
    std::size_t j = std::max<std::size_t>(first_later(edges_, from, place_[d].edge), 1) - 1;
    j = std::min(j, churn.size() - 1);
    if (j + 1 >= churn.size() || edges_[j + 1] >= to) return churn[j];
    double sum = 0;
    double at = from;
    while (at < to) {
        const double end = j + 1 < churn.size() ? std::min(to, std::max(edges_[j + 1], at)) : to;
        sum += churn[j] * (end - at);
        at = end;
        ++j;
    }
    return sum / (to - from);
}

double PathBytes::shape_between(std::size_t d, double from, double to) const {
    const auto& shape = c_.models[d].week_shape;
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

/// A run shorter than the paths' intervals varies more than they do: the rest of a day's variance.
double PathBytes::run_noise(std::size_t d, double gap, double end) {
    const double day = c_.models[d].day_variation;
    if (day <= 0) return 1;
    const std::size_t later = first_later(edges_, end, place_[d].edge);
    const double interval =
        later == 0 || later == edges_.size() ? days_per_week : edges_[later] - edges_[later - 1];
    auto& known = noise_[d];
    if (known.gap != gap || known.interval != interval) {
        const double variance = day * day * (1 / gap - 1 / std::max(gap, interval));
        const double log_variance = variance > 0 ? std::log1p(variance) : 0;
        known = {gap, interval, std::sqrt(log_variance), log_variance / 2};
    }
    if (known.spread <= 0) return 1;
    const double z = normal_number(plan_.seed, run_noise_stream + static_cast<std::uint32_t>(d),
                                   path_, static_cast<std::uint32_t>(std::llround(end * 24)));
    return std::exp(known.spread * z - known.shift);
}

}  // namespace ullage
