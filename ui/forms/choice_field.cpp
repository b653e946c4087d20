// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/forms/choice_field.h"

#include <QComboBox>
#include <QEvent>
#include <QSignalBlocker>

#include <algorithm>

namespace ullage::ui {

ChoiceField::ChoiceField(const QString& label, const QString& key, Binding binding, QWidget* parent)
    : Field(label, key, parent), binding_(std::move(binding)), combo_(new QComboBox(this)) {
    combo_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    combo_->setMinimumContentsLength(8);
    combo_->setFocusPolicy(Qt::StrongFocus);
    combo_->installEventFilter(this);
    setEditor(combo_, combo_);
    connect(combo_, &QComboBox::activated, this, [this](int index) {
        const QString value = combo_->itemData(index).toString();
        if (value == binding_.value()) return;
        setTypingProblem(binding_.commit(value));
    });
}

QWidget* ChoiceField::editor() { return combo_; }

void ChoiceField::refresh(bool) {
    const QSignalBlocker quiet(combo_);
    const QString value = binding_.value();
    QList<Choice> choices = binding_.choices();
    const auto is_value = [&](const Choice& choice) { return choice.value == value; };
    // A name that no longer exists is still shown, so that the fault beneath it makes sense.
    if (std::none_of(choices.cbegin(), choices.cend(), is_value)) choices.append({value, value});
    if (choices != shown_) {
        combo_->clear();
        for (const Choice& choice : std::as_const(choices))
            combo_->addItem(choice.text, choice.value);
        shown_ = choices;
    }
    combo_->setCurrentIndex(combo_->findData(value));
    setTypingProblem({});
}

bool ChoiceField::eventFilter(QObject* watched, QEvent* event) {
    // The wheel scrolls the form; it must not change a value on its way.
    if (watched == combo_ && event->type() == QEvent::Wheel) {
        event->ignore();
        return true;
    }
    return Field::eventFilter(watched, event);
}

}  // namespace ullage::ui
