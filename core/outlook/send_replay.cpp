// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/send_replay.h"

#include "core/outlook/threads.h"

#include <algorithm>
#include <atomic>
#include <cmath>

namespace ullage {

namespace {

constexpr double replayed_runs = 250'000;  // over all sample paths, which are spread evenly
constexpr int most_samples = 128;
constexpr int least_samples = 8;
// Of a first look, where a better one follows.
constexpr double first_runs = 20'000;
constexpr int first_samples = 8;
constexpr int least_first_samples = 3;
constexpr int survival_samples = 120;  // a year's runs are alike

/// Whose runs can tell on those of `wanted`: all on the same lines, and what these are fed by, on theirs.
std::vector<bool> tied_to(const std::vector<std::size_t>& wanted, const std::vector<ReplaySend>& sends) {
    std::vector<bool> tied(sends.size(), false);
    std::vector<std::size_t> open = wanted;
    while (!open.empty()) {
        const std::size_t s = open.back();
        open.pop_back();
        if (tied[s]) continue;
        tied[s] = true;
        for (std::size_t t = 0; t < sends.size(); ++t)
            if (sends[t].link == sends[s].link) open.push_back(t);
        for (const auto& d : sends[s].datasets)
            if (d.upstream) open.push_back(d.upstream->send);
    }
    return tied;
}

std::size_t year_of(Instant start, Instant due) {
    return static_cast<std::size_t>(std::max(0.0, days_between(start, due) / days_per_year));
}

/// Counts what misses its window over all paths, until it is more than is allowed whatever else comes.
class MissedCount {
public:
    MissedCount(const std::vector<std::size_t>& wanted, const std::vector<ReplaySend>& sends, Instant start,
                std::size_t paths, double share)
        : start_(start), allowed_(sends.size()), missed_(sends.size()) {
        for (const std::size_t s : wanted) {
            if (sends[s].on_arrival) continue;  // nobody knows how many runs there will be
            std::vector<double> runs;
            for (const Instant due : sends[s].due) {
                const std::size_t year = year_of(start, due);
                if (year >= runs.size()) runs.resize(year + 1, 0.0);
                runs[year] += static_cast<double>(paths);
            }
            for (const double n : runs) allowed_[s].push_back(share * n);
            missed_[s] = std::vector<std::atomic<int>>(runs.size());
        }
    }

    /// Whether it is certain, with this run. From any thread.
    bool too_many(std::size_t s, const RunRecord& run) {
        if (certain_) return true;
        if (!run.missed || allowed_[s].empty()) return false;
        const std::size_t year = year_of(start_, run.due);
        if (year < allowed_[s].size() && ++missed_[s][year] > allowed_[s][year] + 1e-6) certain_ = true;
        return certain_;
    }

private:
    Instant start_;
    std::vector<std::vector<double>> allowed_;           // of each send and year
    std::vector<std::vector<std::atomic<int>>> missed_;  // likewise
    std::atomic<bool> certain_ = false;
};

}  // namespace

int replay_sample_count(const std::vector<PlannedSend>& sends, double horizon_days, int paths) {
    double runs = 0;
    for (const auto& s : sends) runs += s.expected_runs(horizon_days);
    if (runs < 1) return std::min(paths, least_samples);
    const auto affordable = static_cast<int>(std::min<double>(replayed_runs / runs, most_samples));
    return std::min(paths, std::max(affordable, least_samples));
}

int first_sample_count(const std::vector<PlannedSend>& sends, double horizon_days, int paths) {
    double runs = 1;
    for (const auto& s : sends) runs += s.expected_runs(horizon_days);
    const auto affordable = static_cast<int>(std::min<double>(first_runs / runs, first_samples));
    return std::min(paths, std::max(affordable, least_first_samples));
}

std::optional<Traces> replay_paths(const SendContext& context,
                                   const std::vector<PlannedSend>& sends, const PathsPlan& plan,
                                   const Paths& paths, const PathsReplay& settings,
                                   const Progress& progress, double progress_from,
                                   double progress_to) {
    auto replayed = replay_sends_of(context, sends);
    if (!settings.only.empty()) {
        const auto tied = tied_to(settings.only, replayed);
        for (std::size_t s = 0; s < replayed.size(); ++s) {
            if (tied[s]) continue;
            replayed[s].due.clear();
            replayed[s].on_arrival = false;
        }
    }
    auto links = replay_links(context.site, sends);
    if (settings.closed_link >= 0) {
        auto& open = links[std::size_t(settings.closed_link)].open;
        open = closed_between(open, settings.closed_from, settings.closed_to);
    }
    const Instant end = add_days(context.start, context.horizon_days);
    double shortest = 1;
    for (const auto& s : sends) shortest = std::min(shortest, s.period_days);
    ReplayOptions noting;
    noting.survival_from = settings.survival_from;
    noting.survival_every =
        std::max(1, static_cast<int>(days_per_year / shortest / survival_samples));
    Traces traces(std::min(paths.samples.size(), settings.most_paths));
    if (settings.arrivals) settings.arrivals->resize(traces.size());
    if (settings.wholes) settings.wholes->resize(traces.size());
    std::optional<KnownSteps> own;
    if (!settings.known) own.emplace(context, sends, plan, paths, traces.size(), settings.threads);
    const KnownSteps* known = settings.known ? settings.known : &*own;
    std::optional<MissedCount> missed;
    if (settings.most_missing >= 0)
        missed.emplace(settings.only, replayed, context.start, traces.size(), settings.most_missing);
    const std::size_t round = std::max<std::size_t>(traces.size() / 8, 8);
    const bool all = side_by_side_told(
        settings.threads, traces.size(), round, progress, progress_from, progress_to, [&](std::size_t p) {
            const bool note = p == 0 || settings.survival_on_all_paths;
            ReplayOptions options = note ? noting : ReplayOptions();
            options.keep_arrivals = settings.arrivals != nullptr;
            if (missed) options.enough = [&](std::size_t s, const RunRecord& run) { return missed->too_many(s, run); };
            PathBytes bytes(context, sends, plan, paths, p, known);
            auto trace = replay_traced(links, replayed, end, std::ref(bytes), options);
            traces[p] = std::move(trace.runs);
            if (settings.arrivals) (*settings.arrivals)[p] = std::move(trace.arrivals);
            if (settings.wholes) (*settings.wholes)[p] = std::move(trace.whole);
        });
    if (!all) return {};
    return traces;
}

double missing_in_worst_year(const Traces& traces, std::size_t send, Instant start) {
    struct Count {
        double runs = 0, missed = 0;
    };
    std::vector<Count> years;
    for (const auto& path : traces)
        for (const auto& run : path[send]) {
            const std::size_t year = year_of(start, run.due);
            if (year >= years.size()) years.resize(year + 1);
            years[year].runs += 1;
            years[year].missed += run.missed ? 1 : 0;
        }
    double worst = years.empty() ? 1 : 0;
    for (const auto& y : years)
        if (y.runs > 0) worst = std::max(worst, y.missed / y.runs);
    return worst;
}

}  // namespace ullage
