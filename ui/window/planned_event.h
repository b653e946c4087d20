// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A planned event put in from a box's chart.

#include "core/site/site.h"

#include <string>
#include <vector>

namespace ullage::ui {

/// Indices of the datasets whose bytes stand on a box: those that live there, and those that sends
/// bring, by way of other boxes too. As the site lists them.
std::vector<int> datasetsOn(const Site& site, const std::string& box);

/// Adds a planned event of a dataset: 1 TB more on that day, to be edited. Returns the JSON pointer
/// of the list of its events.
std::string addPlannedEvent(Site& site, int dataset, Day on);

}  // namespace ullage::ui
