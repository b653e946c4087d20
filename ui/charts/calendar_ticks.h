// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Axis ticks a person would choose: starts of years, months or weeks for dates; 1, 2 or 5 times a
/// power of ten for sizes.

#include <QDate>
#include <QFontMetricsF>
#include <QString>

#include <vector>

namespace ullage {

struct DateTick {
    QDate date;  ///< a Monday, the first of a month, or 1 January
    QString text;
};

/// Ticks within [from, to] drawn over `pixels`, as dense as labels fit without touching. Texts are
/// unique. Empty if the range is empty.
std::vector<DateTick> calendar_ticks(const QDate& from, const QDate& to, double pixels,
                                     const QFontMetricsF& metrics);

/// The step, 1, 2 or 5 × 10^k, with at most `most` (≥ 1) steps from 0 to `top` > 0.
double nice_step(double top, int most);

/// Moves intervals of height `height` centred at `wished` (any order) so that none overlap, all lie
/// within [top, bottom] if they fit there, and each moves little. Returns the new centres.
std::vector<double> pushed_apart(const std::vector<double>& wished, double height, double top,
                                 double bottom);

}  // namespace ullage
