// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What the findings say about a box's space: planned changes, what small blocks cost there, and what
/// the offers for it would make of it.

#include "core/findings/findings.h"

#include <string>
#include <vector>

namespace ullage {

/// About the box at `about`.
std::vector<Finding> space_findings(const Outlook& outlook, const BoxOutlook& box, const std::string& about,
                                    Prefixes prefixes, const Wording& w = Wording());

/// Of all offers, box by box.
std::vector<Finding> offer_findings(const Site& site, const Outlook& outlook, const Wording& w = Wording());

}  // namespace ullage
