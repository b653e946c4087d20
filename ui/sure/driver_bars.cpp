// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sure/driver_bars.h"

#include "ui/sure/sure_text.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

QFont note_font(const QFont& font) { return scaled(font, 0.9); }

QString range_words(const DriverRow& row) {
    return DriverBars::tr("%1 · %2 of the spread", "days, share").arg(row.range, row.share);
}

}  // namespace

DriverBars::DriverBars(QWidget* parent) : ReadChart(parent) { changed(); }

void DriverBars::setBox(const BoxOutlook* box, std::vector<Driver> drivers, double horizon_days) {
    const bool other = !box || box->name != box_.name;
    has_ = box != nullptr;
    box_ = box ? *box : BoxOutlook{};
    drivers_ = has_ ? std::move(drivers) : std::vector<Driver>{};
    horizon_ = std::max(1.0, horizon_days);
    changed(other);
}

QString DriverBars::title() const {
    return has_ ? SureText::driversTitle(box_, drivers_) : tr("What the day depends on");
}

QString DriverBars::summary() const {
    return has_ ? SureText::driversSummary(box_, drivers_, horizon_) : tr("Nothing computed yet.");
}

DriversGeometry DriverBars::geometryFor(double width, const QFont& font) const {
    DriversGeometry g;
    const QFont small = note_font(font);
    const QFontMetricsF metrics(font), note(small);
    const double em = metrics.height();
    if (!hasData()) {
        g.height = em;
        return g;
    }
    const double left = ring_room;
    const double right = std::max(left + 40, width - ring_room - em * 1.2);
    // The whole horizon only where something lies beyond it; else what is needed and a little more.
    double longest = 0;
    bool later = !box_.days_until_ceiling.p50;
    if (box_.days_until_ceiling.p50) longest = *box_.days_until_ceiling.p50;
    for (const Driver& d : drivers_) {
        later = later || !d.low_days || !d.high_days;
        longest = std::max({longest, d.low_days.value_or(0), d.high_days.value_or(0)});
    }
    // The first label is centred on today and stays within.
    const double today = left + std::ceil(note.horizontalAdvance(GaugeText::tr("now")) / 2);
    g.track = {today, right, later ? std::max(horizon_, longest) : std::max(7.0, longest * 1.08)};

    double y = ring_room;
    g.middle_words = box_.days_until_ceiling.p50
                         ? tr("middle forecast: %1").arg(Words::span(*box_.days_until_ceiling.p50))
                         : tr("middle forecast: not within %1").arg(Words::horizon(horizon_));
    const double words = std::ceil(note.horizontalAdvance(g.middle_words)) + 1;
    if (box_.days_until_ceiling.p50) g.middle = g.track.x(*box_.days_until_ceiling.p50);
    const double x = g.middle ? std::clamp(*g.middle - words / 2, ring_room,
                                           std::max(ring_room, width - ring_room - words))
                              : std::max(ring_room, right - words);
    g.middle_place = QRectF(x, y, words, note.height());
    y += note.height() + em * 0.3;
    const double top = y;

    for (const Driver& d : drivers_) {
        DriverRow row;
        row.name = Words::sentence(Words::said(d.input));
        row.range = SureText::driverRange(d, horizon_);
        row.share = Words::percent(d.variance_share);
        const double name = std::ceil(metrics.horizontalAdvance(row.name)) + 1;
        const double range = std::ceil(note.horizontalAdvance(range_words(row))) + 1;
        const double row_top = y;
        y += em * 0.35;
        if (name + em + range <= right - left) {
            row.name_place = QRectF(left, y, name, em);
            row.range_place = QRectF(right - range, y, range, em);
            y += em;
        } else {
            const double h = std::max(em, wrapped_height(row.name, right - left, font));
            row.name_place = QRectF(left, y, right - left, h);
            const double r = wrapped_height(range_words(row), right - left, small);
            row.range_place = QRectF(left, y + h, right - left, r);
            y += h + r;
        }
        if (d.low_days) row.low = g.track.x(*d.low_days);
        if (d.high_days) row.high = g.track.x(*d.high_days);
        row.later = row.low.has_value() != row.high.has_value();
        y += em * 0.2;
        if (row.low || row.high) {
            const double a = row.low.value_or(right), b = row.high.value_or(right);
            row.bar = QRectF(std::min(a, b), y, std::abs(a - b), std::round(em * 0.62));
        } else {
            row.bar = QRectF(right, y, 0, std::round(em * 0.62));
        }
        y = row.bar.bottom() + em * 0.35;
        row.place = QRectF(ring_room, row_top, width - 2 * ring_room, y - row_top);
        g.rows.push_back(row);
    }
    g.rows_place = QRectF(left, top, right - left, y - top);
    g.ticks = track_ticks(g.track, y + em * 0.25, small);
    y += em * 0.25 + note.height() + em * 0.4;
    QStringList key{tr("with the input at its low value"), tr("at its high value")};
    if (std::any_of(g.rows.begin(), g.rows.end(), [](const DriverRow& r) { return r.later; }))
        key << tr("not within %1").arg(Words::horizon(horizon_));
    g.key = key_row(key, left, width - ring_room, y, em, small);
    g.height = y + g.key.height + ring_room;
    return g;
}

int DriverBars::heightForWidth(int width) const {
    return static_cast<int>(std::ceil(geometryFor(width, font()).height));
}

std::vector<ReadChart::Reading> DriverBars::readings() const {
    std::vector<Reading> all;
    if (!hasData()) return all;
    const DriversGeometry g = geometryFor(width(), font());
    for (std::size_t i = 0; i < g.rows.size(); ++i)
        all.push_back({g.rows[i].bar.center(), SureText::driver(drivers_[i], horizon_)});
    return all;
}

int DriverBars::nearest(const QPointF& point) const {
    const DriversGeometry g = geometryFor(width(), font());
    for (std::size_t i = 0; i < g.rows.size(); ++i)
        if (g.rows[i].place.contains(point)) return static_cast<int>(i);
    return -1;
}

void DriverBars::drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                             const QFont& font) const {
    if (!hasData()) return;
    const DriversGeometry g = geometryFor(size.width(), font);
    const QFont small = note_font(font);
    const double em = QFontMetricsF(font).height();

    painter.setFont(small);
    const double ground = std::round(g.rows_place.bottom()) + 0.5;
    for (const TrackTick& tick : g.ticks) {
        const double x = std::round(tick.x) + 0.5;
        painter.setPen(QPen(theme.grid, 1));
        for (const DriverRow& row : g.rows)
            painter.drawLine(QPointF(x, row.bar.top() - em * 0.1),
                             QPointF(x, row.bar.bottom() + em * 0.1));
        painter.setPen(QPen(theme.edge, 1));
        painter.drawLine(QPointF(x, ground), QPointF(x, ground + em * 0.2));
        painter.setPen(theme.muted);
        painter.drawText(tick.label, Qt::AlignCenter, tick.text);
    }
    painter.setPen(QPen(theme.edge, 1));
    painter.drawLine(QPointF(g.track.left, ground), QPointF(g.track.right, ground));

    const double radius = std::max(3.0, em * 0.26);
    const auto end = [&](const QPointF& at, bool high) {
        painter.setPen(QPen(theme.ink, 1.6));
        painter.setBrush(high ? theme.ink : theme.surface);
        painter.drawEllipse(at, radius, radius);
    };
    const auto arrow = [&](const QPointF& tip) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(theme.median);
        painter.drawPolygon(QPolygonF{tip + QPointF(0, -em * 0.42), tip + QPointF(em * 0.6, 0),
                                      tip + QPointF(0, em * 0.42)});
    };
    for (const DriverRow& row : g.rows) {
        painter.setFont(font);
        painter.setPen(theme.ink);
        painter.drawText(row.name_place, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextWordWrap,
                         row.name);
        painter.setFont(small);
        painter.setPen(theme.muted);
        painter.drawText(row.range_place, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextWordWrap,
                         range_words(row));
        if (!row.low && !row.high) {
            arrow(row.bar.center());
            continue;
        }
        painter.setPen(Qt::NoPen);
        painter.setBrush(mixed(theme.surface, theme.median, 0.55));
        painter.drawRect(row.bar);
        if (row.later) arrow(QPointF(row.bar.right(), row.bar.center().y()));
    }
    // The middle runs behind the ends of the bars and breaks at the texts, which it would strike
    // through.
    if (g.middle) {
        const double x = std::round(*g.middle) + 0.5;
        painter.setPen(QPen(theme.ink, 2, Qt::SolidLine, Qt::FlatCap));
        for (const DriverRow& row : g.rows)
            painter.drawLine(QPointF(x, row.bar.top() - em * 0.16),
                             QPointF(x, row.bar.bottom() + em * 0.16));
        painter.setPen(QPen(theme.edge, 1));
        painter.drawLine(QPointF(x, g.middle_place.bottom()),
                         QPointF(x, g.rows_place.top() + em * 0.3));
    }
    painter.setFont(small);
    painter.setPen(theme.ink);
    painter.drawText(g.middle_place, Qt::AlignCenter, g.middle_words);
    for (const DriverRow& row : g.rows) {
        if (row.low) end(QPointF(*row.low, row.bar.center().y()), false);
        if (row.high) end(QPointF(*row.high, row.bar.center().y()), true);
    }
    draw_key(painter, g.key, theme, small, [&](int entry, const QRectF& r) {
        if (entry < 2)
            end(r.center(), entry == 1);
        else
            arrow(r.center() - QPointF(em * 0.3, 0));
    });
}

}  // namespace ullage
