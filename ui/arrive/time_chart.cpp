// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/arrive/time_chart.h"

#include "ui/arrive/outage_text.h"
#include "ui/charts/calendar_ticks.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <QApplication>
#include <QFontMetricsF>
#include <QKeyEvent>
#include <QLocale>
#include <QMouseEvent>
#include <QPainter>
#include <QToolButton>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

constexpr double grip_pixels = 7, least_block = 4;
constexpr int four_weeks = 28;
constexpr double day_hours = 24;
constexpr double zoom_step = 0.8;
constexpr double least_days = 7;

}  // namespace

std::vector<AxisMark> time_marks(double top_hours, int most) {
    std::vector<AxisMark> marks;
    if (!(top_hours > 0) || !std::isfinite(top_hours)) return marks;
    const auto limit = static_cast<double>(std::max(1, most));
    double step = 0;
    for (const double hours : {1.0 / 60, 1.0 / 12, 0.25, 0.5, 1.0, 2.0, 3.0, 6.0, 12.0})
        if (step == 0 && top_hours / hours <= limit) step = hours;
    if (step == 0) step = day_hours * std::max(1.0, nice_step(top_hours / day_hours, most));
    for (int n = 0; n * step <= top_hours * (1 + 1e-9); ++n) {
        const double hours = n * step;
        const bool days = step >= day_hours, minutes = step < 1;
        const double figure = days ? hours / day_hours : minutes ? hours * 60 : hours;
        const QString text = QLocale().toString(std::lround(figure));
        marks.push_back({hours, n == 0    ? text
                                : days    ? TimeChart::tr("%1 d", "days").arg(text)
                                : minutes ? TimeChart::tr("%1 min").arg(text)
                                          : TimeChart::tr("%1 h", "hours").arg(text)});
        marks.back().text.replace(u' ', QChar(0x00A0));
    }
    return marks;
}

TimeChart::TimeChart(QWidget* parent) : ReadChart(parent), all_dates_(new QToolButton(this)) {
    all_dates_->setObjectName(QStringLiteral("allDates"));
    all_dates_->setText(tr("All dates"));
    all_dates_->setToolTip(tr("Undoes the zooming (0)"));
    all_dates_->hide();
    connect(all_dates_, &QToolButton::clicked, this, &TimeChart::showAllDates);
}

std::pair<double, double> TimeChart::daysInSight(double days) const {
    if (!in_sight_ || in_sight_->first >= days) return {0, days};
    return {in_sight_->first, std::min(in_sight_->second, days)};
}

void TimeChart::look(double from, double to) {
    const double all = allDays();
    const double length = std::clamp(to - from, std::min(least_days, all), all);
    from = std::clamp((from + to - length) / 2, 0.0, all - length);
    in_sight_.reset();
    if (length < all) in_sight_ = {from, from + length};
    all_dates_->setVisible(isZoomed());
    placeButton();
    changed();
}

void TimeChart::showAllDates() {
    const bool had_focus = all_dates_->hasFocus();
    look(0, allDays());
    if (had_focus) setFocus(Qt::OtherFocusReason);
}

void TimeChart::zoom(double factor, double about) {
    const auto [from, to] = daysInSight(allDays());
    look(about - (about - from) * factor, about + (to - about) * factor);
}

void TimeChart::pan(double days) {
    const auto [from, to] = daysInSight(allDays());
    const double by = std::clamp(days, -from, allDays() - to);
    if (isZoomed() && by != 0) look(from + by, to + by);
}

void TimeChart::placeButton() {
    if (!isZoomed() || !hasData()) return;
    const QSize size = all_dates_->sizeHint();
    const QRectF place = plotFor(width(), font()).place;
    all_dates_->setGeometry(static_cast<int>(place.right()) - size.width(),
                            std::max(0, static_cast<int>(place.top()) + 2), size.width(), size.height());
    all_dates_->raise();
}

void TimeChart::resizeEvent(QResizeEvent* event) {
    ReadChart::resizeEvent(event);
    placeButton();
}

bool TimeChart::isInSight(const QPointF& at) const {
    const QRectF place = plotFor(width(), font()).place;
    return at.x() >= place.left() - 1 && at.x() <= place.right() + 1;
}

void TimeChart::setDays(Day origin, const OutageLimits& limits) {
    // A longer or another stretch of days is looked at as a whole.
    if (origin != origin_) in_sight_.reset();
    origin_ = origin;
    limits_ = limits;
    all_dates_->setVisible(isZoomed());
}

void TimeChart::setOutage(const std::optional<OutageSpan>& outage) {
    if (outage == outage_) return;
    outage_ = outage;
    changed();
}

int TimeChart::nearest(const QPointF& point) const {
    const Plot plot = plotFor(width(), font());
    if (!hasData() || !plot.place.contains(point)) return -1;
    const auto all = readings();
    int best = -1;
    for (std::size_t i = 0; i < all.size(); ++i)
        if (isInSight(all[i].at) && (best < 0 || std::abs(all[i].at.x() - point.x()) <
                            std::abs(all[static_cast<std::size_t>(best)].at.x() - point.x())))
            best = static_cast<int>(i);
    return best;
}

OutageDrag::Grip TimeChart::gripAt(const QPointF& point) const {
    const Plot plot = plotFor(width(), font());
    if (!hasData() || point.y() < plot.place.top() || point.y() > plot.place.bottom())
        return OutageDrag::Grip::none;
    const double per_pixel =
        (plot.days.to - plot.days.from) / std::max(1.0, plot.days.end - plot.days.start);
    // Beyond the plot's ends the scale holds still; a grip there is of nothing.
    if (point.x() < plot.place.left() - grip_pixels || point.x() > plot.place.right() + grip_pixels)
        return OutageDrag::Grip::none;
    return OutageDrag::gripAt(outage_, plot.days.unmap(point.x()), grip_pixels * per_pixel,
                              origin_);
}

void TimeChart::mousePressEvent(QMouseEvent* event) {
    const bool drags_dates = event->button() == Qt::MiddleButton ||
                             (event->button() == Qt::LeftButton && event->modifiers() & Qt::ShiftModifier);
    if (drags_dates && isZoomed()) {
        dragged_x_ = event->position().x();
        event->accept();
        return;
    }
    if (event->button() != Qt::LeftButton || !hasData()) {
        ReadChart::mousePressEvent(event);
        return;
    }
    const Plot plot = plotFor(width(), font());
    const auto grip = gripAt(event->position());
    if (grip != OutageDrag::Grip::none) {
        drag_.begin(grip, outage_, plot.days.unmap(event->position().x()), origin_);
        event->accept();
        return;
    }
    if (plot.place.contains(event->position())) pressed_ = event->position();
    ReadChart::mousePressEvent(event);
    event->accept();  // the moves that follow are this widget's
}

void TimeChart::mouseMoveEvent(QMouseEvent* event) {
    const Plot plot = plotFor(width(), font());
    if (dragged_x_) {
        const double x = event->position().x();
        pan((*dragged_x_ - x) / std::max(1.0, plot.place.width()) * (plot.days.to - plot.days.from));
        dragged_x_ = x;
        return;
    }
    if (!drag_.active() && pressed_ && (event->buttons() & Qt::LeftButton) &&
        std::abs(event->position().x() - pressed_->x()) >= QApplication::startDragDistance()) {
        drag_.begin(OutageDrag::Grip::fresh, outage_, plot.days.unmap(pressed_->x()), origin_);
        pressed_.reset();
        read(-1);
    }
    if (drag_.active()) {
        const OutageSpan span = drag_.at(plot.days.unmap(event->position().x()), limits_);
        if (span != outage_) {
            setOutage(span);
            emit outageWanted(span);
        }
        return;
    }
    switch (gripAt(event->position())) {
        case OutageDrag::Grip::start:
        case OutageDrag::Grip::end:
            setCursor(Qt::SizeHorCursor);
            break;
        case OutageDrag::Grip::whole:
            setCursor(Qt::OpenHandCursor);
            break;
        default:
            unsetCursor();
    }
    ReadChart::mouseMoveEvent(event);
}

void TimeChart::stopDragging() {
    drag_.end();
    pressed_.reset();
    dragEnded();
}

void TimeChart::mouseReleaseEvent(QMouseEvent* event) {
    if (dragged_x_) {
        dragged_x_.reset();
        return;
    }
    const bool was = drag_.active();
    if (event->button() == Qt::LeftButton) stopDragging();
    if (!was) ReadChart::mouseReleaseEvent(event);
}

bool TimeChart::keyOnOutage(QKeyEvent* event) {
    if (!outage_) return false;
    const int key = event->key();
    if (key == Qt::Key_Escape && drag_.active()) {
        const auto before = drag_.before();
        stopDragging();
        setOutage(before);
        if (before)
            emit outageWanted(*before);
        else
            emit outageUnwanted();
        return true;
    }
    if (key == Qt::Key_Escape || key == Qt::Key_Delete) {
        setOutage({});
        emit outageUnwanted();
        return true;
    }
    const bool shift = event->modifiers() & Qt::ShiftModifier,
               control = event->modifiers() & Qt::ControlModifier;
    if ((key != Qt::Key_Left && key != Qt::Key_Right) || (!shift && !control)) return false;
    const int by = key == Qt::Key_Left ? -1 : 1;
    OutageSpan span = *outage_;
    if (!control)
        span.days = std::clamp(span.days + by, 1,
                               std::max(1, static_cast<int>((limits_.end - span.from).count())));
    else
        span.from += std::chrono::days(by * (shift ? four_weeks : 1));
    span = held(span, limits_);
    if (span != outage_) {
        setOutage(span);
        emit outageWanted(span);
    }
    return true;
}

bool TimeChart::keyOnDates(QKeyEvent* event) {
    const auto [from, to] = daysInSight(allDays());
    const auto all = readings();
    double about = (from + to) / 2;
    if (shown() >= 0 && shown() < static_cast<int>(all.size()))
        about = plotFor(width(), font()).days.unmap(all[static_cast<std::size_t>(shown())].at.x());
    switch (event->key()) {
        case Qt::Key_Plus:
        case Qt::Key_Equal:
            zoom(zoom_step, about);
            return true;
        case Qt::Key_Minus:
            zoom(1 / zoom_step, about);
            return true;
        case Qt::Key_0:
            showAllDates();
            return true;
        case Qt::Key_PageUp:
            pan(-(to - from) / 2);
            return true;
        case Qt::Key_PageDown:
            pan((to - from) / 2);
            return true;
        default:
            return false;
    }
}

void TimeChart::keyPressEvent(QKeyEvent* event) {
    if (hasData() && (keyOnOutage(event) || keyOnDates(event))) {
        event->accept();
        return;
    }
    ReadChart::keyPressEvent(event);
    // What is read comes into sight.
    const auto all = readings();
    if (!event->isAccepted() || shown() < 0 || shown() >= static_cast<int>(all.size())) return;
    const Plot plot = plotFor(width(), font());
    const double day = plot.days.from + (all[static_cast<std::size_t>(shown())].at.x() - plot.days.start) /
                                            (plot.days.end - plot.days.start) * (plot.days.to - plot.days.from);
    if (day < plot.days.from) pan(day - plot.days.from - 1);
    if (day > plot.days.to) pan(day - plot.days.to + 1);
}

void TimeChart::wheelEvent(QWheelEvent* event) {
    if (!hasData() || !(event->modifiers() & Qt::ControlModifier) || event->angleDelta().y() == 0) {
        event->ignore();  // the page scrolls
        return;
    }
    zoom(std::pow(zoom_step, event->angleDelta().y() / 120.0),
         plotFor(width(), font()).days.unmap(event->position().x()));
    event->accept();
}

void TimeChart::drawOutage(QPainter& painter, const Plot& plot, const Theme& theme,
                           const QFont& font, bool words) const {
    if (!outage_) return;
    const double from = dayOf(outage_->from), to = dayOf(outage_->to());
    if (to <= plot.days.from || from >= plot.days.to) return;
    double left = plot.days.map(from), right = plot.days.map(to);
    if (right - left < least_block) {
        const double middle = (left + right) / 2;
        left = middle - least_block / 2;
        right = middle + least_block / 2;
    }
    const QRectF block(left, plot.place.top(), right - left, plot.place.height());
    hatch(painter, block, mixed(theme.surface, theme.full, 0.45), 7, 1.2);
    painter.setPen(QPen(theme.full, 1.6));
    if (from >= plot.days.from) painter.drawLine(block.topLeft(), block.bottomLeft());
    if (to <= plot.days.to) painter.drawLine(block.topRight(), block.bottomRight());
    if (!words) return;
    const QFontMetricsF metrics(font);
    const QString text = OutageText::block(*outage_);
    const double w = std::ceil(metrics.horizontalAdvance(text)) + 1;
    const double x =
        std::clamp((left + right - w) / 2, ring_room, std::max(ring_room, plot.place.right() - w));
    painter.setPen(theme.full);
    painter.setFont(font);
    painter.drawText(QRectF(x, plot.place.top() - metrics.height() - 1, w, metrics.height()),
                     Qt::AlignCenter, text);
}

void TimeChart::drawCalendar(QPainter& painter, const Plot& plot, const Theme& theme,
                             const QFont& font) const {
    const QFontMetricsF metrics(font);
    const QDate first = Words::date(origin_);
    const auto ticks = calendar_ticks(first.addDays(static_cast<qint64>(std::ceil(plot.days.from))),
                                      first.addDays(static_cast<qint64>(std::floor(plot.days.to))),
                                      plot.place.width(), metrics);
    painter.setFont(font);
    for (const DateTick& tick : ticks) {
        const double x =
            std::round(plot.days.map(static_cast<double>(first.daysTo(tick.date)))) + 0.5;
        const double bottom = plot.place.bottom(), em = metrics.height();
        painter.setPen(QPen(theme.edge, 1));
        painter.drawLine(QPointF(x, bottom), QPointF(x, bottom + em * 0.22));
        const double w = metrics.horizontalAdvance(tick.text) + 2;
        painter.setPen(theme.muted);
        painter.drawText(QRectF(x - w / 2, bottom + em * 0.28, w, em), Qt::AlignCenter, tick.text);
    }
    painter.setPen(QPen(theme.edge, 1));
    const double y = std::round(plot.place.bottom()) + 0.5;
    painter.drawLine(QPointF(plot.place.left(), y), QPointF(plot.place.right(), y));
}

}  // namespace ullage
