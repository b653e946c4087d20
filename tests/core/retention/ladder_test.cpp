// SPDX-License-Identifier: GPL-3.0-or-later
// The rules of a ladder are the program's own contract (ladder.h); no outside source.
#include "core/retention/ladder.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <string>
#include <vector>

namespace ullage {
namespace {

using Unit = Period::Unit;
using Seconds = std::chrono::seconds;

Instant at(const std::string& text) { return *parse_instant(text); }

Rung rung(int n, Unit unit, int count) {
    Rung r;
    r.every = Period{n, unit};
    r.count = count;
    return r;
}

Ladder random_ladder(std::mt19937_64& random) {
    const std::vector<Period> periods = {{15, Unit::minute}, {1, Unit::hour}, {6, Unit::hour}, {1, Unit::day},
                                         {3, Unit::day}, {1, Unit::week}, {2, Unit::week}, {1, Unit::month},
                                         {3, Unit::month}, {1, Unit::year}};
    Ladder l;
    const int n = 1 + static_cast<int>(random() % 4);
    for (int i = 0; i < n; ++i) {
        const auto& p = periods[random() % periods.size()];
        Rung r = rung(p.n, p.unit, 1 + static_cast<int>(random() % 20));
        if (random() % 5 == 0) {
            r.keep_for = r.lasts() * 0.7;
            r.count.reset();
        }
        l.push_back(r);
    }
    return l;
}

std::vector<std::string> texts(const std::vector<Instant>& list) {
    std::vector<std::string> out;
    for (const auto t : list) out.push_back(format_instant(t));
    return out;
}

TEST(Ladder, ALoneRungHoldsExactlyItsCountAtEveryInstant) {
    for (const auto& [period, count] : std::vector<std::pair<Period, int>>{
             {{15, Unit::minute}, 8}, {{1, Unit::hour}, 24}, {{1, Unit::day}, 14}, {{7, Unit::day}, 8},
             {{1, Unit::week}, 26}, {{30, Unit::day}, 12}, {{1, Unit::day}, 1}}) {
        const LadderClock clock({rung(period.n, period.unit, count)}, TimeZone());
        const Instant point = clock.rungs().front().grid.at_or_before(at("2026-11-01T13:07:00Z"));
        for (const auto off : {Seconds(-1), Seconds(0), Seconds(1), Seconds(400)}) {
            const auto held = clock.retained(point + off);
            EXPECT_EQ(held.size(), static_cast<std::size_t>(count)) << period.n << " at " << off.count();
            EXPECT_EQ(held.back(), off.count() < 0 ? point - Seconds(std::llround(period.length().value)) : point);
        }
    }
}

TEST(Ladder, ARungOfMonthsHoldsItsCountButForTheLengthsOfMonths) {
    // Kept while younger than 12 mean months = 365.25 d: twelve or thirteen firsts of a month.
    const LadderClock clock({rung(1, Unit::month, 12)}, TimeZone());
    for (Instant t = at("2026-01-01"); t < at("2028-01-01"); t += Seconds(86400)) {
        const auto n = clock.retained(t).size();
        EXPECT_GE(n, 12u) << format_instant(t);
        EXPECT_LE(n, 13u) << format_instant(t);
    }
}

TEST(Ladder, ASnapshotExpiresWhenItsLongestRungLetsGo) {
    const LadderClock clock({rung(1, Unit::hour, 24), rung(1, Unit::day, 30), rung(1, Unit::week, 26)}, TimeZone());
    EXPECT_EQ(clock.expires(at("2026-11-02T01:00:00Z")), at("2026-11-03T01:00:00Z"));
    EXPECT_EQ(clock.expires(at("2026-11-03T00:00:00Z")), at("2026-12-03T00:00:00Z"));
    EXPECT_EQ(clock.expires(at("2026-11-02T00:00:00Z")), at("2026-11-02") + std::chrono::days(182));  // a Monday
    EXPECT_EQ(clock.expires(at("2026-11-02T01:30:00Z")), at("2026-11-02T01:30:00Z"));  // on no grid
    EXPECT_DOUBLE_EQ(in_days(clock.span()), 182);
}

TEST(Ladder, AForIsKeptForThatLong) {
    Rung r = rung(1, Unit::day, 1);
    r.count.reset();
    r.keep_for = days(2.5);
    const LadderClock clock({r}, TimeZone());
    EXPECT_EQ(clock.expires(at("2026-11-02")), at("2026-11-04T12:00:00Z"));
    EXPECT_EQ(clock.retained(at("2026-11-04T11:59:59Z")).size(), 3u);
    EXPECT_EQ(clock.retained(at("2026-11-04T12:00:00Z")).size(), 2u);
}

TEST(Ladder, AnEmptyOneTakesAndHoldsNothing) {
    const LadderClock clock({}, TimeZone());
    EXPECT_TRUE(clock.empty());
    EXPECT_TRUE(clock.retained(at("2026-11-01")).empty());
    EXPECT_TRUE(clock.taken(at("2026-01-01"), at("2026-11-01")).empty());
    EXPECT_EQ(clock.span().value, 0);
    // A box without a rule of its own still holds the copy itself.
    EXPECT_EQ(clock.thinned({at("2026-10-30"), at("2026-10-31")}, at("2026-11-01")).size(), 1u);
}

TEST(Ladder, HoldsWhatWasTakenAndHasNotExpired) {
    std::mt19937_64 random(61);
    for (const char* name : {"UTC", "Europe/Berlin"}) {
        const TimeZone zone = *TimeZone::find(name);
        for (int trial = 0; trial < 40; ++trial) {
            const LadderClock clock(random_ladder(random), zone);
            const Instant t = at("2026-01-01") + Seconds(random() % (700 * 86400));
            const auto taken = clock.taken(t - Seconds(std::llround(clock.span().value)) - Seconds(86400), t);
            std::vector<Instant> expected;
            for (const auto s : taken)
                if (clock.expires(s) > t) expected.push_back(s);
            ASSERT_EQ(texts(clock.retained(t)), texts(expected)) << name << ", trial " << trial << " at "
                                                                  << format_instant(t);
        }
    }
}

TEST(Ladder, ABoxThatReceivesEverySnapshotKeepsWhatTheSourceKeeps) {
    std::mt19937_64 random(62);
    for (const char* name : {"UTC", "Europe/Berlin"}) {
        const TimeZone zone = *TimeZone::find(name);
        for (int trial = 0; trial < 40; ++trial) {
            const LadderClock clock(random_ladder(random), zone);
            const Instant t = at("2026-01-01") + Seconds(random() % (700 * 86400));
            // From two spans before, so that what counts as first of its period is on the grid.
            const auto taken = clock.taken(t - Seconds(2 * std::llround(clock.span().value)) -
                                               std::chrono::days(800), t);
            ASSERT_FALSE(taken.empty());
            auto expected = clock.retained(t);
            // A rung kept for less than its period leaves the source with nothing; the box has the copy.
            if (expected.empty() || expected.back() != taken.back()) expected.push_back(taken.back());
            ASSERT_EQ(texts(clock.thinned(taken, t)), texts(expected)) << name << ", trial " << trial << " at "
                                                                        << format_instant(t);
        }
    }
}

TEST(Ladder, ThinningNeverInventsAndAlwaysKeepsTheNewestAndTheFirstOfEveryYoungPeriod) {
    std::mt19937_64 random(63);
    for (int trial = 0; trial < 200; ++trial) {
        const LadderClock clock(random_ladder(random), *TimeZone::find("Europe/Berlin"));
        const Instant t = at("2026-11-01") + Seconds(random() % (200 * 86400));
        std::vector<Instant> received;
        for (int i = 0; i < 60; ++i) received.push_back(t - Seconds(random() % (90 * 86400)));
        std::sort(received.begin(), received.end());
        received.erase(std::unique(received.begin(), received.end()), received.end());
        const auto kept = clock.thinned(received, t);
        EXPECT_TRUE(std::is_sorted(kept.begin(), kept.end()));
        EXPECT_TRUE(std::includes(received.begin(), received.end(), kept.begin(), kept.end()));
        EXPECT_EQ(kept.back(), received.back());
        for (const auto s : received) {
            bool expected = s == received.back();
            for (const auto& r : clock.rungs()) {
                const auto period = r.grid.at_or_before(s);
                const auto first = std::lower_bound(received.begin(), received.end(), period);
                expected = expected || (*first == s && s > t - r.lasts);
            }
            EXPECT_EQ(std::binary_search(kept.begin(), kept.end(), s), expected)
                << "trial " << trial << ", " << format_instant(s) << " at " << format_instant(t);
        }
        EXPECT_EQ(clock.thinned(kept, t), kept) << "thinning twice changes nothing";
    }
    EXPECT_TRUE(LadderClock({rung(1, Unit::day, 3)}, TimeZone()).thinned({}, at("2026-11-01")).empty());
}

TEST(Ladder, ABoxThatReceivesOneSnapshotADayKeepsTheDailyAndWeeklyRungsOfAnHourlyLadder) {
    const LadderClock clock({rung(1, Unit::hour, 24), rung(1, Unit::day, 10), rung(1, Unit::week, 4)}, TimeZone());
    // Sent every evening at 20:00; now Thursday 2026-11-19 21:00.
    std::vector<Instant> received;
    for (Instant s = at("2026-06-01T20:00:00Z"); s <= at("2026-11-19T20:00:00Z"); s += std::chrono::days(1))
        received.push_back(s);
    std::vector<std::string> expected;
    // Weeks: the first received in the week is Monday's, kept while younger than 28 d.
    for (const char* monday : {"2026-10-26", "2026-11-02", "2026-11-09"})
        expected.push_back(std::string(monday) + "T20:00:00Z");
    // Days: younger than 10 d, from the 10th on (the 9th at 20:00 is 10 d and an hour old).
    for (int d = 10; d <= 19; ++d) expected.push_back("2026-11-" + std::to_string(d) + "T20:00:00Z");
    EXPECT_EQ(texts(clock.thinned(received, at("2026-11-19T21:00:00Z"))), expected);
}

TEST(HeldBytes, IsTheSumOverTheGaps) {
    const Curve c({{5, 100}, {50, 300}});
    const std::vector<Instant> list = {at("2026-11-01"), at("2026-11-02"), at("2026-11-09")};
    EXPECT_DOUBLE_EQ(held_bytes(c, list), c.freed(1) + c.freed(7));
    EXPECT_DOUBLE_EQ(held_bytes(c, list, at("2026-11-10T12:00:00Z")), c.freed(1) + c.freed(7) + c.freed(1.5));
    EXPECT_EQ(held_bytes(c, {}), 0);
    EXPECT_EQ(held_bytes(c, {}, at("2026-11-10")), 0);
    EXPECT_EQ(held_bytes(c, {at("2026-11-01")}), 0);
}

TEST(HeldBytes, OneMoreSnapshotNeverLowersAndThinningNeverRaisesThem) {
    std::mt19937_64 random(64);
    const Curve c({{0.1, 7}, {5, 100}, {50, 300}});
    const Instant now = at("2026-11-01");
    for (int trial = 0; trial < 300; ++trial) {
        std::vector<Instant> list;
        for (int i = 0; i < 30; ++i) list.push_back(now - Seconds(random() % (100 * 86400)));
        std::sort(list.begin(), list.end());
        list.erase(std::unique(list.begin(), list.end()), list.end());
        auto more = list;
        more.push_back(now - Seconds(random() % (120 * 86400)));
        std::sort(more.begin(), more.end());
        EXPECT_GE(held_bytes(c, more, now), held_bytes(c, list, now) - 1e-9);
        const LadderClock clock(random_ladder(random), TimeZone());
        EXPECT_LE(held_bytes(c, clock.thinned(list, now), now), held_bytes(c, list, now) + 1e-9);
    }
}

}  // namespace
}  // namespace ullage
