// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/import/listing_import.h"

#include "core/measure/evidence.h"
#include "ui/document/item_edits.h"
#include "ui/theme/words.h"

#include <QCoreApplication>
#include <QFileInfo>
#include <QLocale>

#include <algorithm>

namespace ullage::ui {

namespace {

struct Import {
    Q_DECLARE_TR_FUNCTIONS(ullage::ui::Import)
};

QString listed(const QStringList& names) {
    constexpr qsizetype most = 6;
    if (names.size() <= most) return QLocale().createSeparatedList(names);
    return Import::tr("%1 and %2 more").arg(names.mid(0, most - 1).join(QStringLiteral(", "))).arg(names.size() - most + 1);
}

/// The day a site must begin at the earliest to be later than what was measured; empty: as it does.
std::optional<Day> laterStart(const Site& site, const ListingPlan& plan) {
    const TimeZone zone = TimeZone::find(site.time_zone).value_or(TimeZone());
    Day first = site.as_of;
    for (const WantedDataset& wanted : plan.wanted)
        first = std::max(first, zone.local_day(wanted.found.last));
    return first == site.as_of ? std::nullopt : std::optional(first);
}

Dataset* find(Site& site, const QString& name) {
    const auto it = std::find_if(site.datasets.begin(), site.datasets.end(),
                                 [&](const Dataset& d) { return QString::fromStdString(d.name) == name; });
    return it == site.datasets.end() ? nullptr : &*it;
}

void measureFrom(const ListingPlan& plan, const FoundDataset& found, Dataset& dataset) {
    Turnover& turnover = *dataset.turnover;
    turnover.listing = plan.file.toStdString();
    turnover.listing_dataset = found.name.toStdString();
    turnover.listing_columns = plan.columns;
    turnover.listing_skip_bad_lines = plan.lines_left_out > 0;
}

}  // namespace

QStringList neededRoles() {
    QStringList needed;
    for (const ColumnRole& role : listing_roles())
        if (role.required) needed << QString::fromUtf8(role.name.data(), qsizetype(role.name.size()));
    return needed;
}

QString roleText(const QString& role) {
    if (role == QLatin1String("snapshot")) return Import::tr("snapshot name");
    if (role == QLatin1String("taken")) return Import::tr("time taken");
    if (role == QLatin1String("unique")) return Import::tr("bytes it alone holds");
    if (role == QLatin1String("live")) return Import::tr("live bytes");
    if (role == QLatin1String("written")) return Import::tr("bytes written");
    return Import::tr("not used");
}

FoundListing lookInto(const QString& path, const std::vector<std::string>& columns, const std::stop_token& stop) {
    FoundListing found;
    auto lines = read_listing_lines_of(path.toStdString(), columns, stop);
    if (!lines) {
        found.faults = std::move(lines.error().problems);
        return found;
    }
    found.bad_lines = std::move(lines->bad_lines);
    found.bad_line_count = lines->bad_line_count;
    for (const Listing& listing : lines->listings)
        found.datasets.push_back({QString::fromStdString(listing.dataset), listing.snapshots.size(),
                                  listing.snapshots.front().taken, listing.snapshots.back().taken,
                                  listing.snapshots.back().live_bytes});
    return found;
}

QString nameFor(const ListingPlan& plan, const FoundDataset& found) {
    if (!found.name.isEmpty()) return found.name;
    const QString file = QFileInfo(plan.file).completeBaseName();
    return file.isEmpty() ? Import::tr("measured data") : file;
}

ItemRef importListing(Site& site, const ListingPlan& plan) {
    if (const auto day = laterStart(site, plan)) site.as_of = *day;
    ItemRef last;
    for (const WantedDataset& wanted : plan.wanted) {
        if (Dataset* known = wanted.onto.isEmpty() ? nullptr : find(site, wanted.onto)) {
            known->live.reset();
            known->logical.reset();
            known->growth.reset();
            Turnover measured;
            if (known->turnover) measured.extras = known->turnover->extras;
            known->turnover = std::move(measured);
            measureFrom(plan, wanted.found, *known);
            last = {ItemKind::dataset, static_cast<int>(known - site.datasets.data())};
        } else {
            last = addMeasuredDataset(site, nameFor(plan, wanted.found));
            measureFrom(plan, wanted.found, site.datasets.back());
        }
    }
    return last;
}

QString inWords(const ListingPlan& plan, const Site& site) {
    const QString file = QFileInfo(plan.file).fileName();
    QStringList fresh, known, sentences;
    for (const WantedDataset& wanted : plan.wanted)
        if (wanted.onto.isEmpty())
            fresh << nameFor(plan, wanted.found);
        else
            known << wanted.onto;
    if (!fresh.isEmpty()) sentences << Import::tr("Adds %1, measured by %2.").arg(listed(fresh), file);
    if (!known.isEmpty())
        sentences << Import::tr("Measures %1 by %2; the size, growth and change typed there give way.")
                         .arg(listed(known), file);
    if (plan.lines_left_out > 0) {
        const auto count = static_cast<int>(plan.lines_left_out);
        sentences << Words::plural(Import::tr("%n line(s) of it are left out.", nullptr, count), count);
    }
    if (const auto day = laterStart(site, plan))
        sentences << Import::tr("The site then begins on %1, the day of the newest snapshot.").arg(Words::full_date(*day));
    sentences << Import::tr("One undo takes it back.");
    return sentences.join(QLatin1Char(' '));
}

}  // namespace ullage::ui
