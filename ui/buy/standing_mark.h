// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// How an offer stands, as a shape: the cheapest that holds, a filled disc with a tick; holds, a
/// ring with a tick; outdone, a small ring with a dot; does not last, a triangle; does not go in, a
/// crossed ring. The outlines differ, so they are told apart without colour.

#include "ui/buy/buy_text.h"

#include <QRectF>

class QPainter;

namespace ullage {

struct Theme;

/// Drawn into the largest square in the middle of `place`.
void draw_standing(QPainter& painter, const QRectF& place, Standing standing, const Theme& theme);

}  // namespace ullage
