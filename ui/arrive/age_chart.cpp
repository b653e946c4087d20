// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/arrive/age_chart.h"

#include "ui/arrive/outage_text.h"
#include "ui/charts/calendar_ticks.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

QFont note_font(const QFont& font) { return scaled(font, 0.9); }

}  // namespace

AgeChart::AgeChart(QWidget* parent) : TimeChart(parent) {
    connect(this, &ReadChart::entered, this, [this](int index) {
        if (index < 0 || index >= static_cast<int>(send_.copy_age.size())) return;
        const Day from = send_.copy_age[static_cast<std::size_t>(index)].from;
        emit outageWanted(held({from, first_days}, limits()));
    });
    changed();
}

void AgeChart::setSend(const SendOutlook* send, Day as_of, double horizon_days) {
    const bool other = !send || send->name != send_.name;
    has_ = send != nullptr;
    send_ = send ? *send : SendOutlook{};
    horizon_ = std::max(1.0, horizon_days);
    setDays(as_of, {as_of, as_of + std::chrono::days(static_cast<int>(std::ceil(horizon_)) - 1)});
    changed(other);
}

void AgeChart::setDrill(std::shared_ptr<const OutageDrill> drill) {
    drill_ = std::move(drill);
    changed();
}

QString AgeChart::title() const {
    return has_ ? OutageText::ageTitle(send_) : tr("Age of the newest copy");
}

QString AgeChart::summary() const {
    if (!has_) return tr("Nothing computed yet.");
    QString words = OutageText::ageSummary(send_);
    if (outage())
        words += u' ' + tr("An outage is drawn on it: %1 from %2.")
                            .arg(OutageText::block(*outage()), Words::full_date(outage()->from));
    return words;
}

double AgeChart::endOf(std::size_t point) const {
    return point + 1 < send_.copy_age.size() ? dayOf(send_.copy_age[point + 1].from) : horizon_;
}

AgeGeometry AgeChart::geometryFor(double width, const QFont& font) const {
    AgeGeometry g;
    const QFont small = note_font(font);
    const QFontMetricsF metrics(font), note(small);
    const double em = metrics.height();
    if (!hasData()) {
        g.height = em;
        return g;
    }
    double top = 1.0 / 60;
    for (const CopyAgePoint& p : send_.copy_age)
        top = std::max({top, p.p50_hours, p.p95_hours, p.max_hours});
    if (drill_)
        for (const OutageDay& day : drill_->daily) top = std::max(top, day.age_p50_hours);
    const double plot_height = std::round(em * 9);
    g.marks = time_marks(top * 1.05, static_cast<int>(plot_height / (note.height() * 1.5)));
    double marks = 0, labels = 0;
    for (const AxisMark& mark : g.marks) marks = std::max(marks, note.horizontalAdvance(mark.text));
    g.labels = {tr("half of the time"), tr("19 in 20 times"), tr("worst")};
    for (const QString& label : g.labels) labels = std::max(labels, note.horizontalAdvance(label));
    labels = std::ceil(labels) + 2;
    const double left = std::ceil(ring_room + marks + em * 0.5);
    const double right = std::max(left + 60, width - ring_room - labels - em * 0.5);
    const double y = ring_room + note.height() + 2;  // room for the words of the outage
    g.plot.place = QRectF(left, y, right - left, plot_height);
    const auto [first, last_day] = daysInSight(horizon_);
    g.plot.days = {first, last_day, left, right, false};
    g.hours = {0, top * 1.05, g.plot.place.bottom(), g.plot.place.top(), false};
    // Labels stand at what is last in sight.
    std::size_t last_point = send_.copy_age.size() - 1;
    while (last_point > 0 && dayOf(send_.copy_age[last_point].from) >= last_day) --last_point;
    const CopyAgePoint& last = send_.copy_age[last_point];
    const auto centres = pushed_apart(
        {g.hours.map(last.p50_hours), g.hours.map(last.p95_hours), g.hours.map(last.max_hours)},
        note.height(), g.plot.place.top() - note.height() / 2, g.plot.place.bottom());
    for (std::size_t i = 0; i < 3; ++i)
        g.label_places[i] =
            QRectF(right + em * 0.4, centres[i] - note.height() / 2, labels, note.height());
    g.height = g.plot.place.bottom() + em * 0.3 + note.height() + ring_room;
    return g;
}

int AgeChart::heightForWidth(int width) const {
    return static_cast<int>(std::ceil(geometryFor(width, font()).height));
}

std::vector<ReadChart::Reading> AgeChart::readings() const {
    std::vector<Reading> all;
    if (!hasData()) return all;
    const AgeGeometry g = geometryFor(width(), font());
    for (std::size_t i = 0; i < send_.copy_age.size(); ++i) {
        const CopyAgePoint& p = send_.copy_age[i];
        all.push_back(
            {QPointF(g.plot.days.place((dayOf(p.from) + endOf(i)) / 2), g.hours.map(p.p95_hours)),
             OutageText::agePoint(p)});
    }
    return all;
}

void AgeChart::drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                           const QFont& font) const {
    if (!hasData()) return;
    const AgeGeometry g = geometryFor(size.width(), font);
    const QFont small = note_font(font);
    const QFontMetricsF note(small);
    painter.setFont(small);
    for (const AxisMark& mark : g.marks) {
        const double y = std::round(g.hours.map(mark.value)) + 0.5;
        painter.setPen(QPen(theme.grid, 1));
        painter.drawLine(QPointF(g.plot.place.left(), y), QPointF(g.plot.place.right(), y));
        painter.setPen(theme.muted);
        painter.drawText(QRectF(0, y - note.height() / 2, g.plot.place.left() - note.height() * 0.4,
                                note.height()),
                         Qt::AlignRight | Qt::AlignVCenter, mark.text);
    }
    drawCalendar(painter, g.plot, theme, small);
    drawOutage(painter, g.plot, theme, small, true);

    const auto steps = [&](double CopyAgePoint::*value) {
        QPolygonF line;
        for (std::size_t i = 0; i < send_.copy_age.size(); ++i) {
            const double from = dayOf(send_.copy_age[i].from), to = endOf(i);
            if (to <= g.plot.days.from || from >= g.plot.days.to) continue;
            const double y = g.hours.map(send_.copy_age[i].*value);
            line << QPointF(g.plot.days.map(from), y) << QPointF(g.plot.days.map(to), y);
        }
        return line;
    };
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(theme.ink, 1.2, Qt::DotLine));
    painter.drawPolyline(steps(&CopyAgePoint::max_hours));
    painter.setPen(QPen(theme.median, 1.25));
    painter.drawPolyline(steps(&CopyAgePoint::p95_hours));
    painter.setPen(QPen(theme.median, 2.4, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin));
    painter.drawPolyline(steps(&CopyAgePoint::p50_hours));
    if (drill_ && outage()) {
        const bool current = drill_->from == outage()->from && drill_->days == outage()->days;
        QPolygonF climb;
        for (const OutageDay& day : drill_->daily)
            if (g.plot.days.holds(dayOf(day.date) + 0.5)) climb << QPointF(g.plot.days.place(dayOf(day.date) + 0.5),
                             g.hours.map(day.age_p50_hours));
        painter.setPen(QPen(current ? theme.full : mixed(theme.surface, theme.full, 0.45), 2,
                            Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin));
        painter.drawPolyline(climb);
    }
    painter.setFont(small);
    for (std::size_t i = 0; i < 3; ++i) {
        painter.setPen(i < 2 ? theme.median : theme.ink);
        painter.drawText(g.label_places[i], Qt::AlignLeft | Qt::AlignVCenter, g.labels[i]);
    }
}

}  // namespace ullage
