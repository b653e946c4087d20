// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The picture of a fill forecast: series, axes, labels and marks on a QChart. Internal to
/// ui/charts: includes Qt Charts, which nothing outside this folder does.
///
/// Model: x is days from `as_of`, y is bytes in the shown unit. Series are made once and refilled.
/// The plot area is set by hand, so labels, marks and the date reader are placed by one linear map
/// and not by asking the chart. Order from below: live, held, other; grid; the band 1 in 10 … 9 in
/// 10, the middle half, their edges; ceiling and full; the kept middle forecast, the middle forecast; reader. Ceiling and
/// full are steps where the box is changed; above the plot a diamond marks an event of a dataset, a
/// square a change of the box.

#include "core/outlook/outlook.h"
#include "core/units/quantity_text.h"
#include "ui/charts/calendar_ticks.h"
#include "ui/charts/fill_levels.h"
#include "ui/theme/theme.h"

#include <QFont>
#include <QObject>
#include <QRectF>
#include <QtCharts/QChart>

#include <vector>

class QAreaSeries;
class QCategoryAxis;
class QGraphicsEllipseItem;
class QGraphicsLineItem;
class QGraphicsPathItem;
class QGraphicsSimpleTextItem;
class QLineSeries;
class QValueAxis;

namespace ullage {

class FillPlot : public QObject {
    Q_OBJECT

public:
    explicit FillPlot(QObject* parent = nullptr);

    /// Owned by whoever puts it into a scene or a view.
    QChart* chart() const { return chart_; }

    void setBox(const BoxOutlook* box, double horizon_days, Day as_of);
    /// The middle forecast of the same box in an outlook that was kept, drawn as a further line with
    /// `name` at its end. Values are copied; null: none.
    void setKept(const BoxOutlook* kept, const QString& name);
    void setPrefixes(Prefixes prefixes);
    void setPartsShown(bool shown);
    void setLook(const Theme& theme, const QFont& font);
    /// Index of a computed date; < 0 hides the reader.
    void setReader(int index);
    /// Days from as_of; held within the horizon, at least two weeks broad.
    void setDayRange(double from, double to);
    void layOut(const QSizeF& size);

    const std::vector<FillPoint>& points() const { return box_.fill; }
    int reader() const { return reader_; }
    double fromDay() const { return from_; }
    double toDay() const { return to_; }
    double horizon() const { return horizon_; }
    QRectF plotArea() const { return plot_; }
    double xOf(double day) const;
    double dayAt(double x) const;
    int nearest(double day) const;  ///< index, −1 without points
    double dayOf(int index) const;

    const std::vector<SpaceLevel>& levels() const { return levels_; }
    QList<QPointF> fullLine() const;  ///< as drawn: days, shown unit
    QList<QPointF> ceilingLine() const;
    QList<QPointF> keptLine() const;
    /// Of the marks above the plot, those seen now, by date within their kind: events, changes.
    QStringList markTips() const;
    std::vector<QRectF> labelBoxes() const;  ///< of the texts at the right edge
    QStringList labelTexts() const;
    std::vector<DateTick> ticks() const { return ticks_; }
    QStringList axisTexts() const;  ///< as the chart's own axis has them

private:
    struct EdgeLabel {
        QString text;
        double value = 0;  ///< shown unit
        QColor Theme::*colour = &Theme::muted;
        QGraphicsSimpleTextItem* item = nullptr;
        QGraphicsLineItem* leader = nullptr;
    };

    void fillSeries();
    void sayLevels();
    QList<QPointF> keptPoints() const;  ///< days from as_of, bytes
    double keptValueAt(double day) const;
    void layOutDates(const QFontMetricsF& metrics);
    void placeOverlay();
    void colourOverlay();
    void placeReader();
    void style();
    double yOf(double value) const;
    FillPoint pointAt(double day) const;

    QChart* chart_ = nullptr;
    QLineSeries *live_top_ = nullptr, *held_low_ = nullptr, *held_top_ = nullptr,
                *other_low_ = nullptr, *other_top_ = nullptr;
    QLineSeries *p10_ = nullptr, *p25_ = nullptr, *p75_ = nullptr, *p90_ = nullptr;
    QAreaSeries *live_ = nullptr, *held_ = nullptr, *other_ = nullptr, *outer_ = nullptr,
                *inner_ = nullptr;
    QLineSeries *edge_low_ = nullptr, *edge_high_ = nullptr, *median_ = nullptr,
                *ceiling_ = nullptr, *full_ = nullptr,
                *kept_line_ = nullptr;
    QCategoryAxis* dates_ = nullptr;
    QValueAxis* sizes_ = nullptr;

    QGraphicsSimpleTextItem* unit_text_ = nullptr;
    QGraphicsLineItem* reader_line_ = nullptr;
    std::vector<QGraphicsEllipseItem*> reader_dots_;
    std::vector<EdgeLabel> labels_;
    int ceiling_label_ = -1, full_label_ = -1, kept_label_ = -1;  ///< index; −1: none
    std::vector<SpaceLevel> levels_;
    struct EventItem {
        double day = 0;
        bool of_box = false;
        QGraphicsLineItem* line = nullptr;
        QGraphicsPathItem* mark = nullptr;
    };
    std::vector<EventItem> events_;
    std::vector<DateTick> ticks_;

    BoxOutlook box_;
    bool has_box_ = false;
    std::vector<FillPoint> kept_;
    QString kept_name_;
    Day as_of_{};
    double horizon_ = 1, from_ = 0, to_ = 1;
    Prefixes prefixes_ = Prefixes::decimal;
    double unit_bytes_ = 1;
    QString unit_;
    double top_ = 1;
    bool parts_ = true;
    int reader_ = -1;
    Theme theme_;
    QFont font_;
    QSizeF size_;
    QRectF plot_;
    QRectF laid_out_;  ///< the plot that the dates were last set for
};

}  // namespace ullage
