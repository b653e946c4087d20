// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What the day a box reaches its ceiling depends on: a bar for every uncertain input, from the day
/// with that input at its low value to the day with it at its high value, widest first, around the
/// day of the middle forecast.
///
/// Days run evenly from today. An end that does not come within the horizon is an arrow at the edge
/// and is said in words, never drawn as a day.

#include "core/outlook/outlook.h"
#include "ui/gauge/gauge_geometry.h"
#include "ui/sure/read_chart.h"
#include "ui/theme/key_row.h"

#include <QRectF>

#include <optional>
#include <vector>

namespace ullage {

struct DriverRow {
    QRectF place;  ///< all of the row
    QString name, range, share;
    QRectF name_place, range_place;   ///< range and share stand beside the name, or beneath it
    QRectF bar;                       ///< empty width if neither end comes
    std::optional<double> low, high;  ///< x of the ends that come
    bool later = false;               ///< one end does not come: the bar runs on as an arrow
};

struct DriversGeometry {
    std::vector<DriverRow> rows;
    TimeTrack track;
    std::vector<TrackTick> ticks;
    std::optional<double> middle;  ///< x
    QString middle_words;
    QRectF middle_place, rows_place;
    KeyRow key;
    double height = 0;
};

class DriverBars : public ReadChart {
    Q_OBJECT

public:
    explicit DriverBars(QWidget* parent = nullptr);

    /// Values are copied; null: nothing to show yet. `drivers`: of this box, in the order drawn.
    void setBox(const BoxOutlook* box, std::vector<Driver> drivers, double horizon_days);
    const std::vector<Driver>& drivers() const { return drivers_; }

    bool hasData() const override { return has_ && !drivers_.empty(); }
    QString title() const override;
    QString summary() const override;
    std::vector<Reading> readings() const override;
    int nearest(const QPointF& point) const override;  ///< the row under the point
    DriversGeometry geometryFor(double width, const QFont& font) const;

    int heightForWidth(int width) const override;

protected:
    void drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                     const QFont& font) const override;

private:
    BoxOutlook box_;
    std::vector<Driver> drivers_;
    double horizon_ = 1;
    bool has_ = false;
};

}  // namespace ullage
