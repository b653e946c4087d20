// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// From what was typed and measured to what the paths need: one model per dataset.
///
/// Every default that stands in for something not given is a sentence in `assumptions`.
///   growth spread      0.25 of the rate when growth is typed without one
///   turnover spread    0.2 of the level when turnover is typed without one
///   a day's writes     vary by half of their mean about it when typed (nothing, if the turnover
///                      spread is typed as 0); from the bursts of the listing when measured
///   the curve's shape  where only some of day, week and month are typed: eight alternatives, equally
///                      likely under the prior of turnover/fit.h
///   measured growth    as measure/growth.h has it
///   measured week      as measure/week.h has it, unless one is typed
///   measured wander    what dies within days varies from season to season by half of its mean, leaning back
///                      over 60 days; what takes a month to die, hardly (paths.h; the same histories)
///   measured level     next year's turnover lies about the listing's with a relative standard deviation
///                      of 0.05 (what made 80 % intervals hold on three public histories)
/// Spreads of zero everywhere give one path.

#include "core/measure/measure.h"
#include "core/outlook/outlook.h"
#include "core/retention/ladder.h"

#include <array>
#include <optional>
#include <vector>

namespace ullage {

struct EventModel {
    Event::Kind kind = Event::Kind::add;
    double day = 0;          ///< from as_of
    double bytes = 0;        ///< stored
    double spread = 0;       ///< relative standard deviation
    double day_spread = 0;   ///< standard deviation, days
};

/// Snapshots that a listing shows: what they hold is known, not modelled.
struct KnownPast {
    std::vector<Instant> taken;   ///< oldest first; empty: nothing is known
    std::vector<double> freed;    ///< stored bytes freed between taken[i − 1] and taken[i]; freed[0] is 0
};

struct DatasetModel {
    std::string name;
    double live_bytes = 0;             ///< stored, at as_of
    double compression_ratio = 1;
    double live_spread = 0;            ///< relative, of everything stored (compression, if logical was typed)
    double growth_per_day = 0;         ///< stored bytes
    double growth_rate_sd = 0;         ///< of the rate, bytes/day
    double growth_noise = 0;           ///< bytes per √day
    std::optional<GrowthModel> growth; ///< measured; then the three above only describe it
    std::vector<Curve> curves;         ///< at least one, equally likely, at live_bytes
    Curve mean_curve;
    double churn_spread = 0;           ///< relative standard deviation of the level
    double wander = 0;                 ///< relative standard deviation of what dies young, over months
    double day_variation = 0;          ///< standard deviation of a day's deaths ÷ their mean
    std::array<double, 7> week_shape{1, 1, 1, 1, 1, 1, 1};  ///< Monday first, mean 1
    std::vector<EventModel> events;
    KnownPast known;
    bool measured = false;
    std::vector<MeasuredStep> measured_steps;
    std::optional<Backtest> backtest;  ///< if asked for
    double observed_days = 0;
    std::vector<Message> assumptions;
};

/// What a measurement alone gives: live, growth and turnover at the size of its newest snapshot.
DatasetModel measured_model(const Measurement&);

/// Days from as_of of every event of the models.
std::vector<double> event_days(const std::vector<DatasetModel>&);

/// The models of all datasets of a valid site, in order. Problems carry JSON pointers.
/// With `judged`, a listing is backtested. `threads`: 0 is one a core.
tl::expected<std::vector<DatasetModel>, Problems> dataset_models(const Site&, const Evidence&, Day as_of,
                                                                 bool judged = false, int threads = 1);

}  // namespace ullage
