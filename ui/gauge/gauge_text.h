// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What a gauge says, as words: the same for the picture, the tooltip and assistive technology.
///
/// The headline is the middle (p50) of the first-passage day to the ceiling, since that is when to
/// act; full is always separate. A quantile that does not come within the horizon is never given a
/// date: then the number of the 20 equally likely futures that do come is said instead.

#include "core/findings/findings.h"

#include <QCoreApplication>
#include <QString>
#include <QStringList>

namespace ullage {

struct GaugeText {
    Q_DECLARE_TR_FUNCTIONS(ullage::GaugeText)

public:
    QString name;
    QString status;      ///< the status word
    QString headline;    ///< "About 20 months"
    QString when;        ///< "to the 80 % ceiling, around Aug 2028"
    QStringList range;   ///< "1 in 10: before Jan 2028", "9 in 10: before Jun 2029"
    QString full;        ///< "Completely full: around Dec 2029"
    QString order;       ///< "Order by 12 Dec 2027"; empty without a lead time
    QString short_when;  ///< for a card: "around Aug 2028", "in most futures"
    bool ceiling_passed = false, full_passed = false;

    /// Every part in reading order, in sentences.
    QString description() const;

    static GaugeText of(const BoxOutlook& box, double horizon_days, Day as_of, Level status);
    /// Shown while there is no answer yet.
    static GaugeText waiting(const QString& name = {});

    static QString later(int count);  ///< "11 later"
    static QString marks_note();      ///< what a mark and the line below the marks mean
    static QString ceiling_lane();    ///< "Ceiling"
    static QString full_lane();       ///< "Full"
    static QString lane_passed();     ///< "already passed"
};

/// "80 %" of the usable bytes.
QString ceiling_share(const BoxOutlook& box);

}  // namespace ullage
