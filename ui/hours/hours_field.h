// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Open hours as a week to be painted; the table beneath it holds the same rows.

#include "ui/forms/field.h"
#include "ui/hours/week_grid.h"

namespace ullage::ui {

class HoursPainter;

class HoursField : public Field {
    Q_OBJECT

public:
    struct Binding {
        std::function<std::vector<OpenHours>()> rows;
        std::function<void(const std::vector<OpenHours>&)> commit;
    };
    HoursField(const QString& label, const QString& key, Binding binding, QWidget* parent = nullptr);

    bool isWide() const override { return true; }
    QWidget* editor() override;
    void refresh(bool discard_typed) override;

private:
    Binding binding_;
    HoursPainter* painter_;
};

}  // namespace ullage::ui
