// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// How old copies get, with a line that works and with one that is down, as sentences and tables.

#include "core/outlook/outage_drill.h"
#include "core/units/quantity_text.h"
#include "ui/arrive/outage_span.h"
#include "ui/charts/number_table.h"

#include <QCoreApplication>
#include <QString>
#include <QStringList>

namespace ullage {

struct OutageText {
    Q_DECLARE_TR_FUNCTIONS(ullage::OutageText)

public:
    /// "48 h", "13 days".
    static QString age(double hours);
    static QString days(int days);                 ///< "1 day", "12 days"
    static QString daysUnit(int days);             ///< "day", "days"
    static QString block(const OutageSpan& span);  ///< "line down for 12 days"

    static QString ageTitle(const SendOutlook& send);
    static QString ageSummary(const SendOutlook& send);
    static QString agePoint(const CopyAgePoint& point);
    static QString ageNote();
    static QString noAge();
    static NumberTable::Content ageTable(const SendOutlook& send);

    static QString drillTitle(const OutageDrill& drill);
    /// What is behind, when it has caught up, what is lost and what would help.
    static QStringList drill(const OutageDrill& drill, Prefixes prefixes);
    static QString drillDay(const OutageDrill& drill, const OutageDay& day, Prefixes prefixes);
    static QString drillNote();
    static NumberTable::Content drillTable(const OutageDrill& drill, Prefixes prefixes);
};

}  // namespace ullage
