// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/charts/fill_table.h"

#include "ui/charts/fill_levels.h"
#include "ui/charts/fill_text.h"
#include "ui/theme/words.h"

#include <QLocale>

#include <algorithm>

namespace ullage {

ByteUnit byte_unit(double top, Prefixes prefixes) {
    const std::string text = format_bytes(Bytes{std::max(1.0, top)}, prefixes);
    const auto space = text.find_last_of(' ');
    const std::string name = space == std::string::npos ? "B" : text.substr(space + 1);
    const auto one = parse_bytes("1 " + name);
    return one ? ByteUnit{QString::fromStdString(name), one->value}
               : ByteUnit{QStringLiteral("B"), 1};
}

FillTable::FillTable(QObject* parent) : QAbstractTableModel(parent) {}

void FillTable::setBox(const BoxOutlook& box) {
    beginResetModel();
    box_ = box;
    chooseUnit();
    endResetModel();
}

void FillTable::clear() {
    beginResetModel();
    box_ = {};
    endResetModel();
}

void FillTable::setPrefixes(Prefixes prefixes) {
    if (prefixes == prefixes_) return;
    beginResetModel();
    prefixes_ = prefixes;
    chooseUnit();
    endResetModel();
}

void FillTable::chooseUnit() {
    double top = box_.usable_bytes;
    for (const FillPoint& p : box_.fill)
        top = std::max({top, p.used_bytes.p90, usable_then(p, box_)});
    unit_ = byte_unit(top, prefixes_);
}

int FillTable::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(box_.fill.size());
}

int FillTable::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : columns;
}

double FillTable::value(const FillPoint& p, int column) const {
    switch (column) {
        case p10:
            return p.used_bytes.p10;
        case p25:
            return p.used_bytes.p25;
        case p50:
            return p.used_bytes.p50;
        case p75:
            return p.used_bytes.p75;
        case p90:
            return p.used_bytes.p90;
        case live:
            return p.live_bytes.p50;
        case held:
            return p.held_bytes.p50;
        case other:
            return p.other_bytes;
        case usable:
            return usable_then(p, box_);
        default:
            return p.fill;
    }
}

QVariant FillTable::data(const QModelIndex& index, int role) const {
    if (!checkIndex(index, CheckIndexOption::IndexIsValid | CheckIndexOption::ParentIsInvalid))
        return {};
    const FillPoint& p = box_.fill[static_cast<std::size_t>(index.row())];
    switch (role) {
        case Qt::DisplayRole:
            if (index.column() == date) return Words::full_date(p.date);
            if (index.column() == fill) return QLocale().toString(100 * p.fill, 'f', 1);
            return QLocale().toString(value(p, index.column()) / unit_.bytes, 'f', 2);
        case Qt::EditRole:
            if (index.column() == date) return Words::date(p.date);
            return value(p, index.column());
        case Qt::ToolTipRole:
            return FillText::at(p, box_, prefixes_);
        case Qt::TextAlignmentRole:
            return QVariant(Qt::AlignRight | Qt::AlignVCenter);
        default:
            return {};
    }
}

QVariant FillTable::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || section < 0 || section >= columns) return {};
    if (role == Qt::TextAlignmentRole) return QVariant(Qt::AlignRight | Qt::AlignVCenter);
    if (role == Qt::DisplayRole) {
        switch (section) {
            case date:
                return tr("Date");
            case p10:
                return tr("1 in 10 below (%1)").arg(unit_.name);
            case p25:
                return tr("1 in 4 below (%1)").arg(unit_.name);
            case p50:
                return tr("Middle (%1)").arg(unit_.name);
            case p75:
                return tr("1 in 4 above (%1)").arg(unit_.name);
            case p90:
                return tr("1 in 10 above (%1)").arg(unit_.name);
            case live:
                return tr("Live (%1)").arg(unit_.name);
            case held:
                return tr("Held (%1)").arg(unit_.name);
            case other:
                return tr("Other (%1)").arg(unit_.name);
            case usable:
                return tr("Usable (%1)").arg(unit_.name);
            default:
                return tr("Fill (%)");
        }
    }
    if (role == Qt::ToolTipRole) {
        switch (section) {
            case live:
                return tr("The datasets' own bytes, middle forecast");
            case held:
                return tr("Held by snapshots alone, middle forecast");
            case other:
                return tr("Other data stored there, constant");
            case usable:
                return tr("The box's usable size then, planned changes made");
            case fill:
                return tr("Middle forecast ÷ usable size");
            default:
                return tr("Used");
        }
    }
    return {};
}

QString FillTable::tabSeparated() const {
    QLocale plain;
    plain.setNumberOptions(QLocale::OmitGroupSeparator);
    return separated(u'\t', plain);
}

QString FillTable::commaSeparated() const {
    QLocale plain = QLocale::c();
    plain.setNumberOptions(QLocale::OmitGroupSeparator);
    return separated(u',', plain).replace(u'\n', QStringLiteral("\r\n"));
}

QString FillTable::separated(QChar by, const QLocale& plain) const {
    QString text;
    for (int c = 0; c < columns; ++c) {
        if (c > 0) text += by;
        text += headerData(c, Qt::Horizontal).toString();
    }
    text += u'\n';
    for (const FillPoint& p : box_.fill) {
        text += Words::date(p.date).toString(Qt::ISODate);
        for (int c = p10; c < columns; ++c)
            text += by + (c == fill ? plain.toString(100 * p.fill, 'f', 2)
                                       : plain.toString(value(p, c) / unit_.bytes, 'f', 4));
        text += u'\n';
    }
    return text;
}

}  // namespace ullage
