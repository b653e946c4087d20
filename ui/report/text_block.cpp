// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/report/text_block.h"

#include "ui/report/report_pictures.h"

#include <QPainter>

namespace ullage::paper {

QFont text_font(double pixels, QFont::Weight weight) {
    QFont font = report_font(pixels, weight);
    constexpr double hardly = 0.02;  // pixels; the least that Qt does not round to none
    font.setLetterSpacing(QFont::AbsoluteSpacing, hardly);
    return font;
}

Block block(const QString& text, const QFont& font, double width, const QColor& colour,
            qsizetype bold_until) {
    constexpr double leading = 1.2;
    Block b;
    b.colour = colour;
    b.layout = std::make_shared<QTextLayout>(text, font);
    QTextOption option;
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    b.layout->setTextOption(option);
    if (bold_until > 0) {
        QTextCharFormat bold;
        bold.setFontWeight(QFont::Bold);
        QTextLayout::FormatRange range;
        range.start = 0;
        range.length = static_cast<int>(bold_until);
        range.format = bold;
        b.layout->setFormats({range});
    }
    b.layout->beginLayout();
    for (QTextLine line = b.layout->createLine(); line.isValid(); line = b.layout->createLine()) {
        line.setLineWidth(width);
        line.setPosition({0, b.height});
        b.height += line.height() * leading;
    }
    b.layout->endLayout();
    return b;
}

void draw_line(QPainter& painter, const Block& b, int line, const QPointF& at) {
    painter.setPen(b.colour);
    const QTextLine text = b.layout->lineAt(line);
    text.draw(&painter, at - QPointF(0, text.y()));
}

void draw_block(QPainter& painter, const Block& b, const QPointF& at) {
    painter.setPen(b.colour);
    b.layout->draw(&painter, at);
}

}  // namespace ullage::paper
