// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Rows of a drawn bar chart: a name, room for a bar, a figure, a note. Side by side where there is
/// width, else name and figure stand above the bar and the note beneath it. Pure geometry.
///
/// Invariants: nothing overlaps; every part lies within [left, left + width].

#include <QFont>
#include <QRectF>
#include <QString>

#include <vector>

namespace ullage {

struct BarRow {
    QString name, value, note;
    bool bold = false;                                ///< name and figure
    QRectF place;                                     ///< all of the row
    QRectF name_place, bar, value_place, note_place;  ///< `bar`: the room of the longest one
};

struct BarRows {
    std::vector<BarRow> rows;
    bool beside = true;  ///< names stand beside their bars
    double bottom = 0;
};

/// Places the rows from `top` on.
BarRows placed_rows(std::vector<BarRow> rows, double left, double width, double top,
                    const QFont& font);
QFont bar_note_font(const QFont& font);

}  // namespace ullage
