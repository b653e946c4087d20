// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/send_outlooks.h"

#include "core/link/hours.h"
#include "core/outlook/event_text.h"
#include "core/outlook/first_copy.h"
#include "core/outlook/line_rate.h"
#include "core/outlook/run_quantiles.h"
#include "core/outlook/threads.h"
#include "core/replay/copy_age.h"
#include "core/units/quantiles.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace ullage {

namespace {

constexpr double overloaded = 0.98;  // of what the link could carry in a quarter of a year
constexpr double quarter_days = 91;
constexpr double age_point_days = 28;

/// The weekdays of a zone over a stretch of time, found once.
class Weekdays {
public:
    Weekdays(const TimeZone& zone, Instant from, Instant to) {
        Day day = zone.local_day(std::min(from, to)) - std::chrono::days(1);
        first_ = weekday_of(day);
        for (const Day last = zone.local_day(to) + std::chrono::days(1); day <= last; day += std::chrono::days(1))
            midnights_.push_back(zone.instant_of(day));
    }

    /// Monday is 0. `near`: the day found last, before which t does not lie; 0 at first.
    std::size_t of(Instant t, std::size_t& near) const {
        while (near + 1 < midnights_.size() && midnights_[near + 1] <= t) ++near;
        return (near + static_cast<std::size_t>(first_)) % 7;
    }

private:
    std::vector<Instant> midnights_;
    int first_ = 0;
};

class SendSummary {
public:
    SendSummary(const SendContext& c, const std::vector<PlannedSend>& sends, std::size_t index,
                const Traces& traces, const PathArrivals& arrivals, const PathsPlan& plan,
                const Paths& paths)
        : c_(c),
          sends_(sends),
          planned_(sends[index]),
          send_(c.site.sends[index]),
          link_(c.site.links[std::size_t(planned_.link)]),
          index_(index),
          traces_(traces),
          arrivals_(arrivals),
          plan_(plan),
          paths_(paths),
          hours_(link_.hours, c.zone) {
        end_ = add_days(c.start, c.horizon_days);
        const double done = planned_.first_copy_done_day.value_or(c.horizon_days);
        begin_ = add_days(c.start, std::max(0.0, done));
    }

    SendOutlook summary() {
        out_.name = send_.name;
        out_.from = send_.from;
        out_.to = send_.to;
        out_.link = link_.name;
        out_.line_bits_per_second = link_.up.value.value;
        out_.goodput = planned_.goodput;
        out_.bound_by = planned_.goodput.bound_by;
        out_.first_copy_bytes =
            planned_.by == FirstCopy::By::present ? 0 : planned_.first_copy_bytes;
        for (const auto& u : planned_.upstream) out_.relays = out_.relays || u;
        first_copy();
        restore();
        // Of an hourly send among nightly ones each is much work; they fill different figures.
        const std::array<void (SendSummary::*)(), 3> parts = {&SendSummary::runs, &SendSummary::ages, &SendSummary::rest};
        side_by_side(c_.threads, 0, parts.size(), [&](std::size_t k) { (this->*parts[k])(); });
        return out_;
    }

private:
    void rest() {
        backlog();
        events();
        overload();
        week();
        out_.longest_outage_days = longest_outage_days(traces_.front()[index_]);
    }

    void first_copy() {
        auto stored = paths_.probes[2 * index_];
        const auto days = [&](double p) -> std::optional<double> {
            if (planned_.by != FirstCopy::By::present && !planned_.first_copy_done_day) return {};
            const double d = first_copy_days(planned_, send_, c_, quantile_of(stored, p));
            if (!std::isfinite(d)) return {};
            return d;
        };
        out_.first_copy_days = {days(0.1), days(0.5), days(0.9)};
        out_.first_copy = first_copy_ways(c_, sends_, index_);
    }

    void restore() {
        out_.restore = restore_ways(c_, sends_, index_, plan_, paths_);
        if (out_.restore.empty()) return;
        // The few paths replayed tell the wire hours of a stored byte; all paths, how many bytes.
        const auto& all = out_.restore.front();
        const double hours_per_byte = all.bytes.p50 > 0 ? all.link_hours.p50 / all.bytes.p50 : 0;
        auto live = paths_.probes[2 * index_ + 1];
        for (double& bytes : live) bytes *= hours_per_byte;
        out_.restore_hours = run_quantiles(live);
    }

    std::size_t run_count() const {
        std::size_t count = 0;
        for (const auto& path : traces_) count += path[index_].size();
        return count;
    }

    static double hours_of(const RunRecord& run) { return days_between(run.due, run.done) * 24; }
    static double share_of(const RunRecord& run) {
        const auto open = static_cast<double>(run.open_hours);
        return open > 0 ? static_cast<double>(run.busy_hours) / open : run.busy_hours > 0 ? 1 : 0;
    }

    /// All runs together and by the weekday they are due on.
    void runs() {
        struct Values {
            std::vector<double> bytes, hours, shares;
            double missed = 0;
        };
        std::array<Values, 7> by_day;
        for (auto& v : by_day)
            for (auto* values : {&v.bytes, &v.hours, &v.shares}) values->reserve(run_count() / by_day.size() + 1);
        const Weekdays weekdays(c_.zone, c_.start, end_);
        double open = 0;
        for (const auto& path : traces_) {
            std::size_t day = 0;  // runs are in order
            for (const auto& run : path[index_]) {
                auto& v = by_day[weekdays.of(run.due, day)];
                v.bytes.push_back(run.bytes);
                v.hours.push_back(hours_of(run));
                v.shares.push_back(share_of(run));
                v.missed += run.missed ? 1 : 0;
                open += static_cast<double>(run.open_hours);
            }
        }
        Values all;
        for (auto* values : {&all.bytes, &all.hours, &all.shares}) values->reserve(run_count());
        for (std::size_t day = 0; day < by_day.size(); ++day) {
            auto& v = by_day[day];
            if (v.bytes.empty()) continue;
            WeekdayRuns w;
            w.weekday = static_cast<int>(day);
            w.runs = static_cast<int>(v.bytes.size());
            w.chance_of_missing_window = v.missed / double(v.bytes.size());
            w.bytes = run_quantiles(v.bytes);
            w.hours = run_quantiles(v.hours);
            w.open_share = run_quantiles(v.shares);
            out_.weekdays.push_back(w);
            all.bytes.insert(all.bytes.end(), v.bytes.begin(), v.bytes.end());
            all.hours.insert(all.hours.end(), v.hours.begin(), v.hours.end());
            all.shares.insert(all.shares.end(), v.shares.begin(), v.shares.end());
            all.missed += v.missed;
        }
        if (all.bytes.empty()) return;
        const auto count = static_cast<double>(all.bytes.size());
        out_.open_hours_per_run = open / count;
        out_.chance_of_missing_window = all.missed / count;
        out_.bytes_per_run = run_quantiles(all.bytes);
        out_.hours_per_run = run_quantiles(all.hours);
        out_.open_share_per_run = run_quantiles(all.shares);
        out_.starts_closed = !planned_.due.empty() &&
                             std::all_of(planned_.due.begin(), planned_.due.end(),
                                         [&](Instant t) { return hours_.share_at(t) <= 0; });
        const double alone = out_.bytes_per_run.p95 * 8 /
                             std::max(planned_.goodput.bits_per_second, 1.0) / seconds_per_day;
        if (out_.chance_of_missing_window > 1 - c_.site.confidence && !hours_.always_open() &&
            alone < planned_.period_days)
            out_.bound_by = Limit::hours;
    }

    /// The oldest of what was there when the runs begin.
    Instant first_snapshot() const {
        Instant first = Instant::max();
        for (std::size_t d = 0; d < planned_.received.size(); ++d) {
            Instant there = planned_.base.size() > d ? planned_.base[d] : Instant::max();
            for (const auto& a : planned_.received[d])
                if (a.at < c_.start) there = a.snapshot;
            first = std::min(first, there);
        }
        return first;
    }

    void ages() {
        const Instant first = first_snapshot();
        if (first == Instant::max() || begin_ >= end_) return;
        std::vector<AgeStretch> all;
        all.reserve(run_count() + traces_.size());
        for (const auto& path : traces_) {
            add_copy_ages(path[index_], first, begin_, end_, all);
        }
        const auto ages = age_quantiles(all, {0.5, 0.9, 0.95});
        out_.recovery_point_hours = {ages[0], ages[1], ages[2]};
        for (const auto& a : all)
            out_.recovery_point_max_hours = std::max(out_.recovery_point_max_hours, a.to_hours);
        ages_over_time(first);
    }

    void ages_over_time(Instant first) {
        const auto points =
            static_cast<int>(std::ceil(days_between(begin_, end_) / age_point_days - 1e-9));
        std::vector<std::vector<AgeStretch>> by_point(std::size_t(std::max(points, 0)));
        for (const auto& path : traces_) {
            const auto& list = path[index_];
            auto from = list.begin();
            Instant snapshot = first;
            for (std::size_t k = 0; k < by_point.size(); ++k) {
                const Instant start = add_days(begin_, age_point_days * double(k));
                const Instant stop =
                    std::min(end_, add_days(begin_, age_point_days * double(k + 1)));
                auto to = from;
                while (to != list.end() && to->done < stop) ++to;
                add_copy_ages({from, to}, snapshot, start, stop, by_point[k]);
                for (; from != to; ++from)
                    if (from->finished) snapshot = std::max(snapshot, from->snapshot);
            }
        }
        for (std::size_t k = 0; k < by_point.size(); ++k) {
            if (by_point[k].empty()) continue;  // no copy yet
            CopyAgePoint p;
            p.from = c_.zone.local_day(add_days(begin_, age_point_days * double(k)));
            const auto ages = age_quantiles(by_point[k], {0.5, 0.95});
            p.p50_hours = ages[0];
            p.p95_hours = ages[1];
            for (const auto& a : by_point[k]) p.max_hours = std::max(p.max_hours, a.to_hours);
            out_.copy_age.push_back(p);
        }
    }

    void backlog() {
        std::vector<double> bytes;
        std::vector<double> hours;
        for (const auto& path : traces_)
            for (const auto& time : times_behind(path[index_])) {
                bytes.push_back(time.most_bytes);
                hours.push_back(days_between(time.from, time.to) * 24);
            }
        const double years = days_between(begin_, end_) / days_per_year * double(traces_.size());
        if (bytes.empty() || years <= 0) return;
        auto& b = out_.backlog;
        b.times_a_year = double(bytes.size()) / years;
        b.max_bytes = *std::max_element(bytes.begin(), bytes.end());
        b.max_hours_to_drain = *std::max_element(hours.begin(), hours.end());
        b.bytes = run_quantiles(bytes);
        b.hours_to_drain = run_quantiles(hours);
    }

    void events() {
        for (const int d : planned_.datasets) {
            const auto& planned = c_.site.datasets[std::size_t(d)].events;
            for (std::size_t e = 0; e < planned.size(); ++e)
                if (planned[e].on > c_.site.as_of) event(std::size_t(d), e);
        }
        std::stable_sort(out_.events.begin(), out_.events.end(),
                         [](const EventRun& a, const EventRun& b) { return a.on < b.on; });
    }

    /// The run that brings the first snapshot of a dataset (its place in the send) taken at or
    /// after `on`.
    const RunRecord* carrier(std::size_t path, std::size_t part, Instant on) const {
        const auto& list = traces_[path][index_];
        const auto& came = arrivals_[path][index_][part];
        const auto first =
            std::lower_bound(came.begin(), came.end(), on,
                             [](const Arrival& a, Instant t) { return a.snapshot < t; });
        if (first == came.end())
            return !list.empty() && !list.back().finished && list.back().begun >= on ? &list.back()
                                                                                     : nullptr;
        const auto run = std::lower_bound(list.begin(), list.end(), first->at,
                                          [](const RunRecord& r, Instant t) { return r.done < t; });
        return run == list.end() ? nullptr : &*run;
    }

    void event(std::size_t d, std::size_t e) {
        const auto part = static_cast<std::size_t>(
            std::find(planned_.datasets.begin(), planned_.datasets.end(), static_cast<int>(d)) -
            planned_.datasets.begin());
        std::vector<double> bytes;
        std::vector<double> hours;
        std::vector<double> nights;
        double fitted = 0;
        for (std::size_t p = 0; p < traces_.size(); ++p) {
            const auto* run =
                carrier(p, part, add_days(c_.start, paths_.samples[p][d].events[e].day));
            if (!run) continue;
            bytes.push_back(run->bytes);
            hours.push_back(hours_of(*run));
            nights.push_back(runs_due(run->due, run->done));
            fitted += run->missed ? 0 : 1;
        }
        if (bytes.empty()) return;  // after the horizon, or before the first copy
        const auto& planned = c_.site.datasets[d].events[e];
        EventRun r;
        r.on = planned.on;
        r.dataset = c_.site.datasets[d].name;
        r.text = event_text(planned);
        r.chance_of_fitting = fitted / double(bytes.size());
        r.bytes = run_quantiles(bytes);
        r.hours = run_quantiles(hours);
        r.nights = run_quantiles(nights);
        out_.events.push_back(std::move(r));
    }

    /// Times at which a run of this send is due in [from, to).
    double runs_due(Instant from, Instant to) const {
        if (planned_.on_arrival)
            return std::max(1.0, std::ceil(days_between(from, to) / planned_.period_days));
        const auto a = std::lower_bound(planned_.due.begin(), planned_.due.end(), from);
        const auto b = std::lower_bound(a, planned_.due.end(), to);
        return std::max(1.0, double(b - a));
    }

    /// The first run of each path that has to send everything for want of a common snapshot.
    void ladder_lost() {
        std::vector<double> lost;
        for (const auto& path : traces_) {
            const auto& list = path[index_];
            const auto run =
                std::find_if(list.begin(), list.end(), [&](const RunRecord& r) { return r.full; });
            if (run != list.end()) lost.push_back(days_between(c_.start, run->begun));
        }
        if (lost.size() * 2 < traces_.size()) return;
        std::sort(lost.begin(), lost.end());
        out_.days_until_ladder_lost = lost[std::min(traces_.size() / 2, lost.size() - 1)];
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
                    carries[std::size_t(q)] +=
                        rate * (to - from) * quarter_days * seconds_per_day / 8;
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
            while (first > 0 &&
                   asked[std::size_t(first - 1)] > overloaded * carries[std::size_t(first - 1)])
                --first;
            if (first < quarters && late_at_the_end(path[index_]))
                first_days.push_back(days_between(c_.start, begin_) + first * quarter_days);
            else if (const auto since = resends_to_the_end(path[index_]))
                first_days.push_back(days_between(c_.start, *since));
        }
        if (first_days.size() * 2 < traces_.size()) return;
        out_.falls_behind = true;
        ladder_lost();
        std::sort(first_days.begin(), first_days.end());
        out_.days_until_behind = first_days[std::min(traces_.size() / 2, first_days.size() - 1)];
    }

    /// A line that is nearly all in use but keeps its windows is not behind.
    bool late_at_the_end(const std::vector<RunRecord>& runs) const {
        const Instant last_quarter = add_days(end_, -quarter_days);
        return std::any_of(runs.begin(), runs.end(), [&](const RunRecord& r) {
            return r.done >= last_quarter && (r.missed || !r.finished);
        });
    }

    /// Since when a path has been behind, if it still is at the end, for more than a quarter, and
    /// has had to send everything again for want of a common snapshot: one such run asks for
    /// nothing in the quarters after the one it begins in.
    static std::optional<Instant> resends_to_the_end(const std::vector<RunRecord>& runs) {
        const auto times = times_behind(runs);
        if (times.empty() || times.back().ended ||
            days_between(times.back().from, times.back().to) < quarter_days)
            return {};
        const bool full = std::any_of(runs.begin(), runs.end(), [&](const RunRecord& r) {
            return r.full && r.done > times.back().from;
        });
        if (!full) return {};
        return times.back().from;
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
        // By the clock on the wall, also in a week of 167 or 169 hours.
        const Instant first = monday;
        for (const auto& open : WeeklyHours(link_.hours, TimeZone()).stretches(first, first + std::chrono::days(7)))
            out_.open_week.push_back(
                {days_between(first, open.from) * 24, days_between(first, open.to) * 24, open.share});
    }

    const SendContext& c_;
    const std::vector<PlannedSend>& sends_;
    const PlannedSend& planned_;
    const Send& send_;
    const Link& link_;
    std::size_t index_;
    const Traces& traces_;
    const PathArrivals& arrivals_;  // of the paths, if any dataset has planned events
    const PathsPlan& plan_;
    const Paths& paths_;
    WeeklyHours hours_;
    Instant begin_{}, end_{};
    SendOutlook out_;
};

}  // namespace

std::optional<std::vector<SendOutlook>> replay_sends(const SendContext& context,
                                                     const std::vector<PlannedSend>& sends,
                                                     const PathsPlan& plan, const Paths& paths,
                                                     const Settings& settings,
                                                     const Progress& progress, double progress_from,
                                                     double progress_to) {
    std::vector<SendOutlook> outlooks;
    if (sends.empty()) return outlooks;
    PathsReplay replayed;
    replayed.threads = settings.threads;
    replayed.survival_from =
        add_days(context.start, std::max(0.0, context.horizon_days - days_per_year));
    PathArrivals arrivals;
    if (std::any_of(context.models.begin(), context.models.end(),
                    [](const auto& m) { return !m.events.empty(); }))
        replayed.arrivals = &arrivals;
    const auto traces =
        replay_paths(context, sends, plan, paths, replayed, progress, progress_from, progress_to);
    if (!traces) return {};
    outlooks.resize(sends.size());
    side_by_side(settings.threads, 0, sends.size(), [&](std::size_t i) {
        outlooks[i] = SendSummary(context, sends, i, *traces, arrivals, plan, paths).summary();
    });
    std::map<int, LineRateSearch> searches;  // by link
    for (std::size_t i = 0; i < sends.size(); ++i) {
        if (progress.stop.stop_requested()) return {};
        auto& o = outlooks[i];
        if (settings.searched &&
            (o.falls_behind || o.chance_of_missing_window > 1 - context.site.confidence))
            o.line_rate_needed =
                searches
                    .try_emplace(sends[i].link, context, sends[i].link, context.site.confidence, plan,
                                 paths, settings.threads, progress.stop)
                    .first->second.needed({i});
    }
    return outlooks;
}

}  // namespace ullage
