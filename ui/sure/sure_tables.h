// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The numbers behind the charts of "How sure?", every one that is drawn and those left out for
/// want of room.

#include "core/outlook/outlook.h"
#include "core/units/quantity_text.h"
#include "ui/charts/number_table.h"
#include "ui/sure/sure_text.h"

#include <QCoreApplication>

#include <vector>

namespace ullage {

struct SureTables {
    Q_DECLARE_TR_FUNCTIONS(ullage::SureTables)

public:
    /// A row for each measured step, then one for each point of the curve.
    static NumberTable::Content turnover(const DatasetOutlook& dataset, Prefixes prefixes);
    /// A row for each forecast of every origin.
    static NumberTable::Content backtest(const DatasetOutlook& dataset, Figure figure,
                                         Prefixes prefixes);
    static NumberTable::Content drivers(const std::vector<Driver>& drivers);
};

}  // namespace ullage
