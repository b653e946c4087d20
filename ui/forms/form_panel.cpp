// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/forms/form_panel.h"

#include "ui/document/site_document.h"
#include "ui/forms/form.h"
#include "ui/forms/kind_forms.h"
#include "ui/window/look.h"

#include <QLabel>
#include <QScrollArea>
#include <QStackedLayout>
#include <QVBoxLayout>

namespace ullage::ui {

namespace {
constexpr int margin = 14;  ///< pixels
constexpr double width_ems = 31;
}  // namespace

FormPanel::FormPanel(SiteDocument& document, QWidget* parent)
    : QWidget(parent),
      document_(document),
      kind_label_(quietLabel({}, this)),
      name_label_(headingLabel({}, 1.25, this)),
      stack_(new QStackedLayout) {
    setObjectName(QStringLiteral("formPanel"));
    kind_label_->setObjectName(QStringLiteral("formPanel.kind"));
    name_label_->setObjectName(QStringLiteral("formPanel.name"));
    name_label_->setWordWrap(true);
    auto* column = new QVBoxLayout(this);
    column->setContentsMargins(0, margin - 2, 0, 0);
    column->setSpacing(0);
    auto* head = new QVBoxLayout;
    head->setContentsMargins(margin, 0, margin, 10);
    head->setSpacing(1);
    head->addWidget(kind_label_);
    head->addWidget(name_label_);
    column->addLayout(head);
    column->addLayout(stack_, 1);
    showTitle();
}

QSize FormPanel::sizeHint() const { return {ems(this, width_ems), 400}; }

Form* FormPanel::formOf(ItemKind kind) {
    if (Form* made = forms_.value(kind)) return made;
    auto* area = new QScrollArea(this);
    area->setWidgetResizable(true);
    area->setFrameShape(QFrame::NoFrame);
    area->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    area->setFocusPolicy(Qt::NoFocus);
    auto* page = new QWidget(area);
    auto* column = new QVBoxLayout(page);
    column->setContentsMargins(margin, 0, margin, margin);
    Form* form = makeForm(kind, document_, page);
    column->addWidget(form);
    column->addStretch();
    area->setWidget(page);
    // Otherwise the page is filled with the colour of its first paint.
    page->setAutoFillBackground(false);
    area->viewport()->setAutoFillBackground(false);
    stack_->addWidget(area);
    forms_.insert(kind, form);
    areas_.insert(kind, area);
    return form;
}

Form* FormPanel::form() const { return forms_.value(item_.kind); }

void FormPanel::showItem(ItemRef item) {
    if (!exists(document_.site(), item)) item = {};
    Form* shown = formOf(item.kind);
    const bool is_same = item == item_ && stack_->currentWidget() == areas_.value(item.kind);
    if (!is_same) {
        commitPending();
        item_ = item;
        shown->setIndex(item.index);
        areas_.value(item.kind)->ensureVisible(0, 0);
        stack_->setCurrentWidget(areas_.value(item.kind));
    }
    shown->setProblems(problems_);
    showTitle();
}

void FormPanel::showTitle() {
    const QString kind = kindName(item_.kind);
    kind_label_->setText(kind.left(1).toUpper() + kind.mid(1));
    const QString name = nameOf(document_.site(), item_);
    name_label_->setText(name.isEmpty() ? tr("Unnamed") : name);
}

void FormPanel::focusField(const QString& pointer) {
    const auto item = itemAt(pointer);
    if (!item) return;
    showItem(*item);
    if (!form()->focusField(pointer)) return;
    if (QWidget* field = form()->focusWidget())
        areas_.value(item_.kind)->ensureWidgetVisible(field, 20, 60);
}

void FormPanel::focusFirst() {
    if (form()) form()->focusFirst();
}

void FormPanel::commitPending() {
    if (form()) form()->commitPending();
}

void FormPanel::refresh() {
    if (!exists(document_.site(), item_)) {
        showItem({});
        return;
    }
    if (form()) form()->refresh();
    showTitle();
}

void FormPanel::setProblems(const Problems& problems) {
    problems_ = problems;
    if (form()) form()->setProblems(problems);
}

}  // namespace ullage::ui
