// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/window/small.h"
#include "ui/run/answer_runner.h"

#include <QSignalSpy>

#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <stdexcept>
#include <sys/resource.h>
#include <thread>
#include <unistd.h>

namespace ullage::ui {
namespace {

using Result = AnswerRunner::Result;
using State = AnswerRunner::State;

Question questionNamed(const std::string& name, int paths = AnswerRunner::quick_paths) {
    Site site = smallSite();
    site.name = name;
    Settings settings;
    settings.paths = paths;
    return {std::make_shared<const Site>(site), std::make_shared<const Evidence>(), settings};
}

Result cancelled() { return tl::make_unexpected(ComputeError(Cancelled{})); }

/// Works for `ms`, looking at the stop token every millisecond.
AnswerRunner::Compute working(std::chrono::milliseconds length,
                              std::atomic<int>* started = nullptr) {
    return [=](const Site& site, const Evidence&, const Settings& settings,
               const Progress& progress) -> Result {
        if (started) ++*started;
        const auto end = std::chrono::steady_clock::now() + length;
        while (std::chrono::steady_clock::now() < end) {
            if (progress.stop.stop_requested()) return cancelled();
            if (progress.report) progress.report(0.5);
            std::this_thread::sleep_for(std::chrono::milliseconds(1));
        }
        return plainAnswer(site, settings.paths);
    };
}

/// What came, in order.
struct Received {
    std::vector<std::shared_ptr<const Answer>> answers;
    std::vector<bool> previews;

    explicit Received(AnswerRunner& runner) {
        QObject::connect(&runner, &AnswerRunner::answered, &runner,
                         [this](std::shared_ptr<const Answer> answer, bool preview) {
                             answers.push_back(std::move(answer));
                             previews.push_back(preview);
                         });
    }
};

TEST(AnswerRunner, AnEditAfterAPauseStartsAtOnce) {
    std::atomic<int> started{0};
    AnswerRunner runner(working(std::chrono::milliseconds(1), &started));
    for (int edit = 1; edit <= 3; ++edit) {
        runner.request(questionNamed("edit"));
        const auto asked = std::chrono::steady_clock::now();
        ASSERT_TRUE(eventually([&] { return started == edit; }));
        EXPECT_LT(std::chrono::steady_clock::now() - asked,
                  std::chrono::milliseconds(AnswerRunner::pause_ms));
        QTest::qWait(AnswerRunner::pause_ms + 20);
    }
}

TEST(AnswerRunner, FortyEditsInAHurryAreFewRunsOfWhichTheLastIsOfTheLastEdit) {
    std::atomic<int> started{0};
    AnswerRunner runner(working(std::chrono::milliseconds(30), &started));
    const Received received(runner);
    const auto begun = std::chrono::steady_clock::now();
    for (int i = 0; i < 40; ++i) {
        runner.request(questionNamed("edit " + std::to_string(i)));
        QTest::qWait(5);
    }
    ASSERT_TRUE(eventually([&] { return runner.state() == State::idle; }));
    QTest::qWait(100);
    const std::chrono::duration<double, std::milli> took =
        std::chrono::steady_clock::now() - begun;
    ASSERT_FALSE(received.answers.empty());
    EXPECT_EQ(received.answers.back()->site.name, "edit 39");
    EXPECT_FALSE(received.previews.back());
    EXPECT_EQ(std::count(received.previews.begin(), received.previews.end(), false), 1)
        << "what is of an earlier edit is never called the last word";
    // One at the first edit, one after the last; a pause more for each time the machine held us up.
    EXPECT_LE(started, 2 + 2 * took.count() / AnswerRunner::pause_ms);
    EXPECT_LT(started, 20);
}

TEST(AnswerRunner, EditsThatNeverPauseStillGetAnAnswerNowAndThen) {
    AnswerRunner runner(working(std::chrono::milliseconds(100)));
    const Received received(runner);
    for (int i = 0; i < 200 && received.answers.empty(); ++i) {
        runner.request(questionNamed("edit"));
        QTest::qWait(20);
    }
    ASSERT_FALSE(received.answers.empty())
        << "no answer although edits went on for much longer than the longest pause";
    EXPECT_TRUE(received.previews[0]) << "the site has been edited since";
    EXPECT_EQ(runner.state(), State::updating);
    ASSERT_TRUE(eventually([&] { return runner.state() == State::idle; }));
    EXPECT_FALSE(received.previews.back());
}

TEST(AnswerRunner, AQuickPassComesFirstAndTheFullOneReplacesIt) {
    AnswerRunner runner(working(std::chrono::milliseconds(5)));
    const Received received(runner);
    runner.request(questionNamed("site", 2000), AnswerRunner::Pace::now);
    EXPECT_EQ(runner.state(), State::updating);
    ASSERT_TRUE(eventually([&] { return runner.state() == State::idle; }));
    ASSERT_EQ(received.answers.size(), 2u);
    EXPECT_EQ(received.previews, (std::vector<bool>{true, false}));
    EXPECT_EQ(received.answers[0]->outlook.paths, AnswerRunner::quick_paths);
    EXPECT_EQ(received.answers[1]->outlook.paths, 2000);
}

TEST(AnswerRunner, NoPreviewIsMadeWhenTheFullPassIsAsQuick) {
    AnswerRunner runner(working(std::chrono::milliseconds(1)));
    const Received received(runner);
    runner.request(questionNamed("site", AnswerRunner::quick_paths), AnswerRunner::Pace::now);
    ASSERT_TRUE(eventually([&] { return runner.state() == State::idle; }));
    EXPECT_EQ(received.previews, std::vector<bool>{false});
}

TEST(AnswerRunner, TheWorkAndItsThreadsAreNicerThanTheWindow) {
    const auto niceness = [] { return getpriority(PRIO_PROCESS, static_cast<id_t>(gettid())); };
    std::atomic<int> of_work{0}, of_its_thread{0};
    AnswerRunner runner([&](const Site& site, const Evidence&, const Settings& settings, const Progress&) -> Result {
        of_work = niceness();
        std::thread([&] { of_its_thread = niceness(); }).join();
        return plainAnswer(site, settings.paths);
    });
    runner.request(questionNamed("site"), AnswerRunner::Pace::now);
    ASSERT_TRUE(eventually([&] { return runner.state() == State::idle; }));
    EXPECT_GT(of_work, niceness());
    EXPECT_EQ(of_its_thread, of_work);
}

TEST(AnswerRunner, CancelStopsTheWorkAndGivesNoAnswer) {
    std::atomic<int> started{0};
    AnswerRunner runner(working(std::chrono::seconds(30), &started));
    const Received received(runner);
    runner.request(questionNamed("site"), AnswerRunner::Pace::now);
    ASSERT_TRUE(eventually([&] { return started == 1; }));
    runner.cancel();
    EXPECT_EQ(runner.state(), State::cancelled);
    QTest::qWait(50);
    EXPECT_TRUE(received.answers.empty());
    EXPECT_EQ(runner.state(), State::cancelled);
}

TEST(AnswerRunner, CancelBeforeTheWorkStartedSettlesToo) {
    std::atomic<int> started{0};
    AnswerRunner runner(working(std::chrono::milliseconds(1), &started));
    runner.request(questionNamed("site"), AnswerRunner::Pace::soon);
    runner.cancel();
    QTest::qWait(2 * AnswerRunner::pause_ms);
    EXPECT_EQ(started, 0);
    EXPECT_EQ(runner.state(), State::cancelled);
}

TEST(AnswerRunner, ACancelledQuestionCanBeAskedAgain) {
    AnswerRunner runner(working(std::chrono::milliseconds(1)));
    const Received received(runner);
    runner.request(questionNamed("site"), AnswerRunner::Pace::now);
    runner.cancel();
    runner.retry();
    ASSERT_TRUE(eventually([&] { return runner.state() == State::idle; }));
    EXPECT_EQ(received.answers.size(), 1u);
}

TEST(AnswerRunner, ARequestThatWasOverwrittenBeforeItStartedLeavesNoTrace) {
    std::atomic<int> started{0};
    AnswerRunner runner(working(std::chrono::milliseconds(100), &started));
    const Received received(runner);
    runner.request(questionNamed("first"), AnswerRunner::Pace::now);
    ASSERT_TRUE(eventually([&] { return started == 1; }));
    runner.request(questionNamed("second"), AnswerRunner::Pace::now);
    runner.request(questionNamed("third"), AnswerRunner::Pace::now);
    ASSERT_TRUE(eventually([&] { return runner.state() == State::idle; }));
    ASSERT_EQ(received.answers.size(), 1u);
    EXPECT_EQ(received.answers[0]->site.name, "third");
}

TEST(AnswerRunner, ProblemsOfTheModelAreHandedOnAndTheNextQuestionIsAnswered) {
    AnswerRunner runner(
        [](const Site& site, const Evidence&, const Settings& settings, const Progress&) -> Result {
            if (site.name == "bad")
                return tl::make_unexpected(ComputeError(Problems{{"/boxes/0", "not modelled"}}));
            return plainAnswer(site, settings.paths);
        });
    Problems problems;
    QObject::connect(&runner, &AnswerRunner::failed, &runner,
                     [&](const Problems& got) { problems = got; });
    runner.request(questionNamed("bad"), AnswerRunner::Pace::now);
    ASSERT_TRUE(eventually([&] { return runner.state() == State::failed; }));
    EXPECT_EQ(problems, (Problems{{"/boxes/0", "not modelled"}}));
    runner.request(questionNamed("good"), AnswerRunner::Pace::now);
    EXPECT_TRUE(eventually([&] { return runner.state() == State::idle; }));
}

TEST(AnswerRunner, AnExceptionIsAFailureAndNotTheEndOfTheProgram) {
    AnswerRunner runner([](const Site&, const Evidence&, const Settings&,
                           const Progress&) -> Result { throw std::runtime_error("broken"); });
    Problems problems;
    QObject::connect(&runner, &AnswerRunner::failed, &runner,
                     [&](const Problems& got) { problems = got; });
    runner.request(questionNamed("site"), AnswerRunner::Pace::now);
    ASSERT_TRUE(eventually([&] { return runner.state() == State::failed; }));
    ASSERT_EQ(problems.size(), 1u);
    EXPECT_NE(problems[0].what.find("broken"), std::string::npos);
}

TEST(AnswerRunner, DestroyingItWhileItWorksStopsTheWorkAtOnce) {
    std::atomic<int> started{0};
    auto runner = std::make_unique<AnswerRunner>(working(std::chrono::seconds(30), &started));
    runner->request(questionNamed("site"), AnswerRunner::Pace::now);
    ASSERT_TRUE(eventually([&] { return started == 1; }));
    const auto before = std::chrono::steady_clock::now();
    runner.reset();
    EXPECT_LT(std::chrono::steady_clock::now() - before, std::chrono::seconds(2));
}

TEST(AnswerRunner, ResetForgetsTheQuestionAndIsIdle) {
    AnswerRunner runner(working(std::chrono::milliseconds(50)));
    const Received received(runner);
    runner.request(questionNamed("site"), AnswerRunner::Pace::now);
    QTest::qWait(10);
    runner.reset();
    EXPECT_EQ(runner.state(), State::idle);
    QTest::qWait(150);
    EXPECT_TRUE(received.answers.empty());
}

TEST(AnswerRunner, ProgressNeverLeavesTheRangeAndNeverFallsWithinARequest) {
    AnswerRunner runner(working(std::chrono::milliseconds(150)));
    std::vector<double> shares;
    QObject::connect(&runner, &AnswerRunner::progressChanged, &runner,
                     [&](double share) { shares.push_back(share); });
    runner.request(questionNamed("site", 2000), AnswerRunner::Pace::now);
    ASSERT_TRUE(eventually([&] { return runner.state() == State::idle; }));
    ASSERT_FALSE(shares.empty());
    EXPECT_LE(shares.size(), 2u * 150 / AnswerRunner::progress_every_ms + 2);
    EXPECT_TRUE(std::is_sorted(shares.begin(), shares.end()));
    EXPECT_GE(shares.front(), 0);
    EXPECT_LE(shares.back(), 1);
}

}  // namespace
}  // namespace ullage::ui
