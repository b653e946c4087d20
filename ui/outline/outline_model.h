// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The open site as a tree: the site itself, then a section for each kind of item.
///
/// Roles: Display and Edit are the name (setting it renames the item everywhere, as one undoable
/// edit), ToolTip is the worst finding about it, AccessibleText is name and status in words;
/// `PointerRole` the JSON pointer, `StatusRole` the Level as an int if there is one,
/// `StatusTextRole` its word, `FaultyRole` whether validation has something against it,
/// `SectionRole` whether it is a heading. Statuses come from the latest answer, by name, so they
/// stay with an item that moves.

#include "core/findings/findings.h"
#include "core/units/problem.h"
#include "ui/document/item_ref.h"

#include <QAbstractItemModel>
#include <QHash>

#include <memory>
#include <set>

namespace ullage::ui {

class SiteDocument;

class OutlineModel : public QAbstractItemModel {
    Q_OBJECT

public:
    enum Role {
        PointerRole = Qt::UserRole,
        StatusRole,
        StatusTextRole,
        FaultyRole,
        SectionRole,
    };

    explicit OutlineModel(SiteDocument& document, QObject* parent = nullptr);

    /// Null: no statuses.
    void setAnswer(std::shared_ptr<const Answer> answer);
    void setProblems(const Problems& problems);

    QModelIndex indexOf(ItemRef item) const;
    QModelIndex indexOfSection(ItemKind kind) const;
    /// Empty for a section's heading.
    std::optional<ItemRef> itemOf(const QModelIndex& index) const;
    /// The kind of a heading or an item.
    ItemKind kindOf(const QModelIndex& index) const;

    QModelIndex index(int row, int column, const QModelIndex& parent = {}) const override;
    QModelIndex parent(const QModelIndex& child) const override;
    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;

signals:
    /// A new name was not taken.
    void renameRefused(const QString& why);

private:
    struct Status {
        Level level = Level::note;
        QString sentence;
    };

    void readSite();
    void resetSite();
    void announceAll();
    const Status* statusOf(ItemRef item) const;
    bool isFaulty(ItemRef item) const;

    SiteDocument& document_;
    std::shared_ptr<const Site> site_;
    std::array<int, listed_kinds.size()> counts_{};
    QHash<QString, Status> statuses_;  ///< by kind and name
    std::set<QString> faulty_;         ///< pointers of items
};

}  // namespace ullage::ui
