// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/hours/hours_painter.h"

#include "ui/theme/theme.h"

#include <QAccessible>
#include <QFontMetricsF>
#include <QKeyEvent>
#include <QLocale>
#include <QMouseEvent>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ullage::ui {

namespace {

constexpr int usual_start = 38;  // 19:00, where the night of most lines begins

QString dayName(int day) { return QLocale().dayName(day + 1, QLocale::ShortFormat); }

QString timeText(int half) {
    return QStringLiteral("%1:%2").arg(half / 2, 2, 10, QLatin1Char('0')).arg(half % 2 * 30, 2, 10, QLatin1Char('0'));
}

}  // namespace

HoursPainter::HoursPainter(QWidget* parent) : QWidget(parent) {
    setFocusPolicy(Qt::StrongFocus);
    setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    anchor_ = here_ = {0, usual_start};
    setToolTip(tr("Drag to open or close hours. Keys: arrows, Shift with arrows, Space."));
}

void HoursPainter::setGrid(const WeekGrid& grid) {
    grid_ = grid;
    update();
    say();
}

QSize HoursPainter::sizeHint() const {
    const QFontMetricsF metrics(font());
    const double row = std::max(14.0, metrics.height());
    return {static_cast<int>(metrics.averageCharWidth() * 44), static_cast<int>(std::ceil(row * 7 + metrics.height() * 1.3 + 4))};
}

QSize HoursPainter::minimumSizeHint() const {
    return {static_cast<int>(QFontMetricsF(font()).averageCharWidth() * 26), sizeHint().height()};
}

QRectF HoursPainter::stripes() const {
    const QFontMetricsF metrics(font());
    double names = 0;
    for (int day = 0; day < 7; ++day) names = std::max(names, metrics.horizontalAdvance(dayName(day)));
    const double left = std::ceil(names + metrics.averageCharWidth());
    const double bottom = metrics.height() * 1.3;
    return {left, 2, std::max(1.0, width() - left - 2), std::max(1.0, height() - bottom - 2)};
}

QRectF HoursPainter::cellPlace(int day, int cell) const {
    const QRectF all = stripes();
    const double w = all.width() / cells_a_day;
    const double h = all.height() / 7;
    return {all.left() + cell * w, all.top() + day * h, w, h};
}

HoursPainter::Cell HoursPainter::cellAt(const QPointF& at) const {
    const QRectF all = stripes();
    const auto part = [](double x, double size, int count) {
        return std::clamp(static_cast<int>(std::floor(x / size * count)), 0, count - 1);
    };
    return {part(at.y() - all.top(), all.height(), 7), part(at.x() - all.left(), all.width(), cells_a_day)};
}

double HoursPainter::shareForOpening() const {
    double share = 0;
    for (const double of_cell : grid_) share = std::max(share, of_cell);
    return share > 0 ? share : 1;
}

WeekGrid HoursPainter::filled(double share) const {
    WeekGrid grid = grid_;
    for (int day = std::min(anchor_.day, here_.day); day <= std::max(anchor_.day, here_.day); ++day)
        for (int half = std::min(anchor_.half, here_.half); half <= std::max(anchor_.half, here_.half); ++half)
            at(grid, {day, half}) = share;
    return grid;
}

QString HoursPainter::cellWords() const {
    const int first = std::min(anchor_.half, here_.half);
    const int last = std::max(anchor_.half, here_.half) + 1;
    const QString days = anchor_.day == here_.day
                             ? dayName(here_.day)
                             : tr("%1 to %2", "days").arg(dayName(std::min(anchor_.day, here_.day)),
                                                          dayName(std::max(anchor_.day, here_.day)));
    const double share = at(here_);
    const QString state = share <= 0   ? tr("closed")
                          : share >= 1 ? tr("open")
                                       : tr("open, %1 % of the line").arg(qRound(share * 100));
    return tr("%1, %2 to %3: %4", "days, time, time, state").arg(days, timeText(first), timeText(last), state);
}

void HoursPainter::say() {
    setAccessibleDescription(cellWords());
    QAccessibleEvent changed(this, QAccessible::DescriptionChanged);
    QAccessible::updateAccessibility(&changed);
}

void HoursPainter::mousePressEvent(QMouseEvent* event) {
    if (event->button() != Qt::LeftButton || !isEnabled()) return;
    anchor_ = here_ = cellAt(event->position());
    stroke_ = at(here_) > 0 ? 0 : shareForOpening();
    say();
    update();
}

void HoursPainter::mouseMoveEvent(QMouseEvent* event) {
    if (!stroke_) return;
    const Cell now = cellAt(event->position());
    if (now == here_) return;
    here_ = now;
    say();
    update();
}

void HoursPainter::mouseReleaseEvent(QMouseEvent* event) {
    if (!stroke_ || event->button() != Qt::LeftButton) return;
    grid_ = filled(*stroke_);
    stroke_.reset();
    anchor_ = here_;
    say();
    update();
    emit painted(grid_);
}

void HoursPainter::keyPressEvent(QKeyEvent* event) {
    Cell to = here_;
    switch (event->key()) {
        case Qt::Key_Left: to.half -= 1; break;
        case Qt::Key_Right: to.half += 1; break;
        case Qt::Key_Up: to.day -= 1; break;
        case Qt::Key_Down: to.day += 1; break;
        case Qt::Key_Home: to.half = 0; break;
        case Qt::Key_End: to.half = cells_a_day - 1; break;
        case Qt::Key_Space: {
            grid_ = filled(at(here_) > 0 ? 0 : shareForOpening());
            say();
            update();
            emit painted(grid_);
            return;
        }
        default: QWidget::keyPressEvent(event); return;
    }
    here_ = {std::clamp(to.day, 0, 6), std::clamp(to.half, 0, cells_a_day - 1)};
    if (!(event->modifiers() & Qt::ShiftModifier)) anchor_ = here_;
    say();
    update();
}

void HoursPainter::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    update();
}

void HoursPainter::focusOutEvent(QFocusEvent* event) {
    QWidget::focusOutEvent(event);
    update();
}

void HoursPainter::paintEvent(QPaintEvent*) {
    const Theme theme = Theme::of(palette());
    const QFontMetricsF metrics(font());
    const QRectF all = stripes();
    const WeekGrid shown = stroke_ ? filled(*stroke_) : grid_;
    QPainter painter(this);
    painter.fillRect(all, theme.surface);
    for (int day = 0; day < 7; ++day) {
        const QRectF strip(0, cellPlace(day, 0).top(), all.left(), cellPlace(day, 0).height());
        painter.setPen(theme.muted);
        painter.drawText(strip, Qt::AlignLeft | Qt::AlignVCenter, dayName(day));
        for (int half = 0; half < cells_a_day; ++half) {
            const double share = shown[std::size_t(day * cells_a_day + half)];
            if (share <= 0) continue;
            const QRectF cell = cellPlace(day, half).adjusted(0, 1.5, 0.6, -1.5);
            painter.fillRect(cell, mixed(theme.surface, theme.median, 0.25 + 0.6 * share));
        }
    }
    painter.setPen(QPen(theme.grid, 1));
    for (int hour = 0; hour <= 24; hour += 6) {
        const double x = all.left() + all.width() * hour / 24;
        painter.drawLine(QPointF(x, all.top()), QPointF(x, all.bottom()));
    }
    for (int day = 0; day <= 7; ++day) {
        const double y = all.top() + all.height() * day / 7;
        painter.drawLine(QPointF(all.left(), y), QPointF(all.right(), y));
    }
    painter.setPen(theme.muted);
    for (int hour = 0; hour <= 24; hour += 6) {
        const double x = all.left() + all.width() * hour / 24;
        const QString text = QString::number(hour);
        const double w = metrics.horizontalAdvance(text);
        painter.drawText(QPointF(std::clamp(x - w / 2, all.left(), all.right() - w), all.bottom() + metrics.ascent() + 2), text);
    }
    if (hasFocus()) {
        const QRectF ring = cellPlace(anchor_.day, anchor_.half).united(cellPlace(here_.day, here_.half));
        painter.setPen(QPen(theme.focus, 2));
        painter.setBrush(Qt::NoBrush);
        painter.drawRect(ring.adjusted(-1, 0, 1, 0));
    }
}

}  // namespace ullage::ui
