// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A site without the texts its values were typed as, to compare two by their values alone.

#include "core/site/site.h"

namespace ullage::testing {

namespace values {

template <class T>
void drop(Entered<T>& entered) {
    entered.text.clear();
}
inline void drop(Pool& pool) {
    drop(pool.drive);
    drop(pool.sector);
    for (DriveGroups& groups : pool.further) {
        drop(groups.drive);
        if (groups.sector) drop(*groups.sector);
    }
}
template <class T>
void drop(std::optional<T>& value) {
    if (value) drop(*value);
}
inline void drop(Ladder& ladder) {
    for (Rung& rung : ladder) {
        drop(rung.every);
        drop(rung.keep_for);
    }
}

}  // namespace values

inline Site values_of(Site site) {
    using values::drop;
    drop(site.horizon);
    drop(site.energy_price);
    for (Dataset& d : site.datasets) {
        drop(d.block_size);
        drop(d.live);
        drop(d.logical);
        if (d.growth) drop(d.growth->per_year);
        if (d.turnover) {
            drop(d.turnover->per_day);
            drop(d.turnover->per_week);
            drop(d.turnover->per_month);
        }
        drop(d.ladder);
        for (Event& e : d.events) {
            drop(e.amount);
            drop(e.date_spread);
        }
    }
    for (Box& b : site.boxes) {
        drop(b.lead_time);
        drop(b.pool);
        drop(b.usable);
        drop(b.other_data);
        drop(b.disk_rate);
        if (b.enclosure) drop(b.enclosure->power);
        for (BoxChange& c : b.changes) {
            drop(c.drive);
            drop(c.usable);
            drop(c.added.drive);
            drop(c.added.sector);
        }
    }
    for (Link& l : site.links) {
        drop(l.up);
        drop(l.down);
        drop(l.round_trip);
        drop(l.receive_window);
        for (OpenHours& h : l.hours) h.days_text.clear();
    }
    for (Send& s : site.sends) {
        drop(s.every);
        drop(s.cipher_rate);
        if (auto* ladder = std::get_if<Ladder>(&s.ladder)) drop(*ladder);
        drop(s.first_copy.copy_rate);
    }
    for (Offer& o : site.offers) {
        drop(o.price);
        drop(o.power);
        drop(o.life);
        drop(o.lead_time);
        drop(o.drive_rate);
        drop(o.pool);
        drop(o.usable);
    }
    return site;
}

}  // namespace ullage::testing
