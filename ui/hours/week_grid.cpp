// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/hours/week_grid.h"

#include "core/site/site_json.h"

#include <algorithm>
#include <tuple>

namespace ullage::ui {

namespace {

constexpr int cell_s = 86400 / cells_a_day;
constexpr int week_s = 7 * 86400;

/// A stretch of one day, or over the midnight after it.
struct Piece {
    int day = 0;
    int from = 0, to = 0;  ///< cells of the day; `to` not after `from`: of the next day
    double share = 0;
};

/// A run of cells that starts anywhere in the week, cut so that each piece fits a row.
void cut(int first, int length, double share, std::vector<Piece>& pieces) {
    while (length > 0) {
        const int day = first / cells_a_day % 7;
        const int from = first % cells_a_day;
        const int to_midnight = cells_a_day - from;
        // A night of less than a day from start to end is one piece; longer ones are cut at midnight.
        const int taken = length < cells_a_day && length > to_midnight ? length : std::min(length, to_midnight);
        const int end = from + taken;
        pieces.push_back({day, from, end > cells_a_day ? end - cells_a_day : end, share});
        first = (first + taken) % cells_a_week;
        length -= taken;
    }
}

std::vector<Piece> piecesOf(const WeekGrid& grid) {
    std::vector<Piece> pieces;
    // Start where the share changes, so that no run goes over the end of the week.
    int start = 0;
    while (start < cells_a_week && grid[std::size_t(start)] == grid[std::size_t((start + cells_a_week - 1) % cells_a_week)])
        ++start;
    if (start == cells_a_week) {
        cut(0, cells_a_week, grid[0], pieces);
        return pieces;
    }
    for (int done = 0; done < cells_a_week;) {
        const int first = (start + done) % cells_a_week;
        int length = 1;
        while (done + length < cells_a_week &&
               grid[std::size_t((first + length) % cells_a_week)] == grid[std::size_t(first)])
            ++length;
        if (grid[std::size_t(first)] > 0) cut(first, length, grid[std::size_t(first)], pieces);
        done += length;
    }
    return pieces;
}

}  // namespace

WeekGrid gridOf(const std::vector<OpenHours>& rows) {
    WeekGrid grid{};
    if (rows.empty()) {
        grid.fill(1);
        return grid;
    }
    for (const OpenHours& row : rows) {
        const int length = row.to > row.from ? row.to - row.from : row.to - row.from + 86400;
        for (int day = 0; day < 7; ++day) {
            if (!row.days[std::size_t(day)]) continue;
            const int from = day * 86400 + row.from;
            for (int cell = 0; cell < cells_a_week; ++cell) {
                // The middle of the cell, this week or the one before.
                const int middle = cell * cell_s + cell_s / 2;
                const bool covered = (middle >= from && middle < from + length) ||
                                     (middle + week_s >= from && middle + week_s < from + length);
                if (covered) grid[std::size_t(cell)] = std::max(grid[std::size_t(cell)], std::clamp(row.share, 0.0, 1.0));
            }
        }
    }
    return grid;
}

std::vector<OpenHours> rowsOf(const WeekGrid& grid) {
    if (std::all_of(grid.begin(), grid.end(), [](double share) { return share >= 1; })) return {};
    std::vector<OpenHours> rows;
    for (const Piece& piece : piecesOf(grid)) {
        auto same = std::find_if(rows.begin(), rows.end(), [&](const OpenHours& row) {
            return std::tuple(row.from, row.to, row.share) ==
                   std::tuple(piece.from * cell_s, piece.to * cell_s, piece.share);
        });
        if (same == rows.end()) {
            same = rows.emplace(rows.end());
            same->days.fill(false);
            same->from = piece.from * cell_s;
            same->to = piece.to * cell_s;
            same->share = piece.share;
        }
        same->days[std::size_t(piece.day)] = true;
    }
    if (rows.empty()) rows.emplace_back().share = 0;
    for (OpenHours& row : rows) row.days_text = days_text(row.days);
    return rows;
}

}  // namespace ullage::ui
