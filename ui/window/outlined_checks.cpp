// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/outlined_checks.h"

#include "ui/theme/theme.h"

#include <QPainter>
#include <QStyleOption>

namespace ullage::ui {

namespace {

constexpr double outline_ratio = 3;

}  // namespace

void OutlinedChecks::drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                                   const QWidget* widget) const {
    QProxyStyle::drawPrimitive(element, option, painter, widget);
    const bool focused = option->state & State_HasFocus && option->state & State_KeyboardFocusChange;
    // Other styles draw theirs to be seen; this one's shape is known.
    if (element != PE_IndicatorCheckBox || focused || baseStyle()->name() != QLatin1String("fusion")) return;
    const QPalette& colours = option->palette;
    const QColor ground = colours.color(QPalette::Base);
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing, false);
    painter->setBrush(Qt::NoBrush);
    painter->setPen(legible(mixed(ground, colours.color(QPalette::WindowText), 0.4), ground, outline_ratio));
    painter->drawRect(option->rect.adjusted(0, 0, -1, -1));
    painter->restore();
}

}  // namespace ullage::ui
