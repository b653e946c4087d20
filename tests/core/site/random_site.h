// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Random valid sites for properties: up to three datasets on "home", copies on "attic", copies of those on
/// "far"; every member of the file format is there in some of them. Small enough to be forecast in
/// milliseconds. All data are invented.

#include "core/site/site_json.h"

#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace ullage::testing {

/// 0…1 in steps of a thousandth.
inline double any_part() { return *rc::gen::inRange(0, 1001) / 1000.0; }
inline double any_between(double low, double high) { return low + (high - low) * any_part(); }
/// By its logarithm.
inline double any_scale(double low, double high) { return low * std::pow(high / low, any_part()); }
/// True in `n` of ten.
inline bool in_ten(int n) { return *rc::gen::inRange(0, 10) < n; }

template <class T>
T any_of(std::initializer_list<T> choices) {
    return *rc::gen::elementOf(std::vector<T>(choices));
}

inline Entered<Amount> any_amount(double low, double high, double live) {
    const double share = std::round(any_between(low, high) * 1e5) / 1e5;
    if (in_ten(3)) return Amount{share, Amount::Of::live_share};
    return Amount{std::round(share * live), Amount::Of::bytes};
}

inline Rung any_rung() {
    using Unit = Period::Unit;
    struct Kind {
        Unit unit;
        int most_n, most_count;
    };
    const Kind kind = any_of<Kind>({{Unit::minute, 60, 20}, {Unit::hour, 12, 48}, {Unit::day, 10, 40},
                                    {Unit::week, 4, 30}, {Unit::month, 6, 24}, {Unit::year, 2, 4}});
    Rung rung;
    rung.every = Period{std::max(kind.unit == Unit::minute ? 30 : 1, *rc::gen::inRange(1, kind.most_n + 1)), kind.unit};
    if (in_ten(7)) {
        rung.count = *rc::gen::inRange(1, kind.most_count + 1);
    } else {
        rung.keep_for = Entered<Duration>(rung.every.value.length() * *rc::gen::inRange(1, kind.most_count + 1));
    }
    return rung;
}

inline Ladder any_ladder(int least = 0) {
    Ladder ladder;
    const int rungs = *rc::gen::inRange(least, 4);
    for (int i = 0; i < rungs; ++i) ladder.push_back(any_rung());
    return ladder;
}

inline Event any_event(Day start, int horizon, double live) {
    Event e;
    e.on = start + std::chrono::days(*rc::gen::inRange(-20, horizon + 60));
    e.kind = any_of({Event::Kind::add, Event::Kind::remove, Event::Kind::rewrite, Event::Kind::move});
    e.amount = any_amount(0.001, e.kind == Event::Kind::remove ? 0.1 : 0.8, live);
    if (in_ten(4)) e.spread = any_between(0, 0.8);
    if (in_ten(4)) e.date_spread = Entered<Duration>(days(*rc::gen::inRange(0, 60)));
    if (in_ten(2)) e.note = "Zoë’s “archive” \\ moves";
    return e;
}

inline Dataset any_dataset(int number, Day start, int horizon) {
    Dataset d;
    d.name = "data " + std::to_string(number);
    d.home = "home";
    d.kind = in_ten(6) ? Dataset::Kind::files : Dataset::Kind::volume;
    d.block_size = Bytes{512.0 * (1 << *rc::gen::inRange(3, 13))};
    const double live = std::round(any_scale(1e8, 5e13));
    if (in_ten(6)) d.compression_ratio = any_between(1, 4);
    if (in_ten(2)) d.compression_spread = any_between(0, 0.4);
    if (in_ten(7))
        d.live = Entered<Bytes>(Bytes{live});
    else
        d.logical = Entered<Bytes>(Bytes{live * d.compression_ratio.value_or(1)});
    const double typed = d.live ? live : d.logical->value.value;
    if (in_ten(7)) {
        d.growth.emplace().per_year = any_amount(-0.4, 1.5, typed);
        if (in_ten(6)) d.growth->spread = any_between(0, 1);
    }
    if (in_ten(7)) {
        auto& t = d.turnover.emplace();
        // What is written includes the growth.
        const double grown = d.growth ? std::max(0.0, d.growth->per_year.value.bytes(typed) / typed) / days_per_year : 0;
        const double day = std::max(any_scale(1e-5, 0.05), 1.2 * grown);
        const double week = std::max(day * any_between(1.01, 6.9), 7.5 * grown);
        t.per_day = Amount{std::round(day * live), Amount::Of::bytes};
        if (in_ten(5)) t.per_week = Amount{std::round(week * live), Amount::Of::bytes};
        if (t.per_week && in_ten(5))
            t.per_month =
                Amount{std::round(std::max(week * any_between(1.01, 4.2), 31 * grown) * live), Amount::Of::bytes};
        if (in_ten(5)) t.spread = any_between(0, 1);
    }
    if (in_ten(3)) {
        auto& shape = d.week_shape.emplace();
        for (double& part : shape) part = *rc::gen::inRange(0, 5) / 4.0;
        shape[static_cast<std::size_t>(*rc::gen::inRange(0, 7))] = 1;
    }
    d.ladder = any_ladder();
    const int events = *rc::gen::inRange(0, 4);
    for (int i = 0; i < events; ++i) d.events.push_back(any_event(start, horizon, typed));
    if (in_ten(1)) d.extras["x-own"] = R"({ "a": [1e-5, null], "é": "~/" })";
    return d;
}

inline Pool any_pool(double about_bytes) {
    Pool p;
    p.redundancy = any_of<Redundancy>({{Redundancy::Kind::none, 1}, {Redundancy::Kind::mirror, 2},
                                       {Redundancy::Kind::mirror, 3}, {Redundancy::Kind::parity, 1},
                                       {Redundancy::Kind::parity, 2}, {Redundancy::Kind::parity, 3}});
    p.width = p.redundancy.kind == Redundancy::Kind::parity ? p.redundancy.n + *rc::gen::inRange(1, 12) : p.redundancy.n;
    p.groups = *rc::gen::inRange(1, 4);
    p.drive = Bytes{std::round(std::max(about_bytes / p.groups / p.width, 2e10) / 1e9) * 1e9};
    if (in_ten(3)) p.spares = *rc::gen::inRange(0, 3);
    if (in_ten(3)) p.sector = Bytes{any_of({512.0, 4096.0, 8192.0})};
    if (in_ten(2)) {
        auto& more = p.further.emplace_back();
        more.redundancy = {Redundancy::Kind::mirror, 2};
        more.width = 2;
        more.drive = p.drive;
    }
    return p;
}

/// One that can be made of the box as it is described.
inline BoxChange any_change(const Box& b, Day start) {
    BoxChange c;
    c.on = start + std::chrono::days(*rc::gen::inRange(-30, 500));
    if (!b.pool) {
        c.kind = BoxChange::Kind::resize;
        c.usable = Bytes{std::round(b.usable->value.value * any_between(0.8, 3))};
    } else if (b.pool->redundancy.kind == Redundancy::Kind::parity && in_ten(4)) {
        c.kind = BoxChange::Kind::widen;
        c.width = b.pool->width + *rc::gen::inRange(1, 5);
    } else if (in_ten(5)) {
        c.kind = BoxChange::Kind::swap_drives;
        c.drive = Bytes{std::round(b.pool->drive.value.value * any_between(1.2, 3))};
    } else {
        c.added.width = 3;
        c.added.redundancy = {Redundancy::Kind::parity, 1};
        c.added.drive = b.pool->drive;
    }
    if (in_ten(3)) c.note = "as agreed";
    return c;
}

inline Offer any_offer(const std::string& name, const Box& b, double about_bytes) {
    Offer o;
    o.name = name;
    o.box = b.name;
    o.price = Money{static_cast<double>(*rc::gen::inRange(0, 9000))};
    o.as = any_of({Offer::As::drives, Offer::As::box});
    if (in_ten(7)) {
        o.pool = any_pool(about_bytes);
        if (b.pool && in_ten(4)) o.as = Offer::As::added;
        if (o.as == Offer::As::added) o.pool->sector = b.pool->sector;
    } else {
        o.usable = Entered<Bytes>(Bytes{std::round(about_bytes)});
        if (b.usable && in_ten(4)) o.as = Offer::As::added;
    }
    if (in_ten(5)) o.power = Entered<Power>(Power{48});
    if (in_ten(5)) o.life = Entered<Duration>(days(any_between(0.05, 5) * days_per_year));
    if (in_ten(5)) o.lead_time = Entered<Duration>(days(*rc::gen::inRange(0, 120)));
    if (in_ten(3)) o.failure_rate = any_between(0, 0.2);
    if (in_ten(3)) o.drive_rate = Entered<BytesPerSecond>(BytesPerSecond{2e8});
    return o;
}

inline Box any_box(const std::string& name, Day start, double about_bytes) {
    Box b;
    b.name = name;
    const int size = *rc::gen::inRange(0, 10);
    if (size < 5) b.usable = Entered<Bytes>(Bytes{std::round(about_bytes)});
    if (size >= 5 && size < 9) b.pool = any_pool(about_bytes * 1.4);
    if (in_ten(4)) b.ceiling = any_between(0.5, 1);
    if (in_ten(4)) b.lead_time = Entered<Duration>(days(*rc::gen::inRange(0, 90)));
    if (in_ten(3)) b.other_data = Bytes{std::round(about_bytes * any_between(0, 0.3))};
    if (in_ten(3)) b.disk_rate = Entered<BytesPerSecond>(BytesPerSecond{std::round(any_scale(1e7, 1e9))});
    if (name != "home" && in_ten(3)) b.in_service = start + std::chrono::days(*rc::gen::inRange(-100, 100));
    if ((b.pool || b.usable) && in_ten(3)) b.changes.push_back(any_change(b, start));
    if (in_ten(2)) b.enclosure = Enclosure{*rc::gen::inRange(2, 24), Entered<Power>(Power{60}), {}};
    return b;
}

inline Link any_link(const std::string& name) {
    Link l;
    l.name = name;
    l.up = BitsPerSecond{std::round(any_scale(2e5, 2e9))};
    l.down = in_ten(5) ? l.up : Entered<BitsPerSecond>(BitsPerSecond{std::round(any_scale(1e6, 2e9))});
    if (in_ten(6)) l.round_trip = seconds(any_scale(1e-4, 0.6));
    if (in_ten(4)) l.loss = any_scale(1e-7, 0.05);
    if (in_ten(3)) l.mtu = any_of({1280, 1492, 9000});
    if (in_ten(2)) l.ip_version = 6;
    for (const Wrapper wrapper : {Wrapper::ssh, Wrapper::wireguard, Wrapper::vlan})
        if (l.mtu > 1400 && in_ten(2)) l.wrappers.push_back(wrapper);
    if (in_ten(3)) l.receive_window = Bytes{std::round(any_scale(65536, 1e8))};
    if (in_ten(3)) l.congestion = Congestion::reno;
    if (in_ten(3)) l.streams = *rc::gen::inRange(1, 9);
    if (in_ten(3)) l.sharing = Sharing::in_turn;
    const int stretches = in_ten(5) ? 0 : *rc::gen::inRange(1, 4);
    for (int i = 0; i < stretches; ++i) {
        OpenHours h;
        for (bool& day : h.days) day = in_ten(6);
        h.days[static_cast<std::size_t>(*rc::gen::inRange(0, 7))] = true;
        h.from = 900 * *rc::gen::inRange(0, 96);
        h.to = 900 * *rc::gen::inRange(0, 97);
        h.share = any_between(0.05, 1);
        l.hours.push_back(h);
    }
    return l;
}

inline Send any_send(const std::string& name, std::vector<std::string> datasets, const std::string& from,
                     const std::string& to, const std::string& over) {
    Send s;
    s.name = name;
    s.datasets = std::move(datasets);
    s.from = from;
    s.to = to;
    s.over = over;
    if (in_ten(2)) {
        s.after_each_snapshot = true;
    } else {
        s.every = any_of<Period>({{1, Period::Unit::day}, {6, Period::Unit::hour}, {2, Period::Unit::day},
                                  {1, Period::Unit::week}, {1, Period::Unit::month}});
        s.at = 900 * *rc::gen::inRange(0, 96);
    }
    if (in_ten(3)) s.steps = Send::Steps::every;
    s.payload = any_of({Send::Payload::stored, Send::Payload::expanded, Send::Payload::sealed});
    if (s.payload == Send::Payload::expanded && in_ten(5)) s.stream_ratio = any_between(1, 4);
    if (in_ten(3)) s.cipher_rate = Entered<BytesPerSecond>(BytesPerSecond{std::round(any_scale(1e6, 1e9))});
    const int ladder = *rc::gen::inRange(0, 10);
    if (ladder == 0) s.ladder = KeepAll{};
    if (ladder > 6) s.ladder = any_ladder(1);
    s.hold_last_sent = in_ten(3);
    s.first_copy.by = any_of({FirstCopy::By::link, FirstCopy::By::courier, FirstCopy::By::present});
    if (s.first_copy.by == FirstCopy::By::courier) {
        s.first_copy.copy_rate = Entered<BytesPerSecond>(BytesPerSecond{std::round(any_scale(2e7, 4e8))});
        s.first_copy.days_away = *rc::gen::inRange(0, 20);
    }
    return s;
}

inline rc::Gen<Site> any_site() {
    return rc::gen::exec([] {
        Site site;
        site.name = "Invented";
        site.as_of = any_of({*parse_date("2026-11-02"), *parse_date("2028-02-29"), *parse_date("2037-12-30"),
                             *parse_date("1999-12-31"), *parse_date("2027-03-27")}) +
                     std::chrono::days(*rc::gen::inRange(0, 30));
        site.time_zone = any_of<std::string>({"UTC", "Europe/Berlin", "America/New_York", "Australia/Lord_Howe",
                                              "Asia/Kolkata", "Pacific/Apia"});
        const int horizon = *rc::gen::inRange(30, 200);
        site.horizon = days(horizon);
        if (in_ten(3)) site.confidence = any_between(0.55, 0.99);
        const int datasets = *rc::gen::inRange(1, 4);
        double live = 0;
        for (int i = 0; i < datasets; ++i) {
            site.datasets.push_back(any_dataset(i, site.as_of, horizon));
            const auto& d = site.datasets.back();
            live += d.live ? d.live->value.value : d.logical->value.value / d.compression_ratio.value_or(1);
        }
        for (const char* name : {"home", "attic", "far"})
            site.boxes.push_back(any_box(name, site.as_of, live * any_scale(0.7, 6)));
        site.links = {any_link("line"), any_link("other line")};
        std::vector<std::string> sent;  // with a ladder: a send carries what is between two snapshots
        for (auto& d : site.datasets) {
            if (!in_ten(7)) continue;
            if (d.ladder.empty()) d.ladder = any_ladder(1);
            sent.push_back(d.name);
        }
        if (!sent.empty()) {
            site.sends.push_back(any_send("nightly", sent, "home", "attic", "line"));
            if (in_ten(4)) {
                sent.resize(static_cast<std::size_t>(*rc::gen::inRange(1, static_cast<int>(sent.size()) + 1)));
                site.sends.push_back(any_send("onward", sent, "attic", "far", any_of<std::string>({"line", "other line"})));
            }
        }
        if (in_ten(5)) site.energy_price = Entered<Money>(Money{0.3});
        const int offers = *rc::gen::inRange(0, 4);
        for (int i = 0; i < offers; ++i)
            site.offers.push_back(any_offer("offer " + std::to_string(i),
                                            site.boxes[static_cast<std::size_t>(*rc::gen::inRange(0, 3))],
                                            live * any_scale(0.7, 6)));
        return site;
    });
}

}  // namespace ullage::testing
