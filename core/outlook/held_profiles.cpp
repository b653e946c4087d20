// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/held_profiles.h"

#include "core/outlook/threads.h"

#include <algorithm>
#include <cmath>

namespace ullage {

namespace {

/// Days to which the kernels reach back, so that past churn has intervals.
double reach_back(const PathsPlan& plan) {
    double earliest = 0;
    for (const auto& part : plan.parts)
        for (const auto& at : *part.kept.at)
            if (!at.empty()) earliest = std::min(earliest, days_between(plan.as_of, at.front()));
    return -earliest;
}

std::vector<double> churn_edges(const PathsPlan& plan) {
    std::vector<double> edges;
    const int weeks = static_cast<int>(std::ceil(reach_back(plan) / days_per_week));
    for (int w = weeks; w >= 1; --w) edges.push_back(-days_per_week * w);
    edges.insert(edges.end(), plan.days.begin(), plan.days.end());
    return edges;
}

void add_part(std::size_t p, const PathsPlan& plan, std::vector<HeldProfile>& profiles) {
    const auto& part = plan.parts[p];
    for (HeldProfile& profile : profiles) {
        const auto& other = plan.parts[profile.parts.front()].kept;
        if (profile.dataset != part.dataset || other.home != part.kept.home || !(other.at == part.kept.at)) continue;
        profile.parts.push_back(p);
        return;
    }
    HeldProfile& profile = profiles.emplace_back();
    profile.dataset = part.dataset;
    profile.parts = {p};
}

void set_ends(HeldProfile& profile, const PathsPlan& plan) {
    const auto& part = plan.parts[profile.parts.front()];
    for (std::size_t i = 0; i < plan.days.size(); ++i) {
        const auto& at = (*part.kept.at)[i];
        const double now = plan.days[i];
        const double newest = part.kept.home || at.empty() ? now : days_between(plan.as_of, at.back());
        profile.newest.push_back(newest);
        profile.newest_place.push_back(place_on(plan.days, newest));
        profile.oldest.push_back(at.empty() ? now : days_between(plan.as_of, at.front()));
    }
}

/// For each profile the layout of its gaps, one for all that keep the same snapshots.
std::vector<std::shared_ptr<const GapLayout>> layouts_of(const HeldProfiles& profiles, const PathsPlan& plan) {
    std::vector<const KeptSnapshots*> kept;  // that differ
    std::vector<std::size_t> which;
    for (const auto& profile : profiles.all) {
        const KeptSnapshots& own = plan.parts[profile.parts.front()].kept;
        const auto same = std::find_if(kept.begin(), kept.end(), [&](const KeptSnapshots* other) {
            return other->home == own.home && other->at == own.at;
        });
        which.push_back(static_cast<std::size_t>(same - kept.begin()));
        if (same == kept.end()) kept.push_back(&own);
    }
    std::vector<std::shared_ptr<const GapLayout>> different(kept.size());
    side_by_side(plan.threads, 0, kept.size(), [&](std::size_t k) {
        different[k] = std::make_shared<GapLayout>(gap_layout(*kept[k], profiles.edges, plan.as_of, plan.days));
    });
    std::vector<std::shared_ptr<const GapLayout>> layouts;
    for (const std::size_t k : which) layouts.push_back(different[k]);
    return layouts;
}

}  // namespace

HeldProfiles held_profiles(const std::vector<DatasetModel>& models, const PathsPlan& plan) {
    HeldProfiles profiles;
    profiles.edges = churn_edges(plan);
    profiles.past = profiles.edges.size() - plan.days.size();
    for (std::size_t p = 0; p < plan.parts.size(); ++p) add_part(p, plan, profiles.all);
    const auto layouts = layouts_of(profiles, plan);
    std::vector<std::size_t> place;
    std::size_t weights = 0;
    for (std::size_t q = 0; q < layouts.size(); ++q) {
        place.push_back(weights);
        weights += weights_of(*layouts[q], models[std::size_t(profiles.all[q].dataset)]);
    }
    profiles.weights = large_array<float>(weights);
    side_by_side(plan.threads, 0, profiles.all.size(), [&](std::size_t q) {
        HeldProfile& profile = profiles.all[q];
        profile.kernel =
            held_kernel(layouts[q], models[std::size_t(profile.dataset)], profiles.weights.get() + place[q]);
        set_ends(profile, plan);
    });
    return profiles;
}

}  // namespace ullage
