// SPDX-License-Identifier: GPL-3.0-or-later
// What a box holds as copies arrive, and copies sent on from there.
#include "replay_testing.h"

#include "core/replay/copy_age.h"

#include <random>
#include <set>

namespace ullage {
namespace {

using namespace testing;

Rung rung(int n, Period::Unit unit, int count) {
    Rung r;
    r.every = Period{n, unit};
    r.count = count;
    return r;
}

TEST(Inventory, HoldsWhatThinningLeavesAfterEveryArrival) {
    // LadderClock::thinned works the same rule out anew; snapshots arrive with gaps and off the
    // grid.
    std::mt19937_64 random(61);
    const auto zone = *TimeZone::find("Europe/Amsterdam");  // with its clock changes
    const std::vector<Ladder> ladders = {
        {rung(1, Period::Unit::day, 5)},
        {rung(1, Period::Unit::hour, 24), rung(1, Period::Unit::day, 10),
         rung(1, Period::Unit::week, 8)},
        {rung(6, Period::Unit::hour, 9), rung(1, Period::Unit::month, 6)},
    };
    for (const auto& ladder : ladders) {
        const LadderClock clock(ladder, zone);
        const LadderGrid grid(clock, at(-10 * day), at(300 * day));
        Inventory box(&grid);
        std::vector<Instant> received;
        for (std::int64_t t = 0; t < 250 * day;) {
            t += random() % 3 == 0 ? hour * std::int64_t(1 + random() % 100) : hour;
            if (random() % 5 == 0) t += std::int64_t(random() % 3000);
            received.push_back(at(t));
            box.receive(at(t));
            const Instant now = at(t + std::int64_t(random() % (3 * day)));
            const auto kept = box.kept(now);
            ASSERT_EQ(kept, clock.thinned(received, now)) << format_instant(now);
            for (const auto s : kept) {
                EXPECT_TRUE(box.holds(s, now));
                EXPECT_TRUE(s == received.back() || box.expires(s) > now);
            }
            EXPECT_FALSE(box.holds(at(t - 1), now));
        }
    }
}

TEST(Inventory, WithoutALadderKeepsAllAndLeavesOutWhatIsNotNewer) {
    Inventory box(nullptr);
    for (const std::int64_t t : {day, 3 * day, 2 * day, 3 * day}) box.receive(at(t));
    EXPECT_EQ(box.kept(at(900 * day)), (std::vector<Instant>{at(day), at(3 * day)}));
}

TEST(Inventory, TheNewestThatLastsIsOfALongEnoughRung) {
    const LadderClock clock({rung(1, Period::Unit::hour, 6), rung(1, Period::Unit::day, 10)},
                            TimeZone());
    const LadderGrid grid(clock, at(-day), at(20 * day));
    Inventory box(&grid);
    for (std::int64_t t = 0; t <= 30 * hour; t += hour) box.receive(at(t));
    const Instant now = at(30 * hour);
    EXPECT_EQ(box.newest_lasting(std::chrono::hours(2), now), at(30 * hour));
    EXPECT_EQ(box.newest_lasting(std::chrono::hours(48), now), at(day));
    EXPECT_EQ(box.newest_lasting(std::chrono::hours(9000), now), at(day))
        << "of the longest there is";
}

/// A nightly send from the source to a middle box, and one that goes on from there to a far box.
struct Chain {
    LadderClock source, middle, far;
    LadderGrid middle_grid, far_grid;
    std::vector<ReplaySend> sends;

    Chain(const Ladder& at_source, const Ladder& at_middle, const Ladder& at_far,
          std::int64_t onward_every, std::int64_t until)
        : source(at_source, TimeZone()),
          middle(at_middle, TimeZone()),
          far(at_far, TimeZone()),
          middle_grid(middle, at(-day), at(until)),
          far_grid(far, at(-day), at(until)) {
        ReplaySend first;
        ReplayDataset d;
        d.supply =
            snapshots_to_send(source, Send::Steps::newest, days(1), at(-40 * day), at(until));
        d.box_ladder = &middle_grid;
        first.datasets = {d};
        first.already = {{at(0)}};
        for (std::int64_t t = day; t < until; t += day) first.due.push_back(at(t));
        ReplaySend onward;
        onward.link = 1;
        onward.lasting = std::chrono::seconds(2 * onward_every);
        ReplayDataset from_middle;
        from_middle.box_ladder = &far_grid;
        from_middle.upstream = Upstream{0, 0};
        onward.datasets = {from_middle};
        onward.already = {{at(0)}};
        for (std::int64_t t = onward_every + 12 * hour; t < until; t += onward_every)
            onward.due.push_back(at(t));
        sends = {first, onward};
    }
};

Ladder daily(int count) { return {rung(1, Period::Unit::day, count)}; }

const auto a_gigabyte_a_day = [](int, int, Instant from, Instant to) {
    return from != no_snapshot ? days_between(from, to) * 1e9 : 50e9;
};

TEST(Relay, CarriesOnWhatHasArrivedAndNoSooner) {
    // Days 1, 2, 3 … arrive at the middle an hour after midnight (3.6 GB would, 1 GB takes 1000 s);
    // the run onward at noon takes the newest there, 2000 s at half the speed.
    const Chain chain(daily(14), daily(14), daily(14), day, 10 * day);
    const auto runs = replay({line({{0, 10 * day}}), line({{0, 10 * day}}, 0.5)}, chain.sends,
                             at(10 * day), a_gigabyte_a_day);
    ASSERT_EQ(runs[1].size(), 9u);
    for (std::size_t i = 1; i < runs[1].size(); ++i) {
        const auto& r = runs[1][i];
        EXPECT_EQ(after(r.due), std::int64_t(i + 1) * day + 12 * hour);
        EXPECT_EQ(after(r.snapshot), std::int64_t(i + 1) * day);
        EXPECT_EQ(after(r.done), after(r.due) + 2000);
        EXPECT_FALSE(r.full);
    }
}

TEST(Relay, StartsOnEachArrivalIfAsked) {
    Chain chain(daily(14), daily(14), daily(14), day, 10 * day);
    chain.sends[1].due.clear();
    chain.sends[1].on_arrival = true;
    const auto runs = replay({line({{0, 10 * day}}), line({{0, 10 * day}}, 0.5)}, chain.sends,
                             at(10 * day), a_gigabyte_a_day);
    ASSERT_EQ(runs[1].size(), 9u);
    for (std::size_t i = 0; i < runs[1].size(); ++i) {
        EXPECT_EQ(after(runs[1][i].begun), std::int64_t(i + 1) * day + 1000)
            << "when the first is done";
        EXPECT_EQ(after(runs[1][i].done), std::int64_t(i + 1) * day + 3000);
        EXPECT_FALSE(runs[1][i].missed);
    }
    // On a line too slow for it every run is overtaken by the next arrival.
    const auto slow = replay({line({{0, 10 * day}}), line({{0, 10 * day}}, 0.01)}, chain.sends,
                             at(10 * day), a_gigabyte_a_day);
    for (const auto& r : slow[1]) EXPECT_TRUE(r.missed || !r.finished);
}

TEST(Relay, WhatTheMiddleHasThinnedIsSentWholeAgainUnlessHeld) {
    // The middle keeps 3 days. The line onward is down from day 4 to day 9: the copy of day 3 that
    // the far box has is gone from the middle by then.
    Chain chain(daily(30), daily(3), daily(30), day, 14 * day);
    const auto onward = line({{0, 4 * day}, {9 * day, 14 * day}});
    const auto runs =
        replay({line({{0, 14 * day}}), onward}, chain.sends, at(14 * day), a_gigabyte_a_day);
    // The run that was due on day 4 had its base then; the one after it, due on day 5, is whole.
    std::vector<bool> full;
    for (const auto& r : runs[1]) full.push_back(r.full);
    EXPECT_EQ(std::count(full.begin(), full.end(), true), 1);
    chain.sends[1].hold_last_sent = true;
    const auto held =
        replay({line({{0, 14 * day}}), onward}, chain.sends, at(14 * day), a_gigabyte_a_day);
    for (const auto& r : held[1]) EXPECT_FALSE(r.full);
}

TEST(Relay, NeverHoldsWhatItsSourceNeverHad) {
    std::mt19937_64 random(62);
    const std::vector<Ladder> ladders = {
        daily(4),
        {rung(1, Period::Unit::hour, 30), rung(1, Period::Unit::day, 9)},
        {rung(12, Period::Unit::hour, 6), rung(1, Period::Unit::week, 5)},
    };
    int carried_on = 0;
    for (int trial = 0; trial < 60; ++trial) {
        const auto pick = [&] { return ladders[random() % ladders.size()]; };
        Chain chain(pick(), pick(), pick(), hour * std::int64_t(3 + random() % 60), 60 * day);
        for (auto& s : chain.sends) s.every_step = random() % 2 == 0;
        chain.sends[0].datasets[0].supply = snapshots_to_send(
            chain.source, chain.sends[0].every_step ? Send::Steps::every : Send::Steps::newest,
            days(1), at(-40 * day), at(60 * day));
        if (random() % 3 == 0) chain.sends[1].on_arrival = true;
        std::vector<ReplayLink> links;
        for (int l = 0; l < 2; ++l) {
            std::vector<Open> open;
            for (std::int64_t t = 0; t < 60 * day; t += day)
                if (random() % 6 != 0)
                    open.push_back({t, t + hour * std::int64_t(1 + random() % 20)});
            links.push_back(line(open, 0.03 + 0.1 * double(random() % 100) / 100));
        }
        ReplayOptions options;
        options.keep_arrivals = true;
        const auto trace =
            replay_traced(links, chain.sends, at(60 * day), a_gigabyte_a_day, options);
        std::set<Instant> taken(chain.sends[0].datasets[0].supply->taken.begin(),
                                chain.sends[0].datasets[0].supply->taken.end());
        const auto& middle = trace.arrivals[0][0];
        for (const auto& a : middle) EXPECT_TRUE(taken.count(a.snapshot));
        Instant last = at(0);
        for (const auto& a : trace.arrivals[1][0]) {
            const auto came = std::find_if(middle.begin(), middle.end(), [&](const Arrival& m) {
                return m.snapshot == a.snapshot;
            });
            ASSERT_NE(came, middle.end()) << format_instant(a.snapshot);
            EXPECT_LE(came->at, a.at) << "not before it was there";
            EXPECT_GT(a.snapshot, last) << "in order";
            last = a.snapshot;
            ++carried_on;
        }
    }
    EXPECT_GT(carried_on, 500);
}

TEST(Relay, ItsLongestOutageIsWhatTheMiddlesLadderLeaves) {
    // The middle keeps 7 days; the copy of midnight is at the far box at 12:00 + 2000 s, and lasts
    // there until 7 days after midnight.
    const Chain chain(daily(30), daily(7), daily(30), day, 30 * day);
    ReplayOptions options;
    options.survival_from = at(3 * day);
    const auto trace = replay_traced({line({{0, 30 * day}}), line({{0, 30 * day}}, 0.5)},
                                     chain.sends, at(30 * day), a_gigabyte_a_day, options);
    EXPECT_NEAR(*longest_outage_days(trace.runs[1]), 7 - 0.5 - 2000.0 / day, 1e-6);
    EXPECT_NEAR(*longest_outage_days(trace.runs[0]), 30 - 1000.0 / day, 1e-6);
}

}  // namespace
}  // namespace ullage
