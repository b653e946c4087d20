// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What holds of every outlook, whatever the site: the invariants of outlook.h, checked on the values.
///
/// Every number is finite; quantiles do not fall; days are never negative nor past the horizon; the
/// ceiling never comes after full; chances lie in 0…1; bytes, hours and rates are never negative; what
/// is sorted is sorted; dates rise from as_of to the horizon, a week apart at most.
/// `compute` asserts it in debug builds; the tests check it over random sites.

#include "core/outlook/outlook.h"

#include <string>
#include <vector>

namespace ullage {

/// What is broken, as sentences ("box “attic”: days until full: p50 is −1"); empty: nothing.
std::vector<std::string> broken_laws(const Outlook&);

}  // namespace ullage
