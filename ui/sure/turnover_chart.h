// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The turnover curve of a dataset against what its listing shows: a point and its p10…p90 whisker
/// for each measured length of step, the curve's middle and its band, and where measurement begins
/// and ends.
///
/// Both axes are logarithmic. Steps run from an hour to months and the curve to five years, four
/// and a half powers of ten; what they free spans two to four more. On an even scale every step of
/// a day or less would lie on the corner, and their whiskers, the very thing to judge the fit by,
/// would be thinner than the line; by logarithms equal factors look equal at every length. The
/// price: no zero. Bytes of 0 lie on the lower edge, drawn as an open triangle.

#include "core/outlook/outlook.h"
#include "ui/sure/read_chart.h"
#include "ui/sure/scale.h"
#include "ui/theme/key_row.h"

#include <QRectF>

#include <vector>

namespace ullage {

struct EdgeLabel {
    QString text;
    QRectF place;
    double wished = 0;  ///< y of what it names
};

struct TurnoverGeometry {
    QRectF plot;
    Scale days, bytes;
    std::vector<AxisMark> day_marks, byte_marks;
    double measured_start = 0, measured_end = 0;  ///< x: outside the curve is extrapolated
    QString measured_words, beyond_words;
    /// Above the plot; empty if there is no room. What stands beyond stands before as well.
    QRectF before_place, measured_place, beyond_place;
    std::vector<EdgeLabel> labels;  ///< upper edge, middle, lower edge; empty without a curve
    KeyRow key;
    double height = 0;
};

class TurnoverChart : public ReadChart {
    Q_OBJECT

public:
    explicit TurnoverChart(QWidget* parent = nullptr);

    /// Values are copied; null: nothing to show yet.
    void setDataset(const DatasetOutlook* dataset);

    bool hasData() const override;
    QString title() const override;
    QString summary() const override;
    std::vector<Reading> readings() const override;
    TurnoverGeometry geometryFor(double width, const QFont& font) const;

    int heightForWidth(int width) const override;

protected:
    void drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                     const QFont& font) const override;

private:
    DatasetOutlook dataset_;
    bool has_ = false;
};

}  // namespace ullage
