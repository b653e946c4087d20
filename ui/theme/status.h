// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A status as a word and a shape: fits, a ring with a tick; tight, a triangle; overruns, a filled
/// square with a mark; a note, a small ring with a dot. The shapes differ in outline, so they are
/// told apart without colour; only the worst one is coloured.

#include "core/findings/findings.h"
#include "ui/theme/theme.h"

#include <QIcon>
#include <QRectF>
#include <QString>

class QPainter;

namespace ullage {

/// "Fits", "Tight", "Overruns", "Note", translated.
QString status_word(Level level);
/// The colour of the word beside the shape: `full` for overruns, else `ink`.
QColor status_ink(Level level, const Theme& theme);
/// Drawn into the largest square in the middle of `place`.
void draw_status(QPainter& painter, const QRectF& place, Level level, const Theme& theme);
/// The shape as an icon of `size` logical pixels, sharp at 1×, 2× and 3×.
QIcon status_icon(Level level, const Theme& theme, int size = 16);

}  // namespace ullage
