// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/space_text.h"

#include "core/site/site_json.h"
#include "core/units/quantity_text.h"

namespace ullage {

namespace {

Exact size_text(const Entered<Bytes>& size) { return {size.text.empty() ? exact_bytes(size.value) : size.text}; }

}  // namespace

Message groups_text(int groups, int width, const Redundancy& redundancy) {
    switch (redundancy.kind) {
        case Redundancy::Kind::none:
            return message_n("{} drive without redundancy", "{} drives without redundancy", groups * width,
                             groups * width);
        case Redundancy::Kind::mirror:
            return message_n("{} mirror of {} drives", "{} mirrors of {} drives", groups, groups, width);
        case Redundancy::Kind::parity:
            return message_n("{} group of {} drives, {}", "{} groups of {} drives, {}", groups, groups, width,
                             to_text(redundancy));
    }
    return {};
}

Message change_text(const BoxChange& change) {
    const Message text = [&] {
        const bool first = change.set == 1;
        switch (change.kind) {
            case BoxChange::Kind::add_groups:
                return message("adds {}, of {}",
                               groups_text(change.added.groups, change.added.width, change.added.redundancy),
                               size_text(change.added.drive));
            case BoxChange::Kind::swap_drives:
                return first ? message("drives become {}", size_text(change.drive))
                             : message("drives of set {} become {}", change.set, size_text(change.drive));
            case BoxChange::Kind::widen:
                return first ? message("groups widened to {} drives", change.width)
                             : message("groups of set {} widened to {} drives", change.set, change.width);
            case BoxChange::Kind::resize: return message("usable becomes {}", size_text(change.usable));
        }
        return Message();
    }();
    return change.note.empty() ? text : message("{}: {}", text, change.note);
}

}  // namespace ullage
