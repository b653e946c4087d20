// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/week/week_strips.h"

#include "ui/theme/key_row.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <QFontMetricsF>
#include <QHelpEvent>
#include <QLocale>
#include <QPainter>
#include <QToolTip>

#include <algorithm>
#include <cmath>

namespace ullage {
namespace {

constexpr double shortest_bar = 3;  // pixels: a run of a minute is still seen

QString day_name(int day, QLocale::FormatType format) {
    return QLocale().standaloneDayName(day + 1, format);
}

QString clock(double hour_of_day) {
    const int minutes = static_cast<int>(std::lround(hour_of_day * 60));
    const QTime time(minutes / 60 % 24, minutes % 60);
    return minutes >= 24 * 60 ? WeekStrips::tr("24:00", "end of a day")
                              : QLocale().toString(time, WeekStrips::tr("HH:mm", "time of day"));
}

// "Mon 22:18"
QString moment(double hour_of_week) {
    const double h =
        std::fmod(std::fmod(hour_of_week, hours_per_week) + hours_per_week, hours_per_week);
    const int day = static_cast<int>(h / hours_per_day);
    return WeekStrips::tr("%1 %2", "weekday, time")
        .arg(day_name(day, QLocale::ShortFormat), clock(h - day * hours_per_day));
}

QStringList key_texts() {
    return {WeekStrips::tr("open hours, stronger for a larger share"),
            WeekStrips::tr("run, middle forecast"), WeekStrips::tr("to 19 in 20"),
            WeekStrips::tr("late")};
}

}  // namespace

std::vector<DayPiece> day_pieces(double from, double to) {
    std::vector<DayPiece> pieces;
    const double a = std::max(0.0, from), b = std::min(hours_per_week, to);
    for (double at = a; at < b;) {
        const int day = std::min(6, static_cast<int>(at / hours_per_day));
        const double end = std::min(b, (day + 1) * hours_per_day);
        DayPiece piece;
        piece.day = day;
        piece.from = at - day * hours_per_day;
        piece.to = end - day * hours_per_day;
        piece.first = at == from;
        piece.last = end >= to;
        piece.cut = end >= hours_per_week && to > hours_per_week;
        pieces.push_back(piece);
        at = end;
    }
    return pieces;
}

double hour_of_week(Instant instant, Day monday, const TimeZone& zone) {
    const auto days = static_cast<double>((zone.local_day(instant) - monday).count());
    return days * hours_per_day + zone.local_seconds_of_day(instant) / seconds_per_hour;
}

WeekStrips::WeekStrips(QWidget* parent) : DrawnWidget(parent) {
    QSizePolicy policy(QSizePolicy::Expanding, QSizePolicy::Preferred);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
    tell();
}

void WeekStrips::setSend(const SendOutlook* send, const TimeZone& zone) {
    has_send_ = send != nullptr;
    runs_.clear();
    open_.clear();
    name_.clear();
    if (send) {
        name_ = QString::fromStdString(send->name);
        open_ = send->open_week;
        for (const RunOfWeek& run : send->week)
            runs_.push_back({hour_of_week(run.start, send->week_of, zone), run});
    }
    tell();
    updateGeometry();
    update();
}

void WeekStrips::setPrefixes(Prefixes prefixes) {
    prefixes_ = prefixes;
    tell();
    update();
}

QString WeekStrips::runWords(const Run& run) const {
    QString text = tr("%1: %2 in %3, done by %4; in 19 of 20 weeks by %5 (%6).")
                       .arg(moment(run.start), Words::bytes(run.of.bytes_p50, prefixes_),
                            Words::hours(run.of.hours_p50), moment(run.start + run.of.hours_p50),
                            moment(run.start + run.of.hours_p95), Words::hours(run.of.hours_p95));
    if (run.of.late_p50)
        text += u' ' + tr("Usually late: not done when its hours close or the next run is due.");
    else if (run.of.late_p95)
        text +=
            u' ' + tr("Sometimes late: the slowest runs are not done when their hours close or the "
                      "next run is due.");
    return text;
}

void WeekStrips::tell() {
    if (!has_send_) {
        describe(tr("The week of a send"), tr("Nothing computed yet."));
        return;
    }
    QStringList words;
    const QString state_text = state_words(state());
    if (!state_text.isEmpty()) words << state_text + u'.';
    if (open_.empty())
        words << tr("The link is never open.");
    else
        for (const auto& [from, to, share] : open_)
            words << tr("Open %1 to %2 at %3 of the line.")
                         .arg(moment(from),
                              to >= hours_per_week ? tr("the end of Sunday") : moment(to),
                              Words::percent(share));
    if (runs_.empty()) words << tr("No run in this week.");
    // Many runs a day are told by their number, not one by one.
    const auto late =
        std::count_if(runs_.begin(), runs_.end(), [](const Run& r) { return r.of.late_p50; });
    if (runs_.size() > 14) {
        words << tr("%1 runs, of which %2 are usually late.")
                     .arg(QLocale().toString(static_cast<int>(runs_.size())),
                          QLocale().toString(static_cast<int>(late)));
    } else {
        for (const Run& run : runs_) words << runWords(run);
    }
    describe(tr("The week of %1").arg(name_), words.join(u' '));
}

WeekGeometry WeekStrips::geometryFor(double width, const QFont& font) const {
    const QFontMetricsF metrics(font);
    const QFont note_font = scaled(font, 0.88);
    const QFontMetricsF note(note_font);
    WeekGeometry g;
    for (int day = 0; day < 7; ++day)
        g.label_width =
            std::max(g.label_width, metrics.horizontalAdvance(day_name(day, QLocale::ShortFormat)));
    const double em = metrics.height();
    g.left = std::ceil(ring_room + g.label_width + em * 0.8);
    // The label of 24:00 hangs over the end by half.
    g.right = std::max(g.left + 24,
                       std::floor(width - ring_room - note.horizontalAdvance(clock(24)) / 2));
    g.top = ring_room;
    g.strip = std::round(em * 1.45);
    g.gap = std::max(2.0, std::round(em * 0.18));
    g.axis_top = g.top + 7 * g.strip + 6 * g.gap + std::round(em * 0.2);
    // Axis labels, then the key on as many lines as it needs.
    const double key_top = g.axis_top + note.height() + em * 0.5;
    g.height = key_top + em * 0.25 + ring_room +
               key_row(key_texts(), g.left, width - ring_room, key_top, em, note_font).height;
    return g;
}

int WeekStrips::heightForWidth(int width) const {
    return static_cast<int>(std::ceil(geometryFor(width, font()).height));
}

void WeekStrips::drawPicture(QPainter& painter, const QSizeF& size, const Theme& theme,
                             const QFont& font) const {
    const WeekGeometry g = geometryFor(size.width(), font);
    const QFont note_font = scaled(font, 0.88);
    const QFontMetricsF metrics(font), note(note_font);
    const double em = metrics.height();

    // Closed hours: an empty strip; open hours: a fill, with the share where there is room for it.
    const QColor closed = mixed(theme.surface, theme.ink, theme.dark ? 0.05 : 0.03);
    for (int day = 0; day < 7; ++day) {
        painter.setPen(Qt::NoPen);
        painter.setBrush(closed);
        painter.drawRect(g.day(day));
        painter.setPen(theme.ink);
        painter.setFont(font);
        const QRectF d = g.day(day);
        painter.drawText(QRectF(ring_room, d.top(), g.label_width + 1, d.height()),
                         Qt::AlignLeft | Qt::AlignVCenter, day_name(day, QLocale::ShortFormat));
    }
    painter.setPen(Qt::NoPen);
    for (const auto& [from, to, share] : open_)
        for (const DayPiece& piece : day_pieces(from, to)) {
            painter.setBrush(mixed(closed, theme.open, 0.25 + 0.75 * std::clamp(share, 0.0, 1.0)));
            painter.drawRect(g.piece(piece));
        }
    // The share in figures, where no run is drawn over it.
    const bool shares =
        std::any_of(open_.begin(), open_.end(), [](const auto& o) { return o[2] < 1; });
    painter.setFont(note_font);
    for (const auto& [from, to, share] : open_)
        for (const DayPiece& piece : day_pieces(from, to)) {
            const QString text = Words::percent(share);
            const QRectF r = g.piece(piece).adjusted(em * 0.35, 0, -em * 0.35, 0);
            const double w = note.horizontalAdvance(text) + 1;
            const double a = piece.day * hours_per_day + piece.from;
            const double b = a + (w + em * 0.7) / (g.right - g.left) * hours_per_day;
            const bool hidden = std::any_of(runs_.begin(), runs_.end(), [&](const Run& run) {
                return run.start < b &&
                       run.start + std::max(run.of.hours_p50, run.of.hours_p95) > a;
            });
            if (!shares || w > r.width() || hidden) continue;
            painter.setPen(legible(theme.muted, mixed(closed, theme.open, share), 4.5));
            painter.drawText(r, Qt::AlignLeft | Qt::AlignVCenter, text);
        }
    // Hours, every six heavier.
    for (int hour = 0; hour <= 24; hour += 3) {
        const double x = std::round(g.x(hour)) + 0.5;
        painter.setPen(QPen(hour % 6 == 0 ? theme.rule : theme.grid, 1));
        for (int day = 0; day < 7; ++day)
            painter.drawLine(QPointF(x, g.day(day).top()), QPointF(x, g.day(day).bottom()));
    }
    painter.setFont(note_font);
    for (int hour = 0; hour <= 24; hour += 6) {
        const QString text = clock(hour);
        const double w = note.horizontalAdvance(text) + 1;
        painter.setPen(theme.muted);
        painter.drawText(QRectF(g.x(hour) - w / 2, g.axis_top, w, note.height()), Qt::AlignCenter,
                         text);
    }

    // Extensions first, so that no bar is hidden by that of an earlier run.
    const auto bar = [&](const QRectF& strip, double share) {
        const double h = strip.height() * share;
        return QRectF(strip.left(), strip.center().y() - h / 2, strip.width(), h);
    };
    const auto draw_stretch = [&](double from, double to, double share, bool late, bool ends) {
        auto pieces = day_pieces(from, to);
        for (const DayPiece& piece : pieces) {
            QRectF r = bar(g.piece(piece), share);
            if (r.width() < shortest_bar) r.setWidth(shortest_bar);
            if (r.right() > g.right) r.moveRight(g.right);
            const QColor colour = late ? theme.full : theme.median;
            if (late) {
                painter.setPen(Qt::NoPen);
                painter.setBrush(theme.surface);
                painter.drawRect(r);
                hatch(painter, r, colour, 5);
                painter.setBrush(Qt::NoBrush);
                painter.setPen(QPen(colour, 1.2));
                painter.drawRect(r.adjusted(0.6, 0.6, -0.6, -0.6));
            } else {
                painter.setPen(Qt::NoPen);
                painter.setBrush(ends ? mixed(theme.surface, colour, 0.55) : colour);
                painter.drawRect(r);
            }
            if (ends && piece.last && !piece.cut) {
                painter.setPen(QPen(colour, 2, Qt::SolidLine, Qt::FlatCap));
                const QRectF cap = bar(g.piece(piece), 0.56);
                painter.drawLine(QPointF(r.right(), cap.top()), QPointF(r.right(), cap.bottom()));
            }
            if (piece.cut) {  // goes on next week
                painter.setPen(Qt::NoPen);
                painter.setBrush(colour);
                const double y = r.center().y(), s = em * 0.28;
                QPolygonF arrow{QPointF(g.right + 2, y - s), QPointF(g.right + 2 + s, y),
                                QPointF(g.right + 2, y + s)};
                painter.drawPolygon(arrow);
            }
        }
    };
    for (const Run& run : runs_)
        draw_stretch(run.start + run.of.hours_p50,
                     run.start + std::max(run.of.hours_p50, run.of.hours_p95), 0.22,
                     run.of.late_p95, true);
    for (const Run& run : runs_)
        draw_stretch(run.start, run.start + std::max(run.of.hours_p50, 1e-3), 0.56, run.of.late_p50,
                     false);

    const KeyRow key = key_row(key_texts(), g.left, size.width() - ring_room,
                               g.axis_top + note.height() + em * 0.5, em, note_font);
    draw_key(painter, key, theme, note_font, [&](int entry, const QRectF& r) {
        const QRectF b = bar(r, 0.9);
        switch (entry) {
            case 0:
                painter.fillRect(QRectF(r.left(), r.top(), r.width() / 2, r.height()),
                                 mixed(closed, theme.open, 0.5));
                painter.fillRect(QRectF(r.center().x(), r.top(), r.width() / 2, r.height()),
                                 theme.open);
                break;
            case 1:
                painter.fillRect(bar(r, 0.8), theme.median);
                break;
            case 2:
                painter.fillRect(bar(r, 0.35), mixed(theme.surface, theme.median, 0.55));
                painter.setPen(QPen(theme.median, 2, Qt::SolidLine, Qt::FlatCap));
                painter.drawLine(r.topRight(), r.bottomRight());
                break;
            default:
                hatch(painter, b, theme.full, 5);
                painter.setPen(QPen(theme.full, 1.2));
                painter.setBrush(Qt::NoBrush);
                painter.drawRect(b);
        }
    });
}

QString WeekStrips::wordsAt(const QPointF& point) const {
    const WeekGeometry g = geometryFor(width(), font());
    for (int day = 0; day < 7; ++day) {
        const QRectF strip = g.day(day);
        if (!strip.contains(point)) continue;
        const double hour =
            day * hours_per_day + (point.x() - g.left) / (g.right - g.left) * hours_per_day;
        const double slack = 5 / (g.right - g.left) * hours_per_day;  // five pixels
        for (const Run& run : runs_)
            if (hour >= run.start - slack &&
                hour <= run.start + std::max(run.of.hours_p50, run.of.hours_p95) + slack)
                return runWords(run);
        for (const auto& [from, to, share] : open_)
            if (hour >= from && hour < to)
                return tr("Open %1 to %2 at %3 of the line.")
                    .arg(moment(from), to >= hours_per_week ? tr("the end of Sunday") : moment(to),
                         Words::percent(share));
        return tr("Closed.");
    }
    return {};
}

bool WeekStrips::event(QEvent* event) {
    if (event->type() == QEvent::ToolTip) {
        const auto* help = static_cast<QHelpEvent*>(event);
        const QString words = wordsAt(help->pos());
        if (words.isEmpty())
            QToolTip::hideText();
        else
            QToolTip::showText(help->globalPos(), words, this);
        return true;
    }
    return DrawnWidget::event(event);
}

}  // namespace ullage
