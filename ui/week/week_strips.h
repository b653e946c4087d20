// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A send's week as seven strips, Monday to Sunday: open hours shaded by their share of the line,
/// each run drawn to length (a bar to the middle forecast, a thinner one on to 19 in 20), late runs
/// hatched.

#include "core/findings/findings.h"
#include "ui/theme/drawn_widget.h"
#include "ui/week/week_geometry.h"

#include <array>
#include <vector>

namespace ullage {

class WeekStrips : public DrawnWidget {
    Q_OBJECT

public:
    explicit WeekStrips(QWidget* parent = nullptr);

    /// Values are copied; null: nothing to show yet. `zone`: the site's wall clock.
    void setSend(const SendOutlook* send, const TimeZone& zone);
    void setPrefixes(Prefixes prefixes);

    WeekGeometry geometryFor(double width, const QFont& font) const;
    /// What is under a point, in words; empty for nothing.
    QString wordsAt(const QPointF& point) const;

    bool hasHeightForWidth() const override { return true; }
    int heightForWidth(int width) const override;

protected:
    void drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                     const QFont& font) const override;
    void stateChanged() override { tell(); }
    bool event(QEvent* event) override;

private:
    struct Run {
        double start = 0;  ///< hour of the week
        RunOfWeek of;
    };
    void tell();
    QString runWords(const Run& run) const;

    QString name_;
    std::vector<Run> runs_;
    std::vector<std::array<double, 3>> open_;
    bool has_send_ = false;
    Prefixes prefixes_ = Prefixes::decimal;
};

}  // namespace ullage
