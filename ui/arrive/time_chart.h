// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A chart over days on which an outage lies: it is drawn with the mouse, its edges and itself can
/// be dragged, and the keyboard does the same.
///
/// Mouse: a press and a drag on free room draws an outage; a drag of an edge changes its length, of
/// its middle moves it. Keys, besides those that read: Shift with Left and Right shortens and
/// lengthens by a day, Ctrl moves by a day, both by four weeks; Escape or Delete takes it away. In
/// a drag Escape brings back what was before.
///
/// Dates in sight: Ctrl and wheel zooms about the pointer, Shift or the middle button drags the dates; + and −
/// zoom about what is read, Page Up and Page Down drag, 0 and the button show all dates again.

#include "ui/arrive/outage_span.h"
#include "ui/sure/read_chart.h"
#include "ui/sure/scale.h"

#include <QPointF>
#include <QRectF>

#include <optional>
#include <utility>

class QToolButton;

namespace ullage {

/// Marks of lengths of time from zero, at whole hours, days or weeks; at most `most` steps.
std::vector<AxisMark> time_marks(double top_hours, int most);

class TimeChart : public ReadChart {
    Q_OBJECT

public:
    explicit TimeChart(QWidget* parent = nullptr);

    void setOutage(const std::optional<OutageSpan>& outage);
    const std::optional<OutageSpan>& outage() const { return outage_; }
    bool isDragging() const { return drag_.active(); }
    /// The value of the day that is nearest, within the plot.
    int nearest(const QPointF& point) const override;

    struct Plot {
        QRectF place;
        Scale days;  ///< from the origin to pixels
    };
    virtual Plot plotFor(double width, const QFont& font) const = 0;
    Day origin() const { return origin_; }
    double dayOf(Day day) const { return static_cast<double>((day - origin_).count()); }
    const OutageLimits& limits() const { return limits_; }
    /// Days from the origin in sight, of all `days`.
    std::pair<double, double> daysInSight(double days) const;
    bool isZoomed() const { return in_sight_.has_value(); }
    void showAllDates();

signals:
    void outageWanted(const ullage::OutageSpan& span);
    void outageUnwanted();

protected:
    void setDays(Day origin, const OutageLimits& limits);
    /// All days that there are to see, from the origin.
    virtual double allDays() const = 0;
    bool isInSight(const QPointF& at) const override;
    /// Called when a drag has ended.
    virtual void dragEnded() {}
    /// The hatched block over `place`, its edges and, above `place`, its words.
    void drawOutage(QPainter& painter, const Plot& plot, const Theme& theme, const QFont& font,
                    bool words) const;
    /// Ticks and words of the calendar under `place`.
    void drawCalendar(QPainter& painter, const Plot& plot, const Theme& theme,
                      const QFont& font) const;

    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    OutageDrag::Grip gripAt(const QPointF& point) const;
    bool keyOnOutage(QKeyEvent* event);
    bool keyOnDates(QKeyEvent* event);
    void zoom(double factor, double about_day);
    void look(double from_day, double to_day);
    void pan(double days);
    void placeButton();
    void stopDragging();

    std::optional<OutageSpan> outage_;
    OutageLimits limits_;
    Day origin_{};
    OutageDrag drag_;
    std::optional<QPointF> pressed_;  ///< on free room, not yet moved far enough to draw
    std::optional<std::pair<double, double>> in_sight_;  ///< days from the origin; empty: all
    std::optional<double> dragged_x_;                    ///< where the dates that are dragged were last
    QToolButton* all_dates_;
};

}  // namespace ullage
