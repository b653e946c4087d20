// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The sends of a site, planned: what they carry from where, when they are due, what their box
/// keeps.
///
/// A dataset of a send comes from its home, or, where another send brings it to the box that this
/// one starts from, from there (a relay): then only what has arrived and been kept there goes on.
/// Assumptions: fill is computed as if every run arrived at its due time; the days that a first
/// copy takes until the nightly runs begin are counted with the line to itself, in its open hours
/// (how the others delay it is in first_copy.h). A relay's first copy starts when its source's is
/// complete.

#include "core/outlook/models.h"
#include "core/outlook/outlook.h"
#include "core/outlook/paths.h"
#include "core/replay/replay.h"

#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace ullage {

struct SendContext {
    const Site& site;
    const TimeZone& zone;
    Instant start{};  ///< local midnight of as_of
    double horizon_days = 0;
    const std::vector<DatasetModel>& models;
    int threads = 0;  ///< 0: as many as there are
};

struct PlannedSend {
    int send = 0;  ///< index in the site, and in the list of plans
    std::string to;
    std::vector<int> datasets;
    int link = 0;
    Goodput goodput;                  ///< at the largest share of the week
    double line_bits_per_second = 0;  ///< payload, at share 1
    double own_bits_per_second = 0;   ///< least of window, loss, cipher, disk
    std::vector<Instant>
        due;  ///< from the first copy's completion back to what is needed, to the horizon
    bool on_arrival = false;  ///< starts when something comes from upstream; `due` is empty
    std::vector<std::optional<Upstream>> upstream;  ///< per dataset
    std::vector<SharedValue<SnapshotSupply>> supplies;  ///< per dataset; empty from upstream
    std::vector<std::shared_ptr<const LadderClock>> source_ladders;  ///< null: a box that keeps all
    std::vector<std::shared_ptr<const LadderClock>> box_ladders;     ///< null: keeps all
    std::vector<std::shared_ptr<const LadderGrid>> box_grids;        ///< of these
    bool every_step = false;
    double period_days = 1;  ///< between its runs; of one on arrival, that of what feeds it
    FirstCopy::By by = FirstCopy::By::link;
    double first_copy_start_day = 0;  ///< from as_of; may be negative
    std::optional<double>
        first_copy_done_day;      ///< of the middle forecast; empty: not within the horizon
    double first_copy_bytes = 0;  ///< payload
    std::vector<double> payload_per_stored;  ///< per dataset: wire bytes of a stored byte
    std::vector<Instant> base;  ///< snapshot of each dataset that the first copy carries
    std::vector<OpenStretch>
        open;  ///< of the link, from the start of the first copy to the horizon
    std::vector<std::vector<Arrival>>
        received;                  ///< per dataset, if every run arrived when due; base first
    double first_copy_stored = 0;  ///< stored bytes, of the middle forecast

    /// How many runs it has, about.
    double expected_runs(double horizon_days) const;
};

tl::expected<std::vector<PlannedSend>, Problems> plan_sends(const SendContext& context);
/// The same with what plans of this site and horizon have worked out before.
class SendCalendars;  // send_calendars.h
tl::expected<std::vector<PlannedSend>, Problems> plan_sends(const SendContext& context, SendCalendars& calendars);

/// Stored live bytes of a dataset by the middle forecast, events left out.
double expected_live(const DatasetModel& model, double day);

/// What a dataset writes within `days` from `day` on by the middle forecast, payload left out.
double expected_written(const DatasetModel& model, double day, double days);

/// Days from its start until a first copy of `stored` bytes is complete; infinite if it is not
/// within the horizon.
double first_copy_days(const PlannedSend& plan, const Send& send, const SendContext& context,
                       double stored);

/// The lines and sends as the replay takes them: runs from as_of on, what is at the box by then.
/// The sends point into `sends`, which must outlive them.
std::vector<ReplayLink> replay_links(const Site& site, const std::vector<PlannedSend>& sends);
std::vector<ReplaySend> replay_sends_of(const SendContext& context,
                                        const std::vector<PlannedSend>& sends);

}  // namespace ullage
