// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A report's table with its columns as wide as their words need, and its cells broken into lines.

#include "core/report/report.h"
#include "ui/report/text_block.h"

#include <vector>

namespace ullage::paper {

inline constexpr double cell_padding = 10, cell_air = 2.5;  // pixels, beside and above a cell

struct TableRow {
    std::vector<Block> cells;
    double height = 0;
};

struct LaidTable {
    Block caption;
    std::vector<double> widths;
    TableRow header;
    std::vector<TableRow> rows;
};

/// The first `most_rows` rows of a table as wide as `room`, its letters `size` pixels.
LaidTable laid(const ReportTable& table, std::size_t most_rows, double room, double size);

/// Of caption, header and first row, which stay together on a page of that height.
double least_height(const LaidTable& table, double page_height);

}  // namespace ullage::paper
