// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What the page "What to buy?" says in words: of a box without purchases, of every offer for it,
/// of where its space goes and what its blocks cost.
///
/// Nothing here is computed anew but dates: a day counted from as_of.

#include "core/findings/findings.h"
#include "core/units/quantity_text.h"

#include <QCoreApplication>
#include <QString>
#include <QStringList>

#include <optional>
#include <string>
#include <vector>

namespace ullage {

/// How an offer stands among those for its box, best first.
enum class Standing { recommended, holds, outdone, too_short, does_not_go_in };
Standing standing_of(const OfferOutlook& offer);
QString standing_word(Standing standing);

/// Offers for a box, best first.
std::vector<const OfferOutlook*> offers_for(const Outlook& outlook, const std::string& box);
/// Null: not forecast.
const BoxOutlook* box_of(const Outlook& outlook, const std::string& box);
/// Boxes to ask about: those forecast, then those that only offers name.
std::vector<std::string> boxes_to_buy_for(const Outlook& outlook);
/// The box asked about first: with offers before without, then whose ceiling comes soonest.
std::string first_to_buy_for(const Outlook& outlook);
/// Whether the box comes to its ceiling within the horizon with more than 1 − confidence.
bool needs_room(const BoxOutlook& box, double confidence);

/// One figure of an offer.
struct OfferRow {
    QString label, value, note;  ///< a note may be empty
};

/// What an offer's card says.
struct OfferText {
    QString name, what;          ///< "6 drives, in place of those in the box"
    QString status, outdone;     ///< a word; by which offer it is outdone, or why it does not go in
    QString lasting;             ///< "lasts 5 years in 9 of 10 futures"
    QStringList cost;            ///< "price 3,200 EUR", "energy …", "replacement …"
    std::vector<OfferRow> rows;  ///< the second of them is the cost
    QStringList assumptions;

    /// Everything in reading order, in sentences.
    QString description() const;
};

struct BuyText {
    Q_DECLARE_TR_FUNCTIONS(ullage::BuyText)

public:
    /// The answer to the page's question.
    static QString headline(const Answer& answer, const std::string& box);
    /// What the headline leaves open, in sentences.
    static QString detail(const Answer& answer, const std::string& box);
    /// The last safe day to order, or why there is none.
    static QString orderLine(const Answer& answer, const std::string& box);
    /// When the box as it is comes to its ceiling and is full.
    static QString ifNothing(const Answer& answer, const std::string& box);

    static OfferText offer(const Answer& answer, const OfferOutlook& offer, Prefixes prefixes);
    /// An offer's cost and life in one sentence, of a chart's point.
    static QString point(const Outlook& outlook, const OfferOutlook& offer);
    static QString nothingPoint(const Outlook& outlook, const BoxOutlook& box);
    /// "around Aug 2033", "not within 5 years".
    static QString ceilingDay(const Outlook& outlook, const DayQuantiles& days);
    /// "1 in 10: before Jan 2031 · 9 in 10: before Jun 2034".
    static QString ceilingRange(const Outlook& outlook, const DayQuantiles& days);

    static QString frontierTitle(const Outlook& outlook, const std::string& box);
    static QString frontierNote(const Outlook& outlook, const std::string& box);

    static QString stepName(CapacityStep::What what, double ceiling);
    /// "Redundancy takes 32 TB (29.1 TiB): 63.9 TB (58.1 TiB) are left."
    static QString step(const CapacityStep& step, double ceiling, Prefixes prefixes);
    static QString spaceTitle(const PoolCapacity& capacity, double ceiling, Prefixes prefixes);

    static QString blocksTitle(const BoxOutlook& box);
    static QString block(const BlockCost& cost, Prefixes prefixes);
    /// The better layout, or that there is none to speak of.
    static QString blocksNote(const BoxOutlook& box, Prefixes prefixes);
};

}  // namespace ullage
