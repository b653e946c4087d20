// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The pane at the right: the form of the chosen item under its name.

#include "core/units/problem.h"
#include "ui/document/item_ref.h"

#include <QMap>
#include <QWidget>

class QLabel;
class QScrollArea;
class QStackedLayout;

namespace ullage::ui {

class Form;
class SiteDocument;

class FormPanel : public QWidget {
    Q_OBJECT

public:
    explicit FormPanel(SiteDocument& document, QWidget* parent = nullptr);

    void showItem(ItemRef item);
    ItemRef item() const { return item_; }
    /// The form of the chosen item.
    Form* form() const;
    /// Shows the pointer's item and gives the focus to its field, if it has one.
    void focusField(const QString& pointer);
    void focusFirst();
    /// Commits a text that is typed and not committed yet. Call before saving or leaving.
    void commitPending();
    void refresh();
    void setProblems(const Problems& problems);

    QSize sizeHint() const override;

private:
    Form* formOf(ItemKind kind);
    void showTitle();

    SiteDocument& document_;
    ItemRef item_;
    Problems problems_;
    QLabel *kind_label_, *name_label_;
    QStackedLayout* stack_;
    QMap<ItemKind, Form*> forms_;
    QMap<ItemKind, QScrollArea*> areas_;
};

}  // namespace ullage::ui
