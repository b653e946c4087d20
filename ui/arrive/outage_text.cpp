// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/arrive/outage_text.h"

#include "ui/charts/fill_table.h"
#include "ui/theme/words.h"

#include <QLocale>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

constexpr double day_hours = 24, told_in_days = 72;  // hours

/// Length of the outage in whole or part days, as it was asked.
QString length(double days) {
    const double whole = std::round(days);
    return std::abs(days - whole) < 1e-6 ? OutageText::days(static_cast<int>(whole))
                                         : OutageText::age(days * day_hours);
}

/// A time that is survived is rounded down.
QString survived(const std::optional<double>& days) {
    return days ? Words::span(std::floor(*days)) : OutageText::tr("any length");
}

/// “imaging”, “mail”
QString names(const std::vector<std::string>& all) {
    QStringList quoted;
    for (const std::string& name : all)
        quoted << OutageText::tr("“%1”", "name of a dataset").arg(QString::fromStdString(name));
    return quoted.join(QStringLiteral(", "));
}

bool is_down(const OutageDrill& d, const OutageDay& day) {
    const auto into = static_cast<double>((day.date - d.from).count());
    return into >= 0 && into < d.days;
}

}  // namespace

QString OutageText::age(double hours) {
    return hours < told_in_days ? Words::hours(hours) : Words::span(hours / day_hours);
}

QString OutageText::days(int days) { return Words::plural(tr("%n day(s)", nullptr, days), days); }

QString OutageText::daysUnit(int days) {
    return Words::plural(tr("day(s)", "after a number", days), days);
}

QString OutageText::block(const OutageSpan& span) {
    return tr("line down for %1").arg(days(span.days));
}

QString OutageText::ageTitle(const SendOutlook& s) {
    if (s.copy_age.empty()) return tr("No complete copy comes to be within the horizon");
    return tr("The newest copy is usually %1 old, and %2 at worst")
        .arg(age(s.recovery_point_hours.p50), age(s.recovery_point_max_hours));
}

QString OutageText::ageSummary(const SendOutlook& s) {
    if (s.copy_age.empty()) return noAge();
    const auto worst = std::max_element(
        s.copy_age.begin(), s.copy_age.end(),
        [](const CopyAgePoint& a, const CopyAgePoint& b) { return a.max_hours < b.max_hours; });
    return tr("Age of the newest complete copy over time, by four weeks. 19 in 20 times it is at "
              "most %1. At its worst it is %2 old, in the four weeks from %3.")
        .arg(age(s.recovery_point_hours.p95), age(worst->max_hours), Words::full_date(worst->from));
}

QString OutageText::agePoint(const CopyAgePoint& p) {
    return tr("Four weeks from %1: the newest copy is at most %2 old half of the time, %3 in 19 of "
              "20 times, %4 at worst.")
        .arg(Words::full_date(p.from), age(p.p50_hours), age(p.p95_hours), age(p.max_hours));
}

QString OutageText::ageNote() {
    return tr(
        "What is not on the newest copy would be lost with the source. Draw an outage with "
        "the mouse: press on a day and drag. Or choose a day with the arrow keys and press "
        "Enter; then Shift and arrows change its length, Ctrl and arrows its date, Escape "
        "takes it away.");
}

QString OutageText::noAge() {
    return tr("Without a first copy there is no age of one. See below how it could be made.");
}

NumberTable::Content OutageText::ageTable(const SendOutlook& s) {
    using Cell = NumberTable::Cell;
    NumberTable::Content content;
    content.header = {tr("Four weeks from"), tr("Half of the time at most (h)"),
                      tr("19 in 20 times at most (h)"), tr("Worst (h)")};
    for (const CopyAgePoint& p : s.copy_age)
        content.rows.push_back({Cell::date(Words::date(p.from)), Cell::number(p.p50_hours, 1),
                                Cell::number(p.p95_hours, 1), Cell::number(p.max_hours, 1)});
    return content;
}

QString OutageText::drillTitle(const OutageDrill& d) {
    return tr("With %1 down for %2 from %3 the newest copy gets %4 old")
        .arg(QString::fromStdString(d.link), length(d.days), Words::full_date(d.from),
             age(d.oldest_copy_hours.p50));
}

QStringList OutageText::drill(const OutageDrill& d, Prefixes prefixes) {
    const auto size = [prefixes](double b) { return Words::bytes(b, prefixes); };
    QStringList all;
    all << tr("When the line is back, %1 are waiting; 19 in 20 times at most %2.")
               .arg(size(d.backlog_bytes.p50), size(d.backlog_bytes.p95));
    if (d.chance_of_catching_up > 0)
        all << tr("All is caught up %1 after that; 19 in 20 times within %2.")
                   .arg(age(d.catch_up_days.p50 * day_hours), age(d.catch_up_days.p95 * day_hours));
    if (d.chance_of_catching_up < 1)
        all << tr("In %1 futures it does not catch up within the horizon.")
                   .arg(Words::chance(1 - d.chance_of_catching_up));
    if (!d.resends_whole) {
        all << tr("Both ends still share a snapshot then, so that one increment catches up.");
    } else {
        all << tr("The last snapshot of %1 that both ends shared is gone then in %2 futures: all "
                  "of "
                  "it is sent again, %3 in %4.")
                   .arg(names(d.resent_datasets), Words::chance(1 - d.chance_base_survives),
                        size(d.resend_bytes.p50), age(d.resend_days.p50 * day_hours));
        QString room = tr("Until that is done, the box needs %1 for it beside the old copy")
                           .arg(size(d.room_needed_bytes));
        if (!d.room_free_bytes)
            room += u'.';
        else if (*d.room_free_bytes < d.room_needed_bytes)
            room +=
                tr("; it has %1 free, which is too little: the old copy would have to go first.")
                    .arg(size(std::max(0.0, *d.room_free_bytes)));
        else
            room += tr("; it has %1 free.").arg(size(*d.room_free_bytes));
        all << room;
    }
    all << (d.longest_outage_days
                ? tr("The longest outage around that date that ends with one increment: %1.")
                      .arg(survived(d.longest_outage_days))
                : tr("An outage of any length ends with one increment."));
    for (const OutageRemedy& r : d.remedies)
        all << tr("With %1: %2.").arg(Words::said(r.text), survived(r.longest_days));
    return all;
}

QString OutageText::drillDay(const OutageDrill& d, const OutageDay& day, Prefixes prefixes) {
    const auto figures = [&](const QString& pattern) {
        return pattern.arg(Words::full_date(day.date), age(day.age_p50_hours),
                           age(day.age_p95_hours), Words::bytes(day.waiting_p50_bytes, prefixes),
                           Words::bytes(day.waiting_p95_bytes, prefixes));
    };
    return is_down(d, day)
               ? figures(tr("%1, line down: the newest copy gets %2 old (19 in 20 times at most "
                            "%3); %4 are waiting at the day's end (at most %5)."))
               : figures(tr("%1: the newest copy gets %2 old (19 in 20 times at most %3); %4 are "
                            "waiting at the day's end (at most %5)."));
}

QString OutageText::drillNote() {
    return tr(
        "People go on writing as ever. Drag the edges of the outage, or all of it, to try "
        "another one.");
}

NumberTable::Content OutageText::drillTable(const OutageDrill& d, Prefixes prefixes) {
    using Cell = NumberTable::Cell;
    double top = 0;
    for (const OutageDay& day : d.daily) top = std::max(top, day.waiting_p95_bytes);
    const ByteUnit unit = byte_unit(top, prefixes);
    NumberTable::Content content;
    content.header = {tr("Day"),
                      tr("Line"),
                      tr("Newest copy gets old (h)"),
                      tr("19 in 20 times at most (h)"),
                      tr("Waiting at its end (%1)").arg(unit.name),
                      tr("19 in 20 times at most (%1)").arg(unit.name)};
    for (const OutageDay& day : d.daily)
        content.rows.push_back({Cell::date(Words::date(day.date)),
                                Cell::words(is_down(d, day) ? tr("down") : tr("up")),
                                Cell::number(day.age_p50_hours, 1),
                                Cell::number(day.age_p95_hours, 1),
                                Cell::number(day.waiting_p50_bytes, unit.bytes),
                                Cell::number(day.waiting_p95_bytes, unit.bytes)});
    return content;
}

}  // namespace ullage
