// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// An editor (a line, a date, a number) whose outline is seen on any ground (3 : 1) and says where
/// the focus is.

#include "ui/theme/theme.h"

#include <QPaintEvent>
#include <QPainter>

namespace ullage {

template <class Editor>
class Outlined : public Editor {
public:
    using Editor::Editor;

protected:
    void paintEvent(QPaintEvent* event) override {
        Editor::paintEvent(event);
        const Theme theme = Theme::of(this->palette());
        QPainter painter(this);
        painter.setRenderHint(QPainter::Antialiasing);
        const double width = this->hasFocus() ? 2 : 1;
        painter.setPen(QPen(this->hasFocus() ? theme.focus : theme.edge, width));
        painter.setBrush(Qt::NoBrush);
        const double inset = width / 2;
        painter.drawRoundedRect(QRectF(this->rect()).adjusted(inset, inset, -inset, -inset), 3, 3);
    }
};

}  // namespace ullage
