// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/replay/replay.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace ullage {

namespace {

constexpr double never = std::numeric_limits<double>::infinity();
constexpr double bit_slack = 1e-3;  // of a bit: what rounding of event times may leave over

double as_seconds(Instant t) { return static_cast<double>(t.time_since_epoch().count()); }
Instant as_instant(double s) {
    return Instant(std::chrono::seconds(static_cast<std::int64_t>(std::ceil(s - 1e-6))));
}

/// Walks the open stretches of a link forward in time.
class HoursCursor {
public:
    explicit HoursCursor(const std::vector<OpenStretch>& open) : open_(open) {}

    /// Share at t; t never goes back.
    double share_at(double t) {
        while (at_ < open_.size() && as_seconds(open_[at_].to) <= t) ++at_;
        return at_ < open_.size() && as_seconds(open_[at_].from) <= t ? open_[at_].share : 0;
    }
    /// The next change after the t last asked for.
    double next_change(double t) const {
        if (at_ >= open_.size()) return never;
        const double from = as_seconds(open_[at_].from);
        return from > t ? from : as_seconds(open_[at_].to);
    }

private:
    const std::vector<OpenStretch>& open_;
    std::size_t at_ = 0;
};

/// Where the link first closes after `due` (or after it opens, if closed then), and how many open
/// hours lie between due and the sooner of that and `next_due`.
struct Window {
    double deadline = never;
    double open_hours = 0;
};

Window window_of(const std::vector<OpenStretch>& open, double due, double next_due) {
    Window window;
    auto it = std::partition_point(open.begin(), open.end(),
                                   [&](const OpenStretch& s) { return as_seconds(s.to) <= due; });
    double closing = never;
    for (; it != open.end(); ++it) {
        const double from = std::max(as_seconds(it->from), due);
        if (from >= next_due || (closing != never && from > closing)) break;
        closing = as_seconds(it->to);  // stretches that touch go on at another share
        window.open_hours +=
            std::max(0.0, std::min(closing, next_due) - from) / seconds_per_hour;
        if (closing >= next_due) break;
    }
    window.deadline = std::min(closing, next_due);
    return window;
}

struct Active {
    std::size_t send = 0;
    double bits_left = 0;
    double rate = 0;
    RunRecord record;
    double deadline = never;
    std::vector<std::vector<Instant>> arriving;  // per dataset, oldest first
};

/// Even shares of a line; what one cannot use goes to the others.
void share_line(double line_bits, std::vector<Active>& active, const std::vector<ReplaySend>& sends) {
    double left = line_bits;
    std::vector<Active*> open;
    for (auto& a : active) {
        a.rate = 0;
        open.push_back(&a);
    }
    std::sort(open.begin(), open.end(), [&](const Active* a, const Active* b) {
        const double ra = sends[a->send].own_bits_per_second;
        const double rb = sends[b->send].own_bits_per_second;
        return ra != rb ? ra < rb : a->send < b->send;
    });
    for (std::size_t i = 0; i < open.size(); ++i) {
        const double even = left / static_cast<double>(open.size() - i);
        open[i]->rate = std::min(even, sends[open[i]->send].own_bits_per_second);
        left -= open[i]->rate;
    }
}

/// One send's progress through its calendar.
struct Progress {
    std::size_t next = 0;             // index of the next due time
    bool going = false;
    bool waiting = false;             // due while going
    double waiting_since = 0;
    std::size_t waiting_index = 0;
    std::vector<std::vector<Instant>> received;  // per dataset, oldest first
};

/// The snapshots after `from` up to `target` that, at t, are still at the source; `target` always.
std::vector<Instant> steps_between(const SnapshotSupply& supply, Instant from, Instant target,
                                   Instant t) {
    std::vector<Instant> steps;
    auto it = std::upper_bound(supply.taken.begin(), supply.taken.end(), from);
    for (; it != supply.taken.end() && *it <= target; ++it)
        if (*it == target || supply.expires[static_cast<std::size_t>(it - supply.taken.begin())] > t)
            steps.push_back(*it);
    return steps;
}

/// The newest snapshot that is at the box and, at t, still at the source.
std::optional<Instant> common_snapshot(const ReplaySend& send, std::size_t dataset,
                                       const std::vector<Instant>& received, Instant t) {
    if (received.empty()) return {};
    if (send.hold_last_sent) return received.back();
    const auto& d = send.datasets[dataset];
    const auto at_source = [&](Instant s) {
        const auto it = std::lower_bound(d.supply.taken.begin(), d.supply.taken.end(), s);
        return it != d.supply.taken.end() && *it == s &&
               d.supply.expires[static_cast<std::size_t>(it - d.supply.taken.begin())] > t;
    };
    if (at_source(received.back())) return received.back();
    const auto kept = d.box_ladder ? d.box_ladder->thinned(received, t) : received;
    for (auto it = kept.rbegin(); it != kept.rend(); ++it)
        if (at_source(*it)) return *it;
    return {};
}

class LinkReplay {
public:
    LinkReplay(const ReplayLink& link, int index, const std::vector<ReplaySend>& sends, Instant end,
               const SendBytes& bytes, std::vector<std::vector<RunRecord>>& out)
        : link_(link), sends_(sends), end_(as_seconds(end)), bytes_(bytes), out_(out),
          progress_(sends.size()) {
        for (std::size_t s = 0; s < sends.size(); ++s) {
            if (sends[s].link != index) continue;
            mine_.push_back(s);
            progress_[s].received = sends[s].already;
            progress_[s].received.resize(sends[s].datasets.size());
        }
    }

    void run() {
        HoursCursor cursor(link_.open);
        double now = -never;
        for (;;) {
            double next_due = never;
            for (const std::size_t s : mine_) next_due = std::min(next_due, due_of(s));
            if (active_.empty()) {
                if (next_due >= end_) break;
                now = next_due;
            } else {
                const double share = cursor.share_at(now);
                share_line(link_.line_bits_per_second * share, active_, sends_);
                double next = std::min({next_due, cursor.next_change(now), end_});
                for (const auto& a : active_)
                    if (a.rate > 0) next = std::min(next, now + a.bits_left / a.rate);
                for (auto& a : active_) a.bits_left -= a.rate * (next - now);
                now = next;
                finish_runs(now);
                if (now >= end_) break;
            }
            start_runs(now);
        }
        for (auto& a : active_) {
            a.record.done = as_instant(end_);
            a.record.finished = false;
            a.record.missed = a.deadline < end_;  // at the end itself: cut off, not late
            out_[a.send].push_back(a.record);
        }
    }

private:
    double due_of(std::size_t s) const {
        const auto& due = sends_[s].due;
        return progress_[s].next < due.size() ? as_seconds(due[progress_[s].next]) : never;
    }

    void finish_runs(double now) {
        for (std::size_t i = 0; i < active_.size();) {
            auto& a = active_[i];
            // Times of 1e9 s resolve 1e-7 s: at line rate that is a few hundred bits.
            const double slack = bit_slack + a.rate * 1e-6;
            if (a.bits_left > slack) {
                ++i;
                continue;
            }
            a.record.done = as_instant(now);
            a.record.missed = as_seconds(a.record.done) > a.deadline + 1;
            auto& p = progress_[a.send];
            for (std::size_t d = 0; d < a.arriving.size(); ++d)
                p.received[d].insert(p.received[d].end(), a.arriving[d].begin(), a.arriving[d].end());
            p.going = false;
            out_[a.send].push_back(a.record);
            active_.erase(active_.begin() + static_cast<std::ptrdiff_t>(i));
        }
    }

    void start_runs(double now) {
        for (const std::size_t s : mine_) {
            auto& p = progress_[s];
            while (due_of(s) <= now) {
                if (!p.waiting) {
                    p.waiting = true;
                    p.waiting_since = due_of(s);
                    p.waiting_index = p.next;
                }
                ++p.next;
            }
            if (p.waiting && !p.going) begin(s, now);
        }
    }

    void begin(std::size_t s, double now) {
        const auto& send = sends_[s];
        auto& p = progress_[s];
        p.waiting = false;
        const Instant t = as_instant(now);
        Active a;
        a.send = s;
        a.record.due = as_instant(p.waiting_since);
        a.record.begun = t;
        const double next_due = p.waiting_index + 1 < send.due.size()
                                    ? as_seconds(send.due[p.waiting_index + 1]) : end_;
        const Window window = window_of(link_.open, p.waiting_since, next_due);
        a.deadline = window.deadline;
        a.record.open_hours = window.open_hours;
        Instant oldest = Instant::max();
        a.arriving.resize(send.datasets.size());
        for (std::size_t d = 0; d < send.datasets.size(); ++d) {
            const auto& dataset = send.datasets[d];
            const auto newest = dataset.supply.newest_at(t);
            const Instant last = p.received[d].empty() ? Instant::min() : p.received[d].back();
            if (!newest || dataset.supply.taken[*newest] <= last) {  // nothing new: nothing to send
                oldest = std::min(oldest, last);
                continue;
            }
            const Instant target = dataset.supply.taken[*newest];
            const auto base = common_snapshot(send, d, p.received[d], t);
            if (!base) {
                a.record.full = true;
                a.record.bytes += bytes_(static_cast<int>(s), dataset.dataset, {}, target);
            } else if (send.every_step) {
                Instant from = *base;
                for (const Instant step : steps_between(dataset.supply, from, target, t)) {
                    a.record.bytes += bytes_(static_cast<int>(s), dataset.dataset, from, step);
                    from = step;
                    if (step > last && step < target) a.arriving[d].push_back(step);
                }
            } else {
                a.record.bytes += bytes_(static_cast<int>(s), dataset.dataset, *base, target);
            }
            a.arriving[d].push_back(target);
            oldest = std::min(oldest, target);
        }
        a.record.snapshot = oldest;
        a.bits_left = a.record.bytes * 8;
        p.going = true;
        active_.push_back(std::move(a));
        finish_runs(now);  // a run with nothing to send is done at once
    }

    const ReplayLink& link_;
    const std::vector<ReplaySend>& sends_;
    double end_;
    const SendBytes& bytes_;
    std::vector<std::vector<RunRecord>>& out_;
    std::vector<Progress> progress_;
    std::vector<std::size_t> mine_;
    std::vector<Active> active_;
};

}  // namespace

std::optional<std::size_t> SnapshotSupply::newest_at(Instant t) const {
    const auto it = std::upper_bound(taken.begin(), taken.end(), t);
    if (it == taken.begin()) return {};
    return static_cast<std::size_t>(it - taken.begin()) - 1;
}

SnapshotSupply snapshots_to_send(const LadderClock& ladder, Send::Steps steps, Duration period,
                                 Instant from, Instant to) {
    SnapshotSupply supply;
    if (steps == Send::Steps::every) {
        supply.taken = ladder.taken(from, to);
    } else {
        double longest = 0;
        for (const auto& rung : ladder.rungs())
            longest = std::max(longest, static_cast<double>(rung.lasts.count()));
        const double needed = std::min(2 * period.value, longest);
        for (const auto& rung : ladder.rungs()) {
            if (static_cast<double>(rung.lasts.count()) < needed) continue;
            const auto points = rung.grid.between(from, to);
            supply.taken.insert(supply.taken.end(), points.begin(), points.end());
        }
        std::sort(supply.taken.begin(), supply.taken.end());
        supply.taken.erase(std::unique(supply.taken.begin(), supply.taken.end()), supply.taken.end());
    }
    supply.expires.reserve(supply.taken.size());
    for (const auto s : supply.taken) supply.expires.push_back(ladder.expires(s));
    return supply;
}

std::vector<std::vector<RunRecord>> replay(const std::vector<ReplayLink>& links,
                                           const std::vector<ReplaySend>& sends, Instant end,
                                           const SendBytes& bytes) {
    std::vector<std::vector<RunRecord>> runs(sends.size());
    for (std::size_t l = 0; l < links.size(); ++l)
        LinkReplay(links[l], static_cast<int>(l), sends, end, bytes, runs).run();
    return runs;
}

std::optional<Instant> transfer_end(const ReplayLink& link, double own_bits_per_second, double bytes,
                                    Instant start) {
    double bits = bytes * 8;
    if (bits <= 0) return start;
    for (const auto& stretch : link.open) {
        if (stretch.to <= start) continue;
        const double from = std::max(as_seconds(stretch.from), as_seconds(start));
        const double rate = std::min(link.line_bits_per_second * stretch.share, own_bits_per_second);
        if (rate <= 0) continue;
        const double room = rate * (as_seconds(stretch.to) - from);
        if (room >= bits) return as_instant(from + bits / rate);
        bits -= room;
    }
    return {};
}

std::vector<AgeStretch> copy_ages(const std::vector<RunRecord>& runs, Instant first_snapshot,
                                  Instant from, Instant to) {
    std::vector<AgeStretch> ages;
    Instant snapshot = first_snapshot;
    Instant since = from;
    const auto put = [&](Instant until) {
        if (until <= since) return;
        const double age = as_seconds(since) - as_seconds(snapshot);
        ages.push_back({age / seconds_per_hour,
                        (as_seconds(until) - as_seconds(snapshot)) / seconds_per_hour});
        since = until;
    };
    for (const auto& run : runs) {
        if (!run.finished || run.snapshot <= snapshot) continue;
        if (run.done >= to) break;
        if (run.done > from) put(run.done);
        snapshot = run.snapshot;
    }
    put(to);
    return ages;
}

double age_quantile(const std::vector<AgeStretch>& ages, double p) {
    if (ages.empty()) return 0;
    double total = 0;
    double low = never;
    double high = 0;
    for (const auto& a : ages) {
        total += a.to_hours - a.from_hours;
        low = std::min(low, a.from_hours);
        high = std::max(high, a.to_hours);
    }
    for (int step = 0; step < 60; ++step) {  // bisection on the exact distribution function
        const double middle = (low + high) / 2;
        double below = 0;
        for (const auto& a : ages)
            below += std::clamp(middle, a.from_hours, a.to_hours) - a.from_hours;
        (below < p * total ? low : high) = middle;
    }
    return (low + high) / 2;
}

std::optional<double> longest_outage_days(const ReplaySend& send, const std::vector<RunRecord>& runs,
                                          Instant from, Instant to) {
    if (send.hold_last_sent) return {};
    constexpr std::size_t samples = 120;
    const auto counts = [&](const RunRecord& run) {
        return run.finished && run.done >= from && run.done < to;
    };
    const auto ended = static_cast<std::size_t>(std::count_if(runs.begin(), runs.end(), counts));
    if (ended == 0) return {};
    const std::size_t step = std::max<std::size_t>(1, ended / samples);
    double least = never;
    for (std::size_t k = 0; k < send.datasets.size(); ++k) {
        const auto& d = send.datasets[k];
        auto received = k < send.already.size() ? send.already[k] : std::vector<Instant>();
        std::size_t seen = 0;
        for (const auto& run : runs) {
            if (!run.finished) continue;
            if (const auto newest = d.supply.newest_at(run.begun);
                newest && (received.empty() || d.supply.taken[*newest] > received.back())) {
                const Instant target = d.supply.taken[*newest];
                if (send.every_step && !run.full && !received.empty()) {
                    const auto steps = steps_between(d.supply, received.back(), target, run.begun);
                    received.insert(received.end(), steps.begin(), steps.end());
                } else {
                    received.push_back(target);
                }
            }
            if (!counts(run) || seen++ % step != 0) continue;
            const auto kept = d.box_ladder ? d.box_ladder->thinned(received, run.done) : received;
            Instant last = run.done;
            for (const auto s : kept) {
                const auto it = std::lower_bound(d.supply.taken.begin(), d.supply.taken.end(), s);
                if (it == d.supply.taken.end() || *it != s) continue;
                last = std::max(last, d.supply.expires[static_cast<std::size_t>(
                                          it - d.supply.taken.begin())]);
            }
            least = std::min(least, days_between(run.done, last));
        }
    }
    return least;
}

}  // namespace ullage
