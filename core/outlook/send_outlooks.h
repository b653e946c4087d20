// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// From the traces of the sends over paths to what is said about each: bytes and hours per run,
/// missed windows, age of the copy, backlog, first copy, restore.
///
/// Assumptions: as in send_plan.h and send_replay.h; a restore has the line's other direction to
/// itself, always open.

#include "core/outlook/send_replay.h"

#include <optional>
#include <vector>

namespace ullage {

/// Empty if stopped.
std::optional<std::vector<SendOutlook>> replay_sends(const SendContext& context,
                                                     const std::vector<PlannedSend>& sends,
                                                     const PathsPlan& plan, const Paths& paths,
                                                     const Settings& settings,
                                                     const Progress& progress, double progress_from,
                                                     double progress_to);

}  // namespace ullage
