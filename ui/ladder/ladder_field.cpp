// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/ladder/ladder_field.h"

#include "ui/ladder/ladder_timeline.h"

namespace ullage::ui {

LadderField::LadderField(const QString& label, const QString& key, std::function<Shown()> read, QWidget* parent)
    : Field(label, key, parent), read_(std::move(read)), timeline_(new LadderTimeline(this)) {
    setEditor(timeline_, timeline_);
}

QWidget* LadderField::editor() { return timeline_; }

void LadderField::refresh(bool) {
    const Shown shown = read_();
    timeline_->setLadder(shown.ladder, shown.day, shown.time_zone);
}

}  // namespace ullage::ui
