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

TEST(GapLayout, ItsPiecesAreAllOfEachGap) {
    const std::vector<double> edges = {-14, -7, 0, 1, 2, 3, 10, 17};
    const std::vector<double> days = {0, 1, 2.5, 10};
    const Instant start = *parse_instant("2026-11-02");
    KeptTimes at;
    for (const double now : days) {
        auto& kept = at.emplace_back();
        for (const double back : {20.0, 13.0, 6.5, 3.0, 2.0, 1.0, 0.5}) kept.push_back(add_days(start, now - back));
    }
    KeptSnapshots kept;
    kept.home = true;
    kept.at = std::move(at);
    const auto layout = std::make_shared<GapLayout>(gap_layout(kept, edges, start, days));
    ASSERT_EQ(layout->gaps.size(), days.size() * 7);
    for (std::size_t g = 0; g < layout->gaps.size(); ++g) {
        double shares = 0;
        for (std::size_t p = layout->gaps[g].first_piece; p < layout->last_piece(g); ++p) shares += layout->pieces[p].share;
        EXPECT_NEAR(shares, 1, 1e-12) << g;
        EXPECT_EQ(layout->lengths[layout->gaps[g].length], layout->gaps[g].to - layout->gaps[g].from);
    }
    // With churn at its mean the weights are what the curve says of the gaps.
    DatasetModel model;
    model.curves = {Curve({{0.5, 3 * gb}, {30, 40 * gb}})};
    model.mean_curve = Curve({{2, 5 * gb}});
    std::vector<float> weights(weights_of(*layout, model));
    const HeldKernel kernel = held_kernel(layout, model, weights.data());
    for (std::size_t i = 0; i < days.size(); ++i)
        for (const std::size_t c : {0u, 1u}) {
            const Curve& curve = c == 0 ? model.curves[0] : model.mean_curve;
            const double sum = std::accumulate(kernel.at(c, i), kernel.at(c, i) + layout->count[i], 0.0);
            EXPECT_NEAR(sum / held_bytes(curve, (*kept.at)[i], add_days(start, days[i])), 1, 1e-6) << i << ", " << c;
        }
}

}  // namespace
}  // namespace ullage
