// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/message_bar.h"

#include "ui/theme/theme.h"
#include "ui/window/look.h"

#include <QAccessible>
#include <QHBoxLayout>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QToolButton>

namespace ullage::ui {

namespace {
constexpr int bar_width = 4;   ///< of the upright at the left, pixels
constexpr double tint = 0.10;  ///< of the message's colour in the ground
}  // namespace

MessageBar::MessageBar(QWidget* parent)
    : QFrame(parent),
      text_(new QLabel(this)),
      row_(new QHBoxLayout(this)),
      close_(new QToolButton(this)) {
    setObjectName(QStringLiteral("messageBar"));
    text_->setObjectName(QStringLiteral("messageBar.text"));
    text_->setWordWrap(true);
    text_->setTextFormat(Qt::PlainText);
    text_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    close_->setObjectName(QStringLiteral("messageBar.close"));
    close_->setText(tr("Close"));
    close_->setAccessibleName(tr("Close the message"));
    close_->setAutoRaise(true);
    close_->setFocusPolicy(Qt::StrongFocus);
    row_->setContentsMargins(bar_width + 12, 7, 8, 7);
    row_->setSpacing(8);
    row_->addWidget(text_, 1);
    row_->addWidget(close_);
    connect(close_, &QToolButton::clicked, this, &MessageBar::clearAll);
    hide();
}

void MessageBar::show(Kind kind, const QString& subject, const QString& text,
                      const QList<Action>& actions) {
    kind_ = kind;
    subject_ = subject;
    text_->setText(text);
    for (QPushButton* button : std::as_const(buttons_)) {
        row_->removeWidget(button);
        button->hide();
        button->deleteLater();
    }
    buttons_.clear();
    for (const Action& action : actions) {
        auto* button = new QPushButton(action.text, this);
        button->setObjectName(QStringLiteral("messageBar.action.%1").arg(buttons_.size()));
        connect(button, &QPushButton::clicked, this, [this, run = action.run] {
            clearAll();
            run();
        });
        row_->insertWidget(row_->count() - 1, button);
        buttons_.append(button);
    }
    QFrame::show();
    setAccessibleName(text);
    QAccessibleEvent alert(this, QAccessible::Alert);
    QAccessible::updateAccessibility(&alert);
    update();
}

void MessageBar::clear(const QString& subject) {
    if (subject == subject_) clearAll();
}

void MessageBar::clearAll() {
    subject_.clear();
    text_->clear();
    hide();
}

QString MessageBar::text() const { return text_->text(); }

void MessageBar::paintEvent(QPaintEvent*) {
    const Theme theme = Theme::of(palette());
    const QColor colour = kind_ == Kind::fault ? theme.full : theme.median;
    QPainter painter(this);
    painter.fillRect(rect(), mixed(palette().color(QPalette::Window), colour, tint));
    painter.fillRect(0, 0, bar_width, height(), colour);
    painter.fillRect(0, height() - 1, width(), 1, theme.rule);
}

}  // namespace ullage::ui
