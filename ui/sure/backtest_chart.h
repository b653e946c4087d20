// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Forecasts made from earlier dates against what came: one small panel for each date, all on the
/// same two scales, so that they can be compared at a glance.
///
/// Band p10…p90 and middle of the forecast, starting at what was there on its date; what came as
/// points, filled where it lay within the band and as open squares where it did not. Of many dates
/// four are drawn, evenly among them, the oldest and the newest included; the table has all.
/// Live bytes are drawn as their change since the forecast was made: beside their own size, on a
/// scale from zero, neither the change nor the band would be seen.

#include "core/outlook/outlook.h"
#include "ui/sure/read_chart.h"
#include "ui/sure/scale.h"
#include "ui/sure/sure_text.h"
#include "ui/theme/key_row.h"

#include <QRectF>

#include <vector>

namespace ullage {

inline constexpr int most_panels = 4;

/// Indices, rising, of at most `most` of `count` origins, evenly among them.
std::vector<std::size_t> chosen_origins(std::size_t count, int most = most_panels);

struct BacktestGeometry {
    struct Panel {
        std::size_t origin = 0;  ///< index in the backtest
        QRectF name, detail;     ///< two lines above the plot
        QRectF plot;
        Scale days, bytes;
        bool first_in_row = false;  ///< carries the marks of sizes
        std::vector<AxisMark> day_marks;
    };
    std::vector<Panel> panels;
    std::vector<AxisMark> byte_marks;
    KeyRow key;
    double height = 0;
};

class BacktestChart : public ReadChart {
    Q_OBJECT

public:
    explicit BacktestChart(Figure figure, QWidget* parent = nullptr);

    /// Values are copied; null: nothing to show yet.
    void setDataset(const DatasetOutlook* dataset);
    Figure figure() const { return figure_; }

    bool hasData() const override;
    QString title() const override;
    QString summary() const override;
    std::vector<Reading> readings() const override;
    BacktestGeometry geometryFor(double width, const QFont& font) const;
    /// What is not drawn; empty if all is.
    QString caution() const;

    int heightForWidth(int width) const override;

protected:
    void drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                     const QFont& font) const override;

private:
    const std::vector<ForecastThen>& forecasts(std::size_t origin) const;
    double start_of(std::size_t origin) const;  ///< bytes at the origin's own date

    Figure figure_;
    DatasetOutlook dataset_;
    bool has_ = false;
};

}  // namespace ullage
