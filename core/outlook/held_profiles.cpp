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

void fill(HeldProfile& profile, const DatasetModel& model, const PathsPlan& plan, const std::vector<double>& edges) {
    const auto& part = plan.parts[profile.parts.front()];
    profile.kernel = held_kernel(part.kept, model, edges, plan.as_of, plan.days);
    for (std::size_t i = 0; i < plan.days.size(); ++i) {
        const auto& at = (*part.kept.at)[i];
        const double now = plan.days[i];
        const double newest = part.kept.home || at.empty() ? now : days_between(plan.as_of, at.back());
        profile.newest.push_back(newest);
        profile.newest_place.push_back(place_on(plan.days, newest));
        profile.oldest.push_back(at.empty() ? now : days_between(plan.as_of, at.front()));
    }
}

}  // namespace

HeldProfiles held_profiles(const std::vector<DatasetModel>& models, const PathsPlan& plan) {
    HeldProfiles profiles;
    profiles.edges = churn_edges(plan);
    profiles.past = profiles.edges.size() - plan.days.size();
    for (std::size_t p = 0; p < plan.parts.size(); ++p) add_part(p, plan, profiles.all);
    side_by_side(plan.threads, 0, profiles.all.size(), [&](std::size_t q) {
        HeldProfile& profile = profiles.all[q];
        fill(profile, models[std::size_t(profile.dataset)], plan, profiles.edges);
    });
    return profiles;
}

}  // namespace ullage
