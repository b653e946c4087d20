// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Age of the newest copy over the horizon, in steps of four weeks: half of the time, 19 in 20
/// times, worst; with an outage that is drawn on it, and how the age climbs through that.
///
/// From zero; lines are labelled at the right edge. Enter on a value that is read draws an outage
/// of a week at the start of its four weeks.

#include "core/outlook/outage_drill.h"
#include "ui/arrive/time_chart.h"

#include <array>
#include <memory>

namespace ullage {

struct AgeGeometry {
    TimeChart::Plot plot;
    Scale hours;  ///< to pixels, upwards
    std::vector<AxisMark> marks;
    std::array<QString, 3> labels;  ///< half of the time, 19 in 20 times, worst
    std::array<QRectF, 3> label_places;
    double height = 0;
};

class AgeChart : public TimeChart {
    Q_OBJECT

public:
    explicit AgeChart(QWidget* parent = nullptr);

    static constexpr int first_days = 7;  ///< of an outage placed by the keyboard

    /// Values are copied; null: nothing to show yet.
    void setSend(const SendOutlook* send, Day as_of, double horizon_days);
    /// Of the outage shown, or of an earlier one while that is worked out; may be null.
    void setDrill(std::shared_ptr<const OutageDrill> drill);

    bool hasData() const override { return has_ && !send_.copy_age.empty(); }
    QString title() const override;
    QString summary() const override;
    std::vector<Reading> readings() const override;
    AgeGeometry geometryFor(double width, const QFont& font) const;
    Plot plotFor(double width, const QFont& font) const override {
        return geometryFor(width, font).plot;
    }

    int heightForWidth(int width) const override;

protected:
    double allDays() const override { return horizon_; }
    void drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                     const QFont& font) const override;

private:
    double endOf(std::size_t point) const;  ///< day, from the origin

    SendOutlook send_;
    double horizon_ = 1;
    bool has_ = false;
    std::shared_ptr<const OutageDrill> drill_;
};

}  // namespace ullage
