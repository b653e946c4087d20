// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Outage drill: a send's line is down from a date for some days. What is behind then, how long
/// does catching up take, and do both ends still share a snapshot?
///
/// Model. The replay of the forecast's first paths with the line closed (for all sends over it)
/// from local midnight of the date. A run that is under way waits and goes on; those that come due
/// wait and become one. The datasets of which the source has let go of the last common snapshot by
/// then are sent again whole: their old copies stay on the box until the new ones are complete, so
/// the box needs room for both. The longest outage survived is the least over the runs of the five
/// weeks before the date, on all paths replayed; the remedies are the same figure with one thing
/// changed. Assumption: nothing else of the site changes for the outage (people write as ever). Day
/// by day: of each path the oldest that the newest complete copy gets within the day, and the bytes
/// that wait at the day's end; quantiles over the paths. What waits follows the runs in straight
/// lines: it grows from the time a run is due until the line is back, and falls while the run goes
/// on, through what was left at its deadline.

#include "core/outlook/outlook.h"

#include <optional>
#include <string>
#include <vector>

namespace ullage {

struct OutageQuestion {
    std::string send;
    Day from{};
    double days = 1;  ///< > 0
};

/// What would raise the longest outage survived.
struct OutageRemedy {
    enum class Kind { hold_last_sent, longer_ladder } kind = Kind::hold_last_sent;
    Message text;                        ///< "hold the last sent snapshot back at clinic"
    std::optional<double> longest_days;  ///< with it; empty: no limit
    bool operator==(const OutageRemedy&) const = default;
};

/// One day of the site's clock around an outage.
struct OutageDay {
    Day date{};
    double age_p50_hours = 0, age_p95_hours = 0;  ///< of the newest complete copy, at its oldest
    double waiting_p50_bytes = 0, waiting_p95_bytes = 0;  ///< due and not yet carried, at its end
    bool operator==(const OutageDay&) const = default;
};

struct OutageDrill {
    std::string send, link;
    Day from{};
    double days = 0;
    RunQuantiles backlog_bytes;  ///< payload to be carried when the line is back
    RunQuantiles catch_up_days;  ///< from then until nothing waits; of the paths that get there
    double chance_of_catching_up = 0;  ///< within the horizon
    RunQuantiles oldest_copy_hours;    ///< age of the newest complete copy at its worst
    /// From a week before the outage until 19 in 20 paths have caught up and some days on; none
    /// beyond the horizon, nor more than half a year after the outage.
    std::vector<OutageDay> daily;
    double chance_base_survives = 0;
    std::optional<double> longest_outage_days;  ///< empty: no limit
    std::vector<OutageRemedy> remedies;
    bool resends_whole = false;  ///< some dataset, on at least one path; the rest is then filled in
    /// Those that are sent whole on at least half of such paths, at least the most frequent one.
    std::vector<std::string> resent_datasets;
    RunQuantiles resend_bytes;     ///< payload of the run that sends them, the rest of it included
    RunQuantiles resend_days;      ///< from its beginning to its end, closed hours included
    double room_needed_bytes = 0;  ///< on the box, as it counts them, p50
    std::optional<double>
        room_free_bytes;  ///< to full, p50 on the day the line is back; empty: box not forecast
    bool operator==(const OutageDrill&) const = default;
};

/// Problems besides those of `compute`: no such send; a date outside the horizon; days not above 0
/// or beyond the horizon; a line that has not carried the first copy by then.
tl::expected<OutageDrill, ComputeError> outage_drill(const Site& site, const Evidence& evidence,
                                                     const Settings& settings,
                                                     const OutageQuestion& question,
                                                     const Progress& progress = {});

}  // namespace ullage
