// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/line_rate.h"

#include <algorithm>
#include <cmath>

namespace ullage {

namespace {

constexpr double most_paths = 12;
constexpr double least_paths = 2;
constexpr double most_carried = 200'000;  // datasets in runs, of all the paths of a try
constexpr double widest = 1000;        // times today's rate, up and down
constexpr double close_enough = 1.01;

std::size_t paths_tried(const SendContext& context, const std::vector<PlannedSend>& plans) {
    double carried = 0;
    for (const auto& p : plans)
        carried += p.expected_runs(context.horizon_days) * static_cast<double>(p.datasets.size());
    return static_cast<std::size_t>(std::clamp(most_carried / std::max(carried, 1.0), least_paths, most_paths));
}

/// Of every send of the site whether it is carried, if all of `sends` are; else at least one of these is not, and of the
/// others it is not told: the replay ends early. Nor is it of those that have nothing to do with `sends`.
std::vector<bool> carried_by(const SendContext& context, const std::vector<PlannedSend>& plans,
                             const std::vector<std::size_t>& sends, double confidence, const PathsPlan& plan,
                             const Paths& paths, const KnownSteps* known, int threads, const std::stop_token& stop) {
    PathsReplay settings;
    settings.threads = threads;
    settings.only = sends;
    settings.most_paths = paths_tried(context, plans);
    settings.known = known;
    settings.most_missing = 1 - confidence;
    Progress progress;
    progress.stop = stop;
    const auto traces = replay_paths(context, plans, plan, paths, settings, progress, 0, 1);
    std::vector<bool> result(plans.size(), false);
    for (std::size_t s = 0; traces && s < plans.size(); ++s)
        result[s] = (plans[s].by == FirstCopy::By::present || plans[s].first_copy_done_day) &&
                    missing_in_worst_year(*traces, s, context.start) <= 1 - confidence + 1e-12;
    return result;
}

bool all_of(const std::vector<bool>& carried, const std::vector<std::size_t>& sends) {
    return std::all_of(sends.begin(), sends.end(), [&](std::size_t s) { return carried[s]; });
}

}  // namespace

bool carries(const SendContext& context, const std::vector<std::size_t>& sends, double confidence,
             const PathsPlan& plan, const Paths& paths, int threads, const std::stop_token& stop) {
    const auto plans = plan_sends(context);
    return plans && all_of(carried_by(context, *plans, sends, confidence, plan, paths, nullptr, threads, stop), sends);
}

LineRateSearch::LineRateSearch(const SendContext& context, int link, double confidence, const PathsPlan& plan,
                               const Paths& paths, int threads, const std::stop_token& stop)
    : site_(context.site),
      changed_{site_, context.zone, context.start, context.horizon_days, context.models, context.threads},
      link_(link),
      confidence_(confidence),
      today_(context.site.links[std::size_t(link)].up.value.value),
      plan_(plan),
      paths_(paths),
      threads_(threads),
      stop_(stop),
      calendars_(context.zone),
      plans_(plan_sends(changed_, calendars_)) {
    all_present_ = plans_ && std::all_of(plans_->begin(), plans_->end(), [](const PlannedSend& p) {
                       return p.by == FirstCopy::By::present;
                   });
    // At another rate a first copy may come sooner or later, and other steps with it; most stay.
    if (plans_) known_.emplace(changed_, *plans_, plan, paths, paths_tried(changed_, *plans_), threads);
}

bool LineRateSearch::enough(double rate, const std::vector<std::size_t>& sends) {
    auto& known = carried_[rate];
    known.resize(site_.sends.size());
    const auto is = [&](bool carried) { return [&known, carried](std::size_t s) { return known[s] == carried; }; };
    if (std::any_of(sends.begin(), sends.end(), is(false))) return false;
    if (std::all_of(sends.begin(), sends.end(), is(true))) return true;
    site_.links[std::size_t(link_)].up.value.value = rate;
    if (all_present_) {
        for (auto& p : *plans_)
            if (p.link == link_) p.line_bits_per_second = rate * p.goodput.shape.efficiency();
    } else {
        plans_ = plan_sends(changed_, calendars_);
    }
    std::vector<bool> carried(site_.sends.size(), false);
    if (plans_) carried = carried_by(changed_, *plans_, sends, confidence_, plan_, paths_, &*known_, threads_, stop_);
    const bool all = all_of(carried, sends);
    if (all)
        for (std::size_t s = 0; s < carried.size(); ++s) known[s] = carried[s];
    else if (sends.size() == 1)
        known[sends.front()] = false;
    return all;
}

std::optional<double> LineRateSearch::needed(const std::vector<std::size_t>& sends) {
    if (!plans_) return {};
    double low = today_;
    double high = today_;
    if (enough(today_, sends)) {
        while (low > today_ / widest && enough(low / 2, sends)) low /= 2;
        high = low;
        low /= 2;
    } else {
        do {
            if (high >= today_ * widest || stop_.stop_requested()) return {};
            low = high;
            high *= 2;
        } while (!enough(high, sends));
    }
    while (high > low * close_enough) {
        if (stop_.stop_requested()) return {};
        const double middle = std::sqrt(low * high);
        (enough(middle, sends) ? high : low) = middle;
    }
    return high;
}

}  // namespace ullage
