// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/bar_rows.h"

#include "ui/theme/theme.h"

#include <QFontMetricsF>

#include <algorithm>
#include <cmath>

namespace ullage {

QFont bar_note_font(const QFont& font) { return scaled(font, 0.88); }

BarRows placed_rows(std::vector<BarRow> rows, double left, double width, double top,
                    const QFont& font) {
    const QFont bold_font = scaled(font, 1, QFont::DemiBold);
    const QFontMetricsF metrics(font), bold(bold_font), note(bar_note_font(font));
    const double em = metrics.height(), gap = em * 0.8, row_height = std::round(em * 1.45);
    double names = 0, values = 0, notes = 0;
    for (const BarRow& row : rows) {
        names = std::max(names, bold.horizontalAdvance(row.name));
        values = std::max(values, bold.horizontalAdvance(row.value));
        notes = std::max(notes, note.horizontalAdvance(row.note));
    }
    names = std::ceil(names) + 1;
    values = std::ceil(values) + 1;
    notes = notes > 0 ? std::ceil(notes) + 1 : 0;
    const double notes_gap = notes > 0 ? gap : 0;
    BarRows placed;
    placed.beside = width >= names + values + notes + notes_gap + 2 * gap + em * 8;
    double y = top;
    for (BarRow& row : rows) {
        if (placed.beside) {
            const double bars = left + names + gap;
            const double room = left + width - bars - values - gap - notes - notes_gap;
            row.name_place = QRectF(left, y, names, row_height);
            row.bar = QRectF(bars, y + row_height * 0.17, room, row_height * 0.66);
            row.value_place = QRectF(bars + room + gap, y, values, row_height);
            row.note_place = QRectF(row.value_place.right() + notes_gap, y, notes, row_height);
            row.place = QRectF(left, y, width, row_height);
        } else {
            // Too narrow even for name and figure on one line: one beneath the other.
            const double value = std::ceil(bold.horizontalAdvance(row.value)) + 1;
            const double name = std::ceil(bold.horizontalAdvance(row.name)) + 1;
            double bottom = y;
            if (name + gap + value <= width) {
                row.name_place = QRectF(left, y, width - value - gap, em);
                row.value_place = QRectF(left + width - value, y, value, em);
                bottom += em;
            } else {
                const double h = wrapped_height(row.name, width, bold_font);
                row.name_place = QRectF(left, y, width, h);
                const double v = wrapped_height(row.value, width, bold_font);
                row.value_place = QRectF(left, y + h, width, v);
                bottom += h + v;
            }
            row.bar = QRectF(left, bottom + em * 0.12, width, std::round(row_height * 0.5));
            bottom = row.bar.bottom();
            if (!row.note.isEmpty()) {
                const double h = wrapped_height(row.note, width, bar_note_font(font));
                row.note_place = QRectF(left, bottom + em * 0.05, width, h);
                bottom = row.note_place.bottom();
            }
            row.place = QRectF(left, y, width, bottom - y + em * 0.4);
        }
        y = row.place.bottom();
    }
    placed.rows = std::move(rows);
    placed.bottom = y;
    return placed;
}

}  // namespace ullage
