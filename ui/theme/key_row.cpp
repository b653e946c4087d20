// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/key_row.h"

#include "ui/theme/theme.h"

#include <QFontMetricsF>
#include <QPainter>

#include <cmath>

namespace ullage {

KeyRow key_row(const QStringList& texts, double left, double right, double top, double em,
               const QFont& font) {
    const QFontMetricsF metrics(font);
    const double line = metrics.height();
    KeyRow key;
    double x = left, y = top;
    for (const QString& text : texts) {
        const double words = std::ceil(metrics.horizontalAdvance(text)) + 1;
        if (x > left && x + em * 2.2 + words > right) {
            x = left;
            y += line + em * 0.25;
        }
        key.entries.push_back({text, QRectF(x, y + line * 0.12, em * 1.8, line * 0.76),
                               QRectF(x + em * 2.2, y, words, line)});
        x += em * 3.3 + words;
    }
    key.height = texts.isEmpty() ? 0 : y + line - top;
    return key;
}

void draw_key(QPainter& painter, const KeyRow& key, const Theme& theme, const QFont& font,
              const std::function<void(int, const QRectF&)>& swatch) {
    for (std::size_t i = 0; i < key.entries.size(); ++i) {
        painter.save();
        swatch(static_cast<int>(i), key.entries[i].swatch);
        painter.restore();
        painter.setFont(font);
        painter.setPen(theme.muted);
        painter.drawText(key.entries[i].words, Qt::AlignLeft | Qt::AlignVCenter,
                         key.entries[i].text);
    }
}

}  // namespace ullage
