// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A snapshot listing on its way into the site: what is in the file, what is wanted of it, and the one edit that
/// takes it in.

#include "core/measure/listing_columns.h"
#include "core/site/site.h"
#include "core/units/calendar.h"
#include "core/units/problem.h"
#include "ui/document/item_ref.h"

#include <QList>
#include <QString>
#include <QStringList>

#include <cstddef>
#include <optional>
#include <stop_token>
#include <vector>

namespace ullage::ui {

/// The roles that a listing must have, in the order in which people list them.
QStringList neededRoles();
/// "time taken"; of an empty role "not used".
QString roleText(const QString& role);

/// One dataset of a listing.
struct FoundDataset {
    QString name;  ///< empty: the snapshots' names tell none
    std::size_t snapshots = 0;
    Instant first{}, last{};
    double live_bytes = 0;  ///< of the newest
};

/// What a whole listing holds.
struct FoundListing {
    std::vector<FoundDataset> datasets;
    Problems bad_lines;  ///< the first that cannot be read
    std::size_t bad_line_count = 0;
    Problems faults;  ///< of the file as a whole: then there are no datasets
};

/// Reads the file from end to end. `columns` as in ListingOptions. Ends soon where `stop` asks.
FoundListing lookInto(const QString& path, const std::vector<std::string>& columns, const std::stop_token& stop);

/// What to do with one dataset of it.
struct WantedDataset {
    FoundDataset found;
    QString onto;  ///< a dataset of the site, which it measures from then on; empty: a new one
};

struct ListingPlan {
    QString file;                      ///< as the site will name it
    std::vector<std::string> columns;  ///< empty: the listing's first row says what they are
    std::size_t lines_left_out = 0;
    std::vector<WantedDataset> wanted;
};

/// The name a new dataset gets: the listing's, or that of its file.
QString nameFor(const ListingPlan& plan, const FoundDataset& found);

/// Takes it in. Where a dataset of the site is measured from then on, its typed size, growth and change give way,
/// as they would win over the listing. A site that begins before the newest snapshot begins that day. Returns the
/// last dataset.
ItemRef importListing(Site& site, const ListingPlan& plan);

/// What importListing will do, in sentences.
QString inWords(const ListingPlan& plan, const Site& site);

}  // namespace ullage::ui
