// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The outlook: how full, when, how long, how late, how sure. Plain values, made by `compute`.
///
/// `days_until_*` are quantiles of the first-passage day over the paths (inverse distribution
/// function; futures past the horizon count as "never", an empty optional), not crossings of bands.

#include "core/link/goodput.h"
#include "core/outlook/backtest.h"
#include "core/measure/listing.h"
#include "core/pool/pool.h"
#include "core/site/site.h"
#include "core/units/calendar.h"
#include "core/units/problem.h"
#include "core/words/message.h"

#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <stop_token>
#include <string>
#include <tl/expected.hpp>
#include <variant>
#include <vector>

namespace ullage {

struct Settings {
    int paths = 2000;         ///< 1…1,000,000
    std::uint64_t seed = 1;
    int threads = 0;          ///< 0: as many as the machine has; the answer does not depend on it
    std::optional<Day> as_of; ///< instead of the site's
    bool judged = true;       ///< backtest the listings
    /// Look for the ladder and the line rate that would do, where today's do not. Without, for a first
    /// look: sends are replayed on 8 paths at most.
    bool searched = true;
    bool operator==(const Settings&) const = default;
};

/// Quantiles of a value that always exists.
struct Band {
    double p10 = 0, p25 = 0, p50 = 0, p75 = 0, p90 = 0;
    bool operator==(const Band&) const = default;
};

/// Quantiles of a day that may never come (within the horizon).
struct DayQuantiles {
    std::optional<double> p10, p50, p90;  ///< days from as_of
    bool operator==(const DayQuantiles&) const = default;
};

struct FillPoint {
    Day date{};
    Band used_bytes;       ///< as the pool counts them against usable
    Band live_bytes;       ///< the datasets' own bytes, charged; of the first 1024 paths, where there are more
    Band held_bytes;       ///< held by snapshots alone, charged; likewise
    double other_bytes = 0;
    double usable_bytes = 0;  ///< then: planned changes of the box are in it
    double fill = 0;       ///< median used ÷ usable
    bool operator==(const FillPoint&) const = default;
};

/// One planned event on a box's chart.
struct EventMark {
    Day on{};
    std::string dataset;
    Message text;      ///< "adds 2.5 TB: old archive moves in"
    bool operator==(const EventMark&) const = default;
};

/// How long snapshots could be kept on a box that comes to its ceiling.
struct LadderThatFits {
    double today_days = 0;
    std::optional<double> longest_days;            ///< empty: no ladder keeps it below the ceiling
    bool operator==(const LadderThatFits&) const = default;
};

/// A planned change of a box's space.
struct SpaceChange {
    Day on{};
    Message text;                                  ///< "adds a group of 6 drives of 16 TB: second shelf"
    double usable_bytes = 0, ceiling_bytes = 0;    ///< from then on
    bool operator==(const SpaceChange&) const = default;
};

/// What a stored byte of a dataset takes on a box's pool.
struct BlockCost {
    std::string dataset;
    double block_bytes = 0;
    double charge = 1;                             ///< usable bytes taken by one stored byte that is written today
    double used_bytes = 0;                         ///< taken there at the horizon, p50
    /// Volumes only: the smallest larger block that costs at most a twentieth more than the cheapest; empty if today's does.
    std::optional<double> better_block_bytes;
    double better_charge = 1;
    bool operator==(const BlockCost&) const = default;
};

/// Another layout of the same drives, surviving as many failures in a group, that holds more of these datasets.
struct BetterShape {
    Message text;                                  ///< "2 groups of 4 drives, parity-2"
    double usable_bytes = 0;
    double charge = 1, charge_now = 1;             ///< mean over the box's data at the horizon
    double gain = 0;                               ///< of what fits, > 0: 0.2 is a fifth more
    bool operator==(const BetterShape&) const = default;
};

struct BoxOutlook {
    std::string name;
    double label_bytes = 0, raw_bytes = 0, usable_bytes = 0, ceiling_bytes = 0;  ///< at as_of; label, raw: 0 if only `usable` was given
    std::optional<PoolCapacity> capacity;          ///< of its pool, at as_of
    std::vector<SpaceChange> changes;              ///< after as_of, by date
    std::vector<BlockCost> costs;                  ///< of its pool; one for each dataset kept there
    std::optional<BetterShape> better_shape;       ///< where a dataset costs much for its small blocks
    double used_now_bytes = 0;                     ///< median at as_of
    DayQuantiles days_until_ceiling, days_until_full;
    double chance_of_ceiling_within_horizon = 0, chance_of_full_within_horizon = 0;
    /// 20 equally likely futures, soonest first: quantiles at 2.5 %, 7.5 % … 97.5 %; empty: later.
    std::array<std::optional<double>, 20> ceiling_marks, full_marks;
    std::optional<double> lead_time_days;
    std::optional<Day> order_by;                   ///< as_of + p10 of the ceiling − lead time; may lie in the past
    bool over_ceiling_now = false, full_now = false;
    bool shrinking = false;                        ///< median use at the end is below today's and no ceiling in sight
    bool receives_copies = false;                  ///< a destination of some send
    std::vector<FillPoint> fill;                   ///< as_of, then at least one a week, to the horizon
    std::vector<EventMark> events;
    double usable_needed_bytes = 0;                ///< to stay below its ceiling to the horizon, with the site's confidence
    std::vector<double> peak_used_bytes;           ///< the most used within the horizon, of each path, rising
    std::vector<double> ceiling_days;              ///< first passages of the paths that come to it, rising
    std::optional<LadderThatFits> ladder_that_fits; ///< where the ceiling comes with more than 1 − confidence
    bool operator==(const BoxOutlook&) const = default;
};

/// One run of the drawn week.
struct RunOfWeek {
    Instant start{};
    double hours_p50 = 0, hours_p95 = 0;  ///< from start to done, closed hours included
    double bytes_p50 = 0, bytes_p95 = 0;
    bool late_p50 = false, late_p95 = false;  ///< not done when its window closes, or when the next run is due
    bool operator==(const RunOfWeek&) const = default;
};

struct RunQuantiles {
    double p50 = 0, p90 = 0, p95 = 0;
    bool operator==(const RunQuantiles&) const = default;
};

/// The runs of one weekday (by the wall clock at their start), over all weeks and paths.
struct WeekdayRuns {
    int weekday = 0;                               ///< Monday is 0
    int runs = 0;                                  ///< ≥ 1
    RunQuantiles bytes, hours;
    RunQuantiles open_share;                       ///< hours that bytes moved ÷ open hours before the deadline
    double chance_of_missing_window = 0;
    bool operator==(const WeekdayRuns&) const = default;
};

/// Age of the newest complete copy within four weeks.
struct CopyAgePoint {
    Day from{};                                    ///< the first day
    double p50_hours = 0, p95_hours = 0, max_hours = 0;
    bool operator==(const CopyAgePoint&) const = default;
};

/// How far a send falls behind, and for how long: from a missed deadline until nothing waits.
struct BacklogOutlook {
    double times_a_year = 0;                       ///< mean number of times
    RunQuantiles bytes;                            ///< the most that was left at a deadline, each time
    double max_bytes = 0;
    RunQuantiles hours_to_drain;                   ///< each time
    double max_hours_to_drain = 0;
    bool operator==(const BacklogOutlook&) const = default;
};

/// The run that carries a planned event.
struct EventRun {
    Day on{};
    std::string dataset;
    Message text;                                  ///< "rewrites 3 TB: re-encoded"
    RunQuantiles bytes, hours;                     ///< of that run, with what a night writes anyway
    RunQuantiles nights;                           ///< runs that are due until it is done, itself included
    double chance_of_fitting = 0;                  ///< done within its own window
    bool operator==(const EventRun&) const = default;
};

/// Two ways for the first copy, on the middle forecast. Days from the start of the first copy.
struct FirstCopyWays {
    double bytes = 0;                              ///< stored
    std::optional<double> link_days;               ///< complete; empty: not within the horizon
    std::optional<double> link_in_step_days;       ///< … and the runs that queued behind it done
    double courier_copy_days = 0, courier_away_days = 0;  ///< copying beside the source; on the road
    std::optional<double> courier_days;            ///< complete, what was written meanwhile caught up
    /// Size from which carrying is sooner, with the same daily churn; empty: the line always is.
    std::optional<double> break_even_bytes;
    bool link_base_expires = false, courier_base_expires = false;  ///< the source lets go of its snapshot too soon
    bool carry = false;                            ///< recommended: by hand
    std::vector<Message> assumptions;              ///< what was not given and was taken instead
    bool operator==(const FirstCopyWays&) const = default;
};

/// Bringing data back, a year from as_of or at the horizon.
struct RestoreWays {
    std::string dataset;                           ///< empty: all of the send
    RunQuantiles bytes;                            ///< stored
    RunQuantiles link_hours;                       ///< over the line's other direction, always open
    Limit bound_by = Limit::rate;
    double fetch_hours = 0;                        ///< fetching the box and copying it beside the source, p50
    bool road_binds = false;                       ///< the road takes longer than the copying
    bool operator==(const RestoreWays&) const = default;
};

struct SendOutlook {
    std::string name, from, to, link;
    Goodput goodput;                               ///< at the largest share of the week
    Limit bound_by = Limit::rate;                  ///< `hours` if the runs miss their window for want of hours
    RunQuantiles bytes_per_run, hours_per_run;     ///< wire payload; start to done
    double open_hours_per_run = 0;                 ///< mean open hours between a run's start and its deadline
    double chance_of_missing_window = 0;
    RunQuantiles recovery_point_hours;             ///< p50, p90, p95 of the age of the newest complete copy
    double recovery_point_max_hours = 0;
    DayQuantiles first_copy_days;                  ///< from in_service (or as_of) to the first complete copy
    double first_copy_bytes = 0;
    std::optional<double> longest_outage_days;     ///< empty: no limit (the last sent snapshot is held back)
    RunQuantiles restore_hours;                    ///< everything back, the link's other direction, always open
    bool falls_behind = false;                     ///< more arrives than the line carries, for ever
    std::optional<double> days_until_behind;       ///< … from this day on (p50)
    Day week_of{};                                 ///< Monday of the drawn week
    std::vector<RunOfWeek> week;
    std::vector<std::array<double, 3>> open_week;  ///< open stretches: from hour, to hour of the week (0…168), share
    double line_bits_per_second = 0;               ///< the line's own rate in the send's direction
    bool starts_closed = false;                    ///< its runs are always due while the line is closed
    bool relays = false;                           ///< some of its data come from another send
    RunQuantiles open_share_per_run;               ///< hours that bytes moved ÷ open hours before the deadline
    std::vector<WeekdayRuns> weekdays;             ///< those with runs, Monday first
    std::vector<CopyAgePoint> copy_age;            ///< over time
    BacklogOutlook backlog;
    std::optional<double> days_until_ladder_lost;  ///< p50, if it falls behind: the first full copy for want of a common snapshot
    std::vector<EventRun> events;
    std::optional<FirstCopyWays> first_copy;       ///< empty: the copy is there
    std::vector<RestoreWays> restore;              ///< all of it, then each dataset
    /// Of the line in the send's direction, the least at which its runs keep their windows with the
    /// site's confidence; only where today's does not. Empty also if no rate does.
    std::optional<double> line_rate_needed;
    bool operator==(const SendOutlook&) const = default;
};

/// A whole drive rebuilt in a group. A pass over all of it at its mean rate is the least it takes.
struct RebuildExposure {
    double hours = 0;
    int others = 0;                                ///< drives left in the group
    int spare_failures = 0;                        ///< of them that may fail in that time without loss
    double yearly_failures = 0;                    ///< of a drive, 0…1
    double chance_of_another = 0;                  ///< fails in that time; as if drives failed independently
    bool operator==(const RebuildExposure&) const = default;
};

/// What an offer would make of its box, ordered on as_of, on the paths of the forecast.
struct OfferOutlook {
    std::string name, box;
    Offer::As as = Offer::As::drives;
    std::optional<PoolCapacity> capacity;          ///< of the box with it; empty if it gives only `usable`
    double usable_bytes = 0, ceiling_bytes = 0;    ///< of the box with it, on the day it runs
    int drives = 0;                                ///< bought, spares included; 0 if it gives only `usable`
    Day running_from{};                            ///< as_of + its lead time, not before the box is in service
    DayQuantiles days_until_ceiling;               ///< with it, from as_of; not looked at before it runs
    double chance_of_lasting = 0;                  ///< below its ceiling from then to the horizon
    double chance_too_late = 0;                    ///< that the box as it is comes to its ceiling before
    double price = 0, energy_cost = 0, replacement_cost = 0, cost_total = 0;  ///< over the horizon, in the site's currency
    int purchases = 1;                             ///< within the horizon, by its life
    double cost_per_usable_tib_year = 0;           ///< of what it adds where it is added
    std::optional<RebuildExposure> rebuild;        ///< the worst of its groups; empty without redundancy or a pool
    Message does_not_go_in;                        ///< why its box cannot take it; empty: it can
    bool holds = false;                            ///< goes in, and lasts with the site's confidence
    bool recommended = false;                      ///< the cheapest that holds for its box
    std::string dominated_by;                      ///< an offer that costs no more and lasts no less, and is better in one; empty: none
    int rank = 1;                                  ///< among those for its box, best first
    std::vector<Message> assumptions;
    bool operator==(const OfferOutlook&) const = default;
};

struct CurvePart {
    double lifetime_days = 0, bytes = 0;
    bool operator==(const CurvePart&) const = default;
};

/// Steps of about one length in a listing: what the older end held and the newer did not.
struct MeasuredStep {
    double gap_days = 0;                 ///< mean length, > 0
    double freed_bytes = 0;              ///< mean
    double low_bytes = 0, high_bytes = 0;  ///< p10 and p90 over the steps; equal to the mean for one step
    int steps = 0;                       ///< ≥ 1
    bool operator==(const MeasuredStep&) const = default;
};

/// The turnover curve with its spread: mean bytes freed after `gap_days`.
struct CurveBand {
    double gap_days = 0, p10 = 0, p50 = 0, p90 = 0;
    bool operator==(const CurveBand&) const = default;
};

struct DatasetOutlook {
    std::string name;
    double live_bytes = 0;                   ///< stored, at as_of
    double compression_ratio = 1;
    double growth_bytes_per_day = 0;         ///< stored
    double growth_spread_bytes_per_day = 0;  ///< standard deviation of the rate
    double written_1h = 0, written_1d = 0, written_7d = 0, written_30d = 0;  ///< mean bytes of a step
    std::vector<CurvePart> curve;            ///< parts with bytes > 0
    bool measured = false;                   ///< curve from a listing
    double observed_days = 0;                ///< longest gap the listing shows; beyond it is extrapolated
    std::vector<Message> assumptions;        ///< sentences: what was not given and what was taken instead
    std::vector<CurveBand> curve_band;       ///< rising gaps, an hour to five years
    std::vector<MeasuredStep> measured_steps;  ///< of the listing, shortest first; empty without one
    std::optional<Backtest> backtest;        ///< of the listing, where it is long enough
    double stretch = 1;                      ///< how much wider the growth's own past errors made its spread
    bool operator==(const DatasetOutlook&) const = default;
};

/// What one uncertain input does to the day a box reaches its ceiling, the others at their middle.
struct Driver {
    std::string box;                         ///< name of the box
    Message input;                           ///< "growth of “scans”", "turnover of “mail” beyond 30 days"
    std::string about;                       ///< JSON pointer of the item: "/datasets/0"
    std::optional<double> low_days, high_days;  ///< days until ceiling with the input at its p10 and p90; empty: not within the horizon
    double variance_share = 0;               ///< of the logarithm of the days over the paths, 0…1
    bool operator==(const Driver&) const = default;
};

struct Outlook {
    std::string site, currency;
    Day as_of{};
    double horizon_days = 0;
    double confidence = 0.9;
    int paths = 0;
    std::uint64_t seed = 0;
    std::vector<BoxOutlook> boxes;      ///< those with a pool or usable
    std::vector<SendOutlook> sends;
    std::vector<DatasetOutlook> datasets;
    std::vector<OfferOutlook> offers;   ///< as the site lists them
    std::vector<Driver> drivers;        ///< of every box that may reach its ceiling, greatest effect first within a box
    bool operator==(const Outlook&) const = default;
};

/// Told now and then how far the work is, 0…1; called from the thread that called `compute`.
struct Progress {
    std::stop_token stop;                      ///< a request ends the work early: Cancelled
    std::function<void(double)> report;        ///< may be empty
};

struct Cancelled {
    bool operator==(const Cancelled&) const = default;
};
using ComputeError = std::variant<Cancelled, Problems>;

/// Site, measured files, settings → outlook. A pure function: same arguments, same answer, on any
/// number of threads. Problems: an invalid site, a listing that is missing from the evidence or does
/// not hold the dataset, something the model does not cover (said, never guessed).
tl::expected<Outlook, ComputeError> compute(const Site&, const Evidence&, const Settings&,
                                            const Progress& = {});

}  // namespace ullage
