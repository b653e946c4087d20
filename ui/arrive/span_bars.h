// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Named bars from zero on one scale: a row's name and its figures above it, the parts of its bar
/// one after another or upon each other. What the bars mean is given (see send_pictures.h).
///
/// A bar that does not end within the picture's horizon runs on as an arrow and is said in words,
/// never drawn as if it ended.

#include "ui/sure/read_chart.h"
#include "ui/sure/scale.h"
#include "ui/theme/key_row.h"

#include <QRectF>
#include <QString>

#include <optional>
#include <utility>
#include <vector>

namespace ullage {

enum class PartStyle {
    solid,    ///< the middle, or the work itself
    pale,     ///< on to 19 in 20, or 9 in 10
    outline,  ///< waiting: nothing moves over the line
    hatched,  ///< catching up
};

struct SpanPart {
    double from = 0, to = 0;
    PartStyle style = PartStyle::solid;
};

struct SpanRow {
    QString name, figures;
    std::vector<SpanPart> parts;
    bool goes_on = false;  ///< does not end within the horizon
    bool strong = false;   ///< its name stands out: the one recommended, the worst
    QString words;         ///< the row as a sentence
};

struct SpanPicture {
    enum class Axis { time, share } axis = Axis::time;  ///< values: hours, or shares of 1
    QString title, summary;
    std::vector<SpanRow> rows;
    std::vector<std::pair<PartStyle, QString>> key;
    std::optional<double> line;  ///< a value that a bar should not pass, such as all open hours
};

struct SpanGeometry {
    struct Row {
        QRectF place, name, figures;
        std::vector<QRectF> parts;
        QRectF bar;  ///< of all parts
    };
    std::vector<Row> rows;
    Scale scale;
    std::vector<AxisMark> marks;
    QRectF rows_place;
    KeyRow key;
    double height = 0;
};

class SpanBars : public ReadChart {
    Q_OBJECT

public:
    explicit SpanBars(QWidget* parent = nullptr);

    /// `other`: of another send, so that what was read is let go. Without rows: nothing to show.
    void setPicture(SpanPicture picture, bool other);
    const SpanPicture& picture() const { return picture_; }

    bool hasData() const override { return !picture_.rows.empty(); }
    QString title() const override { return picture_.title; }
    QString summary() const override;
    std::vector<Reading> readings() const override;
    int nearest(const QPointF& point) const override;  ///< the row under the point
    SpanGeometry geometryFor(double width, const QFont& font) const;

    int heightForWidth(int width) const override;

protected:
    void drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                     const QFont& font) const override;

private:
    SpanPicture picture_;
};

}  // namespace ullage
