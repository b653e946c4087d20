// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/ladder_fit.h"

#include "core/outlook/box_parts.h"
#include "core/outlook/send_calendars.h"
#include "core/site/site_json.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>
#include <limits>

namespace ullage {

namespace {

Rung* longest_rung(Ladder& ladder) {
    const auto at =
        std::max_element(ladder.begin(), ladder.end(),
                         [](const Rung& a, const Rung& b) { return a.lasts() < b.lasts(); });
    return at == ladder.end() ? nullptr : &*at;
}

double kept_days(const Ladder& ladder) {
    double days = 0;
    for (const auto& rung : ladder) days = std::max(days, in_days(rung.lasts()));
    return days;
}

void keep_for(Rung& rung, double days) {
    rung.keep_for.reset();
    rung.count =
        std::max(1, static_cast<int>(std::floor(days / in_days(rung.every.value.length()) + 1e-9)));
}

/// The longest rung keeps for `days`, and no other rung longer than that.
Ladder stretched(Ladder ladder, double days) {
    Rung* longest = longest_rung(ladder);
    for (auto& rung : ladder)
        if (&rung == longest || in_days(rung.lasts()) > days) keep_for(rung, days);
    return ladder;
}

std::string ladder_text(const Ladder& ladder) {
    std::string text;
    for (const auto& rung : ladder)
        text += fmt::format(
            "{}{} × {}", text.empty() ? "" : ", ", to_text(rung.every.value),
            rung.count ? *rung.count : static_cast<int>(rung.lasts() / rung.every.value.length()));
    return text;
}

/// The ladder by which a box keeps a dataset: a send's own, or, as the source, the dataset's.
struct Keeping {
    std::string dataset;
    std::size_t index = 0;            // of the dataset
    std::optional<std::size_t> send;  // whose ladder it is; empty: the dataset's
};

template <class AnySite>
auto& ladder_of(AnySite& site, const Keeping& k) {
    return k.send ? std::get<Ladder>(site.sends[*k.send].ladder) : site.datasets[k.index].ladder;
}

const Send* send_to(const Site& site, const std::string& dataset, const std::string& box) {
    for (const auto& s : site.sends)
        if (s.to == box &&
            std::find(s.datasets.begin(), s.datasets.end(), dataset) != s.datasets.end())
            return &s;
    return nullptr;
}

/// Empty where everything is kept, or nothing.
std::optional<Keeping> keeping_at(const Site& site, std::size_t dataset, const std::string& box) {
    const auto& d = site.datasets[dataset];
    if (d.home != box && !send_to(site, d.name, box)) return {};
    Keeping k{d.name, dataset, {}};
    std::string at = box;
    while (d.home != at) {
        const Send* send = send_to(site, d.name, at);
        if (!send) break;
        if (std::holds_alternative<KeepAll>(send->ladder)) return {};
        if (std::holds_alternative<Ladder>(send->ladder)) {
            k.send = static_cast<std::size_t>(send - site.sends.data());
            break;
        }
        at = send->from;
    }
    if (ladder_of(site, k).empty()) return {};
    return k;
}

class Fit {
public:
    Fit(const SendContext& c, std::size_t box, const LadderFitSettings& settings)
        : c_(c),
          box_(box),
          settings_(settings),
          site_(c.site),
          changed_{site_, c.zone, c.start, c.horizon_days, c.models, c.threads},
          calendars_(c.zone) {
        const auto& there = c.site.boxes[box];
        plan_.as_of = c.start;
        plan_.days = grid_of(c);
        if (auto space = space_of(there, c.site.as_of, "")) space_ = *std::move(space);
        if (!space_.eras.empty()) ceilings_ = space_.ceiling_on(plan_.days);
        plan_.boxes = 1;
        plan_.other_bytes = {there.other_data.value.value};
        plan_.paths = settings.paths;
        plan_.seed = settings.seed;
        plan_.threads = settings.threads;
        plan_.most_parted = 0;
    }

    std::optional<LadderFit> run() {
        if (ceilings_.empty() || !space_.known()) return {};
        LadderFit fit;
        double step = std::numeric_limits<double>::infinity();
        for (std::size_t d = 0; d < c_.site.datasets.size(); ++d) {
            const auto k = keeping_at(c_.site, d, c_.site.boxes[box_].name);
            if (!k) continue;
            Ladder ladder = ladder_of(c_.site, *k);
            fit.today_days = std::max(fit.today_days, kept_days(ladder));
            step = std::min(step, in_days(longest_rung(ladder)->every.value.length()));
            keepings_.push_back(*k);
        }
        if (keepings_.empty()) return {};
        const double most =
            settings_.only_shorter ? fit.today_days : std::max(c_.horizon_days, fit.today_days);
        double low = 1;
        double high = std::max(1.0, std::floor(most / step));
        if (!settings_.only_shorter && fits(high * step)) {
            fit.as_long_as_the_horizon = true;
            low = high;
        } else if (!fits(low * step)) {
            return stopped() ? std::nullopt : std::optional(fit);
        }
        while (high - low > 1) {
            const double middle = std::floor((low + high) / 2);
            (fits(middle * step) ? low : high) = middle;
        }
        if (stopped()) return {};
        fit.longest_days = low * step;
        set(low * step);
        for (const auto& k : keepings_)
            fit.ladders.emplace_back(k.dataset, ladder_text(ladder_of(site_, k)));
        return fit;
    }

private:
    bool stopped() const { return settings_.stop.stop_requested(); }

    void set(double days) {
        for (const auto& k : keepings_)
            ladder_of(site_, k) = stretched(ladder_of(c_.site, k), days);
    }

    bool fits(double days) {
        if (stopped()) return false;
        set(days);
        const auto plans = plan_sends(changed_, calendars_);
        if (!plans) return false;
        KeptMemo memo(settings_.threads);
        plan_.parts = box_parts(changed_, *plans, plan_.days, box_, 0, space_, memo);
        Progress progress;
        progress.stop = settings_.stop;
        const auto paths = draw_paths(c_.models, plan_, progress, 0, 1);
        if (!paths) return false;
        std::size_t over = 0;
        for (std::size_t p = 0; p < paths->paths; ++p)
            for (std::size_t i = 0; i < paths->times; ++i)
                if (paths->used[0].at(i, p) >= ceilings_[i]) {
                    ++over;
                    break;
                }
        return double(over) <= (1 - settings_.confidence) * double(paths->paths) + 1e-9;
    }

    const SendContext& c_;
    std::size_t box_;
    const LadderFitSettings& settings_;
    Site site_;  // with the ladders tried
    SendContext changed_;
    SendCalendars calendars_;
    BoxSpace space_;
    std::vector<double> ceilings_;  // at each time
    PathsPlan plan_;
    std::vector<Keeping> keepings_;
};

}  // namespace

std::optional<LadderFit> longest_ladder(const SendContext& context, std::size_t box,
                                        const LadderFitSettings& settings) {
    return Fit(context, box, settings).run();
}

}  // namespace ullage
