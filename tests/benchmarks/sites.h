// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Invented sites and listings to measure speed on.

#include "core/site/site.h"

#include <string>

namespace ullage::benchmarks {

/// Eight hourly sends on two shared lines, half of them relays, over five years.
Site eight_sends();

/// `datasets` typed datasets on a source and three boxes of copies, three nightly lines and eight sends, over
/// five years; sized so that nothing comes to its ceiling and every night is carried.
Site many_datasets(int datasets);

/// A snapshot listing of one dataset, one every half hour a line.
std::string listing_text(int snapshots);

}  // namespace ullage::benchmarks
