// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/key_row.h"

#include "ui/theme/theme.h"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace ullage {

KeyRow key_row(const QStringList& texts, double left, double right, double top, double em,
               const QFont& font) {
    const QFontMetricsF metrics(font);
    const double line = metrics.height();
    KeyRow key;
    double x = left, y = top;
    double row = line;  // height of the row so far
    for (const QString& text : texts) {
        const double indent = em * 2.2, whole = std::ceil(metrics.horizontalAdvance(text)) + 1;
        if (x > left && x + indent + whole > right) {
            x = left;
            y += row + em * 0.25;
            row = line;
        }
        const double words = std::min(whole, std::max(em, right - x - indent));
        const double height =
            words < whole
                ? metrics.boundingRect(QRectF(0, 0, words, 1e6), Qt::TextWordWrap, text).height()
                : line;
        key.entries.push_back({text, QRectF(x, y + line * 0.12, em * 1.8, line * 0.76),
                               QRectF(x + indent, y, words, height)});
        row = std::max(row, height);
        x += indent + words + em * 1.1;
    }
    key.height = texts.isEmpty() ? 0 : y + row - top;
    return key;
}

void draw_key(QPainter& painter, const KeyRow& key, const Theme& theme, const QFont& font,
              const std::function<void(int, const QRectF&)>& swatch) {
    for (std::size_t i = 0; i < key.entries.size(); ++i) {
        painter.save();
        painter.setBrush(Qt::NoBrush);
        swatch(static_cast<int>(i), key.entries[i].swatch);
        painter.restore();
        painter.setFont(font);
        painter.setPen(theme.muted);
        painter.drawText(key.entries[i].words, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextWordWrap,
                         key.entries[i].text);
    }
}

}  // namespace ullage
