// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A gauge in small, for a strip of all boxes: status shape, name, headline, and a bar from 1 in 10
/// to 9 in 10 on the same track of time, with a tick at the middle. A button: click, Space or Enter
/// choose it.

#include "ui/gauge/gauge_geometry.h"
#include "ui/theme/drawn_button.h"
#include "ui/theme/drawn_widget.h"

namespace ullage {

/// Where a card's parts lie.
struct CardGeometry {
    QRectF shape, name, headline, when, kept, bar_place;
    TimeTrack track;
    std::optional<double> p10, p50, p90;
    double height = 0;
};

class GaugeCard : public DrawnButton {
    Q_OBJECT

public:
    explicit GaugeCard(QWidget* parent = nullptr);

    /// As DaysUntilFullGauge::setBox.
    void setBox(const BoxOutlook* box, double horizon_days, Day as_of, Level status);
    /// The headline of what is compared with, beneath the present one; empty: nothing is.
    void setKept(const QString& headline);
    const QString& kept() const { return kept_; }
    void setState(ShownState state);
    const GaugeText& said() const { return text_; }
    CardGeometry geometryFor(double width) const;

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;
    int heightForWidth(int width) const override;
    /// Logical pixels in which an ordinary headline fits.
    static int leastWidth(const QFont& font);

protected:
    void paintEvent(QPaintEvent* event) override;

private:
    QString whenWords() const;

    void tell();

    GaugeText text_;
    QString kept_;
    GaugeNumbers numbers_;
    Level status_ = Level::note;
    ShownState state_ = ShownState::ready;
};

}  // namespace ullage
