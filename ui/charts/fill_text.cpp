// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/charts/fill_text.h"

#include "ui/charts/fill_levels.h"
#include "ui/theme/words.h"

#include <QLocale>

#include <algorithm>

namespace ullage {

QString FillText::title(const BoxOutlook& box, double horizon_days, Day as_of) {
    const QString name = QString::fromStdString(box.name);
    const QString horizon = Words::horizon(horizon_days);
    if (box.full_now) return tr("%1 is full now").arg(name);
    if (box.over_ceiling_now) return tr("%1 is over its ceiling now").arg(name);
    if (const auto middle = box.days_until_ceiling.p50) {
        const Day day = add_days(as_of, *middle);
        return tr("%1 passes its ceiling around %2")
            .arg(name, *middle < 60 ? Words::full_date(day) : Words::month(day));
    }
    if (box.chance_of_ceiling_within_horizon <= 0)
        return tr("%1 stays below its ceiling for %2 in every future").arg(name, horizon);
    const int later = static_cast<int>(std::count_if(
        box.ceiling_marks.begin(), box.ceiling_marks.end(), [](const auto& m) { return !m; }));
    if (later == 20)
        return tr("%1 stays below its ceiling for %2 in more than 19 of 20 futures")
            .arg(name, horizon);
    return tr("%1 stays below its ceiling for %2 in %3 of 20 futures")
        .arg(name, horizon, QLocale().toString(later));
}

QString FillText::at(const FillPoint& p, double usable_bytes, Prefixes prefixes) {
    const auto bytes = [prefixes](double b) { return Words::bytes(b, prefixes); };
    QString text = usable_bytes > 0 ? tr("%1: in the middle %2 used, %3 of usable.")
                                          .arg(Words::full_date(p.date), bytes(p.used_bytes.p50),
                                               Words::percent(p.fill))
                                    : tr("%1: in the middle %2 used.")
                                          .arg(Words::full_date(p.date), bytes(p.used_bytes.p50));
    text += u' ' + tr("8 in 10 futures between %1 and %2.")
                       .arg(bytes(p.used_bytes.p10), bytes(p.used_bytes.p90));
    text +=
        u' ' +
        tr("Live %1, held by snapshots %2.").arg(bytes(p.live_bytes.p50), bytes(p.held_bytes.p50));
    if (p.other_bytes > 0) text += u' ' + tr("Other data %1.").arg(bytes(p.other_bytes));
    return text;
}

QString FillText::at(const FillPoint& p, const BoxOutlook& box, Prefixes prefixes) {
    const double usable = usable_then(p, box);
    QString text = at(p, usable, prefixes);
    if (usable != box.usable_bytes)
        text += u' ' + tr("Usable then: %1.").arg(Words::bytes(usable, prefixes));
    return text;
}

QString FillText::event(const EventMark& event) {
    return tr("%1, %2: %3")
        .arg(Words::full_date(event.on), QString::fromStdString(event.dataset),
             Words::said(event.text));
}

QString FillText::change(const SpaceChange& change, Prefixes prefixes) {
    return tr("%1: %2; from then on %3 usable, ceiling %4", "date, what changes, sizes")
        .arg(Words::full_date(change.on), Words::said(change.text),
             Words::bytes(change.usable_bytes, prefixes),
             Words::bytes(change.ceiling_bytes, prefixes));
}

QString FillText::summary(const BoxOutlook& box, double horizon_days, Day as_of,
                          Prefixes prefixes) {
    QString text = title(box, horizon_days, as_of) + u'.';
    text += u' ' + tr("Usable %1, ceiling %2.")
                       .arg(Words::bytes(box.usable_bytes, prefixes),
                            Words::bytes(box.ceiling_bytes, prefixes));
    if (!box.fill.empty()) {
        text += u' ' + at(box.fill.front(), box, prefixes);
        if (box.fill.size() > 1) text += u' ' + at(box.fill.back(), box, prefixes);
    }
    for (const EventMark& event : box.events)
        text += u' ' + tr("%1: %2 %3.")
                           .arg(Words::full_date(event.on), QString::fromStdString(event.dataset),
                                Words::said(event.text));
    for (const SpaceChange& change : box.changes)
        text += u' ' + FillText::change(change, prefixes) + u'.';
    return text;
}

QString FillText::bands_note() {
    return tr(
        "Dark band: half of all futures. Light band: 8 in 10. It is wide where we know less.");
}

}  // namespace ullage
