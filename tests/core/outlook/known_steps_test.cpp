// SPDX-License-Identifier: GPL-3.0-or-later
// What is worked out before the replay is what the replay would have worked out.
#include "outlook_testing.h"

#include "core/outlook/held_kernel.h"
#include "core/outlook/line_rate.h"
#include "core/outlook/run_bytes.h"
#include "core/outlook/send_study.h"

#include <cmath>
#include <numeric>

namespace ullage {
namespace {

using namespace testing;

/// Two datasets that change and vary, with events, sent nightly by one send, hourly by another.
Site two_sends(double megabits = 100) {
    std::vector<Dataset> datasets = {dataset("a", 1 * tb, 200 * gb, 0.3), dataset("b", 2 * tb, 100 * gb, 0.2)};
    for (auto& d : datasets) {
        churn(d, 6 * gb, 25 * gb, 0.3);
        d.ladder = {rung(1, Period::Unit::hour, 48), rung(1, Period::Unit::day, 30)};
    }
    datasets[0].events = {event(Event::Kind::add, 40, 300 * gb), event(Event::Kind::rewrite, 80, 100 * gb)};
    auto s = site(200, datasets, {box("home", 90 * tb), box("attic", 90 * tb)});
    add_send(s, megabits);
    s.sends[0].datasets = {"a"};
    auto hourly = s.sends[0];
    hourly.name = "hourly";
    hourly.datasets = {"b"};
    hourly.every = Period{1, Period::Unit::hour};
    s.sends.push_back(hourly);
    return s;
}

SendStudy study_of(const Site& s, int paths) {
    Settings settings;
    settings.paths = paths;
    settings.threads = 2;
    auto study = study_sends(s, {}, settings, {});
    EXPECT_TRUE(study);
    return *std::move(study);
}

TEST(KnownSteps, AreBitForBitWhatIsWorkedOutOnTheWay) {
    const Site s = two_sends();
    const SendStudy study = study_of(s, 5);
    const std::size_t paths = study.paths.samples.size();
    ASSERT_GE(paths, 5u);
    const KnownSteps known(study.context(), study.plans, study.plan, study.paths, paths, 2);
    ASSERT_GT(known.of(0).steps.size(), 150u);
    ASSERT_GT(known.of(1).steps.size(), 4000u);
    for (std::size_t p = 0; p < paths; ++p) {
        PathBytes looked_up(study.context(), study.plans, study.plan, study.paths, p, &known);
        PathBytes worked_out(study.context(), study.plans, study.plan, study.paths, p);
        for (int d = 0; d < 2; ++d) {
            double sum = 0;
            for (const auto& step : known.of(std::size_t(d)).steps) {
                const double bytes = looked_up(d, d, step.from, step.to);
                ASSERT_EQ(bytes, worked_out(d, d, step.from, step.to)) << p << ", " << format_instant(step.to);
                sum += bytes;
            }
            EXPECT_GT(sum, 100 * gb);
            // A step that nobody foresaw.
            const auto& first = known.of(std::size_t(d)).steps.front();
            const Instant later = first.from + std::chrono::hours(1000);
            EXPECT_EQ(looked_up(d, d, first.from, later), worked_out(d, d, first.from, later));
        }
    }
}

TEST(KnownSteps, TheReplayIsTheSameWithAndWithoutThem) {
    const Site s = two_sends(20);  // runs are late, and steps come otherwise than foreseen
    const SendStudy study = study_of(s, 3);
    PathsReplay settings;
    settings.threads = 2;
    const KnownSteps none(study.context(), {}, study.plan, study.paths, 0, 1);
    settings.known = &none;
    const auto without = replay_paths(study.context(), study.plans, study.plan, study.paths, settings, {}, 0, 1);
    settings.known = nullptr;
    const auto with = replay_paths(study.context(), study.plans, study.plan, study.paths, settings, {}, 0, 1);
    ASSERT_TRUE(with && without);
    std::size_t late = 0;
    for (std::size_t p = 0; p < with->size(); ++p)
        for (std::size_t send = 0; send < 2; ++send) {
            const auto& a = (*with)[p][send];
            const auto& b = (*without)[p][send];
            ASSERT_EQ(a.size(), b.size());
            for (std::size_t i = 0; i < a.size(); ++i) {
                ASSERT_EQ(a[i].bytes, b[i].bytes);
                ASSERT_EQ(a[i].done, b[i].done);
                late += a[i].missed ? 1 : 0;
            }
        }
    EXPECT_GT(late, 0u);
}

TEST(LineRate, GivingUpEarlyChangesNoVerdict) {
    const Site s = two_sends(20);
    const SendStudy study = study_of(s, 8);
    PathsReplay whole;
    whole.threads = 2;
    whole.only = {0, 1};
    const auto traces = replay_paths(study.context(), study.plans, study.plan, study.paths, whole, {}, 0, 1);
    ASSERT_TRUE(traces);
    bool cut = false;
    for (const std::size_t send : {0u, 1u}) {
        const double worst = missing_in_worst_year(*traces, send, study.start);
        for (const double most : {0.0, 0.02, 0.1, 0.3, 0.6, 1.0}) {
            PathsReplay early = whole;
            early.only = {send};
            early.most_missing = most;
            const auto some = replay_paths(study.context(), study.plans, study.plan, study.paths, early, {}, 0, 1);
            ASSERT_TRUE(some);
            EXPECT_EQ(missing_in_worst_year(*some, send, study.start) > most, worst > most) << send << ", " << most;
            cut = cut || some->front()[send].size() < traces->front()[send].size();
        }
    }
    EXPECT_TRUE(cut);
}

struct KeptOverTime {
    std::vector<double> edges = {-14, -7, 0, 1, 2, 3, 10, 17};
    std::vector<double> days = {0, 1, 2.5, 10};
    Instant start = *parse_instant("2026-11-02");
    KeptSnapshots kept;

    explicit KeptOverTime(const std::vector<double>& ages) {
        KeptTimes at;
        for (const double now : days) {
            auto& snapshots = at.emplace_back();
            for (const double back : ages) snapshots.push_back(add_days(start, now - back));
        }
        kept.home = true;
        kept.at = std::move(at);
    }
};

TEST(GapLayout, ShapesAreAllOfEachGap) {
    const KeptOverTime k({20.0, 13.0, 6.5, 3.0, 2.0, 1.0, 0.5});
    const auto layout = std::make_shared<GapLayout>(gap_layout(k.kept, k.edges, k.start, k.days, {}));
    ASSERT_EQ(layout->churn.size(), layout->length_of.size());
    for (std::size_t s = 0; s < layout->churn.size(); ++s) {
        double shares = 0;
        for (const auto* part = layout->churn.begin(s); part < layout->churn.end(s); ++part) shares += double(part->weight);
        EXPECT_NEAR(shares, 1, 1e-6) << s;
    }
    for (std::size_t i = 0; i < k.days.size(); ++i) {
        double gaps = 0;
        for (const auto* shape = layout->shapes.begin(i); shape < layout->shapes.end(i); ++shape) gaps += double(shape->weight);
        EXPECT_EQ(gaps, 7) << i;
    }
    // While churn is at its mean they hold what the curve says of the gaps.
    DatasetModel model;
    model.curves = {Curve({{0.5, 3 * gb}, {30, 40 * gb}})};
    model.mean_curve = Curve({{2, 5 * gb}});
    const HeldKernel kernel = held_kernel(layout, model);
    for (std::size_t i = 0; i < k.days.size(); ++i)
        for (const std::size_t c : {0u, 1u}) {
            const Curve& curve = c == 0 ? model.curves[0] : model.mean_curve;
            EXPECT_NEAR(kernel.held(c, i) / held_bytes(curve, (*k.kept.at)[i], add_days(k.start, k.days[i])), 1, 1e-6)
                << i << ", " << c;
        }
}

TEST(GapLayout, GapsThatLieAlikeAreOneShape) {
    // Every hour of a day, all in one interval; and at two times of the grid the same gap.
    std::vector<double> hours;
    for (int h = 26; h >= 2; --h) hours.push_back(h / 24.0);
    KeptOverTime k(hours);
    k.edges = {-7, 100};
    k.days = {10};
    const auto hourly = gap_layout(k.kept, k.edges, k.start, k.days, {});
    ASSERT_EQ(hourly.length_of.size(), 2U);  // and the time since the newest
    EXPECT_EQ(hourly.shapes.begin(0)->weight, 24);

    KeptTimes same(2);
    for (auto& at : same) at = {add_days(k.start, -9), add_days(k.start, 3)};
    k.kept.home = false;
    k.kept.at = std::move(same);
    const auto twice = gap_layout(k.kept, {-14, -7, 0, 10, 20}, k.start, {10, 12}, {});
    EXPECT_EQ(twice.length_of.size(), 1U);
    EXPECT_EQ(twice.shapes.begin(1)->row, 0U);
    EXPECT_EQ(twice.churn.end(0) - twice.churn.begin(0), 3);
}

TEST(GapLayout, WhatAListingShowsIsInNoShape) {
    const KeptOverTime k({20.0, 13.0, 6.5, 3.0, 2.0});
    const std::vector<Instant> taken = {add_days(k.start, -20), add_days(k.start, -13), add_days(k.start, -6.5)};
    const auto layout = gap_layout(k.kept, k.edges, k.start, k.days, taken);
    ASSERT_EQ(layout.listed.size(), 2U);
    EXPECT_EQ(layout.first_listed[1], 2U);
    EXPECT_EQ(taken[layout.listed[1].first], taken[1]);
    double gaps = 0;
    for (const auto* shape = layout.shapes.begin(0); shape < layout.shapes.end(0); ++shape) gaps += double(shape->weight);
    EXPECT_EQ(gaps, 3);
}

}  // namespace
}  // namespace ullage
