// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A week of half hours, as it is painted: each with the share of the line it has, and the rows of open hours
/// that say the same.
///
/// The largest share of the rows that cover a half hour counts, as in core/link/hours.h. A row that starts or
/// ends within a half hour opens it where it covers more than half of it.
/// Invariant: rows → grid → rows → grid gives the same grid.

#include "core/site/site.h"

#include <array>
#include <vector>

namespace ullage::ui {

inline constexpr int cells_a_day = 48;
inline constexpr int cells_a_week = 7 * cells_a_day;

/// Share of each half hour, 0…1, from Monday 00:00.
using WeekGrid = std::array<double, cells_a_week>;

/// No row at all is always open.
WeekGrid gridOf(const std::vector<OpenHours>& rows);

/// As few rows as say it: days with the same hours share one, and a night is one row of the day it starts on.
/// A week that is open throughout with the whole line is no row; one that never opens is a row of share 0.
std::vector<OpenHours> rowsOf(const WeekGrid& grid);

}  // namespace ullage::ui
