// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/gauge/days_until_full_gauge.h"

#include "ui/theme/status.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <QFontMetricsF>
#include <QHelpEvent>
#include <QPainter>
#include <QToolTip>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

enum class Mark { round, square };

void draw_mark(QPainter& painter, const QPointF& centre, double radius, Mark mark) {
    if (mark == Mark::round)
        painter.drawEllipse(centre, radius, radius);
    else  // a little smaller, so that both cover the same area
        painter.drawRect(QRectF(centre.x() - radius * 0.92, centre.y() - radius * 0.92,
                                radius * 1.84, radius * 1.84));
}

void draw_lane(QPainter& painter, const LaneGeometry& lane, const QString& label, bool passed,
               const QColor& colour, Mark mark, const Theme& theme, const QFont& note_font) {
    const double base = lane.place.bottom();
    painter.setFont(note_font);
    const QFontMetricsF metrics(note_font);

    painter.setPen(QPen(theme.edge, 1));
    painter.drawLine(QPointF(lane.place.left(), base + 0.5),
                     QPointF(lane.place.right(), base + 0.5));
    painter.setPen(theme.ink);
    painter.drawText(lane.label, Qt::AlignLeft | Qt::AlignVCenter, label);

    if (passed) {
        painter.setPen(colour);
        painter.drawText(QRectF(lane.place.left() + metrics.averageCharWidth() / 2,
                                base - metrics.height() - 2, lane.place.width(), metrics.height()),
                         Qt::AlignLeft | Qt::AlignVCenter, GaugeText::lane_passed());
        return;
    }
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour);
    for (const QPointF& centre : lane.marks) draw_mark(painter, centre, lane.radius, mark);

    // From 1 in 10 to 9 in 10, or to the end of the track where that lies beyond it.
    if (lane.p10) {
        const double end = lane.p90.value_or(lane.place.right());
        painter.setPen(QPen(colour, 3, Qt::SolidLine, Qt::FlatCap));
        painter.drawLine(QPointF(*lane.p10, base + 1.5),
                         QPointF(std::max(end, *lane.p10 + 2), base + 1.5));
        if (lane.p50) {
            painter.setPen(QPen(theme.ink, 2, Qt::SolidLine, Qt::FlatCap));
            painter.drawLine(QPointF(*lane.p50, base - 1), QPointF(*lane.p50, base + 5));
        }
    }
    if (lane.later > 0) {
        painter.setPen(theme.ink);
        painter.drawText(lane.later_label, Qt::AlignLeft | Qt::AlignVCenter,
                         GaugeText::later(lane.later));
    }
}

}  // namespace

DaysUntilFullGauge::DaysUntilFullGauge(QWidget* parent)
    : DrawnWidget(parent), text_(GaugeText::waiting()) {
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
    tell();
}

void DaysUntilFullGauge::setBox(const BoxOutlook* box, double horizon_days, Day as_of,
                                Level status) {
    as_of_ = as_of;
    status_ = status;
    if (!box) {
        text_ = GaugeText::waiting(text_.name);
        numbers_ = {};
    } else {
        text_ = GaugeText::of(*box, horizon_days, as_of, status);
        numbers_ = GaugeNumbers::of(*box, horizon_days);
    }
    tell();
    updateGeometry();
    update();
}

void DaysUntilFullGauge::setName(const QString& name) {
    text_.name = name;
    tell();
    updateGeometry();
    update();
}

void DaysUntilFullGauge::tell() {
    QString words = text_.description();
    const QString state_text = state_words(state());
    if (!state_text.isEmpty()) words += u' ' + state_text + u'.';
    if (numbers_.horizon_days > 0) {
        const auto count = [](const auto& marks) {
            return static_cast<int>(
                std::count_if(marks.begin(), marks.end(), [](const auto& m) { return !m; }));
        };
        const QString horizon = Words::horizon(numbers_.horizon_days);
        if (!text_.ceiling_passed)
            words += u' ' + tr("Of 20 futures, %1 reach the ceiling later than %2.")
                                .arg(locale().toString(count(numbers_.ceiling_marks)), horizon);
        if (!text_.full_passed)
            words += u' ' + tr("Of 20 futures, %1 are full later than %2.")
                                .arg(locale().toString(count(numbers_.full_marks)), horizon);
    }
    describe(
        text_.name.isEmpty() ? tr("Days until full") : tr("Days until %1 is full").arg(text_.name),
        words);
}

void DaysUntilFullGauge::stateChanged() {
    tell();
    updateGeometry();
}

GaugeGeometry DaysUntilFullGauge::geometryNow() const {
    return gauge_geometry(text_, numbers_, state_words(state()), width(), height(), font());
}

int DaysUntilFullGauge::heightForWidth(int width) const {
    return static_cast<int>(
        std::ceil(gauge_geometry(text_, numbers_, state_words(state()), width, 0, font()).height));
}

QSize DaysUntilFullGauge::sizeHint() const {
    const int width = static_cast<int>(48 * QFontMetricsF(font()).height());
    return {width, heightForWidth(width)};
}

QSize DaysUntilFullGauge::minimumSizeHint() const {
    const int width = static_cast<int>(20 * QFontMetricsF(font()).height());
    return {width,
            static_cast<int>(std::ceil(gauge_geometry(text_, numbers_, state_words(state()),
                                                      std::max(width, this->width()), 0, font())
                                           .least_height))};
}

void DaysUntilFullGauge::drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                                     const QFont& font) const {
    using Role = PlacedText::Role;
    const GaugeGeometry g =
        gauge_geometry(text_, numbers_, state_words(state()), size.width(), size.height(), font);

    if (!g.status.text.isEmpty()) {
        draw_status(painter, g.shape, status_, theme);
        painter.setFont(gauge_font(Role::name, font));
        painter.setPen(status_ink(status_, theme));
        painter.drawText(g.status.place, Qt::AlignLeft | Qt::AlignVCenter, g.status.text);
    }
    for (const PlacedText& text : g.texts) {
        painter.setFont(gauge_font(text.role, font));
        painter.setPen(text.role == Role::note ? theme.muted : theme.ink);
        const int align = text.role == Role::name ? Qt::AlignVCenter : Qt::AlignTop;
        painter.drawText(text.place, Qt::AlignLeft | align | Qt::TextWordWrap, text.text);
    }
    if (g.has_track) {
        const QFont note_font = gauge_font(Role::note, font);
        draw_lane(painter, g.ceiling, GaugeText::ceiling_lane(),
                  text_.ceiling_passed || text_.full_passed, theme.median, Mark::round, theme,
                  note_font);
        draw_lane(painter, g.full, GaugeText::full_lane(), text_.full_passed, theme.full,
                  Mark::square, theme, note_font);
        painter.setFont(note_font);
        for (const TrackTick& tick : g.ticks) {
            const double base = g.full.place.bottom();
            painter.setPen(QPen(theme.edge, 1));
            const double x = std::round(tick.x) + 0.5;
            painter.drawLine(QPointF(x, base + 4), QPointF(x, tick.label.top()));
            painter.setPen(theme.muted);
            painter.drawText(tick.label, Qt::AlignCenter, tick.text);
        }
    }
    painter.setOpacity(1);
    if (!g.state.text.isEmpty()) {
        painter.setFont(scaled(font, 1, QFont::DemiBold));
        painter.setPen(state() == ShownState::failed ? theme.full : theme.ink);
        painter.drawText(g.state.place, Qt::AlignLeft | Qt::AlignTop | Qt::TextWordWrap,
                         g.state.text);
    }
}

bool DaysUntilFullGauge::event(QEvent* event) {
    if (event->type() == QEvent::ToolTip) {
        auto* help = static_cast<QHelpEvent*>(event);
        const GaugeGeometry g = geometryNow();
        const auto near = [&](const LaneGeometry& lane, bool passed) {
            return !passed && lane.place.adjusted(0, 0, 0, 8).contains(help->pos());
        };
        QString tip;
        if (g.has_track) {
            const QString when = Words::full_date(add_days(as_of_, g.track.days(help->pos().x())));
            const auto until = [&](const auto& marks) {
                const double day = g.track.days(help->pos().x());
                return std::count_if(marks.begin(), marks.end(),
                                     [day](const auto& m) { return m && *m <= day; });
            };
            if (near(g.ceiling, text_.ceiling_passed || text_.full_passed))
                tip = tr("By %1, %2 of 20 futures have reached the ceiling.")
                          .arg(when,
                               locale().toString(static_cast<int>(until(numbers_.ceiling_marks))));
            else if (near(g.full, text_.full_passed))
                tip =
                    tr("By %1, %2 of 20 futures are full.")
                        .arg(when, locale().toString(static_cast<int>(until(numbers_.full_marks))));
        }
        if (tip.isEmpty())
            QToolTip::hideText();
        else
            QToolTip::showText(help->globalPos(), tip, this);
        return true;
    }
    return DrawnWidget::event(event);
}

}  // namespace ullage
