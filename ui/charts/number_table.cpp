// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/charts/number_table.h"

#include "ui/theme/words.h"

#include <QDialog>
#include <QDialogButtonBox>
#include <QHeaderView>
#include <QLocale>
#include <QPushButton>
#include <QTableView>
#include <QVBoxLayout>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

constexpr int most_width = 1100, height = 480;  // logical pixels

}  // namespace

NumberTable::Cell NumberTable::Cell::number(double value, double unit, int digits) {
    const double shown = value / unit;
    if (!std::isfinite(shown)) return words(QStringLiteral("?"));
    const int before =
        shown == 0 ? 1 : static_cast<int>(std::floor(std::log10(std::abs(shown)))) + 1;
    QLocale plain;
    plain.setNumberOptions(QLocale::OmitGroupSeparator);
    return {QLocale().toString(shown, 'f', shown == 0 ? 0 : std::clamp(digits - before, 0, 9)),
            value, plain.toString(shown, 'g', 6)};
}

NumberTable::Cell NumberTable::Cell::words(const QString& text) { return {text, text, {}}; }

NumberTable::Cell NumberTable::Cell::date(const QDate& date) {
    return {Words::full_date(date), date, date.toString(Qt::ISODate)};
}

void NumberTable::setContent(Content content) {
    beginResetModel();
    content_ = std::move(content);
    endResetModel();
}

int NumberTable::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(content_.rows.size());
}

int NumberTable::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(content_.header.size());
}

QVariant NumberTable::data(const QModelIndex& index, int role) const {
    if (!checkIndex(index, CheckIndexOption::IndexIsValid | CheckIndexOption::ParentIsInvalid))
        return {};
    const Cell& cell =
        content_
            .rows[static_cast<std::size_t>(index.row())][static_cast<std::size_t>(index.column())];
    const bool number = cell.value.metaType().id() != QMetaType::QString;
    switch (role) {
        case Qt::DisplayRole:
            return cell.text;
        case Qt::EditRole:
            return cell.value;
        case Qt::TextAlignmentRole:
            return QVariant((number ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
        default:
            return {};
    }
}

QVariant NumberTable::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || section < 0 || section >= columnCount()) return {};
    if (role == Qt::DisplayRole) return content_.header[section];
    if (role == Qt::TextAlignmentRole && rowCount() > 0)
        return data(index(0, section), Qt::TextAlignmentRole);
    return {};
}

QList<QStringList> NumberTable::lines() const {
    QList<QStringList> all{content_.header};
    for (const auto& row : content_.rows) {
        QStringList cells;
        for (const Cell& cell : row) cells << (cell.plain.isEmpty() ? cell.text : cell.plain);
        all << cells;
    }
    return all;
}

QString NumberTable::tabSeparated() const {
    QString text;
    for (const QStringList& line : lines()) text += line.join(u'\t') + u'\n';
    return text;
}

QString NumberTable::commaSeparated() const {
    QString text;
    for (QStringList line : lines()) {
        for (QString& cell : line)
            if (cell.contains(u',') || cell.contains(u'"') || cell.contains(u'\n'))
                cell = u'"' + cell.replace(u'"', QStringLiteral("\"\"")) + u'"';
        text += line.join(u',') + QStringLiteral("\r\n");
    }
    return text;
}

QDialog* show_table(QWidget* parent, const QString& object_name, const QString& title,
                    QAbstractItemModel* model, std::function<void()> copy) {
    auto* dialog = new QDialog(parent);
    dialog->setObjectName(object_name);
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    dialog->setWindowTitle(title);
    auto* view = new QTableView;
    view->setAccessibleName(title);
    view->setModel(model);
    view->setAlternatingRowColors(true);
    view->setShowGrid(false);
    view->setSelectionBehavior(QAbstractItemView::SelectRows);
    view->verticalHeader()->hide();
    view->horizontalHeader()->setHighlightSections(false);
    view->resizeColumnsToContents();
    int width = 60;
    for (int c = 0; c < model->columnCount(); ++c) {
        view->setColumnWidth(c, view->columnWidth(c) + 12);
        width += view->columnWidth(c);
    }
    view->horizontalHeader()->setStretchLastSection(true);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close);
    auto* copy_button =
        buttons->addButton(NumberTable::tr("Copy numbers"), QDialogButtonBox::ActionRole);
    QObject::connect(copy_button, &QPushButton::clicked, parent, std::move(copy));
    QObject::connect(buttons, &QDialogButtonBox::rejected, dialog, &QDialog::close);
    auto* layout = new QVBoxLayout(dialog);
    layout->addWidget(view);
    layout->addWidget(buttons);
    dialog->resize(std::min(width, most_width), height);
    dialog->show();
    return dialog;
}

}  // namespace ullage
