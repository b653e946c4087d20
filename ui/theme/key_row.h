// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A drawn key: swatch and words, entry after entry, on as many lines as its width needs.

#include <QFont>
#include <QRectF>
#include <QStringList>

#include <functional>
#include <vector>

class QPainter;

namespace ullage {

struct Theme;

struct KeyRow {
    struct Entry {
        QString text;
        QRectF swatch, words;
    };
    std::vector<Entry> entries;
    double height = 0;
};

/// `em`: the height of a line of the widget's own font; `font`: that of the key. An entry wider
/// than [left, right] stands alone and is wrapped.
KeyRow key_row(const QStringList& texts, double left, double right, double top, double em,
               const QFont& font);

/// Draws the words; `swatch` draws the sample of the entry with that number.
void draw_key(QPainter& painter, const KeyRow& key, const Theme& theme, const QFont& font,
              const std::function<void(int entry, const QRectF& place)>& swatch);

}  // namespace ullage
