// SPDX-License-Identifier: GPL-3.0-or-later
// Expected values are worked out by hand; quantiles of an even distribution are linear.
#include "replay_testing.h"

namespace ullage {
namespace {

using namespace testing;

RunRecord run(std::int64_t snapshot, std::int64_t done) {
    RunRecord r;
    r.due = r.begun = at(snapshot);
    r.done = at(done);
    r.snapshot = at(snapshot);
    return r;
}

TEST(CopyAge, OfADailyCopyThatTakesTwoHoursIsASawtoothFrom2To26Hours) {
    std::vector<RunRecord> runs;
    for (std::int64_t d = 0; d < 30; ++d) runs.push_back(run(d * day, d * day + 2 * hour));
    const auto ages = copy_ages(runs, at(-day), at(2 * hour), at(29 * day + 2 * hour));
    ASSERT_EQ(ages.size(), 29u);
    for (const auto& a : ages) {
        EXPECT_DOUBLE_EQ(a.from_hours, 2);
        EXPECT_DOUBLE_EQ(a.to_hours, 26);
    }
    EXPECT_NEAR(age_quantile(ages, 0.5), 14, 1e-9);
    EXPECT_NEAR(age_quantile(ages, 0.9), 23.6, 1e-9);
    EXPECT_NEAR(age_quantile(ages, 0.95), 24.8, 1e-9);
}

TEST(CopyAge, OfTwoTeethIsWeighedByTime) {
    // Ages 0…10 h and 0…30 h: below 10 h lie 10 + 10 of 40 hours, so p50 is 10; p90: 10 + x = 36, x = 26.
    const std::vector<AgeStretch> ages = {{0, 10}, {0, 30}};
    EXPECT_NEAR(age_quantile(ages, 0.5), 10, 1e-9);
    EXPECT_NEAR(age_quantile(ages, 0.25), 5, 1e-9);
    EXPECT_NEAR(age_quantile(ages, 0.9), 26, 1e-9);
    EXPECT_EQ(age_quantile({}, 0.5), 0);
}

TEST(CopyAge, GrowsOnWhileNothingArrivesAndIgnoresWhatBringsNothingNewer) {
    auto unfinished = run(day, day + hour);
    unfinished.finished = false;
    const auto ages = copy_ages({run(-2 * day, hour), unfinished}, at(-day), at(0), at(2 * day));
    ASSERT_EQ(ages.size(), 1u);
    EXPECT_DOUBLE_EQ(ages[0].from_hours, 24);
    EXPECT_DOUBLE_EQ(ages[0].to_hours, 72);
}

TEST(CopyAge, RunsDoneBeforeTheStretchSetItsFirstAge) {
    const auto ages = copy_ages({run(0, hour), run(day, day + hour)}, at(-9 * day), at(2 * hour), at(2 * day));
    ASSERT_EQ(ages.size(), 2u);
    EXPECT_DOUBLE_EQ(ages[0].from_hours, 2);
    EXPECT_DOUBLE_EQ(ages[0].to_hours, 25);
    EXPECT_DOUBLE_EQ(ages[1].from_hours, 1);
    EXPECT_DOUBLE_EQ(ages[1].to_hours, 24);
}

Ladder daily(int count) {
    Rung r;
    r.every = Period{1, Period::Unit::day};
    r.count = count;
    return {r};
}

struct Nightly {
    LadderClock ladder;
    ReplaySend send;
    std::vector<RunRecord> runs;

    explicit Nightly(const Ladder& l, Send::Steps steps = Send::Steps::newest) : ladder(l, TimeZone()) {
        ReplayDataset d;
        d.supply = snapshots_to_send(ladder, steps, days(1), at(-60 * day), at(40 * day));
        d.box_ladder = &ladder;
        send.every_step = steps == Send::Steps::every;
        send.datasets = {d};
        send.already = {{at(-day)}};
        for (int i = 0; i < 40; ++i) send.due.push_back(at(i * day));
        runs = replay({line({{0, 40 * day}})}, {send}, at(40 * day),
                      [](int, int, std::optional<Instant>, Instant) { return 3600 * mb; })[0];
    }
};

TEST(LongestOutage, OfADailyLadderIsItsLengthLessWhatARunTakes) {
    // The snapshot of midnight is sent until 01:00 and expires 14 days after it was taken.
    const Nightly n(daily(14));
    EXPECT_NEAR(*longest_outage_days(n.send, n.runs, at(0), at(40 * day)), 14 - 1.0 / 24, 1e-9);
}

TEST(LongestOutage, IsThatOfALongerRungWhoseSnapshotsTheBoxHas) {
    // Daily for 3 days and on Mondays for 4 weeks: on a Sunday after the run the newest Monday's snapshot
    // is 6 d 1 h old and lasts 28 d.
    Ladder l = daily(3);
    Rung r;
    r.every = Period{1, Period::Unit::week};
    r.count = 4;
    l.push_back(r);
    const Nightly n(l);
    EXPECT_NEAR(*longest_outage_days(n.send, n.runs, at(7 * day), at(40 * day)), 28 - 6 - 1.0 / 24, 1e-9);
}

TEST(LongestOutage, HasNoLimitWhenTheLastSentIsHeldAndNoneWithoutRuns) {
    Nightly n(daily(14));
    EXPECT_FALSE(longest_outage_days(n.send, {}, at(0), at(40 * day)));
    EXPECT_FALSE(longest_outage_days(n.send, n.runs, at(50 * day), at(60 * day)));
    n.send.hold_last_sent = true;
    EXPECT_FALSE(longest_outage_days(n.send, n.runs, at(0), at(40 * day)));
}

TEST(LongestOutage, IsWhatTheReplaySurvives) {
    // An outage a little shorter than the answer needs no full copy; one a little longer does.
    const Nightly n(daily(6));
    const double limit = *longest_outage_days(n.send, n.runs, at(0), at(40 * day));
    for (const double off : {-0.02, 0.02}) {
        // Down from the end of day 9's run at 01:00; due daily, tried first when the line is back.
        const auto back = 9 * day + hour + std::int64_t((limit + off) * double(day));
        auto send = n.send;
        send.due.clear();
        for (int i = 0; i < 10; ++i) send.due.push_back(at(i * day));
        send.due.push_back(at(back));
        const auto runs = replay({line({{0, 40 * day}})}, {send}, at(40 * day),
                                 [](int, int, std::optional<Instant>, Instant) { return 3600 * mb; })[0];
        EXPECT_EQ(runs.back().full, off > 0) << off;
    }
}

}  // namespace
}  // namespace ullage
