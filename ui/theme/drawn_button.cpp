// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/drawn_button.h"

#include "ui/theme/theme.h"

#include <QEnterEvent>
#include <QKeyEvent>
#include <QPainter>

namespace ullage {

void DrawnButton::beCard() {
    setFocusPolicy(Qt::StrongFocus);
    setAttribute(Qt::WA_Hover);
    setCursor(Qt::PointingHandCursor);
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Preferred);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

void DrawnButton::drawCard(QPainter& painter, const Theme& theme) const {
    const QRectF frame = QRectF(rect()).adjusted(1, 1, -1, -1);
    const bool chosen = isChecked();
    painter.setBrush(chosen || underMouse() ? theme.chosen : theme.surface);
    painter.setPen(chosen ? QPen(theme.median, 2) : QPen(theme.rule, 1));
    painter.drawRoundedRect(frame, 6, 6);
    if (!hasFocus()) return;
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(theme.focus, 2));
    painter.drawRoundedRect(frame.adjusted(2.5, 2.5, -2.5, -2.5), 4, 4);
}

void DrawnButton::enterEvent(QEnterEvent* event) {
    update();
    QAbstractButton::enterEvent(event);
}

void DrawnButton::leaveEvent(QEvent* event) {
    update();
    QAbstractButton::leaveEvent(event);
}

void DrawnButton::changeEvent(QEvent* event) {
    if (event->type() == QEvent::FontChange || event->type() == QEvent::StyleChange)
        updateGeometry();
    update();
    QAbstractButton::changeEvent(event);
}

void DrawnButton::keyPressEvent(QKeyEvent* event) {
    if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter)
        click();
    else
        QAbstractButton::keyPressEvent(event);
}

}  // namespace ullage
