// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/link/hours.h"
#include "core/outlook/block_costs.h"
#include "core/outlook/box_parts.h"
#include "core/outlook/drivers.h"
#include "core/outlook/event_text.h"
#include "core/outlook/held_profiles.h"
#include "core/outlook/ladder_fit.h"
#include "core/outlook/measured_view.h"
#include "core/outlook/models.h"
#include "core/outlook/offers.h"
#include "core/outlook/outlook.h"
#include "core/outlook/outlook_laws.h"
#include "core/outlook/paths.h"
#include "core/outlook/send_outlooks.h"
#include "core/outlook/space_text.h"
#include "core/outlook/threads.h"
#include "core/pool/pool.h"
#include "core/site/site_json.h"
#include "core/units/quantity_text.h"
#include "core/units/slot_quantiles.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <cstdio>
#include <fmt/format.h>

namespace ullage {

namespace {

constexpr double share_of_paths = 0.6;  // of the progress; the replay is the rest

/// The quantiles a fan is drawn by, of all paths of a table at a time.
class Bands {
public:
    Band of(const PathTable& table, std::size_t time) {
        table.row(time, row_);
        const auto at = quantiles_.of<5>(row_.data(), row_.size(), {0.1, 0.25, 0.5, 0.75, 0.9});
        return {at[0], at[1], at[2], at[3], at[4]};
    }

private:
    SlotQuantiles<float> quantiles_;
    std::vector<float> row_;
};

/// First passages of all paths, soonest first; those that never come are only counted.
struct Passages {
    std::vector<double> days;
    std::size_t paths = 0;

    double chance() const { return static_cast<double>(days.size()) / static_cast<double>(paths); }
    std::optional<double> quantile(double p) const { return inverse_distribution(days, p, paths); }
    DayQuantiles quantiles() const { return {quantile(0.1), quantile(0.5), quantile(0.9)}; }
    std::array<std::optional<double>, 20> marks() const {
        std::array<std::optional<double>, 20> m;
        for (std::size_t i = 0; i < m.size(); ++i) m[i] = quantile((static_cast<double>(i) + 0.5) / 20);
        return m;
    }
};

Passages passages_of(const std::vector<double>& days, const PathTable& used, const std::vector<double>& limits) {
    Passages result;
    result.paths = used.paths();
    for (std::size_t p = 0; p < used.paths(); ++p)
        if (const auto day = first_passage(days, used.path(p), block_paths, limits)) result.days.push_back(*day);
    std::sort(result.days.begin(), result.days.end());
    return result;
}

/// The most used at any time, of each path, rising.
std::vector<double> peaks_of(const PathTable& used) {
    std::vector<double> peaks;
    for (std::size_t b = 0; b < used.blocks(); ++b) {
        std::array<float, block_paths> most{};
        for (std::size_t i = 0; i < used.times(); ++i)
            for (std::size_t lane = 0; lane < block_paths; ++lane)
                most[lane] = std::max(most[lane], used.block(b)[i * block_paths + lane]);
        for (std::size_t lane = 0; lane < block_paths && peaks.size() < used.paths(); ++lane) peaks.push_back(most[lane]);
    }
    std::sort(peaks.begin(), peaks.end());
    return peaks;
}

class Computation {
public:
    Computation(const Site& site, const Evidence& evidence, const Settings& settings,
                const Progress& progress)
        : site_(site), evidence_(evidence), settings_(settings), progress_(progress) {
        if (settings.as_of) site_.as_of = *settings.as_of;
    }

    tl::expected<Outlook, ComputeError> run() {
        if (auto problems = validate(site_); !problems.empty()) return failed(std::move(problems));
        if (settings_.paths < 1 || settings_.paths > 1'000'000)
            return failed({{"", fmt::format("{} paths were asked for; 1 to 1000000 can be drawn",
                                            settings_.paths)}});
        zone_ = *TimeZone::find(site_.time_zone);
        start_ = zone_.instant_of(site_.as_of);
        auto models = dataset_models(site_, evidence_, site_.as_of, settings_.judged, settings_.threads);
        if (!models) return failed(models.error());
        models_ = *std::move(models);
        if (auto problems = find_spaces(); !problems.empty()) return failed(std::move(problems));

        SendContext context{site_, zone_, start_, in_days(site_.horizon.value), models_, settings_.threads};
        plan_.days = grid_of(context);
        auto offers = plan_offers(site_, spaces_, plan_.days);
        if (!offers) return failed(offers.error());
        offers_ = *std::move(offers);
        auto sends = plan_sends(context);
        if (!sends) return failed(sends.error());
        sends_ = *std::move(sends);

        plan_paths(context);
        const auto ceilings = ceilings_of_boxes();
        auto profiles = held_profiles(models_, plan_);
        const auto moved = sensitivity(models_, plan_, profiles, ceilings, progress_);
        if (!moved) return tl::unexpected(ComputeError(Cancelled{}));
        plan_growth_days(*moved);
        auto paths = draw_paths(models_, plan_, profiles, progress_, 0, share_of_paths);
        if (!paths) return tl::unexpected(ComputeError(Cancelled{}));
        profiles = {};  // large, and of no more use

        Outlook outlook;
        outlook.site = site_.name;
        outlook.currency = site_.currency;
        outlook.as_of = site_.as_of;
        outlook.horizon_days = in_days(site_.horizon.value);
        outlook.confidence = site_.confidence;
        outlook.paths = settings_.paths;
        outlook.seed = settings_.seed;
        outlook.boxes.resize(box_of_.size());
        side_by_side(settings_.threads, 0, box_of_.size(), [&](std::size_t b) {
            auto& box = outlook.boxes[b];
            box = box_outlook(b, *paths);
            if (settings_.searched && box.chance_of_ceiling_within_horizon > 1 - site_.confidence)
                box.ladder_that_fits = ladder_that_fits(context, box_of_[b]);
        });
        if (progress_.stop.stop_requested()) return tl::unexpected(ComputeError(Cancelled{}));
        outlook.offers = compare_offers(site_, offers_, ceiling_days(outlook.boxes), plan_.days,
                                        paths->offer_used);
        for (std::size_t d = 0; d < models_.size(); ++d)
            outlook.datasets.push_back(dataset_outlook(models_[d]));
        outlook.drivers = ranked_drivers(*moved, models_, plan_, *paths, ceilings, names_of_boxes(),
                                         site_.as_of);
        paths->drop_tables();
        auto send_outlooks = replay_sends(context, sends_, plan_, *paths, settings_, progress_,
                                          share_of_paths, 1);
        if (!send_outlooks) return tl::unexpected(ComputeError(Cancelled{}));
        outlook.sends = *std::move(send_outlooks);
        return outlook;
    }

private:
    static tl::unexpected<ComputeError> failed(Problems problems) {
        return tl::unexpected(ComputeError(std::move(problems)));
    }

    /// The space of every box, and which boxes are forecast.
    Problems find_spaces() {
        Problems problems;
        for (std::size_t i = 0; i < site_.boxes.size(); ++i) {
            auto space = space_of(site_.boxes[i], site_.as_of, fmt::format("/boxes/{}", i));
            if (!space) {
                problems.push_back(space.error());
                continue;
            }
            if (space->known()) box_of_.push_back(i);
            spaces_.push_back(*std::move(space));
        }
        return problems;
    }

    void plan_paths(const SendContext& context) {
        plan_.as_of = start_;
        plan_.boxes = static_cast<int>(box_of_.size());
        plan_.paths = settings_.paths;
        plan_.seed = settings_.seed;
        plan_.threads = settings_.threads;
        const auto samples = settings_.searched ? replay_sample_count : first_sample_count;
        plan_.samples = samples(sends_, in_days(site_.horizon.value), settings_.paths);
        plan_.offers = static_cast<int>(offers_.size());
        for (const auto& offer : offers_)
            plan_.offer_other_bytes.push_back(site_.boxes[offer.box].other_data.value.value);
        int row = 0;
        KeptMemo memo(settings_.threads);
        for (std::size_t i = 0; i < site_.boxes.size(); ++i) {
            std::vector<OfferSpace> offers;
            for (std::size_t o = 0; o < offers_.size(); ++o)
                if (offers_[o].box == i) offers.push_back({static_cast<int>(o), &offers_[o].space});
            const bool forecast = spaces_[i].known();
            if (!forecast && offers.empty()) continue;
            if (forecast) plan_.other_bytes.push_back(site_.boxes[i].other_data.value.value);
            auto parts = box_parts(context, sends_, plan_.days, i, forecast ? row++ : -1, spaces_[i],
                                   memo, offers);
            for (auto& part : parts) plan_.parts.push_back(std::move(part));
        }
        for (const auto& send : sends_) {
            plan_.probes.push_back({send.datasets, send.first_copy_start_day});
            plan_.probes.push_back({send.datasets, std::min(days_per_year, in_days(site_.horizon.value))});
        }
    }

    std::vector<std::vector<double>> ceilings_of_boxes() const {
        std::vector<std::vector<double>> ceilings;
        for (const std::size_t i : box_of_) ceilings.push_back(spaces_[i].ceiling_on(plan_.days));
        return ceilings;
    }

    /// Of each box of the site.
    std::vector<std::vector<double>> ceiling_days(const std::vector<BoxOutlook>& boxes) const {
        std::vector<std::vector<double>> all(site_.boxes.size());
        for (std::size_t b = 0; b < boxes.size(); ++b) all[box_of_[b]] = boxes[b].ceiling_days;
        return all;
    }

    std::vector<std::string> names_of_boxes() const {
        std::vector<std::string> names;
        for (const std::size_t i : box_of_) names.push_back(site_.boxes[i].name);
        return names;
    }

    /// Each box's middle day at its ceiling, at least the first day, at most the horizon.
    void plan_growth_days(const Sensitivity& moved) {
        const double horizon = plan_.days.back();
        for (const auto& day : moved.middle_days)
            plan_.growth_days.push_back(std::clamp(day.value_or(horizon), plan_.days[1], horizon));
    }

    std::optional<LadderThatFits> ladder_that_fits(const SendContext& context, std::size_t box) const {
        constexpr int few_paths = 96;  // for a sentence; `solve` draws more
        LadderFitSettings settings;
        settings.confidence = site_.confidence;
        settings.paths = std::min(settings_.paths, few_paths);
        settings.seed = settings_.seed;
        settings.threads = settings_.threads;
        settings.stop = progress_.stop;
        settings.only_shorter = true;
        const auto fit = longest_ladder(context, box, settings);
        if (!fit) return {};
        return LadderThatFits{fit->today_days, fit->longest_days};
    }

    BoxOutlook box_outlook(std::size_t b, const Paths& paths) const {
        const auto& box = site_.boxes[box_of_[b]];
        const BoxSpace& space = spaces_[box_of_[b]];
        const auto usable = space.usable_on(plan_.days);
        const auto ceilings = space.ceiling_on(plan_.days);
        BoxOutlook o;
        o.name = box.name;
        if (space.at(0).shape) o.capacity = capacity(*space.at(0).shape);
        if (o.capacity) o.label_bytes = o.capacity->label_bytes;
        if (o.capacity) o.raw_bytes = o.capacity->raw_bytes;
        o.usable_bytes = usable.front();
        o.ceiling_bytes = ceilings.front();
        describe_space(o, b);
        for (const auto& send : site_.sends) o.receives_copies = o.receives_copies || send.to == box.name;

        o.fill.resize(plan_.days.size());
        PerThread<Bands> bands;
        side_by_side(settings_.threads, 0, plan_.days.size(), [&](std::size_t i) {
            Bands& band = bands.local();
            FillPoint& point = o.fill[i];
            point.date = site_.as_of + std::chrono::days(static_cast<int>(plan_.days[i]));
            point.used_bytes = band.of(paths.used[b], i);
            point.live_bytes = band.of(paths.live[b], i);
            point.held_bytes = band.of(paths.held[b], i);
            point.other_bytes = plan_.other_bytes[b];
            point.usable_bytes = usable[i];
            point.fill = point.used_bytes.p50 / point.usable_bytes;
        });
        o.used_now_bytes = o.fill.front().used_bytes.p50;

        const auto ceiling = passages_of(plan_.days, paths.used[b], ceilings);
        const auto full = passages_of(plan_.days, paths.used[b], usable);
        o.days_until_ceiling = ceiling.quantiles();
        o.days_until_full = full.quantiles();
        o.chance_of_ceiling_within_horizon = ceiling.chance();
        o.chance_of_full_within_horizon = full.chance();
        o.ceiling_marks = ceiling.marks();
        o.full_marks = full.marks();
        o.ceiling_days = ceiling.days;
        o.peak_used_bytes = peaks_of(paths.used[b]);
        o.usable_needed_bytes = quantile_of_sorted(o.peak_used_bytes, site_.confidence) / space.ceiling;
        o.over_ceiling_now = o.used_now_bytes >= o.ceiling_bytes;
        o.full_now = o.used_now_bytes >= o.usable_bytes;
        o.shrinking = !o.days_until_ceiling.p90 && o.fill.back().used_bytes.p50 < o.used_now_bytes;
        if (box.lead_time) o.lead_time_days = in_days(box.lead_time->value);
        if (o.days_until_ceiling.p10)
            o.order_by = add_days(site_.as_of, *o.days_until_ceiling.p10 - o.lead_time_days.value_or(0));
        for (const auto& part : plan_.parts) {
            if (part.box != static_cast<int>(b)) continue;
            const auto& dataset = site_.datasets[std::size_t(part.dataset)];
            for (const auto& e : dataset.events)
                if (e.on > site_.as_of) o.events.push_back({e.on, dataset.name, event_text(e)});
        }
        std::stable_sort(o.events.begin(), o.events.end(),
                         [](const EventMark& x, const EventMark& y) { return x.on < y.on; });
        return o;
    }

    /// Its planned changes, and what small blocks cost on it.
    void describe_space(BoxOutlook& o, std::size_t b) const {
        const auto& box = site_.boxes[box_of_[b]];
        const BoxSpace& space = spaces_[box_of_[b]];
        for (const auto& era : space.eras)
            if (era.change && era.change->on > site_.as_of)
                o.changes.push_back({era.change->on, change_text(*era.change), era.usable_bytes,
                                     era.usable_bytes * space.ceiling});
        std::vector<const BoxPart*> parts;
        for (const auto& part : plan_.parts)
            if (part.box == static_cast<int>(b)) parts.push_back(&part);
        o.costs = block_costs(site_.datasets, models_, parts, space, start_, plan_.days);
        // After a change the pool is no longer the one that could be laid out otherwise.
        if (box.pool && space.eras.size() == 1)
            o.better_shape = better_shape(site_.datasets, models_, parts, o.costs, *box.pool);
    }

    static DatasetOutlook dataset_outlook(const DatasetModel& m) {
        DatasetOutlook o;
        o.name = m.name;
        o.live_bytes = m.live_bytes;
        o.compression_ratio = m.compression_ratio;
        o.growth_bytes_per_day = m.growth_per_day;
        o.growth_spread_bytes_per_day = m.growth_rate_sd;
        const auto written = [&](double step) {
            return std::max(0.0, m.mean_curve.freed(step) + m.growth_per_day * step);
        };
        o.written_1h = written(1.0 / 24);
        o.written_1d = written(1);
        o.written_7d = written(days_per_week);
        o.written_30d = written(days_per_month);
        for (const auto& c : m.mean_curve.components()) o.curve.push_back({c.lifetime_days, c.bytes});
        o.measured = m.measured;
        o.observed_days = m.observed_days;
        o.assumptions = m.assumptions;
        o.curve_band = curve_band(m);
        o.measured_steps = m.measured_steps;
        o.backtest = m.backtest;
        o.stretch = m.growth ? m.growth->stretch(days_per_year) : 1;
        return o;
    }

    Site site_;
    const Evidence& evidence_;
    const Settings& settings_;
    const Progress& progress_;
    TimeZone zone_;
    Instant start_{};
    std::vector<DatasetModel> models_;
    std::vector<std::size_t> box_of_;       // index in the site of each forecast box
    std::vector<BoxSpace> spaces_;          // of every box of the site
    std::vector<PlannedOffer> offers_;
    std::vector<PlannedSend> sends_;
    PathsPlan plan_;
};

}  // namespace

tl::expected<Outlook, ComputeError> compute(const Site& site, const Evidence& evidence,
                                            const Settings& settings, const Progress& progress) {
    auto outlook = Computation(site, evidence, settings, progress).run();
#ifndef NDEBUG
    if (outlook) {
        const auto broken = broken_laws(*outlook);
        for (const auto& law : broken) fmt::print(stderr, "{}\n", law);
        assert(broken.empty());
    }
#endif
    return outlook;
}

}  // namespace ullage
