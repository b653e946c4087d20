// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/drawn_widget.h"

#include "ui/theme/theme.h"

#include <QAccessible>
#include <QAccessibleWidget>
#include <QCoreApplication>
#include <QEvent>
#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>

namespace ullage {
namespace {

QAccessibleInterface* graphic_for(const QString&, QObject* object) {
    auto* drawn = qobject_cast<DrawnWidget*>(object);
    return drawn ? new QAccessibleWidget(drawn, QAccessible::Graphic) : nullptr;
}

}  // namespace

QString state_words(ShownState state) {
    switch (state) {
        case ShownState::updating:
            return QCoreApplication::translate("ullage::State", "Updating…");
        case ShownState::cancelled:
            return QCoreApplication::translate("ullage::State", "Out of date: cancelled");
        case ShownState::failed:
            return QCoreApplication::translate("ullage::State",
                                               "Out of date: the calculation failed");
        case ShownState::nothing:
        case ShownState::ready:
            break;
    }
    return {};
}

bool out_of_date(ShownState state) {
    return state == ShownState::updating || state == ShownState::cancelled ||
           state == ShownState::failed;
}

void hatch(QPainter& painter, const QRectF& place, const QColor& colour, double pitch,
           double width) {
    painter.save();
    painter.setClipRect(place, Qt::IntersectClip);
    painter.setPen(QPen(colour, width));
    // Cut to the place by hand as well: an SVG knows no clipping (Qt 6.4).
    for (double x = place.left() - place.height(); x < place.right(); x += pitch) {
        const double from = std::max(x, place.left());
        const double to = std::min(x + place.height(), place.right());
        if (from < to)
            painter.drawLine(QPointF(from, place.bottom() - (from - x)),
                             QPointF(to, place.bottom() - (to - x)));
    }
    painter.restore();
}

DrawnWidget::DrawnWidget(QWidget* parent) : QWidget(parent) {
    static const bool installed = [] {
        QAccessible::installFactory(graphic_for);
        return true;
    }();
    Q_UNUSED(installed)
    setFocusPolicy(Qt::StrongFocus);
}

QSize DrawnWidget::sizeHint() const {
    const int width = static_cast<int>(44 * QFontMetricsF(font()).height());
    return {width, heightForWidth(width)};
}

QSize DrawnWidget::minimumSizeHint() const {
    const int width = static_cast<int>(20 * QFontMetricsF(font()).height());
    return {width, heightForWidth(std::max(width, this->width()))};
}

void DrawnWidget::setState(ShownState state) {
    if (state == state_) return;
    state_ = state;
    stateChanged();
    update();
}

void DrawnWidget::describe(const QString& name, const QString& description) {
    // QWidget's setters send NameChanged and DescriptionChanged.
    if (name != accessibleName()) setAccessibleName(name);
    if (description != accessibleDescription()) setAccessibleDescription(description);
}

void DrawnWidget::paintTo(QPainter& painter, const QRectF& place, const QPalette& palette,
                          const QFont& font) const {
    const Theme theme = Theme::of(palette);
    painter.save();
    painter.translate(place.topLeft());
    painter.setRenderHint(QPainter::Antialiasing);
    painter.fillRect(QRectF(QPointF(0, 0), place.size()), theme.surface);
    if (out_of_date(state_)) painter.setOpacity(painter.opacity() * stale_opacity);
    drawPicture(painter, place.size(), theme, font);
    painter.restore();
}

void DrawnWidget::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
    paintTo(painter, QRectF(rect()), palette(), font());
    if (hasFocus()) {
        painter.setPen(QPen(Theme::of(palette()).focus, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawRoundedRect(QRectF(rect()).adjusted(1, 1, -1, -1), 4, 4);
    }
}

void DrawnWidget::changeEvent(QEvent* event) {
    switch (event->type()) {
        case QEvent::FontChange:
        case QEvent::StyleChange:
        case QEvent::LayoutDirectionChange:
            updateGeometry();
            [[fallthrough]];
        case QEvent::PaletteChange:
            update();
            break;
        default:
            break;
    }
    QWidget::changeEvent(event);
}

}  // namespace ullage
