// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/pages/arrive_text.h"

#include "ui/theme/words.h"

#include <QLocale>

namespace ullage {

QString ArriveText::headline(const SendOutlook& s, double confidence) {
    const QString name = QString::fromStdString(s.name);
    if (s.falls_behind) {
        if (s.days_until_behind && *s.days_until_behind >= 1)
            return tr("“%1” falls behind in %2: more arrives than the line carries")
                .arg(name, Words::span(*s.days_until_behind));
        return tr("“%1” falls behind: more arrives than the line carries").arg(name);
    }
    if (s.chance_of_missing_window > 1 - confidence)
        return tr("“%1” misses its window: %2 runs are late")
            .arg(name, Words::chance(s.chance_of_missing_window));
    return tr("“%1” arrives: 19 in 20 runs are done within %2")
        .arg(name, Words::hours(s.hours_per_run.p95));
}

QString ArriveText::route(const SendOutlook& s) {
    return tr("%1 to %2, over %3")
        .arg(QString::fromStdString(s.from), QString::fromStdString(s.to),
             QString::fromStdString(s.link));
}

std::vector<Fact> ArriveText::facts(const SendOutlook& s, double horizon_days, Prefixes prefixes) {
    const auto bytes = [prefixes](double b) { return Words::bytes(b, prefixes); };
    std::vector<Fact> facts;

    facts.push_back({tr("Each run"),
                     tr("%1 in %2", "size, time")
                         .arg(bytes(s.bytes_per_run.p50), Words::hours(s.hours_per_run.p50)),
                     tr("or less in half of all runs; 19 in 20 need at most %1 and %2. "
                        "Open hours until the deadline: %3.")
                         .arg(bytes(s.bytes_per_run.p95), Words::hours(s.hours_per_run.p95),
                              Words::hours(s.open_hours_per_run))});

    const QString missed =
        s.chance_of_missing_window <= 0 ? tr("No run")
        : s.chance_of_missing_window >= 1
            ? tr("Every run")
            : Words::sentence(tr("%1 runs").arg(Words::chance(s.chance_of_missing_window)));
    facts.push_back({tr("Missing the window"), missed,
                     tr("not done when its hours close or the next run is due.")});

    facts.push_back({tr("Age of the newest copy"), Words::hours(s.recovery_point_hours.p50),
                     tr("or less half of the time; 19 in 20 times at most %1. Worst: %2.")
                         .arg(Words::hours(s.recovery_point_hours.p95),
                              Words::hours(s.recovery_point_max_hours))});

    Fact first{tr("First copy"), {}, {}};
    if (!s.first_copy_days.p50) {
        first.value = tr("Not within %1").arg(Words::horizon(horizon_days));
        first.sentence = s.first_copy_bytes > 0
                             ? tr("to carry %1 over.").arg(bytes(s.first_copy_bytes))
                             : tr("until a complete copy is there.");
    } else if (*s.first_copy_days.p50 <= 0) {
        first.value = tr("Already there");
        first.sentence = tr("the box holds the copy from the start.");
    } else {
        first.value = Words::sentence(Words::span(*s.first_copy_days.p50));
        first.sentence = tr("for %1.").arg(bytes(s.first_copy_bytes));
        if (s.first_copy_days.p90)
            first.sentence +=
                u' ' + tr("9 in 10: within %1.").arg(Words::span(*s.first_copy_days.p90));
        else
            first.sentence +=
                u' ' + tr("1 in 10: not within %1.").arg(Words::horizon(horizon_days));
    }
    facts.push_back(first);

    Fact outage{tr("Longest outage survived"), {}, {}};
    if (s.longest_outage_days) {
        outage.value = Words::sentence(Words::span(*s.longest_outage_days));
        outage.sentence = tr("without the link; after that everything is sent again.");
    } else {
        outage.value = tr("No limit");
        outage.sentence =
            tr("the last sent snapshot is held back, so a send can always go on from it.");
    }
    facts.push_back(outage);

    facts.push_back(
        {tr("Restoring everything"), Words::hours(s.restore_hours.p50),
         tr("or less in half of all cases, back over the same link; 9 in 10: within %1.")
             .arg(Words::hours(s.restore_hours.p90))});
    return facts;
}

QString ArriveText::weekCaption(const SendOutlook& s, const std::string& time_zone) {
    const QDate monday = Words::date(s.week_of);
    return tr("%1 to %2, by the clock of %3. Bars run from a run's start until it is done.")
        .arg(Words::full_date(monday), Words::full_date(monday.addDays(6)),
             QString::fromStdString(time_zone));
}

}  // namespace ullage
