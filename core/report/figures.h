// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The tables and pictures that a client reads, and the words beside them.

#include "core/report/report.h"

#include <string>
#include <vector>

namespace ullage::report {

ReportTable boxes_table(const Answer&, const Wording&);
ReportPicture gauge_picture(const Outlook&, std::size_t box, const Wording&);
ReportPicture fill_picture(const Answer&, std::size_t box, const Wording&);
std::string band_in_words(const BoxOutlook&, const Wording&);

/// All sends, a row each.
ReportTable sends_table(const Outlook&, const Wording&);
ReportTable send_table(const SendOutlook&, const Wording&);
ReportPicture week_picture(const Outlook&, std::size_t send, const Wording&);

/// No rows: no offers for that box.
ReportTable offers_table(const Answer&, const std::string& box, const Wording&);
ReportTable order_table(const Outlook&, const Wording&);

/// The `most` largest datasets; 0: all of them, as the site lists them.
ReportTable rests_table(const Answer&, std::size_t most, const Wording&);
/// `backtest` is there.
std::string backtest_in_words(const DatasetOutlook&, const Wording&);
/// The first `most`, 0: all. No rows: nothing moves its day.
ReportTable drivers_table(const Outlook&, const std::string& box, std::size_t most, const Wording&);

}  // namespace ullage::report
