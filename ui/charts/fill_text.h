// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What a fill chart says in words: its title, its summary, the values at a date.

#include "core/outlook/outlook.h"
#include "core/units/quantity_text.h"

#include <QCoreApplication>
#include <QString>

namespace ullage {

struct FillText {
    Q_DECLARE_TR_FUNCTIONS(ullage::FillText)

public:
    /// "attic passes its ceiling around Aug 2028".
    static QString title(const BoxOutlook& box, double horizon_days, Day as_of);
    /// Title and the figures today and at the end, in sentences.
    static QString summary(const BoxOutlook& box, double horizon_days, Day as_of,
                           Prefixes prefixes);
    /// One date's values in one sentence. `usable_bytes`: then.
    static QString at(const FillPoint& point, double usable_bytes, Prefixes prefixes);
    /// The same, with the usable size where it is another than today.
    static QString at(const FillPoint& point, const BoxOutlook& box, Prefixes prefixes);
    static QString event(const EventMark& event);
    /// "1 Jun 2027: adds a group of 6 drives; from then on 61 TB usable, ceiling 48.8 TB".
    static QString change(const SpaceChange& change, Prefixes prefixes);
    static QString bands_note();  ///< what the two shades mean
};

}  // namespace ullage
