// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What the tests of the outlook share: small sites, built in code. All data are invented.

#include "core/outlook/outlook.h"
#include "core/site/site_json.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>
#include <variant>

namespace ullage::testing {

inline constexpr double tb = 1e12;
inline constexpr double gb = 1e9;
inline const Day as_of = *parse_date("2026-11-02");  // a Monday

inline Entered<Amount> amount(double bytes) { return Amount{bytes, Amount::Of::bytes}; }

inline Rung rung(int n, Period::Unit unit, int count) {
    Rung r;
    r.every = Period{n, unit};
    r.count = count;
    return r;
}
inline Ladder daily(int count) { return {rung(1, Period::Unit::day, count)}; }

inline Dataset dataset(const std::string& name, double live, double growth_per_year, double growth_spread = 0) {
    Dataset d;
    d.name = name;
    d.home = "home";
    d.live = Entered<Bytes>(Bytes{live});
    d.growth = Growth();
    d.growth->per_year = amount(growth_per_year);
    d.growth->spread = growth_spread;
    return d;
}

inline void churn(Dataset& d, double per_day, std::optional<double> per_week = {}, double spread = 0) {
    d.turnover = Turnover();
    d.turnover->per_day = amount(per_day);
    if (per_week) d.turnover->per_week = amount(*per_week);
    d.turnover->spread = spread;
}

inline Event event(Event::Kind kind, int days_after, double bytes) {
    Event e;
    e.kind = kind;
    e.on = as_of + std::chrono::days(days_after);
    e.amount = amount(bytes);
    return e;
}

inline Box box(const std::string& name, std::optional<double> usable = {}) {
    Box b;
    b.name = name;
    if (usable) b.usable = Entered<Bytes>(Bytes{*usable});
    return b;
}

inline Pool pool_of(int groups, int width, Redundancy r, double drive_tb) {
    Pool p;
    p.groups = groups;
    p.width = width;
    p.redundancy = r;
    p.drive = Bytes{drive_tb * tb};
    return p;
}
inline Redundancy parity(int n) { return {Redundancy::Kind::parity, n}; }
inline Redundancy mirror(int n) { return {Redundancy::Kind::mirror, n}; }

inline Site site(double horizon_days, std::vector<Dataset> datasets, std::vector<Box> boxes) {
    Site s;
    s.name = "Invented";
    s.as_of = as_of;
    s.horizon = days(horizon_days);
    s.datasets = std::move(datasets);
    s.boxes = std::move(boxes);
    return s;
}

/// A line and a nightly send of all datasets from "home" to "attic".
inline void add_send(Site& s, double megabits, FirstCopy::By by = FirstCopy::By::present) {
    Link l;
    l.name = "line";
    l.up = l.down = Entered<BitsPerSecond>(BitsPerSecond{megabits * 1e6});
    l.receive_window = mib(64);
    s.links.push_back(l);
    Send send;
    send.name = "nightly";
    for (const auto& d : s.datasets) send.datasets.push_back(d.name);
    send.from = "home";
    send.to = "attic";
    send.over = "line";
    send.first_copy.by = by;
    s.sends.push_back(send);
}

inline Outlook outlook_of(const Site& s, int paths = 50, std::uint64_t seed = 1, int threads = 1,
                          const Evidence& evidence = {}) {
    Settings settings;
    settings.paths = paths;
    settings.seed = seed;
    settings.threads = threads;
    auto o = compute(s, evidence, settings);
    if (o) return *o;
    std::string said = "cancelled";
    if (const auto* problems = std::get_if<Problems>(&o.error())) {
        said.clear();
        for (const auto& p : *problems) said += p.where + ": " + p.what + "\n";
    }
    ADD_FAILURE() << said;
    return {};
}

inline const FillPoint& point_at(const BoxOutlook& b, int days_after) {
    const Day day = as_of + std::chrono::days(days_after);
    const auto it = std::find_if(b.fill.begin(), b.fill.end(), [&](const FillPoint& p) { return p.date == day; });
    EXPECT_NE(it, b.fill.end()) << "no point on day " << days_after;
    return it == b.fill.end() ? b.fill.front() : *it;
}

}  // namespace ullage::testing
