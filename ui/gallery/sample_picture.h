// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What a sample's card shows of its forecast: the fill over time of the box that has trouble first.

#include "core/findings/findings.h"

#include <QRectF>
#include <QString>

#include <vector>

class QPainter;

namespace ullage {
struct Theme;
}

namespace ullage::ui {

struct SamplePicture {
    struct Point {
        double part = 0;  ///< of the horizon, 0…1
        double low = 0, middle = 0, high = 0;  ///< used, as a share of usable: 1 in 10, half, 9 in 10
    };
    std::vector<Point> points;
    double ceiling = 0;    ///< share of usable, today
    QString words;         ///< for the screen reader and the tool tip; empty: no box is forecast
    Level status = Level::note;

    bool isEmpty() const { return points.empty(); }
    /// Of the box that comes to its ceiling first; of the first box where none does.
    static SamplePicture of(const Answer& answer);
};

/// Band, middle line, dashed ceiling, full at the top edge. Nothing where the picture is empty.
void drawPicture(QPainter& painter, const QRectF& place, const SamplePicture& picture, const Theme& theme);

}  // namespace ullage::ui
