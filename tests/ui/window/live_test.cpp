// SPDX-License-Identifier: GPL-3.0-or-later
// The window while edits are answered.
#include "core/units/quantity_text.h"
#include "tests/ui/window/loop_watch.h"
#include "tests/ui/window/small.h"
#include "ui/outline/outline_pane.h"
#include "ui/pages/fit_page.h"
#include "ui/pages/report_page.h"
#include "ui/pages/sure_page.h"
#include "ui/theme/drawn_widget.h"
#include "ui/window/main_window.h"
#include "ui/window/message_bar.h"
#include "ui/window/window_settings.h"

#include <QLabel>
#include <QProgressBar>
#include <QTabWidget>
#include <QTreeView>

#include <gtest/gtest.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <thread>

namespace ullage::ui {
namespace {

using State = AnswerRunner::State;

/// Answers only when let.
struct Gate {
    std::shared_ptr<std::atomic<bool>> open = std::make_shared<std::atomic<bool>>(true);
    std::shared_ptr<std::atomic<bool>> open_to_first_looks = std::make_shared<std::atomic<bool>>(true);

    AnswerRunner::Compute compute() const {
        return [full = open, first = open_to_first_looks](const Site& site, const Evidence&, const Settings& settings,
                                                          const Progress& progress) -> AnswerRunner::Result {
            const auto& gate = settings.paths > AnswerRunner::quick_paths ? full : first;
            while (!*gate) {
                if (progress.stop.stop_requested())
                    return tl::make_unexpected(ComputeError(Cancelled{}));
                progress.report(0.5);
                std::this_thread::sleep_for(std::chrono::milliseconds(2));
            }
            return plainAnswer(site, settings.paths);
        };
    }
};

class LiveWindow : public ::testing::Test {
protected:
    void SetUp() override {
        windowSettings().clear();
        qputenv("ULLAGE_SAMPLES", "/nonexistent");
        window.setAskToLeave([] { return MainWindow::Leave::discard; });
        window.show();
        window.activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&window));
        window.document().start(smallSite());
        ASSERT_TRUE(eventually([&] { return window.runner().state() == State::idle; }));
    }
    void edit(const std::string& usable) {
        window.document().editSite(QStringLiteral("usable"), [&](Site& site) {
            site.boxes[1].usable = Entered<Bytes>{*parse_bytes(usable), usable};
        });
    }
    std::string shownUsable() const { return window.shownAnswer()->site.boxes[1].usable->text; }
    ShownState pageState() { return window.findChild<FitPage*>()->state(); }
    QString stateText() { return window.findChild<QLabel*>(QStringLiteral("state"))->text(); }

    Gate gate;
    MainWindow window{Settings{}, gate.compute()};
};

TEST_F(LiveWindow, KeepsTheOldPictureAndSoonPaler) {
    *gate.open = *gate.open_to_first_looks = false;
    edit("20 TB");
    EXPECT_EQ(stateText(), QStringLiteral("Updating…"));
    EXPECT_EQ(pageState(), ShownState::ready) << "what is answered at once does not flicker";
    ASSERT_TRUE(eventually([&] { return pageState() == ShownState::updating; }));
    EXPECT_NE(shownUsable(), "20 TB");
    *gate.open_to_first_looks = true;
    ASSERT_TRUE(eventually([&] { return shownUsable() == "20 TB"; }));
    EXPECT_EQ(pageState(), ShownState::ready);
    *gate.open_to_first_looks = false;
    edit("21 TB");
    EXPECT_EQ(pageState(), ShownState::ready);
    ASSERT_TRUE(eventually([&] { return pageState() == ShownState::updating; }));
    *gate.open = *gate.open_to_first_looks = true;
    ASSERT_TRUE(eventually([&] { return window.runner().state() == State::idle; }));
    EXPECT_EQ(pageState(), ShownState::ready);
}

TEST_F(LiveWindow, APageFirstLookedAtBeforeThereIsAnAnswerSaysThatOneIsUnderWay) {
    *gate.open = *gate.open_to_first_looks = false;
    window.document().start(smallSite());
    window.findChild<QTabWidget*>(QStringLiteral("pages"))->setCurrentIndex(3);
    const auto* const page = window.findChild<SurePage*>();
    EXPECT_EQ(page->state(), ShownState::updating);
    EXPECT_EQ(page->findChild<QLabel*>(QStringLiteral("pageHeadline"))->text(), QStringLiteral("Working out the forecast…"));
    *gate.open = *gate.open_to_first_looks = true;
    ASSERT_TRUE(eventually([&] { return page->state() == ShownState::ready; }));
}

TEST_F(LiveWindow, ShowsAFirstLookWithProgressUntilTheFullAnswerComes) {
    auto* const pages = window.findChild<QTabWidget*>(QStringLiteral("pages"));
    pages->setCurrentIndex(4);
    pages->setCurrentIndex(0);
    *gate.open = false;
    edit("20 TB");
    EXPECT_EQ(stateText(), QStringLiteral("Updating…"));
    ASSERT_TRUE(eventually([&] { return shownUsable() == "20 TB"; }));
    EXPECT_EQ(window.shownAnswer()->outlook.paths, AnswerRunner::quick_paths);
    EXPECT_EQ(pageState(), ShownState::ready) << "it is of the present site";
    EXPECT_EQ(window.findChild<ReportPage*>()->state(), ShownState::updating) << "no report from a first look";
    EXPECT_EQ(stateText(), QStringLiteral("First look, from 200 futures; more are under way…"));
    auto* progress = window.findChild<QProgressBar*>(QStringLiteral("progress"));
    ASSERT_TRUE(eventually([&] { return progress->isVisible() && progress->value() > 50; }));
    *gate.open = true;
    ASSERT_TRUE(eventually([&] { return window.runner().state() == State::idle; }));
    EXPECT_EQ(window.shownAnswer()->outlook.paths, Settings{}.paths);
    EXPECT_EQ(pageState(), ShownState::ready);
    EXPECT_FALSE(progress->isVisible());
}

TEST_F(LiveWindow, TheNewestOfEditsDuringARunIsWhatStays) {
    *gate.open = false;
    edit("20 TB");
    ASSERT_TRUE(eventually([&] { return shownUsable() == "20 TB"; }));
    edit("21 TB");
    edit("22 TB");
    *gate.open = true;
    ASSERT_TRUE(eventually([&] { return window.runner().state() == State::idle; }));
    EXPECT_EQ(shownUsable(), "22 TB");
}

TEST_F(LiveWindow, EscapeGivesUpTheRunFromAnyPaneAndLeavesThePicturePaler) {
    const std::vector<QWidget*> panes{
        window.findChild<OutlinePane*>()->view(),
        window.findChild<QTabWidget*>(QStringLiteral("pages"))->tabBar()};
    for (std::size_t i = 0; i < panes.size(); ++i) {
        *gate.open = false;
        panes[i]->setFocus();
        edit(std::to_string(20 + i) + " TB");
        ASSERT_EQ(window.runner().state(), State::updating);
        QTest::keyClick(window.focusWidget(), Qt::Key_Escape);
        EXPECT_EQ(window.runner().state(), State::cancelled);
        EXPECT_EQ(pageState(), ShownState::cancelled);
        EXPECT_TRUE(out_of_date(pageState()));
        EXPECT_EQ(shownUsable(), smallSite().boxes[1].usable->text);
        EXPECT_TRUE(window.messageBar().isVisible()) << "a way to go on is offered";
    }
}

TEST(WindowThread, IsNeverHeldUpLongByEditsAndTheirForecasts) {
    windowSettings().clear();
    MainWindow window{Settings{}};
    window.setAskToLeave([] { return MainWindow::Leave::discard; });
    window.show();
    window.openSample(
        QStringLiteral(ULLAGE_SOURCE_DIR "/sample-sites/harbour-clinic.site.json"));
    const auto idle = [&] { return window.runner().state() == State::idle; };
    ASSERT_TRUE(QTest::qWaitFor(idle, 60'000));
    // A busy machine holds any thread up now and then: the best of three tries counts.
    double least_ms = 1e9;
    for (int attempt = 0; attempt < 3; ++attempt) {
        LoopWatch watch;
        for (int i = 0; i < 8; ++i) {
            const std::string text = std::to_string(3000 + 10 * attempt + i) + " GB";
            window.document().editSite(QStringLiteral("size"), [&](Site& site) {
                site.datasets.front().live = Entered<Bytes>{*parse_bytes(text), text};
            });
            QTest::qWait(i % 2 == 0 ? 40 : 250);
        }
        ASSERT_TRUE(QTest::qWaitFor(idle, 60'000));
        least_ms = std::min(least_ms, watch.takeLongestMs());
    }
    EXPECT_LT(least_ms, 100);
}

}  // namespace
}  // namespace ullage::ui
