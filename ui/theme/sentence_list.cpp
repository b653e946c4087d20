// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/sentence_list.h"

#include "ui/theme/text_button.h"

#include <QVBoxLayout>

namespace ullage {

SentenceList::SentenceList(const QString& name, QWidget* parent)
    : QWidget(parent), name_(name), list_(new QVBoxLayout(this)) {
    list_->setContentsMargins(0, 0, 0, 0);
    list_->setSpacing(0);
}

/// What the keyboard reaches before the list; null for nothing.
QWidget* SentenceList::reachedBefore() const {
    for (QWidget* each = previousInFocusChain(); each && each != this;
         each = each->previousInFocusChain())
        if ((each->focusPolicy() & Qt::TabFocus) && !isAncestorOf(each)) return each;
    return nullptr;
}

void SentenceList::setSentences(const std::vector<Sentence>& wanted) {
    while (buttons_.size() > wanted.size()) {
        delete buttons_.back();
        buttons_.pop_back();
    }
    while (buttons_.size() < wanted.size()) {
        auto* button = new TextButton;
        button->setObjectName(name_ + QString::number(buttons_.size()));
        connect(button, &QAbstractButton::clicked, this, [this, button] {
            const QString pointer = button->property("pointer").toString();
            if (!pointer.isEmpty()) emit chosen(pointer);
        });
        list_->addWidget(button);
        // In its place, not after all that was there before it.
        if (QWidget* before = buttons_.empty() ? reachedBefore() : buttons_.back())
            setTabOrder(before, button);
        button->show();
        buttons_.push_back(button);
    }
    for (std::size_t i = 0; i < wanted.size(); ++i) {
        buttons_[i]->setText(wanted[i].text);
        buttons_[i]->setProperty("pointer", wanted[i].pointer);
        buttons_[i]->updateGeometry();
    }
}

}  // namespace ullage
