// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/pages/page.h"

#include "ui/theme/theme.h"

#include <QComboBox>
#include <QEvent>
#include <QFrame>
#include <QHBoxLayout>
#include <QLabel>
#include <QStackedWidget>
#include <QVBoxLayout>

namespace ullage {

Page::Page(QWidget* parent) : QWidget(parent) {
    scroll_ = new QScrollArea;
    scroll_->setFrameShape(QFrame::NoFrame);
    scroll_->setWidgetResizable(true);
    scroll_->setFocusPolicy(Qt::NoFocus);
    auto* content = new QWidget;
    content->setBackgroundRole(QPalette::Base);
    content->setAutoFillBackground(true);
    scroll_->viewport()->setBackgroundRole(QPalette::Base);
    sheet_ = new QVBoxLayout(content);
    sheet_->setContentsMargins(12, 14, 12, 14);
    sheet_->setSpacing(10);
    scroll_->setWidget(content);

    auto* message = new QWidget;
    message->setBackgroundRole(QPalette::Base);
    message->setAutoFillBackground(true);
    headline_ = new QLabel;
    headline_->setAlignment(Qt::AlignHCenter);
    headline_->setWordWrap(true);
    headline_->setTextFormat(Qt::PlainText);
    headline_->setObjectName(QStringLiteral("pageHeadline"));
    detail_ = new QLabel;
    detail_->setAlignment(Qt::AlignHCenter);
    detail_->setWordWrap(true);
    detail_->setTextFormat(Qt::PlainText);
    detail_->setObjectName(QStringLiteral("pageDetail"));
    auto* middle = new QVBoxLayout(message);
    middle->setContentsMargins(40, 40, 40, 40);
    middle->setSpacing(8);
    middle->addStretch(2);
    middle->addWidget(headline_);
    middle->addWidget(detail_);
    middle->addStretch(3);

    stack_ = new QStackedWidget;
    stack_->addWidget(message);
    stack_->addWidget(scroll_);
    auto* all = new QVBoxLayout(this);
    all->setContentsMargins(0, 0, 0, 0);
    all->addWidget(stack_);
}

QSize Page::sizeHint() const { return QSize(50, 35) * fontMetrics().height(); }
QSize Page::minimumSizeHint() const { return QSize(18, 10) * fontMetrics().height(); }

void Page::setAnswer(std::shared_ptr<const Answer> answer) {
    answer_ = std::move(answer);
    if (!answer_)
        state_ = ShownState::nothing;
    else if (state_ == ShownState::nothing)
        state_ = ShownState::ready;
    stale_ = isOutOfSight() && answer_;
    if (!stale_) refreshAll();
}

bool Page::isOutOfSight() const { return !isVisible() && window()->isVisible(); }

void Page::refreshAll() {
    stale_ = false;
    refresh();
    applyState();
}

void Page::setUpdating(bool updating) {
    if (updating)
        setState(ShownState::updating);
    else if (state_ == ShownState::updating)
        setState(answer_ ? ShownState::ready : ShownState::nothing);
}

void Page::setState(ShownState state) {
    if (state == state_) return;
    state_ = state;
    stale_ = stale_ || (isOutOfSight() && answer_);
    if (stale_) return;
    if (!answer_) refresh();  // the message tells of the state
    applyState();
}

QFrame* Page::addRule() {
    auto* rule = new QFrame;
    rule->setFixedHeight(1);
    rule->setBackgroundRole(QPalette::Window);
    rule->setAutoFillBackground(true);
    rules_.push_back(rule);
    auto* row = new QHBoxLayout;
    constexpr int room = static_cast<int>(ring_room);
    row->setContentsMargins(room, 4, room, 4);
    row->addWidget(rule);
    sheet_->addLayout(row);
    return rule;
}

void Page::say(const QString& headline, const QString& detail) {
    headline_->setText(headline);
    detail_->setText(detail);
    stack_->setCurrentIndex(headline.isEmpty() && detail.isEmpty() ? 1 : 0);
}

int Page::indexIn(const QString& pointer, const QString& list) {
    const QStringList parts = pointer.split(u'/');
    if (parts.size() < 3 || !parts[0].isEmpty() || parts[1] != list) return -1;
    bool ok = false;
    const int index = parts[2].toInt(&ok);
    return ok && index >= 0 ? index : -1;
}

Page::Chooser Page::makeChooser(const QString& label, const QString& object_name) {
    Chooser made;
    made.row = new QWidget;
    auto* layout = new QHBoxLayout(made.row);
    constexpr int room = static_cast<int>(ring_room);
    layout->setContentsMargins(room, 0, room, 0);
    made.label = new QLabel(label);
    made.box = new QComboBox;
    made.box->setObjectName(object_name);
    made.box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    made.box->setMinimumContentsLength(12);
    made.box->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    made.label->setBuddy(made.box);
    layout->addWidget(made.label);
    layout->addWidget(made.box, 1);
    return made;
}

void Page::dress() {
    if (dressing_) return;
    dressing_ = true;
    const Theme theme = Theme::of(palette());
    headline_->setFont(scaled(font(), 1.6, QFont::DemiBold));
    detail_->setFont(font());
    set_text_colour(*detail_, theme.muted);
    QPalette rule;
    rule.setColor(QPalette::Window, theme.rule);
    for (QFrame* each : rules_) each->setPalette(rule);
    retheme();
    dressing_ = false;
}

void Page::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange || event->type() == QEvent::FontChange ||
        event->type() == QEvent::StyleChange)
        dress();
}

void Page::showEvent(QShowEvent* event) {
    if (stale_) refreshAll();
    dress();
    QWidget::showEvent(event);
}

}  // namespace ullage
