// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Many futures: each path draws its growth, churn, compression, bursts and events, and gives the
/// fill of every box over time.
///
/// Model of a path, per dataset:
///   live   from as_of: where growth was measured, a future of measure/growth.h; else a walk with drift
///          N(g, sd²), drawn once a path, and noise growing with √t
///   churn  level (log-normal, mean 1, once a path) × live(t) ÷ live(0) × noise of each interval
///          (log-normal, mean 1, variance of a day ÷ days)
///   wander what dies young varies besides: a log-normal level, mean 1, that leans back to it over 60 days;
///          of a gap of g days the share 1 ÷ (1 + g ÷ 4 d) follows it
///   held   Σ over the gaps of the retained snapshots of freed(gap) × mean churn in the gap, freed
///          from one of the equally likely curves; sixteen paths share one, spread evenly from the curve that holds
///          least to the one that holds most
///   known  between two snapshots of a listing, freed is what the listing shows; where one between
///          them has gone since, the curve tells how much of the sum went with it
///   events add to or take from live; what `remove` and `rewrite` free is held while a retained
///          snapshot is older
/// Times: each of the first 60 days, then each week, and the days about every event; straight lines
/// between them, so a passage within a week is placed to the day, and noise within a week is not drawn.
/// What a path draws once, and the curve of a block of paths, are coordinates of Sobol's points (units/sobol.h): the
/// paths are spread evenly over them. All other random numbers are keyed by seed and dataset and counted by path and step
/// (units/random.h). So a path is the same whatever the number of threads or paths.
/// Paths may be set instead of drawn: then no noise, and nothing of a path depends on another dataset's inputs.
/// Invariants: fill is never negative; without spreads all paths are equal.

#include "core/outlook/models.h"
#include "core/outlook/path_table.h"
#include "core/retention/ladder.h"
#include "core/units/random.h"
#include "core/units/shared_value.h"

#include <cstdint>
#include <optional>
#include <stop_token>
#include <vector>

namespace ullage {

/// The days (from as_of, rising, first 0, last the horizon) at which paths are evaluated.
std::vector<double> time_grid(double horizon_days, const std::vector<double>& event_days);

/// Where a day lies on a rising grid of at least two times: between `next` − 1 and `next`, `part` of the way;
/// beyond the last time or before the first, at it.
struct GridPlace {
    std::size_t next = 1;
    double part = 0;
};
GridPlace place_on(const std::vector<double>& days, double day);

/// Retained snapshots at each time of the grid, oldest first.
using KeptTimes = std::vector<std::vector<Instant>>;

/// What a box keeps of one dataset at each time of the grid.
struct KeptSnapshots {
    bool home = false;                       ///< live data changes here: the gap up to now counts
    double ramp_from_day = 0;                ///< a first copy over a link fills the box from here …
    double arrives_day = 0;                  ///< … to here; before it nothing is complete
    bool ramps = false;                      ///< false: nothing there until it arrives
    SharedValue<KeptTimes> at;               ///< what is retained at each time

    /// Between which the gaps lie that hold bytes at a time of the grid, which is at `now`.
    std::vector<Instant> gap_ends(std::size_t time, Instant now) const {
        std::vector<Instant> ends = (*at)[time];
        if (home && !ends.empty()) ends.push_back(now);
        return ends;
    }
};

/// Usable bytes taken by one stored byte.
struct Charges {
    double always = 1;                       ///< where the two below are empty
    std::vector<double> live, held;          ///< at each time of the grid
    Charges(double same = 1) : always(same) {}  // NOLINT: implicit by design
    double of_live(std::size_t time) const { return live.empty() ? always : live[time]; }
    double of_held(std::size_t time) const { return held.empty() ? always : held[time]; }
};

/// The same bytes as another space would count them.
struct OfferPart {
    int offer = 0;                           ///< of PathsPlan::offers
    Charges charges;
};

struct BoxPart {
    int box = 0;                             ///< −1: not forecast, only offers for it are
    int dataset = 0;
    Charges charges;
    KeptSnapshots kept;
    std::vector<OfferPart> offers;
};

struct Probe {
    std::vector<int> datasets;
    double day = 0;
};

/// One dataset's draw on one path, for the replay.
struct DatasetPath {
    int curve = 0;                           ///< index into the model's curves; not the one the path fills boxes by
    std::vector<double> live;                ///< stored bytes at each time, events left out
    std::vector<double> churn;               ///< multiplier of each interval, for steps of a day
    struct DrawnEvent { Event::Kind kind; double day; double bytes; };
    std::vector<DrawnEvent> events;
};

/// The inputs of one dataset on a path that is set.
struct SetInputs {
    int curve = 0;                           ///< index into the model's curves, one for all of a block; their number: the mean curve
    double level = 1;                        ///< of churn
    double live_factor = 1;                  ///< of what is stored at as_of
    double rate = 0;                         ///< of growth before as_of, bytes/day
    std::vector<double> added;               ///< growth, bytes by each time
    std::vector<double> event_day, event_bytes;
};

/// What each path drew, per dataset: [path].
struct DrawnInputs {
    std::vector<float> level, live_factor;
    std::vector<int> curve;
    std::vector<std::vector<float>> growth;  ///< [day of PathsPlan::growth_days]: bytes added by then
    std::vector<std::vector<float>> event_day, event_bytes;  ///< [event]
};

/// A level of mean 1 and relative standard deviation `cv`, by a standard normal number.
double log_normal(double cv, double z);
/// Size and day of an event, each by a standard normal number.
double event_bytes(const EventModel&, double z);
double event_day(const EventModel&, double z);

struct PathsPlan {
    Instant as_of{};                         ///< local midnight
    std::vector<double> days;                ///< the time grid
    int boxes = 0;
    std::vector<double> other_bytes;         ///< of each box
    std::vector<BoxPart> parts;
    int offers = 0;
    std::vector<double> offer_other_bytes;   ///< of each offer's box
    std::vector<Probe> probes;
    int paths = 1;
    std::uint64_t seed = 1;
    int threads = 0;
    int samples = 0;                         ///< of the first paths, kept for the replay
    int most_parted = 1024;                  ///< of the first paths, whose live and held bytes are told apart: a multiple of block_paths
    std::vector<double> growth_days;         ///< days > 0 by which the growth of every path is told
    std::vector<std::vector<SetInputs>> set; ///< [path][dataset]; unless empty, `paths` of them are set
};

struct HeldProfiles;  // held_profiles.h

struct Paths {
    std::size_t paths = 0, times = 0;
    std::vector<PathTable> used;                          ///< per box
    std::vector<PathTable> live, held;                    ///< per box, of the first paths, `most_parted` of the plan
    std::vector<PathTable> offer_used;                    ///< per offer
    std::vector<std::vector<double>> probes;              ///< [probe][path]
    std::vector<double> edges;                            ///< bounds of the churn intervals, days
    std::vector<std::vector<DatasetPath>> samples;        ///< [path][dataset]
    std::vector<DrawnInputs> drawn;                       ///< [dataset]; empty if the paths were set

    /// What is largest, when it is of no more use.
    void drop_tables() {
        for (auto* tables : {&used, &live, &held, &offer_used}) tables->clear();
    }
};

/// Empty if stopped.
std::optional<Paths> draw_paths(const std::vector<DatasetModel>& models, const PathsPlan& plan,
                                const Progress& progress, double progress_from, double progress_to);

/// The same with what the snapshots hold found before, by held_profiles of the same models, days and parts but
/// for their boxes and charges.
std::optional<Paths> draw_paths(const std::vector<DatasetModel>& models, const PathsPlan& plan,
                                const HeldProfiles& profiles, const Progress& progress, double progress_from,
                                double progress_to);

/// First whole day on which the straight lines through (day, level) reach `limit`; 0 if at once;
/// empty if never.
std::optional<double> first_passage(const std::vector<double>& days, const float* level,
                                    std::size_t stride, double limit);
/// The same against a limit at each time, which holds from its day until the next one's.
std::optional<double> first_passage(const std::vector<double>& days, const float* level,
                                    std::size_t stride, const std::vector<double>& limits);

}  // namespace ullage
