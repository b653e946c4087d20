// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What the other tables leave out, for who checks the numbers.

#include "core/report/report.h"

#include <vector>

namespace ullage::report {

std::vector<ReportTable> box_tables(const Outlook&, const Wording&);
std::vector<ReportTable> send_tables(const SendOutlook&, const Wording&);
std::vector<ReportTable> dataset_tables(const Outlook&, const Wording&);
std::vector<ReportTable> offer_tables(const Outlook&, const Wording&);

}  // namespace ullage::report
