// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/space_text.h"

#include "core/site/site_json.h"
#include "core/units/quantity_text.h"

#include <fmt/format.h>

namespace ullage {

namespace {

std::string size_text(const Entered<Bytes>& size) {
    return size.text.empty() ? exact_bytes(size.value) : size.text;
}

std::string set_text(int set) { return set == 1 ? "" : fmt::format(" of set {}", set); }

}  // namespace

std::string groups_text(int groups, int width, const Redundancy& redundancy) {
    const auto several = [](int n, const char* one, const char* more) {
        return fmt::format("{} {}", n, n == 1 ? one : more);
    };
    switch (redundancy.kind) {
        case Redundancy::Kind::none:
            return several(groups * width, "drive", "drives") + " without redundancy";
        case Redundancy::Kind::mirror:
            return fmt::format("{} of {} drives", several(groups, "mirror", "mirrors"), width);
        case Redundancy::Kind::parity:
            return fmt::format("{} of {} drives, {}", several(groups, "group", "groups"), width,
                               to_text(redundancy));
    }
    return {};
}

std::string change_text(const BoxChange& change) {
    std::string text;
    switch (change.kind) {
        case BoxChange::Kind::add_groups:
            text = fmt::format("adds {}, of {}",
                               groups_text(change.added.groups, change.added.width, change.added.redundancy),
                               size_text(change.added.drive));
            break;
        case BoxChange::Kind::swap_drives:
            text = fmt::format("drives{} become {}", set_text(change.set), size_text(change.drive));
            break;
        case BoxChange::Kind::widen:
            text = fmt::format("groups{} widened to {} drives", set_text(change.set), change.width);
            break;
        case BoxChange::Kind::resize:
            text = fmt::format("usable becomes {}", size_text(change.usable));
            break;
    }
    return change.note.empty() ? text : text + ": " + change.note;
}

}  // namespace ullage
