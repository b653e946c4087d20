// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/arrive/drill_chart.h"

#include "ui/arrive/outage_text.h"
#include "ui/theme/theme.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

QFont note_font(const QFont& font) { return scaled(font, 0.9); }

}  // namespace

DrillChart::DrillChart(QWidget* parent) : TimeChart(parent) { changed(); }

void DrillChart::take(std::shared_ptr<const OutageDrill> drill, const OutageLimits& limits) {
    const bool other = !drill || !drill_ || drill->send != drill_->send ||
                       drill->from != drill_->from || drill->days != drill_->days;
    drill_ = std::move(drill);
    later_.reset();
    setDays(hasData() ? drill_->daily.front().date : limits.first, limits);
    changed(other);
}

void DrillChart::setDrill(std::shared_ptr<const OutageDrill> drill, const OutageLimits& limits) {
    if (isDragging() && drill) {
        later_ = std::move(drill);
        later_limits_ = limits;
        return;
    }
    take(std::move(drill), limits);
}

void DrillChart::dragEnded() {
    if (later_) take(later_, later_limits_);
}

QString DrillChart::title() const {
    return drill_ ? OutageText::drillTitle(*drill_) : tr("Through an outage");
}

QString DrillChart::summary() const {
    return drill_ ? OutageText::drill(*drill_, prefixes()).join(u' ') : tr("No outage is drawn.");
}

DrillGeometry DrillChart::geometryFor(double width, const QFont& font) const {
    DrillGeometry g;
    const QFont small = note_font(font);
    const QFontMetricsF metrics(font), note(small);
    const double em = metrics.height(), line = note.height();
    if (!hasData()) {
        g.height = em;
        return g;
    }
    double oldest = 1.0 / 60, most = 1;
    for (const OutageDay& day : drill_->daily) {
        oldest = std::max({oldest, day.age_p50_hours, day.age_p95_hours});
        most = std::max({most, day.waiting_p50_bytes, day.waiting_p95_bytes});
    }
    const double ages = std::round(em * 7), waiting = std::round(em * 5);
    g.hour_marks = time_marks(oldest * 1.05, static_cast<int>(ages / (line * 1.4)));
    g.byte_marks =
        even_size_marks(0, most * 1.05, static_cast<int>(waiting / (line * 1.8)), prefixes());
    double marks = 0;
    for (const auto* list : {&g.hour_marks, &g.byte_marks})
        for (const AxisMark& mark : *list)
            marks = std::max(marks, note.horizontalAdvance(mark.text));
    const double left = std::ceil(ring_room + marks + em * 0.5);
    const double right = std::max(left + 60, width - ring_room - em * 0.8);
    double y = ring_room;
    g.ages_name = QRectF(left, y, right - left, line);
    y += 2 * line + 4;  // name, then the words of the outage
    g.ages = QRectF(left, y, right - left, ages);
    y = g.ages.bottom() + em * 0.6;
    g.waiting_name = QRectF(left, y, right - left, line);
    y += line + em * 0.4;
    g.waiting = QRectF(left, y, right - left, waiting);
    g.plot.place = QRectF(g.ages.topLeft(), g.waiting.bottomRight());
    const auto [first, last_day] = daysInSight(allDays());
    g.plot.days = {first, last_day, left, right, false};
    g.hours = {0, oldest * 1.05, g.ages.bottom(), g.ages.top(), false};
    g.bytes = {0, most * 1.05, g.waiting.bottom(), g.waiting.top(), false};
    y = g.waiting.bottom() + em * 0.3 + line + em * 0.5;
    QStringList key{tr("middle forecast"), tr("up to 19 in 20"), tr("line down")};
    if (drill_->chance_of_catching_up > 0) key << tr("catching up, middle forecast");
    g.key = key_row(key, left, width - ring_room, y, em, small);
    g.height = y + g.key.height + ring_room;
    return g;
}

int DrillChart::heightForWidth(int width) const {
    return static_cast<int>(std::ceil(geometryFor(width, font()).height));
}

std::vector<ReadChart::Reading> DrillChart::readings() const {
    std::vector<Reading> all;
    if (!hasData()) return all;
    const DrillGeometry g = geometryFor(width(), font());
    for (std::size_t i = 0; i < drill_->daily.size(); ++i) {
        const OutageDay& day = drill_->daily[i];
        all.push_back(
            {QPointF(g.plot.days.place(static_cast<double>(i) + 0.5), g.hours.map(day.age_p50_hours)),
             OutageText::drillDay(*drill_, day, prefixes())});
    }
    return all;
}

void DrillChart::drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                             const QFont& font) const {
    if (!hasData()) return;
    const DrillGeometry g = geometryFor(size.width(), font);
    const QFont small = note_font(font);
    const QFontMetricsF note(small);
    const auto panel = [&](const QRectF& place, const QRectF& name_place, const QString& name,
                           const Scale& scale, const std::vector<AxisMark>& marks) {
        painter.setFont(scaled(small, 1, QFont::DemiBold));
        painter.setPen(theme.ink);
        painter.drawText(name_place, Qt::AlignLeft | Qt::AlignVCenter, name);
        painter.setFont(small);
        for (const AxisMark& mark : marks) {
            const double y = std::round(scale.map(mark.value)) + 0.5;
            painter.setPen(QPen(mark.value == 0 ? theme.edge : theme.grid, 1));
            painter.drawLine(QPointF(place.left(), y), QPointF(place.right(), y));
            painter.setPen(theme.muted);
            painter.drawText(
                QRectF(0, y - note.height() / 2, place.left() - note.height() * 0.4, note.height()),
                Qt::AlignRight | Qt::AlignVCenter, mark.text);
        }
    };
    // Shaded: from the line's return until it has caught up.
    const double back = dayOf(drill_->from) + drill_->days;
    const QColor shade = mixed(theme.surface, theme.ink, theme.dark ? 0.16 : 0.09);
    if (drill_->chance_of_catching_up > 0) {
        const double x = g.plot.days.map(back);
        const double done = std::min(g.plot.place.right(),
                                     std::max(x + 2, g.plot.days.map(back + drill_->catch_up_days.p50)));
        for (const QRectF& place : {g.ages, g.waiting})
            painter.fillRect(QRectF(x, place.top(), done - x, place.height()), shade);
    }
    panel(g.ages, g.ages_name, tr("How old the newest copy gets in the day"), g.hours,
          g.hour_marks);
    panel(g.waiting, g.waiting_name, tr("What waits at the day's end"), g.bytes, g.byte_marks);
    drawOutage(painter, {g.ages, g.plot.days}, theme, small, true);
    drawOutage(painter, {g.waiting, g.plot.days}, theme, small, false);
    drawCalendar(painter, {g.waiting, g.plot.days}, theme, small);

    const auto series = [&](const Scale& scale, double OutageDay::*middle, double OutageDay::*high,
                            double at) {
        QPolygonF low, top;
        for (std::size_t i = 0; i < drill_->daily.size(); ++i) {
            if (!g.plot.days.holds(static_cast<double>(i) + at)) continue;
            const double x = g.plot.days.map(static_cast<double>(i) + at);
            low << QPointF(x, scale.map(drill_->daily[i].*middle));
            top << QPointF(x, scale.map(drill_->daily[i].*high));
        }
        QPolygonF area = top;
        for (auto i = low.size(); i-- > 0;) area << low[i];
        painter.setPen(Qt::NoPen);
        painter.setBrush(theme.band_outer);
        painter.drawPolygon(area);
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(theme.median, 1.25));
        painter.drawPolyline(top);
        painter.setPen(QPen(theme.median, 2.4, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin));
        painter.drawPolyline(low);
    };
    // The age of a day stands in its middle, what waits at its end.
    series(g.hours, &OutageDay::age_p50_hours, &OutageDay::age_p95_hours, 0.5);
    series(g.bytes, &OutageDay::waiting_p50_bytes, &OutageDay::waiting_p95_bytes, 1);
    draw_key(painter, g.key, theme, small, [&](int entry, const QRectF& r) {
        const double y = r.center().y();
        switch (entry) {
            case 0:
                painter.setPen(QPen(theme.median, 2.4));
                painter.drawLine(QPointF(r.left(), y), QPointF(r.right(), y));
                break;
            case 1:
                painter.fillRect(r, theme.band_outer);
                painter.setPen(QPen(theme.median, 1.25));
                painter.drawLine(r.topLeft(), r.topRight());
                break;
            case 2:
                hatch(painter, r, mixed(theme.surface, theme.full, 0.45), 7, 1.2);
                painter.setPen(QPen(theme.full, 1.6));
                painter.drawLine(r.topLeft(), r.bottomLeft());
                painter.drawLine(r.topRight(), r.bottomRight());
                break;
            default:
                painter.fillRect(r, shade);
        }
    });
}

}  // namespace ullage
