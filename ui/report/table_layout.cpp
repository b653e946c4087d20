// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/report/table_layout.h"

#include <QFontMetricsF>

#include <algorithm>
#include <numeric>

namespace ullage::paper {
namespace {

std::vector<double> widths_of(const ReportTable& table, double room, double size) {
    const std::size_t columns = table.header.size();
    std::vector<double> least(columns, 0), natural(columns, 0);
    const QFontMetricsF plain(text_font(size)), bold(text_font(size, QFont::Bold));
    const auto look = [&](std::size_t c, const std::string& cell,
                          const QFontMetricsF& metrics) {
        const QString words = qstring(cell);
        natural[c] = std::max(natural[c], metrics.horizontalAdvance(words) + cell_padding + 2);
        for (const QString& word : words.split(u' '))
            least[c] = std::max(least[c], metrics.horizontalAdvance(word) + cell_padding + 2);
    };
    for (std::size_t c = 0; c < columns; ++c) {
        look(c, table.header[c], bold);
        for (std::size_t r = 0; r < table.rows.size(); ++r)
            look(c, table.rows[r][c], static_cast<int>(r) == table.stressed ? bold : plain);
    }
    // A very long word is broken, so that the others keep their place.
    for (double& w : least)
        w = std::min(w, room / std::max<double>(2, static_cast<double>(columns) * 0.8));
    // A very long text is broken into lines, so that the others need fewer.
    for (std::size_t c = 0; c < columns; ++c)
        natural[c] = std::max(least[c], std::min(natural[c], room * 0.45));
    const double all_least = std::accumulate(least.begin(), least.end(), 0.0);
    const double all_natural = std::accumulate(natural.begin(), natural.end(), 0.0);
    std::vector<double> widths(columns);
    for (std::size_t c = 0; c < columns; ++c) {
        if (all_natural <= room)
            widths[c] = natural[c] + (room - all_natural) / static_cast<double>(columns);
        else if (all_least >= room)
            widths[c] = least[c] * room / all_least;
        else
            widths[c] = least[c] + (natural[c] - least[c]) * (room - all_least) /
                                       (all_natural - all_least);
    }
    return widths;
}

TableRow row_of(const std::vector<std::string>& cells, const std::vector<double>& widths, double size,
                QFont::Weight weight) {
    TableRow row;
    for (std::size_t c = 0; c < cells.size(); ++c) {
        row.cells.push_back(
            block(qstring(cells[c]), text_font(size, weight), widths[c] - cell_padding));
        row.height = std::max(row.height, row.cells.back().height + 2 * cell_air);
    }
    return row;
}

}  // namespace

LaidTable laid(const ReportTable& table, std::size_t most_rows, double room, double size) {
    LaidTable t;
    t.caption = block(qstring(table.caption), text_font(size, QFont::Bold), room);
    t.widths = widths_of(table, room, size);
    t.header = row_of(table.header, t.widths, size, QFont::Bold);
    for (std::size_t r = 0; r < std::min(most_rows, table.rows.size()); ++r)
        t.rows.push_back(row_of(table.rows[r], t.widths, size,
                                static_cast<int>(r) == table.stressed ? QFont::Bold : QFont::Normal));
    return t;
}

double least_height(const LaidTable& t, double page_height) {
    const double first = t.rows.empty() ? 0 : std::min(t.rows.front().height, page_height / 3);
    return t.caption.height + 4 + t.header.height + first + 8;
}

}  // namespace ullage::paper
