// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Where everything of a gauge lies: pure geometry, no painting.
///
/// Time runs left to right, from today at the track's left end to the horizon at its right end, in
/// logical pixels, the same scale for every gauge of one width. Marks are stacked in columns; a
/// mark stands at most one column width from its own day. Marks shrink until the highest stack fits
/// its lane; where that would make them too small to count, columns are made two marks broad.
/// Invariants: marks lie within their lane and do not overlap; marks + later = 20; x(p10) ≤ x(p50)
/// ≤ x(p90).

#include "core/outlook/outlook.h"
#include "ui/gauge/gauge_text.h"

#include <QFont>
#include <QRectF>
#include <QString>

#include <array>
#include <optional>
#include <vector>

namespace ullage {

/// Days and pixels of one track.
struct TimeTrack {
    double left = 0, right = 1;      ///< pixels
    double horizon_days = 1;         ///< > 0
    double x(double days) const;     ///< held within the track
    double days(double at_x) const;  ///< held within 0…horizon
};

struct LaneGeometry {
    QRectF place;  ///< from the highest possible mark down to the base line
    QRectF label, later_label;
    std::vector<QPointF> marks;           ///< centres, soonest first
    double radius = 0;                    ///< half a mark's width
    int later = 0;                        ///< futures beyond the horizon
    std::optional<double> p10, p50, p90;  ///< x
};

struct TrackTick {
    double x = 0;
    QString text;
    QRectF label;
};

/// A text with its place, wrapped to it.
struct PlacedText {
    QString text;
    QRectF place;
    enum class Role { name, headline, line, full, order, note } role = Role::line;
};

struct GaugeGeometry {
    QRectF shape;                   ///< of the status
    std::vector<PlacedText> texts;  ///< name first
    PlacedText status;              ///< beside the name
    PlacedText state;               ///< "Updating…", empty if none
    bool has_track = false;
    TimeTrack track;
    LaneGeometry ceiling, full;
    std::vector<TrackTick> ticks;
    double height = 0;        ///< all of it
    double least_height = 0;  ///< below which lanes would be too low to count marks
};

/// Numbers of one box that a gauge draws.
struct GaugeNumbers {
    DayQuantiles ceiling, full;
    std::array<std::optional<double>, 20> ceiling_marks, full_marks;
    double horizon_days = 0;  ///< 0: no track
    static GaugeNumbers of(const BoxOutlook& box, double horizon_days);
};

/// Fonts of the parts, made from the widget's own.
QFont gauge_font(PlacedText::Role role, const QFont& font);

/// `height` 0: as high as is comfortable for `width`.
GaugeGeometry gauge_geometry(const GaugeText& text, const GaugeNumbers& numbers,
                             const QString& state_words, double width, double height,
                             const QFont& font);

/// Marks of one lane for a given place; exposed for tests.
void place_marks(LaneGeometry& lane, const TimeTrack& track,
                 const std::array<std::optional<double>, 20>& marks);

/// Ticks of a track: whole days, months or years, as many as fit without touching.
std::vector<TrackTick> track_ticks(const TimeTrack& track, double top, const QFont& font);

}  // namespace ullage
