// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/tile_layout.h"

#include <QWidget>

#include <algorithm>

namespace ullage {

TileLayout::TileLayout(int least_width, int spacing, QWidget* parent)
    : QLayout(parent), least_width_(std::max(1, least_width)) {
    setContentsMargins(0, 0, 0, 0);
    setSpacing(spacing);
}

TileLayout::~TileLayout() { qDeleteAll(items_); }

void TileLayout::setLeastWidth(int width) {
    least_width_ = std::max(1, width);
    invalidate();
}

void TileLayout::setMostWidth(int width) {
    most_width_ = std::max(0, width);
    invalidate();
}

void TileLayout::addItem(QLayoutItem* item) {
    items_.append(item);
    invalidate();
}

int TileLayout::count() const { return static_cast<int>(items_.size()); }
QLayoutItem* TileLayout::itemAt(int index) const { return items_.value(index); }
QLayoutItem* TileLayout::takeAt(int index) {
    return index >= 0 && index < count() ? items_.takeAt(index) : nullptr;
}

int TileLayout::columnsFor(int width) const {
    int shown = 0, least = least_width_;
    for (const auto* item : items_) {
        if (item->isEmpty()) continue;
        ++shown;
        least = std::max(least, item->minimumSize().width());
    }
    const int fit = (width + spacing()) / (least + spacing());
    return std::clamp(fit, 1, std::max(1, shown));
}

int TileLayout::heightForWidth(int width) const { return arrange(QRect(0, 0, width, 0), false); }

QSize TileLayout::minimumSize() const {
    int width = 0, height = 0;
    for (const auto* item : items_) {
        if (item->isEmpty()) continue;
        width = std::max(width, item->minimumSize().width());
        height = std::max(height, item->minimumSize().height());
    }
    const QMargins m = contentsMargins();
    return {width + m.left() + m.right(), height + m.top() + m.bottom()};
}

QSize TileLayout::sizeHint() const {
    int shown = 0;
    for (const auto* item : items_) shown += item->isEmpty() ? 0 : 1;
    const int width = std::max(1, std::min(shown, 4)) * (least_width_ + spacing()) - spacing();
    return {std::max(width, minimumSize().width()), heightForWidth(width)};
}

void TileLayout::setGeometry(const QRect& rect) {
    QLayout::setGeometry(rect);
    arrange(rect, true);
}

int TileLayout::arrange(const QRect& rect, bool move) const {
    const QMargins m = contentsMargins();
    const QRect inner = rect.marginsRemoved(m);
    const int gap = spacing();
    const int columns = columnsFor(inner.width());
    int tile = (inner.width() - gap * (columns - 1)) / columns;
    if (most_width_ > 0) tile = std::min(tile, std::max(most_width_, least_width_));

    QList<QLayoutItem*> shown;
    for (auto* item : items_)
        if (!item->isEmpty()) shown.append(item);

    int y = inner.y();
    for (int first = 0; first < shown.size(); first += columns) {
        const int last = std::min<int>(first + columns, static_cast<int>(shown.size()));
        int height = 0;
        for (int i = first; i < last; ++i) {
            const auto* item = shown[i];
            height = std::max(height, item->hasHeightForWidth() ? item->heightForWidth(tile)
                                                                : item->sizeHint().height());
        }
        if (move)
            for (int i = first; i < last; ++i) {
                const int column = i - first;
                QRect place(inner.x() + column * (tile + gap), y, tile, height);
                if (parentWidget() && parentWidget()->isRightToLeft())
                    place.moveRight(inner.right() - column * (tile + gap));
                shown[i]->setGeometry(place);
            }
        y += height + (last < shown.size() ? gap : 0);
    }
    return y - rect.y() + m.bottom();
}

}  // namespace ullage
