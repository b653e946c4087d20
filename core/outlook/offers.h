// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Offers compared: each as if it were ordered today, on the same futures.
///
/// Model. An offer runs from as_of + its lead time, or from the day its box is in service if that is
/// later. From the first day of the time grid after that its space counts (box_space.h), and the
/// first passage of its ceiling on every path. It holds if it goes into its enclosure and lasts to the
/// horizon on the site's confidence of the paths.
/// Costs are those from the day it runs to the horizon: its price, again each time its life is over;
/// power × time × the price of energy. Per usable TiB-year: divided by usable TiB (those it adds,
/// where it is added) and by those years. Money has no interest here.
/// One offer dominates another for the same box if it goes in, costs no more and lasts no less
/// often, and is better in one of the two. Rank: those that hold by cost; then those that do not, the
/// likelier to last first; then those that do not go in. So one that dominates is never behind.
///
/// Ignored: discounts, interest, the worth of what is left at the horizon, the energy of the box itself
/// where only drives are bought, labour. Drives that fail within their life are taken to be replaced
/// under warranty.

#include "core/outlook/box_space.h"
#include "core/outlook/outlook.h"

#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace ullage {

struct PlannedOffer {
    std::size_t offer = 0, box = 0;          ///< index in the site
    double runs_day = 0;                     ///< from as_of
    BoxSpace space;                          ///< of the box with it
    std::vector<double> ceilings;            ///< at each time of the grid; infinite before it runs
    std::vector<Message> assumptions;
};

/// `spaces`: of each box of the site. Problems: a pool that cannot be built.
tl::expected<std::vector<PlannedOffer>, Problems> plan_offers(const Site& site,
                                                              const std::vector<BoxSpace>& spaces,
                                                              const std::vector<double>& days);

/// `ceiling_days`: for each box of the site, when the paths come to its ceiling as it is; empty for
/// one that is not forecast. `used`: Paths::offer_used.
std::vector<OfferOutlook> compare_offers(const Site& site, const std::vector<PlannedOffer>& plans,
                                         const std::vector<std::vector<double>>& ceiling_days,
                                         const std::vector<double>& days,
                                         const std::vector<PathTable>& used);

}  // namespace ullage
