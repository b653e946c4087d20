// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A week to be painted: seven strips of half hours, open or closed.
///
/// Mouse: the first cell pressed turns over; dragging gives the cells of the rectangle the same. Keyboard: arrows
/// move the cell that is ringed, Shift with them stretches a rectangle, Space turns it over, Home and End go to
/// the ends of a day. What is opened gets the share that other open hours have. `painted` comes once at the end
/// of a stroke.

#include "ui/hours/week_grid.h"

#include <QWidget>

namespace ullage::ui {

class HoursPainter : public QWidget {
    Q_OBJECT

public:
    explicit HoursPainter(QWidget* parent = nullptr);

    void setGrid(const WeekGrid& grid);
    const WeekGrid& grid() const { return grid_; }
    /// "Mon 19:00 to 19:30: open, 80 %": of the ringed cells.
    QString cellWords() const;
    QRectF cellPlace(int day, int cell) const;

    QSize sizeHint() const override;
    QSize minimumSizeHint() const override;

signals:
    void painted(const ullage::ui::WeekGrid& grid);

protected:
    void paintEvent(QPaintEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;
    void focusOutEvent(QFocusEvent* event) override;

private:
    struct Cell {
        int day = 0, half = 0;
        bool operator==(const Cell&) const = default;
    };
    QRectF stripes() const;
    Cell cellAt(const QPointF& at) const;
    double shareForOpening() const;
    /// The grid with the rectangle from `anchor_` to `here_` given a share.
    WeekGrid filled(double share) const;
    double& at(WeekGrid& grid, Cell cell) const { return grid[std::size_t(cell.day * cells_a_day + cell.half)]; }
    double at(Cell cell) const { return grid_[std::size_t(cell.day * cells_a_day + cell.half)]; }
    void say();

    WeekGrid grid_{};
    Cell anchor_, here_{0, 38};
    std::optional<double> stroke_;  ///< the share that the mouse is giving
};

}  // namespace ullage::ui
