// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/gauge/gauge_card.h"

#include "ui/theme/status.h"
#include "ui/theme/theme.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

QFont headline_font(const QFont& font) { return scaled(font, 1.3, QFont::DemiBold); }
QFont name_font(const QFont& font) { return scaled(font, 1.0, QFont::DemiBold); }
QFont small_font(const QFont& font) { return scaled(font, 0.92); }

}  // namespace

GaugeCard::GaugeCard(QWidget* parent) : DrawnButton(parent), text_(GaugeText::waiting()) {
    setCheckable(true);
    setAutoExclusive(true);
    beCard();
}

void GaugeCard::setBox(const BoxOutlook* box, double horizon_days, Day as_of, Level status) {
    status_ = status;
    if (!box) {
        text_ = GaugeText::waiting(text_.name);
        numbers_ = {};
    } else {
        text_ = GaugeText::of(*box, horizon_days, as_of, status);
        numbers_ = GaugeNumbers::of(*box, horizon_days);
    }
    tell();
}

void GaugeCard::setKept(const QString& headline) {
    if (headline == kept_) return;
    kept_ = headline;
    tell();
}

void GaugeCard::tell() {
    QString words = text_.description();
    if (!kept_.isEmpty()) words += u' ' + kept_ + u'.';
    setAccessibleName(text_.name.isEmpty() ? tr("Box") : text_.name);
    setAccessibleDescription(words);
    setToolTip(text_.name.isEmpty() ? words : text_.name + QStringLiteral("\n") + words);
    updateGeometry();
    update();
}

void GaugeCard::setState(ShownState state) {
    if (state == state_) return;
    state_ = state;
    update();
}

int GaugeCard::leastWidth(const QFont& font) {
    return static_cast<int>(std::ceil(QFontMetricsF(headline_font(font)).averageCharWidth() * 17 +
                                      QFontMetricsF(font).height() * 1.4));
}

QString GaugeCard::whenWords() const {
    return text_.status.isEmpty()
               ? text_.short_when
               : tr("%1, %2", "status, date").arg(text_.status, text_.short_when);
}

CardGeometry GaugeCard::geometryFor(double width) const {
    CardGeometry g;
    const QFontMetricsF metrics(font()), name(name_font(font()));
    const double em = metrics.height();
    const double pad = std::round(em * 0.7);
    const double inner = std::max(1.0, width - 2 * pad);
    double y = pad;
    const double side = std::round(name.ascent() * 1.1);
    g.shape = QRectF(pad, y + (name.height() - side) / 2, side, side);
    const double name_width = std::max(1.0, inner - side - em * 0.45);
    const double name_height =
        std::max(name.height(), wrapped_height(text_.name, name_width, name_font(font())));
    g.name = QRectF(pad + side + em * 0.45, y, name_width, name_height);
    y += name_height + em * 0.25;
    const double head = wrapped_height(text_.headline, inner, headline_font(font()));
    g.headline = QRectF(pad, y, inner, head);
    y += head;
    const double when = wrapped_height(whenWords(), inner, small_font(font()));
    g.when = QRectF(pad, y, inner, when);
    y += when;
    if (!kept_.isEmpty()) {
        const double kept = wrapped_height(kept_, inner, small_font(font()));
        g.kept = QRectF(pad, y + em * 0.15, inner, kept);
        y = g.kept.bottom();
    }
    y += em * 0.55;
    g.bar_place = QRectF(pad, y, inner, std::round(em * 0.6));
    g.track = {g.bar_place.left(), g.bar_place.right(), std::max(1.0, numbers_.horizon_days)};
    if (numbers_.ceiling.p10) g.p10 = g.track.x(*numbers_.ceiling.p10);
    if (numbers_.ceiling.p50) g.p50 = g.track.x(*numbers_.ceiling.p50);
    if (numbers_.ceiling.p90) g.p90 = g.track.x(*numbers_.ceiling.p90);
    g.height = g.bar_place.bottom() + pad;
    return g;
}

QSize GaugeCard::sizeHint() const {
    const int width = std::max(leastWidth(font()), this->width());
    return {leastWidth(font()), static_cast<int>(std::ceil(geometryFor(width).height))};
}

int GaugeCard::heightForWidth(int width) const {
    return static_cast<int>(std::ceil(geometryFor(width).height));
}

QSize GaugeCard::minimumSizeHint() const {
    // Narrower than its headline's longest word a card cannot be read.
    return {leastWidth(font()),
            static_cast<int>(std::ceil(geometryFor(leastWidth(font())).height))};
}

void GaugeCard::paintEvent(QPaintEvent*) {
    const Theme theme = Theme::of(palette());
    const CardGeometry g = geometryFor(width());
    QPainter painter(this);
    painter.setRenderHint(QPainter::Antialiasing);

    drawCard(painter, theme);

    const bool stale = out_of_date(state_);
    if (stale) painter.setOpacity(stale_opacity);
    if (!text_.status.isEmpty()) draw_status(painter, g.shape, status_, theme);
    painter.setPen(theme.ink);
    painter.setFont(name_font(font()));
    painter.drawText(g.name, Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, text_.name);
    painter.setFont(headline_font(font()));
    painter.drawText(g.headline, Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, text_.headline);
    painter.setFont(small_font(font()));
    painter.setPen(theme.muted);
    painter.drawText(g.when, Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, whenWords());

    painter.setPen(theme.ink);
    painter.drawText(g.kept, Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap, kept_);

    // The track, the bar from 1 in 10 to 9 in 10, the middle.
    const double y = g.bar_place.center().y();
    painter.setPen(QPen(theme.edge, 1));
    painter.drawLine(QPointF(g.bar_place.left(), std::floor(y) + 0.5),
                     QPointF(g.bar_place.right(), std::floor(y) + 0.5));
    painter.drawLine(QPointF(g.bar_place.left() + 0.5, y - 3),
                     QPointF(g.bar_place.left() + 0.5, y + 3));
    painter.drawLine(QPointF(g.bar_place.right() - 0.5, y - 3),
                     QPointF(g.bar_place.right() - 0.5, y + 3));
    if (text_.ceiling_passed || text_.full_passed) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(theme.full);
        painter.drawRect(QRectF(g.bar_place.left(), y - 4, 5, 8));
    } else if (g.p10) {
        const double end = std::max(*g.p10 + 3, g.p90.value_or(g.bar_place.right()));
        painter.setPen(Qt::NoPen);
        painter.setBrush(mixed(theme.surface, theme.median, 0.55));
        painter.drawRoundedRect(QRectF(*g.p10, y - 3, end - *g.p10, 6), 2, 2);
        if (g.p50) {
            painter.setBrush(theme.ink);
            painter.drawRect(QRectF(*g.p50 - 1.5, g.bar_place.top(), 3, g.bar_place.height()));
        }
    }
}

}  // namespace ullage
