// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/status.h"

#include <QCoreApplication>
#include <QPainter>
#include <QPainterPath>
#include <QPixmap>

#include <algorithm>

namespace ullage {

QString status_word(Level level) {
    switch (level) {
        case Level::fits:
            return QCoreApplication::translate("ullage::Status", "Fits");
        case Level::tight:
            return QCoreApplication::translate("ullage::Status", "Tight");
        case Level::overruns:
            return QCoreApplication::translate("ullage::Status", "Overruns");
        case Level::note:
            break;
    }
    return QCoreApplication::translate("ullage::Status", "Note");
}

QColor status_ink(Level level, const Theme& theme) {
    return level == Level::overruns ? theme.full : theme.ink;
}

void draw_status(QPainter& painter, const QRectF& place, Level level, const Theme& theme) {
    const double side = std::min(place.width(), place.height());
    const QPointF c = place.center();
    const auto at = [&](double x, double y) {  // 0…1 in the square
        return QPointF(c.x() + (x - 0.5) * side, c.y() + (y - 0.5) * side);
    };
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const double stroke = std::max(1.2, side * 0.105);
    QPen pen(theme.ink, stroke, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin);
    painter.setPen(pen);
    painter.setBrush(Qt::NoBrush);
    switch (level) {
        case Level::fits: {
            painter.drawEllipse(c, side * 0.44, side * 0.44);
            QPainterPath tick(at(0.30, 0.52));
            tick.lineTo(at(0.45, 0.67));
            tick.lineTo(at(0.71, 0.36));
            painter.drawPath(tick);
            break;
        }
        case Level::tight: {
            QPainterPath triangle(at(0.5, 0.09));
            triangle.lineTo(at(0.95, 0.90));
            triangle.lineTo(at(0.05, 0.90));
            triangle.closeSubpath();
            painter.drawPath(triangle);
            painter.drawLine(at(0.34, 0.70), at(0.66, 0.70));
            break;
        }
        case Level::overruns: {
            QPainterPath square;
            square.addRoundedRect(QRectF(at(0.05, 0.05), at(0.95, 0.95)), side * 0.14, side * 0.14);
            painter.fillPath(square, theme.full);
            pen.setColor(theme.on_full);
            pen.setWidthF(stroke * 1.2);
            painter.setPen(pen);
            painter.drawLine(at(0.5, 0.74), at(0.5, 0.28));
            QPainterPath head(at(0.30, 0.47));
            head.lineTo(at(0.5, 0.26));
            head.lineTo(at(0.70, 0.47));
            painter.drawPath(head);
            break;
        }
        case Level::note: {
            pen.setColor(theme.muted);
            painter.setPen(pen);
            painter.drawEllipse(c, side * 0.36, side * 0.36);
            painter.setPen(Qt::NoPen);
            painter.setBrush(theme.muted);
            painter.drawEllipse(c, side * 0.12, side * 0.12);
            break;
        }
    }
    painter.restore();
}

QIcon status_icon(Level level, const Theme& theme, int size) {
    QIcon icon;
    for (const int scale : {1, 2, 3}) {
        QPixmap pixmap(size * scale, size * scale);
        pixmap.setDevicePixelRatio(scale);
        pixmap.fill(Qt::transparent);
        QPainter painter(&pixmap);
        draw_status(painter, QRectF(0.5, 0.5, size - 1.0, size - 1.0), level, theme);
        painter.end();
        icon.addPixmap(pixmap);
    }
    return icon;
}

}  // namespace ullage
