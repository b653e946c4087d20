// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sure/backtest_chart.h"

#include "ui/gauge/gauge_geometry.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <QFontMetricsF>
#include <QLocale>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

constexpr double least_plot = 40;  // pixels

QFont note_font(const QFont& font) { return scaled(font, 0.9); }

}  // namespace

std::vector<std::size_t> chosen_origins(std::size_t count, int most) {
    const auto limit = static_cast<std::size_t>(std::max(1, most));
    std::vector<std::size_t> chosen;
    if (count <= limit) {
        for (std::size_t i = 0; i < count; ++i) chosen.push_back(i);
        return chosen;
    }
    if (limit == 1) return {count - 1};
    for (std::size_t i = 0; i < limit; ++i)
        chosen.push_back((i * (count - 1) + (limit - 1) / 2) / (limit - 1));
    return chosen;
}

BacktestChart::BacktestChart(Figure figure, QWidget* parent) : ReadChart(parent), figure_(figure) {
    changed();
}

void BacktestChart::setDataset(const DatasetOutlook* dataset) {
    const bool other = !dataset || dataset->name != dataset_.name;
    has_ = dataset != nullptr;
    dataset_ = dataset ? *dataset : DatasetOutlook{};
    if (dataset_.backtest) {  // an origin without a forecast of this figure has no panel
        auto& origins = dataset_.backtest->origins;
        origins.erase(std::remove_if(origins.begin(), origins.end(),
                                     [this](const BacktestOrigin& o) {
                                         return forecasts_of(o, figure_).empty();
                                     }),
                      origins.end());
    }
    changed(other);
}

bool BacktestChart::hasData() const {
    return has_ && dataset_.backtest && !dataset_.backtest->origins.empty();
}

QString BacktestChart::title() const {
    return has_ ? SureText::backtestTitle(dataset_, figure_) : tr("Earlier forecasts");
}

QString BacktestChart::summary() const {
    if (!has_) return tr("Nothing computed yet.");
    const QString words = SureText::backtestSummary(dataset_, figure_, prefixes());
    const QString extra = caution();
    return extra.isEmpty() ? words : words + u' ' + extra;
}

const std::vector<ForecastThen>& BacktestChart::forecasts(std::size_t origin) const {
    return forecasts_of(dataset_.backtest->origins[origin], figure_);
}

double BacktestChart::start_of(std::size_t origin) const {
    return figure_ == Figure::live ? dataset_.backtest->origins[origin].live_bytes : 0;
}

QString BacktestChart::caution() const {
    const auto count = hasData() ? static_cast<int>(dataset_.backtest->origins.size()) : 0;
    if (count <= most_panels) return {};
    return tr("Drawn are %1 of %2 forecasts; the table has all.")
        .arg(QLocale().toString(most_panels), QLocale().toString(count));
}

BacktestGeometry BacktestChart::geometryFor(double width, const QFont& font) const {
    BacktestGeometry g;
    if (!hasData()) {
        g.height = QFontMetricsF(font).height();
        return g;
    }
    const QFontMetricsF note(note_font(font)), bold(scaled(note_font(font), 1, QFont::DemiBold));
    const double em = QFontMetricsF(font).height(), line = note.height();
    const auto& origins = dataset_.backtest->origins;
    const auto shown = chosen_origins(origins.size());

    double low = 0, high = 0, longest = 0, names = 0;
    for (const std::size_t o : shown) {
        for (const ForecastThen& f : forecasts(o)) {
            longest = std::max(longest, f.days_ahead);
            for (const double v : {f.p10, f.p50, f.p90, f.came})
                if (std::isfinite(v)) {
                    low = std::min(low, v - start_of(o));
                    high = std::max(high, v - start_of(o));
                }
        }
        names = std::max({names, bold.horizontalAdvance(SureText::origin(origins[o])),
                          note.horizontalAdvance(SureText::originDetail(origins[o]))});
    }
    longest = std::max(longest, 1.0 / 24);
    if (high - low < 1) high = low + 1;
    const double room = 0.05 * (high - low);
    const Scale changes{low < 0 ? low - room : 0, high + room, 0, 1, false};
    const double plot_height = std::round(em * 7.5);
    g.byte_marks = even_size_marks(changes.from, changes.to,
                                   static_cast<int>(plot_height / (line * 2)), prefixes());
    double widest = 0;
    if (figure_ == Figure::live)
        for (AxisMark& mark : g.byte_marks)
            if (mark.value > 0) mark.text.prepend(u'+');
    for (const AxisMark& mark : g.byte_marks)
        widest = std::max(widest, note.horizontalAdvance(mark.text));
    const double left = std::ceil(ring_room + widest + em * 0.5);
    const double gap = em * 1.5;
    // The last mark of days hangs over its panel's end.
    const double right = width - ring_room - em * 0.8;
    const double least = std::max(names, em * 8);
    const auto count = static_cast<int>(shown.size());
    const int fit = std::clamp(static_cast<int>((right - left + gap) / (least + gap)), 1, count);
    const int rows = (count + fit - 1) / fit;
    const int columns = (count + rows - 1) / rows;  // rows of about equal length
    const double panel_width =
        std::max(least_plot, std::floor((right - left - gap * (columns - 1)) / columns));
    double y = ring_room;
    for (std::size_t i = 0; i < shown.size(); ++i) {
        const int column = static_cast<int>(i) % columns;
        BacktestGeometry::Panel panel;
        panel.origin = shown[i];
        panel.first_in_row = column == 0;
        const double x = left + column * (panel_width + gap);
        panel.name = QRectF(x, y, std::max(panel_width, names + 1), line);
        panel.detail = panel.name.translated(0, line);
        panel.plot = QRectF(x, y + 2 * line + em * 0.3, panel_width, plot_height);
        panel.days = {0, longest, panel.plot.left(), panel.plot.right(), false};
        panel.bytes = changes;
        panel.bytes.start = panel.plot.bottom();
        panel.bytes.end = panel.plot.top();
        for (const TrackTick& tick :
             track_ticks({panel.plot.left(), panel.plot.right(), longest}, 0, note_font(font)))
            panel.day_marks.push_back({panel.days.unmap(tick.x), tick.text});
        if (panel.day_marks.size() < 2)
            panel.day_marks = {{0, {}}, {longest, Words::hours(24 * longest)}};
        panel.day_marks.front().text = QLocale().toString(0);
        g.panels.push_back(panel);
        if (column + 1 == columns || i + 1 == shown.size())
            y = panel.plot.bottom() + em * 0.25 + line + em * 0.8;
    }
    y -= em * 0.4;
    g.key = key_row(
        {tr("forecast then: middle, 8 in 10 within"), tr("came, within"), tr("came, outside")},
        left, width - ring_room, y, em, note_font(font));
    g.height = y + g.key.height + ring_room;
    return g;
}

int BacktestChart::heightForWidth(int width) const {
    return static_cast<int>(std::ceil(geometryFor(width, font()).height));
}

std::vector<ReadChart::Reading> BacktestChart::readings() const {
    std::vector<Reading> all;
    if (!hasData()) return all;
    for (const auto& panel : geometryFor(width(), font()).panels)
        for (const ForecastThen& f : forecasts(panel.origin))
            all.push_back(
                {QPointF(panel.days.map(f.days_ahead),
                         panel.bytes.map(f.came - start_of(panel.origin))),
                 SureText::forecast(dataset_.backtest->origins[panel.origin], f, prefixes())});
    return all;
}

void BacktestChart::drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                                const QFont& font) const {
    if (!hasData()) return;
    const BacktestGeometry g = geometryFor(size.width(), font);
    const QFont small = note_font(font);
    const QFontMetricsF note(small);
    const double em = QFontMetricsF(font).height();
    const double radius = std::max(2.5, em * 0.2);
    const auto came = [&](const QPointF& at, bool inside) {
        painter.setPen(QPen(theme.surface, 1.2));
        if (inside) {
            painter.setBrush(theme.ink);
            painter.drawEllipse(at, radius, radius);
            return;
        }
        const QRectF square(at.x() - radius * 1.1, at.y() - radius * 1.1, radius * 2.2,
                            radius * 2.2);
        painter.setBrush(theme.surface);
        painter.setPen(QPen(theme.full, 2));
        painter.drawRect(square);
    };

    for (const auto& panel : g.panels) {
        const BacktestOrigin& origin = dataset_.backtest->origins[panel.origin];
        painter.setFont(scaled(small, 1, QFont::DemiBold));
        painter.setPen(theme.ink);
        painter.drawText(panel.name, Qt::AlignLeft | Qt::AlignVCenter, SureText::origin(origin));
        painter.setFont(small);
        painter.setPen(theme.muted);
        painter.drawText(panel.detail, Qt::AlignLeft | Qt::AlignVCenter,
                         SureText::originDetail(origin));
        for (const AxisMark& mark : g.byte_marks) {
            const double y = std::round(panel.bytes.map(mark.value)) + 0.5;
            painter.setPen(QPen(theme.grid, 1));
            painter.drawLine(QPointF(panel.plot.left(), y), QPointF(panel.plot.right(), y));
            if (!panel.first_in_row) continue;
            painter.setPen(theme.muted);
            painter.drawText(
                QRectF(0, y - note.height() / 2, panel.plot.left() - em * 0.4, note.height()),
                Qt::AlignRight | Qt::AlignVCenter, mark.text);
        }
        for (const AxisMark& mark : panel.day_marks) {
            const double x = std::round(panel.days.map(mark.value)) + 0.5;
            painter.setPen(QPen(theme.edge, 1));
            painter.drawLine(QPointF(x, panel.plot.bottom()),
                             QPointF(x, panel.plot.bottom() + em * 0.2));
            const double w = note.horizontalAdvance(mark.text) + 2;
            painter.setPen(theme.muted);
            painter.drawText(QRectF(x - w / 2, panel.plot.bottom() + em * 0.25, w, note.height()),
                             Qt::AlignCenter, mark.text);
        }
        painter.setPen(QPen(theme.edge, 1));
        for (const double y : {panel.plot.bottom(), panel.bytes.map(0)})
            painter.drawLine(QPointF(panel.plot.left(), std::round(y) + 0.5),
                             QPointF(panel.plot.right(), std::round(y) + 0.5));

        const auto trace = [&](double ForecastThen::*value) {
            QPolygonF points{QPointF(panel.days.map(0), panel.bytes.map(0))};
            for (const ForecastThen& f : forecasts(panel.origin))
                points << QPointF(panel.days.map(f.days_ahead),
                                  panel.bytes.map(f.*value - start_of(panel.origin)));
            return points;
        };
        const QPolygonF low = trace(&ForecastThen::p10), high = trace(&ForecastThen::p90);
        QPolygonF area = high;
        for (auto i = low.size(); i-- > 0;) area << low[i];
        painter.setPen(Qt::NoPen);
        painter.setBrush(theme.band_outer);
        painter.drawPolygon(area);
        painter.setBrush(Qt::NoBrush);
        painter.setPen(QPen(theme.median, 1.25));
        painter.drawPolyline(low);
        painter.drawPolyline(high);
        painter.setPen(QPen(theme.median, 2.2, Qt::SolidLine, Qt::FlatCap, Qt::RoundJoin));
        painter.drawPolyline(trace(&ForecastThen::p50));
        for (const ForecastThen& f : forecasts(panel.origin))
            came(QPointF(panel.days.map(f.days_ahead),
                         panel.bytes.map(f.came - start_of(panel.origin))),
                 lies_within(f));
    }
    draw_key(painter, g.key, theme, small, [&](int entry, const QRectF& r) {
        if (entry > 0) {
            came(r.center(), entry == 1);
            return;
        }
        painter.fillRect(r, theme.band_outer);
        painter.setPen(QPen(theme.median, 1.25));
        painter.drawLine(r.topLeft(), r.topRight());
        painter.drawLine(r.bottomLeft(), r.bottomRight());
        painter.setPen(QPen(theme.median, 2.2));
        painter.drawLine(QPointF(r.left(), r.center().y()), QPointF(r.right(), r.center().y()));
    });
}

}  // namespace ullage
