// SPDX-License-Identifier: GPL-3.0-or-later
// The laws of held and freed bytes against blocks that are born and die one by one.
// What the columns of a listing mean (live, written, unique): OpenZFS, zfsprops(7).
#include "core/retention/ladder.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <set>
#include <string>
#include <vector>

namespace ullage {
namespace {

using Unit = Period::Unit;
using Seconds = std::chrono::seconds;

struct Block {
    std::int64_t born = 0, dead = 0;  // alive at t: born ≤ t < dead
    std::int64_t bytes = 0;
    bool alive(std::int64_t t) const { return born <= t && t < dead; }
};

std::int64_t in_seconds(Instant t) { return t.time_since_epoch().count(); }

template <class Holds>
std::int64_t bytes_that(const std::vector<Block>& blocks, Holds holds) {
    std::int64_t sum = 0;
    for (const auto& b : blocks)
        if (holds(b)) sum += b.bytes;
    return sum;
}

struct Store {
    std::vector<Block> blocks;

    std::int64_t live(std::int64_t t) const {
        return bytes_that(blocks, [&](const Block& b) { return b.alive(t); });
    }
    std::int64_t written(std::int64_t j, std::int64_t k) const {  // in k and not in j
        return bytes_that(blocks, [&](const Block& b) { return b.alive(k) && !b.alive(j); });
    }
    std::int64_t freed(std::int64_t j, std::int64_t k) const {  // in j and not in k
        return bytes_that(blocks, [&](const Block& b) { return b.alive(j) && !b.alive(k); });
    }
    /// In some retained snapshot and not live now.
    std::int64_t held(const std::vector<std::int64_t>& retained, std::int64_t now) const {
        return bytes_that(blocks, [&](const Block& b) {
            return !b.alive(now) && std::any_of(retained.begin(), retained.end(),
                                                [&](std::int64_t s) { return b.alive(s); });
        });
    }
    /// In this snapshot, in no other and not live now.
    std::int64_t unique(const std::vector<std::int64_t>& retained, std::size_t i, std::int64_t now) const {
        return bytes_that(blocks, [&](const Block& b) {
            if (!b.alive(retained[i]) || b.alive(now)) return false;
            for (std::size_t k = 0; k < retained.size(); ++k)
                if (k != i && b.alive(retained[k])) return false;
            return true;
        });
    }
};

const std::int64_t start = in_seconds(*parse_instant("2025-06-01"));

Store random_store(std::mt19937_64& random, int blocks, int span_days) {
    std::uniform_real_distribution<double> unit(0, 1);
    Store s;
    for (int i = 0; i < blocks; ++i) {
        Block b;
        b.born = start + std::int64_t(unit(random) * span_days * 86400);
        // Lifetimes from minutes to years; some never die.
        const double lifetime = random() % 8 == 0 ? 1e12 : 600 * std::pow(1e5, unit(random));
        b.dead = b.born + std::int64_t(lifetime) + 1;
        b.bytes = 512 + std::int64_t(random() % 1'000'000);
        s.blocks.push_back(b);
    }
    return s;
}

Rung rung(int n, Unit unit, int count) {
    Rung r;
    r.every = Period{n, unit};
    r.count = count;
    return r;
}

std::vector<Ladder> ladders() {
    return {{rung(1, Unit::hour, 24), rung(1, Unit::day, 14), rung(1, Unit::week, 8), rung(1, Unit::month, 12)},
            {rung(1, Unit::hour, 40)},
            {rung(1, Unit::week, 20)},
            {rung(6, Unit::hour, 10), rung(3, Unit::day, 9), rung(1, Unit::month, 4)}};
}

std::vector<std::int64_t> retained_of(const Ladder& ladder, const std::string& zone, std::int64_t now) {
    std::vector<std::int64_t> out;
    for (const auto s : LadderClock(ladder, *TimeZone::find(zone)).retained(Instant(Seconds(now))))
        if (in_seconds(s) >= start) out.push_back(in_seconds(s));
    return out;
}

/// Sets from random times and from every ladder.
std::vector<std::vector<std::int64_t>> sets(std::mt19937_64& random, std::int64_t now) {
    std::vector<std::vector<std::int64_t>> all;
    for (const auto& ladder : ladders())
        for (const char* zone : {"UTC", "Europe/Berlin"}) all.push_back(retained_of(ladder, zone, now));
    for (int trial = 0; trial < 6; ++trial) {
        std::set<std::int64_t> times;
        const int n = 1 + static_cast<int>(random() % 12);
        for (int i = 0; i < n; ++i) times.insert(start + std::int64_t(random() % std::uint64_t(now - start)));
        all.emplace_back(times.begin(), times.end());
    }
    return all;
}

TEST(BlockSimulation, HeldBytesAreExactlyTheBytesFreedOverTheGaps) {
    std::mt19937_64 random(71);
    for (int trial = 0; trial < 8; ++trial) {
        const Store store = random_store(random, 1500, 400);
        const std::int64_t now = start + 400 * 86400 + std::int64_t(random() % 86400);
        for (const auto& set : sets(random, now)) {
            ASSERT_FALSE(set.empty());
            std::int64_t sum = 0;
            for (std::size_t i = 0; i + 1 < set.size(); ++i) sum += store.freed(set[i], set[i + 1]);
            EXPECT_EQ(store.held(set, set.back()), sum) << "as on a box: live is the newest snapshot";
            EXPECT_EQ(store.held(set, now), sum + store.freed(set.back(), now)) << "as at home";
        }
    }
}

TEST(BlockSimulation, FreedIsLiveBeforeAndWrittenLessLiveAfter) {
    std::mt19937_64 random(72);
    const Store store = random_store(random, 3000, 400);
    for (int trial = 0; trial < 300; ++trial) {
        std::int64_t j = start + std::int64_t(random() % (400 * 86400));
        std::int64_t k = start + std::int64_t(random() % (400 * 86400));
        if (j > k) std::swap(j, k);
        EXPECT_EQ(store.freed(j, k), store.live(j) + store.written(j, k) - store.live(k));
    }
}

TEST(BlockSimulation, UniqueIsWrittenTwiceInStepsLessWrittenAtOnce) {
    std::mt19937_64 random(73);
    const Store store = random_store(random, 3000, 400);
    const std::int64_t now = start + 400 * 86400;
    for (const auto& ladder : ladders()) {
        const auto set = retained_of(ladder, "Europe/Berlin", now);
        for (std::size_t i = 1; i + 1 < set.size(); ++i) {
            const auto two = store.written(set[i - 1], set[i]) + store.written(set[i], set[i + 1]);
            const auto unique = store.unique(set, i, now);
            EXPECT_EQ(unique, two - store.written(set[i - 1], set[i + 1]));
            EXPECT_EQ(unique, store.freed(set[i - 1], set[i]) + store.freed(set[i], set[i + 1]) -
                                  store.freed(set[i - 1], set[i + 1]));
        }
    }
}

TEST(BlockSimulation, EverySnapshotMoreHoldsAtLeastAsMuchAndEveryOneLessAtMost) {
    std::mt19937_64 random(74);
    const Store store = random_store(random, 2000, 400);
    const std::int64_t now = start + 400 * 86400;
    for (int trial = 0; trial < 60; ++trial) {
        auto set = retained_of(ladders()[trial % 4], "UTC", now);
        const auto before = store.held(set, now);
        auto more = set;
        more.push_back(start + std::int64_t(random() % (400 * 86400)));
        std::sort(more.begin(), more.end());
        EXPECT_GE(store.held(more, now), before);
        const std::size_t gone = random() % set.size();
        const auto unique = store.unique(set, gone, now);
        set.erase(set.begin() + static_cast<std::ptrdiff_t>(gone));
        EXPECT_EQ(store.held(set, now), before - unique) << "removing one frees what it alone held";
        EXPECT_GE(unique, 0);
    }
}

double exponential(std::mt19937_64& random, double mean) {
    return -mean * std::log((static_cast<double>(random() >> 11) + 0.5) / 9007199254740992.0);
}

TEST(BlockSimulation, OfExponentialLifetimesTheCurveForetellsWhatIsHeld) {
    // Stationary: as many are alive as the mean says, each with an exponential rest of its life, and
    // births come at mean ÷ lifetime. Held bytes are then a Poisson number of blocks of one size, so
    // their standard error is √(held × block).
    struct Part { double lifetime_days; int blocks; };
    const std::vector<Part> parts = {{0.2, 60}, {3, 300}, {25, 1200}, {200, 6000}};
    constexpr double block = 131072;
    const std::int64_t now = start + 400 * 86400;
    std::vector<CurveComponent> components;
    for (const auto& p : parts) components.push_back({p.lifetime_days, p.blocks * block});
    const Curve curve(components);

    std::mt19937_64 random(75);
    std::vector<double> off(ladders().size(), 0);
    constexpr int trials = 12;
    for (int trial = 0; trial < trials; ++trial) {
        Store store;
        for (const auto& p : parts) {
            const double mean = p.lifetime_days * 86400;
            std::poisson_distribution<int> alive(p.blocks);
            const auto put = [&](double born) {
                Block b;
                b.born = start + std::int64_t(born);
                b.dead = b.born + std::int64_t(exponential(random, mean)) + 1;
                b.bytes = std::int64_t(block);
                store.blocks.push_back(b);
            };
            for (int i = alive(random); i > 0; --i) put(0);
            for (double t = exponential(random, mean / p.blocks); t < 400 * 86400.0;
                 t += exponential(random, mean / p.blocks))
                put(t);
        }
        for (std::size_t l = 0; l < ladders().size(); ++l) {
            const auto set = retained_of(ladders()[l], "UTC", now);
            std::vector<Instant> instants;
            for (const auto s : set) instants.emplace_back(Seconds(s));
            const double expected = held_bytes(curve, instants, Instant(Seconds(now)));
            const double held = static_cast<double>(store.held(set, now));
            const double error = std::sqrt(expected * block);
            EXPECT_NEAR(held, expected, 4 * error) << "ladder " << l << ", trial " << trial;
            off[l] += (held - expected) / error / std::sqrt(trials);
        }
    }
    for (std::size_t l = 0; l < off.size(); ++l) EXPECT_LE(std::abs(off[l]), 3.5) << "bias on ladder " << l;
}

}  // namespace
}  // namespace ullage
