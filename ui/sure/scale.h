// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// One axis, from values to pixels and back, and the marks a person would put on it.
///
/// A logarithmic axis shows lengths of time from an hour to years, and sizes over many powers of
/// ten, without squeezing the short and the small against its end.

#include "core/units/quantity_text.h"

#include <QFontMetricsF>
#include <QString>

#include <vector>

namespace ullage {

struct Scale {
    double from = 0, to = 1;    ///< values, from < to; both > 0 if `log`
    double start = 0, end = 1;  ///< pixels of `from` and `to`, in either order
    bool log = false;

    /// Held within the axis; on a logarithmic one all that is 0 or less lies at its start.
    double map(double value) const;
    /// Not held: a value beyond the axis lies beyond its ends. Not of a logarithmic one.
    double place(double value) const { return start + (value - from) / (to - from) * (end - start); }
    double unmap(double pixel) const;
    bool holds(double value) const { return value >= from && value <= to; }
};

struct AxisMark {
    double value = 0;
    QString text;
};

/// Marks of lengths of time (in days) on a logarithmic scale: an hour, a day, a week, a month (30
/// days), a year, five years. Those whose texts would touch a more useful one's are left out.
std::vector<AxisMark> span_marks(const Scale& days, const QFontMetricsF& metrics);

/// Marks of sizes at 1, 10 and 100 of each unit on a logarithmic scale, with 2 and 5 between them
/// where there are few; at most `most` (≥ 2), evenly thinned. May be empty on a narrow range.
std::vector<AxisMark> size_marks(double from, double to, int most, Prefixes prefixes);

/// Marks at whole steps of 1, 2 or 5 times a power of ten of one unit, on an even scale.
std::vector<AxisMark> even_size_marks(double from, double to, int most, Prefixes prefixes);

}  // namespace ullage
