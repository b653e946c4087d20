// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site_checker.h"

#include "core/units/quantity_text.h"
#include "core/units/quoted_text.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace ullage {

void SiteChecker::check_pool(const Pool& pool, const std::string& at) {
    check_groups(pool, at);
    within(at + "/spares", pool.spares, 0, most_drives, "the number of spares,");
    for (std::size_t i = 0; i < pool.further.size(); ++i) {
        const std::string here = fmt::format("{}/further/{}", at, i);
        check_groups(pool.further[i], here);
        same_sector(pool.further[i], pool, here);
    }
    const double sector = pool.sector.value.value;
    const double power = std::log2(sector);
    if (!(sector >= 512 && sector <= kib(64).value) || power != std::floor(power)) {
        fault(at + "/sector",
              fmt::format("{} is not a power of two from 512 B to 64 KiB; 4 KiB is usual",
                          shown(pool.sector)));
    }
}

void SiteChecker::same_sector(const DriveGroups& groups, const Pool& pool, const std::string& at) {
    if (!groups.sector || groups.sector->value == pool.sector.value) return;
    fault(at + "/sector",
          fmt::format("sectors of {} beside sectors of {}: groups of different sector sizes in "
                      "one pool are not modelled; leave sector out here",
                      shown(*groups.sector), shown(pool.sector)));
}

void SiteChecker::check_change(const BoxChange& change, const Box& box, const std::string& at) {
    text(at + "/note", change.note);
    const bool resize = change.kind == BoxChange::Kind::resize;
    if (resize != box.usable.has_value()) {
        fault(at, resize ? "usable changes on a box that gives usable; one with a pool changes "
                           "by add_groups, swap_drives or widen_to"
                         : "only a box with a pool has drives to change; one that gives usable "
                           "changes by usable",
              at.substr(0, at.rfind("/changes/")), {"pool", "usable"});
        return;
    }
    if (resize) positive(at + "/usable", change.usable);
    if (!box.pool) return;
    if (change.kind == BoxChange::Kind::add_groups) {
        check_groups(change.added, at + "/add_groups");
        same_sector(change.added, *box.pool, at + "/add_groups");
    }
    if (change.kind == BoxChange::Kind::swap_drives)
        positive(at + "/swap_drives", change.drive);
    const int sets = sets_before(box, change);
    if (change.set < 1 || change.set > sets) {
        fault(at + "/set",
              fmt::format("there is no set {} of groups on {}; the box has {} then", change.set,
                          format_date(change.on), sets));
    } else if (change.kind == BoxChange::Kind::widen && change.set == 1 &&
               box.pool->redundancy.kind != Redundancy::Kind::parity) {
        fault(at + "/widen_to", "only parity groups are widened; add groups instead");
    }
}

int SiteChecker::sets_before(const Box& box, const BoxChange& change) {
    int sets = 1 + static_cast<int>(box.pool->further.size());
    for (const BoxChange& other : box.changes)
        if (other.kind == BoxChange::Kind::add_groups && other.on < change.on) ++sets;
    return sets;
}

void SiteChecker::check_box(const Box& box, const std::string& at) {
    const auto place = static_cast<std::size_t>(&box - site_.boxes.data());
    name(at, box, place, boxes_, "/boxes");
    if (!(box.ceiling > 0 && box.ceiling <= 1)) {
        fault(at + "/ceiling",
              fmt::format("a ceiling of {} is not above 0 and at most 1; 0.8 (80 %) is usual",
                          box.ceiling));
    }
    not_negative(at + "/lead_time", box.lead_time);
    if (box.pool && box.usable) {
        fault(at + "/usable",
              fmt::format("a box has either a pool or usable ({}); take one out",
                          shown(*box.usable)));
    }
    if (box.pool) check_pool(*box.pool, at + "/pool");
    if (box.usable) positive(at + "/usable", *box.usable);
    not_negative(at + "/other_data", box.other_data.value.value, shown(box.other_data));
    not_absurd(at + "/other_data", box.other_data.value.value, shown(box.other_data));
    positive(at + "/disk_rate", box.disk_rate);
    for (std::size_t i = 0; i < box.changes.size(); ++i) {
        check_change(box.changes[i], box, fmt::format("{}/changes/{}", at, i));
    }
    if (box.enclosure && box.enclosure->bays) {
        const std::string here = at + "/enclosure/bays";
        within(here, *box.enclosure->bays, 1, most_drives, "the number of bays,");
    }
    if (box.enclosure && box.enclosure->power) {
        const Power power = box.enclosure->power->value;
        positive(at + "/enclosure/power", power.value, exact_power(power));
    }
}

}  // namespace ullage
