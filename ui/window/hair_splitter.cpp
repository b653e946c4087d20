// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/hair_splitter.h"

#include "ui/theme/theme.h"

#include <QPainter>

namespace ullage::ui {

namespace {

constexpr int grip = 5;  ///< pixels to take hold of

class HairHandle : public QSplitterHandle {
public:
    using QSplitterHandle::QSplitterHandle;

protected:
    void paintEvent(QPaintEvent*) override {
        QPainter painter(this);
        const QColor line = Theme::of(palette()).rule;
        if (orientation() == Qt::Horizontal)
            painter.fillRect(width() / 2, 0, 1, height(), line);
        else
            painter.fillRect(0, height() / 2, width(), 1, line);
    }
};

}  // namespace

HairSplitter::HairSplitter(Qt::Orientation orientation, QWidget* parent)
    : QSplitter(orientation, parent) {
    setHandleWidth(grip);
    setChildrenCollapsible(false);
}

QSplitterHandle* HairSplitter::createHandle() { return new HairHandle(orientation(), this); }

}  // namespace ullage::ui
