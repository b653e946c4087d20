// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/backtest.h"

#include "core/measure/measure.h"
#include "core/outlook/models.h"
#include "core/outlook/paths.h"
#include "core/units/quantiles.h"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace ullage {

namespace {

constexpr std::ptrdiff_t most_snapshots = 1000;  // that are judged, the newest: memory grows with their square

constexpr std::size_t least_before = 8;   // snapshots, the origin with them
constexpr std::size_t least_after = 3;
constexpr double most_points = 40;        // of an origin
constexpr double first_share = 1.0 / 3;   // of the listing's time, before the first origin
constexpr double last_share = 0.9;        // … and the last

/// Indices of the snapshots to judge from.
std::vector<std::size_t> origins_of(const std::vector<Snapshot>& list, int most) {
    std::vector<std::size_t> chosen;
    if (list.size() < least_before + least_after) return chosen;
    const double span = days_between(list.front().taken, list.back().taken);
    for (int i = 0; i < most; ++i) {
        const double share = most > 1 ? first_share + (last_share - first_share) * i / (most - 1) : first_share;
        const auto at = std::find_if(list.begin(), list.end(), [&](const Snapshot& s) {
            return days_between(list.front().taken, s.taken) >= share * span;
        });
        const auto index = std::max(static_cast<std::size_t>(at - list.begin()), least_before - 1);
        if (index + least_after >= list.size()) break;
        if (chosen.empty() || index > chosen.back()) chosen.push_back(index);
    }
    return chosen;
}

ForecastThen forecast_of(std::vector<double> drawn, const Snapshot& snapshot, double ahead, double came) {
    std::sort(drawn.begin(), drawn.end());
    return {snapshot.taken, ahead, quantile_of_sorted(drawn, 0.1), quantile_of_sorted(drawn, 0.5),
            quantile_of_sorted(drawn, 0.9), came};
}

/// Which of the days, rising from 0, are judged: the last, and of others none that comes too soon after the one before.
/// Hourly snapshots at the end of a listing say nearly the same and would count as many.
std::vector<std::size_t> judged_times(const std::vector<double>& days) {
    std::vector<std::size_t> judged;
    double before = 0;
    for (std::size_t t = 1; t < days.size(); ++t) {
        if (days[t] - before < days.back() / most_points && t + 1 < days.size()) continue;
        judged.push_back(t);
        before = days[t];
    }
    return judged;
}

std::optional<BacktestOrigin> judged_from(const Listing& listing, std::size_t index,
                                          const BacktestOptions& options) {
    const auto& list = listing.snapshots;
    Listing then;
    then.dataset = listing.dataset;
    then.snapshots.assign(list.begin(), list.begin() + static_cast<std::ptrdiff_t>(index) + 1);
    const auto measured = measure(then);
    if (!measured) return {};
    const std::vector<DatasetModel> models = {measured_model(*measured)};

    PathsPlan plan;
    plan.as_of = list[index].taken;
    plan.days = {0};
    plan.boxes = 1;
    plan.other_bytes = {0};
    plan.paths = options.paths;
    plan.seed = options.seed;
    plan.threads = options.threads;
    BoxPart part;
    part.kept.home = true;
    std::vector<Instant> kept = {plan.as_of};
    for (std::size_t i = index + 1; i < list.size(); ++i) {
        plan.days.push_back(days_between(plan.as_of, list[i].taken));
        kept.push_back(list[i].taken);
    }
    const auto judged = judged_times(plan.days);
    KeptTimes kept_at(plan.days.size());  // at the other times nobody asks what is held
    for (const std::size_t t : judged) kept_at[t].assign(kept.begin(), kept.begin() + static_cast<std::ptrdiff_t>(t) + 1);
    part.kept.at = std::move(kept_at);
    plan.parts.push_back(std::move(part));
    const auto paths = draw_paths(models, plan, {}, 0, 1);
    if (!paths) return {};

    BacktestOrigin origin;
    origin.origin = plan.as_of;
    origin.snapshots = static_cast<int>(index) + 1;
    origin.live_bytes = list[index].live_bytes;
    double freed = 0;
    std::size_t summed = 0;
    for (const std::size_t t : judged) {
        const auto& snapshot = list[index + t];
        for (; summed < t; ++summed)
            freed += std::max(freed_between(list[index + summed], list[index + summed + 1]), 0.0);
        const auto row = [&](const PathTable& table) {
            const auto all = table.row(t);
            return std::vector<double>(all.begin(), all.end());
        };
        origin.live.push_back(forecast_of(row(paths->live[0]), snapshot, plan.days[t], snapshot.live_bytes));
        origin.freed.push_back(forecast_of(row(paths->held[0]), snapshot, plan.days[t], freed));
    }
    return origin;
}

/// Median relative error at the end of each origin, and the share inside, of one figure.
void judge(const std::vector<BacktestOrigin>& origins, std::vector<ForecastThen> BacktestOrigin::* figure,
           double& error, double& inside) {
    std::vector<double> errors;
    double hits = 0;
    double all = 0;
    for (const auto& o : origins) {
        for (const auto& f : o.*figure) {
            hits += f.came >= f.p10 && f.came <= f.p90 ? 1 : 0;
            all += 1;
        }
        const auto& last = (o.*figure).back();
        if (last.came > 0) errors.push_back(std::abs(last.p50 - last.came) / last.came);
    }
    error = quantile_of(errors, 0.5);
    inside = all > 0 ? hits / all : 0;
}

}  // namespace

std::optional<Backtest> backtest(const Listing& whole, const BacktestOptions& options) {
    Listing newest;
    if (std::ssize(whole.snapshots) > most_snapshots) {
        newest.dataset = whole.dataset;
        newest.snapshots.assign(whole.snapshots.end() - most_snapshots, whole.snapshots.end());
    }
    const Listing& listing = newest.snapshots.empty() ? whole : newest;
    Backtest result;
    for (const std::size_t index : origins_of(listing.snapshots, options.origins))
        if (auto origin = judged_from(listing, index, options)) result.origins.push_back(*std::move(origin));
    if (result.origins.empty()) return {};
    judge(result.origins, &BacktestOrigin::live, result.live_error, result.live_inside);
    judge(result.origins, &BacktestOrigin::freed, result.freed_error, result.freed_inside);
    return result;
}

}  // namespace ullage
