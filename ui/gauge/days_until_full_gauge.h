// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// "Days until full": a track of time from today to the horizon with 20 countable marks, each one
/// of 20 equally likely futures, where each reaches the ceiling (round, upper lane) and full
/// (square, lower lane). Not a dial: that has no end for "never" and hides the spread.
///
/// States: no answer yet; ready (also: over the ceiling, full, shrinking, not within the horizon);
/// updating, cancelled, failed, in which the last figures stay, paler, with words that say so.

#include "ui/gauge/gauge_geometry.h"
#include "ui/theme/drawn_widget.h"

#include <optional>

namespace ullage {

using GaugeState = ShownState;

class DaysUntilFullGauge : public DrawnWidget {
    Q_OBJECT

public:
    explicit DaysUntilFullGauge(QWidget* parent = nullptr);

    /// Values are copied. Null: no answer yet. `horizon_days` > 0.
    void setBox(const BoxOutlook* box, double horizon_days, Day as_of, Level status);
    /// For a gauge without an answer: whose it will be.
    void setName(const QString& name);

    const GaugeText& text() const { return text_; }
    /// For the widget's present size.
    GaugeGeometry geometryNow() const;

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;
    bool hasHeightForWidth() const override { return true; }
    int heightForWidth(int width) const override;

protected:
    void drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                     const QFont& font) const override;
    void stateChanged() override;
    bool event(QEvent* event) override;

private:
    void tell();

    GaugeText text_;
    GaugeNumbers numbers_;
    Level status_ = Level::note;
    Day as_of_{};
};

}  // namespace ullage
