// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/small_site.h"

#include <QCoreApplication>
#include <QDate>
#include <QLocale>
#include <QTimeZone>

namespace ullage::ui {

namespace {

struct Small {
    Q_DECLARE_TR_FUNCTIONS(SmallSite)
};

Day today() {
    const QDate date = QDate::currentDate();
    return Day(std::chrono::year(date.year()) /
               std::chrono::month(static_cast<unsigned>(date.month())) /
               std::chrono::day(static_cast<unsigned>(date.day())));
}

/// Of this machine; UTC if its zone is unknown to the core.
std::string zoneHere() {
    const std::string name = QTimeZone::systemTimeZoneId().toStdString();
    return TimeZone::find(name) ? name : "UTC";
}

std::string currencyHere() {
    const QString code = QLocale().currencySymbol(QLocale::CurrencyIsoCode);
    return code.isEmpty() ? Site().currency : code.toStdString();
}

}  // namespace

Site makeSite(const SmallSite& figures, Day as_of, const std::string& time_zone,
              const std::string& currency) {
    Site site;
    site.name = Small::tr("New site").toStdString();
    site.as_of = as_of;
    site.time_zone = time_zone;
    site.currency = currency;

    Box here, copies;
    here.name = Small::tr("here").toStdString();
    copies.name = Small::tr("copies").toStdString();
    copies.usable = figures.usable;
    site.boxes = {here, copies};

    Dataset dataset;
    dataset.name = Small::tr("data").toStdString();
    dataset.home = here.name;
    dataset.live = figures.live;
    dataset.growth.emplace();
    dataset.growth->per_year = figures.growth_per_year;
    dataset.turnover.emplace();
    dataset.turnover->per_day = figures.written_per_day;
    dataset.ladder = {Rung{Entered<Period>{{1, Period::Unit::day}, "1 d"}, 30, std::nullopt, {}}};
    site.datasets = {dataset};

    Link line;
    line.name = Small::tr("line").toStdString();
    line.up = line.down = figures.up;
    site.links = {line};

    Send nightly;
    nightly.name = Small::tr("nightly").toStdString();
    nightly.datasets = {dataset.name};
    nightly.from = here.name;
    nightly.to = copies.name;
    nightly.over = line.name;
    nightly.at = 20 * 3600;
    site.sends = {nightly};
    return site;
}

Site emptySite() {
    Site site;
    site.name = Small::tr("New site").toStdString();
    site.as_of = today();
    site.time_zone = zoneHere();
    site.currency = currencyHere();
    return site;
}

Site makeSiteHere(const SmallSite& figures) {
    return makeSite(figures, today(), zoneHere(), currencyHere());
}

}  // namespace ullage::ui
