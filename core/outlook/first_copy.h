// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The first copy and the way back: over the line, or by hand.
///
/// Model, on the middle forecast. Over the line the first run carries everything and shares the
/// line with the other sends on it (and with their own first copies by line); the runs that come
/// due meanwhile wait and become one. By hand the copy is made beside the source at `copy_rate`, is
/// `days_away` on the road, and what was written since its snapshot crosses the line after that. A
/// way is in step when a run is done and none waits. If the source lets go of the snapshot that a
/// first copy started from before the first increment begins, everything is sent again: that is in
/// the days, and said (`…base_expires`). The size at which both take equally long is found with the
/// line to itself, the daily churn as it is. Defaults where the site gives no courier: 150 MB/s and
/// 2 days on the road (common practice, no source); they are among the assumptions.

#include "core/outlook/send_plan.h"

#include <vector>

namespace ullage {

/// Empty if the copy is there already.
std::optional<FirstCopyWays> first_copy_ways(const SendContext& context,
                                             const std::vector<PlannedSend>& sends,
                                             std::size_t index);

/// All of the send, then each dataset if there are several. Sizes over the paths of
/// `paths.samples`, a year from as_of or at the horizon.
std::vector<RestoreWays> restore_ways(const SendContext& context,
                                      const std::vector<PlannedSend>& sends, std::size_t index,
                                      const PathsPlan& plan, const Paths& paths);

}  // namespace ullage
