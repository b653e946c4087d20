// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The measured histories of a folder: what was known on a day, and what came in the year after.
///
/// FOLDER/history-*/origin*/ holds
///   listing-tiered.tsv, listing-daily90.tsv, listing-daily30.tsv   what a snapshot listing showed
///   live.tsv     time, live: bytes per day before (may be missing)
///   truth.json   `as_of`; `held`: ladder → date → bytes held by snapshots, without the live data;
///   `live`:
///                date → bytes; `live_daily`: bytes on as_of and on each of the 365 days after
/// FOLDER/growth-*.csv holds date, bytes added per day (used by growth.h).

#include "core/units/calendar.h"

#include <map>
#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace ullage::accuracy {

/// Values on dates, as whole days after as_of, rising.
struct Dated {
    std::vector<double> days, bytes;
};

struct Origin {
    std::string history, name;  ///< of the folders
    Instant as_of{};
    std::map<std::string, std::string> listings;  ///< by ladder: the file's text
    std::string usage;                            ///< live.tsv; empty if missing
    std::map<std::string, Dated> held;            ///< by ladder
    Dated live;
    std::vector<double> live_daily;  ///< from as_of
};

/// Every origin, by name. The error is a sentence with the file.
tl::expected<std::vector<Origin>, std::string> read_origins(const std::string& folder);

}  // namespace ullage::accuracy
