// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/buy/buy_text.h"

#include "ui/gauge/gauge_text.h"
#include "ui/theme/words.h"

#include <QLocale>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

constexpr double rounding = 1e-9;      // of sums of shares
constexpr double worth_saying = 0.01;  // a chance

QString quoted(const std::string& name) {
    return BuyText::tr("“%1”", "a name").arg(QString::fromStdString(name));
}

QString figure(double value, int decimals) { return QLocale().toString(value, 'f', decimals); }

// Within two months a month's name would not tell the dates apart.
QString day_words(const Outlook& outlook, double days) {
    const Day day = add_days(outlook.as_of, days);
    return days < 60 ? Words::full_date(day) : Words::month(day);
}

const OfferOutlook* recommended_of(const std::vector<const OfferOutlook*>& offers) {
    for (const OfferOutlook* offer : offers)
        if (offer->recommended) return offer;
    return nullptr;
}

// "the cheapest that lasts 5 years in 9 of 10 futures, 3,900 EUR in all"
QString cheapest_words(const Outlook& outlook, const OfferOutlook& offer) {
    return BuyText::tr("the cheapest that lasts %1 in %2, %3 in all")
        .arg(Words::horizon(outlook.horizon_days), Words::futures(outlook.confidence),
             Words::money(offer.cost_total, outlook.currency));
}

// "1 in 2,400"; a chance that is great enough is said in hundredths.
QString rare(double chance) {
    if (!(chance > 0)) return BuyText::tr("none");
    if (chance >= 0.01) return Words::chance(chance);
    const double one_in = 1 / chance;
    const double step = std::pow(10.0, std::floor(std::log10(one_in)) - 1);
    return BuyText::tr("1 in %1").arg(figure(std::round(one_in / step) * step, 0));
}

QString what_words(const OfferOutlook& o) {
    if (o.drives <= 0) {
        switch (o.as) {
            case Offer::As::drives:
                return BuyText::tr("in place of the drives in the box");
            case Offer::As::added:
                return BuyText::tr("beside what is in the box");
            case Offer::As::box:
                return BuyText::tr("in place of the whole box");
        }
    }
    const auto counted = [&](const QString& pattern) { return Words::plural(pattern, o.drives); };
    switch (o.as) {
        case Offer::As::drives:
            return counted(BuyText::tr("%n drive(s), in place of those in the box", "", o.drives));
        case Offer::As::added:
            return counted(BuyText::tr("%n drive(s), beside those in the box", "", o.drives));
        case Offer::As::box:
            break;
    }
    return counted(BuyText::tr("a box with %n drive(s), in place of the old one", "", o.drives));
}

OfferRow rebuild_row(const RebuildExposure& r) {
    OfferRow row;
    row.label = BuyText::tr("Rebuilding a drive");
    row.value = BuyText::tr("%1 at least").arg(Words::hours(r.hours));
    const QString rarely = rare(r.chance_of_another);
    row.note = r.others == 1
                   ? BuyText::tr("Chance that the other drive of its group fails meanwhile: %1.")
                         .arg(rarely)
                   : BuyText::tr(
                         "Chance that one of the %1 other drives of its group fails meanwhile: "
                         "%2.")
                         .arg(figure(r.others, 0), rarely);
    row.note += u' ' + BuyText::tr(
                           "That is at %1 failing in a year, each by itself; failures "
                           "cluster, so it is more in truth.")
                           .arg(Words::percent(r.yearly_failures));
    row.note += u' ' + (r.spare_failures <= 0
                            ? BuyText::tr("Such a failure loses the pool.")
                            : Words::plural(BuyText::tr("The group survives %n more failure(s).",
                                                        "", r.spare_failures),
                                            r.spare_failures));
    return row;
}

}  // namespace

Standing standing_of(const OfferOutlook& o) {
    if (!o.does_not_go_in.empty()) return Standing::does_not_go_in;
    if (o.recommended) return Standing::recommended;
    if (!o.dominated_by.empty()) return Standing::outdone;
    return o.holds ? Standing::holds : Standing::too_short;
}

QString standing_word(Standing standing) {
    switch (standing) {
        case Standing::recommended:
            return BuyText::tr("The cheapest that holds");
        case Standing::holds:
            return BuyText::tr("Holds");
        case Standing::outdone:
            return BuyText::tr("Outdone");
        case Standing::too_short:
            return BuyText::tr("Does not last");
        case Standing::does_not_go_in:
            break;
    }
    return BuyText::tr("Does not go in");
}

std::vector<const OfferOutlook*> offers_for(const Outlook& outlook, const std::string& box) {
    std::vector<const OfferOutlook*> offers;
    for (const OfferOutlook& offer : outlook.offers)
        if (offer.box == box) offers.push_back(&offer);
    std::stable_sort(offers.begin(), offers.end(),
                     [](const auto* a, const auto* b) { return a->rank < b->rank; });
    return offers;
}

const BoxOutlook* box_of(const Outlook& outlook, const std::string& box) {
    for (const BoxOutlook& each : outlook.boxes)
        if (each.name == box) return &each;
    return nullptr;
}

std::vector<std::string> boxes_to_buy_for(const Outlook& outlook) {
    std::vector<std::string> names;
    for (const BoxOutlook& box : outlook.boxes) names.push_back(box.name);
    for (const OfferOutlook& offer : outlook.offers)
        if (std::find(names.begin(), names.end(), offer.box) == names.end())
            names.push_back(offer.box);
    return names;
}

std::string first_to_buy_for(const Outlook& outlook) {
    const auto names = boxes_to_buy_for(outlook);
    const auto key = [&](const std::string& name) {
        const BoxOutlook* box = box_of(outlook, name);
        double soonest = outlook.horizon_days + 1;
        if (box) {
            if (box->over_ceiling_now || box->full_now)
                soonest = 0;
            else
                soonest = box->days_until_ceiling.p50.value_or(
                    soonest + 1 - box->chance_of_ceiling_within_horizon);
        }
        return std::make_pair(offers_for(outlook, name).empty() ? 1 : 0, soonest);
    };
    const auto first = std::min_element(
        names.begin(), names.end(), [&](const auto& a, const auto& b) { return key(a) < key(b); });
    return first == names.end() ? std::string() : *first;
}

bool needs_room(const BoxOutlook& box, double confidence) {
    return box.over_ceiling_now || box.full_now ||
           box.chance_of_ceiling_within_horizon > 1 - confidence + rounding;
}

QString OfferText::description() const {
    QStringList parts;
    const auto add = [&parts](const QString& part) {
        if (part.isEmpty()) return;
        const QChar last = part.back();
        parts << Words::sentence(last == u'.' ? part : part + u'.');
    };
    add(status);
    add(outdone);
    add(what);
    add(lasting);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        add(QStringLiteral("%1: %2").arg(rows[i].label, rows[i].value));
        if (i == 1) add(cost.join(QStringLiteral(", ")));
        add(rows[i].note);
    }
    for (const QString& assumption : assumptions) add(assumption);
    return parts.join(u' ');
}

QString BuyText::headline(const Answer& answer, const std::string& name) {
    const Outlook& outlook = answer.outlook;
    const BoxOutlook* box = box_of(outlook, name);
    const auto offers = offers_for(outlook, name);
    const QString whose = quoted(name), horizon = Words::horizon(outlook.horizon_days),
                  sure = Words::futures(outlook.confidence);
    if (box && !needs_room(*box, outlook.confidence))
        return tr("Nothing needs to be bought for %1: it stays below its ceiling for %2 in %3")
            .arg(whose, horizon, Words::futures(1 - box->chance_of_ceiling_within_horizon));
    if (offers.empty()) {
        if (!box) return tr("There is no offer for %1").arg(whose);
        if (box->full_now) return tr("%1 is full now, and there is no offer for it").arg(whose);
        if (box->over_ceiling_now)
            return tr("%1 is over its ceiling now, and there is no offer for it").arg(whose);
        if (box->days_until_ceiling.p50)
            return tr("%1 comes to its ceiling around %2, and there is no offer for it")
                .arg(whose, day_words(outlook, *box->days_until_ceiling.p50));
        return tr("%1 comes to its ceiling within %2 in %3 futures, and there is no offer for it")
            .arg(whose, horizon, Words::chance(box->chance_of_ceiling_within_horizon));
    }
    const OfferOutlook* best = recommended_of(offers);
    if (!best) {
        const bool none_goes_in = std::all_of(
            offers.begin(), offers.end(), [](const auto* o) { return !o->does_not_go_in.empty(); });
        if (none_goes_in) return tr("No offer goes into %1").arg(whose);
        return tr("No offer for %1 lasts %2 in %3").arg(whose, horizon, sure);
    }
    const QString which = quoted(best->name);
    if (box && box->full_now) return tr("Order %1 at once: %2 is full already").arg(which, whose);
    if (box && box->over_ceiling_now)
        return tr("Order %1 at once: %2 is over its ceiling already").arg(which, whose);
    const auto by = order_by(answer, *best);
    if (by && *by < outlook.as_of)
        return tr("Order %1 at once: the last safe day was %2").arg(which, Words::full_date(*by));
    if (by)
        return tr("Order %1 by %2: %3", "offer, date, the cheapest that …")
            .arg(which, Words::full_date(*by), cheapest_words(outlook, *best));
    return tr("Buy %1: %2", "offer, the cheapest that …")
        .arg(which, cheapest_words(outlook, *best));
}

QString BuyText::detail(const Answer& answer, const std::string& name) {
    const Outlook& outlook = answer.outlook;
    const BoxOutlook* box = box_of(outlook, name);
    const auto offers = offers_for(outlook, name);
    if (box && !needs_room(*box, outlook.confidence))
        return offers.empty() ? QString() : tr("The offers are compared all the same.");
    if (offers.empty())
        return tr(
            "Add an offer to the site, a set of drives or a whole box with its price, and "
            "it is compared here.");
    QStringList sentences;
    const OfferOutlook* best = recommended_of(offers);
    if (best) {
        const auto by = order_by(answer, *best);
        const bool late =
            (box && (box->over_ceiling_now || box->full_now)) || (by && *by < outlook.as_of);
        if (late) sentences << tr("It is %1.").arg(cheapest_words(outlook, *best));
        if (best->chance_too_late >= worth_saying && box && !box->over_ceiling_now)
            sentences << Words::sentence(
                tr("%1 futures come to the ceiling before it runs, if it is ordered on %2: it "
                   "runs from %3.")
                    .arg(Words::chance(best->chance_too_late), Words::full_date(outlook.as_of),
                         Words::full_date(best->running_from)));
    } else {
        const OfferOutlook* nearest = nullptr;
        for (const OfferOutlook* o : offers)
            if (o->does_not_go_in.empty() &&
                (!nearest || o->chance_of_lasting > nearest->chance_of_lasting))
                nearest = o;
        if (nearest)
            sentences << tr("%1 comes nearest: it lasts in %2.")
                             .arg(quoted(nearest->name),
                                  Words::futures(nearest->chance_of_lasting));
        else
            sentences << tr("Why stands at each of them.");
    }
    return sentences.join(u' ');
}

QString BuyText::orderLine(const Answer& answer, const std::string& name) {
    const Outlook& outlook = answer.outlook;
    const BoxOutlook* box = box_of(outlook, name);
    if (!box || !needs_room(*box, outlook.confidence)) return {};
    const auto offers = offers_for(outlook, name);
    const OfferOutlook* best = recommended_of(offers);
    const auto by = best ? order_by(answer, *best) : box->order_by;
    if (box->full_now || box->over_ceiling_now) return {};
    if (!by)
        return box->lead_time_days || !box->days_until_ceiling.p10
                   ? QString()
                   : tr("The last safe day to order is not known: give the box a lead time.");
    if (*by < outlook.as_of)
        return tr("The last safe day to order was %1: since then 1 in 10 futures comes to the "
                  "ceiling before it runs.")
            .arg(Words::full_date(*by));
    return best ? tr("Ordered after %1, it runs too late in more than 1 in 10 futures.")
                      .arg(Words::full_date(*by))
                : tr("Something has to be ordered by %1: after that, the ceiling comes before it "
                     "runs in more than 1 in 10 futures.")
                      .arg(Words::full_date(*by));
}

QString BuyText::ifNothing(const Answer& answer, const std::string& name) {
    const Outlook& outlook = answer.outlook;
    const BoxOutlook* box = box_of(outlook, name);
    if (!box) return tr("%1 has no size yet, so it is not forecast as it is.").arg(quoted(name));
    const QString whose = quoted(name), horizon = Words::horizon(outlook.horizon_days);
    const DayQuantiles &ceiling = box->days_until_ceiling, &full = box->days_until_full;
    QString text;
    if (box->full_now)
        text = tr("If nothing is bought, nothing more fits on %1.").arg(whose);
    else if (box->over_ceiling_now)
        text = tr("%1 holds more than its %2 ceiling.").arg(whose, ceiling_share(*box));
    else if (ceiling.p50)
        text = tr("If nothing is bought, %1 comes to its %2 ceiling in %3, %4 (%5).",
                  "box, share, time, date, range")
                   .arg(whose, ceiling_share(*box), Words::span(*ceiling.p50),
                        ceilingDay(outlook, ceiling), ceilingRange(outlook, ceiling));
    else
        text = tr("If nothing is bought, %1 stays below its %2 ceiling for %3 in %4.")
                   .arg(whose, ceiling_share(*box), horizon,
                        Words::futures(1 - box->chance_of_ceiling_within_horizon));
    if (!box->full_now) {
        text += u' ';
        if (full.p50)
            text += tr("It is full in %1, %2, in half of the futures.")
                        .arg(Words::span(*full.p50), ceilingDay(outlook, full));
        else if (box->chance_of_full_within_horizon <= 0)
            text += tr("In no future drawn is it full within %1.").arg(horizon);
        else
            text += tr("It is full within %1 in %2.")
                        .arg(horizon, Words::futures(box->chance_of_full_within_horizon));
    }
    for (const SpaceChange& change : box->changes)
        text += u' ' + tr("Planned and counted: %1, %2.")
                           .arg(Words::full_date(change.on), Words::said(change.text));
    return text;
}

QString BuyText::ceilingDay(const Outlook& outlook, const DayQuantiles& days) {
    return days.p50 ? tr("around %1").arg(day_words(outlook, *days.p50))
                    : tr("not within %1").arg(Words::horizon(outlook.horizon_days));
}

QString BuyText::ceilingRange(const Outlook& outlook, const DayQuantiles& days) {
    if (!days.p10) return {};
    const QString early = tr("1 in 10: before %1").arg(day_words(outlook, *days.p10));
    const QString late =
        days.p90 ? tr("9 in 10: before %1").arg(day_words(outlook, *days.p90))
                 : tr("1 in 10: later than %1").arg(Words::horizon(outlook.horizon_days));
    return early + QStringLiteral(" · ") + late;
}

OfferText BuyText::offer(const Answer& answer, const OfferOutlook& o, Prefixes prefixes) {
    const Outlook& outlook = answer.outlook;
    const QString horizon = Words::horizon(outlook.horizon_days);
    const auto money = [&](double amount) { return Words::money(amount, outlook.currency); };
    OfferText t;
    t.name = QString::fromStdString(o.name);
    t.what = what_words(o);
    t.status = standing_word(standing_of(o));
    if (!o.does_not_go_in.empty())
        t.outdone = Words::sentence(Words::said(o.does_not_go_in)) + u'.';
    else if (!o.dominated_by.empty())
        t.outdone = (o.holds ? tr("%1 costs no more and lasts no less.")
                             : tr("It does not last, and %1 costs no more and lasts no less."))
                        .arg(quoted(o.dominated_by));
    t.lasting = tr("lasts %1 in %2").arg(horizon, Words::futures(o.chance_of_lasting));
    t.rows.push_back({tr("Comes to its ceiling"), ceilingDay(outlook, o.days_until_ceiling),
                      ceilingRange(outlook, o.days_until_ceiling)});
    t.rows.push_back(
        {tr("Cost over %1").arg(horizon), money(o.cost_total),
         o.purchases > 1
             ? Words::plural(tr("Bought %n time(s), by its life.", "", o.purchases), o.purchases)
             : QString()});
    t.cost = {tr("price %1").arg(money(o.price)), tr("energy %1").arg(money(o.energy_cost)),
              tr("replacement %1").arg(money(o.replacement_cost))};
    t.rows.push_back({tr("For a usable TiB in a year"), money(o.cost_per_usable_tib_year), {}});
    t.rows.push_back(
        {tr("Usable with it"), Words::both(o.usable_bytes, prefixes),
         tr("of which %1 below the ceiling").arg(Words::bytes(o.ceiling_bytes, prefixes))});
    t.rows.push_back({tr("Runs from"), Words::full_date(o.running_from),
                      o.chance_too_late >= worth_saying
                          ? Words::sentence(tr("%1 futures come to the ceiling before.")
                                                .arg(Words::chance(o.chance_too_late)))
                          : QString()});
    if (o.rebuild) t.rows.push_back(rebuild_row(*o.rebuild));
    for (const Message& assumption : o.assumptions)
        t.assumptions << Words::sentence(Words::said(assumption)) + u'.';
    return t;
}

QString BuyText::point(const Outlook& outlook, const OfferOutlook& o) {
    QString text =
        tr("%1: %2 over %3; at its ceiling %4.")
            .arg(quoted(o.name), Words::money(o.cost_total, outlook.currency),
                 Words::horizon(outlook.horizon_days), ceilingDay(outlook, o.days_until_ceiling));
    if (const QString range = ceilingRange(outlook, o.days_until_ceiling); !range.isEmpty())
        text += u' ' + range + u'.';
    text += u' ' + standing_word(standing_of(o)) + u'.';
    if (standing_of(o) == Standing::outdone)
        text += u' ' + tr("%1 costs no more and lasts no less.").arg(quoted(o.dominated_by));
    return text;
}

QString BuyText::nothingPoint(const Outlook& outlook, const BoxOutlook& box) {
    if (box.over_ceiling_now || box.full_now)
        return tr("If nothing is bought: over its ceiling now.");
    QString text = tr("If nothing is bought: at its ceiling %1.")
                       .arg(ceilingDay(outlook, box.days_until_ceiling));
    if (const QString range = ceilingRange(outlook, box.days_until_ceiling); !range.isEmpty())
        text += u' ' + range + u'.';
    return text;
}

QString BuyText::frontierTitle(const Outlook& outlook, const std::string& box) {
    const auto offers = offers_for(outlook, box);
    const OfferOutlook *cheapest = nullptr, *longest = nullptr;
    for (const OfferOutlook* o : offers) {
        if (!o->does_not_go_in.empty()) continue;
        if (!cheapest || o->cost_total < cheapest->cost_total) cheapest = o;
        if (!longest || o->chance_of_lasting > longest->chance_of_lasting) longest = o;
    }
    if (!cheapest) return tr("What longer lasting costs");
    if (offers.size() == 1)
        return tr("%1 costs %2 over %3")
            .arg(quoted(cheapest->name), Words::money(cheapest->cost_total, outlook.currency),
                 Words::horizon(outlook.horizon_days));
    if (cheapest->chance_of_lasting >= longest->chance_of_lasting)
        return tr("%1 costs least, and none lasts longer").arg(quoted(cheapest->name));
    return tr("%1 costs least; %2 lasts longest, for %3 more")
        .arg(quoted(cheapest->name), quoted(longest->name),
             Words::money(longest->cost_total - cheapest->cost_total, outlook.currency));
}

QString BuyText::frontierNote(const Outlook& outlook, const std::string& box) {
    QString note =
        tr("Mark: middle forecast. Line: from 1 in 10 to 9 in 10 futures. Steps: offers "
           "that no other outdoes.");
    for (const OfferOutlook* o : offers_for(outlook, box))
        if (!o->does_not_go_in.empty())
            note += u' ' + tr("%1 does not go in and is not drawn.").arg(quoted(o->name));
    return note;
}

QString BuyText::stepName(CapacityStep::What what, double ceiling) {
    switch (what) {
        case CapacityStep::What::labels:
            return tr("On the labels");
        case CapacityStep::What::spares:
            return tr("Spare drives");
        case CapacityStep::What::partitions:
            return tr("Partitions, rounding");
        case CapacityStep::What::redundancy:
            return tr("Redundancy");
        case CapacityStep::What::reserve:
            return tr("Kept back");
        case CapacityStep::What::ceiling:
            break;
    }
    return tr("Above the %1 ceiling").arg(Words::percent(ceiling, 3));
}

QString BuyText::step(const CapacityStep& step, double ceiling, Prefixes prefixes) {
    const QString name = stepName(step.what, ceiling),
                  left = Words::both(step.left_bytes, prefixes);
    if (step.what == CapacityStep::What::labels) return tr("%1: %2.").arg(name, left);
    return step.taken_bytes < 0 ? tr("%1: adds %2, %3 are left.")
                                      .arg(name, Words::both(-step.taken_bytes, prefixes), left)
                                : tr("%1: takes %2, %3 are left.")
                                      .arg(name, Words::both(step.taken_bytes, prefixes), left);
}

QString BuyText::spaceTitle(const PoolCapacity& capacity, double ceiling, Prefixes prefixes) {
    const auto steps = capacity_steps(capacity, ceiling);
    return tr("Of %1 on the labels, %2 are yours")
        .arg(Words::bytes(capacity.label_bytes, prefixes),
             Words::both(steps.back().left_bytes, prefixes));
}

QString BuyText::blocksTitle(const BoxOutlook& box) {
    const BlockCost* worst = nullptr;
    for (const BlockCost& cost : box.costs)
        if (!worst || cost.charge > worst->charge) worst = &cost;
    // A twentieth, as the outlook counts a better block.
    if (!worst || worst->charge < 1.05) return tr("Small blocks cost next to nothing here");
    return tr("A byte of %1 takes %2 bytes here, in blocks of %3")
        .arg(quoted(worst->dataset), figure(worst->charge, 2),
             Words::bytes(worst->block_bytes, Prefixes::binary, 4));
}

QString BuyText::block(const BlockCost& cost, Prefixes prefixes) {
    QString text = tr("%1: a stored byte takes %2 in blocks of %3; %4 at the end of the horizon.")
                       .arg(quoted(cost.dataset), figure(cost.charge, 2),
                            Words::bytes(cost.block_bytes, Prefixes::binary, 4),
                            Words::bytes(cost.used_bytes, prefixes));
    if (cost.better_block_bytes)
        text += u' ' + tr("In blocks of %1 it would take %2.")
                           .arg(Words::bytes(*cost.better_block_bytes, Prefixes::binary, 4),
                                figure(cost.better_charge, 2));
    return text;
}

QString BuyText::blocksNote(const BoxOutlook& box, Prefixes prefixes) {
    QStringList sentences{tr("1.00: a stored byte takes a usable byte.")};
    for (const BlockCost& cost : box.costs)
        if (cost.better_block_bytes)
            sentences << tr("%1 in blocks of %2 would take %3 instead of %4.")
                             .arg(quoted(cost.dataset),
                                  Words::bytes(*cost.better_block_bytes, Prefixes::binary, 4),
                                  figure(cost.better_charge, 2), figure(cost.charge, 2));
    if (box.better_shape)
        sentences << tr("The same drives as %1 would hold %2 more of this data, with %3 usable.")
                         .arg(Words::said(box.better_shape->text),
                              Words::percent(box.better_shape->gain),
                              Words::bytes(box.better_shape->usable_bytes, prefixes));
    return sentences.join(u' ');
}

}  // namespace ullage
