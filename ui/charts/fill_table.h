// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A fill chart's numbers as a table: one row a computed date.
///
/// Display: text in the user's locale, sizes in one unit that the header names; Edit: the bare
/// number in bytes, a share, or a QDate, for sorting and tests; ToolTip: the row as a sentence.

#include "core/outlook/outlook.h"
#include "core/units/quantity_text.h"

#include <QAbstractTableModel>
#include <QLocale>

#include <vector>

namespace ullage {

/// The unit in which a size of `top` bytes reads well, and its bytes: {"TB", 1e12}.
struct ByteUnit {
    QString name;
    double bytes = 1;
};
ByteUnit byte_unit(double top, Prefixes prefixes);

class FillTable : public QAbstractTableModel {
    Q_OBJECT

public:
    enum Column { date, p10, p25, p50, p75, p90, live, held, other, usable, fill, columns };

    explicit FillTable(QObject* parent = nullptr);

    void setBox(const BoxOutlook& box);
    void clear();
    void setPrefixes(Prefixes prefixes);

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    QVariant headerData(int section, Qt::Orientation orientation,
                        int role = Qt::DisplayRole) const override;

    /// Header and rows, tab separated; dates ISO 8601, sizes in the unit the header names, numbers
    /// as the user's locale writes them, without grouping, so that a spreadsheet of the same
    /// desktop reads them.
    QString tabSeparated() const;
    /// The same with commas, numbers with a point whatever the locale (RFC 4180).
    QString commaSeparated() const;

private:
    QString separated(QChar by, const QLocale& locale) const;
    void chooseUnit();
    double value(const FillPoint& point, int column) const;

    BoxOutlook box_;
    Prefixes prefixes_ = Prefixes::decimal;
    ByteUnit unit_;
};

}  // namespace ullage
