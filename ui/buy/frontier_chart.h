// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Cost over the horizon (across) against years until the ceiling (up), a mark for every offer that
/// goes into the box, and one for buying nothing at no cost. The mark stands at the middle
/// forecast, its line runs from 1 in 10 to 9 in 10 futures. What comes after the horizon stands in
/// a band of its own above it, "later", never at a day. Steps join the offers that no other
/// outdoes.
///
/// Both axes start at zero. Names stand beside their marks where there is room, with a thin line to
/// them where they had to move; a name without room is left to reading and table.
/// Invariants: names overlap neither each other nor a mark, and lie within the picture.

#include "core/outlook/outlook.h"
#include "ui/buy/buy_text.h"
#include "ui/sure/read_chart.h"
#include "ui/sure/scale.h"
#include "ui/theme/key_row.h"

#include <optional>
#include <string>
#include <vector>

namespace ullage {

struct FrontierPoint {
    int offer = -1;  ///< index in the outlook's offers; −1: nothing bought
    Standing standing = Standing::holds;
    QPointF at;
    QRectF mark;
    std::optional<double> low, high;  ///< y of 1 in 10 and 9 in 10; `high` may lie in the band
    bool high_later = false, later = false;
    QString name;  ///< as drawn: may be cut
    QRectF label;  ///< empty: no room
    bool moved = false;
};

struct FrontierGeometry {
    QRectF plot, later_band;
    Scale cost, years;
    std::vector<AxisMark> cost_ticks, year_ticks;
    QString cost_title, years_title, later_words;
    std::vector<FrontierPoint> points;  ///< in the order of the keyboard: by cost
    std::vector<QPointF> steps;         ///< of the line that joins what is not outdone
    KeyRow key;
    std::vector<Standing> key_standings;
    double height = 0;
};

class FrontierChart : public ReadChart {
    Q_OBJECT

public:
    explicit FrontierChart(QWidget* parent = nullptr);

    /// Values are copied; null: nothing to show yet. `box`: its name.
    void setOffers(const Outlook* outlook, const std::string& box);
    /// Index in the outlook's offers of a reading; −1: none of them.
    int offerAt(int reading) const;

    bool hasData() const override;
    QString title() const override;
    QString summary() const override;
    std::vector<Reading> readings() const override;
    int heightForWidth(int width) const override;
    FrontierGeometry geometryFor(double width, const QFont& font) const;

protected:
    void drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                     const QFont& font) const override;

private:
    struct Entry {
        int offer = -1;
        Standing standing = Standing::holds;
        double cost = 0;
        DayQuantiles days;
        QString name, words;
    };
    static void placeLabels(FrontierGeometry& geometry, const std::vector<Entry>& entries,
                            double width, const QFont& font);

    std::vector<Entry> entries_;  ///< by cost
    std::string box_, currency_;
    double horizon_ = 1;
    QString title_, note_;
};

}  // namespace ullage
