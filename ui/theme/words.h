// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Numbers of an outlook as words and figures of the user's language.
///
/// The core decides how a number is rounded and which unit it gets (quantity_text.h, say_days);
/// here its figures are written with the default QLocale's decimal sign and its words are
/// translated. A number and its unit are joined by a no-break space. Not finite numbers are written
/// as "?" and never end a program.

#include "core/units/calendar.h"
#include "core/units/quantity_text.h"
#include "core/words/wording.h"

#include <QCoreApplication>
#include <QDate>
#include <QString>

namespace ullage {

struct Words {
    Q_DECLARE_TR_FUNCTIONS(ullage::Words)

public:
    static QString bytes(double bytes, Prefixes prefixes, int digits = 3);  ///< "9.2 TB"
    static QString rate(double bits_per_second);                            ///< "94.2 Mbit/s"
    static QString percent(double fraction, int digits = 2);                ///< "80 %"
    /// "45 days", "about 20 months", "about 3.5 years".
    static QString span(double days);
    /// A length that was chosen, not forecast, without "about" where it is round: "5 years".
    static QString horizon(double days);
    /// A working time: "25 min", "3.4 h", "52 h", "3.2 d" from 72 h on.
    static QString hours(double hours);
    /// "3 in 100", "fewer than 1 in 100", "none", "all"; chance 0…1.
    static QString chance(double chance);

    /// "3,900 EUR", "21.4 EUR".
    static QString money(double amount, const std::string& currency);
    /// After "in": "9 of 10 futures", "93 % of futures", "all futures drawn", "no future drawn".
    static QString futures(double share);
    /// "61.2 TB (55.7 TiB)": in the chosen prefixes, then in the others.
    static QString both(double bytes, Prefixes prefixes, int digits = 3);

    static QDate date(Day day);
    static QString month(Day day);      ///< "Aug 2028"
    static QString full_date(Day day);  ///< "14 Aug 2028"
    static QString month(const QDate& date);
    static QString full_date(const QDate& date);

    /// The language of the texts on screen.
    static Language language();
    /// A message of the core in that language.
    static QString said(const Message& message);

    /// The first letter in capitals.
    static QString sentence(QString text);
    /// For texts with "(s)" of which no translation was loaded: the plain English form for `n`.
    static QString plural(QString translated, long long n);
    /// Figures of a core text ("9.2 TB") in the user's locale.
    static QString localized(const std::string& core_text);
};

}  // namespace ullage
