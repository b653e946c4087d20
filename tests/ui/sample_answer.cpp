// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/sample_answer.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <map>
#include <utility>

namespace ullage::sample {
namespace {

using std::chrono::sys_days;

const Day today = sys_days(std::chrono::year(2026) / 11 / 1);
constexpr double tb = 1e12;

// A logistic stand-in for the normal quantile: good enough for a picture.
double quantile_z(double q) { return std::log(q / (1 - q)) / 1.702; }

struct Course {
    double now, per_year, spread;  // bytes, bytes per year, relative standard deviation
    double at(double days, double q) const {
        const double drift = per_year * days / days_per_year;
        const double level = std::abs(now) * 0.006 * quantile_z(q) * std::sqrt(days / 30.0);
        return std::max(
            0.0, now + drift + std::abs(per_year) * spread * quantile_z(q) * days / days_per_year +
                     level);
    }
};

std::optional<double> passage(const Course& c, double line, double q, double horizon) {
    // The q-quantile of the passage day belongs to the (1 − q)-quantile of growth.
    for (double day = 0; day <= horizon; day += 1)
        if (c.at(day, 1 - q) >= line) return day;
    return std::nullopt;
}

double chance(const Course& c, double line, double horizon) {
    int reached = 0;
    constexpr int futures = 400;
    for (int i = 0; i < futures; ++i)
        reached += passage(c, line, (i + 0.5) / futures, horizon) ? 1 : 0;
    return static_cast<double>(reached) / futures;
}

BoxOutlook make_box(Fate fate, double horizon) {
    BoxOutlook b;
    b.label_bytes = 72 * tb;
    b.raw_bytes = 72 * tb;
    b.usable_bytes = 40 * tb;
    b.ceiling_bytes = 32 * tb;
    b.receives_copies = true;
    Course c{};
    switch (fate) {
        case Fate::tight:
            c = {23.4 * tb, 5.1 * tb, 0.22};
            break;
        case Fate::roomy:
            c = {16.2 * tb, 2.6 * tb, 0.28};
            break;
        case Fate::endless:
            c = {6.1 * tb, 1.1 * tb, 0.30};
            break;
        case Fate::over:
            c = {33.8 * tb, 4.4 * tb, 0.20};
            break;
        case Fate::full:
            c = {40.0 * tb, 3.0 * tb, 0.15};
            break;
        case Fate::shrinking:
            c = {21.0 * tb, -1.6 * tb, 0.30};
            break;
        case Fate::soon:
            c = {31.4 * tb, 14.0 * tb, 0.10};
            break;
    }
    b.used_now_bytes = c.now;
    b.over_ceiling_now = c.now >= b.ceiling_bytes;
    b.full_now = c.now >= b.usable_bytes;
    b.shrinking = fate == Fate::shrinking;
    b.days_until_ceiling = {passage(c, b.ceiling_bytes, 0.1, horizon),
                            passage(c, b.ceiling_bytes, 0.5, horizon),
                            passage(c, b.ceiling_bytes, 0.9, horizon)};
    b.days_until_full = {passage(c, b.usable_bytes, 0.1, horizon),
                         passage(c, b.usable_bytes, 0.5, horizon),
                         passage(c, b.usable_bytes, 0.9, horizon)};
    for (std::size_t i = 0; i < 20; ++i) {
        const double q = (static_cast<double>(i) + 0.5) / 20;
        b.ceiling_marks[i] = passage(c, b.ceiling_bytes, q, horizon);
        b.full_marks[i] = passage(c, b.usable_bytes, q, horizon);
    }
    b.chance_of_ceiling_within_horizon = chance(c, b.ceiling_bytes, horizon);
    b.chance_of_full_within_horizon = chance(c, b.usable_bytes, horizon);
    b.lead_time_days = 21;
    if (b.days_until_ceiling.p10) b.order_by = add_days(today, *b.days_until_ceiling.p10 - 21);
    for (double day = 0;; day = std::min(horizon, day + 7)) {
        FillPoint p;
        p.date = add_days(today, day);
        const auto band = [&](double share) {
            return Band{c.at(day, 0.1) * share, c.at(day, 0.25) * share, c.at(day, 0.5) * share,
                        c.at(day, 0.75) * share, c.at(day, 0.9) * share};
        };
        p.other_bytes = 1.2 * tb;
        const double median = c.at(day, 0.5);
        // Snapshots fill their ladder during the first year.
        const double held = 0.06 + 0.14 * (1 - std::exp(-day / 150));
        p.used_bytes = band(1);
        p.held_bytes = band(held);
        p.live_bytes = band(std::max(0.0, 1 - held - p.other_bytes / std::max(median, 2 * tb)));
        p.fill = median / b.usable_bytes;
        b.fill.push_back(p);
        if (day >= horizon) break;
    }
    if (horizon > 600) {
        b.events.push_back({sys_days(std::chrono::year(2027) / 3 / 1), "imaging",
                            "adds 2.5 TB: old archive moves in"});
        b.events.push_back(
            {sys_days(std::chrono::year(2028) / 1 / 10), "imaging", "rewrites 3 TB: re-encoded"});
    }
    return b;
}

}  // namespace

BoxOutlook box(const std::string& name, Fate fate, double horizon) {
    static std::map<std::pair<Fate, double>, BoxOutlook>
        made;  // hundreds of tests ask for the same few
    const auto key = std::make_pair(fate, horizon);
    auto at = made.find(key);
    if (at == made.end()) at = made.emplace(key, make_box(fate, horizon)).first;
    BoxOutlook b = at->second;
    b.name = name;
    return b;
}

namespace {

/// Weekdays, ages over five years, falling behind, an event, the first copy, restores.
void add_course(SendOutlook& s, bool late) {
    for (int day = 0; day < 7; ++day) {
        WeekdayRuns w;
        w.weekday = day;
        w.runs = 52;
        w.bytes = s.bytes_per_run;
        w.hours = s.hours_per_run;
        w.open_share = late ? RunQuantiles{0.8, 1.1, 1.3} : RunQuantiles{0.05, 0.09, 0.11};
        if (day == 4) w.open_share.p95 *= 1.5;
        w.chance_of_missing_window = late ? 0.5 + 0.02 * day : 0;
        s.weekdays.push_back(w);
    }
    for (int k = 0; 28 * k < 5 * days_per_year; ++k) {
        CopyAgePoint p;
        p.from = today + std::chrono::days(28 * k);
        p.p50_hours = s.recovery_point_hours.p50;
        p.p95_hours = s.recovery_point_hours.p95;
        p.max_hours = s.recovery_point_max_hours - (k == 9 ? 0 : 6);
        s.copy_age.push_back(p);
    }
    if (late) {
        s.backlog.times_a_year = 31;
        s.backlog.bytes = {22e9, 60e9, 84e9};
        s.backlog.max_bytes = 210e9;
        s.backlog.hours_to_drain = {18, 40, 61};
        s.backlog.max_hours_to_drain = 96;
    }
    EventRun e;
    e.on = sys_days(std::chrono::year(2027) / 3 / 1);
    e.dataset = "imaging";
    e.text = "adds 2.5 TB: old archive moves in";
    e.bytes = {2.52e12, 2.55e12, 2.56e12};
    e.hours = late ? RunQuantiles{640, 660, 670} : RunQuantiles{9, 9.4, 9.6};
    e.nights = late ? RunQuantiles{27, 28, 28} : RunQuantiles{1, 1, 1};
    e.chance_of_fitting = late ? 0 : 0.93;
    s.events = {e};
    FirstCopyWays w;
    w.bytes = s.first_copy_bytes;
    w.link_days = late ? 38.0 : 4.0;
    if (!late) w.link_in_step_days = 4.4;
    w.link_base_expires = late;
    w.courier_copy_days = late ? 0.7 : 0.4;
    w.courier_away_days = 3;
    w.courier_days = late ? 5.5 : 3.6 + 1;
    w.break_even_bytes = 6.1e12;
    w.carry = late;
    w.assumptions = {"no copy rate is given; 150 MB/s is taken"};
    s.first_copy = w;
    RestoreWays all;
    all.bytes = {5.6e12, 5.8e12, 5.9e12};
    all.link_hours = s.restore_hours;
    all.bound_by = late ? Limit::loss : Limit::rate;
    all.fetch_hours = 82;
    all.road_binds = true;
    RestoreWays part = all;
    part.dataset = "imaging";
    part.link_hours = {all.link_hours.p50 / 2, all.link_hours.p90 / 2, all.link_hours.p95 / 2};
    part.fetch_hours = 77;
    s.restore = {all, part};
}

}  // namespace

SendOutlook send(const std::string& name, bool late) {
    SendOutlook s;
    s.name = name;
    s.from = "clinic";
    s.to = late ? "shed" : "attic";
    s.link = late ? "old line" : "tunnel";
    const double line = late ? 20e6 : 100e6;
    Goodput& g = s.goodput;
    double rate = line;
    const auto step = [&](const std::string& key, double factor) {
        rate *= factor;
        g.chain.push_back({key, rate, rate, false});
    };
    step("line", 1);
    step("share", 0.8);
    step("framing", 0.9747);
    step("ip", 0.9867);
    step("tcp", 0.9781);
    step("wireguard", 0.9599);
    const auto limit = [&](const std::string& key, double own) {
        rate = std::min(rate, own);
        g.chain.push_back({key, rate, own, false});
    };
    limit("window", 2.8e9);
    limit("loss", late ? 9.4e6 : 412e6);
    limit("cipher", 3.2e9);
    limit("disk", 1.44e9);
    for (auto& l : g.chain) l.binding = late ? l.name == "loss" : l.name == "share";
    g.bits_per_second = rate;
    g.bound_by = late ? Limit::loss : Limit::rate;
    g.next_limit = late ? Limit::rate : Limit::loss;
    g.next_bits_per_second = late ? 14.4e6 : 412e6;
    s.bound_by = late ? Limit::hours : Limit::rate;
    s.bytes_per_run = late ? RunQuantiles{48e9, 71e9, 84e9} : RunQuantiles{18.5e9, 31e9, 39e9};
    s.hours_per_run = late ? RunQuantiles{12.2, 18.5, 21.7} : RunQuantiles{0.56, 0.95, 1.2};
    s.open_hours_per_run = 11;
    s.chance_of_missing_window = late ? 0.61 : 0.004;
    s.recovery_point_hours = late ? RunQuantiles{41, 60, 73} : RunQuantiles{13.1, 23.2, 24.4};
    s.recovery_point_max_hours = late ? 118 : 49;
    s.first_copy_days = late ? DayQuantiles{31, 38, std::nullopt} : DayQuantiles{6.8, 7.9, 9.4};
    s.first_copy_bytes = late ? 9.1e12 : 5.2e12;
    if (late) s.longest_outage_days = 11.5;
    s.restore_hours = late ? RunQuantiles{1180, 1260, 1310} : RunQuantiles{61, 66, 69};
    s.falls_behind = late;
    if (late) s.days_until_behind = 240;
    s.week_of = sys_days(std::chrono::year(2026) / 11 / 2);
    constexpr std::array<double, 7> busy{1, 1.1, 0.9, 1.05, 1.2, 0.5, 0.2};
    for (int day = 0; day < 7; ++day) {
        RunOfWeek r;
        r.start = Instant(s.week_of) + std::chrono::hours(24 * day + 20);
        const double size = busy[static_cast<std::size_t>(day)];
        r.hours_p50 = s.hours_per_run.p50 * size;
        r.hours_p95 = s.hours_per_run.p95 * size;
        r.bytes_p50 = s.bytes_per_run.p50 * size;
        r.bytes_p95 = s.bytes_per_run.p95 * size;
        r.late_p50 = r.hours_p50 > 10;
        r.late_p95 = r.hours_p95 > 10;
        s.week.push_back(r);
    }
    // Nights at 80 %, the weekend whole.
    s.open_week.push_back({0, 6, 0.8});
    for (int day = 0; day < 4; ++day)
        s.open_week.push_back({24.0 * day + 19, 24.0 * day + 30, 0.8});
    s.open_week.push_back({24.0 * 4 + 19, 24.0 * 5, 0.8});
    s.open_week.push_back({24.0 * 5, 168, 1});
    add_course(s, late);
    return s;
}

OutageDrill drill(const std::string& send, Day from, int days, bool survives) {
    OutageDrill d;
    d.send = send;
    d.link = "tunnel";
    d.from = from;
    d.days = days;
    d.backlog_bytes = {18.5e9 * days, 22e9 * days, 25e9 * days};
    d.catch_up_days = {0.09 * days, 0.12 * days, 0.15 * days};
    d.chance_of_catching_up = 1;
    d.oldest_copy_hours = {24.0 * days + 13, 24.0 * days + 20, 24.0 * days + 24};
    d.chance_base_survives = survives ? 1 : 0;
    d.longest_outage_days = 11.5;
    d.remedies = {{OutageRemedy::Kind::hold_last_sent,
                   "holding the last sent snapshot back at clinic", std::nullopt},
                  {OutageRemedy::Kind::longer_ladder,
                   "keeping the longest rung of imaging twice as long at clinic", 25.5}};
    if (!survives) {
        d.resends_whole = true;
        d.resent_datasets = {"imaging"};
        d.resend_bytes = {9.1e12, 9.3e12, 9.4e12};
        d.resend_days = {11, 12, 12.5};
        d.room_needed_bytes = 9.2e12;
        d.room_free_bytes = 4.1e12;
    }
    for (int i = -7; i < days + 4; ++i) {
        OutageDay day;
        day.date = from + std::chrono::days(i);
        const bool down = i >= 0 && i < days;
        day.age_p50_hours = down ? 24.0 * (i + 1) + 13 : 20;
        day.age_p95_hours = day.age_p50_hours + 4;
        day.waiting_p50_bytes = down ? 18.5e9 * (i + 1) : 0;
        day.waiting_p95_bytes = 1.3 * day.waiting_p50_bytes;
        d.daily.push_back(day);
    }
    return d;
}

namespace {

Answer framed(std::vector<BoxOutlook> boxes, std::vector<SendOutlook> sends) {
    Answer a;
    a.site.name = "Quayside Veterinary (invented)";
    a.site.as_of = today;
    a.site.boxes.push_back({});
    a.site.boxes.back().name = "clinic";
    for (const auto& b : boxes) {
        a.site.boxes.push_back({});
        a.site.boxes.back().name = b.name;
        a.site.boxes.back().usable = Entered<Bytes>(Bytes{b.usable_bytes});
        a.site.boxes.back().ceiling = 0.8;
    }
    for (const auto& s : sends) {
        a.site.sends.push_back({});
        a.site.sends.back().name = s.name;
        a.site.sends.back().from = s.from;
        a.site.sends.back().to = s.to;
        a.site.sends.back().over = s.link;
        a.site.links.push_back({});
        a.site.links.back().name = s.link;
    }
    a.outlook.site = a.site.name;
    a.outlook.as_of = today;
    a.outlook.horizon_days = boxes.empty()
                                 ? 5 * days_per_year
                                 : days_between(Instant(today), Instant(boxes[0].fill.back().date));
    a.outlook.horizon_days = std::max(a.outlook.horizon_days, 5 * days_per_year);
    a.outlook.paths = 2000;
    a.outlook.seed = 1;
    a.outlook.boxes = std::move(boxes);
    a.outlook.sends = std::move(sends);
    return a;
}

}  // namespace

Answer answer() {
    Answer a =
        framed({box("attic", Fate::tight), box("barn", Fate::roomy), box("shed", Fate::over)},
               {send("nightly", false), send("weekly archive", true)});
    Dataset imaging;
    imaging.name = "imaging";
    imaging.home = "clinic";
    imaging.live = Entered<Bytes>(Bytes{9.2e12}, "9.2 TB");
    a.site.datasets.push_back(imaging);
    DatasetOutlook d;
    d.name = "imaging";
    d.live_bytes = 9.2e12;
    d.compression_ratio = 1.15;
    d.growth_bytes_per_day = 4.4e9;
    d.growth_spread_bytes_per_day = 1.1e9;
    d.written_1h = 1.1e9;
    d.written_1d = 14e9;
    d.written_7d = 61e9;
    d.written_30d = 190e9;
    d.curve = {{0.5, 9e9}, {6, 50e9}, {90, 260e9}};
    a.outlook.datasets.push_back(d);
    a.findings = {
        {Level::overruns, "/boxes/3", "shed is over its ceiling today: 33.8 TB of 40 TB."},
        {Level::overruns, "/sends/1", "weekly archive misses its window in 61 of 100 runs."},
        {Level::tight, "/boxes/1", "attic passes its 80 % ceiling in about 20 months."},
        {Level::fits, "/sends/0", "nightly is done in 1.2 h in 19 of 20 nights."},
        {Level::note, "", "A forecast is not a backup."}};
    return a;
}

namespace {

std::vector<CurveBand> curve(double scale, double observed_days) {
    std::vector<CurveBand> band;
    constexpr int points = 41;
    const double shortest = 1.0 / 24, longest = 5 * days_per_year;
    for (int i = 0; i < points; ++i) {
        CurveBand p;
        p.gap_days = shortest * std::pow(longest / shortest, i / (points - 1.0));
        p.p50 = scale *
                (9e9 * (1 - std::exp(-p.gap_days / 0.5)) + 50e9 * (1 - std::exp(-p.gap_days / 20)) +
                 260e9 * (1 - std::exp(-p.gap_days / 900)));
        // Known to a tenth where it was measured, ever less beyond.
        const double beyond =
            observed_days > 0 ? std::max(0.0, std::log(p.gap_days / observed_days)) : 2;
        const double spread = std::exp(0.1 + 0.16 * beyond);
        p.p10 = p.p50 / spread;
        p.p90 = p.p50 * spread;
        band.push_back(p);
    }
    return band;
}

BacktestOrigin origin(int number) {
    BacktestOrigin o;
    o.origin = Instant(today) - std::chrono::hours(24 * (330 - 45 * number) - 4);
    o.snapshots = 28 + 11 * number;
    o.live_bytes = 8.1e12 + 0.17e12 * number;
    for (int i = 1; i <= 3; ++i) {
        ForecastThen f;
        f.days_ahead = 15.0 * i;
        f.at = o.origin + std::chrono::hours(24 * 15 * i);
        f.p50 = o.live_bytes + 3.9e9 * f.days_ahead;
        const double half = 1.5e9 * f.days_ahead;
        f.p10 = f.p50 - half;
        f.p90 = f.p50 + half;
        // The fourth origin missed at the end, the sixth all along.
        const double off = number == 5             ? 1.3
                           : number == 3 && i == 3 ? -1.25
                                                   : 0.5 * std::sin(number + i);
        f.came = f.p50 + off * half;
        o.live.push_back(f);
        f.p50 = 2.1e9 * f.days_ahead;
        f.p10 = f.p50 * 0.72;
        f.p90 = f.p50 * 1.36;
        f.came = f.p50 * (number == 1 && i == 2 ? 1.5 : 1 + 0.2 * std::cos(2 * number + i));
        o.freed.push_back(f);
    }
    return o;
}

}  // namespace

DatasetOutlook measured_dataset(const std::string& name) {
    DatasetOutlook d;
    d.name = name;
    d.live_bytes = 9.2e12;
    d.compression_ratio = 1.15;
    d.growth_bytes_per_day = 4.4e9;
    d.growth_spread_bytes_per_day = 1.1e9;
    d.measured = true;
    d.observed_days = 60;
    d.curve = {{0.5, 9e9}, {20, 50e9}, {900, 260e9}};
    d.curve_band = curve(1, 60);
    int steps = 41;
    for (const double gap : {1.0, 7.0, 14.0, 30.0, 60.0}) {
        const auto near = std::find_if(d.curve_band.begin(), d.curve_band.end(),
                                       [gap](const CurveBand& p) { return p.gap_days >= gap; });
        MeasuredStep s;
        s.gap_days = gap;
        s.freed_bytes = near->p50 * (gap == 14 ? 1.18 : 0.95);
        s.low_bytes = s.freed_bytes * 0.62;
        s.high_bytes = s.freed_bytes * 1.55;
        s.steps = steps;
        steps = std::max(2, steps / 2);
        d.measured_steps.push_back(s);
    }
    Backtest b;
    for (int i = 0; i < 6; ++i) b.origins.push_back(origin(i));
    b.live_error = 0.006;
    b.freed_error = 0.11;
    b.live_inside = 14.0 / 18;
    b.freed_inside = 17.0 / 18;
    d.backtest = b;
    d.stretch = 1.38;
    d.assumptions = {"No compression ratio is given; 1 is taken (nothing saved)."};
    return d;
}

DatasetOutlook one_step_dataset(const std::string& name) {
    DatasetOutlook d;
    d.name = name;
    d.live_bytes = 340e9;
    d.measured = true;
    d.observed_days = 1;
    d.curve_band = curve(0.05, 1);
    d.measured_steps = {{1, 0.5e9, 0.5e9, 0.5e9, 1}};
    return d;
}

DatasetOutlook assumed_dataset(const std::string& name) {
    DatasetOutlook d;
    d.name = name;
    d.live_bytes = 1.1e12;
    d.curve_band = curve(0.3, 0);
    d.assumptions = {"No spread of the growth is given; a quarter of the rate is taken.",
                     "Turnover is known for 1 day and 7 days; how much of the data is overwritten "
                     "over longer times is assumed as in data of this kind, with a wide spread."};
    return d;
}

std::vector<Driver> drivers() {
    return {{"attic", "growth of “imaging”", "/datasets/0", 905.0, 430.0, 0.61},
            {"attic", "growth of “mail”", "/datasets/1", 640.0, 590.0, 0.03},
            {"attic", "turnover of “imaging” beyond 60 days", "/datasets/0", 720.0, 540.0, 0.24},
            {"barn", "growth of “letters”", "/datasets/2", std::nullopt, 1310.0, 0.72},
            {"barn", "compression of “letters”", "/datasets/2", std::nullopt, std::nullopt, 0.06}};
}

Answer sure() {
    Answer a = answer();
    a.site.datasets.clear();
    for (const char* name : {"imaging", "mail", "letters"}) {
        Dataset d;
        d.name = name;
        d.home = "clinic";
        a.site.datasets.push_back(d);
    }
    a.outlook.datasets = {measured_dataset("imaging"), one_step_dataset("mail"),
                          assumed_dataset("letters")};
    a.outlook.drivers = drivers();
    return a;
}

namespace {

PoolCapacity space(double label, double spare, double charged_share) {
    PoolCapacity c;
    c.label_bytes = label;
    c.drive_bytes = label * 1.0002;
    c.spare_bytes = spare;
    c.formatted_bytes = (label - spare) * 0.9991;
    c.raw_bytes = c.formatted_bytes;
    c.charged_bytes = c.formatted_bytes * charged_share;
    c.reserve_bytes = 0.137e12;
    c.usable_bytes = c.charged_bytes - c.reserve_bytes;
    return c;
}

OfferOutlook offer(const std::string& name, Offer::As as, int drives, double label) {
    OfferOutlook o;
    o.name = name;
    o.box = "attic";
    o.as = as;
    o.drives = drives;
    o.capacity = space(label, 0, 0.66);
    o.usable_bytes = o.capacity->usable_bytes;
    o.ceiling_bytes = 0.8 * o.usable_bytes;
    o.running_from = add_days(today, 21);
    o.chance_too_late = 0.004;
    o.rebuild = RebuildExposure{25.5, drives - 1, 1, 0.015, 0.00022};
    o.assumptions = {"no life is given: it is counted on to the horizon"};
    return o;
}

void pay(OfferOutlook& o, double price, double energy, double replacement) {
    o.price = price;
    o.energy_cost = energy;
    o.replacement_cost = replacement;
    o.cost_total = price + energy + replacement;
    constexpr double tib = 1099511627776.0;
    o.cost_per_usable_tib_year = o.cost_total / (o.usable_bytes / tib) / 5;
}

}  // namespace

Answer buying(int offers) {
    Answer a = answer();
    a.site.currency = a.outlook.currency = "EUR";
    BoxOutlook& attic = a.outlook.boxes.front();
    PoolCapacity capacity = space(72e12, 8e12, 0.6277);
    capacity.reserve_bytes = capacity.charged_bytes - attic.usable_bytes;
    capacity.usable_bytes = attic.usable_bytes;
    attic.capacity = capacity;
    attic.costs = {{"imaging", 131072, 1.002, 19e12, std::nullopt, 1.002},
                   {"ledger", 8192, 1.52, 3.1e12, 65536.0, 1.03},
                   {"desks", 16384, 1.27, 4.4e12, 65536.0, 1.03}};
    attic.better_shape = BetterShape{"2 groups of 4 drives, mirror-2", 31e12, 1.01, 1.12, 0.14};

    std::vector<OfferOutlook> all;
    OfferOutlook o = offer("two more 8 TB drives", Offer::As::added, 2, 88e12);
    pay(o, 420, 260, 0);
    o.chance_of_lasting = 0.412;
    o.days_until_ceiling = {880.0, 1490.0, std::nullopt};
    o.rank = 4;
    all.push_back(o);
    o = offer("six 16 TB drives", Offer::As::drives, 6, 96e12);
    pay(o, 2350, 1010, 540);
    o.chance_of_lasting = 0.934;
    o.days_until_ceiling = {std::nullopt, std::nullopt, std::nullopt};
    o.holds = o.recommended = true;
    o.purchases = 2;
    o.rank = 1;
    all.push_back(o);
    o = offer("eight-bay box with 18 TB drives", Offer::As::box, 8, 144e12);
    pay(o, 4980, 1320, 0);
    o.chance_of_lasting = 0.991;
    o.days_until_ceiling = {std::nullopt, std::nullopt, std::nullopt};
    o.running_from = add_days(today, 60);
    o.holds = true;
    o.rank = 2;
    all.push_back(o);
    o = offer("six 20 TB drives from the second dealer", Offer::As::drives, 6, 120e12);
    pay(o, 5600, 1010, 0);
    o.chance_of_lasting = 0.962;
    o.days_until_ceiling = {std::nullopt, std::nullopt, std::nullopt};
    o.holds = true;
    o.dominated_by = "eight-bay box with 18 TB drives";
    o.rank = 3;
    all.push_back(o);
    o = offer("twelve 8 TB drives", Offer::As::drives, 12, 96e12);
    pay(o, 1900, 1800, 0);
    o.chance_of_lasting = 0.93;
    o.does_not_go_in = "12 drives do not go into 8 bays";
    o.rank = 6;
    all.push_back(o);
    o = offer("used shelf", Offer::As::added, 4, 78e12);
    pay(o, 700, 900, 300);
    o.chance_of_lasting = 0.29;
    o.days_until_ceiling = {700.0, 1180.0, 1790.0};
    o.dominated_by = "two more 8 TB drives";
    o.capacity.reset();
    o.drives = 0;
    o.rebuild.reset();
    o.rank = 5;
    all.push_back(o);
    for (int i = 0; i < offers && i < static_cast<int>(all.size()); ++i) {
        OfferOutlook& each = all[static_cast<std::size_t>(i)];
        a.outlook.offers.push_back(each);
        Offer asked;
        asked.name = each.name;
        asked.box = each.box;
        asked.as = each.as;
        a.site.offers.push_back(asked);
    }
    // Without the one that holds, none is recommended; ranks are those of the six.
    return a;
}

Answer many(int count) {
    constexpr std::array<Fate, 7> fates{Fate::tight, Fate::roomy,     Fate::endless, Fate::over,
                                        Fate::full,  Fate::shrinking, Fate::soon};
    std::vector<BoxOutlook> boxes;
    for (int i = 0; i < count; ++i)
        boxes.push_back(box("the second copy in the cellar of building " + std::to_string(i + 1) +
                                " beside the boiler room",
                            fates[static_cast<std::size_t>(i) % fates.size()]));
    std::vector<SendOutlook> sends;
    for (int i = 0; i < std::min(count, 5); ++i)
        sends.push_back(
            send("send number " + std::to_string(i + 1) + " to the cellar over the long way",
                 i % 2 == 1));
    return framed(std::move(boxes), std::move(sends));
}

Answer empty() { return framed({}, {}); }

std::shared_ptr<const Answer> shared(Answer a) {
    return std::make_shared<const Answer>(std::move(a));
}

}  // namespace ullage::sample
