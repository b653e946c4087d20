// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/hours/hours_field.h"

#include "ui/hours/hours_painter.h"

namespace ullage::ui {

HoursField::HoursField(const QString& label, const QString& key, Binding binding, QWidget* parent)
    : Field(label, key, parent), binding_(std::move(binding)), painter_(new HoursPainter(this)) {
    setEditor(painter_, painter_);
    connect(painter_, &HoursPainter::painted, this,
            [this](const WeekGrid& grid) { binding_.commit(rowsOf(grid)); });
}

QWidget* HoursField::editor() { return painter_; }

void HoursField::refresh(bool) {
    const WeekGrid grid = gridOf(binding_.rows());
    if (grid != painter_->grid()) painter_->setGrid(grid);
}

}  // namespace ullage::ui
