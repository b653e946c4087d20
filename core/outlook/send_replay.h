// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The replay of a site's sends over the first paths of a forecast.
///
/// Assumptions: as in send_plan.h; the paths replayed are few (`replay_sample_count`), enough for
/// quantiles over weeks and paths.

#include "core/outlook/run_bytes.h"
#include "core/outlook/send_plan.h"

#include <functional>
#include <optional>
#include <vector>

namespace ullage {

using Traces = std::vector<std::vector<std::vector<RunRecord>>>;  ///< [path][send][run]
/// What came to each box, and when: [path][send][dataset].
using PathArrivals = std::vector<std::vector<std::vector<std::vector<Arrival>>>>;

/// What was sent whole: [path][send], in order.
using PathWholes = std::vector<std::vector<std::vector<SentWhole>>>;

/// Paths that the replay runs over: fewer when there are many runs.
int replay_sample_count(const std::vector<PlannedSend>& sends, double horizon_days, int paths);
/// The same for a first look that a better one follows: 3 to 8.
int first_sample_count(const std::vector<PlannedSend>& sends, double horizon_days, int paths);

struct PathsReplay {
    int threads = 0;  ///< 0: as many as there are
    std::size_t most_paths = SIZE_MAX;
    /// Runs that end from here on note how long their base survives, on the first path only …
    Instant survival_from = Instant::max();
    bool survival_on_all_paths = false;  ///< … or on all
    PathArrivals* arrivals = nullptr;    ///< filled, if given
    PathWholes* wholes = nullptr;        ///< the same
    /// Unless negative: the replay ends as soon as more than this share of the runs of one of `only`, in some year, is
    /// certain to miss its window; what it has found by then is given.
    double most_missing = -1;
    /// What the steps carry, of as many paths as it knows; null: worked out for the call.
    const KnownSteps* known = nullptr;
    /// Unless empty: only these sends, and those that can hold them up, are run.
    std::vector<std::size_t> only;
    /// The line `closed_link` carries nothing between these.
    int closed_link = -1;
    Instant closed_from{}, closed_to{};
};

/// Empty if stopped.
std::optional<Traces> replay_paths(const SendContext& context,
                                   const std::vector<PlannedSend>& sends, const PathsPlan& plan,
                                   const Paths& paths, const PathsReplay& settings,
                                   const Progress& progress, double progress_from,
                                   double progress_to);

/// Runs that missed their window ÷ runs, in the year of the horizon in which that is most, over all
/// paths; 1 if there was no run at all.
double missing_in_worst_year(const Traces& traces, std::size_t send, Instant start);

}  // namespace ullage
