// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What a send's outlook says in bars: the first copy over the line and by hand, bringing data
/// back, the weekdays; and in sentences: how it falls behind, the runs of planned events.

#include "core/outlook/outlook.h"
#include "core/site/site.h"
#include "core/units/quantity_text.h"
#include "ui/arrive/span_bars.h"
#include "ui/charts/number_table.h"
#include "ui/theme/sentence_list.h"

#include <QCoreApplication>
#include <QString>
#include <QStringList>

#include <vector>

namespace ullage {

struct SendPictures {
    Q_DECLARE_TR_FUNCTIONS(ullage::SendPictures)

public:
    /// Without rows where the copy is present.
    static SpanPicture firstCopy(const SendOutlook& send, double horizon_days, Prefixes prefixes);
    static QString firstCopyNote(const SendOutlook& send, Prefixes prefixes);
    static QStringList firstCopyAssumptions(const SendOutlook& send);
    static NumberTable::Content firstCopyTable(const SendOutlook& send);

    static SpanPicture restore(const SendOutlook& send, Prefixes prefixes);
    static QString restoreNote();
    static NumberTable::Content restoreTable(const SendOutlook& send, Prefixes prefixes);

    static SpanPicture weekdays(const SendOutlook& send, Prefixes prefixes);
    static QString weekdaysNote();
    static NumberTable::Content weekdaysTable(const SendOutlook& send, Prefixes prefixes);

    /// "Gets behind about 3 times a year: …"; that it never does, if so.
    static QString backlog(const SendOutlook& send, Prefixes prefixes);
    /// One for each run of a planned event; leads to the event's dataset.
    static std::vector<Sentence> events(const SendOutlook& send, const Site& site,
                                        Prefixes prefixes);
};

}  // namespace ullage
