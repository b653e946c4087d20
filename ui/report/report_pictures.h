// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The pictures of a report: the window's own gauges, fans and weeks, always in light colours, one
/// font and the figures of its own language, whatever the desktop has. So the same answer gives the same marks.

#include "core/report/html.h"
#include "core/report/report.h"

#include <QFont>
#include <QRectF>

class QPainter;

namespace ullage {

/// `pixels`: of a page of 104 to the inch.
QFont report_font(double pixels, QFont::Weight weight = QFont::Normal);

/// The answer must outlive it.
class ReportPictures {
public:
    explicit ReportPictures(const Answer& answer) : answer_(answer) {}

    /// Of the picture at that width with that font; 0 for one that the answer does not have.
    double height(const ReportPicture& picture, double width, const QFont& font) const;
    void paint(QPainter& painter, const QRectF& place, const ReportPicture& picture,
               const QFont& font) const;
    SvgDrawing svg(const ReportPicture& picture) const;

private:
    const Answer& answer_;
};

}  // namespace ullage
