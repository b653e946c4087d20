// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/benchmarks/sites.h"

#include "core/units/calendar.h"

#include <fmt/format.h>

#include <cmath>

namespace ullage::benchmarks {

namespace {

Rung rung(int n, Period::Unit unit, int count) {
    Rung r;
    r.every = Period{n, unit};
    r.count = count;
    return r;
}

}  // namespace

Site eight_sends() {
    Site site;
    site.name = "Eight sends (invented)";
    site.as_of = *parse_date("2026-11-01");
    site.time_zone = "Europe/Amsterdam";
    site.boxes.resize(3);
    site.boxes[0].name = "source";
    site.boxes[1].name = "middle";
    site.boxes[2].name = "far";
    for (const char* name : {"first line", "second line"}) {
        Link link;
        link.name = name;
        link.up = link.down = Entered<BitsPerSecond>(BitsPerSecond{200e6});
        OpenHours nights;
        nights.from = 18 * 3600;
        nights.to = 8 * 3600;
        OpenHours always;
        always.share = 0.3;
        link.hours = {nights, always};
        site.links.push_back(link);
    }
    for (int i = 0; i < 4; ++i) {
        Dataset d;
        d.name = fmt::format("data {}", i + 1);
        d.home = "source";
        d.live = Entered<Bytes>(Bytes{2e12});
        d.turnover = Turnover();
        d.turnover->per_day = Entered<Amount>(Amount{10e9, Amount::Of::bytes});
        d.turnover->per_week = Entered<Amount>(Amount{40e9, Amount::Of::bytes});
        d.ladder = {rung(1, Period::Unit::hour, 48), rung(1, Period::Unit::day, 30),
                    rung(1, Period::Unit::week, 26)};
        site.datasets.push_back(d);
        for (const bool onward : {false, true}) {
            Send s;
            s.name = d.name + (onward ? " onward" : "");
            s.datasets = {d.name};
            s.from = onward ? "middle" : "source";
            s.to = onward ? "far" : "middle";
            s.over = onward ? "second line" : "first line";
            s.every = Period{1, Period::Unit::hour};
            s.at = onward ? 1800 : 0;
            s.first_copy.by = FirstCopy::By::present;
            site.sends.push_back(s);
        }
    }
    return site;
}

Site many_datasets(int datasets) {
    Site site;
    site.name = fmt::format("{} datasets (invented)", datasets);
    site.as_of = *parse_date("2026-11-01");
    site.time_zone = "Europe/Amsterdam";
    const auto gigabytes = [](double n) { return Amount{std::round(n) * 1e9, Amount::Of::bytes}; };
    double live_bytes = 0;
    for (int i = 0; i < datasets; ++i) {
        const double live_tb = 0.5 + 0.37 * ((i * 7) % 11);
        live_bytes += live_tb * 1e12;
        Dataset d;
        d.name = fmt::format("data {}", i + 1);
        d.kind = i % 4 == 3 ? Dataset::Kind::volume : Dataset::Kind::files;
        d.block_size = kib(i % 4 == 3 ? 16 : 128);
        d.home = "source";
        d.live = Entered<Bytes>(Bytes{live_tb * 1e12});
        d.compression_ratio = 1.2;
        d.growth = Growth{gigabytes(live_tb * 120), 0.3, {}};
        d.turnover = Turnover();
        d.turnover->per_day = gigabytes(live_tb * 4);
        d.turnover->per_week = gigabytes(live_tb * 16);
        d.turnover->per_month = gigabytes(live_tb * 40);
        d.turnover->spread = 0.25;
        d.ladder = {rung(1, Period::Unit::hour, 24), rung(1, Period::Unit::day, 30),
                    rung(1, Period::Unit::week, 26), rung(1, Period::Unit::month, 12)};
        site.datasets.push_back(d);
    }
    Box source;
    source.name = "source";
    source.usable = Entered<Bytes>(Bytes{std::round(live_bytes * 4)});
    site.boxes.push_back(source);
    for (int b = 0; b < 3; ++b) {
        Box box;
        box.name = fmt::format("copy {}", b + 1);
        box.pool = Pool();
        box.pool->groups = static_cast<int>(std::ceil(live_bytes * 5 / (6 * 14e12)));
        box.pool->width = 8;
        box.pool->redundancy = {Redundancy::Kind::parity, 2};
        box.pool->drive = Bytes{14e12};
        site.boxes.push_back(box);
        Link link;
        link.name = fmt::format("line {}", b + 1);
        link.up = link.down = Entered<BitsPerSecond>(BitsPerSecond{datasets * 20e6});
        link.round_trip = seconds(0.012);
        link.receive_window = mib(64);
        link.wrappers = {Wrapper::wireguard};
        OpenHours nights;
        nights.from = 19 * 3600;
        nights.to = 7 * 3600;
        OpenHours weekend;
        weekend.days = {false, false, false, false, false, true, true};
        link.hours = {nights, weekend};
        site.links.push_back(link);
        const int parts = b < 2 ? 3 : 2;
        for (int part = 0; part < parts; ++part) {
            Send send;
            send.name = fmt::format("send {}", site.sends.size() + 1);
            for (int i = part; i < datasets; i += parts) send.datasets.push_back(site.datasets[std::size_t(i)].name);
            send.from = "source";
            send.to = box.name;
            send.over = link.name;
            send.at = (20 + part) * 3600;
            send.first_copy.by = FirstCopy::By::present;
            site.sends.push_back(send);
        }
    }
    return site;
}

std::string listing_text(int snapshots) {
    std::string text = "snapshot\ttaken\tunique\tlive\twritten\n";
    double live = 4e12;
    for (int i = 0; i < snapshots; ++i) {
        const double written = 4e8 * (1 + 0.5 * std::sin(i * 0.7) + 0.3 * std::sin(i * 0.013));
        live += 1e7;
        text += fmt::format("data@{}\t{}\t{:.0f}\t{:.0f}\t{:.0f}\n", i, 1'600'000'000 + 1800LL * i,
                            0.3 * written, live, i == 0 ? live : written);
    }
    return text;
}

}  // namespace ullage::benchmarks
