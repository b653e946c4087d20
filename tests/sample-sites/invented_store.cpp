// SPDX-License-Identifier: GPL-3.0-or-later
#include "invented_store.h"

#include "core/retention/ladder.h"
#include "core/units/random.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numeric>

namespace ullage::testing {

namespace {

constexpr double day_s = 86400;
constexpr double first_hour = 7, last_hour = 19;  // writes of a day fall between them

struct Block {
    double born, dead;  // seconds since the epoch; alive at t: born ≤ t < dead
    bool alive(double t) const { return born <= t && t < dead; }
};

double in_seconds(Instant t) { return static_cast<double>(t.time_since_epoch().count()); }

/// A whole number with this mean: its floor, or one more.
int about(double mean, RandomSequence& random) {
    const double whole = std::floor(mean);
    return static_cast<int>(whole) + (random.uniform() < mean - whole ? 1 : 0);
}

class Writer {
public:
    explicit Writer(const InventedStore& store)
        : store_(store), random_(store.seed, 0, 0), end_(in_seconds(Instant{store.as_of}) + 6 * 3600),
          start_(in_seconds(Instant{store.as_of}) - store.history_days * day_s) {}

    std::vector<Block> write() {
        const double growth_a_day = store_.growth_per_year * store_.live_bytes / 365.25;
        const double at_start = store_.live_bytes - growth_a_day * store_.history_days;
        for (const InventedClass& c : store_.classes) {
            const int there = about(at_start * c.share / store_.lump_bytes, random_);
            for (int i = 0; i < there; ++i) blocks_.push_back({start_ - 1, start_ + age(c)});
        }
        const double mean_weight =
            std::accumulate(store_.weekdays.begin(), store_.weekdays.end(), 0.0) / 7;
        double level = 1;
        for (int d = 0; d < store_.history_days; ++d) {
            const Day day = store_.as_of - std::chrono::days{store_.history_days - d};
            const unsigned weekday = (std::chrono::weekday{day}.iso_encoding() + 6) % 7;
            if (d % 7 == 0)
                level = std::exp(store_.week_wander * random_.normal() - store_.week_wander * store_.week_wander / 2);
            const double live = at_start + growth_a_day * d;
            for (const InventedClass& c : store_.classes) {
                const double replaced = live * c.share / c.mean_age_days;
                const double written = replaced * level + growth_a_day * c.share;
                births(c, start_ + d * day_s, written * store_.weekdays[weekday] / mean_weight);
            }
        }
        return std::move(blocks_);
    }

private:
    double age(const InventedClass& c) { return c.mean_age_days * day_s * random_.exponential(); }

    void births(const InventedClass& c, double midnight, double bytes) {
        const int count = about(bytes / store_.lump_bytes, random_);
        for (int i = 0; i < count; ++i) {
            const double born = midnight + 3600 * (first_hour + (last_hour - first_hour) * random_.uniform());
            if (born < end_) blocks_.push_back({born, born + age(c)});
        }
    }

    const InventedStore& store_;
    RandomSequence random_;
    double end_, start_;
    std::vector<Block> blocks_;
};

Rung rung(int n, Period::Unit unit, int count) {
    Rung r;
    r.every = Period{n, unit};
    r.count = count;
    return r;
}

}  // namespace

std::string listing_of(const InventedStore& store) {
    const auto blocks = Writer(store).write();
    const Instant now = Instant{store.as_of} + std::chrono::hours{6};
    const Instant first = Instant{store.as_of} - std::chrono::days{store.history_days};
    auto taken = LadderClock(store.ladder, *TimeZone::find(store.time_zone)).retained(now);
    std::erase_if(taken, [&](Instant t) { return t < first; });

    const auto bytes_where = [&](auto holds) {
        const auto count = std::count_if(blocks.begin(), blocks.end(), holds);
        return static_cast<std::int64_t>(std::llround(static_cast<double>(count) * store.lump_bytes));
    };
    std::string out = "snapshot\ttaken\tunique\tlive\twritten\n";
    for (std::size_t i = 0; i < taken.size(); ++i) {
        const double t = in_seconds(taken[i]);
        const double before = i > 0 ? in_seconds(taken[i - 1]) : -1e18;
        const double after = i + 1 < taken.size() ? in_seconds(taken[i + 1]) : in_seconds(now);
        out += fmt::format("{}@{}\t{}\t{}\t{}\t{}\n", store.name, format_instant(taken[i]).substr(0, 16),
                           static_cast<std::int64_t>(t),
                           bytes_where([&](const Block& b) { return b.alive(t) && b.born > before && b.dead <= after; }),
                           bytes_where([&](const Block& b) { return b.alive(t); }),
                           bytes_where([&](const Block& b) { return b.alive(t) && b.born > before; }));
    }
    return out;
}

std::vector<SampleListing> sample_listings() {
    using Unit = Period::Unit;
    const auto day = [](const char* text) { return *parse_date(text); };

    InventedStore projects;
    projects.name = "projects";
    projects.seed = 41;
    projects.time_zone = "Europe/Vienna";
    projects.as_of = day("2026-11-02");
    projects.live_bytes = 5.2e12;
    projects.growth_per_year = 0.22;
    projects.classes = {{0.004, 0.8}, {0.03, 12}, {0.12, 140}, {0.846, 4000}};
    projects.ladder = {rung(1, Unit::day, 30), rung(1, Unit::week, 26), rung(1, Unit::month, 12)};

    InventedStore machines;
    machines.name = "guests/machines";
    machines.seed = 42;
    machines.time_zone = "Europe/Oslo";
    machines.as_of = day("2026-11-02");
    machines.live_bytes = 3.1e12;
    machines.growth_per_year = 0.15;
    machines.week_wander = 0.12;
    machines.weekdays = {1, 1, 1, 1, 1, 0.8, 0.8};
    machines.classes = {{0.012, 0.5}, {0.04, 6}, {0.15, 60}, {0.798, 1500}};
    machines.ladder = {rung(1, Unit::hour, 24), rung(1, Unit::day, 14), rung(1, Unit::week, 8)};

    InventedStore plates;
    plates.name = "plates";
    plates.seed = 43;
    plates.time_zone = "Europe/Lisbon";
    plates.as_of = day("2026-11-02");
    plates.live_bytes = 2.4e12;
    plates.growth_per_year = 0.3;
    plates.classes = {{0.003, 1}, {0.02, 9}, {0.08, 90}, {0.897, 3000}};
    plates.ladder = {rung(1, Unit::day, 14), rung(1, Unit::week, 12)};

    return {{"kestrel-projects.tsv", projects}, {"tidegate-machines.tsv", machines}, {"lantern-plates.tsv", plates}};
}

}  // namespace ullage::testing
