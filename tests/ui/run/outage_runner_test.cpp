// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/run/outage_runner.h"
#include "tests/ui/window/small.h"

#include <gtest/gtest.h>

#include <atomic>
#include <chrono>
#include <stdexcept>
#include <thread>
#include <vector>

namespace ullage::ui {
namespace {

OutageQuestion lasting(double days) { return {"nightly", smallSite().as_of, days}; }

/// Works for `ms`, looking at the stop token every millisecond; notes which were begun.
OutageRunner::Drill working(int ms, std::atomic<int>* begun = nullptr,
                            std::atomic<bool>* own_thread = nullptr) {
    return [=, asker = std::this_thread::get_id()](const Site&, const Evidence&, const Settings&,
                                                   const OutageQuestion& question,
                                                   const Progress& progress) {
        if (begun) ++*begun;
        if (own_thread) *own_thread = std::this_thread::get_id() != asker;
        for (int i = 0; i < ms; ++i) {
            if (progress.stop.stop_requested())
                return OutageRunner::Result(tl::make_unexpected(ComputeError(Cancelled{})));
            std::this_thread::sleep_for(std::chrono::milliseconds(1));
        }
        OutageDrill drill;
        drill.send = question.send;
        drill.days = question.days;
        return OutageRunner::Result(drill);
    };
}

struct Asked {
    explicit Asked(OutageRunner::Drill drill) : runner(std::move(drill)) {
        QObject::connect(
            &runner, &OutageRunner::drilled, &runner,
            [this](const std::shared_ptr<const OutageDrill>& d) { days.push_back(d->days); });
        QObject::connect(&runner, &OutageRunner::failed, &runner,
                         [this](const Problems& got) { problems = got; });
    }
    void ask(double length, Pace pace = Pace::soon) {
        runner.ask(site, evidence, Settings{}, lasting(length), pace);
    }
    std::shared_ptr<const Site> site = std::make_shared<const Site>(smallSite());
    std::shared_ptr<const Evidence> evidence = std::make_shared<const Evidence>();
    std::vector<double> days;
    Problems problems;
    OutageRunner runner;  // last: it ends before what it writes to
};

TEST(OutageRunner, ADragIsFewRunsTheLastOfItsEndAndNeverWorksOnTheWindowsThread) {
    std::atomic<int> begun{0};
    std::atomic<bool> own_thread{false};
    Asked asked(working(20, &begun, &own_thread));
    for (int i = 1; i <= 30; ++i) {
        asked.ask(i);
        QTest::qWait(4);
    }
    ASSERT_TRUE(eventually([&] { return !asked.days.empty() && asked.days.back() == 30; }));
    QTest::qWait(100);
    EXPECT_EQ(asked.days.back(), 30);
    EXPECT_LT(begun, 15);
    EXPECT_TRUE(own_thread);
}

TEST(OutageRunner, ANewerQuestionStopsTheOneBeforeIt) {
    std::atomic<int> begun{0};
    Asked asked(working(300, &begun));
    asked.ask(1, Pace::now);
    ASSERT_TRUE(eventually([&] { return begun == 1; }));
    asked.ask(2, Pace::now);
    ASSERT_TRUE(eventually([&] { return !asked.days.empty(); }));
    QTest::qWait(50);
    EXPECT_EQ(asked.days, std::vector<double>{2});
}

TEST(OutageRunner, WhatWasGivenUpIsNotAnswered) {
    std::atomic<int> begun{0};
    Asked asked(working(50, &begun));
    asked.ask(1, Pace::now);
    ASSERT_TRUE(eventually([&] { return begun == 1; }));
    asked.runner.cancel();
    asked.ask(2);
    asked.runner.cancel();
    QTest::qWait(2 * LatestTask::pause_ms);
    EXPECT_TRUE(asked.days.empty());
    EXPECT_EQ(begun, 1);
}

TEST(OutageRunner, ProblemsAndFaultsAreHandedOn) {
    Asked asked([](const Site&, const Evidence&, const Settings&, const OutageQuestion& question,
                   const Progress&) -> OutageRunner::Result {
        if (question.days > 5) throw std::runtime_error("broken");
        return tl::make_unexpected(ComputeError(Problems{{"", "too soon"}}));
    });
    asked.ask(1, Pace::now);
    ASSERT_TRUE(eventually([&] { return !asked.problems.empty(); }));
    EXPECT_EQ(asked.problems, (Problems{{"", "too soon"}}));
    asked.problems.clear();
    asked.ask(9, Pace::now);
    ASSERT_TRUE(eventually([&] { return !asked.problems.empty(); }));
    EXPECT_NE(asked.problems[0].what.find("broken"), std::string::npos);
}

TEST(OutageRunner, EndsAtOnceWhileItWorks) {
    const auto before = std::chrono::steady_clock::now();
    {
        std::atomic<int> begun{0};
        Asked asked(working(30000, &begun));
        asked.ask(1, Pace::now);
        ASSERT_TRUE(eventually([&] { return begun == 1; }));
    }
    EXPECT_LT(std::chrono::steady_clock::now() - before, std::chrono::seconds(5));
}

}  // namespace
}  // namespace ullage::ui
