// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A send's outlook as sentences: a headline that answers "will it arrive?", and six facts.

#include "core/findings/findings.h"

#include <QCoreApplication>
#include <QString>

#include <vector>

namespace ullage {

struct Fact {
    QString caption;   ///< "Each run"
    QString value;     ///< "18.5 GB in 34 min"
    QString sentence;  ///< what it means
};

struct ArriveText {
    Q_DECLARE_TR_FUNCTIONS(ullage::ArriveText)

public:
    static QString headline(const SendOutlook& send, double confidence);
    static QString route(const SendOutlook& send);  ///< "clinic to attic, over tunnel"
    static std::vector<Fact> facts(const SendOutlook& send, double horizon_days, Prefixes prefixes);
    static QString weekCaption(const SendOutlook& send, const std::string& time_zone);
};

}  // namespace ullage
