// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The tables and pictures of the report, and the words beside them.

#include "core/report/report.h"

#include <string>
#include <vector>

namespace ullage::report {

ReportTable boxes_table(const Answer&);
ReportPicture gauge_picture(const Outlook&, std::size_t box);
ReportPicture fill_picture(const Answer&, std::size_t box);
std::string band_in_words(const BoxOutlook&);

ReportTable send_table(const SendOutlook&);
ReportPicture week_picture(const Outlook&, std::size_t send);

/// No rows: no offers for that box.
ReportTable offers_table(const Outlook&, const std::string& box);
ReportTable order_table(const Outlook&);

ReportTable rests_table(const Answer&);
/// `backtest` is there.
std::string backtest_in_words(const DatasetOutlook&);
/// No rows: nothing moves its day.
ReportTable drivers_table(const Outlook&, const std::string& box);

/// What the other tables leave out, for who checks the numbers.
std::vector<ReportTable> figure_tables(const Outlook&);

}  // namespace ullage::report
