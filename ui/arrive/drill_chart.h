// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Day by day through an outage: above, how old the newest copy gets; beneath, what waits at the
/// day's end. Middle forecast as a thick line, up to 19 in 20 as a band; the time in which the line
/// is down is hatched, that of catching up is shaded.
///
/// While the outage is dragged here, the days stay as they are, so that nothing moves under the
/// hand; the answer is shown when it is let go.

#include "core/outlook/outage_drill.h"
#include "ui/arrive/time_chart.h"
#include "ui/theme/key_row.h"

#include <memory>

namespace ullage {

struct DrillGeometry {
    TimeChart::Plot plot;  ///< of both panels
    QRectF ages, waiting;  ///< the panels
    QRectF ages_name, waiting_name;
    Scale hours, bytes;  ///< to pixels, upwards
    std::vector<AxisMark> hour_marks, byte_marks;
    KeyRow key;
    double height = 0;
};

class DrillChart : public TimeChart {
    Q_OBJECT

public:
    explicit DrillChart(QWidget* parent = nullptr);

    /// Null: none. `limits`: of what can be asked.
    void setDrill(std::shared_ptr<const OutageDrill> drill, const OutageLimits& limits);
    const std::shared_ptr<const OutageDrill>& drill() const { return drill_; }

    bool hasData() const override { return drill_ && !drill_->daily.empty(); }
    QString title() const override;
    QString summary() const override;
    std::vector<Reading> readings() const override;
    DrillGeometry geometryFor(double width, const QFont& font) const;
    Plot plotFor(double width, const QFont& font) const override {
        return geometryFor(width, font).plot;
    }

    int heightForWidth(int width) const override;

protected:
    double allDays() const override { return drill_ ? static_cast<double>(drill_->daily.size()) : 1; }
    void dragEnded() override;
    void drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                     const QFont& font) const override;

private:
    void take(std::shared_ptr<const OutageDrill> drill, const OutageLimits& limits);

    std::shared_ptr<const OutageDrill> drill_, later_;
    OutageLimits later_limits_;
};

}  // namespace ullage
