// SPDX-License-Identifier: GPL-3.0-or-later
/// How long one path of the replay takes: eight hourly sends over five years, on two shared lines,
/// half of them relays. Prints seconds; the site is invented.

#include "core/outlook/send_study.h"

#include <fmt/format.h>
#include <chrono>
#include <cstdio>
#include <variant>

namespace {

using namespace ullage;

Rung rung(int n, Period::Unit unit, int count) {
    Rung r;
    r.every = Period{n, unit};
    r.count = count;
    return r;
}

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

double seconds_since(std::chrono::steady_clock::time_point start) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

}  // namespace

int main() {
    Settings settings;
    settings.paths = 1;
    settings.threads = 1;
    auto start = std::chrono::steady_clock::now();
    const auto study = study_sends(eight_sends(), {}, settings, {});
    if (!study) {
        if (const auto* problems = std::get_if<Problems>(&study.error()))
            for (const auto& p : *problems) fmt::print("{}: {}\n", p.where, p.what);
        return 1;
    }
    fmt::print("plans   {:.3f} s\n", seconds_since(start));
    PathsReplay one;
    one.threads = 1;
    one.most_paths = 1;
    for (int round = 0; round < 3; ++round) {
        start = std::chrono::steady_clock::now();
        const auto traces =
            replay_paths(study->context(), study->plans, study->plan, study->paths, one, {}, 0, 1);
        std::size_t runs = 0;
        for (const auto& send : traces->front()) runs += send.size();
        fmt::print("a path  {:.3f} s, {} runs of {} sends\n", seconds_since(start), runs,
                   traces->front().size());
    }
    return 0;
}
