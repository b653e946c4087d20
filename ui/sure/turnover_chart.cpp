// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sure/turnover_chart.h"

#include "ui/charts/calendar_ticks.h"
#include "ui/sure/sure_text.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <QFontMetricsF>
#include <QPainter>
#include <QPainterPath>

#include <algorithm>
#include <cmath>
#include <utility>

namespace ullage {
namespace {

constexpr double shortest_days = 1.0 / 24, longest_days = 5 * days_per_year;
constexpr double most_factors = 1e6;  // sizes below the highest ÷ this lie on the lower edge
constexpr double leader_length = 12;
constexpr double least_plot = 40;  // pixels

QFont note_font(const QFont& font) { return scaled(font, 0.9); }

bool drawable(double bytes) { return std::isfinite(bytes) && bytes > 0; }

enum class Sign { spread, once, unmeasured };

std::vector<std::pair<Sign, QString>> key_of(const DatasetOutlook& d) {
    std::vector<std::pair<Sign, QString>> key;
    const auto once = [](const MeasuredStep& s) { return s.steps <= 1; };
    const auto& steps = d.measured_steps;
    if (!std::all_of(steps.begin(), steps.end(), once))
        key.emplace_back(Sign::spread, TurnoverChart::tr("measured mean, 8 in 10 steps within"));
    if (std::any_of(steps.begin(), steps.end(), once))
        key.emplace_back(Sign::once, TurnoverChart::tr("measured once"));
    if (!d.curve_band.empty())
        key.emplace_back(Sign::unmeasured, d.measured
                                               ? TurnoverChart::tr("not measured: extrapolated")
                                               : TurnoverChart::tr("not measured: assumed"));
    return key;
}

}  // namespace

TurnoverChart::TurnoverChart(QWidget* parent) : ReadChart(parent) { changed(); }

void TurnoverChart::setDataset(const DatasetOutlook* dataset) {
    const bool other = !dataset || dataset->name != dataset_.name;
    has_ = dataset != nullptr;
    dataset_ = dataset ? *dataset : DatasetOutlook{};
    changed(other);
}

bool TurnoverChart::hasData() const {
    return has_ && (!dataset_.curve_band.empty() || !dataset_.measured_steps.empty());
}

QString TurnoverChart::title() const {
    return has_ ? SureText::turnoverTitle(dataset_, prefixes()) : tr("Turnover curve");
}

QString TurnoverChart::summary() const {
    return has_ ? SureText::turnoverSummary(dataset_, prefixes()) : tr("Nothing computed yet.");
}

TurnoverGeometry TurnoverChart::geometryFor(double width, const QFont& font) const {
    TurnoverGeometry g;
    const QFontMetricsF note(note_font(font));
    const double em = QFontMetricsF(font).height(), line = note.height();

    Scale days{shortest_days, longest_days, 0, 1, true};
    double top = 0, bottom = 0;
    const auto reach = [&](double gap, std::initializer_list<double> values) {
        if (drawable(gap)) {
            days.from = std::min(days.from, gap);
            days.to = std::max(days.to, gap);
        }
        for (const double v : values)
            if (drawable(v)) {
                top = std::max(top, v);
                bottom = bottom > 0 ? std::min(bottom, v) : v;
            }
    };
    for (const CurveBand& p : dataset_.curve_band) reach(p.gap_days, {p.p10, p.p50, p.p90});
    for (const MeasuredStep& s : dataset_.measured_steps)
        reach(s.gap_days, {s.low_bytes, s.freed_bytes, s.high_bytes});
    if (top <= 0) top = bottom = 1e9;  // nothing but zeros
    bottom = std::max(bottom, top / most_factors);
    if (top < 10 * bottom) {  // one power of ten at least
        const double middle = std::sqrt(top * bottom);
        top = middle * std::sqrt(10.0);
        bottom = middle / std::sqrt(10.0);
    }
    g.bytes = {bottom / 1.15, top * 1.15, 0, 1, true};

    const double plot_height = std::round(std::clamp(width * 0.36, em * 11, em * 20));
    const double strip = std::ceil(line * 1.5);
    g.byte_marks =
        size_marks(g.bytes.from, g.bytes.to,
                   std::max(2, static_cast<int>(plot_height / (line * 1.8))), prefixes());
    double widest = 0;
    for (const AxisMark& mark : g.byte_marks)
        widest = std::max(widest, note.horizontalAdvance(mark.text));
    double label_width = 0;
    if (!dataset_.curve_band.empty()) {
        g.labels = {
            {tr("1 in 10 above"), {}, 0}, {tr("middle"), {}, 0}, {tr("1 in 10 below"), {}, 0}};
        for (const EdgeLabel& label : g.labels)
            label_width = std::max(label_width, note.horizontalAdvance(label.text));
    }
    const double left = std::ceil(ring_room + widest + em * 0.5);
    const double right = g.labels.empty() ? em * 1.5 : std::ceil(leader_length + 6 + label_width);
    g.plot = QRectF(left, ring_room + strip, std::max(least_plot, width - ring_room - left - right),
                    plot_height);
    days.start = g.plot.left();
    days.end = g.plot.right();
    g.days = days;
    g.bytes.start = g.plot.bottom();
    g.bytes.end = g.plot.top();
    g.day_marks = span_marks(days, note);

    const auto span = measured_span(dataset_);
    g.measured_start = span ? days.map(span->from_days) : g.plot.left();
    g.measured_end = span ? days.map(span->to_days) : g.plot.left();
    const double words_y = g.plot.top() - line - em * 0.25;
    if (span) {
        g.measured_words = tr("measured");
        const double w = note.horizontalAdvance(g.measured_words) + em * 0.5;
        if (w < g.measured_end - g.measured_start)
            g.measured_place =
                QRectF(g.measured_start, words_y, g.measured_end - g.measured_start, line);
    }
    if (!dataset_.curve_band.empty() && g.measured_end < g.plot.right() - 1) {
        g.beyond_words = dataset_.measured ? tr("extrapolated") : tr("assumed, not measured");
        const double room = g.plot.right() - g.measured_end;
        const double w = std::ceil(note.horizontalAdvance(g.beyond_words)) + 1;
        // Wider than its stretch it may hang over the margin of the labels.
        if (w <= room)
            g.beyond_place = QRectF(g.measured_end, words_y, room, line);
        else if (g.measured_end + w <= width - ring_room)
            g.beyond_place = QRectF(g.measured_end, words_y, w, line);
        else
            g.beyond_place = QRectF(width - ring_room - w, words_y, w, line);
        if (w + em * 0.5 < g.measured_start - g.plot.left())
            g.before_place = QRectF(g.plot.left(), words_y, g.measured_start - g.plot.left(), line);
        if (!g.measured_place.isEmpty() && g.beyond_place.left() < g.measured_end)
            g.measured_place = QRectF();
    }

    if (!g.labels.empty()) {
        const CurveBand& end = dataset_.curve_band.back();
        const double values[] = {end.p90, end.p50, end.p10};
        std::vector<double> wished;
        for (const double v : values) wished.push_back(g.bytes.map(v));
        const auto centres = pushed_apart(wished, std::ceil(line), 0, g.plot.bottom() + line / 2);
        for (std::size_t i = 0; i < g.labels.size(); ++i) {
            g.labels[i].wished = wished[i];
            g.labels[i].place =
                QRectF(g.plot.right() + leader_length + 4, centres[i] - line / 2,
                       std::ceil(note.horizontalAdvance(g.labels[i].text)) + 1, line);
        }
    }
    const double axis_bottom = g.plot.bottom() + em * 0.25 + line;
    QStringList key;
    for (const auto& [sign, words] : key_of(dataset_)) key << words;
    g.key =
        key_row(key, g.plot.left(), width - ring_room, axis_bottom + em * 0.4, em, note_font(font));
    g.height = axis_bottom + em * 0.4 + g.key.height + ring_room;
    return g;
}

int TurnoverChart::heightForWidth(int width) const {
    return static_cast<int>(std::ceil(geometryFor(width, font()).height));
}

std::vector<ReadChart::Reading> TurnoverChart::readings() const {
    std::vector<Reading> all;
    if (!hasData()) return all;
    const TurnoverGeometry g = geometryFor(width(), font());
    for (const MeasuredStep& s : dataset_.measured_steps)
        all.push_back({QPointF(g.days.map(s.gap_days), g.bytes.map(s.freed_bytes)),
                       SureText::step(s, prefixes())});
    for (const CurveBand& p : dataset_.curve_band)
        all.push_back({QPointF(g.days.map(p.gap_days), g.bytes.map(p.p50)),
                       SureText::curvePoint(p, dataset_, prefixes())});
    std::stable_sort(all.begin(), all.end(),
                     [](const Reading& a, const Reading& b) { return a.at.x() < b.at.x(); });
    return all;
}

void TurnoverChart::drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                                const QFont& font) const {
    if (!hasData()) return;
    const TurnoverGeometry g = geometryFor(size.width(), font);
    const QFont small = note_font(font);
    const QFontMetricsF note(small);
    const double em = QFontMetricsF(font).height();

    // What was not measured lies hatched beneath everything.
    const QRectF before(g.plot.left(), g.plot.top(), g.measured_start - g.plot.left(),
                        g.plot.height());
    const QRectF beyond(g.measured_end, g.plot.top(), g.plot.right() - g.measured_end,
                        g.plot.height());
    const QColor hatching = mixed(theme.surface, theme.ink, theme.dark ? 0.22 : 0.16);
    if (!dataset_.curve_band.empty())
        for (const QRectF& part : {before, beyond}) hatch(painter, part, hatching, em * 0.55, 1);

    painter.setFont(small);
    for (const AxisMark& mark : g.byte_marks) {
        const double y = std::round(g.bytes.map(mark.value)) + 0.5;
        painter.setPen(QPen(theme.grid, 1));
        painter.drawLine(QPointF(g.plot.left(), y), QPointF(g.plot.right(), y));
        painter.setPen(theme.muted);
        painter.drawText(QRectF(0, y - note.height() / 2, g.plot.left() - em * 0.4, note.height()),
                         Qt::AlignRight | Qt::AlignVCenter, mark.text);
    }
    for (const AxisMark& mark : g.day_marks) {
        const double x = std::round(g.days.map(mark.value)) + 0.5;
        painter.setPen(QPen(theme.grid, 1));
        painter.drawLine(QPointF(x, g.plot.top()), QPointF(x, g.plot.bottom()));
        painter.setPen(QPen(theme.edge, 1));
        painter.drawLine(QPointF(x, g.plot.bottom()), QPointF(x, g.plot.bottom() + em * 0.2));
        const double w = note.horizontalAdvance(mark.text) + 2;
        painter.setPen(theme.muted);
        painter.drawText(QRectF(x - w / 2, g.plot.bottom() + em * 0.25, w, note.height()),
                         Qt::AlignCenter, mark.text);
    }
    painter.setPen(QPen(theme.edge, 1));
    painter.drawLine(QPointF(g.plot.left(), std::round(g.plot.bottom()) + 0.5),
                     QPointF(g.plot.right(), std::round(g.plot.bottom()) + 0.5));

    // Measured and beyond, above the plot, with a rule where the one ends.
    painter.setPen(theme.muted);
    if (!g.measured_place.isEmpty())
        painter.drawText(g.measured_place, Qt::AlignCenter, g.measured_words);
    for (const QRectF& words : {g.before_place, g.beyond_place})
        if (!words.isEmpty()) painter.drawText(words, Qt::AlignCenter, g.beyond_words);
    const auto border = [&](double at) {
        const double x = std::round(at) + 0.5;
        painter.setPen(QPen(theme.muted, 1));
        painter.drawLine(QPointF(x, g.plot.top() - em * 1.1), QPointF(x, g.plot.bottom()));
    };
    if (!g.measured_words.isEmpty() && !g.beyond_words.isEmpty()) border(g.measured_end);
    if (before.width() > 1 && beyond.left() > before.right() + 1) border(g.measured_start);

    // Band and middle, twice: whole where it was measured, paler and dashed beyond.
    const auto& band = dataset_.curve_band;
    if (!band.empty()) {
        const auto trace = [&](double CurveBand::*value) {
            QPolygonF points;
            for (const CurveBand& p : band)
                points << QPointF(g.days.map(p.gap_days), g.bytes.map(p.*value));
            return points;
        };
        const QPolygonF low = trace(&CurveBand::p10), high = trace(&CurveBand::p90),
                        middle = trace(&CurveBand::p50);
        QPolygonF area = high;
        for (auto i = low.size(); i-- > 0;) area << low[i];
        const auto draw = [&](const QRectF& part, bool measured) {
            if (part.width() <= 0) return;
            painter.save();
            painter.setClipRect(part.adjusted(0, -2, 0, 2), Qt::IntersectClip);
            QColor fill = theme.band_outer;
            if (!measured) fill.setAlphaF(fill.alphaF() * 0.55F);
            painter.setPen(Qt::NoPen);
            painter.setBrush(fill);
            painter.drawPolygon(area);
            QPen edge(theme.median, 1.25), line(theme.median, 2.5, Qt::SolidLine, Qt::FlatCap);
            if (!measured) {
                edge.setDashPattern({3, 4});
                line.setDashPattern({3, 2});
            }
            painter.setBrush(Qt::NoBrush);
            painter.setPen(edge);
            painter.drawPolyline(low);
            painter.drawPolyline(high);
            painter.setPen(line);
            painter.drawPolyline(middle);
            painter.restore();
        };
        draw(before, false);
        draw(QRectF(QPointF(g.measured_start, g.plot.top()),
                    QPointF(g.measured_end, g.plot.bottom())),
             true);
        draw(beyond, false);
        painter.setFont(small);
        for (std::size_t i = 0; i < g.labels.size(); ++i) {
            const EdgeLabel& label = g.labels[i];
            const QColor ink = i == 1 ? theme.median : theme.muted;
            painter.setPen(QPen(ink, 1));
            painter.drawLine(QPointF(g.plot.right() + 2, label.wished),
                             QPointF(g.plot.right() + leader_length, label.place.center().y()));
            painter.drawText(label.place, Qt::AlignLeft | Qt::AlignVCenter, label.text);
        }
    }

    const double radius = std::max(3.0, em * 0.24), cap = em * 0.3;
    const auto point = [&](const QPointF& at, double low_y, double high_y, bool once, bool zero) {
        const auto stroke = [&](const QColor& colour, double width) {
            painter.setPen(QPen(colour, width, Qt::SolidLine, Qt::FlatCap));
            painter.drawLine(QPointF(at.x(), low_y), QPointF(at.x(), high_y));
            painter.drawLine(QPointF(at.x() - cap, low_y), QPointF(at.x() + cap, low_y));
            painter.drawLine(QPointF(at.x() - cap, high_y), QPointF(at.x() + cap, high_y));
        };
        if (!once) {
            stroke(theme.surface, 4);
            stroke(theme.ink, 1.6);
        }
        painter.setPen(QPen(theme.ink, 1.6));
        painter.setBrush(once || zero ? theme.surface : theme.ink);
        if (zero) {
            QPolygonF down{at + QPointF(-radius, -radius), at + QPointF(radius, -radius),
                           at + QPointF(0, radius)};
            painter.drawPolygon(down);
        } else {
            painter.drawEllipse(at, radius, radius);
        }
    };
    for (const MeasuredStep& s : dataset_.measured_steps)
        point(QPointF(g.days.map(s.gap_days), g.bytes.map(s.freed_bytes)), g.bytes.map(s.low_bytes),
              g.bytes.map(s.high_bytes), s.steps <= 1, !drawable(s.freed_bytes));

    const auto signs = key_of(dataset_);
    draw_key(painter, g.key, theme, small, [&](int entry, const QRectF& r) {
        const Sign sign = signs[static_cast<std::size_t>(entry)].first;
        if (sign == Sign::unmeasured) {
            hatch(painter, r, hatching, em * 0.4, 1);
            painter.setPen(QPen(theme.edge, 1));
            painter.drawRect(r);
        } else {
            point(r.center(), r.bottom(), r.top(), sign == Sign::once, false);
        }
    });
}

}  // namespace ullage
