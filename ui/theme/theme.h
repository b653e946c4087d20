// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Colours and type sizes of everything the window draws itself.
///
/// Purpose: one table of colour tokens, made from the desktop's palette, so that gauges, charts,
/// strips and pages agree and follow light or dark.
/// Model: the palette is dark if the lightness of its Window colour is under 128 of 255. Tokens
/// start from a colour set that stays apart for protanopes, deuteranopes and tritanopes (ceiling in
/// ink, full in vermillion, forecast in blue) and are moved towards ink until they reach the
/// contrast that their use needs on the palette's own surface: 4.5 : 1 for text, 3 : 1 for lines
/// and shapes. Invariants: every member named *text*, and `ink`, `muted`, `median`, `full`, is at
/// least 4.5 : 1 on `surface` and on `chosen`; `edge` and `focus` at least 3 : 1. Colour is never the only code:
/// shapes, dashes and words say the same. Sources: Okabe and Ito, Color Universal Design, 2008
/// (from memory); WCAG 2.2, success criteria 1.4.3 and 1.4.11 (contrast), and its definition of
/// relative luminance.

#include <QColor>
#include <QFont>
#include <QPalette>
#include <QString>

class QWidget;

namespace ullage {

struct Theme {
    bool dark = false;
    QColor surface;     ///< what is drawn upon
    QColor ink;         ///< text that matters
    QColor muted;       ///< captions, axis numbers
    QColor rule;        ///< hairlines between parts, decoration
    QColor grid;        ///< chart grid, decoration
    QColor edge;        ///< outlines of controls we draw, at least 3 : 1
    QColor median;      ///< the middle forecast; also "ceiling" marks; usable for text
    QColor band_outer;  ///< fill of 1 in 10 … 9 in 10, translucent
    QColor band_inner;  ///< fill of the middle half, translucent, lies on the outer one
    QColor ceiling;     ///< the ceiling line, dashed
    QColor full;     ///< the full line, thick; late runs; the mark of "overruns"; usable for text
    QColor on_full;  ///< drawn upon a surface of `full`, at least 4.5 : 1 on it
    QColor live, held, other;  ///< stacked areas below the median, translucent neutral
    QColor open;               ///< open hours at share 1, a fill
    QColor chosen;             ///< fill of the chosen card
    QColor focus;              ///< ring round what has the keyboard

    static Theme of(const QPalette& palette);
};

/// The same tokens paler, all but the surface, for figures that are out of date. Opaque stays
/// opaque.
Theme faded(const Theme& theme);
/// Contrast ratio of two opaque colours, 1…21 (WCAG).
double contrast(const QColor& a, const QColor& b);
/// `share` of `b` in `a`, 0…1, channel by channel.
QColor mixed(const QColor& a, const QColor& b, double share);
/// `wanted`, moved towards black or white (whichever is farther from `on`) only as far as the ratio
/// needs. A ratio that cannot be reached gives that black or white.
QColor legible(const QColor& wanted, const QColor& on, double ratio);

/// `font` in `factor` × its size, whether its size was set in points or in pixels.
QFont scaled(const QFont& font, double factor, QFont::Weight weight = QFont::Normal);

/// Height of a text wrapped to `width`.
double wrapped_height(const QString& text, double width, const QFont& font);

/// Gives a label this text colour and leaves its other colours to the palette it inherits.
void set_text_colour(QWidget& label, const QColor& colour);

/// Complete palettes for pictures made without a desktop, and for a user's own choice of light or
/// dark.
QPalette light_palette();
QPalette dark_palette();

}  // namespace ullage
