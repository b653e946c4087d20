// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/send_plan.h"

#include "core/link/hours.h"
#include "core/outlook/send_calendars.h"
#include "core/outlook/threads.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <tuple>

namespace ullage {

namespace {

// One record's header in the stream, for each block (OpenZFS, include/sys/zfs_ioctl.h: the size of
// a replay record).
constexpr double record_header_bytes = 312;
constexpr double infinite = std::numeric_limits<double>::infinity();

using Seconds = std::chrono::seconds;

/// Wire bytes of one stored byte: the record headers, and the expansion if blocks travel unpacked.
double payload_of(const Send& send, const Dataset& dataset, double ratio) {
    const double mean_block = dataset.block_size.value.value / ratio;
    const double headers = record_header_bytes / mean_block;
    return (send.payload == Send::Payload::expanded ? ratio / send.stream_ratio : 1.0) + headers;
}

/// How long a rung must last for `newest` to send its snapshots: two periods, so that a missed run
/// does not lose the base.
Seconds lasting_of(const PlannedSend& plan) {
    return Seconds(std::llround(2 * plan.period_days * seconds_per_day));
}

/// The send that brings a dataset to a box, and which of its datasets it is.
std::optional<Upstream> bringer_of(const Site& site, const std::string& dataset,
                                   const std::string& box) {
    for (std::size_t s = 0; s < site.sends.size(); ++s) {
        if (site.sends[s].to != box) continue;
        const auto& names = site.sends[s].datasets;
        const auto at = std::find(names.begin(), names.end(), dataset);
        if (at != names.end()) return Upstream{s, static_cast<std::size_t>(at - names.begin())};
    }
    return {};
}

class SendPlanner {
public:
    SendPlanner(const SendContext& c, std::size_t index, std::vector<PlannedSend>& plans,
                SendCalendars& calendars)
        : c_(c),
          send_(c.site.sends[index]),
          index_(index),
          plans_(plans),
          plan_(plans[index]),
          calendars_(calendars) {}

    void set_route(Problems& problems) {
        plan_.send = static_cast<int>(index_);
        plan_.to = send_.to;
        plan_.by = send_.first_copy.by;
        plan_.every_step = send_.steps == Send::Steps::every;
        for (const auto& name : send_.datasets) set_dataset(name, problems);
        set_link(problems);
    }

    /// How far back the copy of a send that is present must be known, for itself and for those it
    /// feeds.
    void set_reach(std::map<std::size_t, double>& reach) {
        if (plan_.by == FirstCopy::By::present) {
            double back = reach[index_];
            for (const auto& ladder : plan_.box_ladders)
                back = std::min(back, -(ladder ? in_days(ladder->span()) : 0.0) - period());
            reach[index_] = back;
            for (const auto& u : plan_.upstream)
                if (u) reach[u->send] = std::min(reach[u->send], back - period());
        }
    }

    /// After its upstreams.
    void set_runs(double reach_back) {
        reach_back_ = reach_back;
        end_ = add_days(c_.start, c_.horizon_days);
        set_start();
        set_snapshots();
        set_first_copy();
        set_due();
    }

private:
    std::string pointer(const char* rest) const { return fmt::format("/sends/{}{}", index_, rest); }

    const Box* box(const std::string& name) const {
        for (const auto& b : c_.site.boxes)
            if (b.name == name) return &b;
        return nullptr;
    }

    double period() const {
        if (!send_.after_each_snapshot) return in_days(send_.every.value.length());
        // On each snapshot: the shortest rung's.
        double shortest = infinite;
        for (const int d : plan_.datasets)
            for (const auto& rung : c_.site.datasets[std::size_t(d)].ladder)
                shortest = std::min(shortest, in_days(rung.every.value.length()));
        return std::isfinite(shortest) ? shortest : 1;
    }

    void set_dataset(const std::string& name, Problems& problems) {
        for (std::size_t d = 0; d < c_.site.datasets.size(); ++d) {
            const auto& dataset = c_.site.datasets[d];
            if (dataset.name != name) continue;
            std::optional<Upstream> upstream;
            if (dataset.home != send_.from) upstream = bringer_of(c_.site, name, send_.from);
            if (dataset.ladder.empty())
                problems.push_back(
                    {pointer("/datasets"),
                     fmt::format(
                         "“{}” keeps no snapshots, and a send carries the difference between "
                         "two: give the dataset a ladder",
                         name)});
            plan_.datasets.push_back(static_cast<int>(d));
            plan_.upstream.push_back(upstream);
            plan_.payload_per_stored.push_back(
                payload_of(send_, dataset, c_.models[d].compression_ratio));
        }
    }

    void set_link(Problems& problems) {
        for (std::size_t l = 0; l < c_.site.links.size(); ++l) {
            const auto& link = c_.site.links[l];
            if (link.name != send_.over) continue;
            plan_.link = static_cast<int>(l);
            TransferLimits limits;
            limits.share = link.hours.empty() ? 1 : 0;
            for (const auto& h : link.hours) limits.share = std::max(limits.share, h.share);
            if (send_.cipher_rate) limits.cipher_rate = send_.cipher_rate->value;
            for (const auto* end : {box(send_.from), box(send_.to)})
                if (end && end->disk_rate &&
                    (!limits.disk_rate || end->disk_rate->value < *limits.disk_rate))
                    limits.disk_rate = end->disk_rate->value;
            auto rate = goodput(link, limits);
            if (!rate) {
                problems.push_back({fmt::format("/links/{}", l), rate.error()});
                return;
            }
            plan_.goodput = *std::move(rate);
            plan_.line_bits_per_second = link.up.value.value * plan_.goodput.shape.efficiency();
            plan_.own_bits_per_second = infinite;
            for (const auto& step : plan_.goodput.chain)
                if (step.name == "window" || step.name == "loss" || step.name == "cipher" ||
                    step.name == "disk")
                    plan_.own_bits_per_second =
                        std::min(plan_.own_bits_per_second, step.own_bits_per_second);
        }
    }

public:
    /// The ladders of its source and its box; after its upstreams.
    void set_ladders() {
        for (std::size_t d = 0; d < plan_.datasets.size(); ++d) {
            if (const auto& u = plan_.upstream[d])
                plan_.source_ladders.push_back(plans_[u->send].box_ladders[u->part]);
            else
                plan_.source_ladders.push_back(
                    calendars_.clock(c_.site.datasets[std::size_t(plan_.datasets[d])].ladder));
            if (std::holds_alternative<AsSource>(send_.ladder))
                plan_.box_ladders.push_back(plan_.source_ladders.back());
            else if (const auto* own = std::get_if<Ladder>(&send_.ladder))
                plan_.box_ladders.push_back(calendars_.clock(*own));
            else
                plan_.box_ladders.push_back(nullptr);
        }
        plan_.period_days = period();
    }

private:
    void set_start() {
        const auto* to = box(send_.to);
        if (plan_.by == FirstCopy::By::present) return;
        if (to && to->in_service)
            plan_.first_copy_start_day =
                static_cast<double>((*to->in_service - c_.site.as_of).count());
        for (const auto& u : plan_.upstream) {
            if (!u) continue;
            const auto& done = plans_[u->send].first_copy_done_day;
            plan_.first_copy_start_day =
                std::max(plan_.first_copy_start_day, done.value_or(c_.horizon_days));
        }
    }

    void set_snapshots() {
        const double from_day = std::min({reach_back_, plan_.first_copy_start_day, 0.0});
        double earliest = from_day;
        for (std::size_t d = 0; d < plan_.datasets.size(); ++d) {
            plan_.supplies.emplace_back();
            if (plan_.upstream[d]) continue;
            // A snapshot to start from: one lifetime of the source's ladder earlier there is one.
            const double earlier = in_days(plan_.source_ladders[d]->span()) + plan_.period_days;
            earliest = std::min(earliest, from_day - earlier);
            plan_.supplies.back() =
                calendars_.supply(plan_.source_ladders[d], send_.steps, plan_.period_days,
                                  add_days(c_.start, from_day - earlier), end_);
        }
        for (std::size_t d = 0; d < plan_.datasets.size(); ++d)
            if (const auto& u = plan_.upstream[d])
                for (const auto& a : plans_[u->send].received[u->part])
                    earliest = std::min(earliest, days_between(c_.start, a.snapshot));
        for (const auto& ladder : plan_.box_ladders)
            plan_.box_grids.push_back(calendars_.grid(ladder, add_days(c_.start, earliest), end_));
    }

    void set_first_copy() {
        const auto& link = c_.site.links[std::size_t(plan_.link)];
        const Instant begin = add_days(c_.start, plan_.first_copy_start_day);
        plan_.open = WeeklyHours(link.hours, c_.zone).stretches(std::min(begin, c_.start), end_);
        for (std::size_t d = 0; d < plan_.datasets.size(); ++d) {
            const double live = expected_live(c_.models[std::size_t(plan_.datasets[d])],
                                              plan_.first_copy_start_day);
            plan_.first_copy_stored += live;
            plan_.first_copy_bytes += live * plan_.payload_per_stored[d];
            plan_.base.push_back(base_of(d, begin));
        }
        const double days = first_copy_days(plan_, send_, c_, plan_.first_copy_stored);
        if (std::isfinite(days)) plan_.first_copy_done_day = plan_.first_copy_start_day + days;
    }

    Instant base_of(std::size_t d, Instant begin) const {
        if (const auto& u = plan_.upstream[d]) {
            Instant newest = Instant::min();
            for (const auto& a : plans_[u->send].received[u->part])
                if (a.at <= begin) newest = a.snapshot;
            return newest == Instant::min() ? begin : newest;
        }
        const auto newest = plan_.supplies[d]->newest_at(begin);
        return newest ? plan_.supplies[d]->taken[*newest] : begin;
    }

    void set_due() {
        Instant from = end_;
        if (plan_.by == FirstCopy::By::present)
            from = add_days(c_.start, reach_back_);
        else if (plan_.first_copy_done_day)
            from = add_days(c_.start, *plan_.first_copy_done_day);
        if (from >= end_) return;
        if (!send_.after_each_snapshot) {
            plan_.due = CalendarGrid(send_.every.value, c_.zone, send_.at).between(from, end_);
            return;
        }
        for (std::size_t d = 0; d < plan_.datasets.size(); ++d) {
            plan_.on_arrival = plan_.on_arrival || plan_.upstream[d].has_value();
            const auto& taken = plan_.supplies[d]->taken;
            plan_.due.insert(plan_.due.end(), std::lower_bound(taken.begin(), taken.end(), from),
                             taken.end());
        }
        std::sort(plan_.due.begin(), plan_.due.end());
        plan_.due.erase(std::unique(plan_.due.begin(), plan_.due.end()), plan_.due.end());
    }

    const SendContext& c_;
    const Send& send_;
    std::size_t index_;
    std::vector<PlannedSend>& plans_;
    PlannedSend& plan_;
    SendCalendars& calendars_;
    Instant end_{};
    double reach_back_ = 0;
};

/// Sends after those that feed them: each round once the ones before it are done.
std::vector<std::vector<std::size_t>> in_flow_order(const std::vector<PlannedSend>& plans) {
    std::vector<std::vector<std::size_t>> order;
    std::vector<bool> placed(plans.size(), false);
    for (;;) {
        std::vector<std::size_t> next;
        for (std::size_t s = 0; s < plans.size(); ++s) {
            const auto& from = plans[s].upstream;
            if (!placed[s] && std::all_of(from.begin(), from.end(), [&](const auto& u) { return !u || placed[u->send]; }))
                next.push_back(s);
        }
        if (next.empty()) return order;  // or a circle, which validation refuses
        for (const std::size_t s : next) placed[s] = true;
        order.push_back(std::move(next));
    }
}

/// The send and all that feed it, sources first.
std::vector<std::size_t> with_upstreams(const std::vector<PlannedSend>& plans, std::size_t s) {
    std::vector<std::size_t> chain;
    for (const auto& u : plans[s].upstream) {
        if (!u) continue;
        for (const std::size_t up : with_upstreams(plans, u->send))
            if (std::find(chain.begin(), chain.end(), up) == chain.end()) chain.push_back(up);
    }
    chain.push_back(s);
    return chain;
}

/// A relay has nothing to carry before its source has its own first copy.
void start_no_sooner(ReplaySend& send, Instant from) {
    if (from <= send.from) return;
    send.from = from;
    send.due.erase(send.due.begin(), std::lower_bound(send.due.begin(), send.due.end(), from));
}

/// What comes to its box if every run arrives when it is due: a replay in which no bytes are sent.
void set_received(const SendContext& c, std::vector<PlannedSend>& plans, std::size_t s, SendCalendars& calendars) {
    auto& plan = plans[s];
    plan.received.assign(plan.datasets.size(), {});
    const bool present = plan.by == FirstCopy::By::present;
    if (!present && !plan.first_copy_done_day) return;
    const auto chain = with_upstreams(plans, s);
    std::vector<ReplaySend> sends;
    for (const std::size_t i : chain) {
        const auto& p = plans[i];
        ReplaySend send;
        send.due = p.due;
        send.on_arrival = p.on_arrival;
        send.every_step = p.every_step;
        send.hold_last_sent = true;  // sent whole or not, the same snapshots arrive
        send.lasting = lasting_of(p);
        if (p.first_copy_done_day || p.by != FirstCopy::By::present)
            send.from = add_days(c.start, p.first_copy_done_day.value_or(c.horizon_days));
        for (std::size_t d = 0; d < p.datasets.size(); ++d) {
            ReplayDataset part{p.datasets[d], p.supplies[d], p.box_grids[d].get(), p.upstream[d]};
            if (part.upstream)
                part.upstream->send = static_cast<std::size_t>(
                    std::find(chain.begin(), chain.end(), part.upstream->send) - chain.begin());
            send.datasets.push_back(std::move(part));
            send.already.emplace_back();
            if (p.by != FirstCopy::By::present && p.first_copy_done_day)
                send.already.back().push_back(p.base[d]);
        }
        for (const auto& part : send.datasets)
            // What is there already was fed before; its history before as_of stays.
            if (part.upstream && sends[part.upstream->send].from > c.start)
                start_no_sooner(send, sends[part.upstream->send].from);
        sends.push_back(std::move(send));
    }
    auto& known = calendars.received(s);
    if (known.by != sends) {
        ReplayOptions options;
        options.keep_arrivals = true;
        auto trace = replay_traced(
            {ReplayLink{}}, sends, add_days(c.start, c.horizon_days), [](int, int, Instant, Instant) { return 0.0; }, options);
        known = {std::move(sends), std::move(trace.arrivals.back())};
    }
    plan.received = known.arrivals;
    if (present) return;
    const Instant done = add_days(c.start, *plan.first_copy_done_day);
    for (std::size_t d = 0; d < plan.datasets.size(); ++d)
        plan.received[d].insert(plan.received[d].begin(), {plan.base[d], done});
}

}  // namespace

double expected_live(const DatasetModel& m, double day) {
    return std::max(m.live_bytes + m.growth_per_day * day, 0.0);
}

double expected_written(const DatasetModel& m, double day, double days) {
    const double scale = m.live_bytes > 0 ? expected_live(m, day) / m.live_bytes : 1;
    return std::max(0.0, m.mean_curve.freed(days) * scale + m.growth_per_day * days);
}

double PlannedSend::expected_runs(double horizon_days) const {
    if (!on_arrival) return static_cast<double>(due.size());
    return horizon_days / period_days;
}

double first_copy_days(const PlannedSend& plan, const Send& send, const SendContext& c,
                       double stored) {
    if (plan.by == FirstCopy::By::present) return 0;
    const double payload =
        plan.first_copy_stored > 0 ? plan.first_copy_bytes / plan.first_copy_stored : 1;
    const ReplayLink link{plan.line_bits_per_second, plan.open, Sharing::evenly};
    const Instant begin = add_days(c.start, plan.first_copy_start_day);
    if (plan.by == FirstCopy::By::link) {
        const auto done = transfer_end(link, plan.own_bits_per_second, stored * payload, begin);
        return done ? days_between(begin, *done) : infinite;
    }
    const double local = stored / send.first_copy.copy_rate->value.value / seconds_per_day;
    const double away = local + send.first_copy.days_away;
    double missed = 0;  // what is written meanwhile crosses the link once the box is in place
    for (std::size_t d = 0; d < plan.datasets.size(); ++d)
        missed += expected_written(c.models[std::size_t(plan.datasets[d])], 0, away) *
                  plan.payload_per_stored[d];
    const Instant arrived = add_days(begin, away);
    const auto done = transfer_end(link, plan.own_bits_per_second, missed, arrived);
    return done ? days_between(begin, *done) : infinite;
}

tl::expected<std::vector<PlannedSend>, Problems> plan_sends(const SendContext& context) {
    SendCalendars calendars(context.zone);
    return plan_sends(context, calendars);
}

tl::expected<std::vector<PlannedSend>, Problems> plan_sends(const SendContext& context, SendCalendars& calendars) {
    Problems problems;
    std::vector<PlannedSend> plans(context.site.sends.size());
    std::vector<SendPlanner> planners;
    planners.reserve(plans.size());
    for (std::size_t i = 0; i < plans.size(); ++i) {
        planners.emplace_back(context, i, plans, calendars);
        planners.back().set_route(problems);
    }
    if (!problems.empty()) return tl::unexpected(problems);
    const auto order = in_flow_order(plans);
    for (const auto& round : order)
        for (const std::size_t s : round) planners[s].set_ladders();
    std::map<std::size_t, double> reach;
    for (auto round = order.rbegin(); round != order.rend(); ++round)
        for (const std::size_t s : *round) planners[s].set_reach(reach);
    calendars.make_room(plans.size());
    for (const auto& round : order) {
        for (const std::size_t s : round) planners[s].set_runs(reach[s]);
        side_by_side(context.threads, 0, round.size(), [&](std::size_t k) { set_received(context, plans, round[k], calendars); });
    }
    return plans;
}

std::vector<ReplayLink> replay_links(const Site& site, const std::vector<PlannedSend>& sends) {
    std::vector<ReplayLink> links(site.links.size());
    for (const auto& s : sends) {
        auto& link = links[std::size_t(s.link)];
        link.line_bits_per_second = s.line_bits_per_second;
        link.sharing = site.links[std::size_t(s.link)].sharing;
        if (link.open.empty() || (!s.open.empty() && s.open.front().from < link.open.front().from))
            link.open = s.open;
    }
    return links;
}

std::vector<ReplaySend> replay_sends_of(const SendContext& c,
                                        const std::vector<PlannedSend>& sends) {
    std::vector<ReplaySend> result;
    for (const auto& s : sends) {
        const auto& send = c.site.sends[std::size_t(s.send)];
        ReplaySend r;
        r.link = s.link;
        r.own_bits_per_second = s.own_bits_per_second;
        r.every_step = s.every_step;
        r.hold_last_sent = send.hold_last_sent;
        r.on_arrival = s.on_arrival;
        r.lasting = lasting_of(s);
        r.from = add_days(
            c.start, std::clamp(s.first_copy_done_day.value_or(infinite), 0.0, c.horizon_days));
        r.due.assign(std::lower_bound(s.due.begin(), s.due.end(), c.start), s.due.end());
        for (std::size_t d = 0; d < s.datasets.size(); ++d) {
            r.datasets.push_back(
                {s.datasets[d], s.supplies[d], s.box_grids[d].get(), s.upstream[d]});
            std::vector<Instant> already;
            // A box that is there already was fed before; another starts from its first copy.
            for (const auto& a : s.received[d])
                if (a.at < c.start) already.push_back(a.snapshot);
            if (already.empty()) already.push_back(s.base[d]);
            r.already.push_back(std::move(already));
        }
        result.push_back(std::move(r));
    }
    // From the sources on, however the site orders its sends.
    for (std::size_t hop = 0; hop < sends.size(); ++hop)
        for (std::size_t i = 0; i < sends.size(); ++i)
            for (const auto& up : sends[i].upstream)
                if (up) start_no_sooner(result[i], result[up->send].from);
    return result;
}

}  // namespace ullage
