// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/arrive/send_pictures.h"

#include "ui/arrive/outage_text.h"
#include "ui/charts/fill_table.h"
#include "ui/theme/words.h"
#include "ui/week/limit_chain.h"

#include <QLocale>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

using Cell = NumberTable::Cell;

constexpr double day_hours = 24;

QString days_words(double days) { return OutageText::age(days * day_hours); }

Cell days_cell(const std::optional<double>& days) {
    return days ? Cell::number(*days, 1) : Cell::words(SendPictures::tr("not within the horizon"));
}

QString day_name(int weekday) {
    return QLocale().standaloneDayName(weekday + 1, QLocale::LongFormat);
}

/// "no run is late", "3 in 100 runs are late".
QString late_words(double chance) {
    return chance <= 0   ? SendPictures::tr("no run is late")
           : chance >= 1 ? SendPictures::tr("every run is late")
                         : SendPictures::tr("%1 runs are late").arg(Words::chance(chance));
}

ByteUnit unit_of(const std::vector<double>& sizes, Prefixes prefixes) {
    return byte_unit(sizes.empty() ? 0 : *std::max_element(sizes.begin(), sizes.end()), prefixes);
}

}  // namespace

SpanPicture SendPictures::firstCopy(const SendOutlook& s, double horizon_days, Prefixes prefixes) {
    SpanPicture p;
    if (!s.first_copy) return p;
    const FirstCopyWays& w = *s.first_copy;
    const QString size = Words::bytes(w.bytes, prefixes), horizon = Words::horizon(horizon_days);
    const auto hours = [](double days) { return days * day_hours; };

    SpanRow line;
    line.name = tr("Over the line");
    if (w.link_days) line.parts.push_back({0, hours(*w.link_days), PartStyle::solid});
    if (w.link_days && w.link_in_step_days)
        line.parts.push_back(
            {hours(*w.link_days), hours(*w.link_in_step_days), PartStyle::hatched});
    line.goes_on = !w.link_in_step_days;
    line.strong = !w.carry;
    if (!w.link_days) {
        line.figures = tr("not within %1").arg(horizon);
        line.words = tr("Over the line the copy is not complete within %1.").arg(horizon);
    } else if (!w.link_in_step_days) {
        line.figures =
            tr("complete after %1, in step not within %2").arg(days_words(*w.link_days), horizon);
        line.words = tr("Over the line the copy is complete after %1; the runs that queued behind "
                        "it are not done within %2.")
                         .arg(days_words(*w.link_days), horizon);
    } else {
        line.figures = tr("complete after %1, in step after %2")
                           .arg(days_words(*w.link_days), days_words(*w.link_in_step_days));
        line.words = tr("Over the line the copy is complete after %1, and the runs that queued "
                        "behind it are done after %2.")
                         .arg(days_words(*w.link_days), days_words(*w.link_in_step_days));
    }

    SpanRow hand;
    hand.name = tr("Carried by hand");
    const double there = w.courier_copy_days + w.courier_away_days;
    hand.parts = {{0, hours(w.courier_copy_days), PartStyle::solid},
                  {hours(w.courier_copy_days), hours(there), PartStyle::outline}};
    if (w.courier_days)
        hand.parts.push_back({hours(there), hours(*w.courier_days), PartStyle::hatched});
    hand.goes_on = !w.courier_days;
    hand.strong = w.carry;
    hand.figures = w.courier_days ? tr("in step after %1").arg(days_words(*w.courier_days))
                                  : tr("in step not within %1").arg(horizon);
    hand.words =
        (w.courier_days
             ? tr("By hand: copying takes %1, the road %2, and what was written meanwhile has "
                  "caught up after %3.")
                   .arg(days_words(w.courier_copy_days), days_words(w.courier_away_days),
                        days_words(*w.courier_days))
             : tr("By hand: copying takes %1, the road %2; what was written meanwhile has not "
                  "caught up within %3.")
                   .arg(days_words(w.courier_copy_days), days_words(w.courier_away_days), horizon));
    p.rows = {line, hand};
    p.title = w.carry
                  ? tr("Carry the first copy (%1) by hand: that is the sooner way").arg(size)
                  : tr("Send the first copy (%1) over the line: that is the sooner way").arg(size);
    p.key = {{PartStyle::solid, tr("copying")},
             {PartStyle::outline, tr("on the road")},
             {PartStyle::hatched, tr("catching up")}};
    return p;
}

QString SendPictures::firstCopyNote(const SendOutlook& s, Prefixes prefixes) {
    if (!s.first_copy) return {};
    const FirstCopyWays& w = *s.first_copy;
    QStringList all;
    all << (w.break_even_bytes
                ? tr("From %1 on, carrying is sooner, with the same changes a day.")
                      .arg(Words::bytes(*w.break_even_bytes, prefixes))
                : tr("Over this line no size is so large that carrying would be sooner."));
    const QString from = QString::fromStdString(s.from);
    if (w.link_base_expires)
        all << tr("Over the line it takes so long that %1 lets go of the snapshot that it starts "
                  "from; hold the last sent snapshot back.")
                   .arg(from);
    if (w.courier_base_expires)
        all << tr("By hand it takes so long that %1 lets go of the snapshot that it starts from; "
                  "hold the last sent snapshot back.")
                   .arg(from);
    return all.join(u' ');
}

QStringList SendPictures::firstCopyAssumptions(const SendOutlook& s) {
    QStringList all;
    if (s.first_copy)
        for (const Message& sentence : s.first_copy->assumptions)
            all << Words::sentence(Words::said(sentence));
    return all;
}

NumberTable::Content SendPictures::firstCopyTable(const SendOutlook& s) {
    NumberTable::Content content;
    content.header = {tr("Way"), tr("Copying (days)"), tr("On the road (days)"),
                      tr("Complete, and in step (days)")};
    if (!s.first_copy) return content;
    const FirstCopyWays& w = *s.first_copy;
    content.rows.push_back({Cell::words(tr("over the line")), days_cell(w.link_days),
                            Cell::number(0, 1), days_cell(w.link_in_step_days)});
    content.rows.push_back({Cell::words(tr("by hand")), Cell::number(w.courier_copy_days, 1),
                            Cell::number(w.courier_away_days, 1), days_cell(w.courier_days)});
    return content;
}

SpanPicture SendPictures::restore(const SendOutlook& s, Prefixes prefixes) {
    SpanPicture p;
    if (s.restore.empty()) return p;
    const auto hours = [](double h) { return Words::hours(h); };
    for (const RestoreWays& r : s.restore) {
        const QString what = r.dataset.empty() ? tr("Everything")
                                               : tr("“%1”").arg(QString::fromStdString(r.dataset));
        SpanRow line;
        line.name = tr("%1, over the line", "what is restored").arg(what);
        line.parts = {{0, r.link_hours.p50, PartStyle::solid},
                      {r.link_hours.p50, r.link_hours.p90, PartStyle::pale}};
        line.figures =
            tr("%1; 9 in 10 within %2; %3 binds")
                .arg(hours(r.link_hours.p50), hours(r.link_hours.p90), limit_name(r.bound_by));
        line.words = tr("%1 (%2) over the line's other direction: %3 or less in half of all cases, "
                        "9 in 10 within %4; %5 binds.")
                         .arg(what, Words::bytes(r.bytes.p50, prefixes), hours(r.link_hours.p50),
                              hours(r.link_hours.p90), limit_name(r.bound_by));
        line.strong = r.link_hours.p50 <= r.fetch_hours;
        SpanRow fetch;
        fetch.name = tr("%1, by fetching the box", "what is restored").arg(what);
        fetch.parts = {{0, r.fetch_hours, PartStyle::outline}};
        fetch.figures =
            tr("%1; %2 takes longest")
                .arg(hours(r.fetch_hours), r.road_binds ? tr("the road") : tr("the copying"));
        fetch.words =
            tr("%1 by fetching the box and copying it beside the source: %2; %3 takes "
               "longest.")
                .arg(what, hours(r.fetch_hours), r.road_binds ? tr("the road") : tr("the copying"));
        fetch.strong = !line.strong;
        p.rows.push_back(line);
        p.rows.push_back(fetch);
    }
    const RestoreWays& all = s.restore.front();
    p.title = all.link_hours.p50 <= all.fetch_hours
                  ? tr("Everything is back in %1, over the line").arg(hours(all.link_hours.p50))
                  : tr("Everything is back in %1 by fetching the box; over the line in %2")
                        .arg(hours(all.fetch_hours), hours(all.link_hours.p50));
    p.key = {{PartStyle::solid, tr("over the line, middle")},
             {PartStyle::pale, tr("on to 9 in 10")},
             {PartStyle::outline, tr("fetching the box, middle")}};
    return p;
}

QString SendPictures::restoreNote() {
    return tr(
        "The sooner way stands out. Of what there is a year from now, or at the end of the "
        "forecast; the line's other direction counts as always open and free for it.");
}

NumberTable::Content SendPictures::restoreTable(const SendOutlook& s, Prefixes prefixes) {
    std::vector<double> sizes;
    for (const RestoreWays& r : s.restore) sizes.push_back(r.bytes.p50);
    const ByteUnit unit = unit_of(sizes, prefixes);
    NumberTable::Content content;
    content.header = {tr("What"),
                      tr("Size (%1)").arg(unit.name),
                      tr("Over the line, half of all cases (h)"),
                      tr("9 in 10 within (h)"),
                      tr("What binds"),
                      tr("Fetching the box (h)"),
                      tr("What takes longest")};
    for (const RestoreWays& r : s.restore)
        content.rows.push_back(
            {Cell::words(r.dataset.empty() ? tr("everything") : QString::fromStdString(r.dataset)),
             Cell::number(r.bytes.p50, unit.bytes), Cell::number(r.link_hours.p50, 1),
             Cell::number(r.link_hours.p90, 1), Cell::words(limit_name(r.bound_by)),
             Cell::number(r.fetch_hours, 1),
             Cell::words(r.road_binds ? tr("the road") : tr("the copying"))});
    return content;
}

SpanPicture SendPictures::weekdays(const SendOutlook& s, Prefixes prefixes) {
    SpanPicture p;
    p.axis = SpanPicture::Axis::share;
    if (s.weekdays.empty()) return p;
    p.line = 1;
    const auto worst = std::max_element(
        s.weekdays.begin(), s.weekdays.end(), [](const WeekdayRuns& a, const WeekdayRuns& b) {
            return a.chance_of_missing_window != b.chance_of_missing_window
                       ? a.chance_of_missing_window < b.chance_of_missing_window
                       : a.open_share.p95 < b.open_share.p95;
        });
    for (const WeekdayRuns& d : s.weekdays) {
        SpanRow row;
        row.name = day_name(d.weekday);
        row.strong = &d == &*worst && s.weekdays.size() > 1;
        row.parts = {{0, d.open_share.p50, PartStyle::solid},
                     {d.open_share.p50, d.open_share.p95, PartStyle::pale}};
        const QString missing = late_words(d.chance_of_missing_window);
        row.figures =
            tr("%1 · %2 of its open hours, 19 in 20 at most %3")
                .arg(missing, Words::percent(d.open_share.p50), Words::percent(d.open_share.p95));
        row.words =
            tr("Runs that start on a %1 carry %2 in %3 (19 in 20 at most %4) and use %5 of "
               "the hours open to them (19 in 20 at most %6); %7.")
                .arg(row.name, Words::bytes(d.bytes.p50, prefixes), Words::hours(d.hours.p50),
                     Words::hours(d.hours.p95), Words::percent(d.open_share.p50),
                     Words::percent(d.open_share.p95), missing);
        p.rows.push_back(row);
    }
    const QString day = day_name(worst->weekday);
    if (worst->chance_of_missing_window <= 0)
        p.title = s.weekdays.size() > 1
                      ? tr("On every weekday all runs are in time; %1 is the fullest").arg(day)
                      : tr("On %1 all runs are in time").arg(day);
    else
        p.title = s.weekdays.size() > 1
                      ? tr("%1 is the worst weekday: %2")
                            .arg(day, late_words(worst->chance_of_missing_window))
                      : tr("On %1 %2").arg(day, late_words(worst->chance_of_missing_window));
    p.key = {{PartStyle::solid, tr("share of its open hours, half of the runs")},
             {PartStyle::pale, tr("on to 19 in 20")}};
    return p;
}

QString SendPictures::weekdaysNote() {
    return tr(
        "How much of the hours open to a run is used until it is done, by the weekday on "
        "which it starts, over all weeks. At 100 % there is no hour to spare.");
}

NumberTable::Content SendPictures::weekdaysTable(const SendOutlook& s, Prefixes prefixes) {
    std::vector<double> sizes;
    for (const WeekdayRuns& d : s.weekdays) sizes.push_back(d.bytes.p95);
    const ByteUnit unit = unit_of(sizes, prefixes);
    NumberTable::Content content;
    content.header = {tr("Weekday"),
                      tr("Late (%)"),
                      tr("Open hours used, half of the runs (%)"),
                      tr("Open hours used, 19 in 20 (%)"),
                      tr("Half of the runs (%1)").arg(unit.name),
                      tr("19 in 20 (%1)").arg(unit.name),
                      tr("Half of the runs (h)"),
                      tr("19 in 20 (h)")};
    for (const WeekdayRuns& d : s.weekdays)
        content.rows.push_back(
            {Cell::words(day_name(d.weekday)), Cell::number(100 * d.chance_of_missing_window, 1),
             Cell::number(100 * d.open_share.p50, 1), Cell::number(100 * d.open_share.p95, 1),
             Cell::number(d.bytes.p50, unit.bytes), Cell::number(d.bytes.p95, unit.bytes),
             Cell::number(d.hours.p50, 1), Cell::number(d.hours.p95, 1)});
    return content;
}

QString SendPictures::backlog(const SendOutlook& s, Prefixes prefixes) {
    const BacklogOutlook& b = s.backlog;
    if (b.times_a_year <= 0)
        return tr("It never gets behind: nothing is left when a run's window closes.");
    const auto n = static_cast<int>(std::lround(b.times_a_year));
    const QString times = b.times_a_year < 0.95
                              ? tr("less than once a year")
                              : Words::plural(tr("about %n time(s) a year", nullptr, n), n);
    return tr("It gets behind %1. Usually %2 are then left when its window closes, at most %3; it "
              "has caught up after %4, at worst after %5.")
        .arg(times, Words::bytes(b.bytes.p50, prefixes), Words::bytes(b.max_bytes, prefixes),
             OutageText::age(b.hours_to_drain.p50), OutageText::age(b.max_hours_to_drain));
}

std::vector<Sentence> SendPictures::events(const SendOutlook& s, const Site& site,
                                           Prefixes prefixes) {
    std::vector<Sentence> all;
    for (const EventRun& e : s.events) {
        const auto at = std::find_if(site.datasets.begin(), site.datasets.end(),
                                     [&](const Dataset& d) { return d.name == e.dataset; });
        const auto turns = static_cast<int>(std::max(1L, std::lround(e.nights.p50)));
        all.push_back(
            {tr("On %1 “%2” %3. That run carries %4 in %5 and takes %6; %7.")
                 .arg(Words::full_date(e.on), QString::fromStdString(e.dataset),
                      Words::said(e.text), Words::bytes(e.bytes.p50, prefixes),
                      OutageText::age(e.hours.p50),
                      Words::plural(tr("the time of %n run(s)", nullptr, turns), turns),
                      e.chance_of_fitting >= 1   ? tr("it is always in time")
                      : e.chance_of_fitting <= 0 ? tr("it is never in time")
                                                 : tr("it is in time in %1 futures")
                                                       .arg(Words::chance(e.chance_of_fitting))),
             at == site.datasets.end()
                 ? QString()
                 : QStringLiteral("/datasets/%1").arg(at - site.datasets.begin())});
    }
    return all;
}

}  // namespace ullage
