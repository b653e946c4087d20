// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The sends of a site: what they cover, what a box keeps of them, and their replay over paths.
///
/// Not covered yet, and refused with the reason: a send whose source is itself the destination of a
/// send of the same dataset (a relay).
/// Assumptions: fill is computed as if every run arrived at its due time; a first copy over a link has
/// the link to itself, in its open hours; a restore has the other direction to itself, always open.
/// The replay runs over the first paths only (`replay_sample_count`), enough for its quantiles.

#include "core/outlook/models.h"
#include "core/outlook/outlook.h"
#include "core/outlook/paths.h"
#include "core/replay/replay.h"

#include <memory>
#include <vector>

namespace ullage {

struct SendContext {
    const Site& site;
    const TimeZone& zone;
    Instant start{};              ///< local midnight of as_of
    double horizon_days = 0;
    const std::vector<DatasetModel>& models;
};

struct PlannedSend {
    int send = 0;                            ///< index in the site
    std::string to;
    std::vector<int> datasets;
    int link = 0;
    Goodput goodput;                         ///< at the largest share of the week
    double line_bits_per_second = 0;         ///< payload, at share 1
    double own_bits_per_second = 0;          ///< least of window, loss, cipher, disk
    std::vector<Instant> due;                ///< from the first copy's completion back to what is needed, to the horizon
    std::vector<SnapshotSupply> supplies;    ///< per dataset
    std::vector<std::shared_ptr<const LadderClock>> source_ladders;
    std::vector<std::shared_ptr<const LadderClock>> box_ladders;  ///< null: keeps all
    bool every_step = false;
    FirstCopy::By by = FirstCopy::By::link;
    double first_copy_start_day = 0;         ///< from as_of; may be negative
    std::optional<double> first_copy_done_day;  ///< of the middle forecast; empty: not within the horizon
    double first_copy_bytes = 0;             ///< payload
    std::vector<double> payload_per_stored;  ///< per dataset: wire bytes of a stored byte
    std::vector<Instant> base;               ///< snapshot of each dataset that the first copy carries
    std::vector<OpenStretch> open;           ///< of the link, from the start of the first copy to the horizon
};

tl::expected<std::vector<PlannedSend>, Problems> plan_sends(const SendContext& context);

/// What the source keeps at each day: the snapshots of the listing, if there is one, then the grid's.
KeptSnapshots kept_at_home(const LadderClock& ladder, const KnownPast& known, Instant start,
                           const std::vector<double>& days);

/// What the box keeps of the dataset at each day; empty if no send brings it there. A copy that is
/// present is taken to hold what the listing shows at the source.
std::optional<KeptSnapshots> kept_at_box(const std::vector<PlannedSend>& sends, std::size_t dataset,
                                         const std::string& box, const KnownPast& known, Instant start,
                                         const std::vector<double>& days);

/// Paths that the replay runs over: fewer when there are many runs.
int replay_sample_count(const std::vector<PlannedSend>& sends, int paths);

/// Empty if stopped.
std::optional<std::vector<SendOutlook>> replay_sends(const SendContext& context,
                                                     const std::vector<PlannedSend>& sends,
                                                     const PathsPlan& plan, const Paths& paths,
                                                     const Settings& settings, const Progress& progress,
                                                     double progress_from, double progress_to);

}  // namespace ullage
