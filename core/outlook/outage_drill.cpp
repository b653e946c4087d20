// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/outage_drill.h"

#include "core/outlook/box_parts.h"
#include "core/outlook/run_quantiles.h"
#include "core/outlook/send_study.h"
#include "core/replay/copy_age.h"
#include "core/site/site_json.h"
#include "core/units/quantiles.h"
#include "core/units/quantity_text.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>

namespace ullage {

namespace {

constexpr double look_back_days = 35;
constexpr int box_paths = 200;                                            // for one median
constexpr double days_before = 7, days_after = 4, most_days_after = 183;  // of the days told

tl::unexpected<ComputeError> refused(std::string where, std::string what) {
    return tl::unexpected(ComputeError(Problems{{std::move(where), std::move(what)}}));
}

/// What one path's runs tell of the outage.
struct PathOutcome {
    double backlog_bytes = 0;
    std::optional<double> catch_up_days;
    bool full = false;
    double full_bytes = 0;
    double full_days = 0;
    Instant full_begun{};  ///< of the largest run that sent something whole
};

PathOutcome outcome_of(const std::vector<RunRecord>& runs, Instant down, Instant back) {
    PathOutcome o;
    std::size_t i = 0;
    while (i < runs.size() && !(runs[i].due < back && runs[i].done > back)) ++i;
    if (i == runs.size()) {
        o.catch_up_days = 0;
        return o;
    }
    for (; i < runs.size(); ++i) {
        const auto& run = runs[i];
        if (run.due < back) {
            // What was left when its window closed has not moved since, if that was in the outage.
            const bool known = run.begun < back && run.deadline >= down && run.deadline <= back;
            o.backlog_bytes += known ? static_cast<double>(run.late_bytes) : run.bytes;
        }
        if (run.full) {
            o.full = true;
            if (run.bytes > o.full_bytes) {
                o.full_bytes = run.bytes;
                o.full_begun = run.begun;
                o.full_days = days_between(run.begun, run.done);
            }
        }
        if (!run.finished) break;
        if (i + 1 == runs.size() || !runs[i + 1].waited) {
            o.catch_up_days = days_between(back, run.done);
            break;
        }
    }
    return o;
}

/// Bytes of a path's runs that are due and not yet carried at `t`; the line is down in between.
double waiting_at(const std::vector<RunRecord>& runs, Instant t, Instant down, Instant back) {
    double waiting = 0;
    // The line's time, in which the outage does not pass.
    const auto line_time = [&](Instant at) {
        return as_seconds(at <= down  ? at
                          : at < back ? down
                                      : at) -
               (at >= back ? as_seconds(back) - as_seconds(down) : 0);
    };
    const auto part = [](double from, double to, double at) {
        return to > from ? std::clamp((at - from) / (to - from), 0.0, 1.0) : 1.0;
    };
    for (const auto& run : runs) {
        if (run.due >= t) break;
        const auto late_bytes = static_cast<double>(run.late_bytes);
        if (run.finished && run.done <= t) continue;
        if (run.begun > t) {
            const Instant full = std::min(run.begun, std::max(back, run.due));
            waiting += run.bytes * part(as_seconds(run.due), as_seconds(full), as_seconds(t));
            continue;
        }
        // From all of it, through what was left at the deadline, to nothing.
        if (run.deadline > run.begun && run.deadline < run.done) {
            if (t < run.deadline) {
                waiting += run.bytes - (run.bytes - late_bytes) * part(line_time(run.begun),
                                                                           line_time(run.deadline),
                                                                           line_time(t));
            } else {
                waiting += late_bytes *
                           (1 - part(line_time(run.deadline), line_time(run.done), line_time(t)));
            }
        } else if (run.finished) {
            waiting +=
                run.bytes * (1 - part(line_time(run.begun), line_time(run.done), line_time(t)));
        } else {
            waiting += run.bytes;
        }
    }
    return waiting;
}

/// The rung that keeps its snapshots longest, twice as long.
bool lengthen(Ladder& ladder) {
    if (ladder.empty()) return false;
    auto& rung = *std::max_element(ladder.begin(), ladder.end(), [](const Rung& a, const Rung& b) {
        return a.lasts() < b.lasts();
    });
    if (rung.count)
        rung.count = *rung.count * 2;
    else if (rung.keep_for)
        rung.keep_for = Entered<Duration>(rung.keep_for->value * 2);
    return true;
}

/// Twice the longest rung of the ladder by which the send's source keeps its datasets; what was
/// lengthened, in words.
std::string lengthen_source(Site& site, const std::vector<PlannedSend>& plans, std::size_t s) {
    std::string what;
    for (std::size_t d = 0; d < plans[s].datasets.size(); ++d) {
        std::size_t from = s;
        std::optional<Upstream> up = plans[s].upstream[d];
        Ladder* ladder = &site.datasets[std::size_t(plans[s].datasets[d])].ladder;
        while (up) {
            auto& bringer = site.sends[up->send];
            if (auto* own = std::get_if<Ladder>(&bringer.ladder)) {
                ladder = own;
                break;
            }
            if (std::holds_alternative<KeepAll>(bringer.ladder)) {
                ladder = nullptr;
                break;
            }
            from = up->send;
            up = plans[from].upstream[up->part];
        }
        if (ladder && lengthen(*ladder))
            what +=
                (what.empty() ? "" : ", ") + site.datasets[std::size_t(plans[s].datasets[d])].name;
    }
    return what;
}

/// The least over the runs that ended in the weeks before `until`.
std::optional<double> survived(const SendContext& context, const std::vector<PlannedSend>& plans,
                               std::size_t send, const PathsPlan& plan, const Paths& paths,
                               int threads, Instant until, const Progress& progress) {
    PathsReplay settings;
    settings.threads = threads;
    settings.survival_from = add_days(until, -look_back_days);
    settings.survival_on_all_paths = true;
    const auto traces = replay_paths(context, plans, plan, paths, settings, progress, 0, 1);
    std::optional<double> least;
    if (!traces) return least;
    for (const auto& path : *traces) {
        std::vector<RunRecord> before;
        for (const auto& run : path[send])
            if (run.done <= until) before.push_back(run);
        if (const auto days = longest_outage_days(before))
            least = std::min(least.value_or(*days), *days);
    }
    return least;
}

class Drill {
public:
    Drill(const SendStudy& study, std::size_t send, const Settings& settings,
          const OutageQuestion& q, const Progress& progress)
        : study_(study),
          context_(study.context()),
          send_(send),
          settings_(settings),
          q_(q),
          progress_(progress),
          down_(study.zone.instant_of(q.from)),
          back_(add_days(down_, q.days)) {}

    std::optional<OutageDrill> run() {
        const auto& plan = study_.plans[send_];
        out_.send = study_.site.sends[send_].name;
        out_.link = study_.site.links[std::size_t(plan.link)].name;
        out_.from = q_.from;
        out_.days = q_.days;
        PathsReplay replayed;
        replayed.threads = settings_.threads;
        replayed.closed_link = plan.link;
        replayed.closed_from = down_;
        replayed.closed_to = back_;
        PathWholes wholes;
        replayed.wholes = &wholes;
        const auto traces = replay_paths(context_, study_.plans, study_.plan, study_.paths,
                                         replayed, quiet(), 0, 1);
        if (!traces) return {};
        tell(*traces, wholes);
        tell_days(*traces);
        const auto longest = [&](const SendContext& c, const std::vector<PlannedSend>& plans) {
            return survived(c, plans, send_, study_.plan, study_.paths, settings_.threads, down_,
                            quiet());
        };
        out_.longest_outage_days = longest(context_, study_.plans);
        if (progress_.stop.stop_requested()) return {};
        if (!study_.site.sends[send_].hold_last_sent) remedies(longest);
        return out_;
    }

    /// Of each path the datasets, by their place in the send's list, that are sent again whole.
    const std::vector<std::vector<bool>>& resent() const { return resent_; }

private:
    /// The same stop; progress is told by the caller.
    Progress quiet() const { return {progress_.stop, {}}; }

    void tell(const Traces& traces, const PathWholes& wholes) {
        const auto& datasets = study_.plans[send_].datasets;
        resent_.assign(traces.size(), std::vector<bool>(datasets.size()));
        std::vector<double> backlog;
        std::vector<double> days;
        std::vector<double> ages;
        std::vector<double> full_bytes;
        std::vector<double> full_days;
        for (std::size_t p = 0; p < traces.size(); ++p) {
            const auto& runs = traces[p][send_];
            const auto o = outcome_of(runs, down_, back_);
            for (const auto& w : wholes[p][send_])
                if (o.full && w.begun == o.full_begun) resent_[p][w.part] = true;
            backlog.push_back(o.backlog_bytes);
            if (o.catch_up_days) days.push_back(*o.catch_up_days);
            if (o.full) {
                full_bytes.push_back(o.full_bytes);
                full_days.push_back(o.full_days);
            }
            ages.push_back(oldest_copy(runs, o.catch_up_days.value_or(study_.horizon_days)));
        }
        const double n = static_cast<double>(traces.size());
        out_.chance_of_catching_up = double(days.size()) / n;
        out_.chance_base_survives = 1 - double(full_bytes.size()) / n;
        out_.resends_whole = !full_bytes.empty();
        std::vector<std::size_t> times(datasets.size());
        for (const auto& path : resent_)
            for (std::size_t part = 0; part < path.size(); ++part)
                times[part] += path[part] ? 1 : 0;
        const std::size_t most = *std::max_element(times.begin(), times.end());
        for (std::size_t part = 0; part < times.size(); ++part)
            if (most > 0 && (times[part] == most || 2 * times[part] >= full_bytes.size()))
                out_.resent_datasets.push_back(
                    study_.site.datasets[std::size_t(datasets[part])].name);
        out_.backlog_bytes = run_quantiles(backlog);
        out_.catch_up_days = run_quantiles(days);
        out_.oldest_copy_hours = run_quantiles(ages);
        out_.resend_bytes = run_quantiles(full_bytes);
        out_.resend_days = run_quantiles(full_days);
    }

    void tell_days(const Traces& traces) {
        const Day first =
            std::max(study_.site.as_of, q_.from - std::chrono::days(static_cast<int>(days_before)));
        const double after = out_.chance_of_catching_up < 0.95
                                 ? most_days_after
                                 : std::min(most_days_after, out_.catch_up_days.p95 + days_after);
        const Instant end =
            std::min(add_days(back_, after), add_days(study_.start, study_.horizon_days));
        std::vector<Instant> edges;  // local midnights
        for (Day day = first; study_.zone.instant_of(day) < end; day += std::chrono::days(1))
            edges.push_back(study_.zone.instant_of(day));
        if (edges.empty()) return;
        edges.push_back(std::min(study_.zone.instant_of(first + std::chrono::days(edges.size())),
                                 add_days(study_.start, study_.horizon_days)));
        const std::size_t days = edges.size() - 1;
        std::vector<std::vector<double>> ages(days);
        std::vector<std::vector<double>> waiting(days);
        for (const auto& path : traces) {
            const auto& runs = path[send_];
            Instant snapshot = edges.front();
            auto from = runs.begin();
            for (; from != runs.end() && from->done <= edges.front(); ++from)
                if (from->finished) snapshot = from->snapshot;
            for (std::size_t k = 0; k < days; ++k) {
                auto to = from;
                while (to != runs.end() && to->done < edges[k + 1]) ++to;
                double oldest = 0;
                for (const auto& a : copy_ages({from, to}, snapshot, edges[k], edges[k + 1]))
                    oldest = std::max(oldest, a.to_hours);
                for (; from != to; ++from)
                    if (from->finished) snapshot = std::max(snapshot, from->snapshot);
                ages[k].push_back(oldest);
                // Only the newest of these can still be going; the rest are done.
                const auto near = from == runs.begin() ? from : std::prev(from);
                const auto last = std::find_if(
                    near, runs.end(), [&](const RunRecord& r) { return r.due >= edges[k + 1]; });
                waiting[k].push_back(waiting_at({near, last}, edges[k + 1], down_, back_));
            }
        }
        for (std::size_t k = 0; k < days; ++k)
            out_.daily.push_back({first + std::chrono::days(k), quantile_of(ages[k], 0.5),
                                  quantile_of(ages[k], 0.95), quantile_of(waiting[k], 0.5),
                                  quantile_of(waiting[k], 0.95)});
    }

    double oldest_copy(const std::vector<RunRecord>& runs, double catch_up_days) const {
        Instant first = down_;
        for (const auto& run : runs)
            if (run.finished && run.done <= down_) first = run.snapshot;
        double oldest = 0;
        const Instant end = std::min(add_days(back_, catch_up_days) + std::chrono::seconds(1),
                                     add_days(study_.start, study_.horizon_days));
        for (const auto& a : copy_ages(runs, first, down_, end))
            oldest = std::max(oldest, a.to_hours);
        return oldest;
    }

    template <class Longest>
    void remedies(const Longest& longest) {
        const auto& from = study_.site.sends[send_].from;
        out_.remedies.push_back({OutageRemedy::Kind::hold_last_sent,
                                 message("holding the last sent snapshot back at {}", from),
                                 {}});
        Site site = study_.site;
        const std::string what = lengthen_source(site, study_.plans, send_);
        if (what.empty()) return;
        const SendContext changed{site, context_.zone, context_.start, context_.horizon_days, context_.models,
                                  context_.threads};
        const auto plans = plan_sends(changed);
        if (!plans) return;
        out_.remedies.push_back(
            {OutageRemedy::Kind::longer_ladder,
             message("keeping the longest rung of {} twice as long at {}", what, from),
             longest(changed, *plans)});
    }

    const SendStudy& study_;
    SendContext context_;
    std::size_t send_;
    const Settings& settings_;
    const OutageQuestion& q_;
    const Progress& progress_;
    Instant down_, back_;
    std::vector<std::vector<bool>> resent_;
    OutageDrill out_;
};

/// Room for a second copy of what is sent again beside the old one, and what is free on the day.
void set_room(OutageDrill& drill, const std::vector<std::vector<bool>>& resent,
              const SendStudy& study, std::size_t s, const Evidence& evidence,
              const Settings& settings, const std::stop_token& stop) {
    const auto& site = study.site;
    const auto& plan = study.plans[s];
    const double back_day =
        days_between(study.start, add_days(study.zone.instant_of(drill.from), drill.days));
    const auto box = std::find_if(site.boxes.begin(), site.boxes.end(),
                                  [&](const Box& b) { return b.name == plan.to; });
    std::optional<BoxSpace> space;
    if (box != site.boxes.end())
        if (auto known = space_of(*box, site.as_of, "")) space = *std::move(known);
    std::vector<double> room;  // of the paths that send something whole
    for (std::size_t p = 0; p < resent.size(); ++p) {
        PathBytes bytes(study.context(), study.plans, study.plan, study.paths, p);
        double needed = 0;
        for (std::size_t part = 0; part < resent[p].size(); ++part) {
            if (!resent[p][part]) continue;
            const auto d = static_cast<std::size_t>(plan.datasets[part]);
            const double charge = space ? space->at(back_day).cost(
                                              site.datasets[d], study.models[d].compression_ratio)
                                        : 1.0;
            needed += bytes.live_bytes(d, add_days(study.start, back_day)) * charge;
        }
        if (needed > 0) room.push_back(needed);
    }
    drill.room_needed_bytes = quantile_of(room, 0.5);
    Settings few = settings;
    few.paths = std::min(few.paths, box_paths);
    few.judged = false;
    few.searched = false;
    const auto outlook = compute(site, evidence, few, {stop, {}});
    if (!outlook) return;
    for (const auto& b : outlook->boxes) {
        if (b.name != plan.to) continue;
        const Day day = site.as_of + std::chrono::days(static_cast<int>(back_day));
        const auto after = std::find_if(b.fill.begin(), b.fill.end(),
                                        [&](const FillPoint& p) { return p.date >= day; });
        const auto& point = after == b.fill.end() ? b.fill.back() : *after;
        drill.room_free_bytes = point.usable_bytes - point.used_bytes.p50;
    }
}

}  // namespace

tl::expected<OutageDrill, ComputeError> outage_drill(const Site& site, const Evidence& evidence,
                                                     const Settings& settings,
                                                     const OutageQuestion& q,
                                                     const Progress& progress) {
    auto study = study_sends(site, evidence, settings, progress);
    if (!study) return tl::unexpected(study.error());
    const auto send = study->send_of(q.send);
    if (!send) {
        std::vector<std::string> known;
        for (const auto& s : study->site.sends) known.push_back(s.name);
        return refused("/sends", fmt::format("there is no send “{}”; known are “{}”", q.send,
                                             fmt::join(known, "”, “")));
    }
    const double from_day = double((q.from - study->site.as_of).count());
    if (!(from_day >= 0 && from_day < study->horizon_days))
        return refused("",
                       fmt::format("an outage from {} is outside the horizon, {} to {}",
                                   format_date(q.from), format_date(study->site.as_of),
                                   format_date(add_days(study->site.as_of, study->horizon_days))));
    if (!(q.days > 0) || from_day + q.days >= study->horizon_days)
        return refused(
            "",
            fmt::format("an outage of {:g} days from {} does not end within the horizon; give "
                        "from above 0 to {:g} days",
                        q.days, format_date(q.from), std::floor(study->horizon_days - from_day)));
    const auto& plan = study->plans[*send];
    if (plan.by != FirstCopy::By::present &&
        plan.first_copy_done_day.value_or(study->horizon_days) > from_day)
        return refused(
            fmt::format("/sends/{}", *send),
            fmt::format("the first copy of “{}” is not complete by {}{}; ask for a later date",
                        q.send, format_date(q.from),
                        plan.first_copy_done_day
                            ? fmt::format(" but on {}", format_date(add_days(
                                                            study->site.as_of,
                                                            std::ceil(*plan.first_copy_done_day))))
                            : " nor within the horizon"));
    Drill work(*study, *send, settings, q, progress);
    auto drill = work.run();
    if (!drill) return tl::unexpected(ComputeError(Cancelled{}));
    if (drill->resends_whole) {
        set_room(*drill, work.resent(), *study, *send, evidence, settings, progress.stop);
        if (progress.stop.stop_requested()) return tl::unexpected(ComputeError(Cancelled{}));
    }
    return *drill;
}

}  // namespace ullage
