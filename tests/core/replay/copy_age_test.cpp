// SPDX-License-Identifier: GPL-3.0-or-later
// Expected values are worked out by hand; quantiles of an even distribution are linear.
#include "replay_testing.h"

#include "core/replay/copy_age.h"

#include <algorithm>
#include <random>

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

TEST(CopyAge, AQuantileHasThatShareOfTheTimeBelowIt) {
    std::mt19937_64 random(5);
    std::lognormal_distribution<double> age(2, 1.5);
    std::vector<AgeStretch> ages;
    double total = 0;
    for (int i = 0; i < 500; ++i) {
        const double from = age(random);
        ages.push_back({from, from + (i % 50 == 0 ? 0 : age(random))});
        total += ages.back().to_hours - from;
    }
    for (const double p : {0.01, 0.3, 0.5, 0.9, 0.999}) {
        const double q = age_quantile(ages, p);
        double below = 0;
        for (const auto& a : ages) below += std::clamp(q, a.from_hours, a.to_hours) - a.from_hours;
        EXPECT_NEAR(below / total, p, 1e-9);
    }
}

TEST(CopyAge, GrowsOnWhileNothingArrivesAndIgnoresWhatBringsNothingNewer) {
    auto unfinished = run(day, day + hour);
    unfinished.finished = false;
    const auto ages = copy_ages(std::vector<RunRecord>{run(-2 * day, hour), unfinished}, at(-day), at(0), at(2 * day));
    ASSERT_EQ(ages.size(), 1u);
    EXPECT_DOUBLE_EQ(ages[0].from_hours, 24);
    EXPECT_DOUBLE_EQ(ages[0].to_hours, 72);
}

TEST(CopyAge, BeforeTheFirstSnapshotWasTakenThereIsNoAge) {
    const auto ages = copy_ages(std::vector<RunRecord>{run(day, day + hour)}, at(12 * hour), at(0), at(2 * day));
    ASSERT_EQ(ages.size(), 2u);
    EXPECT_DOUBLE_EQ(ages[0].from_hours, 0);
    EXPECT_DOUBLE_EQ(ages[0].to_hours, 13);
    EXPECT_TRUE(copy_ages(std::vector<RunRecord>{}, at(3 * day), at(0), at(2 * day)).empty());
}

TEST(CopyAge, RunsDoneBeforeTheStretchSetItsFirstAge) {
    const auto ages = copy_ages(std::vector<RunRecord>{run(0, hour), run(day, day + hour)}, at(-9 * day), at(2 * hour), at(2 * day));
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
    LadderGrid grid;
    ReplaySend send;

    explicit Nightly(const Ladder& l, Send::Steps steps = Send::Steps::newest)
        : ladder(l, TimeZone()), grid(ladder, at(-60 * day), at(40 * day)) {
        ReplayDataset d;
        d.supply = snapshots_to_send(ladder, steps, days(1), at(-60 * day), at(40 * day));
        d.box_ladder = &grid;
        send.every_step = steps == Send::Steps::every;
        send.datasets = {d};
        send.already = {{at(-day)}};
        for (int i = 0; i < 40; ++i) send.due.push_back(at(i * day));
    }
    std::vector<RunRecord> runs(std::int64_t survival_from) const {
        ReplayOptions options;
        options.survival_from = at(survival_from);
        return replay_traced({line({{0, 40 * day}})}, {send}, at(40 * day),
                             [](int, int, Instant, Instant) { return 3600 * mb; }, options)
            .runs[0];
    }
};

TEST(LongestOutage, OfADailyLadderIsItsLengthLessWhatARunTakes) {
    // The snapshot of midnight is sent until 01:00 and expires 14 days after it was taken.
    const Nightly n(daily(14));
    EXPECT_NEAR(*longest_outage_days(n.runs(0)), 14 - 1.0 / 24, 1e-9);
}

TEST(LongestOutage, IsThatOfALongerRungWhoseSnapshotsTheBoxHas) {
    // Daily for 3 days and on Mondays for 4 weeks: on a Sunday after the run the newest Monday's snapshot
    // is 6 d 1 h old and lasts 28 d.
    Ladder l = daily(3);
    Rung r;
    r.every = Period{1, Period::Unit::week};
    r.count = 4;
    l.push_back(r);
    EXPECT_NEAR(*longest_outage_days(Nightly(l).runs(7 * day)), 28 - 6 - 1.0 / 24, 1e-9);
}

TEST(LongestOutage, HasNoLimitWhenTheLastSentIsHeldAndNoneWithoutRuns) {
    Nightly n(daily(14));
    EXPECT_FALSE(longest_outage_days({}));
    EXPECT_FALSE(longest_outage_days(n.runs(50 * day)));
    n.send.hold_last_sent = true;
    EXPECT_FALSE(longest_outage_days(n.runs(0)));
}

TEST(LongestOutage, IsWhatTheReplaySurvives) {
    // An outage a little shorter than the answer needs no full copy; one a little longer does.
    const Nightly n(daily(6));
    const double limit = *longest_outage_days(n.runs(0));
    for (const double off : {-0.02, 0.02}) {
        // Down from the end of day 9's run at 01:00; due daily, tried first when the line is back.
        const auto back = 9 * day + hour + std::int64_t((limit + off) * double(day));
        auto send = n.send;
        send.due.clear();
        for (int i = 0; i < 10; ++i) send.due.push_back(at(i * day));
        send.due.push_back(at(back));
        const auto runs = replay({line({{0, 40 * day}})}, {send}, at(40 * day),
                                 [](int, int, Instant, Instant) { return 3600 * mb; })[0];
        EXPECT_EQ(runs.back().full, off > 0) << off;
    }
}

TEST(TimesBehind, LastFromTheMissedDeadlineUntilNothingWaits) {
    // 1 MB/s, always open, due daily. Day 0 asks for 2.5 days of work, days 1 and 2 for half a day each,
    // which one run carries from 2.5 to 3.5; day 3 (waiting) for a quarter: done at 3.75, nothing waits.
    const std::vector<std::int64_t> due = {0, day, 2 * day, 3 * day, 4 * day};
    const auto runs = replay({line({{0, 9 * day}})}, {send_due(due)}, at(9 * day),
                             bytes_by_due(due, {2.5 * day * mb, 0.5 * day * mb, 0.5 * day * mb,
                                                0.25 * day * mb, 100 * mb}))[0];
    const auto times = times_behind(runs);
    ASSERT_EQ(times.size(), 1u);
    EXPECT_EQ(after(times[0].from), day);
    EXPECT_EQ(after(times[0].to), 3 * day + 3 * day / 4);
    EXPECT_NEAR(times[0].most_bytes, 1.5 * day * mb, 1e-7 * day * mb);  // of the first run, on day 1
    EXPECT_TRUE(times[0].ended);
    EXPECT_FLOAT_EQ(runs[0].busy_hours, 60);
}

}  // namespace
}  // namespace ullage
