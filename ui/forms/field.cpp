// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/forms/field.h"

#include "ui/window/look.h"

#include <QAccessible>
#include <QEvent>
#include <QLabel>
#include <QPainter>
#include <QVBoxLayout>

namespace ullage::ui {

namespace {
constexpr int bar_width = 3;  ///< of the bar beside the words of a fault, pixels
}

QString objectNameOf(const QString& key) {
    QString name = key;
    name.replace(QLatin1Char('/'), QLatin1Char('.'));
    return name.startsWith(QLatin1Char('.')) ? name.mid(1) : name;
}

Field::Field(const QString& label, const QString& key, QWidget* parent)
    : QWidget(parent),
      label_(label),
      key_(key),
      layout_(new QVBoxLayout(this)),
      problem_label_(new QLabel(this)) {
    setObjectName(objectNameOf(key) + QStringLiteral(".field"));
    layout_->setContentsMargins(0, 0, 0, 0);
    layout_->setSpacing(3);
    problem_label_->setObjectName(objectNameOf(key) + QStringLiteral(".problem"));
    problem_label_->setWordWrap(true);
    problem_label_->setTextFormat(Qt::PlainText);
    problem_label_->setTextInteractionFlags(Qt::NoTextInteraction);
    problem_label_->setContentsMargins(bar_width + 6, 0, 0, 0);
    problem_label_->hide();
    layout_->addWidget(problem_label_);
    colourProblem();
}

void Field::setEditor(QWidget* editor, QWidget* focus) {
    layout_->insertWidget(0, editor);
    if (!isWide()) editor->setMinimumHeight(controlHeight(this));
    setFocusProxy(focus);
    focus->setObjectName(objectNameOf(key_));
    focus->setAccessibleName(label_);
}

Field* Field::setHint(const QString& hint) {
    hint_ = hint;
    setToolTip(hint);
    setWhatsThis(tr("%1. %2", "name of a field, then what it is for").arg(label_, hint));
    editor()->setAccessibleDescription(hint);
    return this;
}

Field* Field::setLabelledByHeading() {
    labelled_by_heading_ = true;
    emit labelChanged();
    return this;
}

Field* Field::setShownWhen(std::function<bool()> condition) {
    shown_when_ = std::move(condition);
    return this;
}

void Field::setProblem(const QString& text) {
    if (text == problem_) return;
    problem_ = text;
    showProblem();
}

void Field::setTypingProblem(const QString& text) {
    if (text == typing_problem_) return;
    typing_problem_ = text;
    showProblem();
}

QString Field::shownProblem() const {
    return typing_problem_.isEmpty() ? problem_ : typing_problem_;
}

void Field::showProblem() {
    const QString text = shownProblem();
    problem_label_->setText(text);
    problem_label_->setVisible(!text.isEmpty());
    QWidget* control = editor();
    // Read out with the control, as well as written beneath it.
    control->setAccessibleDescription(text.isEmpty() ? hint_ : text);
    markFaulty(control, !text.isEmpty());
    QAccessibleEvent changed(control, QAccessible::DescriptionChanged);
    QAccessible::updateAccessibility(&changed);
    emit problemShown();
}

void Field::paintEvent(QPaintEvent*) {
    if (problem_label_->isHidden()) return;
    QPainter painter(this);
    const QRect words = problem_label_->geometry();
    painter.fillRect(QRect(words.left(), words.top() + 1, bar_width, words.height() - 2),
                     faultColour(palette()));
}

void Field::changeEvent(QEvent* event) {
    if (event->type() == QEvent::PaletteChange && problem_label_) {
        colourProblem();
        markFaulty(editor(), !shownProblem().isEmpty());
    }
    QWidget::changeEvent(event);
}

void Field::colourProblem() {
    QPalette colours = palette();
    colours.setColor(QPalette::WindowText, faultColour(palette()));
    if (problem_label_->palette() != colours) problem_label_->setPalette(colours);
}

}  // namespace ullage::ui
