// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A chart's numbers as a table whose rows are given whole, and the window that shows any table.
///
/// Display: text in the user's locale; Edit: the bare number, for sorting and tests.

#include <QAbstractTableModel>
#include <QDate>
#include <QStringList>

#include <functional>
#include <vector>

class QDialog;
class QWidget;

namespace ullage {

class NumberTable : public QAbstractTableModel {
    Q_OBJECT

public:
    struct Cell {
        QString text;
        QVariant value;
        QString plain;  ///< for a spreadsheet of the same desktop: no grouping; empty: as `text`
        /// A number with `digits` significant digits, of which the header names the unit.
        static Cell number(double value, double unit, int digits = 3);
        static Cell words(const QString& text);
        static Cell date(const QDate& date);  ///< plain: ISO 8601
    };
    struct Content {
        QStringList header;
        std::vector<std::vector<Cell>> rows;  ///< each as long as the header
    };

    using QAbstractTableModel::QAbstractTableModel;
    void setContent(Content content);

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role = Qt::DisplayRole) const override;
    QVariant headerData(int section, Qt::Orientation orientation,
                        int role = Qt::DisplayRole) const override;
    /// Header and rows, tab separated.
    QString tabSeparated() const;
    QString commaSeparated() const;  ///< the same by RFC 4180

private:
    QList<QStringList> lines() const;

    Content content_;
};

/// A window of its own over `parent` with the table and a button that calls `copy`; it deletes
/// itself when closed.
QDialog* show_table(QWidget* parent, const QString& object_name, const QString& title,
                    QAbstractItemModel* model, std::function<void()> copy);

}  // namespace ullage
