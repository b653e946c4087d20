// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/first_copy.h"

#include "core/outlook/run_quantiles.h"
#include "core/units/quantiles.h"
#include "core/outlook/run_bytes.h"
#include "core/units/quantity_text.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>
#include <limits>

namespace ullage {

namespace {

constexpr BytesPerSecond usual_copy_rate{150e6};  // common practice, no source
constexpr double usual_days_away = 2;             // common practice, no source
constexpr double infinite = std::numeric_limits<double>::infinity();

struct Courier {
    double bytes_per_second = 0;
    double days_away = 0;
    std::vector<Message> assumptions;
};

const Box* box_of(const Site& site, const std::string& name) {
    for (const auto& b : site.boxes)
        if (b.name == name) return &b;
    return nullptr;
}

Courier courier_of(const Site& site, const Send& send) {
    Courier c;
    const auto& typed = send.first_copy;
    if (typed.copy_rate) {
        c.bytes_per_second = typed.copy_rate->value.value;
        c.days_away = typed.days_away;
        return c;
    }
    BytesPerSecond rate = usual_copy_rate;
    for (const auto* box : {box_of(site, send.from), box_of(site, send.to)})
        if (box && box->disk_rate) rate = std::min(rate, box->disk_rate->value);
    c.bytes_per_second = rate.value;
    c.days_away = typed.days_away > 0 ? typed.days_away : usual_days_away;
    c.assumptions.push_back(message(
        "carried by hand, copying beside the source is taken to run at {}, with {} days on "
        "the road; give first_copy.copy_rate and days_away to say otherwise",
        rate, Significant{c.days_away, 6}));
    return c;
}

/// Payload by the middle forecast, planned events with it.
double middle_bytes(const SendContext& c, const PlannedSend& s, int dataset,
                    Instant from, Instant to) {
    const auto at = std::find(s.datasets.begin(), s.datasets.end(), dataset) - s.datasets.begin();
    const auto& m = c.models[std::size_t(dataset)];
    const double end = days_between(c.start, to);
    const bool step = from != no_snapshot;
    const double begin = step ? days_between(c.start, from) : 0;
    double events = 0;
    for (const auto& e : m.events) {
        if (e.day <= std::max(begin, 0.0) || e.day > end) continue;
        if (e.kind == Event::Kind::add || (step && e.kind == Event::Kind::rewrite))
            events += e.bytes;
        if (e.kind == Event::Kind::remove && !step) events -= e.bytes;
    }
    const double stored =
        step ? (end > begin ? expected_written(m, begin, end - begin) : 0) : expected_live(m, end);
    return std::max(0.0, stored + events) * s.payload_per_stored[std::size_t(at)];
}

/// The runs of a send: days from `begin` until its first is done and until it is in step.
struct Steps {
    std::optional<double> first, in_step;
    bool base_expired = false;
};

Steps steps_of(const std::vector<RunRecord>& runs, Instant begin, bool first_is_whole) {
    Steps steps;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        const auto& run = runs[i];
        if (!run.finished) break;
        const bool first = !steps.first && (run.bytes > 0 || !first_is_whole);
        if (first) steps.first = days_between(begin, run.done);
        if (run.full && !(first && first_is_whole)) steps.base_expired = true;
        if (i + 1 < runs.size() && !runs[i + 1].waited && steps.first) {
            steps.in_step = days_between(begin, run.done);
            break;
        }
    }
    return steps;
}

class FirstCopyStudy {
public:
    FirstCopyStudy(const SendContext& c, const std::vector<PlannedSend>& sends, std::size_t index)
        : c_(c),
          sends_(sends),
          plan_(sends[index]),
          send_(c.site.sends[index]),
          index_(index),
          courier_(courier_of(c.site, send_)),
          begin_(add_days(c.start, plan_.first_copy_start_day)) {}

    FirstCopyWays ways() const {
        FirstCopyWays w;
        w.bytes = plan_.first_copy_stored;
        w.assumptions = courier_.assumptions;
        const Steps line = by_line();
        w.link_days = line.first;
        w.link_in_step_days = line.in_step;
        w.link_base_expires = line.base_expired;
        w.courier_copy_days = copy_days(w.bytes);
        w.courier_away_days = courier_.days_away;
        const Steps hand = by_hand();
        w.courier_days = hand.in_step;
        w.courier_base_expires = hand.base_expired;
        w.break_even_bytes = break_even();
        w.carry =
            w.courier_days && (!w.link_in_step_days || *w.courier_days < *w.link_in_step_days);
        return w;
    }

private:
    double copy_days(double stored) const {
        return stored / courier_.bytes_per_second / seconds_per_day;
    }

    /// The sends from the start of the first copy on, this one as `change` leaves it.
    template <class Change>
    std::vector<RunRecord> replay_with(const Change& change) const {
        auto replayed = replay_sends_of(c_, sends_);
        for (std::size_t s = 0; s < sends_.size(); ++s)
            if (s != index_ && sends_[s].by == FirstCopy::By::link && sends_[s].link == plan_.link)
                from_nothing(replayed[s], sends_[s],
                             add_days(c_.start, sends_[s].first_copy_start_day));
        change(replayed[index_]);
        // A while after it would be done alone is enough to see it in step.
        const double alone = line_days(plan_.first_copy_stored);
        const double until = std::isfinite(alone) ? plan_.first_copy_start_day + 3 * alone +
                                                        2 * copy_days(plan_.first_copy_stored) +
                                                        courier_.days_away + 60
                                                  : c_.horizon_days;
        const Instant end = add_days(c_.start, std::min(until, c_.horizon_days));
        return replay(replay_links(c_.site, sends_), replayed, end,
                      [&](int send, int dataset, Instant from, Instant to) {
                          return middle_bytes(c_, sends_[std::size_t(send)], dataset, from, to);
                      })[index_];
    }

    /// Its calendar from `begin` on, and the box empty.
    void from_nothing(ReplaySend& r, const PlannedSend& plan, Instant begin) const {
        r.due = due_from(plan, begin);
        r.due.insert(r.due.begin(), begin);
        for (auto& already : r.already) already.clear();
        r.from = begin;
    }

    std::vector<Instant> due_from(const PlannedSend& plan, Instant from) const {
        const auto& send = c_.site.sends[std::size_t(plan.send)];
        const Instant end = add_days(c_.start, c_.horizon_days);
        if (from >= end) return {};
        if (!send.after_each_snapshot)
            return CalendarGrid(send.every.value, c_.zone, send.at)
                .between(from + std::chrono::seconds(1), end);
        std::vector<Instant> due;
        for (const auto& supply : plan.supplies)
            due.insert(due.end(), std::upper_bound(supply->taken.begin(), supply->taken.end(), from),
                       supply->taken.end());
        std::sort(due.begin(), due.end());
        return due;
    }

    Steps by_line() const {
        const auto runs = replay_with([&](ReplaySend& r) { from_nothing(r, plan_, begin_); });
        return steps_of(runs, begin_, true);
    }

    Steps by_hand() const {
        const Instant arrived =
            add_days(begin_, copy_days(plan_.first_copy_stored) + courier_.days_away);
        const auto runs = replay_with([&](ReplaySend& r) {
            r.due = due_from(plan_, arrived);
            r.due.insert(r.due.begin(), arrived);
            for (std::size_t d = 0; d < r.already.size(); ++d) r.already[d] = {plan_.base[d]};
            r.from = arrived;
        });
        return steps_of(runs, begin_, false);
    }

    double payload() const {
        return plan_.first_copy_stored > 0 ? plan_.first_copy_bytes / plan_.first_copy_stored : 1;
    }

    /// With the line to itself.
    double line_days(double stored) const {
        const ReplayLink link{plan_.line_bits_per_second, plan_.open, Sharing::evenly};
        const auto done = transfer_end(link, plan_.own_bits_per_second, stored * payload(), begin_);
        return done ? days_between(begin_, *done) : infinite;
    }

    double hand_days(double stored) const {
        const double away = copy_days(stored) + courier_.days_away;
        double missed = 0;
        for (std::size_t d = 0; d < plan_.datasets.size(); ++d)
            missed += expected_written(c_.models[std::size_t(plan_.datasets[d])],
                                       plan_.first_copy_start_day, away) *
                      plan_.payload_per_stored[d];
        const ReplayLink link{plan_.line_bits_per_second, plan_.open, Sharing::evenly};
        const auto done =
            transfer_end(link, plan_.own_bits_per_second, missed, add_days(begin_, away));
        return done ? days_between(begin_, *done) : infinite;
    }

    /// Bisection on the size; empty if carrying is never sooner, up to a million times today's
    /// size.
    std::optional<double> break_even() const {
        const double now = std::max(plan_.first_copy_stored, 1e9);
        const auto carry_is_sooner = [&](double stored) {
            return hand_days(stored) < line_days(stored);
        };
        double low = now * 1e-6;
        double high = now;
        while (!carry_is_sooner(high)) {
            if (high > now * 1e6) return {};
            low = high;
            high *= 4;
        }
        if (carry_is_sooner(low)) return low;
        for (int step = 0; step < 40 && high > low * 1.0001; ++step) {
            const double middle = std::sqrt(low * high);
            (carry_is_sooner(middle) ? high : low) = middle;
        }
        return high;
    }

    const SendContext& c_;
    const std::vector<PlannedSend>& sends_;
    const PlannedSend& plan_;
    const Send& send_;
    std::size_t index_;
    Courier courier_;
    Instant begin_;
};

}  // namespace

std::optional<FirstCopyWays> first_copy_ways(const SendContext& context,
                                             const std::vector<PlannedSend>& sends,
                                             std::size_t index) {
    if (sends[index].by == FirstCopy::By::present) return {};
    return FirstCopyStudy(context, sends, index).ways();
}

std::vector<RestoreWays> restore_ways(const SendContext& c, const std::vector<PlannedSend>& sends,
                                      std::size_t index, const PathsPlan& plan,
                                      const Paths& paths) {
    const auto& s = sends[index];
    const auto& send = c.site.sends[index];
    const auto& link = c.site.links[std::size_t(s.link)];
    TransferLimits limits;
    limits.downwards = true;
    if (send.cipher_rate) limits.cipher_rate = send.cipher_rate->value;
    for (const auto* box : {box_of(c.site, send.from), box_of(c.site, send.to)})
        if (box && box->disk_rate &&
            (!limits.disk_rate || box->disk_rate->value < *limits.disk_rate))
            limits.disk_rate = box->disk_rate->value;
    const auto rate = goodput(link, limits);
    if (!rate || rate->bits_per_second <= 0) return {};
    const Courier courier = courier_of(c.site, send);
    const Instant then = add_days(c.start, std::min(days_per_year, c.horizon_days));

    std::vector<std::vector<double>> stored(s.datasets.size());  // by dataset, over the paths
    for (std::size_t p = 0; p < paths.samples.size(); ++p) {
        PathBytes bytes(c, sends, plan, paths, p);
        for (std::size_t d = 0; d < s.datasets.size(); ++d)
            stored[d].push_back(bytes.live_bytes(std::size_t(s.datasets[d]), then));
    }
    const auto ways_of = [&](const std::string& name, const std::vector<std::size_t>& parts) {
        RestoreWays w;
        w.dataset = name;
        w.bound_by = rate->bound_by;
        std::vector<double> sizes(paths.samples.size(), 0);
        std::vector<double> hours(paths.samples.size(), 0);
        for (const std::size_t d : parts)
            for (std::size_t p = 0; p < sizes.size(); ++p) {
                sizes[p] += stored[d][p];
                hours[p] += stored[d][p] * s.payload_per_stored[d] * 8 / rate->bits_per_second /
                            seconds_per_hour;
            }
        w.bytes = run_quantiles(sizes);
        w.link_hours = run_quantiles(hours);
        const double copying = w.bytes.p50 / courier.bytes_per_second / seconds_per_hour;
        w.fetch_hours = courier.days_away * 24 + copying;
        w.road_binds = courier.days_away * 24 > copying;
        return w;
    };
    std::vector<RestoreWays> all;
    std::vector<std::size_t> parts;
    for (std::size_t d = 0; d < s.datasets.size(); ++d) parts.push_back(d);
    all.push_back(ways_of("", parts));
    for (std::size_t d = 0; d < s.datasets.size() && s.datasets.size() > 1; ++d)
        all.push_back(ways_of(c.site.datasets[std::size_t(s.datasets[d])].name, {d}));
    return all;
}

}  // namespace ullage
