// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/buy/frontier_chart.h"

#include "ui/buy/standing_mark.h"
#include "ui/charts/calendar_ticks.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <QFontMetricsF>
#include <QLocale>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

QFont note_font(const QFont& font) { return scaled(font, 0.9); }

std::vector<AxisMark> marks_of(double top, int most) {
    std::vector<AxisMark> marks;
    const double step = nice_step(top, std::max(1, most));
    const int decimals = std::clamp(static_cast<int>(std::ceil(-std::log10(step) - 1e-9)), 0, 9);
    for (int i = 0; i * step <= top * (1 + 1e-9); ++i)
        marks.push_back({i * step, QLocale().toString(i * step, 'f', decimals)});
    return marks;
}

bool hits(const QRectF& place, const std::vector<QRectF>& others) {
    return std::any_of(others.begin(), others.end(),
                       [&](const QRectF& other) { return other.intersects(place); });
}

void draw_nothing(QPainter& painter, const QRectF& place, const Theme& theme) {
    const QPointF c = place.center();
    const double r = place.width() * 0.46;
    painter.setPen(QPen(theme.ink, 1.6));
    painter.setBrush(theme.surface);
    painter.drawPolygon(
        QPolygonF{c + QPointF(0, -r), c + QPointF(r, 0), c + QPointF(0, r), c + QPointF(-r, 0)});
}

}  // namespace

FrontierChart::FrontierChart(QWidget* parent) : ReadChart(parent) { changed(); }

void FrontierChart::setOffers(const Outlook* outlook, const std::string& box) {
    const bool other = box != box_;
    box_ = box;
    entries_.clear();
    title_ = tr("What longer lasting costs");
    note_.clear();
    if (outlook) {
        currency_ = outlook->currency;
        horizon_ = std::max(1.0, outlook->horizon_days);
        title_ = BuyText::frontierTitle(*outlook, box);
        note_ = BuyText::frontierNote(*outlook, box);
        for (const OfferOutlook* o : offers_for(*outlook, box)) {
            const Standing standing = standing_of(*o);
            if (standing == Standing::does_not_go_in || !std::isfinite(o->cost_total)) continue;
            entries_.push_back({static_cast<int>(o - outlook->offers.data()), standing,
                                std::max(0.0, o->cost_total), o->days_until_ceiling,
                                QString::fromStdString(o->name), BuyText::point(*outlook, *o)});
        }
        if (const BoxOutlook* as_is = box_of(*outlook, box); as_is && !entries_.empty()) {
            DayQuantiles days = as_is->days_until_ceiling;
            if (as_is->over_ceiling_now || as_is->full_now) days = {0.0, 0.0, 0.0};
            entries_.push_back({-1, Standing::holds, 0, days, tr("nothing bought"),
                                BuyText::nothingPoint(*outlook, *as_is)});
        }
        std::stable_sort(entries_.begin(), entries_.end(), [](const Entry& a, const Entry& b) {
            return std::make_pair(a.cost, a.offer) < std::make_pair(b.cost, b.offer);
        });
    }
    changed(other);
}

int FrontierChart::offerAt(int reading) const {
    return reading >= 0 && reading < static_cast<int>(entries_.size())
               ? entries_[static_cast<std::size_t>(reading)].offer
               : -1;
}

bool FrontierChart::hasData() const { return !entries_.empty(); }
QString FrontierChart::title() const { return title_; }

QString FrontierChart::summary() const {
    if (!hasData()) return tr("Nothing computed yet.");
    QStringList words;
    for (const Entry& entry : entries_) words << entry.words;
    words << note_;
    return words.join(u' ');
}

FrontierGeometry FrontierChart::geometryFor(double width, const QFont& font) const {
    FrontierGeometry g;
    const QFont small = note_font(font);
    const QFontMetricsF note(small);
    const double em = QFontMetricsF(font).height();
    if (!hasData()) {
        g.height = em;
        return g;
    }
    const double years = horizon_ / days_per_year;
    double dearest = 0;
    for (const Entry& entry : entries_) dearest = std::max(dearest, entry.cost);
    if (dearest <= 0) dearest = 1;

    g.years_title = tr("years until its ceiling");
    g.cost_title = currency_.empty()
                       ? tr("cost over %1").arg(Words::horizon(horizon_))
                       : tr("cost over %1, in %2")
                             .arg(Words::horizon(horizon_), QString::fromStdString(currency_));
    g.later_words = tr("later than %1").arg(Words::horizon(horizon_));
    const double plot_height = std::clamp(width * 0.30, em * 10, em * 15);
    g.year_ticks = marks_of(years, static_cast<int>(plot_height / (note.height() * 2.2)));
    double widest = 0;
    for (const AxisMark& mark : g.year_ticks)
        widest = std::max(widest, note.horizontalAdvance(mark.text));
    const double left = ring_room + std::ceil(widest) + em * 0.6;
    const double right = std::max(left + 40, width - ring_room - em);
    double y = ring_room + note.height() + em * 0.3;
    const double band = std::round(em * 2.6);
    g.later_band = QRectF(left, y, right - left, band);
    g.plot = QRectF(left, y + band, right - left, plot_height);
    g.years = {0, years, g.plot.bottom(), g.plot.top()};
    // A mark at no cost does not lie on the years.
    g.cost = {0, dearest * 1.06, left + em * 0.9, right};
    for (int most = 8; most >= 1; --most) {
        g.cost_ticks = marks_of(dearest * 1.06, most);
        if (g.cost_ticks.size() < 2) break;
        const double room = g.cost.map(g.cost_ticks[1].value) - g.cost.map(0);
        if (room > note.horizontalAdvance(g.cost_ticks.back().text) + em * 0.8) break;
    }

    const double side = std::round(em * 1.05), later = g.later_band.center().y();
    const auto y_of = [&](const std::optional<double>& days) {
        return days && *days <= horizon_ ? g.years.map(*days / days_per_year) : later;
    };
    for (const Entry& entry : entries_) {
        FrontierPoint p;
        p.offer = entry.offer;
        p.standing = entry.standing;
        p.later = !entry.days.p50;
        p.at = QPointF(g.cost.map(entry.cost), y_of(entry.days.p50));
        p.mark = QRectF(p.at.x() - side / 2, p.at.y() - side / 2, side, side);
        if (entry.days.p10) {
            p.low = y_of(entry.days.p10);
            p.high = y_of(entry.days.p90);
            p.high_later = !entry.days.p90;
        }
        g.points.push_back(p);
    }
    for (const FrontierPoint& p : g.points) {
        if (p.offer < 0 || p.standing == Standing::outdone) continue;
        if (!g.steps.empty()) g.steps.emplace_back(p.at.x(), g.steps.back().y());
        g.steps.push_back(p.at);
    }
    placeLabels(g, entries_, width, small);

    y = g.plot.bottom() + em * 0.3 + 2 * note.height() + em * 0.6;
    QStringList words;
    for (const Standing standing :
         {Standing::recommended, Standing::holds, Standing::too_short, Standing::outdone}) {
        const bool seen = std::any_of(g.points.begin(), g.points.end(), [&](const auto& p) {
            return p.offer >= 0 && p.standing == standing;
        });
        if (!seen) continue;
        g.key_standings.push_back(standing);
        words << standing_word(standing);
    }
    g.key = key_row(words, ring_room, width - ring_room, y, em, small);
    g.height = y + g.key.height + ring_room;
    return g;
}

void FrontierChart::placeLabels(FrontierGeometry& g, const std::vector<Entry>& entries,
                                double width, const QFont& font) {
    const QFontMetricsF metrics(font);
    const double line = std::ceil(metrics.height()), gap = line * 0.35;
    const QRectF room(g.plot.left(), g.later_band.top(), width - ring_room - g.plot.left(),
                      g.plot.bottom() - g.later_band.top());
    std::vector<QRectF> taken;
    for (const FrontierPoint& p : g.points) {
        taken.push_back(p.mark);
        if (p.low && p.high)
            taken.emplace_back(p.at.x() - 2, std::min(*p.low, *p.high), 4,
                               std::abs(*p.low - *p.high));
    }
    for (std::size_t i = 1; i < g.steps.size(); ++i)
        taken.push_back(QRectF(g.steps[i - 1], g.steps[i]).normalized().adjusted(-2, -2, 2, 2));
    const double most = std::max(line * 6, room.width() * 0.42);
    for (std::size_t i = 0; i < g.points.size(); ++i) {
        FrontierPoint& p = g.points[i];
        p.name = metrics.elidedText(entries[i].name, Qt::ElideRight, most);
        const double w = std::ceil(metrics.horizontalAdvance(p.name)) + 1;
        // Beside the mark first, then ever farther up and down.
        for (int k = 0; k < 21 && p.label.isEmpty(); ++k) {
            const double dy = (k % 2 == 0 ? 1 : -1) * ((k + 1) / 2) * line * 0.7;
            for (const double x : {p.mark.right() + gap, p.mark.left() - gap - w}) {
                const QRectF place(x, p.at.y() + dy - line / 2, w, line);
                if (!room.contains(place) || hits(place, taken)) continue;
                p.label = place;
                p.moved = k > 2;
                break;
            }
        }
        if (!p.label.isEmpty()) taken.push_back(p.label);
    }
}

int FrontierChart::heightForWidth(int width) const {
    return static_cast<int>(std::ceil(geometryFor(width, font()).height));
}

std::vector<ReadChart::Reading> FrontierChart::readings() const {
    std::vector<Reading> all;
    const FrontierGeometry g = geometryFor(width(), font());
    for (std::size_t i = 0; i < g.points.size(); ++i)
        all.push_back({g.points[i].at, entries_[i].words});
    return all;
}

void FrontierChart::drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                                const QFont& font) const {
    if (!hasData()) return;
    const FrontierGeometry g = geometryFor(size.width(), font);
    const QFont small = note_font(font);
    const QFontMetricsF note(small);
    const double em = QFontMetricsF(font).height();
    painter.setFont(small);

    painter.fillRect(g.later_band, theme.held);
    painter.setPen(theme.muted);
    painter.drawText(QRectF(g.plot.left(), ring_room, g.plot.width(), note.height()),
                     Qt::AlignLeft | Qt::AlignVCenter, g.years_title);
    painter.drawText(QRectF(g.plot.left(), ring_room, g.plot.width(), note.height()),
                     Qt::AlignRight | Qt::AlignVCenter, g.later_words);
    for (const AxisMark& mark : g.year_ticks) {
        const double y = std::round(g.years.map(mark.value)) + 0.5;
        painter.setPen(QPen(theme.grid, 1));
        painter.drawLine(QPointF(g.plot.left(), y), QPointF(g.plot.right(), y));
        painter.setPen(theme.muted);
        painter.drawText(QRectF(0, y - note.height() / 2, g.plot.left() - em * 0.4, note.height()),
                         Qt::AlignRight | Qt::AlignVCenter, mark.text);
    }
    const double ground = std::round(g.plot.bottom()) + 0.5;
    for (const AxisMark& mark : g.cost_ticks) {
        const double x = std::round(g.cost.map(mark.value)) + 0.5;
        painter.setPen(QPen(theme.edge, 1));
        painter.drawLine(QPointF(x, ground), QPointF(x, ground + em * 0.2));
        const double w = note.horizontalAdvance(mark.text) + 2;
        painter.setPen(theme.muted);
        painter.drawText(QRectF(x - w / 2, ground + em * 0.3, w, note.height()), Qt::AlignCenter,
                         mark.text);
    }
    painter.setPen(QPen(theme.edge, 1));
    painter.drawLine(QPointF(g.plot.left(), ground), QPointF(g.plot.right(), ground));
    painter.setPen(theme.muted);
    painter.drawText(
        QRectF(g.plot.left(), ground + em * 0.3 + note.height(), g.plot.width(), note.height()),
        Qt::AlignRight | Qt::AlignVCenter, g.cost_title);

    painter.setBrush(Qt::NoBrush);
    if (g.steps.size() > 1) {
        painter.setPen(QPen(theme.edge, 1.6, Qt::DashLine));
        painter.drawPolyline(g.steps.data(), static_cast<int>(g.steps.size()));
    }
    for (const FrontierPoint& p : g.points) {
        if (!p.low || !p.high) continue;
        const double x = p.at.x(), cap = em * 0.22;
        painter.setPen(QPen(theme.median, 2.4, Qt::SolidLine, Qt::FlatCap));
        painter.drawLine(QPointF(x, *p.low), QPointF(x, *p.high));
        painter.drawLine(QPointF(x - cap, *p.low), QPointF(x + cap, *p.low));
        if (!p.high_later) {
            painter.drawLine(QPointF(x - cap, *p.high), QPointF(x + cap, *p.high));
        } else {  // it goes on
            painter.setPen(Qt::NoPen);
            painter.setBrush(theme.median);
            painter.drawPolygon(QPolygonF{QPointF(x - em * 0.3, *p.high + em * 0.1),
                                          QPointF(x, *p.high - em * 0.45),
                                          QPointF(x + em * 0.3, *p.high + em * 0.1)});
            painter.setBrush(Qt::NoBrush);
        }
    }
    for (const FrontierPoint& p : g.points) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(theme.surface);
        painter.drawEllipse(p.mark.adjusted(-1.5, -1.5, 1.5, 1.5));
        if (p.offer < 0)
            draw_nothing(painter, p.mark, theme);
        else
            draw_standing(painter, p.mark, p.standing, theme);
        if (p.label.isEmpty()) continue;
        if (p.moved) {
            const bool to_right = p.label.left() > p.at.x();
            painter.setPen(QPen(theme.edge, 1));
            painter.drawLine(
                QPointF(to_right ? p.mark.right() : p.mark.left(), p.at.y()),
                QPointF(to_right ? p.label.left() - 2 : p.label.right() + 2, p.label.center().y()));
        }
        painter.setFont(small);
        painter.setPen(theme.ink);
        painter.drawText(p.label, Qt::AlignLeft | Qt::AlignVCenter, p.name);
    }
    draw_key(painter, g.key, theme, small, [&](int entry, const QRectF& r) {
        draw_standing(painter, r, g.key_standings[static_cast<std::size_t>(entry)], theme);
    });
}

}  // namespace ullage
