// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// An answer built by hand, so that every number of a sentence is known. All data are invented.

#include "core/findings/findings.h"

#include <gtest/gtest.h>

#include <string>

namespace ullage::testing {

inline const Day as_of = *parse_date("2026-11-01");

inline FillPoint point(int days_after, double used, double held, double usable) {
    FillPoint p;
    p.usable_bytes = usable;
    p.date = as_of + std::chrono::days(days_after);
    p.used_bytes = {used * 0.9, used * 0.95, used, used * 1.05, used * 1.1};
    p.live_bytes = {used - held, used - held, used - held, used - held, used - held};
    p.held_bytes = {held, held, held, held, held};
    p.fill = used / usable;
    return p;
}

/// A box of 40 TB with a ceiling of 80 %, at 20 TB today and 36 TB in five years.
inline BoxOutlook box() {
    BoxOutlook b;
    b.name = "attic";
    b.raw_bytes = 60e12;
    b.usable_bytes = 40e12;
    b.ceiling_bytes = 32e12;
    b.used_now_bytes = 20e12;
    b.days_until_ceiling = {1000, 1300, 1700};
    b.days_until_full = {1500, {}, {}};
    b.chance_of_ceiling_within_horizon = 0.93;
    b.chance_of_full_within_horizon = 0.2;
    b.order_by = as_of + std::chrono::days(979);
    b.lead_time_days = 21;
    b.fill = {point(0, 20e12, 2e12, 40e12), point(7, 20.1e12, 2e12, 40e12), point(1826, 36e12, 9e12, 40e12)};
    return b;
}

inline SendOutlook send() {
    SendOutlook s;
    s.name = "nightly";
    s.from = "clinic";
    s.to = "attic";
    s.link = "tunnel";
    s.goodput.bits_per_second = 94e6;
    s.goodput.next_bits_per_second = 400e6;
    s.goodput.next_limit = Limit::window;
    s.goodput.chain = {{"line", 100e6, 100e6, true}};
    s.bytes_per_run = {14e9, 21e9, 25e9};
    s.hours_per_run = {0.4, 2.3, 14};
    s.open_hours_per_run = 10;
    s.recovery_point_hours = {13, 24, 26};
    s.recovery_point_max_hours = 80;
    s.first_copy_days = {3, 3.2, 4};
    s.first_copy_bytes = 9e12;
    s.longest_outage_days = 13.8;
    s.restore_hours = {100, 110, 120};
    return s;
}

inline DatasetOutlook dataset() {
    DatasetOutlook d;
    d.name = "imaging";
    d.live_bytes = 9.2e12;
    d.growth_bytes_per_day = 4e9;
    d.written_1h = 1e9;
    d.written_1d = 14e9;
    d.written_7d = 61e9;
    d.written_30d = 200e9;
    d.curve = {{2, 1e10}, {100, 3e11}};
    d.observed_days = 30;
    d.assumptions = {"No spread of the turnover is given; a fifth of its level is taken."};
    return d;
}

inline Answer answer() {
    Answer a;
    a.site.name = "Quayside";
    Dataset d;
    d.name = "imaging";
    a.site.datasets = {d};
    Box home;
    home.name = "clinic";
    Box attic;
    attic.name = "attic";
    a.site.boxes = {home, attic};
    Send s;
    s.name = "nightly";
    a.site.sends = {s};
    a.outlook.site = "Quayside";
    a.outlook.as_of = as_of;
    a.outlook.horizon_days = 5 * days_per_year;
    a.outlook.paths = 2000;
    a.outlook.seed = 1;
    a.outlook.boxes = {box()};
    a.outlook.sends = {send()};
    a.outlook.datasets = {dataset()};
    a.findings = findings(a.site, a.outlook);
    return a;
}

}  // namespace ullage::testing
