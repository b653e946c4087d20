// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What the findings say about a send: does the night carry it, what if not, how old is the copy,
/// how does it get there and back, and what its payload and transport cost and risk.

#include "core/findings/findings.h"

#include <string>
#include <vector>

namespace ullage {

std::vector<Finding> send_findings(const Site& site, const Outlook& outlook,
                                   const SendOutlook& send, Prefixes prefixes, const Wording& w = Wording());

/// What holds for every box that takes copies.
std::string receiving_practice(const Wording& w = Wording());

}  // namespace ullage
