// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The findings along the bottom: level as shape and word, then the sentence. Activating one
/// (Enter, or a click) names the item that it is about.

#include "core/findings/findings.h"

#include <QAbstractListModel>
#include <QWidget>

#include <memory>

class QLabel;
class QListView;

namespace ullage::ui {

class FindingsModel : public QAbstractListModel {
    Q_OBJECT

public:
    enum Role { LevelRole = Qt::UserRole, PointerRole, LevelTextRole };

    using QAbstractListModel::QAbstractListModel;
    void setFindings(std::vector<Finding> findings);

    int rowCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;

private:
    std::vector<Finding> findings_;
};

class FindingsList : public QWidget {
    Q_OBJECT

public:
    explicit FindingsList(QWidget* parent = nullptr);

    /// Null: none yet.
    void setAnswer(const std::shared_ptr<const Answer>& answer);
    /// Shows them paler, as not of the present site.
    void setOutOfDate(bool out_of_date);
    QListView* view() { return view_; }

    QSize sizeHint() const override;

signals:
    void chosen(const QString& pointer);

private:
    FindingsModel* model_;
    QListView* view_;
    QLabel* heading_;
    QLabel* empty_;
};

}  // namespace ullage::ui
