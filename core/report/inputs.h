// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Every input of a site as tables, so that another can check it: what the site's file says, its keys as
/// words, its values as they are typed. Keys of the user's own ("x-…") are left out.

#include "core/report/report.h"

#include <vector>

namespace ullage {

std::vector<ReportTable> input_tables(const Site&, const Wording& w = Wording());

}  // namespace ullage
