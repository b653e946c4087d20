// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Small things that the window's own controls share: the colour of a fault, headings, spacings.
///
/// Sizes are multiples of the font, so that they follow the desktop's font size.

#include <QColor>
#include <QPalette>

class QLabel;
class QPainter;
class QString;
class QStyleOptionViewItem;
class QWidget;

namespace ullage {
struct Theme;
}

namespace ullage::ui {

/// For words that say what is wrong: at least 4.5 : 1 on the palette's window colour.
QColor faultColour(const QPalette& palette);
/// For words of second rank: at least 4.5 : 1 on the palette's window colour.
QColor quietColour(const QPalette& palette);

/// Shows in the control itself that its content is at fault, or no longer.
void markFaulty(QWidget* control, bool faulty);

/// A label in `factor` times the font, bold.
QLabel* headingLabel(const QString& text, double factor, QWidget* parent);
/// A label in the quiet colour, which follows the palette.
QLabel* quietLabel(const QString& text, QWidget* parent);

/// The ground of a row in a list: tinted with an upright at the left where it is chosen, ringed
/// where it has the keyboard.
void drawRow(QPainter& painter, const QStyleOptionViewItem& row, const Theme& theme);

/// `widths` of the letter "m" in the widget's font, in pixels.
int ems(const QWidget* widget, double widths);

/// Of a control with one line of text: never under 24 pixels (WCAG 2.2, 2.5.8).
int controlHeight(const QWidget* widget);

enum class ThemeChoice { system, light, dark };
/// Sets the application's palette. `system` gives back the one it started with.
void applyTheme(ThemeChoice choice);

}  // namespace ullage::ui
