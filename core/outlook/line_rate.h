// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The least rate of a line that carries its nights.
///
/// A rate carries a send if its first copy is done within the horizon and, in the worst year of the
/// horizon, no more than 1 − confidence of its runs miss their window. The line's rate in the
/// sends' direction is moved, its packets, hours and other limits stay; replays are made anew for
/// each rate, on the paths already drawn (the first few: a quantile needs no more), and plans too
/// where a first copy is yet to come. Bisection on the logarithm, to 1 %: more line may rarely make
/// single runs later (see replay.h), so the answer is a rate that carries with one just below it
/// that does not, not a proof about all below.

#include "core/outlook/send_replay.h"

#include <optional>
#include <stop_token>
#include <vector>

namespace ullage {

/// Whether each of these sends (indices in the site) is carried by its line as the site has it.
bool carries(const SendContext& context, const std::vector<std::size_t>& sends, double confidence,
             const PathsPlan& plan, const Paths& paths, int threads, const std::stop_token& stop);

/// Bit/s for the link (index in the site), all of `sends` going over it; empty if a thousandfold of
/// today's rate does not carry them, or if stopped. Below today's if that suffices.
std::optional<double> line_rate_needed(const SendContext& context, int link,
                                       const std::vector<std::size_t>& sends, double confidence,
                                       const PathsPlan& plan, const Paths& paths, int threads,
                                       const std::stop_token& stop);

}  // namespace ullage
