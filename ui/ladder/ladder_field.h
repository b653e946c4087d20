// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A ladder as a picture in a form, above the table in which it is edited.

#include "core/site/site.h"
#include "ui/forms/field.h"

namespace ullage::ui {

class LadderTimeline;

class LadderField : public Field {
    Q_OBJECT

public:
    struct Shown {
        Ladder ladder;
        Day day{};
        std::string time_zone;
    };
    LadderField(const QString& label, const QString& key, std::function<Shown()> read, QWidget* parent = nullptr);

    bool isWide() const override { return true; }
    QWidget* editor() override;
    void refresh(bool discard_typed) override;

private:
    std::function<Shown()> read_;
    LadderTimeline* timeline_;
};

}  // namespace ullage::ui
