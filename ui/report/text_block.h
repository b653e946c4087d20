// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A text of a report broken into lines of a width, in the report's fonts and inks.

#include <QColor>
#include <QFont>
#include <QPointF>
#include <QString>
#include <QTextLayout>

#include <memory>
#include <string>

class QPainter;

namespace ullage::paper {

inline const QColor ink(0x1c, 0x1c, 0x1c), muted(0x59, 0x59, 0x59), rule(0xbd, 0xbd, 0xbd);

/// Qt joins no letters that are spaced: a joined "ff" would not be found by a search in a PDF.
QFont text_font(double pixels, QFont::Weight weight = QFont::Normal);

inline QString qstring(const std::string& text) { return QString::fromStdString(text); }

struct Block {
    std::shared_ptr<QTextLayout> layout;
    QColor colour = ink;
    double height = 0;
    int lines() const { return layout->lineCount(); }
    double top(int line) const { return layout->lineAt(line).y(); }
    double line_height(int line) const { return layout->lineAt(line).height(); }
};

/// The first `bold_until` letters are bold.
Block block(const QString& text, const QFont& font, double width, const QColor& colour = ink,
            qsizetype bold_until = 0);

void draw_line(QPainter& painter, const Block& b, int line, const QPointF& at);
void draw_block(QPainter& painter, const Block& b, const QPointF& at);

}  // namespace ullage::paper
