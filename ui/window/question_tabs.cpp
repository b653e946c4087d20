// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/question_tabs.h"

#include "ui/theme/theme.h"
#include "ui/window/look.h"

#include <QEvent>
#include <QPainter>

namespace ullage::ui {

namespace {

constexpr int side = 16, above = 9, below = 10, underline = 3;  ///< pixels
constexpr double text_size = 1.08;

QFont fontOf(const QFont& font, bool present) {
    return scaled(font, text_size, present ? QFont::DemiBold : QFont::Normal);
}

}  // namespace

QuestionBar::QuestionBar(QWidget* parent) : QTabBar(parent) {
    setDrawBase(false);
    setExpanding(false);
    setFocusPolicy(Qt::StrongFocus);
    setMouseTracking(true);
}

QSize QuestionBar::tabSizeHint(int index) const {
    const QFontMetrics metrics(fontOf(font(), true));
    return {metrics.horizontalAdvance(tabText(index)) + 2 * side, metrics.height() + above + below};
}

void QuestionBar::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    const Theme theme = Theme::of(palette());
    painter.fillRect(0, height() - 1, width(), 1, theme.rule);
    for (int i = 0; i < count(); ++i) {
        const QRect place = tabRect(i);
        const bool present = i == currentIndex();
        painter.setFont(fontOf(font(), present));
        painter.setPen(present ? palette().color(QPalette::WindowText) : quietColour(palette()));
        painter.drawText(place.adjusted(0, above, 0, -below), Qt::AlignCenter, tabText(i));
        if (present) {
            painter.fillRect(place.left() + side, place.bottom() - underline + 1,
                             place.width() - 2 * side, underline, theme.median);
            if (hasFocus()) {
                painter.setPen(QPen(theme.focus, 2));
                painter.setBrush(Qt::NoBrush);
                painter.drawRoundedRect(QRectF(place).adjusted(6, 4, -6, -underline - 3), 3, 3);
            }
        }
    }
}

void QuestionBar::changeEvent(QEvent* event) {
    QTabBar::changeEvent(event);
    if (event->type() == QEvent::PaletteChange) update();
}

QuestionTabs::QuestionTabs(QWidget* parent) : QTabWidget(parent) {
    setTabBar(new QuestionBar(this));
    setDocumentMode(true);
}

}  // namespace ullage::ui
