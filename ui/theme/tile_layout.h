// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Tiles of equal width in as many columns as fit; rows are as high as their highest tile.
///
/// Columns = the most for which each is at least `least_width` (in logical pixels), at most
/// `most_columns`, never more than there are tiles, at least one. Nothing is cut off: where width
/// is short, rows are added, and the height for a width is reported to the layout around it.

#include <QLayout>
#include <QList>

namespace ullage {

class TileLayout : public QLayout {
    Q_OBJECT

public:
    explicit TileLayout(int least_width, int spacing, QWidget* parent = nullptr);
    ~TileLayout() override;

    void setLeastWidth(int width);
    /// Tiles do not grow wider than this; 0: no limit.
    void setMostWidth(int width);
    int columnsFor(int width) const;

    void addItem(QLayoutItem* item) override;
    int count() const override;
    QLayoutItem* itemAt(int index) const override;
    QLayoutItem* takeAt(int index) override;
    Qt::Orientations expandingDirections() const override { return Qt::Horizontal; }
    bool hasHeightForWidth() const override { return true; }
    int heightForWidth(int width) const override;
    QSize sizeHint() const override;
    QSize minimumSize() const override;
    void setGeometry(const QRect& rect) override;

private:
    int arrange(const QRect& rect, bool move) const;

    QList<QLayoutItem*> items_;
    int least_width_;
    int most_width_ = 0;
};

}  // namespace ullage
