// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/drivers.h"

#include "core/outlook/growth_rows.h"
#include "core/outlook/held_profiles.h"

#include <fmt/format.h>
#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace ullage {

namespace {

constexpr double low_quantile = 0.1;
constexpr double low_normal = -1.2815515655446004;  // its standard normal number
constexpr std::size_t most_groups = 20;
constexpr std::size_t least_in_group = 20;  // paths
constexpr double least_share = 0.02;        // to be named without moving the middle day
constexpr std::size_t most_drivers = 12;    // per box

/// An input of one dataset with a spread, and the futures in which it is low and high.
struct Variant {
    int dataset = 0;
    UncertainInput input = UncertainInput::growth;
    std::size_t event = 0;
    std::size_t low_path = 0, high_path = 0;
};

/// Of curves by what they hold, each of which stands for an equal part of the whole: those in whose parts p10 and p90 lie.
std::pair<std::size_t, std::size_t> outer_curves(const std::vector<std::size_t>& rising) {
    const auto low = static_cast<std::size_t>(low_quantile * static_cast<double>(rising.size()));
    return {rising[low], rising[rising.size() - 1 - low]};
}

/// Growth at its p10, in the middle and at its p90.
struct GrowthQuantiles {
    SetInputs low, middle, high;
};

GrowthQuantiles growth_of(const DatasetModel& m, const std::vector<double>& days) {
    GrowthQuantiles g;
    if (m.growth) {
        const auto rows = growth_rows(*m.growth, days);
        g.low.added = rows->low;
        g.middle.added = rows->middle;
        g.high.added = rows->high;
        for (SetInputs* s : {&g.low, &g.middle, &g.high}) {
            stretch_growth(*m.growth, days, rows->middle, s->added);
            s->rate = m.growth_per_day;
        }
        return g;
    }
    double z = low_normal;
    for (SetInputs* s : {&g.low, &g.middle, &g.high}) {
        s->rate = m.growth_per_day + m.growth_rate_sd * z;
        for (const double day : days) s->added.push_back(s->rate * day);
        z -= low_normal;
    }
    return g;
}

/// The futures of one dataset by themselves: every input in the middle, then each low and high.
struct DatasetFutures {
    std::vector<SetInputs> futures;
    std::vector<Variant> variants;
};

DatasetFutures futures_of(const DatasetModel& m, int dataset, const std::vector<double>& days) {
    DatasetFutures f;
    const GrowthQuantiles growth = growth_of(m, days);
    SetInputs middle = growth.middle;
    middle.level = log_normal(m.churn_spread, 0);
    middle.live_factor = log_normal(m.live_spread, 0);
    for (const auto& e : m.events) {
        middle.event_bytes.push_back(event_bytes(e, 0));
        middle.event_day.push_back(event_day(e, 0));
    }
    f.futures.push_back(middle);
    const auto vary = [&](UncertainInput input, std::size_t event, auto&& set) {
        f.variants.push_back({dataset, input, event, f.futures.size(), f.futures.size() + 1});
        for (const double z : {low_normal, -low_normal}) {
            f.futures.push_back(middle);
            set(f.futures.back(), z);
        }
    };
    if (growth.low.added != growth.high.added)
        vary(UncertainInput::growth, 0, [&](SetInputs& s, double z) {
            const SetInputs& from = z < 0 ? growth.low : growth.high;
            s.added = from.added;
            s.rate = from.rate;
        });
    if (m.churn_spread > 0)
        vary(UncertainInput::level, 0,
             [&](SetInputs& s, double z) { s.level = log_normal(m.churn_spread, z); });
    if (m.live_spread > 0)
        vary(UncertainInput::live, 0,
             [&](SetInputs& s, double z) { s.live_factor = log_normal(m.live_spread, z); });
    for (std::size_t e = 0; e < m.events.size(); ++e) {
        if (m.events[e].spread > 0)
            vary(UncertainInput::event_size, e,
                 [&](SetInputs& s, double z) { s.event_bytes[e] = event_bytes(m.events[e], z); });
        if (m.events[e].day > 0 && m.events[e].day_spread > 0)
            vary(UncertainInput::event_date, e,
                 [&](SetInputs& s, double z) { s.event_day[e] = event_day(m.events[e], z); });
    }
    return f;
}

/// All datasets' futures side by side, and what differs between them.
struct Layout {
    std::vector<Variant> variants;
    PathsPlan plan;  // a box of its own for each part
};

Layout layout_of(const std::vector<DatasetModel>& models, const PathsPlan& plan, const HeldProfiles& profiles) {
    Layout out;
    std::vector<DatasetFutures> datasets;
    std::size_t count = 0;
    for (std::size_t d = 0; d < models.size(); ++d) {
        datasets.push_back(futures_of(models[d], static_cast<int>(d), plan.days));
        count = std::max(count, datasets.back().futures.size());
    }
    // Curves are one for all of a block: a block of them low and one of them high come last.
    const std::size_t low = (count + block_paths - 1) / block_paths * block_paths;
    const std::size_t high = low + block_paths;
    std::vector<std::array<int, 3>> curves;  // of the middle, the low and the high block
    for (std::size_t d = 0; d < models.size(); ++d) {
        for (const auto& v : datasets[d].variants) out.variants.push_back(v);
        const std::size_t mean = models[d].curves.size();
        auto& curve = curves.emplace_back();
        curve.fill(static_cast<int>(mean));
        if (mean < 2) continue;
        const auto [lower, upper] = outer_curves(profiles.rising[d]);
        if (models[d].curves[lower] == models[d].curves[upper]) continue;
        curve = {static_cast<int>(mean), static_cast<int>(lower), static_cast<int>(upper)};
        out.variants.push_back({static_cast<int>(d), UncertainInput::curve, 0, low, high});
        count = high + 1;
    }
    for (std::size_t path = 0; path < count; ++path) {
        auto& row = out.plan.set.emplace_back();
        for (std::size_t d = 0; d < models.size(); ++d) {
            const auto& futures = datasets[d].futures;
            row.push_back(path < futures.size() ? futures[path] : futures.front());
            row.back().curve = curves[d][path < low ? 0 : path < high ? 1 : 2];
        }
    }
    out.plan.as_of = plan.as_of;
    out.plan.days = plan.days;
    out.plan.boxes = static_cast<int>(plan.parts.size());
    out.plan.other_bytes.assign(plan.parts.size(), 0);
    out.plan.parts = plan.parts;
    for (std::size_t p = 0; p < plan.parts.size(); ++p) {
        out.plan.parts[p].box = static_cast<int>(p);
        out.plan.parts[p].offers.clear();
    }
    out.plan.paths = static_cast<int>(count);
    out.plan.threads = plan.threads;
    out.plan.most_parted = 0;
    return out;
}

/// Used bytes of a box at each time, all datasets in the middle future, and what one of them changes.
class BoxFutures {
public:
    BoxFutures(const PathsPlan& plan, const Paths& paths, int box)
        : plan_(plan), paths_(paths), middle_(plan.days.size(), plan.other_bytes[std::size_t(box)]) {
        for (std::size_t p = 0; p < plan.parts.size(); ++p) {
            if (plan.parts[p].box != box) continue;
            parts_.push_back(p);
            for (std::size_t i = 0; i < middle_.size(); ++i) middle_[i] += at(p, i, 0);
        }
    }

    std::vector<float> middle() const { return {middle_.begin(), middle_.end()}; }

    bool keeps(int dataset) const {
        return std::any_of(parts_.begin(), parts_.end(),
                           [&](std::size_t p) { return plan_.parts[p].dataset == dataset; });
    }

    /// With the dataset's parts from another future.
    std::vector<float> with(int dataset, std::size_t path) const {
        std::vector<double> used = middle_;
        for (const std::size_t p : parts_)
            if (plan_.parts[p].dataset == dataset)
                for (std::size_t i = 0; i < used.size(); ++i) used[i] += at(p, i, path) - at(p, i, 0);
        return {used.begin(), used.end()};
    }

private:
    double at(std::size_t part, std::size_t time, std::size_t path) const {
        return static_cast<double>(paths_.used[part].at(time, path));
    }

    const PathsPlan& plan_;
    const Paths& paths_;
    std::vector<double> middle_;
    std::vector<std::size_t> parts_;
};

/// What the paths drew of an input.
std::vector<float> drawn_of(const InputEffect& e, const Paths& paths) {
    const auto& drawn = paths.drawn[std::size_t(e.dataset)];
    switch (e.input) {
        case UncertainInput::growth:
            return drawn.growth[std::size_t(e.box)];
        case UncertainInput::level:
            return drawn.level;
        case UncertainInput::live:
            return drawn.live_factor;
        case UncertainInput::event_size:
            return drawn.event_bytes[e.event];
        case UncertainInput::event_date:
            return drawn.event_day[e.event];
        case UncertainInput::curve:
            return {drawn.curve.begin(), drawn.curve.end()};
    }
    return {};
}

/// Of what a planned event brings, its size or its date.
Message event_input(bool size, Event::Kind kind, bool about, const std::string& dataset, Day on) {
    if (size) {
        switch (kind) {
            case Event::Kind::add:
                return about ? message("size of what “{}” adds about {}", dataset, on)
                             : message("size of what “{}” adds on {}", dataset, on);
            case Event::Kind::remove:
                return about ? message("size of what “{}” removes about {}", dataset, on)
                             : message("size of what “{}” removes on {}", dataset, on);
            case Event::Kind::rewrite:
                return about ? message("size of what “{}” rewrites about {}", dataset, on)
                             : message("size of what “{}” rewrites on {}", dataset, on);
            case Event::Kind::move:
                return about ? message("size of what “{}” moves about {}", dataset, on)
                             : message("size of what “{}” moves on {}", dataset, on);
        }
    }
    switch (kind) {
        case Event::Kind::add:
            return about ? message("date of what “{}” adds about {}", dataset, on)
                         : message("date of what “{}” adds on {}", dataset, on);
        case Event::Kind::remove:
            return about ? message("date of what “{}” removes about {}", dataset, on)
                         : message("date of what “{}” removes on {}", dataset, on);
        case Event::Kind::rewrite:
            return about ? message("date of what “{}” rewrites about {}", dataset, on)
                         : message("date of what “{}” rewrites on {}", dataset, on);
        case Event::Kind::move:
            return about ? message("date of what “{}” moves about {}", dataset, on)
                         : message("date of what “{}” moves on {}", dataset, on);
    }
    return {};
}

Message input_name(const InputEffect& e, const DatasetModel& m, Day as_of) {
    switch (e.input) {
        case UncertainInput::growth:
            return message("growth of “{}”", m.name);
        case UncertainInput::level:
            return message("turnover of “{}”", m.name);
        case UncertainInput::live:
            return message("stored size of “{}” (compression)", m.name);
        case UncertainInput::curve:
            if (m.measured) return message("long-term turnover of “{}”", m.name);
            return message_n("turnover of “{}” beyond {} day", "turnover of “{}” beyond {} days",
                             m.observed_days == 1 ? 1 : 2, m.name, Significant{m.observed_days, 6});
        case UncertainInput::event_size:
        case UncertainInput::event_date: {
            const auto& event = m.events[e.event];
            return event_input(e.input == UncertainInput::event_size, event.kind, event.day_spread > 0, m.name,
                               add_days(as_of, event.day));
        }
    }
    return {};
}

}  // namespace

std::optional<Sensitivity> sensitivity(const std::vector<DatasetModel>& models,
                                       const PathsPlan& plan, const HeldProfiles& profiles,
                                       const std::vector<std::vector<double>>& ceilings,
                                       const Progress& progress) {
    const Layout layout = layout_of(models, plan, profiles);
    Progress silent;
    silent.stop = progress.stop;
    const auto paths = draw_paths(models, layout.plan, profiles, silent, 0, 1);
    if (!paths) return {};
    Sensitivity result;
    for (int box = 0; box < plan.boxes; ++box) {
        const auto& ceiling = ceilings[std::size_t(box)];
        const auto day_of = [&](const std::vector<float>& used) {
            return first_passage(plan.days, used.data(), 1, ceiling);
        };
        const BoxFutures futures(plan, *paths, box);
        result.middle_days.push_back(day_of(futures.middle()));
        for (const auto& v : layout.variants) {
            if (!futures.keeps(v.dataset)) continue;
            const auto low = futures.with(v.dataset, v.low_path);
            const auto high = futures.with(v.dataset, v.high_path);
            if (low != high)
                result.effects.push_back(
                    {box, v.dataset, v.input, v.event, day_of(low), day_of(high)});
        }
    }
    return result;
}

double share_of_variance(const std::vector<float>& drawn, const std::vector<double>& values) {
    const std::size_t n = drawn.size();
    const std::size_t most = std::min(most_groups, n / least_in_group);
    if (most < 2) return 0;
    std::vector<std::size_t> order(n);
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return drawn[a] != drawn[b] ? drawn[a] < drawn[b] : a < b;
    });
    const double count = static_cast<double>(n);
    const double mean = std::accumulate(values.begin(), values.end(), 0.0) / count;
    struct Group {
        double paths = 0, sum = 0;
    };
    std::vector<Group> groups(most);
    double total = 0;
    for (std::size_t from = 0; from < n;) {
        // Equal values go into one group, by the middle of their ranks.
        std::size_t to = from + 1;
        while (to < n && drawn[order[to]] == drawn[order[from]]) ++to;
        auto& group = groups[(from + to - 1) * most / (2 * n)];
        for (; from < to; ++from) {
            const double off = values[order[from]] - mean;
            group.paths += 1;
            group.sum += off;
            total += off * off;
        }
    }
    double between = 0;
    double used = 0;
    for (const auto& g : groups) {
        if (g.paths == 0) continue;
        between += g.sum * g.sum / g.paths;
        used += 1;
    }
    if (used < 2 || !(total > 0)) return 0;
    const double chance = (total - between) / (count - used);
    return std::clamp((between - (used - 1) * chance) / total, 0.0, 1.0);
}

std::vector<Driver> ranked_drivers(const Sensitivity& sensitivity,
                                   const std::vector<DatasetModel>& models, const PathsPlan& plan,
                                   const Paths& paths,
                                   const std::vector<std::vector<double>>& ceilings,
                                   const std::vector<std::string>& names, Day as_of) {
    std::vector<Driver> all;
    const double horizon = plan.days.back();
    const auto effect = [horizon](const Driver& d) {
        return std::abs(d.high_days.value_or(horizon) - d.low_days.value_or(horizon));
    };
    const double groups = double(std::min(most_groups, paths.paths / least_in_group));
    // Three standard deviations of a share that is only noise.
    const double noise = 3 * std::sqrt(2 * std::max(groups - 1, 0.0)) / double(paths.paths);
    for (int box = 0; box < plan.boxes; ++box) {
        const auto b = static_cast<std::size_t>(box);
        std::vector<double> log_days;
        bool may_reach = false;
        bool may_wait = false;
        for (std::size_t p = 0; p < paths.paths; ++p) {
            const auto day = first_passage(plan.days, paths.used[b].path(p), block_paths, ceilings[b]);
            may_reach = may_reach || day;
            may_wait = may_wait || !day || *day > 0;
            log_days.push_back(std::log(std::max(day.value_or(horizon), 1.0)));
        }
        if (!may_reach || !may_wait) continue;
        std::vector<Driver> of_box;
        for (const auto& e : sensitivity.effects) {
            if (e.box != box) continue;
            Driver d;
            d.box = names[b];
            d.input = input_name(e, models[std::size_t(e.dataset)], as_of);
            d.about = fmt::format("/datasets/{}", e.dataset);
            d.low_days = e.low_days;
            d.high_days = e.high_days;
            d.variance_share = share_of_variance(drawn_of(e, paths), log_days);
            if (effect(d) > 0 || d.variance_share > std::max(least_share, noise))
                of_box.push_back(d);
        }
        std::stable_sort(of_box.begin(), of_box.end(), [&](const Driver& x, const Driver& y) {
            return std::make_pair(effect(x), x.variance_share) >
                   std::make_pair(effect(y), y.variance_share);
        });
        if (of_box.size() > most_drivers) of_box.resize(most_drivers);
        all.insert(all.end(), of_box.begin(), of_box.end());
    }
    return all;
}

}  // namespace ullage
