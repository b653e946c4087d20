// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/ladder/ladder_timeline.h"

#include "core/retention/ladder.h"
#include "core/site/site_json.h"
#include "core/units/quantity_text.h"
#include "ui/theme/theme.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <array>
#include <cmath>

namespace ullage::ui {

namespace {

double place_of(double age_days) { return std::log1p(24 * std::max(age_days, 0.0)); }

std::vector<double> ages_of(const Ladder& ladder, const TimeZone& zone, Instant now) {
    std::vector<double> ages;
    for (const Instant taken : LadderClock(ladder, zone).retained(now)) ages.push_back(days_between(taken, now));
    return ages;
}

QFont small_font(const QFont& font) { return scaled(font, 0.92); }

}  // namespace

LadderTimeline::LadderTimeline(QWidget* parent) : DrawnWidget(parent) {
    setFocusPolicy(Qt::NoFocus);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    setState(ShownState::ready);
}

void LadderTimeline::setLadder(const Ladder& ladder, Day day, const std::string& time_zone) {
    const TimeZone zone = TimeZone::find(time_zone).value_or(TimeZone());
    const Instant now = zone.instant_of(day) + std::chrono::hours(12);
    lanes_.clear();
    for (const Rung& rung : ladder) {
        const auto ages = ages_of({rung}, zone, now);
        lanes_.push_back({tr("every %1").arg(QString::fromStdString(to_text(rung.every.value))), ages});
    }
    const auto all = ages_of(ladder, zone, now);
    if (all.empty()) {
        words_ = tr("No snapshot would be there today.");
    } else {
        const double oldest = *std::max_element(all.begin(), all.end());
        const QString age = QString::fromStdString(format_duration(days(std::round(oldest * 24) / 24), 2));
        words_ = all.size() == 1 ? tr("1 snapshot would be there today, %1 old.").arg(age)
                                 : tr("%1 snapshots would be there today, the oldest %2 old.").arg(all.size()).arg(age);
    }
    describe(tr("Snapshots kept"), words_);
    setToolTip(words_);
    updateGeometry();
    update();
}

QSize LadderTimeline::sizeHint() const {
    const double row = QFontMetricsF(font()).height() * 1.35;
    return {static_cast<int>(QFontMetricsF(font()).averageCharWidth() * 44),
            static_cast<int>(std::ceil(row * (static_cast<double>(std::max<std::size_t>(lanes_.size(), 1)) + 2.1)))};
}

QSize LadderTimeline::minimumSizeHint() const {
    return {static_cast<int>(QFontMetricsF(font()).averageCharWidth() * 26), sizeHint().height()};
}

void LadderTimeline::drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme, const QFont& font) const {
    const QFont small = small_font(font);
    const QFontMetricsF metrics(small);
    const double row = QFontMetricsF(font).height() * 1.35;
    painter.setFont(small);
    painter.setPen(theme.muted);
    painter.drawText(QRectF(0, 0, size.width(), row), Qt::AlignLeft | Qt::AlignVCenter,
                     metrics.elidedText(words_, Qt::ElideRight, size.width()));
    if (lanes_.empty()) return;

    double names = 0;
    double oldest = 1.0 / 24;
    for (const Lane& lane : lanes_) {
        names = std::max(names, metrics.horizontalAdvance(lane.name));
        for (const double age : lane.age_days) oldest = std::max(oldest, age);
    }
    const double left = names + metrics.averageCharWidth() * 1.5;
    const double right = size.width() - 8;
    if (right - left < 40) return;
    const double reach = place_of(oldest * 1.05);
    const auto x = [&](double age) { return right - (right - left) * place_of(age) / reach; };
    const double bottom = row * (static_cast<double>(lanes_.size()) + 1);

    // Steps back in time; a label that would touch its neighbour is left out.
    struct Step {
        double age_days;
        QString text;
    };
    const std::array<Step, 7> steps{{{0, tr("now")}, {1.0 / 24, tr("1 h")}, {1, tr("1 d")}, {7, tr("1 w")},
                                     {days_per_month, tr("1 mo")}, {days_per_year, tr("1 y")}, {5 * days_per_year, tr("5 y")}}};
    double free_to = size.width() + 1;
    for (const Step& step : steps) {
        if (step.age_days > oldest * 1.05) break;
        const double at = x(step.age_days);
        painter.setPen(QPen(theme.grid, 1));
        painter.drawLine(QPointF(at, row), QPointF(at, bottom));
        const double width = metrics.horizontalAdvance(step.text);
        const double start = std::min(at - width / 2, size.width() - width);
        if (start + width > free_to) continue;
        painter.setPen(theme.muted);
        painter.drawText(QPointF(start, bottom + metrics.ascent() + 2), step.text);
        free_to = start - metrics.averageCharWidth();
    }
    for (std::size_t i = 0; i < lanes_.size(); ++i) {
        const double y = row * (static_cast<double>(i) + 1.5);
        painter.setPen(theme.muted);
        painter.drawText(QRectF(0, y - row / 2, names + 1, row), Qt::AlignLeft | Qt::AlignVCenter, lanes_[i].name);
        painter.setPen(QPen(theme.rule, 1));
        painter.drawLine(QPointF(left, y), QPointF(right, y));
        painter.setPen(QPen(theme.median, 1.6));
        for (const double age : lanes_[i].age_days)
            painter.drawLine(QPointF(x(age), y - row * 0.28), QPointF(x(age), y + row * 0.28));
    }
}

}  // namespace ullage::ui
