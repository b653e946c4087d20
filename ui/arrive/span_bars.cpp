// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/arrive/span_bars.h"

#include "ui/arrive/time_chart.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

constexpr double least_part = 2;  // pixels: what is short is still seen

QFont note_font(const QFont& font) { return scaled(font, 0.9); }

std::vector<AxisMark> share_marks(double top) {
    std::vector<AxisMark> marks;
    const double step = top <= 1.3 ? 0.25 : top <= 2.6 ? 0.5 : std::ceil(top / 5);
    for (int n = 0; n * step <= top * (1 + 1e-9); ++n)
        marks.push_back({n * step, Words::percent(n * step, 3)});
    return marks;
}

}  // namespace

SpanBars::SpanBars(QWidget* parent) : ReadChart(parent) { changed(); }

void SpanBars::setPicture(SpanPicture picture, bool other) {
    picture_ = std::move(picture);
    changed(other);
}

QString SpanBars::summary() const {
    QStringList words;
    if (!picture_.summary.isEmpty()) words << picture_.summary;
    for (const SpanRow& row : picture_.rows) words << row.words;
    return words.isEmpty() ? tr("Nothing computed yet.") : words.join(u' ');
}

SpanGeometry SpanBars::geometryFor(double width, const QFont& font) const {
    SpanGeometry g;
    const QFont small = note_font(font), bold = scaled(font, 1, QFont::DemiBold);
    const QFontMetricsF metrics(font), strong(bold), note(small);
    const double em = metrics.height(), line = note.height();
    if (!hasData()) {
        g.height = em;
        return g;
    }
    double top = picture_.line.value_or(0);
    for (const SpanRow& row : picture_.rows)
        for (const SpanPart& part : row.parts)
            if (std::isfinite(part.to)) top = std::max(top, part.to);
    if (top <= 0) top = 1;
    const double left = ring_room, right = std::max(left + 60, width - ring_room - em * 1.4);
    g.scale = {0, top * 1.02, left, right, false};
    const auto most = static_cast<int>(std::max(2.0, (right - left) / (em * 5)));
    g.marks = picture_.axis == SpanPicture::Axis::share ? share_marks(g.scale.to)
                                                        : time_marks(g.scale.to, most);
    double y = ring_room;
    const double row_top = y;
    for (const SpanRow& row : picture_.rows) {
        SpanGeometry::Row r;
        const double begin = y;
        y += em * 0.25;
        const QFont& name_font = row.strong ? bold : font;
        const double name =
            std::ceil((row.strong ? strong : metrics).horizontalAdvance(row.name)) + 1;
        const double figures = std::ceil(note.horizontalAdvance(row.figures)) + 1;
        const double end = width - ring_room;
        if (name + em + figures <= end - left) {
            r.name = QRectF(left, y, name, em);
            r.figures = QRectF(end - figures, y, figures, em);
            y += em;
        } else {
            const double h = std::max(em, wrapped_height(row.name, end - left, name_font));
            r.name = QRectF(left, y, end - left, h);
            const double f = wrapped_height(row.figures, end - left, small);
            r.figures = QRectF(left, y + h, end - left, f);
            y += h + f;
        }
        y += em * 0.15;
        const double h = std::round(em * 0.7);
        double last = left;
        for (const SpanPart& part : row.parts) {
            const double a = g.scale.map(part.from), b = g.scale.map(part.to);
            r.parts.emplace_back(a, y, part.to > part.from ? std::max(least_part, b - a) : 0, h);
            last = std::max(last, r.parts.back().right());
        }
        if (row.goes_on) last = right;
        r.bar = QRectF(left, y, std::max(least_part, last - left), h);
        y += h + em * 0.3;
        r.place = QRectF(ring_room, begin, width - 2 * ring_room, y - begin);
        g.rows.push_back(r);
    }
    g.rows_place = QRectF(left, row_top, right - left, y - row_top);
    y += em * 0.25 + line + em * 0.4;
    QStringList key;
    for (const auto& [style, text] : picture_.key) key << text;
    g.key = key_row(key, left, width - ring_room, y, em, small);
    g.height = (key.isEmpty() ? y : y + g.key.height) + ring_room;
    return g;
}

int SpanBars::heightForWidth(int width) const {
    return static_cast<int>(std::ceil(geometryFor(width, font()).height));
}

std::vector<ReadChart::Reading> SpanBars::readings() const {
    std::vector<Reading> all;
    const SpanGeometry g = geometryFor(width(), font());
    for (std::size_t i = 0; i < g.rows.size(); ++i)
        all.push_back(
            {QPointF(g.rows[i].bar.right(), g.rows[i].bar.center().y()), picture_.rows[i].words});
    return all;
}

int SpanBars::nearest(const QPointF& point) const {
    const SpanGeometry g = geometryFor(width(), font());
    for (std::size_t i = 0; i < g.rows.size(); ++i)
        if (g.rows[i].place.contains(point)) return static_cast<int>(i);
    return -1;
}

void SpanBars::drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                           const QFont& font) const {
    if (!hasData()) return;
    const SpanGeometry g = geometryFor(size.width(), font);
    const QFont small = note_font(font);
    const QFontMetricsF note(small);
    const double em = QFontMetricsF(font).height();
    const auto part = [&](const QRectF& place, PartStyle style) {
        painter.setPen(Qt::NoPen);
        switch (style) {
            case PartStyle::solid:
                painter.setBrush(theme.median);
                painter.drawRect(place);
                break;
            case PartStyle::pale: {
                const double h = place.height() * 0.45;
                painter.setBrush(mixed(theme.surface, theme.median, 0.55));
                painter.drawRect(
                    QRectF(place.left(), place.center().y() - h / 2, place.width(), h));
                painter.setPen(QPen(theme.median, 2, Qt::SolidLine, Qt::FlatCap));
                painter.drawLine(place.topRight(), place.bottomRight());
                break;
            }
            case PartStyle::outline:
                painter.setBrush(Qt::NoBrush);
                painter.setPen(QPen(theme.median, 1.4));
                painter.drawRect(place.adjusted(0.7, 0.7, -0.7, -0.7));
                break;
            case PartStyle::hatched:
                hatch(painter, place, theme.median, 5);
                painter.setBrush(Qt::NoBrush);
                painter.setPen(QPen(theme.median, 1.2));
                painter.drawRect(place.adjusted(0.6, 0.6, -0.6, -0.6));
                break;
        }
    };
    painter.setFont(small);
    const double ground = std::round(g.rows_place.bottom()) + 0.5;
    double free_from = 0;
    for (const AxisMark& mark : g.marks) {
        const double x = std::round(g.scale.map(mark.value)) + 0.5;
        painter.setPen(QPen(theme.grid, 1));
        for (const auto& row : g.rows)
            painter.drawLine(QPointF(x, row.bar.top() - em * 0.1),
                             QPointF(x, row.bar.bottom() + em * 0.1));
        painter.setPen(QPen(theme.edge, 1));
        painter.drawLine(QPointF(x, ground), QPointF(x, ground + em * 0.2));
        const double w = note.horizontalAdvance(mark.text) + 2;
        const double at = std::clamp(x - w / 2, ring_room, size.width() - ring_room - w);
        if (at < free_from) continue;
        free_from = at + w + em * 0.3;
        painter.setPen(theme.muted);
        painter.drawText(QRectF(at, ground + em * 0.25, w, note.height()), Qt::AlignCenter,
                         mark.text);
    }
    painter.setPen(QPen(theme.edge, 1));
    painter.drawLine(QPointF(g.scale.start, ground), QPointF(g.scale.end, ground));
    for (std::size_t i = 0; i < g.rows.size(); ++i) {
        const SpanRow& row = picture_.rows[i];
        const auto& r = g.rows[i];
        painter.setFont(row.strong ? scaled(font, 1, QFont::DemiBold) : font);
        painter.setPen(theme.ink);
        painter.drawText(r.name, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextWordWrap, row.name);
        painter.setFont(small);
        painter.setPen(theme.muted);
        painter.drawText(r.figures, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextWordWrap,
                         row.figures);
        for (std::size_t k = 0; k < r.parts.size(); ++k)
            if (r.parts[k].width() > 0) part(r.parts[k], row.parts[k].style);
        if (row.goes_on) {
            double from = r.bar.left();
            for (const QRectF& each : r.parts) from = std::max(from, each.right());
            const double y = r.bar.center().y();
            painter.setPen(QPen(theme.median, 2, Qt::DashLine));
            painter.drawLine(QPointF(from, y), QPointF(r.bar.right(), y));
            painter.setPen(Qt::NoPen);
            painter.setBrush(theme.median);
            const QPointF tip(r.bar.right(), y);
            painter.drawPolygon(QPolygonF{tip + QPointF(0, -em * 0.42), tip + QPointF(em * 0.6, 0),
                                          tip + QPointF(0, em * 0.42)});
        }
        if (picture_.line) {
            const double x = std::round(g.scale.map(*picture_.line)) + 0.5;
            painter.setPen(QPen(theme.ink, 2, Qt::SolidLine, Qt::FlatCap));
            painter.drawLine(QPointF(x, r.bar.top() - em * 0.14),
                             QPointF(x, r.bar.bottom() + em * 0.14));
        }
    }
    draw_key(painter, g.key, theme, small, [&](int entry, const QRectF& r) {
        part(r, picture_.key[static_cast<std::size_t>(entry)].first);
    });
}

}  // namespace ullage
