// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/send_outlooks.h"

#include "core/link/hours.h"
#include "core/units/quantiles.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>
#include <map>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

namespace ullage {

namespace {

// One record's header in the stream, for each block (OpenZFS, include/sys/zfs_ioctl.h: the size of a
// replay record).
constexpr double record_header_bytes = 312;
constexpr int replayed_runs = 300'000;      // over all sample paths
constexpr int most_samples = 200;
constexpr int least_samples = 8;
constexpr double overloaded = 0.98;         // of what the link could carry in a quarter of a year
constexpr double quarter_days = 91;
constexpr std::uint32_t run_noise_stream = 0x40000000u;

using Seconds = std::chrono::seconds;

Instant plus_days(Instant t, double days) {
    return t + Seconds(std::llround(days * seconds_per_day));
}

/// Wire bytes of one stored byte: the record headers, and the expansion if blocks travel unpacked.
double payload_of(const Send& send, const Dataset& dataset, double ratio) {
    const double mean_block = dataset.block_size.value.value / ratio;
    const double headers = record_header_bytes / mean_block;
    return (send.payload == Send::Payload::expanded ? ratio / send.stream_ratio : 1.0) + headers;
}

double live_of(const DatasetModel& m, double day) {
    return std::max(m.live_bytes + m.growth_per_day * day, 0.0);
}

class SendPlanner {
public:
    SendPlanner(const SendContext& c, std::size_t index)
        : c_(c), send_(c.site.sends[index]), index_(index) {}

    PlannedSend plan(Problems& problems) {
        plan_.send = static_cast<int>(index_);
        plan_.to = send_.to;
        plan_.by = send_.first_copy.by;
        plan_.every_step = send_.steps == Send::Steps::every;
        set_datasets(problems);
        set_link(problems);
        if (!problems.empty()) return plan_;
        set_start();
        set_snapshots();
        set_first_copy();
        set_runs();
        return plan_;
    }

private:
    std::string pointer(const char* rest) const { return fmt::format("/sends/{}{}", index_, rest); }

    const Box* box(const std::string& name) const {
        for (const auto& b : c_.site.boxes)
            if (b.name == name) return &b;
        return nullptr;
    }

    void set_datasets(Problems& problems) {
        for (const auto& name : send_.datasets) {
            for (std::size_t d = 0; d < c_.site.datasets.size(); ++d) {
                const auto& dataset = c_.site.datasets[d];
                if (dataset.name != name) continue;
                if (!dataset.home.empty() && dataset.home != send_.from)
                    problems.push_back(
                        {pointer("/from"),
                         fmt::format("“{}” lives on “{}”, not on “{}”: sends onward from a copy are not "
                                     "covered yet; send it from where it lives", name, dataset.home,
                                     send_.from)});
                if (dataset.ladder.empty())
                    problems.push_back(
                        {pointer("/datasets"),
                         fmt::format("“{}” keeps no snapshots, and a send carries the difference between "
                                     "two: give the dataset a ladder", name)});
                plan_.datasets.push_back(static_cast<int>(d));
                plan_.payload_per_stored.push_back(
                    payload_of(send_, dataset, c_.models[d].compression_ratio));
                plan_.source_ladders.push_back(std::make_shared<LadderClock>(dataset.ladder, c_.zone));
                if (std::holds_alternative<AsSource>(send_.ladder))
                    plan_.box_ladders.push_back(plan_.source_ladders.back());
                else if (const auto* own = std::get_if<Ladder>(&send_.ladder))
                    plan_.box_ladders.push_back(std::make_shared<LadderClock>(*own, c_.zone));
                else
                    plan_.box_ladders.push_back(nullptr);
            }
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
            plan_.own_bits_per_second = std::numeric_limits<double>::infinity();
            for (const auto& step : plan_.goodput.chain)
                if (step.name == "window" || step.name == "loss" || step.name == "cipher" ||
                    step.name == "disk")
                    plan_.own_bits_per_second =
                        std::min(plan_.own_bits_per_second, step.own_bits_per_second);
            hours_ = std::make_unique<WeeklyHours>(link.hours, c_.zone);
        }
    }

    void set_start() {
        const auto* to = box(send_.to);
        if (plan_.by != FirstCopy::By::present && to && to->in_service)
            plan_.first_copy_start_day = static_cast<double>((*to->in_service - c_.site.as_of).count());
        end_ = plus_days(c_.start, c_.horizon_days);
    }

    void set_snapshots() {
        const double period = in_days(send_.every.value.length());
        reach_back_ = plan_.first_copy_start_day;
        for (std::size_t d = 0; d < plan_.datasets.size(); ++d) {
            const double span = plan_.box_ladders[d] ? in_days(plan_.box_ladders[d]->span()) : 0;
            if (plan_.by == FirstCopy::By::present) reach_back_ = std::min(reach_back_, -span - period);
        }
        for (std::size_t d = 0; d < plan_.datasets.size(); ++d) {
            // A snapshot to start from: one lifetime of the source's ladder earlier there is one.
            const double earlier = in_days(plan_.source_ladders[d]->span()) + period;
            plan_.supplies.push_back(snapshots_to_send(
                *plan_.source_ladders[d], send_.steps, send_.every.value.length(),
                plus_days(c_.start, std::min(reach_back_, 0.0) - earlier), end_));
        }
    }

    void set_first_copy() {
        const Instant begin = plus_days(c_.start, plan_.first_copy_start_day);
        plan_.open = hours_->stretches(std::min(begin, c_.start), end_);
        double stored = 0;
        for (std::size_t d = 0; d < plan_.datasets.size(); ++d) {
            const auto& m = c_.models[std::size_t(plan_.datasets[d])];
            const double live = live_of(m, plan_.first_copy_start_day);
            stored += live;
            plan_.first_copy_bytes += live * plan_.payload_per_stored[d];
            const auto newest = plan_.supplies[d].newest_at(begin);
            plan_.base.push_back(newest ? plan_.supplies[d].taken[*newest] : begin);
        }
        const double days = first_copy_days(stored);
        if (std::isfinite(days)) plan_.first_copy_done_day = plan_.first_copy_start_day + days;
    }

    double first_copy_days(double stored) const {
        return first_copy_days_of(plan_, send_, c_, stored);
    }

    void set_runs() {
        Instant from = end_;
        if (plan_.by == FirstCopy::By::present)
            from = plus_days(c_.start, reach_back_);
        else if (plan_.first_copy_done_day)
            from = plus_days(c_.start, *plan_.first_copy_done_day);
        if (from < end_)
            plan_.due = CalendarGrid(send_.every.value, c_.zone, send_.at).between(from, end_);
    }

public:
    /// Days from its start until the first copy of `stored` bytes is complete; infinite if it is not
    /// within the horizon.
    static double first_copy_days_of(const PlannedSend& plan, const Send& send, const SendContext& c,
                                     double stored) {
        if (plan.by == FirstCopy::By::present) return 0;
        double mean_stored = 0;
        for (const int d : plan.datasets)
            mean_stored += live_of(c.models[std::size_t(d)], plan.first_copy_start_day);
        const double payload = mean_stored > 0 ? plan.first_copy_bytes / mean_stored : 1;
        const ReplayLink link{plan.line_bits_per_second, plan.open};
        const Instant begin = plus_days(c.start, plan.first_copy_start_day);
        if (plan.by == FirstCopy::By::link) {
            const auto done = transfer_end(link, plan.own_bits_per_second, stored * payload, begin);
            return done ? days_between(begin, *done) : std::numeric_limits<double>::infinity();
        }
        const double local = stored / send.first_copy.copy_rate->value.value / seconds_per_day;
        const double away = local + send.first_copy.days_away;
        double missed = 0;  // what is written meanwhile crosses the link once the box is in place
        for (std::size_t d = 0; d < plan.datasets.size(); ++d) {
            const auto& m = c.models[std::size_t(plan.datasets[d])];
            missed += std::max(0.0, m.mean_curve.freed(away) + m.growth_per_day * away) *
                      plan.payload_per_stored[d];
        }
        const Instant arrived = plus_days(begin, away);
        const auto done = transfer_end(link, plan.own_bits_per_second, missed, arrived);
        return done ? days_between(begin, *done) : std::numeric_limits<double>::infinity();
    }

private:
    const SendContext& c_;
    const Send& send_;
    std::size_t index_;
    PlannedSend plan_;
    std::unique_ptr<WeeklyHours> hours_;
    Instant end_{};
    double reach_back_ = 0;
};

/// Bytes of one run's step on one path.
class PathBytes {
public:
    PathBytes(const SendContext& c, const std::vector<PlannedSend>& sends, const PathsPlan& plan,
              const Paths& paths, std::size_t path)
        : c_(c), sends_(sends), plan_(plan), edges_(paths.edges), sample_(paths.samples[path]),
          path_(static_cast<std::uint32_t>(path)), first_weekday_(weekday_of(c.site.as_of)),
          freed_(c.models.size()) {}

    double operator()(int send, int dataset, std::optional<Instant> from, Instant to) {
        const auto d = static_cast<std::size_t>(dataset);
        const auto& planned = sends_[std::size_t(send)];
        const auto at = std::find(planned.datasets.begin(), planned.datasets.end(), dataset);
        const double payload = planned.payload_per_stored[std::size_t(at - planned.datasets.begin())];
        const double end = days_between(c_.start, to);
        if (!from) return payload * (live_at(d, end) + events_between(d, 0, end, true));
        const double begin = days_between(c_.start, *from);
        const double gap = end - begin;
        if (gap <= 0) return 0;
        const double freed = freed_in(d, gap) * churn_between(d, begin, end) *
                             shape_between(d, begin, end) * run_noise(d, gap, end);
        const double growth = live_at(d, end) - live_at(d, begin);
        return payload * (std::max(0.0, freed + growth) + events_between(d, begin, end, false));
    }

private:
    double freed_in(std::size_t d, double gap) {
        const auto key = std::llround(gap * seconds_per_day);
        const auto [it, is_new] = freed_[d].try_emplace(key, 0.0);
        if (is_new) it->second = c_.models[d].curves[std::size_t(sample_[d].curve)].freed(gap);
        return it->second;
    }

    /// Live without events: straight lines between the times; before as_of, back along the growth.
    double live_at(std::size_t d, double day) const {
        const auto& live = sample_[d].live;
        if (day <= 0) return std::max(0.0, live[0] + c_.models[d].growth_per_day * day);
        const auto [i, part] = place_on(plan_.days, day);
        return live[i - 1] + (live[i] - live[i - 1]) * part;
    }

    /// Bytes that events put on the wire in (from, to]; `net`: what they leave live instead.
    double events_between(std::size_t d, double from, double to, bool net) const {
        double bytes = 0;
        for (const auto& e : sample_[d].events) {
            if (e.day <= std::max(from, 0.0) || e.day > to) continue;
            if (e.kind == Event::Kind::add) bytes += e.bytes;
            if (e.kind == Event::Kind::rewrite && !net) bytes += e.bytes;
            if (e.kind == Event::Kind::remove && net) bytes -= e.bytes;
        }
        return bytes;
    }

    double churn_between(std::size_t d, double from, double to) const {
        const auto& churn = sample_[d].churn;
        auto j = static_cast<std::size_t>(
            std::max<std::ptrdiff_t>(std::upper_bound(edges_.begin(), edges_.end(), from) - edges_.begin() - 1, 0));
        j = std::min(j, churn.size() - 1);
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

    double shape_between(std::size_t d, double from, double to) const {
        const auto& shape = c_.models[d].week_shape;
        double sum = 0;
        for (double at = from; at < to;) {
            const double day = std::floor(at + 1e-9);
            const double end = std::min(to, day + 1);
            const int weekday = static_cast<int>((static_cast<long long>(day) % 7 + 7 + first_weekday_) % 7);
            sum += shape[std::size_t(weekday)] * (end - at);
            at = end;
        }
        return sum / (to - from);
    }

    /// A run shorter than the paths' intervals varies more than they do: the rest of a day's variance.
    double run_noise(std::size_t d, double gap, double end) const {
        const double day = c_.models[d].day_variation;
        if (day <= 0) return 1;
        const auto it = std::upper_bound(edges_.begin(), edges_.end(), end);
        const double interval = it == edges_.begin() || it == edges_.end() ? days_per_week : *it - *(it - 1);
        const double variance = day * day * (1 / gap - 1 / std::max(gap, interval));
        if (variance <= 0) return 1;
        const double log_variance = std::log1p(variance);
        const double z = normal_number(plan_.seed, run_noise_stream + static_cast<std::uint32_t>(d), path_,
                                       static_cast<std::uint32_t>(std::llround(end * 24)));
        return std::exp(std::sqrt(log_variance) * z - log_variance / 2);
    }

    const SendContext& c_;
    const std::vector<PlannedSend>& sends_;
    const PathsPlan& plan_;
    const std::vector<double>& edges_;
    const std::vector<DatasetPath>& sample_;
    std::uint32_t path_;
    int first_weekday_;
    std::vector<std::map<long long, double>> freed_;
};

RunQuantiles run_quantiles(std::vector<double> values) {
    return {quantile_of(values, 0.5), quantile_of(values, 0.9), quantile_of(values, 0.95)};
}

using Traces = std::vector<std::vector<std::vector<RunRecord>>>;  // [path][send][run]

class SendSummary {
public:
    SendSummary(const SendContext& c, const std::vector<PlannedSend>& sends, std::size_t index,
                const ReplaySend& replayed, const Traces& traces, const Paths& paths)
        : c_(c), sends_(sends), planned_(sends[index]), send_(c.site.sends[std::size_t(planned_.send)]),
          link_(c.site.links[std::size_t(planned_.link)]), index_(index), replayed_(replayed),
          traces_(traces), paths_(paths), hours_(link_.hours, c.zone) {
        end_ = plus_days(c.start, c.horizon_days);
        const double done = planned_.first_copy_done_day.value_or(c.horizon_days);
        begin_ = plus_days(c.start, std::max(0.0, done));
    }

    SendOutlook summary() {
        out_.name = send_.name;
        out_.from = send_.from;
        out_.to = send_.to;
        out_.link = link_.name;
        out_.goodput = planned_.goodput;
        out_.bound_by = planned_.goodput.bound_by;
        out_.first_copy_bytes = planned_.by == FirstCopy::By::present ? 0 : planned_.first_copy_bytes;
        first_copy();
        restore();
        runs();
        ages();
        overload();
        week();
        out_.longest_outage_days = longest_outage_days(
            replayed_, traces_.front()[index_],
            std::max(begin_, plus_days(end_, -days_per_year)), end_);
        return out_;
    }

private:
    void first_copy() {
        auto live = paths_.probes[2 * index_];
        const auto days = [&](double p) -> std::optional<double> {
            const double d = SendPlanner::first_copy_days_of(planned_, send_, c_, quantile_of(live, p));
            if (!std::isfinite(d)) return {};
            return d;
        };
        out_.first_copy_days = {days(0.1), days(0.5), days(0.9)};
    }

    void restore() {
        TransferLimits limits;
        limits.downwards = true;
        if (send_.cipher_rate) limits.cipher_rate = send_.cipher_rate->value;
        for (const auto& b : c_.site.boxes)
            if ((b.name == send_.from || b.name == send_.to) && b.disk_rate &&
                (!limits.disk_rate || b.disk_rate->value < *limits.disk_rate))
                limits.disk_rate = b.disk_rate->value;
        const auto rate = goodput(link_, limits);
        if (!rate || rate->bits_per_second <= 0) return;
        double payload = 0;
        for (const double p : planned_.payload_per_stored)
            payload += p / static_cast<double>(planned_.payload_per_stored.size());
        auto live = paths_.probes[2 * index_ + 1];
        for (double& bytes : live) bytes *= payload * 8 / rate->bits_per_second / seconds_per_hour;
        out_.restore_hours = run_quantiles(std::move(live));
    }

    static double hours_of(const RunRecord& run) {
        return days_between(run.due, run.done) * 24;
    }

    void runs() {
        std::vector<double> bytes;
        std::vector<double> took;
        double open = 0;
        std::size_t missed = 0;
        for (const auto& path : traces_)
            for (const auto& run : path[index_]) {
                bytes.push_back(run.bytes);
                took.push_back(hours_of(run));
                open += run.open_hours;
                missed += run.missed ? 1 : 0;
            }
        if (bytes.empty()) return;
        out_.open_hours_per_run = open / static_cast<double>(bytes.size());
        out_.chance_of_missing_window = static_cast<double>(missed) / static_cast<double>(bytes.size());
        out_.bytes_per_run = run_quantiles(std::move(bytes));
        out_.hours_per_run = run_quantiles(std::move(took));
        const double alone = out_.bytes_per_run.p95 * 8 /
                             std::max(planned_.goodput.bits_per_second, 1.0) / seconds_per_day;
        if (out_.chance_of_missing_window > 1 - c_.site.confidence && !hours_.always_open() &&
            alone < in_days(send_.every.value.length()))
            out_.bound_by = Limit::hours;
    }

    void ages() {
        std::vector<AgeStretch> all;
        Instant first = Instant::max();
        for (std::size_t d = 0; d < replayed_.already.size(); ++d)
            if (!replayed_.already[d].empty()) first = std::min(first, replayed_.already[d].back());
        if (first == Instant::max()) return;
        for (const auto& path : traces_) {
            const auto some = copy_ages(path[index_], first, begin_, end_);
            all.insert(all.end(), some.begin(), some.end());
        }
        out_.recovery_point_hours = {age_quantile(all, 0.5), age_quantile(all, 0.9),
                                     age_quantile(all, 0.95)};
        for (const auto& a : all)
            out_.recovery_point_max_hours = std::max(out_.recovery_point_max_hours, a.to_hours);
    }

    /// What the whole link is asked for against what it can carry, quarter by quarter.
    void overload() {
        const int quarters = static_cast<int>(days_between(begin_, end_) / quarter_days);
        if (quarters < 1) return;
        std::vector<double> carries(std::size_t(quarters), 0);
        double own = 0;  // what this link's sends could take at most
        for (const auto& s : sends_)
            if (s.link == planned_.link) own += s.own_bits_per_second;
        const auto quarter_of = [&](Instant t) { return days_between(begin_, t) / quarter_days; };
        for (const auto& open : planned_.open) {
            const double rate = std::min(planned_.line_bits_per_second * open.share, own);
            for (int q = 0; q < quarters; ++q) {
                const double from = std::max(quarter_of(open.from), double(q));
                const double to = std::min(quarter_of(open.to), double(q + 1));
                if (to > from)
                    carries[std::size_t(q)] += rate * (to - from) * quarter_days * seconds_per_day / 8;
            }
        }
        std::vector<double> first_days;
        for (const auto& path : traces_) {
            std::vector<double> asked(std::size_t(quarters), 0);
            for (std::size_t s = 0; s < sends_.size(); ++s) {
                if (sends_[s].link != planned_.link) continue;
                for (const auto& run : path[s]) {
                    const auto q = static_cast<long>(std::floor(quarter_of(run.begun)));
                    if (q >= 0 && q < quarters) asked[std::size_t(q)] += run.bytes;
                }
            }
            int first = quarters;  // of the overloaded quarters that go on to the end
            while (first > 0 && asked[std::size_t(first - 1)] > overloaded * carries[std::size_t(first - 1)])
                --first;
            if (first < quarters)
                first_days.push_back(days_between(c_.start, begin_) + first * quarter_days);
        }
        if (first_days.size() * 2 < traces_.size()) return;
        out_.falls_behind = true;
        std::sort(first_days.begin(), first_days.end());
        out_.days_until_behind = first_days[std::min(traces_.size() / 2, first_days.size() - 1)];
    }

    /// The first whole week of runs.
    void week() {
        Day monday = c_.zone.local_day(begin_) + std::chrono::days(1);
        while (weekday_of(monday) != 0) monday += std::chrono::days(1);
        const Instant from = c_.zone.instant_of(monday);
        const Instant to = c_.zone.instant_of(monday + std::chrono::days(7));
        if (to > end_) return;
        out_.week_of = monday;
        std::map<Instant, std::vector<const RunRecord*>> by_due;
        for (const auto& path : traces_) {
            const auto& list = path[index_];
            auto it = std::lower_bound(list.begin(), list.end(), from,
                                       [](const RunRecord& r, Instant t) { return r.due < t; });
            for (; it != list.end() && it->due < to; ++it) by_due[it->due].push_back(&*it);
        }
        for (const auto& [due, list] : by_due) {
            std::vector<double> took;
            std::vector<double> bytes;
            double missed = 0;
            for (const auto* run : list) {
                took.push_back(hours_of(*run));
                bytes.push_back(run->bytes);
                missed += run->missed ? 1 : 0;
            }
            const double share = missed / static_cast<double>(list.size());
            out_.week.push_back({due, quantile_of(took, 0.5), quantile_of(took, 0.95),
                                 quantile_of(bytes, 0.5), quantile_of(bytes, 0.95), share >= 0.5,
                                 share >= 0.05});
        }
        for (const auto& open : hours_.stretches(from, to))
            out_.open_week.push_back({days_between(from, open.from) * 24, days_between(from, open.to) * 24,
                                      open.share});
    }

    const SendContext& c_;
    const std::vector<PlannedSend>& sends_;
    const PlannedSend& planned_;
    const Send& send_;
    const Link& link_;
    std::size_t index_;
    const ReplaySend& replayed_;
    const Traces& traces_;
    const Paths& paths_;
    WeeklyHours hours_;
    Instant begin_{}, end_{};
    SendOutlook out_;
};

/// What a run due then brings to those received before; with every step sent, all since the last one.
void arrive(const PlannedSend& s, std::size_t d, Instant due, std::vector<Instant>& received) {
    const auto& taken = s.supplies[d].taken;
    const auto newest = s.supplies[d].newest_at(due);
    if (!newest || (!received.empty() && taken[*newest] <= received.back())) return;
    const auto first = s.every_step && !received.empty()
                           ? std::upper_bound(taken.begin(), taken.end(), received.back())
                           : taken.begin() + static_cast<std::ptrdiff_t>(*newest);
    received.insert(received.end(), first, taken.begin() + static_cast<std::ptrdiff_t>(*newest) + 1);
}

/// The sends as the replay takes them: runs from as_of on, what is at the box by then.
std::vector<ReplaySend> replayed_of(const SendContext& c, const std::vector<PlannedSend>& sends) {
    std::vector<ReplaySend> result;
    for (const auto& s : sends) {
        const auto& send = c.site.sends[std::size_t(s.send)];
        ReplaySend r;
        r.link = s.link;
        r.own_bits_per_second = s.own_bits_per_second;
        r.every_step = send.steps == Send::Steps::every;
        r.hold_last_sent = send.hold_last_sent;
        const auto first = std::lower_bound(s.due.begin(), s.due.end(), c.start);
        r.due.assign(first, s.due.end());
        for (std::size_t d = 0; d < s.datasets.size(); ++d) {
            r.datasets.push_back({s.datasets[d], s.supplies[d], s.box_ladders[d].get()});
            // A box that is there already was fed before; another starts from its first copy.
            std::vector<Instant> already;
            if (s.by != FirstCopy::By::present || first == s.due.begin()) already.push_back(s.base[d]);
            for (auto it = s.due.begin(); it != first; ++it) arrive(s, d, *it, already);
            r.already.push_back(std::move(already));
        }
        result.push_back(std::move(r));
    }
    return result;
}

}  // namespace

tl::expected<std::vector<PlannedSend>, Problems> plan_sends(const SendContext& context) {
    Problems problems;
    std::vector<PlannedSend> plans;
    for (std::size_t i = 0; i < context.site.sends.size(); ++i) {
        Problems own;
        plans.push_back(SendPlanner(context, i).plan(own));
        problems.insert(problems.end(), own.begin(), own.end());
    }
    if (!problems.empty()) return tl::unexpected(problems);
    return plans;
}

namespace {

/// Of the snapshots that have arrived by each day (both lists oldest first), those the ladder keeps.
void keep_over_time(KeptSnapshots& kept, const LadderClock* ladder, const std::vector<Instant>& snapshots,
                    const std::vector<Instant>& arrivals, Instant start, const std::vector<double>& days) {
    for (const double day : days) {
        const Instant now = plus_days(start, day);
        const auto end = snapshots.begin() +
                         (std::upper_bound(arrivals.begin(), arrivals.end(), now) - arrivals.begin());
        auto first = snapshots.begin();
        if (ladder) {
            const Instant oldest = now - Seconds(std::llround(ladder->span().value));
            first = std::upper_bound(snapshots.begin(), end, oldest);
            // One before, so that the first of a period is known to be the first.
            if (first != snapshots.begin()) --first;
        }
        const std::vector<Instant> received(first, end);
        kept.at.push_back(ladder ? ladder->thinned(received, now) : received);
    }
}

}  // namespace

KeptSnapshots kept_at_home(const LadderClock& ladder, const KnownPast& known, Instant start,
                           const std::vector<double>& days) {
    KeptSnapshots kept;
    kept.home = true;
    if (known.taken.empty() || ladder.empty()) {
        for (const double day : days) kept.at.push_back(ladder.retained(plus_days(start, day)));
        return kept;
    }
    auto snapshots = known.taken;
    const auto later = ladder.taken(snapshots.back() + Seconds(1), plus_days(start, days.back()));
    snapshots.insert(snapshots.end(), later.begin(), later.end());
    keep_over_time(kept, &ladder, snapshots, snapshots, start, days);
    return kept;
}

std::optional<KeptSnapshots> kept_at_box(const std::vector<PlannedSend>& sends, std::size_t dataset,
                                         const std::string& box, const KnownPast& known, Instant start,
                                         const std::vector<double>& days) {
    for (const auto& s : sends) {
        const auto at = std::find(s.datasets.begin(), s.datasets.end(), static_cast<int>(dataset));
        if (s.to != box || at == s.datasets.end()) continue;
        const auto d = static_cast<std::size_t>(at - s.datasets.begin());
        KeptSnapshots kept;
        kept.ramps = s.by == FirstCopy::By::link;
        kept.ramp_from_day = s.first_copy_start_day;
        std::vector<Instant> snapshots;  // received, oldest first …
        std::vector<Instant> arrivals;   // … and when
        if (s.by == FirstCopy::By::present) {
            kept.arrives_day = -std::numeric_limits<double>::infinity();
            snapshots = known.taken;
            arrivals = known.taken;
        } else if (s.first_copy_done_day) {
            kept.arrives_day = *s.first_copy_done_day;
            snapshots.push_back(s.base[d]);
            arrivals.push_back(plus_days(start, *s.first_copy_done_day));
        } else if (s.by == FirstCopy::By::courier || s.first_copy_start_day >= days.back()) {
            kept.arrives_day = std::numeric_limits<double>::infinity();
            kept.ramps = false;
        } else {
            // Still filling at the end: as far as the link gets by then.
            double carried = 0;
            for (const auto& open : s.open) {
                const Instant from = std::max(open.from, plus_days(start, s.first_copy_start_day));
                if (from < open.to)
                    carried += std::min(s.line_bits_per_second * open.share, s.own_bits_per_second) *
                               days_between(from, open.to) * seconds_per_day / 8;
            }
            const double done = std::clamp(carried / std::max(s.first_copy_bytes, 1.0), 1e-6, 1.0);
            kept.arrives_day = s.first_copy_start_day + (days.back() - s.first_copy_start_day) / done;
            kept.ramps = true;
        }
        for (const auto due : s.due) {
            arrive(s, d, due, snapshots);
            arrivals.resize(snapshots.size(), due);
        }
        keep_over_time(kept, s.box_ladders[d].get(), snapshots, arrivals, start, days);
        return kept;
    }
    return {};
}

int replay_sample_count(const std::vector<PlannedSend>& sends, int paths) {
    std::size_t runs = 0;
    for (const auto& s : sends) runs += s.due.size();
    if (runs == 0) return std::min(paths, least_samples);
    const auto affordable = static_cast<int>(std::min<std::size_t>(replayed_runs / runs, most_samples));
    return std::min(paths, std::max(affordable, least_samples));
}

std::optional<std::vector<SendOutlook>> replay_sends(const SendContext& context,
                                                     const std::vector<PlannedSend>& sends,
                                                     const PathsPlan& plan, const Paths& paths,
                                                     const Settings& settings, const Progress& progress,
                                                     double progress_from, double progress_to) {
    std::vector<SendOutlook> outlooks;
    if (sends.empty()) return outlooks;
    const auto replayed = replayed_of(context, sends);
    std::vector<ReplayLink> links(context.site.links.size());
    for (const auto& s : sends) {
        auto& link = links[std::size_t(s.link)];
        link.line_bits_per_second = s.line_bits_per_second;
        if (link.open.empty() || (!s.open.empty() && s.open.front().from < link.open.front().from))
            link.open = s.open;
    }
    const Instant end = plus_days(context.start, context.horizon_days);
    Traces traces(paths.samples.size());
    tbb::task_arena arena(settings.threads > 0 ? settings.threads : tbb::task_arena::automatic);
    constexpr std::size_t round = 8;
    for (std::size_t from = 0; from < traces.size(); from += round) {
        if (progress.stop.stop_requested()) return {};
        arena.execute([&] {
            tbb::parallel_for(from, std::min(from + round, traces.size()), [&](std::size_t p) {
                traces[p] = replay(links, replayed, end, PathBytes(context, sends, plan, paths, p));
            });
        });
        if (progress.report)
            progress.report(progress_from + (progress_to - progress_from) *
                                                std::min(1.0, double(from + round) / double(traces.size())));
    }
    for (std::size_t i = 0; i < sends.size(); ++i)
        outlooks.push_back(SendSummary(context, sends, i, replayed[i], traces, paths).summary());
    return outlooks;
}

}  // namespace ullage
