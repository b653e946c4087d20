// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Makes the invented snapshot listings of the sample sites: a store whose blocks are born and die one by
/// one, listed as a copy-on-write box would list its snapshots on one day.
///
/// Model. The live bytes are shared out over classes of blocks; each class dies at its own mean age
/// (exponential ages) and is written anew at the rate that keeps its share, plus growth. Writes fall on the
/// working hours of days weighted by weekday; the level of each week wanders (log-normal). Blocks stand for
/// lumps of equal size, so that a listing takes a second to make.
/// Not modelled: files that are written together, moves, purges.
/// Deterministic: the same store gives the same text (core/units/random.h).

#include "core/site/site.h"

#include <array>
#include <cstdint>
#include <string>
#include <vector>

namespace ullage::testing {

struct InventedClass {
    double share;          ///< of the live bytes, 0…1; the classes' shares add up to 1
    double mean_age_days;  ///< at which its blocks are written anew
};

struct InventedStore {
    std::string name;                     ///< of the dataset; what stands before the @
    std::uint64_t seed = 1;
    std::string time_zone = "UTC";
    Day as_of{};                          ///< the day of the listing, at 06:00
    int history_days = 400;
    double live_bytes = 0;                ///< at as_of, about
    double growth_per_year = 0;           ///< share of live_bytes
    double lump_bytes = 64 * 1048576.0;
    double week_wander = 0.2;             ///< standard deviation of a week's log level
    std::array<double, 7> weekdays{1, 1, 1, 1, 1, 0.2, 0.1};
    std::vector<InventedClass> classes;
    Ladder ladder;
};

/// A listing: snapshot, taken, unique, live, written; tab-separated, oldest first.
std::string listing_of(const InventedStore& store);

/// The stores of the sample sites, by the file each makes.
struct SampleListing {
    std::string file;
    InventedStore store;
};
std::vector<SampleListing> sample_listings();

}  // namespace ullage::testing
