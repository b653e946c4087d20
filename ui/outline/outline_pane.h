// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The pane at the left: the outline, with the actions on its items.

#include "ui/document/item_ref.h"

#include <QWidget>

#include <functional>

class QAction;
class QMenu;
class QToolButton;
class QTreeView;

namespace ullage::ui {

class OutlineModel;
class SiteDocument;

class OutlinePane : public QWidget {
    Q_OBJECT

public:
    /// Asked before an item goes that others depend on; false keeps it.
    using Confirm = std::function<bool(const QString& question, const QString& consequences)>;

    OutlinePane(SiteDocument& document, OutlineModel& model, QWidget* parent = nullptr);

    void setConfirm(Confirm confirm) { confirm_ = std::move(confirm); }
    QTreeView* view() { return view_; }
    /// Add, duplicate, move, rename, remove: for the window's menu.
    QMenu* addMenu() { return add_menu_; }
    QList<QAction*> itemActions() const;

    void choose(ItemRef item);
    ItemRef chosen() const;
    /// Adds an item, chooses it and asks for its form.
    void addNew(ItemKind kind);
    void duplicateChosen();
    void removeChosen();
    void renameChosen();
    /// Within its section: -1 up, +1 down.
    void moveChosen(int by);

    QSize sizeHint() const override;

signals:
    void itemChosen(ullage::ui::ItemRef item);
    /// The item was activated or just added: its form should take the keyboard.
    void formWanted();
    void refused(const QString& why);

private:
    void showMenu(const QPoint& at);
    void updateActions();
    void keepChoice();

    SiteDocument& document_;
    OutlineModel& model_;
    QTreeView* view_;
    QMenu* add_menu_;
    QList<QAction*> add_actions_;
    QAction *duplicate_, *up_, *down_, *rename_, *remove_;
    Confirm confirm_;
    ItemRef chosen_;
};

}  // namespace ullage::ui
