// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/drawn_button.h"

#include <QEvent>
#include <QKeyEvent>

namespace ullage {

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
