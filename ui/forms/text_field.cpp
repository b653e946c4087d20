// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/forms/text_field.h"

#include "ui/theme/outlined.h"
#include "ui/window/look.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QPushButton>

namespace ullage::ui {

TextField::TextField(const QString& label, const QString& key, Binding binding, QWidget* parent)
    : Field(label, key, parent), binding_(std::move(binding)), row_(new QWidget(this)) {
    auto* row = new QHBoxLayout(row_);
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(6);
    line_ = new Outlined<QLineEdit>(row_);
    line_->setTextMargins(3, 0, 3, 0);
    row->addWidget(line_);
    setEditor(row_, line_);
    line_->installEventFilter(this);
    connect(line_, &QLineEdit::editingFinished, this, &TextField::commitPending);
}

TextField* TextField::setPlaceholder(const QString& text) {
    line_->setPlaceholderText(text);
    return this;
}

TextField* TextField::setButton(const QString& text, std::function<QString()> ask) {
    auto* button = new QPushButton(QStringLiteral("…"), row_);
    button->setToolTip(text);
    button->setFixedWidth(ems(this, 3));
    button->setMinimumHeight(controlHeight(this));
    button->setObjectName(objectNameOf(key()) + QStringLiteral(".button"));
    button->setAccessibleName(QStringLiteral("%1: %2").arg(label(), text));
    button->setAutoDefault(false);
    row_->layout()->addWidget(button);
    connect(button, &QPushButton::clicked, this, [this, ask = std::move(ask)] {
        const QString answer = ask();
        if (answer.isEmpty()) return;
        line_->setText(answer);
        commitPending();
    });
    return this;
}

void TextField::refresh(bool discard_typed) {
    const QString text = binding_.text();
    const bool keeps_typed = !discard_typed && text == shown_ && line_->text() != shown_;
    if (keeps_typed) return;
    shown_ = text;
    setTypingProblem({});
    if (line_->text() == text) return;
    line_->setText(text);
    if (!line_->hasFocus()) line_->setCursorPosition(0);
}

void TextField::commitPending() {
    const QString typed = line_->text();
    if (typed == shown_) {
        setTypingProblem({});
        return;
    }
    const QString refusal = binding_.commit(typed);
    setTypingProblem(refusal);
    if (refusal.isEmpty()) refresh(true);
}

bool TextField::eventFilter(QObject* watched, QEvent* event) {
    if (watched != line_) return Field::eventFilter(watched, event);
    const bool is_committed = line_->text() == shown_;
    if (event->type() == QEvent::ShortcutOverride) {
        auto* key = static_cast<QKeyEvent*>(event);
        if (is_committed &&
            (key->matches(QKeySequence::Undo) || key->matches(QKeySequence::Redo))) {
            event->ignore();
            return true;
        }
        if (key->key() == Qt::Key_Escape && !is_committed) {
            event->accept();
            return true;
        }
    }
    if (event->type() == QEvent::KeyPress && !is_committed &&
        static_cast<QKeyEvent*>(event)->key() == Qt::Key_Escape) {
        refresh(true);
        line_->selectAll();
        return true;
    }
    return Field::eventFilter(watched, event);
}

}  // namespace ullage::ui
