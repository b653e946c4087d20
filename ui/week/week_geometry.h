// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Where the parts of seven day strips lie: pure geometry.
///
/// A week is 168 hours from Monday 00:00 of the site's wall clock; a run that crosses midnight goes
/// on in the next strip, one that crosses the end of Sunday is cut there. A week in which clocks
/// change is drawn by the wall clock. Invariants: pieces of one stretch add up to its length within
/// the week; every piece lies within its strip.

#include "core/outlook/outlook.h"

#include <QRectF>

#include <vector>

namespace ullage {

inline constexpr double hours_per_day = 24, hours_per_week = 168;

/// Part of a stretch within one day.
struct DayPiece {
    int day = 0;                       ///< 0 Monday … 6 Sunday
    double from = 0, to = 0;           ///< hours of that day, 0…24
    bool first = false, last = false;  ///< first or last piece of its stretch
    bool cut = false;                  ///< the stretch goes on after Sunday
};

/// [from, to) in hours of the week; what lies outside 0…168 is dropped.
std::vector<DayPiece> day_pieces(double from, double to);

/// Hours of the week, by the wall clock, of an instant; may lie outside 0…168.
double hour_of_week(Instant instant, Day monday, const TimeZone& zone);

struct WeekGeometry {
    double label_width = 0;
    double left = 0, right = 0;  ///< pixels of 00:00 and 24:00
    double top = 0, strip = 0, gap = 0;
    double axis_top = 0;
    double height = 0;

    double x(double hour_of_day) const {
        return left + (right - left) * hour_of_day / hours_per_day;
    }
    QRectF day(int index) const { return {left, top + index * (strip + gap), right - left, strip}; }
    QRectF piece(const DayPiece& p) const {
        const QRectF d = day(p.day);
        return {x(p.from), d.top(), x(p.to) - x(p.from), d.height()};
    }
};

}  // namespace ullage
