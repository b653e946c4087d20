// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/replay/replay.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace ullage {

namespace {

/// Where the line first closes after `due` (or after it opens, if closed then), and how many open
/// hours lie between due and the sooner of that and `next_due`.
struct Window {
    double deadline = never_s;
    double open_hours = 0;
};

/// `first` is where the search begins, and is left at the first stretch that ends after due; dues of a send
/// do not fall.
Window window_of(const std::vector<OpenStretch>& open, std::size_t& first, double due, double next_due) {
    Window window;
    while (first < open.size() && as_seconds(open[first].to) <= due) ++first;
    auto it = open.begin() + static_cast<std::ptrdiff_t>(first);
    double closing = never_s;
    for (; it != open.end(); ++it) {
        const double from = std::max(as_seconds(it->from), due);
        if (from >= next_due || (closing != never_s && from > closing)) break;
        closing = as_seconds(it->to);  // stretches that touch go on at another share
        window.open_hours += std::max(0.0, std::min(closing, next_due) - from) / seconds_per_hour;
        if (closing >= next_due) break;
    }
    window.deadline = std::min(closing, next_due);
    return window;
}

struct Going {
    double deadline = never_s;
    bool deadline_seen = false;
};

/// Datasets of a send of which the same snapshots are at the source and at the box at all times: only their bytes
/// differ.
struct Part {
    std::vector<std::size_t> places;  // in the send's list
    Inventory at_box;
    std::vector<Instant> arriving;  // by the run that is going, oldest first
    // Time only goes on, so what was found last is where the next search begins.
    std::size_t taken = 0;      // snapshots of the source so far
    std::size_t last_sent = 0;  // index of the newest that was under way
};

/// One send's progress.
struct State {
    std::size_t next = 0;  // index of the next due time
    bool going = false;
    bool waiting = false;  // due while going, or just now
    double waiting_since = 0;
    double next_due_after = never_s;  // of the run that waits
    Going run;
    std::vector<Part> parts;
    std::vector<std::size_t> part_of;  // per dataset
    double asked_bytes = 0;
    int ended = 0;               // of those that count for survival
    std::size_t first_open = 0;  // stretch of the line's that a search begins at
};

class Replay {
public:
    Replay(const std::vector<ReplayLink>& links, const std::vector<ReplaySend>& sends, Instant end,
           const SendBytes& bytes, const ReplayOptions& options)
        : links_(links),
          sends_(sends),
          end_(as_seconds(end)),
          bytes_(bytes),
          options_(options),
          states_(sends.size()),
          next_due_(sends.size(), never_s),
          fed_(sends.size()) {
        for (const auto& link : links) lines_.emplace_back(link);
        trace_.runs.resize(sends.size());
        trace_.arrivals.resize(sends.size());
        trace_.whole.resize(sends.size());
        for (std::size_t s = 0; s < sends.size(); ++s) {
            next_due_[s] = due_of(s);
            trace_.runs[s].reserve(sends[s].due.size());
            trace_.arrivals[s].resize(sends[s].datasets.size());
            if (options.keep_arrivals)
                for (auto& list : trace_.arrivals[s]) list.reserve(sends[s].due.size());
        }
        set_order();
        set_soonest_due();
        for (const std::size_t s : order_)
            for (std::size_t d = 0; d < sends[s].datasets.size(); ++d) set_part(s, d);
    }

    ReplayTrace run() {
        double now = -never_s;
        for (;;) {
            double next = soonest_due_;
            for (auto& line : lines_) next = std::min(next, line.next_event(now));
            next = std::min(next, end_);
            for (auto& line : lines_)
                for (const auto& t : line.advance(now, next)) finish(t, next);
            now = next;
            if (next_deadline_ <= now) note_deadlines(now);
            if (now >= end_ || enough_) break;
            if (soonest_due_ <= now || some_wait_) start_all(now);
            if (options_.watch) tell(now);
        }
        cut_off();
        return std::move(trace_);
    }

private:
    void start_all(double now) {
        some_wait_ = false;
        for (const std::size_t s : order_)
            if (next_due_[s] <= now || (states_[s].waiting && !states_[s].going)) start(s, now);
        set_soonest_due();
    }

    void set_soonest_due() {
        soonest_due_ = never_s;
        for (const double due : next_due_) soonest_due_ = std::min(soonest_due_, due);
    }

    /// Sources before those they feed, so that what arrives at once is there for the next.
    void set_order() {
        std::vector<std::size_t> depth(sends_.size(), 0);
        for (std::size_t round = 0; round < sends_.size(); ++round)
            for (std::size_t s = 0; s < sends_.size(); ++s)
                for (const auto& d : sends_[s].datasets)
                    if (d.upstream) depth[s] = std::max(depth[s], depth[d.upstream->send] + 1);
        for (std::size_t s = 0; s < sends_.size(); ++s) order_.push_back(s);
        std::stable_sort(order_.begin(), order_.end(),
                         [&](std::size_t a, std::size_t b) { return depth[a] < depth[b]; });
        for (std::size_t s = 0; s < sends_.size(); ++s)
            for (const auto& d : sends_[s].datasets)
                if (d.upstream && sends_[s].on_arrival) fed_[d.upstream->send].push_back(s);
    }

    /// Puts a dataset with those that go its way.
    void set_part(std::size_t s, std::size_t d) {
        auto& state = states_[s];
        const auto known = std::find_if(state.parts.begin(), state.parts.end(),
                                        [&](const Part& part) { return go_alike(s, part.places.front(), d); });
        state.part_of.push_back(static_cast<std::size_t>(known - state.parts.begin()));
        if (known != state.parts.end()) {
            known->places.push_back(d);
            return;
        }
        state.parts.push_back({{d}, Inventory(sends_[s].datasets[d].box_ladder), {}, 0, 0});
        if (d < sends_[s].already.size())
            for (const auto snapshot : sends_[s].already[d]) state.parts.back().at_box.receive(snapshot);
    }

    bool go_alike(std::size_t s, std::size_t a, std::size_t b) const {
        const auto& x = sends_[s].datasets[a];
        const auto& y = sends_[s].datasets[b];
        const auto& already = sends_[s].already;
        const std::vector<Instant> none;
        if (x.box_ladder != y.box_ladder ||
            (a < already.size() ? already[a] : none) != (b < already.size() ? already[b] : none))
            return false;
        if (x.upstream && y.upstream)
            return x.upstream->send == y.upstream->send && &source_of(x) == &source_of(y);
        return !x.upstream && !y.upstream && x.supply == y.supply;
    }

    double due_of(std::size_t s) const {
        const auto& due = sends_[s].due;
        return states_[s].next < due.size() ? as_seconds(due[states_[s].next]) : never_s;
    }

    double left_of(std::size_t s) const {
        for (const auto& t : lines_[std::size_t(sends_[s].link)].transfers())
            if (t.id == s) return std::max(0.0, t.bits_left);
        return 0;
    }

    void note_deadlines(double now) {
        next_deadline_ = never_s;
        for (std::size_t s = 0; s < states_.size(); ++s) {
            auto& state = states_[s];
            if (!state.going || state.run.deadline_seen) continue;
            if (state.run.deadline > now) {
                next_deadline_ = std::min(next_deadline_, state.run.deadline);
                continue;
            }
            state.run.deadline_seen = true;
            record_of(s).late_bytes = static_cast<float>(left_of(s) / 8);
        }
    }

    void finish(const Transfer& t, double now) {
        auto& state = states_[t.id];
        auto& record = record_of(t.id);
        record.done = as_instant(now);
        record.busy_hours = static_cast<float>(t.busy_seconds / seconds_per_hour);
        // On arrival there is no next due time beforehand: late is what the next arrival overtook.
        record.missed = as_seconds(record.done) > state.run.deadline + 1 ||
                        (sends_[t.id].on_arrival && state.waiting && state.waiting_since < now);
        state.going = false;
        fetch_next(record);
        some_wait_ = some_wait_ || state.waiting;
        for (auto& part : state.parts)
            for (const auto snapshot : part.arriving) {
                part.at_box.receive(snapshot);
                if (!options_.keep_arrivals) continue;
                for (const std::size_t d : part.places) trace_.arrivals[t.id][d].push_back({snapshot, record.done});
            }
        if (record.done >= options_.survival_from && state.ended++ % options_.survival_every == 0)
            record.survives_until = survival(t.id, record.done);
        if (options_.enough && options_.enough(t.id, record)) enough_ = true;
        for (const std::size_t next : fed_[t.id]) arrive(next, now);
    }

    /// Room for the next run's record is fetched while other sends are worked at.
    static void fetch_next([[maybe_unused]] const RunRecord& record) {
#ifdef __GNUC__
        __builtin_prefetch(&record + 1, 1);
        __builtin_prefetch(reinterpret_cast<const char*>(&record + 1) + sizeof(RunRecord) - 1, 1);
#endif
    }

    /// Of the run that is going, the last of the trace.
    RunRecord& record_of(std::size_t s) { return trace_.runs[s].back(); }

    /// Something has come to the box that the send starts from.
    void arrive(std::size_t s, double now) {
        auto& state = states_[s];
        if (state.waiting || now < as_seconds(sends_[s].from)) return;
        for (auto& part : state.parts) {
            const auto newest = newest_at_source(s, part, as_instant(now));
            if (newest <= part.at_box.newest()) continue;
            if (state.going && !part.arriving.empty() && part.arriving.back() >= newest) continue;
            state.waiting = some_wait_ = true;
            state.waiting_since = now;
            state.next_due_after = never_s;
            return;
        }
    }

    void start(std::size_t s, double now) {
        auto& state = states_[s];
        const auto& due = sends_[s].due;
        while (next_due_[s] <= now) {
            if (!state.waiting) {
                state.waiting = true;
                state.waiting_since = next_due_[s];
                state.next_due_after =
                    state.next + 1 < due.size() ? as_seconds(due[state.next + 1]) : end_;
            }
            ++state.next;
            next_due_[s] = due_of(s);
        }
        if (state.waiting && !state.going) begin(s, now);
    }

    const Inventory& source_of(const ReplayDataset& d) const {
        const auto& from = states_[d.upstream->send];
        return from.parts[from.part_of[d.upstream->part]].at_box;
    }

    /// Any of the part's datasets: they are alike.
    const ReplayDataset& dataset_of(std::size_t s, const Part& part) const {
        return sends_[s].datasets[part.places.front()];
    }

    Instant newest_at_source(std::size_t s, Part& part, Instant t) const {
        const auto& dataset = dataset_of(s, part);
        if (dataset.upstream)
            return sends_[s].every_step ? source_of(dataset).newest()
                                        : source_of(dataset).newest_lasting(sends_[s].lasting, t);
        const auto& taken = dataset.supply->taken;
        auto& count = part.taken;
        while (count < taken.size() && taken[count] <= t) ++count;
        return count == 0 ? no_snapshot : taken[count - 1];
    }

    /// `near`: where the snapshot may lie among those taken.
    bool at_source(const ReplayDataset& d, Instant snapshot, std::size_t near, Instant t) const {
        if (d.upstream) return source_of(d).holds(snapshot, t);
        if (near < d.supply->taken.size() && d.supply->taken[near] == snapshot)
            return d.supply->expires[near] > t;
        const auto end = d.supply->end_of(snapshot);
        return end && *end > t;
    }

    /// The newest snapshot that is at the box and, at t, still at the source; or none.
    Instant common(std::size_t s, const Part& part, Instant t) const {
        const auto& box = part.at_box;
        if (box.empty()) return no_snapshot;
        const auto& dataset = dataset_of(s, part);
        const std::size_t near = part.last_sent;
        if (sends_[s].hold_last_sent || at_source(dataset, box.newest(), near, t)) return box.newest();
        const auto kept = box.kept(t);
        for (auto it = kept.rbegin(); it != kept.rend(); ++it)
            if (at_source(dataset, *it, near, t)) return *it;
        return no_snapshot;
    }

    Instant survival(std::size_t s, Instant t) const {
        if (sends_[s].hold_last_sent) return Instant::max();
        Instant least = Instant::max();
        for (const auto& part : states_[s].parts) {
            const auto& dataset = dataset_of(s, part);
            Instant last = t;
            for (const auto snapshot : part.at_box.kept(t)) {
                if (dataset.upstream) {
                    if (source_of(dataset).holds(snapshot, t))
                        last = std::max(last, source_of(dataset).expires(snapshot));
                } else if (const auto end = dataset.supply->end_of(snapshot)) {
                    last = std::max(last, *end);
                }
            }
            least = std::min(least, last);
        }
        return least;
    }

    /// The snapshots after `from` up to `target` that, at t, are still at the source; `target`
    /// always.
    std::vector<Instant> steps_between(const ReplayDataset& d, Instant from, Instant target,
                                       Instant t) const {
        std::vector<Instant> steps;
        if (d.upstream) {
            for (const auto snapshot : source_of(d).kept(t))
                if (snapshot > from && snapshot <= target) steps.push_back(snapshot);
            return steps;
        }
        const auto& taken = d.supply->taken;
        auto it = std::upper_bound(taken.begin(), taken.end(), from);
        for (; it != taken.end() && *it <= target; ++it)
            if (*it == target || d.supply->expires[std::size_t(it - taken.begin())] > t)
                steps.push_back(*it);
        return steps;
    }

    /// The bytes that bring a part's datasets to `newest`; the steps before it arrive with it.
    void ask_for(std::size_t s, Part& part, Instant newest, Instant last, Instant t) {
        const auto& send = sends_[s];
        auto& record = record_of(s);
        const int index = static_cast<int>(s);
        const Instant base = common(s, part, t);
        if (base == no_snapshot) {
            record.full = true;
            for (const std::size_t d : part.places) {
                trace_.whole[s].push_back({t, d});
                record.bytes += bytes_(index, send.datasets[d].dataset, no_snapshot, newest);
            }
        } else if (send.every_step) {
            const auto steps = steps_between(dataset_of(s, part), base, newest, t);
            for (const std::size_t d : part.places) {
                Instant from = base;
                for (const Instant step : steps) {
                    record.bytes += bytes_(index, send.datasets[d].dataset, from, step);
                    from = step;
                }
            }
            for (const Instant step : steps)
                if (step > last && step < newest) part.arriving.push_back(step);
        } else {
            for (const std::size_t d : part.places)
                record.bytes += bytes_(index, send.datasets[d].dataset, base, newest);
        }
    }

    void begin(std::size_t s, double now) {
        const auto& send = sends_[s];
        auto& state = states_[s];
        state.waiting = false;
        const Instant t = as_instant(now);
        Going& run = state.run;
        run.deadline_seen = false;
        auto& record = trace_.runs[s].emplace_back();
        record.due = as_instant(state.waiting_since);
        record.begun = t;
        record.waited = as_seconds(record.due) < now;
        const Window window = window_of(links_[std::size_t(send.link)].open, state.first_open,
                                        state.waiting_since, state.next_due_after);
        run.deadline = window.deadline;
        if (window.deadline < never_s) record.deadline = as_instant(window.deadline);
        record.open_hours = static_cast<float>(window.open_hours);
        Instant oldest = Instant::max();
        for (auto& part : state.parts) {
            part.arriving.clear();
            const Instant newest = newest_at_source(s, part, t);
            const Instant last = part.at_box.newest();
            if (newest <= last) {  // nothing new: nothing to send
                oldest = std::min(oldest, last);
                continue;
            }
            ask_for(s, part, newest, last, t);
            part.arriving.push_back(newest);
            part.last_sent = std::max<std::size_t>(part.taken, 1) - 1;
            oldest = std::min(oldest, newest);
        }
        record.snapshot = oldest;
        state.asked_bytes += record.bytes;
        state.going = true;
        Transfer transfer;
        transfer.id = s;
        transfer.bits_left = record.bytes * 8;
        transfer.own_bits_per_second = send.own_bits_per_second;
        if (transfer.bits_left <= 0) {  // nothing to send is done at once
            finish(transfer, now);
            return;
        }
        next_deadline_ = std::min(next_deadline_, state.run.deadline);
        lines_[std::size_t(send.link)].begin(transfer);
    }

    void tell(double now) {
        std::vector<SendBooks> books(sends_.size());
        for (std::size_t s = 0; s < sends_.size(); ++s)
            books[s] = {states_[s].asked_bytes, left_of(s) / 8, states_[s].waiting};
        std::vector<double> carried;
        for (const auto& line : lines_) carried.push_back(line.carried_bits() / 8);
        options_.watch(now, books, carried);
    }

    /// Runs still going at the end.
    void cut_off() {
        for (std::size_t s = 0; s < states_.size(); ++s) {
            auto& state = states_[s];
            if (!state.going) continue;
            auto& record = record_of(s);
            record.done = as_instant(end_);
            record.finished = false;
            record.missed = state.run.deadline < end_;  // at the end itself: cut off, not late
            for (const auto& t : lines_[std::size_t(sends_[s].link)].transfers())
                if (t.id == s) record.busy_hours = static_cast<float>(t.busy_seconds / seconds_per_hour);
        }
    }

    const std::vector<ReplayLink>& links_;
    const std::vector<ReplaySend>& sends_;
    double end_;
    const SendBytes& bytes_;
    const ReplayOptions& options_;
    std::vector<Line> lines_;
    std::vector<State> states_;
    std::vector<double> next_due_;  // of each send
    double soonest_due_ = never_s;
    bool some_wait_ = false;        // a run that no due time of its own starts
    bool enough_ = false;
    double next_deadline_ = never_s;  // of the runs going: none is sooner
    std::vector<std::size_t> order_;
    std::vector<std::vector<std::size_t>> fed_;  // by each send: those that start on its arrivals
    ReplayTrace trace_;
};

}  // namespace

std::optional<std::size_t> SnapshotSupply::newest_at(Instant t) const {
    const auto it = std::upper_bound(taken.begin(), taken.end(), t);
    if (it == taken.begin()) return {};
    return static_cast<std::size_t>(it - taken.begin()) - 1;
}

std::optional<Instant> SnapshotSupply::end_of(Instant snapshot) const {
    const auto it = std::lower_bound(taken.begin(), taken.end(), snapshot);
    if (it == taken.end() || *it != snapshot) return {};
    return expires[static_cast<std::size_t>(it - taken.begin())];
}

SnapshotSupply snapshots_to_send(const LadderClock& ladder, Send::Steps steps, Duration period,
                                 Instant from, Instant to) {
    double longest = 0;
    for (const auto& rung : ladder.rungs())
        longest = std::max(longest, static_cast<double>(rung.lasts.count()));
    // Of `newest` only rungs that outlast two periods; a shorter one keeps none of theirs any
    // longer.
    const double needed = steps == Send::Steps::every ? 0 : std::min(2 * period.value, longest);
    std::vector<std::pair<Instant, Instant>> ends;  // taken, let go of by one of its rungs
    for (const auto& rung : ladder.rungs()) {
        if (static_cast<double>(rung.lasts.count()) < needed) continue;
        for (const auto taken : rung.grid.between(from, to))
            ends.emplace_back(taken, taken + rung.lasts);
    }
    std::sort(ends.begin(), ends.end());
    SnapshotSupply supply;
    for (const auto& [taken, end] : ends) {
        if (!supply.taken.empty() && supply.taken.back() == taken) {
            supply.expires.back() = end;  // sorted: the later one
            continue;
        }
        supply.taken.push_back(taken);
        supply.expires.push_back(end);
    }
    return supply;
}

ReplayTrace replay_traced(const std::vector<ReplayLink>& links,
                          const std::vector<ReplaySend>& sends, Instant end, const SendBytes& bytes,
                          const ReplayOptions& options) {
    return Replay(links, sends, end, bytes, options).run();
}

std::vector<std::vector<RunRecord>> replay(const std::vector<ReplayLink>& links,
                                           const std::vector<ReplaySend>& sends, Instant end,
                                           const SendBytes& bytes) {
    return replay_traced(links, sends, end, bytes, {}).runs;
}

std::optional<Instant> transfer_end(const ReplayLink& link, double own_bits_per_second,
                                    double bytes, Instant start) {
    double bits = bytes * 8;
    if (bits <= 0) return start;
    for (const auto& stretch : link.open) {
        if (stretch.to <= start) continue;
        const double from = std::max(as_seconds(stretch.from), as_seconds(start));
        const double rate =
            std::min(link.line_bits_per_second * stretch.share, own_bits_per_second);
        if (rate <= 0) continue;
        const double room = rate * (as_seconds(stretch.to) - from);
        if (room >= bits) return as_instant(from + bits / rate);
        bits -= room;
    }
    return {};
}

std::vector<OpenStretch> closed_between(const std::vector<OpenStretch>& open, Instant from,
                                        Instant to) {
    std::vector<OpenStretch> left;
    for (const auto& s : open) {
        if (s.from < from) left.push_back({s.from, std::min(s.to, from), s.share});
        if (s.to > to) left.push_back({std::max(s.from, to), s.to, s.share});
    }
    return left;
}

}  // namespace ullage
