// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What a stored byte of each dataset takes on a box's pool, by its block size: a bar for each,
/// filled up to 1.00 and hatched beyond, a ring where a better block size would end.

#include "core/outlook/outlook.h"
#include "ui/sure/read_chart.h"
#include "ui/theme/bar_rows.h"

#include <vector>

namespace ullage {

class BlockBars : public ReadChart {
    Q_OBJECT

public:
    explicit BlockBars(QWidget* parent = nullptr);

    /// Values are copied; null: nothing to show.
    void setBox(const BoxOutlook* box);
    const std::vector<BlockCost>& costs() const { return box_.costs; }

    bool hasData() const override { return !box_.costs.empty(); }
    QString title() const override;
    QString summary() const override;
    std::vector<Reading> readings() const override;
    int nearest(const QPointF& point) const override;  ///< the row under the point
    int heightForWidth(int width) const override;
    BarRows rowsFor(double width, const QFont& font) const;

protected:
    void drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                     const QFont& font) const override;

private:
    double top() const;  ///< end of the scale

    BoxOutlook box_;
};

}  // namespace ullage
