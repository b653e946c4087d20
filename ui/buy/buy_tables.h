// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The numbers behind the charts of "What to buy?".

#include "core/outlook/outlook.h"
#include "core/units/quantity_text.h"
#include "ui/charts/number_table.h"

#include <QCoreApplication>

#include <string>
#include <vector>

namespace ullage {

struct BuyTables {
    Q_DECLARE_TR_FUNCTIONS(ullage::BuyTables)

public:
    /// A row for each offer for the box, best first: also those that do not go in.
    static NumberTable::Content offers(const Outlook& outlook, const std::string& box,
                                       Prefixes prefixes);
    /// A row for each step, in TB and in TiB.
    static NumberTable::Content space(const std::vector<CapacityStep>& steps, double ceiling);
    static NumberTable::Content blocks(const std::vector<BlockCost>& costs, Prefixes prefixes);
};

}  // namespace ullage
