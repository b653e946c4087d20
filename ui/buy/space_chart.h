// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Where the space of a pool's drives goes, from the sum of their labels down to what is yours, in
/// horizontal steps: what each takes is hatched, what is left stays filled. Every size stands in TB
/// and in TiB.

#include "core/outlook/outlook.h"
#include "ui/sure/read_chart.h"
#include "ui/theme/bar_rows.h"

#include <optional>
#include <string>
#include <vector>

namespace ullage {

class SpaceChart : public ReadChart {
    Q_OBJECT

public:
    explicit SpaceChart(QWidget* parent = nullptr);

    /// Empty: nothing to show. `ceiling`: its share of the usable space, 0…1. `what`: whose it is;
    /// another one lets go of what was read.
    void setCapacity(const std::optional<PoolCapacity>& capacity, double ceiling,
                     const std::string& what);
    const std::vector<CapacityStep>& steps() const { return steps_; }
    double ceiling() const { return ceiling_; }

    bool hasData() const override { return !steps_.empty(); }
    QString title() const override;
    QString summary() const override;
    std::vector<Reading> readings() const override;
    int nearest(const QPointF& point) const override;  ///< the row under the point
    int heightForWidth(int width) const override;
    /// A row for each step, then what is yours.
    BarRows rowsFor(double width, const QFont& font) const;

protected:
    void drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                     const QFont& font) const override;

private:
    std::vector<CapacityStep> steps_;
    PoolCapacity capacity_;
    double ceiling_ = 1;
    std::string what_;
};

}  // namespace ullage
