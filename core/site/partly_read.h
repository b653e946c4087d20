// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Validation of a site of which some members could not be read; used by the reader, so that one
/// slip is one problem, and not also one for each thing that follows from it.

#include "core/site/site.h"
#include "core/units/problem.h"

#include <set>
#include <string>

namespace ullage {

/// Pointers of the members that have a value in the file which could not be read.
using Unread = std::set<std::string>;

/// As `validate`, less what rests on an unread member or on a list with unread names.
Problems validate_partly_read(const Site&, const Unread&);

}  // namespace ullage
