// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/forms/checks_field.h"

#include <QCheckBox>
#include <QVBoxLayout>

namespace ullage::ui {

ChecksField::ChecksField(const QString& label, const QString& key, Binding binding, QWidget* parent)
    : Field(label, key, parent),
      binding_(std::move(binding)),
      box_(new QWidget(this)),
      rows_(new QVBoxLayout(box_)) {
    rows_->setContentsMargins(0, 3, 0, 0);
    rows_->setSpacing(3);
    setEditor(box_, box_);
}

void ChecksField::refresh(bool) {
    QStringList names = binding_.names();
    const QStringList checked = binding_.checked();
    // A name that no longer exists can still be unchecked.
    for (const QString& name : checked)
        if (!names.contains(name)) names.append(name);
    if (names != shown_) {
        qDeleteAll(checks_);
        checks_.clear();
        for (const QString& name : std::as_const(names)) {
            QString text = name;
            auto* check = new QCheckBox(text.replace(QLatin1Char('&'), QLatin1String("&&")), box_);
            check->setObjectName(QStringLiteral("%1.%2").arg(objectNameOf(key()), name));
            check->setAccessibleName(QStringLiteral("%1: %2").arg(label(), name));
            connect(check, &QCheckBox::clicked, this,
                    [this, name](bool on) { setTypingProblem(binding_.commit(name, on)); });
            rows_->addWidget(check);
            checks_.append(check);
        }
        shown_ = names;
        // New widgets stand at the end of the window's tab order; these belong here. An order can
        // only be set after what takes the keyboard itself.
        box_->setFocusProxy(nullptr);
        box_->setFocusPolicy(checks_.isEmpty() ? Qt::NoFocus : Qt::StrongFocus);
        QWidget* before = box_;
        for (QCheckBox* check : std::as_const(checks_)) {
            setTabOrder(before, check);
            before = check;
        }
        // The label's buddy and the tab order lead to the first of them.
        box_->setFocusProxy(checks_.isEmpty() ? nullptr : checks_.first());
    }
    for (qsizetype i = 0; i < names.size(); ++i) checks_[i]->setChecked(checked.contains(names[i]));
    setTypingProblem({});
}

}  // namespace ullage::ui
