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

/// For each profile the layout of its gaps, one for all that keep the same snapshots and have the same listed.
std::vector<std::shared_ptr<const GapLayout>> layouts_of(const HeldProfiles& profiles, const PathsPlan& plan,
                                                         const std::vector<DatasetModel>& models) {
    struct Snapshots {
        const KeptSnapshots* kept;
        const std::vector<Instant>* listed;
    };
    std::vector<Snapshots> different;
    std::vector<std::size_t> which;
    for (const auto& profile : profiles.all) {
        const Snapshots own{&plan.parts[profile.parts.front()].kept, &models[std::size_t(profile.dataset)].known.taken};
        const auto same = std::find_if(different.begin(), different.end(), [&](const Snapshots& other) {
            return other.kept->home == own.kept->home && other.kept->at == own.kept->at && *other.listed == *own.listed;
        });
        which.push_back(static_cast<std::size_t>(same - different.begin()));
        if (same == different.end()) different.push_back(own);
    }
    std::vector<std::shared_ptr<const GapLayout>> made(different.size());
    side_by_side(plan.threads, 0, different.size(), [&](std::size_t k) {
        made[k] = std::make_shared<GapLayout>(
            gap_layout(*different[k].kept, profiles.edges, plan.as_of, plan.days, *different[k].listed));
    });
    std::vector<std::shared_ptr<const GapLayout>> layouts;
    for (const std::size_t k : which) layouts.push_back(made[k]);
    return layouts;
}

/// What the boxes would hold at the horizon by a curve of a dataset, but for the scale of churn.
double held_at_end(std::size_t curve, const PathsPlan& plan, const HeldProfiles& profiles, int dataset) {
    const std::size_t end = plan.days.size() - 1;
    double held = 0;
    for (const auto& profile : profiles.all) {
        if (profile.dataset != dataset) continue;
        const double bytes = profile.kernel.held(curve, end);
        for (const std::size_t p : profile.parts)
            if (plan.parts[p].box >= 0) held += plan.parts[p].charges.of_held(end) * bytes;
    }
    return held;
}

/// A model's curves by what they hold, least first.
std::vector<std::size_t> rising_curves(const DatasetModel& model, const PathsPlan& plan, const HeldProfiles& profiles,
                                       int dataset) {
    std::vector<std::pair<double, std::size_t>> order;
    for (std::size_t c = 0; c < model.curves.size(); ++c)
        order.emplace_back(held_at_end(c, plan, profiles, dataset), c);
    std::sort(order.begin(), order.end());
    std::vector<std::size_t> rising;
    for (const auto& [bytes, c] : order) rising.push_back(c);
    return rising;
}

}  // namespace

HeldProfiles held_profiles(const std::vector<DatasetModel>& models, const PathsPlan& plan) {
    HeldProfiles profiles;
    profiles.edges = churn_edges(plan);
    profiles.past = profiles.edges.size() - plan.days.size();
    for (std::size_t p = 0; p < plan.parts.size(); ++p) add_part(p, plan, profiles.all);
    const auto layouts = layouts_of(profiles, plan, models);
    side_by_side(plan.threads, 0, profiles.all.size(), [&](std::size_t q) {
        HeldProfile& profile = profiles.all[q];
        profile.kernel = held_kernel(layouts[q], models[std::size_t(profile.dataset)]);
        set_ends(profile, plan);
    });
    for (std::size_t d = 0; d < models.size(); ++d)
        profiles.rising.push_back(rising_curves(models[d], plan, profiles, static_cast<int>(d)));
    return profiles;
}

}  // namespace ullage
