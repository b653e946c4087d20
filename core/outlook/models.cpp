// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/models.h"

#include "core/outlook/measured_view.h"
#include "core/outlook/print.h"
#include "core/outlook/remembered.h"
#include "core/outlook/threads.h"
#include "core/units/quantity_text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <fmt/format.h>

namespace ullage {

namespace {

constexpr double default_growth_spread = 0.25;
constexpr double default_turnover_spread = 0.2;
constexpr double default_day_variation = 0.5;
constexpr int typed_alternatives = 8;          // equally likely shapes of what was not typed
constexpr double measured_level_spread = 0.05; // of next year's turnover about the listing's
constexpr double measured_wander = 0.5;
constexpr double stale_listing_days = 31;

std::string pointer(std::size_t dataset, const char* rest) {
    return fmt::format("/datasets/{}{}", dataset, rest);
}

/// Bytes and rates as sentences give them.
std::string size(double bytes) { return format_bytes({bytes}); }

void set_growth_of(DatasetModel& model, GrowthModel growth) {
    model.growth_per_day = growth.middle_rate();
    model.growth_rate_sd = growth.rate_spread();
    model.growth_noise = growth.noise_per_root_day;
    model.growth = std::move(growth);
}

Print print_of(const Listing& listing) {
    PrintOf print;
    print.put(listing.dataset);
    for (const auto& warning : listing.warnings) print.put(warning);
    for (const auto& s : listing.snapshots) {
        print.put(s.name);
        print.put(static_cast<std::uint64_t>(s.taken.time_since_epoch().count()));
        for (const double bytes : {s.unique_bytes, s.live_bytes, s.written_bytes}) print.put(bytes);
    }
    return print.print();
}

constexpr std::size_t most_remembered = 512;

using Measured = tl::expected<Measurement, std::string>;

std::shared_ptr<const Measured> measured_once(const Print& print, const Listing& listing) {
    static Remembered<Print, Measured> known(most_remembered);
    return known.get(print, [&] { return measure(listing); });
}

std::optional<Backtest> judged_once(const Print& print, const Listing& listing) {
    static Remembered<Print, std::optional<Backtest>> known(most_remembered);
    return *known.get(print, [&] { return backtest(listing); });
}

/// Curves through typed figures: the middle one, then, where wanted, equally likely ones. Or why there is none.
struct TypedCurves {
    tl::expected<Curve, std::string> middle;
    std::vector<Curve> alternatives;
};

TypedCurves fitted(const std::vector<CurveComponent>& points, double live_bytes, bool with_alternatives) {
    FitOptions options;
    options.live_bytes = live_bytes;
    TypedCurves curves{curve_through(points, options), {}};
    if (!curves.middle || !with_alternatives) return curves;
    for (int i = 0; i < typed_alternatives; ++i) {
        options.shape_draw = (i + 0.5) / typed_alternatives;
        if (auto curve = curve_through(points, options)) curves.alternatives.push_back(*std::move(curve));
    }
    return curves;
}

std::shared_ptr<const TypedCurves> fitted_once(const std::vector<CurveComponent>& points, double live_bytes,
                                               bool with_alternatives) {
    static Remembered<std::vector<double>, TypedCurves> known(most_remembered);
    std::vector<double> key = {live_bytes, with_alternatives ? 1.0 : 0.0};
    for (const auto& p : points) key.insert(key.end(), {p.lifetime_days, p.bytes});
    return known.get(key, [&] { return fitted(points, live_bytes, with_alternatives); });
}

class ModelBuilder {
public:
    ModelBuilder(const Site& site, const Evidence& evidence, const TimeZone& zone, Day as_of,
                 std::size_t index, bool judged)
        : dataset_(site.datasets[index]), evidence_(evidence), as_of_(as_of), zone_(zone),
          index_(index), judged_(judged) {}

    DatasetModel build(Problems& problems) {
        const std::size_t before = problems.size();
        model_.name = dataset_.name;
        model_.compression_ratio = dataset_.compression_ratio.value_or(1);
        read_listing(problems);
        set_live(problems);
        read_usage(problems);
        if (problems.size() > before) return model_;
        set_growth();
        set_turnover(problems);
        set_week_shape();
        set_events();
        return model_;
    }

private:
    void assume(Message sentence) { model_.assumptions.push_back(std::move(sentence)); }

    void read_listing(Problems& problems) {
        if (!dataset_.turnover || dataset_.turnover->listing.empty()) return;
        const auto& wanted = *dataset_.turnover;
        const auto found = evidence_.listings.find(wanted.listing);
        if (found == evidence_.listings.end()) {
            problems.push_back({pointer(index_, "/turnover/listing"),
                                fmt::format("the listing “{}” was not read", wanted.listing)});
            return;
        }
        const Listing* listing = nullptr;
        const std::string& name =
            wanted.listing_dataset.empty() ? dataset_.name : wanted.listing_dataset;
        for (const auto& l : found->second)
            if (l.dataset == name) listing = &l;
        if (!listing && wanted.listing_dataset.empty() && found->second.size() == 1)
            listing = &found->second.front();
        if (!listing) {
            std::string names;
            for (const auto& l : found->second) names += (names.empty() ? "" : ", ") + l.dataset;
            problems.push_back({pointer(index_, wanted.listing_dataset.empty() ? "/turnover"
                                                                              : "/turnover/listing_dataset"),
                                fmt::format("“{}” holds no dataset “{}”; it holds: {}. Name one with "
                                            "listing_dataset", wanted.listing, name, names)});
            return;
        }
        print_ = print_of(*listing);
        const auto measured = measured_once(print_, *listing);
        if (!*measured) {
            problems.push_back({pointer(index_, "/turnover/listing"), measured->error()});
            return;
        }
        measurement_ = **measured;
        listing_ = listing;
        days_since_listing_ = days_between(measurement_->last, zone_.instant_of(as_of_));
        if (days_since_listing_ < -1) {
            problems.push_back(
                {pointer(index_, "/turnover/listing"),
                 fmt::format("its newest snapshot is of {}, after the site's as_of {}: set as_of to {} "
                             "or later", format_date(zone_.local_day(measurement_->last)),
                             format_date(as_of_), format_date(zone_.local_day(measurement_->last)))});
            return;
        }
        days_since_listing_ = std::max(days_since_listing_, 0.0);
        for (const auto& warning : measurement_->warnings) assume(message("Listing: {}.", warning));
        if (days_since_listing_ > stale_listing_days)
            assume(message_n("The listing ends {} day before the forecast starts; live data is carried forward at "
                             "its growth.",
                             "The listing ends {} days before the forecast starts; live data is carried forward at "
                             "its growth.",
                             std::lround(days_since_listing_), std::lround(days_since_listing_)));
    }

    /// Growth of a longer history of live bytes, up to as_of.
    void read_usage(Problems& problems) {
        if (dataset_.usage.empty()) return;
        const auto found = evidence_.usages.find(dataset_.usage);
        if (found == evidence_.usages.end()) {
            problems.push_back({pointer(index_, "/usage"),
                                fmt::format("the usage history “{}” was not read", dataset_.usage)});
            return;
        }
        const Instant end = zone_.instant_of(as_of_ + std::chrono::days(1));
        std::vector<LivePoint> points;
        for (const auto& p : found->second)
            if (p.time < end) points.push_back({days_between(found->second.front().time, p.time), p.live_bytes});
        if (points.size() < 2 || !(points.back().bytes > 0)) {
            problems.push_back({pointer(index_, "/usage"),
                                fmt::format("“{}” has {} point{} up to {}: at least two, the last of them "
                                            "above 0, are needed to see growth", dataset_.usage,
                                            points.size(), points.size() == 1 ? "" : "s",
                                            format_date(as_of_))});
            return;
        }
        usage_growth_ = growth_model(points);
        usage_days_ = points.back().day;
        usage_live_ = points.back().bytes;
    }

    void set_live(Problems& problems) {
        if (dataset_.live) {
            model_.live_bytes = dataset_.live->value.value;
        } else if (dataset_.logical) {
            model_.live_bytes = dataset_.logical->value.value / model_.compression_ratio;
            model_.live_spread = dataset_.compression_spread.value_or(0);
        } else if (measurement_) {
            model_.live_bytes = std::max(
                measurement_->live_bytes + measurement_->growth.middle_rate() * days_since_listing_, 1.0);
        } else {
            problems.push_back({pointer(index_, ""), "neither live, logical nor a listing is given"});
        }
        if (!dataset_.compression_ratio && dataset_.logical)
            assume(message("No compression ratio is given; 1 is taken (nothing saved)."));
    }

    /// The size that was typed for growth and events, as stored bytes.
    double stored(const Amount& amount) const {
        if (amount.of == Amount::Of::live_share) return amount.value * model_.live_bytes;
        return dataset_.logical ? amount.value / model_.compression_ratio : amount.value;
    }

    void set_growth() {
        if (dataset_.growth) {
            model_.growth_per_day = stored(dataset_.growth->per_year.value) / days_per_year;
            const double spread = dataset_.growth->spread.value_or(default_growth_spread);
            model_.growth_rate_sd = std::abs(model_.growth_per_day) * spread;
            if (!dataset_.growth->spread && model_.growth_per_day != 0)
                assume(message("No spread of the growth is given; a quarter of the rate is taken."));
        } else if (usage_growth_ && usage_days_ > listing_days()) {
            take_growth(*usage_growth_, model_.live_bytes / usage_live_);
        } else if (measurement_) {
            take_growth(measurement_->growth, scale_of_measurement());
        } else {
            assume(message("No growth is given; none is taken."));
        }
    }

    /// Of the longer of listing and usage history; a typed rate wins over both.
    void take_growth(const GrowthModel& growth, double scale) { set_growth_of(model_, growth.scaled(scale)); }

    double listing_days() const {
        return measurement_ ? days_between(measurement_->first, measurement_->last) : 0;
    }

    double scale_of_measurement() const { return model_.live_bytes / measurement_->live_bytes; }

    void set_turnover(Problems& problems) {
        if (measurement_) {
            const double scale = scale_of_measurement();
            const auto measured = measured_model(*measurement_);
            model_.measured = true;
            model_.observed_days = measured.observed_days;
            model_.mean_curve = measured.mean_curve.scaled(scale);
            for (const auto& c : measured.curves) model_.curves.push_back(c.scaled(scale));
            model_.day_variation = measured.day_variation;
            model_.churn_spread = dataset_.turnover->spread.value_or(measured.churn_spread);
            model_.wander = model_.churn_spread > 0 ? measured.wander : 0;
            model_.measured_steps = measured_steps(*listing_);
            if (judged_) model_.backtest = judged_once(print_, *listing_);
            model_.week_shape = measured.week_shape;
            set_known_past(scale);
            if (dataset_.turnover->per_day) override_level(problems);
            if (dataset_.turnover->per_week || dataset_.turnover->per_month)
                assume(message("The weekly and monthly figures typed beside the listing are not used: it shows "
                       "the shape itself."));
        } else if (dataset_.turnover && dataset_.turnover->per_day) {
            curve_from_figures(problems);
        } else {
            assume(message("No turnover is given; nothing is taken to be overwritten or deleted, so snapshots "
                   "hold nothing."));
        }
        if (model_.curves.empty()) model_.curves.push_back(model_.mean_curve);
    }

    void set_known_past(double scale) {
        const Snapshot* before = nullptr;
        for (const auto& s : listing_->snapshots) {
            const double freed = before ? freed_between(*before, s) : 0.0;
            model_.known.taken.push_back(s.taken);
            model_.known.freed.push_back(std::max(freed, 0.0) * scale);
            before = &s;
        }
    }

    /// Bytes freed by a typed figure: what a step writes less the growth in it.
    std::optional<double> freed_of(const std::optional<Entered<Amount>>& figure, double step_days,
                                   const char* key, Problems& problems) const {
        if (!figure) return {};
        const double written = figure->value.bytes(model_.live_bytes);
        const double growth = std::max(model_.growth_per_day, 0.0) * step_days;
        if (written < growth * (1 - 1e-9)) {
            problems.push_back(
                {pointer(index_, key),
                 fmt::format("{} is written in this time, but the data grows by {} in it: what is "
                             "written includes the growth, so it must be at least that", size(written),
                             size(growth))});
            return {};
        }
        return std::max(written - model_.growth_per_day * step_days, 0.0);
    }

    /// A daily figure typed beside a listing sets the level; the listing keeps the shape.
    void override_level(Problems& problems) {
        const auto freed = freed_of(dataset_.turnover->per_day, 1, "/turnover/per_day", problems);
        const double measured = model_.mean_curve.freed(1);
        if (!freed || measured <= 0) return;
        const double factor = *freed / measured;
        model_.mean_curve = model_.mean_curve.scaled(factor);
        for (auto& c : model_.curves) c = c.scaled(factor);
        assume(message("The daily figure that was typed sets the level of turnover ({} × the "
                       "listing's); the listing gives its shape.", Significant{factor, 2}));
    }

    void curve_from_figures(Problems& problems) {
        const auto& turnover = *dataset_.turnover;
        std::vector<CurveComponent> points;
        const auto put = [&](const std::optional<Entered<Amount>>& figure, double step, const char* key) {
            if (const auto freed = freed_of(figure, step, key, problems)) points.push_back({step, *freed});
        };
        put(turnover.per_day, 1, "/turnover/per_day");
        put(turnover.per_week, days_per_week, "/turnover/per_week");
        put(turnover.per_month, days_per_month, "/turnover/per_month");
        if (points.empty()) return;

        const double spread = turnover.spread.value_or(default_turnover_spread);
        model_.churn_spread = spread;
        model_.day_variation = turnover.spread && *turnover.spread == 0 ? 0 : default_day_variation;
        model_.observed_days = points.back().lifetime_days;
        const auto curves = fitted_once(points, model_.live_bytes, spread > 0);
        if (!curves->middle) {
            problems.push_back({pointer(index_, "/turnover"), curves->middle.error()});
            return;
        }
        model_.mean_curve = *curves->middle;
        model_.curves = curves->alternatives;
        if (!turnover.spread) assume(message("No spread of the turnover is given; a fifth of its level is taken."));
        if (!turnover.per_month)
            assume(turnover.per_week
                       ? message("Turnover is known for a day and a week; how much of the data is overwritten over "
                                 "longer times is assumed as in data of this kind, with a wide spread.")
                       : message("Turnover is known for a day only; how much of the data is overwritten over longer "
                                 "times is assumed as in data of this kind, with a wide spread; a weekly and a monthly "
                                 "figure would narrow it."));
    }

    void set_week_shape() {
        if (!dataset_.week_shape) return;
        double sum = 0;
        for (const double w : *dataset_.week_shape) sum += w;
        for (std::size_t d = 0; d < 7; ++d)
            model_.week_shape[d] = sum > 0 ? 7 * (*dataset_.week_shape)[d] / sum : 1;
    }

    void set_events() {
        for (const auto& e : dataset_.events) {
            EventModel m;
            m.kind = e.kind;
            m.day = static_cast<double>((e.on - as_of_).count());
            m.bytes = stored(e.amount.value);
            m.spread = e.spread;
            m.day_spread = e.date_spread ? in_days(e.date_spread->value) : 0;
            model_.events.push_back(m);
        }
    }

    const Dataset& dataset_;
    const Evidence& evidence_;
    Day as_of_;
    const TimeZone& zone_;
    std::size_t index_;
    bool judged_;
    DatasetModel model_;
    std::optional<Measurement> measurement_;
    std::optional<GrowthModel> usage_growth_;
    double usage_days_ = 0;  // span of the usage history
    double usage_live_ = 0;  // bytes, its last
    const Listing* listing_ = nullptr;
    Print print_{};
    double days_since_listing_ = 0;
};

}  // namespace

std::vector<double> event_days(const std::vector<DatasetModel>& models) {
    std::vector<double> days;
    for (const auto& m : models)
        for (const auto& e : m.events) days.push_back(e.day);
    return days;
}

DatasetModel measured_model(const Measurement& m) {
    DatasetModel model;
    model.name = m.dataset;
    model.live_bytes = m.live_bytes;
    set_growth_of(model, m.growth);
    model.mean_curve = m.fit.curve;
    model.curves = m.replicates;
    if (model.curves.empty()) model.curves.push_back(model.mean_curve);
    model.churn_spread = measured_level_spread;
    model.wander = measured_wander;
    model.day_variation = m.day_variation();
    model.week_shape = m.week;
    model.measured = true;
    model.observed_days = m.fit.longest_days;
    return model;
}

tl::expected<std::vector<DatasetModel>, Problems> dataset_models(const Site& site,
                                                                 const Evidence& evidence, Day as_of,
                                                                 bool judged, int threads) {
    std::vector<Problems> found(site.datasets.size());
    std::vector<DatasetModel> models(site.datasets.size());
    const TimeZone zone = TimeZone::find(site.time_zone).value_or(TimeZone());
    side_by_side(threads, 0, models.size(), [&](std::size_t i) {
        models[i] = ModelBuilder(site, evidence, zone, as_of, i, judged).build(found[i]);
    });
    Problems problems;
    for (const auto& of_one : found) problems.insert(problems.end(), of_one.begin(), of_one.end());
    if (!problems.empty()) return tl::unexpected(problems);
    return models;
}

}  // namespace ullage
