// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What differs between a kept outlook and the present one, as a table: one row a figure of a box,
/// a send, an offer, with the kept value, the present one and the change.
///
/// Items are matched by their names; one that only one side has is said to be new or gone. Nothing
/// is computed but the difference of two figures that the outlooks give.

#include "core/units/quantity_text.h"
#include "ui/charts/number_table.h"
#include "ui/compare/kept_outlook.h"

namespace ullage {

/// Columns: item, figure, kept, present, change. The numbers behind the cells (Edit
/// role) are days, hours, bytes, shares or money; the change is present − kept, empty where one side
/// has no number.
NumberTable::Content differences(const KeptOutlook& kept, const PresentOutlook& present,
                                 Prefixes prefixes);

/// For a card and its description: "Kept 1: About 20 months"; says it if the box was not there.
QString kept_headline(const KeptOutlook& kept, const std::string& box);

}  // namespace ullage
