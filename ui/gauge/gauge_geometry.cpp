// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/gauge/gauge_geometry.h"

#include "ui/theme/drawn_widget.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <QFontMetricsF>
#include <QLocale>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

constexpr double countable = 4.5;   // a mark's least width in pixels that can still be counted
constexpr double gap_share = 0.12;  // of a mark's width, left free between marks

struct Columns {
    std::vector<std::vector<int>> of_mark;
    int highest = 0;  // rows
};

Columns columns_of(const std::vector<double>& xs, double left, double pitch, int count,
                   int abreast) {
    Columns c;
    c.of_mark.resize(static_cast<std::size_t>(std::max(1, count)));
    for (int i = 0; i < static_cast<int>(xs.size()); ++i) {
        const int column = std::clamp(
            static_cast<int>(std::floor((xs[static_cast<std::size_t>(i)] - left) / pitch)), 0,
            std::max(0, count - 1));
        c.of_mark[static_cast<std::size_t>(column)].push_back(i);
    }
    for (const auto& column : c.of_mark)
        c.highest = std::max(c.highest, (static_cast<int>(column.size()) + abreast - 1) / abreast);
    return c;
}

}  // namespace

GaugeNumbers GaugeNumbers::of(const BoxOutlook& box, double horizon_days) {
    return {box.days_until_ceiling, box.days_until_full, box.ceiling_marks, box.full_marks,
            std::max(1.0, horizon_days)};
}

double TimeTrack::x(double days_from_now) const {
    const double share = horizon_days > 0 ? std::clamp(days_from_now / horizon_days, 0.0, 1.0) : 0;
    return left + share * (right - left);
}

double TimeTrack::days(double at_x) const {
    return right > left ? std::clamp((at_x - left) / (right - left), 0.0, 1.0) * horizon_days : 0;
}

QFont gauge_font(PlacedText::Role role, const QFont& font) {
    switch (role) {
        case PlacedText::Role::name:
            return scaled(font, 1.1, QFont::DemiBold);
        case PlacedText::Role::headline:
            return scaled(font, 1.95, QFont::DemiBold);
        case PlacedText::Role::note:
            return scaled(font, 0.88);
        case PlacedText::Role::line:
        case PlacedText::Role::full:
        case PlacedText::Role::order:
            break;
    }
    return font;
}

void place_marks(LaneGeometry& lane, const TimeTrack& track,
                 const std::array<std::optional<double>, 20>& marks) {
    std::vector<double> xs;
    for (const auto& mark : marks)
        if (mark) xs.push_back(track.x(*mark));
    lane.later = static_cast<int>(marks.size() - xs.size());
    lane.marks.clear();
    lane.radius = 0;
    const double width = track.right - track.left;
    const double height = lane.place.height();
    if (xs.empty() || width <= 0 || height <= 0) return;

    const double largest = std::min(width / 28, height / 2.5);
    double best_size = 0;
    int best_abreast = 1;
    for (int abreast = 1; abreast <= 2 && best_size < countable; ++abreast) {
        double size = largest;
        for (; size > 1; size *= 0.94) {
            const int count = std::max(1, static_cast<int>(std::floor(width / (size * abreast))));
            const Columns c = columns_of(xs, track.left, width / count, count, abreast);
            if (c.highest * size <= height) break;
        }
        if (size > best_size * 1.05) {
            best_size = size;
            best_abreast = abreast;
        }
    }
    const int count = std::max(1, static_cast<int>(std::floor(width / (best_size * best_abreast))));
    const double pitch = width / count;
    const Columns c = columns_of(xs, track.left, pitch, count, best_abreast);
    lane.radius = best_size * (1 - gap_share) / 2;
    lane.marks.resize(xs.size());
    for (std::size_t column = 0; column < c.of_mark.size(); ++column) {
        const auto& members = c.of_mark[column];
        const double middle = track.left + (static_cast<double>(column) + 0.5) * pitch;
        for (std::size_t i = 0; i < members.size(); ++i) {
            const int row = static_cast<int>(i) / best_abreast;
            const int beside = static_cast<int>(i) % best_abreast;
            const double dx = (beside - (best_abreast - 1) / 2.0) * best_size;
            lane.marks[static_cast<std::size_t>(members[i])] =
                QPointF(middle + dx, lane.place.bottom() - (row + 0.5) * best_size);
        }
    }
}

std::vector<TrackTick> track_ticks(const TimeTrack& track, double top, const QFont& font) {
    struct Step {
        double days;
        int shown;  // units in one step
        enum { day, month, year } unit;
    };
    static constexpr std::array<Step, 13> steps{{{7, 7, Step::day},
                                                 {14, 14, Step::day},
                                                 {days_per_year / 12, 1, Step::month},
                                                 {days_per_year / 6, 2, Step::month},
                                                 {days_per_year / 4, 3, Step::month},
                                                 {days_per_year / 2, 6, Step::month},
                                                 {days_per_year, 1, Step::year},
                                                 {2 * days_per_year, 2, Step::year},
                                                 {5 * days_per_year, 5, Step::year},
                                                 {10 * days_per_year, 10, Step::year},
                                                 {20 * days_per_year, 20, Step::year},
                                                 {50 * days_per_year, 50, Step::year},
                                                 {100 * days_per_year, 100, Step::year}}};
    const QFontMetricsF metrics(font);
    const auto words = [](const Step& step, int n) {
        const QString number = QLocale().toString(n * step.shown);
        switch (step.unit) {
            case Step::day:
                return GaugeText::tr("%1 d", "days on a track").arg(number);
            case Step::month:
                return GaugeText::tr("%1 mo", "months on a track").arg(number);
            default:
                return GaugeText::tr("%1 y", "years on a track").arg(number);
        }
    };
    std::vector<TrackTick> ticks;
    if (track.horizon_days <= 0 || track.right <= track.left) return ticks;
    const double per_day = (track.right - track.left) / track.horizon_days;
    for (const Step& step : steps) {
        // A whole year is never cut into months beyond two years, to keep the labels one kind.
        if (step.unit == Step::month && track.horizon_days > 2 * days_per_year + 1) continue;
        const int most = static_cast<int>(std::floor(track.horizon_days / step.days + 1e-6));
        const double widest = metrics.horizontalAdvance(words(step, std::max(1, most)));
        const double now = metrics.horizontalAdvance(GaugeText::tr("now"));
        if (step.days * per_day <
            std::max(widest, (widest + now) / 2) + metrics.averageCharWidth() * 1.5)
            continue;
        const auto add = [&](double days_at, const QString& text) {
            TrackTick tick;
            tick.x = track.x(days_at);
            tick.text = text;
            const double w = metrics.horizontalAdvance(text) + 1;
            tick.label = QRectF(tick.x - w / 2, top, w, metrics.height());
            ticks.push_back(tick);
        };
        add(0, GaugeText::tr("now"));
        for (int n = 1; n <= most; ++n) add(n * step.days, words(step, n));
        return ticks;
    }
    return ticks;
}

GaugeGeometry gauge_geometry(const GaugeText& text, const GaugeNumbers& numbers,
                             const QString& state_words, double width, double height,
                             const QFont& font) {
    using Role = PlacedText::Role;
    GaugeGeometry g;
    const QFontMetricsF metrics(font);
    const QFont note_font = gauge_font(Role::note, font);
    const QFontMetricsF note(note_font);
    const double em = metrics.height();
    const double pad = ring_room;
    const double inner = std::max(1.0, width - 2 * pad);
    g.has_track = numbers.horizon_days > 0;

    // Side by side where there is room for the longest ordinary line and a readable track.
    const bool beside = g.has_track && inner > 38 * em;
    const double words_width = beside ? std::floor(inner * 0.47) : inner;
    double y = pad;

    // Name, then status, on one base line; a name too long for that has rows of its own above.
    if (!text.name.isEmpty() || !text.status.isEmpty()) {
        const QFont name_font = gauge_font(Role::name, font);
        const QFontMetricsF name_metrics(name_font);
        const double side = std::round(name_metrics.ascent() * 1.12);
        const double row = std::max(side, name_metrics.height());
        const double status_width =
            text.status.isEmpty()
                ? 0
                : side + em * 0.4 + name_metrics.horizontalAdvance(text.status) + 1;
        const double name_width = name_metrics.horizontalAdvance(text.name) + 1;
        double x = pad;
        if (name_width + em * 0.9 + status_width <= words_width) {
            g.texts.push_back({text.name, QRectF(x, y, name_width, row), Role::name});
            if (!text.name.isEmpty()) x += name_width + em * 0.9;
        } else {
            const double h = wrapped_height(text.name, words_width, name_font);
            g.texts.push_back({text.name, QRectF(x, y, words_width, h), Role::name});
            y += h + (text.status.isEmpty() ? 0 : em * 0.2);
        }
        if (!text.status.isEmpty()) {
            g.shape = QRectF(x, y + (row - side) / 2, side, side);
            x += side + em * 0.4;
            g.status = {text.status, QRectF(x, y, pad + words_width - x, row), Role::name};
            y += row;
        } else if (name_width + em * 0.9 <= words_width) {
            y += row;
        }
    }
    const auto put = [&](const QString& words, Role role, double space) {
        if (words.isEmpty()) return;
        y += space;
        const double h = wrapped_height(words, words_width, gauge_font(role, font));
        g.texts.push_back({words, QRectF(pad, y, words_width, h), role});
        y += h;
    };
    put(text.headline, Role::headline, em * 0.25);
    put(text.when, Role::line, em * 0.12);
    const QString joined = text.range.join(QStringLiteral("  ·  "));
    if (metrics.horizontalAdvance(joined) < words_width)
        put(joined, Role::line, em * 0.26);
    else
        for (const QString& line : text.range) put(line, Role::line, em * 0.26);
    put(text.full, Role::full, em * 0.26);
    put(text.order, Role::order, em * 0.26);
    const double words_bottom = y;

    if (!g.has_track) {
        if (!state_words.isEmpty()) {
            y += em * 0.3;
            const double h = wrapped_height(state_words, words_width, font);
            g.state = {state_words, QRectF(pad, y, words_width, h), Role::order};
            y += h;
        }
        g.height = g.least_height = y + pad;
        return g;
    }

    const double label_width = std::max(note.horizontalAdvance(GaugeText::ceiling_lane()),
                                        note.horizontalAdvance(GaugeText::full_lane())) +
                               em * 0.6;
    // The last tick's label hangs over the track's end, and so do the counts of later futures.
    const double end_width = note.horizontalAdvance(GaugeText::later(20)) + em * 0.5;
    const double left = beside ? pad + words_width + em * 1.6 : pad;
    g.track.left = left + label_width;
    g.track.right = std::max(g.track.left + 1, width - pad - end_width);
    g.track.horizon_days = numbers.horizon_days;

    const QString marks_note = GaugeText::marks_note();
    const double note_width = width - pad - left;
    const double note_height = wrapped_height(marks_note, note_width, note_font);
    const double tick_length = std::round(em * 0.5);
    const double below = tick_length + note.height() + em * 0.35 + note_height + pad;
    const double lane_gap = em * 0.55;
    const double top = beside ? pad : words_bottom + em * 0.8;
    const double comfortable = beside ? em * 2.8 : em * 3.6;
    const double least = em * 2.4;
    g.least_height = std::max(words_bottom + pad, top + 2 * least + lane_gap + below);
    const double wished = std::max(words_bottom + pad, top + 2 * comfortable + lane_gap + below);
    g.height = height > 0 ? std::max(height, g.least_height) : wished;
    const double lane = std::min((g.height - top - below - lane_gap) / 2, em * 5.5);

    const double full_base = std::round(g.height - below);
    const double ceiling_base = std::round(full_base - lane - lane_gap);
    const auto set_lane = [&](LaneGeometry& l, double base, const DayQuantiles& q,
                              const std::array<std::optional<double>, 20>& marks) {
        l.place = QRectF(g.track.left, base - lane, g.track.right - g.track.left, lane);
        l.label = QRectF(left, base - note.height(), label_width, note.height());
        l.later_label =
            QRectF(g.track.right + em * 0.4, base - note.height(), end_width, note.height());
        place_marks(l, g.track, marks);
        if (q.p10) l.p10 = g.track.x(*q.p10);
        if (q.p50) l.p50 = g.track.x(*q.p50);
        if (q.p90) l.p90 = g.track.x(*q.p90);
    };
    set_lane(g.ceiling, ceiling_base, numbers.ceiling, numbers.ceiling_marks);
    set_lane(g.full, full_base, numbers.full, numbers.full_marks);
    g.ticks = track_ticks(g.track, full_base + tick_length, note_font);
    // The state takes the note's place, so that nothing moves while figures are made anew.
    const QRectF note_place(left, full_base + tick_length + note.height() + em * 0.35, note_width,
                            note_height);
    if (state_words.isEmpty())
        g.texts.push_back({marks_note, note_place, Role::note});
    else
        g.state = {state_words, note_place, Role::order};
    return g;
}

}  // namespace ullage
