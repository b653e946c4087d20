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

bool carry(const SendContext& context, const std::vector<PlannedSend>& plans,
           const std::vector<std::size_t>& sends, double confidence, const PathsPlan& plan,
           const Paths& paths, int threads, const std::stop_token& stop) {
    double carried = 0;
    for (const auto& p : plans)
        carried += p.expected_runs(context.horizon_days) * static_cast<double>(p.datasets.size());
    for (const std::size_t s : sends)
        if (plans[s].by != FirstCopy::By::present && !plans[s].first_copy_done_day) return false;
    PathsReplay settings;
    settings.threads = threads;
    settings.most_paths =
        static_cast<std::size_t>(std::clamp(most_carried / std::max(carried, 1.0), least_paths, most_paths));
    Progress progress;
    progress.stop = stop;
    const auto traces = replay_paths(context, plans, plan, paths, settings, progress, 0, 1);
    return traces && std::all_of(sends.begin(), sends.end(), [&](std::size_t s) {
               return missing_in_worst_year(*traces, s, context.start) <= 1 - confidence + 1e-12;
           });
}

}  // namespace

bool carries(const SendContext& context, const std::vector<std::size_t>& sends, double confidence,
             const PathsPlan& plan, const Paths& paths, int threads, const std::stop_token& stop) {
    const auto plans = plan_sends(context);
    return plans && carry(context, *plans, sends, confidence, plan, paths, threads, stop);
}

std::optional<double> line_rate_needed(const SendContext& context, int link,
                                       const std::vector<std::size_t>& sends, double confidence,
                                       const PathsPlan& plan, const Paths& paths, int threads,
                                       const std::stop_token& stop) {
    Site site = context.site;
    const SendContext changed{site, context.zone, context.start, context.horizon_days,
                              context.models};
    auto& line = site.links[std::size_t(link)].up.value;
    const double today = line.value;
    auto plans = plan_sends(context);
    if (!plans) return {};
    const bool all_present = std::all_of(plans->begin(), plans->end(), [](const PlannedSend& p) {
        return p.by == FirstCopy::By::present;
    });
    const auto enough = [&](double rate) {
        line.value = rate;
        if (!all_present) return carries(changed, sends, confidence, plan, paths, threads, stop);
        for (auto& p : *plans)
            if (p.link == link) p.line_bits_per_second = rate * p.goodput.shape.efficiency();
        return carry(changed, *plans, sends, confidence, plan, paths, threads, stop);
    };
    double low = today;
    double high = today;
    if (enough(today)) {
        while (low > today / widest && enough(low / 2)) low /= 2;
        high = low;
        low /= 2;
    } else {
        do {
            if (high >= today * widest || stop.stop_requested()) return {};
            low = high;
            high *= 2;
        } while (!enough(high));
    }
    while (high > low * close_enough) {
        if (stop.stop_requested()) return {};
        const double middle = std::sqrt(low * high);
        (enough(middle) ? high : low) = middle;
    }
    return high;
}

}  // namespace ullage
