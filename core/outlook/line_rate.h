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

#include "core/outlook/send_calendars.h"
#include "core/outlook/send_replay.h"

#include <map>
#include <optional>
#include <stop_token>
#include <tl/expected.hpp>
#include <vector>

namespace ullage {

/// Whether each of these sends (indices in the site) is carried by its line as the site has it.
bool carries(const SendContext& context, const std::vector<std::size_t>& sends, double confidence,
             const PathsPlan& plan, const Paths& paths, int threads, const std::stop_token& stop);

/// One link's search. What a rate was found to carry is kept, so that a second question of the same link
/// tries few rates anew. Refers to what it is made of.
class LineRateSearch {
public:
    LineRateSearch(const SendContext& context, int link, double confidence, const PathsPlan& plan,
                   const Paths& paths, int threads, const std::stop_token& stop);

    /// Bit/s, all of `sends` (indices in the site) going over the link; empty if a thousandfold of
    /// today's rate does not carry them, or if stopped. Below today's if that suffices.
    std::optional<double> needed(const std::vector<std::size_t>& sends);

private:
    bool enough(double rate, const std::vector<std::size_t>& sends);

    Site site_;  ///< with the rate tried
    SendContext changed_;
    int link_;
    double confidence_, today_ = 0;
    const PathsPlan& plan_;
    const Paths& paths_;
    int threads_;
    std::stop_token stop_;
    SendCalendars calendars_;
    tl::expected<std::vector<PlannedSend>, Problems> plans_;
    bool all_present_ = false;
    std::optional<KnownSteps> known_;
    std::map<double, std::vector<std::optional<bool>>> carried_;  ///< by rate: each send of the site, where it is known
};

}  // namespace ullage
