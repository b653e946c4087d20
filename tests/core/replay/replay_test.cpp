// SPDX-License-Identifier: GPL-3.0-or-later
// Each expected time is worked out by hand from bytes ÷ rate in the comment beside it.
#include "replay_testing.h"

#include <cmath>
#include <random>

namespace ullage {
namespace {

using namespace testing;

TEST(Replay, ARunTakesItsBytesOverTheRate) {
    const auto runs = replay({line({{0, 10 * day}})}, {send_due({0, day})}, at(10 * day),
                             bytes_by_due({0, day}, {3600 * mb, 7200 * mb}));
    ASSERT_EQ(runs[0].size(), 2u);
    EXPECT_EQ(after(runs[0][0].begun), 0);
    EXPECT_EQ(after(runs[0][0].done), hour);      // 3600 MB at 1 MB/s
    EXPECT_EQ(after(runs[0][1].done), day + 2 * hour);
    EXPECT_EQ(runs[0][0].bytes, 3600 * mb);
    EXPECT_EQ(runs[0][0].snapshot, at(0));
    EXPECT_FALSE(runs[0][0].missed);
    EXPECT_FALSE(runs[0][0].full);
    EXPECT_TRUE(runs[0][0].finished);
    EXPECT_FLOAT_EQ(runs[0][0].open_hours, 24);  // until the next run is due
}

TEST(Replay, ARunPausesInClosedHoursGoesOnWhenTheyOpenAndHasMissedItsWindow) {
    // Open 20:00 to 06:00. 40 GB take 11 h 6 min 40 s: 10 h until 06:00, the rest from 20:00.
    const auto runs = replay({line({{20 * hour, 30 * hour}, {44 * hour, 54 * hour}})}, {send_due({20 * hour, 44 * hour})},
                             at(3 * day), bytes_by_due({20 * hour, 44 * hour}, {40e9, 3600 * mb}));
    ASSERT_EQ(runs[0].size(), 2u);
    EXPECT_EQ(after(runs[0][0].done), 44 * hour + 4000);
    EXPECT_TRUE(runs[0][0].missed);
    EXPECT_FLOAT_EQ(runs[0][0].open_hours, 10);
    // The next run was due at 44 h and had to wait until that was done.
    EXPECT_EQ(after(runs[0][1].due), 44 * hour);
    EXPECT_EQ(after(runs[0][1].begun), 44 * hour + 4000);
    EXPECT_EQ(after(runs[0][1].done), 44 * hour + 4000 + hour);
    EXPECT_FALSE(runs[0][1].missed);
}

TEST(Replay, AShareOfTheLineMakesARunSoMuchLonger) {
    // 3600 MB: half an hour at full share carries 1800 MB, the rest takes an hour at half.
    const auto runs = replay({line({{0, hour / 2}, {hour / 2, day, 0.5}})}, {send_due({0})}, at(day),
                             bytes_by_due({0}, {3600 * mb}));
    EXPECT_EQ(after(runs[0][0].done), hour / 2 + hour);
    EXPECT_FLOAT_EQ(runs[0][0].open_hours, 24);  // stretches that touch are one window
}

TEST(Replay, ARunDueInClosedHoursBeginsThenAndWaitsForTheLink) {
    const auto runs = replay({line({{5 * hour, 6 * hour}, {10 * hour, 11 * hour}})}, {send_due({0})}, at(day),
                             bytes_by_due({0}, {1800 * mb}));
    EXPECT_EQ(after(runs[0][0].begun), 0);
    EXPECT_EQ(after(runs[0][0].done), 5 * hour + 1800);
    EXPECT_FALSE(runs[0][0].missed);  // done within the first opening after it was due
    EXPECT_FLOAT_EQ(runs[0][0].open_hours, 1);
}

TEST(Replay, TwoSendsShareTheLineEvenlyAndTheSecondSpeedsUpWhenTheFirstIsDone) {
    auto bytes = [](int send, int, Instant, Instant) { return send == 0 ? 3600 * mb : 7200 * mb; };
    const auto runs = replay({line({{0, day}})}, {send_due({0}), send_due({0})}, at(day), bytes);
    EXPECT_EQ(after(runs[0][0].done), 7200);           // 3600 MB at half a MB/s
    EXPECT_EQ(after(runs[1][0].done), 7200 + 3600);    // 3600 MB by then, the rest at 1 MB/s
}

TEST(Replay, WhatACappedSendCannotUseTheOtherGets) {
    auto a = send_due({0});
    a.own_bits_per_second = 0.25 * mb * 8;
    auto bytes = [](int send, int, Instant, Instant) { return send == 0 ? 1800 * mb : 5400 * mb; };
    const auto runs = replay({line({{0, day}})}, {a, send_due({0})}, at(day), bytes);
    EXPECT_EQ(after(runs[0][0].done), 7200);  // 1800 MB at 0.25 MB/s
    EXPECT_EQ(after(runs[1][0].done), 7200);  // 5400 MB at 0.75 MB/s
}

TEST(Replay, InTurnTheSecondWaitsUntilTheFirstIsDone) {
    auto link = line({{0, day}});
    link.sharing = Sharing::in_turn;
    auto a = send_due({0});
    auto b = send_due({600});
    auto bytes = [](int send, int, Instant, Instant) { return send == 0 ? 3600 * mb : 1800 * mb; };
    const auto runs = replay({link}, {a, b}, at(day), bytes);
    EXPECT_EQ(after(runs[0][0].done), 3600);
    EXPECT_EQ(after(runs[1][0].begun), 600);
    EXPECT_EQ(after(runs[1][0].done), 3600 + 1800);
    EXPECT_FLOAT_EQ(runs[1][0].busy_hours, 0.5);
    // shared evenly: 600 s alone, then half each; 1800 MB of the second take an hour
    const auto even = replay({line({{0, day}})}, {a, b}, at(day), bytes);
    EXPECT_EQ(after(even[1][0].done), 600 + 3600);
    EXPECT_EQ(after(even[0][0].done), 3600 + 1800);
}

TEST(Replay, WhatIsLeftAtTheDeadlineIsNoted) {
    // 40 GB, 10 h until 06:00 carry 36 GB
    const auto runs = replay({line({{20 * hour, 30 * hour}, {44 * hour, 54 * hour}})}, {send_due({20 * hour})},
                             at(3 * day), bytes_by_due({20 * hour}, {40e9}));
    EXPECT_EQ(runs[0][0].deadline, at(30 * hour));
    EXPECT_NEAR(runs[0][0].late_bytes, 4e9, 1);
    EXPECT_NEAR(runs[0][0].busy_hours, 40e3 / 3600, 1e-6);
}

TEST(Replay, SendsOnDifferentLinksDoNotMeet) {
    auto b = send_due({0});
    b.link = 1;
    auto bytes = [](int, int, Instant, Instant) { return 3600 * mb; };
    const auto runs = replay({line({{0, day}}), line({{0, day}}, 2)}, {send_due({0}), b}, at(day), bytes);
    EXPECT_EQ(after(runs[0][0].done), 3600);
    EXPECT_EQ(after(runs[1][0].done), 1800);
}

TEST(Replay, RunsDueWhileOneIsGoingBecomeOneThatCarriesAllSince) {
    const std::vector<std::int64_t> due = {0, day, 2 * day, 3 * day};
    const auto runs = replay({line({{0, 9 * day}})}, {send_due(due)}, at(9 * day),
                             bytes_by_due(due, {2.5 * day * mb, 100 * mb, 200 * mb, 50 * mb}));
    ASSERT_EQ(runs[0].size(), 3u);
    EXPECT_EQ(after(runs[0][0].done), 5 * day / 2);
    EXPECT_TRUE(runs[0][0].missed);
    EXPECT_EQ(after(runs[0][1].due), day);  // waiting since then
    EXPECT_EQ(after(runs[0][1].begun), 5 * day / 2);
    EXPECT_EQ(runs[0][1].bytes, 300 * mb);
    EXPECT_EQ(runs[0][1].snapshot, at(2 * day));
    EXPECT_TRUE(runs[0][1].missed);         // it was to be done when the next was due
    EXPECT_EQ(after(runs[0][2].due), 3 * day);
}

TEST(Replay, NothingNewMakesARunOfNoBytesThatIsDoneAtOnce) {
    auto s = send_due({0, day, 2 * day});
    s.datasets[0].supply.own().taken = {at(-day), at(0)};
    s.datasets[0].supply.own().expires.assign(2, at(never_expires));
    const auto runs = replay({line({{0, hour}})}, {s}, at(9 * day), bytes_by_due({0}, {60 * mb}));
    ASSERT_EQ(runs[0].size(), 3u);
    for (const std::size_t i : {1u, 2u}) {
        EXPECT_EQ(runs[0][i].bytes, 0);
        EXPECT_EQ(runs[0][i].done, runs[0][i].due);
        EXPECT_EQ(runs[0][i].snapshot, at(0));
        EXPECT_FALSE(runs[0][i].full);
    }
}

TEST(Replay, BeforeTheFirstSnapshotThereIsNothingToSendAndTheFirstIsSentWhole) {
    auto s = send_due({0, day, 2 * day});
    s.datasets[0].supply.own().taken = {at(day + hour)};
    s.datasets[0].supply.own().expires = {at(never_expires)};
    s.already = {{}};
    for (const bool hold : {false, true}) {
        s.hold_last_sent = hold;
        const auto runs = replay({line({{0, 9 * day}})}, {s}, at(9 * day),
                                 [](int, int, Instant from, Instant) { return from != no_snapshot ? 1 * mb : 77 * mb; });
        ASSERT_EQ(runs[0].size(), 3u);
        EXPECT_EQ(runs[0][0].bytes, 0);
        EXPECT_EQ(runs[0][1].bytes, 0);
        EXPECT_EQ(runs[0][2].bytes, 77 * mb);
        EXPECT_TRUE(runs[0][2].full);
    }
}

/// Daily snapshots at midnight kept for two days, sent nightly; the line is down from day 2 to day 7.
ReplaySend short_ladder_send(const LadderClock& ladder, const LadderGrid& grid) {
    ReplaySend s;
    ReplayDataset d;
    d.supply = snapshots_to_send(ladder, Send::Steps::newest, days(1), at(-3 * day), at(12 * day));
    d.box_ladder = &grid;
    s.datasets = {d};
    s.already = {{at(-day)}};
    for (int i = 0; i < 12; ++i) s.due.push_back(at(i * day));
    return s;
}

Ladder daily(int count) {
    Rung r;
    r.every = Period{1, Period::Unit::day};
    r.count = count;
    return {r};
}

TEST(Replay, ALostCommonSnapshotMeansEverythingAgainUnlessTheLastSentIsHeld) {
    const LadderClock ladder(daily(2), TimeZone());
    const LadderGrid grid(ladder, at(-9 * day), at(12 * day));
    auto s = short_ladder_send(ladder, grid);
    const auto bytes = [](int, int, Instant from, Instant to) {
        return from != no_snapshot ? days_between(from, to) * 100 * mb : 5000 * mb;
    };
    const auto link = line({{0, 2 * day - hour}, {7 * day + hour, 12 * day}});
    const auto lost = replay({link}, {s}, at(12 * day), bytes);
    std::vector<std::int64_t> full;
    for (const auto& r : lost[0])
        if (r.full) full.push_back(after(r.begun));
    // The run due on day 2 has its base, and ends when the line is back; its snapshot of day 2 has
    // expired by then (day 4), so the next, which waited, sends everything.
    ASSERT_EQ(full.size(), 1u);
    EXPECT_EQ(full[0], 7 * day + hour + 100);
    double most = 0;
    for (const auto& r : lost[0]) most = std::max(most, r.bytes);
    EXPECT_EQ(most, 5000 * mb);

    s.hold_last_sent = true;
    const auto held = replay({link}, {s}, at(12 * day), bytes);
    for (const auto& r : held[0]) EXPECT_FALSE(r.full);
    EXPECT_EQ(held[0][3].bytes, 500 * mb);  // from day 2's to day 7's
}

TEST(Replay, AnOlderSnapshotThatBothEndsStillHoldServesAsBase) {
    // The last one sent has gone from the source; the one before it is kept longer there.
    auto s = send_due({0, day, 10 * day});
    s.datasets[0].supply.own().taken = {at(-day), at(0), at(day), at(10 * day)};
    s.datasets[0].supply.own().expires = {at(0), at(never_expires), at(5 * day), at(never_expires)};
    std::vector<Instant> bases;
    const auto runs = replay({line({{0, 20 * day}})}, {s}, at(20 * day),
                             [&](int, int, Instant from, Instant) {
                                 bases.push_back(from);
                                 return 1 * mb;
                             });
    ASSERT_EQ(bases.size(), 3u);
    EXPECT_EQ(bases[2], at(0));
    EXPECT_FALSE(runs[0][2].full);
}

TEST(Replay, EveryStepCarriesTheSumOfTheStepsAndAtLeastWhatOneStepDoes) {
    const Curve curve({{0.5, 900 * mb}, {20, 4000 * mb}});
    const auto bytes = [&](int, int, Instant from, Instant to) {
        return curve.freed(days_between(from, to));
    };
    auto s = send_due({});
    s.due = {at(day), at(2 * day)};
    s.datasets[0].supply.own().taken.clear();
    for (int h = -24; h <= 72; ++h) s.datasets[0].supply.own().taken.push_back(at(h * hour));
    s.datasets[0].supply.own().expires.assign(s.datasets[0].supply->taken.size(), at(never_expires));
    s.already = {{at(0)}};
    const auto one = replay({line({{0, 9 * day}})}, {s}, at(9 * day), bytes);
    s.every_step = true;
    const auto all = replay({line({{0, 9 * day}})}, {s}, at(9 * day), bytes);
    for (const std::size_t i : {0u, 1u}) {
        EXPECT_NEAR(one[0][i].bytes, curve.freed(1), 1);
        EXPECT_NEAR(all[0][i].bytes, 24 * curve.freed(1.0 / 24), 1);
        EXPECT_GE(all[0][i].bytes, one[0][i].bytes);
        EXPECT_EQ(all[0][i].snapshot, one[0][i].snapshot);
    }
}

TEST(Replay, EveryStepLeavesOutWhatHasExpiredAndEachStepItBroughtIsABaseLater) {
    // Hourly for a day, daily for 30: after three days of outage the hourly one sent last is gone from
    // the source, but the midnight before it came as a step and is still at both ends.
    Ladder l = daily(30);
    Rung r;
    r.every = Period{1, Period::Unit::hour};
    r.count = 24;
    l.push_back(r);
    const LadderClock ladder(l, TimeZone());
    ReplaySend s;
    s.every_step = true;
    ReplayDataset d;
    d.supply = snapshots_to_send(ladder, Send::Steps::every, days(1), at(-3 * day), at(9 * day));
    const LadderGrid grid(ladder, at(-40 * day), at(40 * day));
    d.box_ladder = &grid;
    s.datasets = {d};
    s.already = {{at(0)}};
    for (int i = 0; i < 6; ++i) s.due.push_back(at(20 * hour + i * day));
    std::vector<Instant> bases;
    ReplayOptions options;
    options.survival_from = at(0);
    const auto runs = replay_traced({line({{0, 45 * hour}, {5 * day, 9 * day}})}, {s}, at(9 * day),
                                    [&](int, int, Instant from, Instant to) {
                                        bases.push_back(from);
                                        return from != no_snapshot ? days_between(from, to) * mb : 9000 * mb;
                                    }, options).runs;
    for (const auto& run : runs[0]) EXPECT_FALSE(run.full) << format_instant(run.begun);
    // On day 2 the hourly snapshot sent last has expired; the midnight of day 1 came with it as a step.
    EXPECT_NE(std::find(bases.begin(), bases.end(), at(day)), bases.end());
    EXPECT_EQ(std::find(bases.begin(), bases.end(), no_snapshot), bases.end());
    // From a run's end at 20:00 until the midnight before, kept for 30 days, expires.
    EXPECT_NEAR(days_between(runs[0][0].done, runs[0][0].survives_until), 29 + 4.0 / 24, 0.01);
}

TEST(Replay, OfSeveralDatasetsTheOldestSnapshotIsWhatTheBoxCanBeRestoredTo) {
    auto s = send_due({day});
    ReplayDataset other = s.datasets[0];
    other.dataset = 1;
    other.supply.own().taken = {at(-day), at(0)};
    other.supply.own().expires.assign(2, at(never_expires));
    s.datasets.push_back(other);
    s.already.push_back({at(-day)});
    const auto runs = replay({line({{0, 9 * day}})}, {s}, at(9 * day),
                             [](int, int dataset, Instant, Instant) { return (dataset + 1) * 10 * mb; });
    EXPECT_EQ(runs[0][0].bytes, 30 * mb);
    EXPECT_EQ(runs[0][0].snapshot, at(0));
}

TEST(Replay, ARunCutOffByTheEndIsUnfinishedAndLateOnlyIfItsWindowHadClosed) {
    const auto open = replay({line({{0, day}})}, {send_due({0})}, at(day), bytes_by_due({0}, {1e6 * mb}));
    ASSERT_EQ(open[0].size(), 1u);
    EXPECT_FALSE(open[0][0].finished);
    EXPECT_EQ(after(open[0][0].done), day);
    EXPECT_FALSE(open[0][0].missed);
    const auto closed = replay({line({{0, hour}, {5 * hour, day}})}, {send_due({0})}, at(day), bytes_by_due({0}, {1e6 * mb}));
    EXPECT_TRUE(closed[0][0].missed);
}

TEST(Replay, ALinkThatNeverOpensCarriesNothing) {
    const auto runs = replay({line({})}, {send_due({0, day})}, at(9 * day), bytes_by_due({0, day}, {1, 1}));
    ASSERT_EQ(runs[0].size(), 1u);
    EXPECT_FALSE(runs[0][0].finished);
    EXPECT_TRUE(runs[0][0].missed);
    EXPECT_EQ(runs[0][0].open_hours, 0);
}

TEST(SnapshotsToSend, NewestSendsOnlyOfRungsThatOutlastTwoPeriodsOrOfTheLongest) {
    Ladder l = daily(30);
    Rung r;
    r.every = Period{1, Period::Unit::hour};
    r.count = 24;
    l.push_back(r);
    const LadderClock ladder(l, TimeZone());
    const auto nightly = snapshots_to_send(ladder, Send::Steps::newest, days(1), at(0), at(day));
    EXPECT_EQ(nightly.taken, (std::vector<Instant>{at(0), at(day)}));
    EXPECT_EQ(nightly.expires, (std::vector<Instant>{at(30 * day), at(31 * day)}));
    EXPECT_EQ(snapshots_to_send(ladder, Send::Steps::newest, hours(2), at(0), at(day)).taken.size(), 25u);
    EXPECT_EQ(snapshots_to_send(ladder, Send::Steps::every, days(1), at(0), at(day)).taken.size(), 25u);
    // Sent every 20 days no rung lasts twice that long: the longest serves.
    EXPECT_EQ(snapshots_to_send(ladder, Send::Steps::newest, days(20), at(0), at(day)).taken.size(), 2u);
    EXPECT_EQ(nightly.newest_at(at(day - 1)), std::optional<std::size_t>(0));
    EXPECT_EQ(nightly.newest_at(at(day)), std::optional<std::size_t>(1));
    EXPECT_FALSE(nightly.newest_at(at(-1)));
}

TEST(TransferEnd, WalksTheOpenHours) {
    const auto link = line({{0, hour}, {2 * hour, 3 * hour, 0.5}, {5 * hour, day}});
    const double infinite = std::numeric_limits<double>::infinity();
    // 3600 MB in the first hour, 1800 in the second stretch, the rest from 5 h.
    EXPECT_EQ(after(*transfer_end(link, infinite, 1800 * mb, at(0))), hour / 2);
    EXPECT_EQ(after(*transfer_end(link, infinite, 3600 * mb, at(0))), hour);
    EXPECT_EQ(after(*transfer_end(link, infinite, 4500 * mb, at(0))), 2 * hour + 1800);
    EXPECT_EQ(after(*transfer_end(link, infinite, 6000 * mb, at(0))), 5 * hour + 600);
    EXPECT_EQ(after(*transfer_end(link, infinite, 1800 * mb, at(hour / 2))), hour);
    EXPECT_EQ(after(*transfer_end(link, infinite, 60 * mb, at(4 * hour))), 5 * hour + 60);
    // Capped at a quarter of a MB/s, of which half the line is no bound.
    EXPECT_EQ(after(*transfer_end(link, 0.25 * mb * 8, 1800 * mb, at(0))), 3 * hour);
    EXPECT_EQ(*transfer_end(link, infinite, 0, at(4 * hour)), at(4 * hour));
    EXPECT_FALSE(transfer_end(link, infinite, 1e6 * mb, at(0)));
    EXPECT_FALSE(transfer_end(line({}), infinite, 1, at(0)));
}

struct Schedule {
    std::vector<Open> open;
    std::vector<std::vector<std::int64_t>> due;
    std::vector<std::vector<double>> bytes;
    std::vector<double> own;

    std::vector<ReplaySend> sends() const {
        std::vector<ReplaySend> list;
        for (std::size_t s = 0; s < due.size(); ++s) {
            list.push_back(send_due(due[s], int(s)));
            list.back().own_bits_per_second = own[s];
        }
        return list;
    }
    SendBytes function() const {
        std::vector<SendBytes> each;
        for (std::size_t s = 0; s < due.size(); ++s) each.push_back(bytes_by_due(due[s], bytes[s]));
        return [each](int send, int dataset, Instant from, Instant to) {
            return each[std::size_t(send)](send, dataset, from, to);
        };
    }
    std::vector<std::vector<RunRecord>> run(double megabytes_a_second) const {
        return replay({line(open, megabytes_a_second)}, sends(), at(60 * day), function());
    }
};

Schedule random_schedule(std::mt19937_64& random) {
    std::uniform_real_distribution<double> unit(0, 1);
    Schedule s;
    std::int64_t t = 0;
    while (t < 60 * day) {
        const auto from = t + std::int64_t(random() % (8 * hour));
        const auto to = from + 600 + std::int64_t(random() % (14 * hour));
        s.open.push_back({from, std::min(to, 60 * day), 0.2 + 0.8 * unit(random)});
        t = to;
    }
    const int n = 1 + static_cast<int>(random() % 3);
    for (int i = 0; i < n; ++i) {
        std::vector<std::int64_t> due;
        std::vector<double> bytes;
        for (std::int64_t d = std::int64_t(random() % day); d < 50 * day; d += hour * (4 + std::int64_t(random() % 40))) {
            due.push_back(d);
            bytes.push_back(random() % 6 == 0 ? 0 : 30e9 * unit(random) * unit(random));
        }
        s.due.push_back(due);
        s.bytes.push_back(bytes);
        s.own.push_back(random() % 2 == 0 ? 0.6 * mb * 8 : std::numeric_limits<double>::infinity());
    }
    return s;
}

TEST(Replay, BytesAskedAreBytesCarriedAndBacklogAtEveryEvent) {
    // Conservation. What a line has carried is summed apart from what its transfers have left.
    std::mt19937_64 random(85);
    int events = 0;
    for (int trial = 0; trial < 40; ++trial) {
        const auto schedule = random_schedule(random);
        auto link = line(schedule.open);
        link.sharing = trial % 2 == 0 ? Sharing::evenly : Sharing::in_turn;
        ReplayOptions options;
        options.watch = [&](double, const std::vector<SendBooks>& books, const std::vector<double>& carried) {
            double asked = 0;
            double backlog = 0;
            for (const auto& b : books) {
                asked += b.asked_bytes;
                backlog += b.backlog_bytes;
            }
            // a transfer counts as done with less than a microsecond's worth left
            ASSERT_NEAR(asked, carried[0] + backlog, 1e-6 * asked + 10) << "trial " << trial;
            ++events;
        };
        const auto runs = replay_traced({link}, schedule.sends(), at(60 * day), schedule.function(), options).runs;
        EXPECT_FALSE(runs[0].empty());
    }
    EXPECT_GT(events, 2000);
}

TEST(Replay, NeverCarriesMoreThanTheOpenHoursAllowAndLosesNothing) {
    std::mt19937_64 random(81);
    for (int trial = 0; trial < 60; ++trial) {
        const auto schedule = random_schedule(random);
        const auto runs = schedule.run(1);
        std::vector<RunRecord> all;
        for (std::size_t s = 0; s < runs.size(); ++s) {
            double carried = 0;
            for (std::size_t i = 0; i < runs[s].size(); ++i) {
                const auto& r = runs[s][i];
                EXPECT_LE(r.due, r.begun);
                EXPECT_LE(r.begun, r.done);
                if (i > 0) {
                    EXPECT_GE(r.begun, runs[s][i - 1].done) << "one run of a send at a time";
                    EXPECT_GT(r.due, runs[s][i - 1].due);
                }
                carried += r.bytes;
                if (r.finished) all.push_back(r);
            }
            // Bytes asked = bytes of runs + backlog (what was due after the last run began).
            double asked = 0;
            for (std::size_t i = 0; i < schedule.due[s].size(); ++i)
                if (!runs[s].empty() && at(schedule.due[s][i]) <= runs[s].back().begun) asked += schedule.bytes[s][i];
            EXPECT_NEAR(carried, asked, 1);
        }
        for (const auto& first : all)
            for (const auto& last : all) {
                if (last.done <= first.begun) continue;
                double bytes = 0;
                for (const auto& r : all)
                    if (r.begun >= first.begun && r.done <= last.done) bytes += r.bytes;
                double room = 0;
                for (const auto& o : schedule.open)
                    room += o.share * mb *
                            double(std::max<std::int64_t>(0, std::min(o.to, after(last.done)) -
                                                                 std::max(o.from, after(first.begun) - 1)));
                ASSERT_LE(bytes, room + mb) << "trial " << trial;
            }
    }
}

TEST(Replay, ALoneSendIsNeverIdleWhileItsLinkIsOpen) {
    std::mt19937_64 random(82);
    for (int trial = 0; trial < 60; ++trial) {
        auto schedule = random_schedule(random);
        schedule.due.resize(1);
        const auto runs = schedule.run(1);
        const auto link = line(schedule.open);
        for (const auto& r : runs[0]) {
            if (!r.finished) continue;
            // A run that waited began within the second that its record rounds up.
            const auto early = transfer_end(link, schedule.own[0], r.bytes, r.begun - std::chrono::seconds(1));
            const auto late = transfer_end(link, schedule.own[0], r.bytes, r.begun);
            ASSERT_TRUE(early && late);
            EXPECT_GE(after(r.done), after(*early)) << format_instant(r.begun);
            EXPECT_LE(after(r.done), after(*late)) << format_instant(r.begun);
        }
    }
}

/// Whether all that was due up to t is at the box by then.
bool drained(const Schedule& schedule, const std::vector<std::vector<RunRecord>>& runs, Instant due_by, Instant t) {
    for (std::size_t s = 0; s < runs.size(); ++s) {
        Instant newest = at(-day);
        for (const auto& r : runs[s])
            if (r.finished && r.done <= t) newest = std::max(newest, r.snapshot);
        for (const auto d : schedule.due[s])
            if (at(d) <= due_by && at(d) > newest) return false;
    }
    return true;
}

TEST(Replay, MoreBandwidthNeverMakesABacklogLastLonger) {
    // A single copy may come later all the same: runs that wait become one, and on a faster line other
    // ones do. So the law is about the moments at which nothing is left over.
    std::mt19937_64 random(83);
    int compared = 0;
    for (int trial = 0; trial < 80; ++trial) {
        const auto schedule = random_schedule(random);
        const auto slow = schedule.run(0.7);
        const auto fast = schedule.run(1);
        for (const auto& send : slow)
            for (const auto& r : send) {
                if (!r.finished || !drained(schedule, slow, r.done, r.done)) continue;
                EXPECT_TRUE(drained(schedule, fast, r.done - std::chrono::seconds(2), r.done + std::chrono::seconds(2)))
                    << "trial " << trial << " at " << format_instant(r.done);
                ++compared;
            }
    }
    EXPECT_GT(compared, 1000);
}

TEST(Replay, TheSameArgumentsGiveTheSameRuns) {
    std::mt19937_64 random(84);
    const auto schedule = random_schedule(random);
    const auto a = schedule.run(1);
    const auto b = schedule.run(1);
    for (std::size_t s = 0; s < a.size(); ++s) {
        ASSERT_EQ(a[s].size(), b[s].size());
        for (std::size_t i = 0; i < a[s].size(); ++i) {
            EXPECT_EQ(a[s][i].done, b[s][i].done);
            EXPECT_EQ(a[s][i].bytes, b[s][i].bytes);
        }
    }
}

TEST(Replay, EndsWhenEnoughIsKnown) {
    std::vector<std::int64_t> due;
    for (int d = 0; d < 30; ++d) due.push_back(d * day);
    std::size_t told = 0;
    ReplayOptions options;
    options.enough = [&](std::size_t send, const RunRecord& run) {
        EXPECT_EQ(send, 0u);
        EXPECT_TRUE(run.finished);
        return ++told == 7;
    };
    const auto runs = replay_traced({line({{0, 40 * day}})}, {send_due(due)}, at(40 * day),
                                    [](int, int, Instant, Instant) { return 10 * mb; }, options).runs;
    EXPECT_EQ(told, 7u);
    EXPECT_EQ(runs[0].size(), 7u);
}

TEST(Replay, DatasetsThatGoTheSameWayAreCarriedAsEachAlone) {
    // Three datasets, the last with a supply of its own; alone each send carries what it carries in the one for all.
    const std::vector<std::int64_t> due = {0, day, 2 * day, 3 * day};
    auto all = send_due(due);
    auto other = send_due({12 * hour, 2 * day + hour}).datasets[0];
    other.dataset = 2;
    all.datasets = {all.datasets[0], all.datasets[0], other};
    all.datasets[1].dataset = 1;
    all.already = {all.already[0], all.already[0], all.already[0]};
    const auto bytes = [](int, int dataset, Instant from, Instant to) { return (dataset + 1) * days_between(from, to) * mb; };
    const auto together = replay({line({{0, 9 * day}})}, {all}, at(9 * day), bytes)[0];
    std::vector<double> sums(due.size(), 0.0);
    for (std::size_t d = 0; d < 3; ++d) {
        auto one = all;
        one.datasets = {all.datasets[d]};
        one.already = {all.already[d]};
        const auto alone = replay({line({{0, 9 * day}})}, {one}, at(9 * day), bytes)[0];
        ASSERT_EQ(alone.size(), due.size());
        for (std::size_t i = 0; i < due.size(); ++i) sums[i] += alone[i].bytes;
    }
    ASSERT_EQ(together.size(), due.size());
    for (std::size_t i = 0; i < due.size(); ++i) EXPECT_DOUBLE_EQ(together[i].bytes, sums[i]) << i;
}

}  // namespace
}  // namespace ullage
