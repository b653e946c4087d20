// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The year after each origin: held, live and used bytes on the dates, and the days of the
/// ceilings.

#include "tests/benchmarks/accuracy/origins.h"
#include "tests/benchmarks/accuracy/table.h"

namespace ullage::accuracy {

/// `reference`: path of ceiling_days.tsv; its lines count where origin and true day agree.
/// The error is a sentence.
tl::expected<std::vector<Table>, std::string> judge_years(const std::vector<Origin>&,
                                                          const std::string& reference);

}  // namespace ullage::accuracy
