// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/buy/standing_mark.h"

#include "ui/theme/status.h"
#include "ui/theme/theme.h"

#include <QPainter>

#include <algorithm>

namespace ullage {

void draw_standing(QPainter& painter, const QRectF& place, Standing standing, const Theme& theme) {
    switch (standing) {
        case Standing::holds:
            draw_status(painter, place, Level::fits, theme);
            return;
        case Standing::outdone:
            draw_status(painter, place, Level::note, theme);
            return;
        case Standing::too_short:
            draw_status(painter, place, Level::tight, theme);
            return;
        case Standing::recommended:
        case Standing::does_not_go_in:
            break;
    }
    const double side = std::min(place.width(), place.height());
    const double stroke = std::max(1.2, side * 0.105);
    const QPointF c = place.center();
    const auto at = [&](double x, double y) {  // 0…1 in the square
        return QPointF(c.x() + (x - 0.5) * side, c.y() + (y - 0.5) * side);
    };
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    if (standing == Standing::recommended) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(theme.median);
        painter.drawEllipse(c, side * 0.48, side * 0.48);
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(legible(theme.surface, theme.median, 4.5), stroke * 1.3, Qt::SolidLine,
                            Qt::RoundCap, Qt::RoundJoin));
        painter.drawPolyline(QPolygonF{at(0.28, 0.52), at(0.44, 0.68), at(0.73, 0.34)});
    } else {
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(theme.ink, stroke, Qt::SolidLine, Qt::RoundCap));
        painter.drawEllipse(c, side * 0.44, side * 0.44);
        painter.drawLine(at(0.20, 0.80), at(0.80, 0.20));
    }
    painter.restore();
}

}  // namespace ullage
