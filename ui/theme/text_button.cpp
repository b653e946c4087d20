// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/text_button.h"

#include "ui/theme/drawn_widget.h"
#include "ui/theme/theme.h"

#include <QPainter>

#include <algorithm>

namespace ullage {
namespace {

constexpr int side = static_cast<int>(ring_room), above = 4;  // pixels
constexpr int least_height = 24;                              // WCAG 2.2, 2.5.8
constexpr int wrapping = Qt::TextWordWrap | Qt::AlignLeft | Qt::AlignTop;

}  // namespace

TextButton::TextButton(QWidget* parent) : DrawnButton(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setAttribute(Qt::WA_Hover);
    setCursor(Qt::PointingHandCursor);
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Preferred);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
}

QRect TextButton::textPlace(int width) const {
    const int arrow = fontMetrics().height();
    return fontMetrics().boundingRect(
        QRect(side, above, std::max(1, width - 2 * side - arrow), 1 << 14), wrapping, text());
}

int TextButton::heightForWidth(int width) const {
    return std::max(least_height, textPlace(width).height() + 2 * above);
}

QSize TextButton::sizeHint() const {
    const int width = 30 * fontMetrics().height();
    return {width, heightForWidth(width)};
}

QSize TextButton::minimumSizeHint() const {
    const int width = 12 * fontMetrics().height();
    return {width, heightForWidth(std::max(width, this->width()))};
}

void TextButton::paintEvent(QPaintEvent*) {
    const Theme theme = Theme::of(palette());
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);
    QFont font = this->font();
    font.setUnderline(underMouse() || isDown());
    painter.setFont(font);
    painter.setPen(theme.ink);
    const QRect place = textPlace(width());
    painter.drawText(QRect(place.topLeft(), QSize(width() - place.left(), place.height()))
                         .adjusted(0, 0, -side - fontMetrics().height(), 0),
                     wrapping, text());
    // The arrowhead stands beside the first line.
    const double size = fontMetrics().height() * 0.22;
    const QPointF tip(width() - side - size, above + fontMetrics().height() / 2.0);
    painter.setPen(QPen(theme.median, 1.8, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.drawPolyline(QPolygonF{tip + QPointF(-size, -size), tip, tip + QPointF(-size, size)});
    if (!hasFocus()) return;
    painter.setPen(QPen(theme.focus, 2));
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 4, 4);
}

}  // namespace ullage
