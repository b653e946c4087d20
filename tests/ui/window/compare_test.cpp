// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/quantity_text.h"
#include "tests/ui/window/small.h"
#include "ui/charts/number_table.h"
#include "ui/compare/comparison_bar.h"
#include "ui/forms/form_panel.h"
#include "ui/gauge/gauge_card.h"
#include "ui/pages/fit_page.h"
#include "ui/window/main_window.h"
#include "ui/window/window_settings.h"

#include <QAction>
#include <QDialog>
#include <QPushButton>

#include <gtest/gtest.h>

namespace ullage::ui {
namespace {

using State = AnswerRunner::State;

class CompareWindow : public ::testing::Test {
protected:
    void SetUp() override {
        windowSettings().clear();
        qputenv("ULLAGE_SAMPLES", "/nonexistent");
        window.setAskToLeave([] { return MainWindow::Leave::discard; });
        window.show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(&window));
        window.document().start(smallSite());
        settleAnswer();
    }
    void settleAnswer() {
        ASSERT_TRUE(eventually([&] { return window.runner().state() == State::idle; }));
    }
    void edit(const std::string& usable) {
        window.document().editSite(QStringLiteral("usable"), [&](Site& site) {
            site.boxes[1].usable = Entered<Bytes>{*parse_bytes(usable), usable};
        });
    }
    void keep() { window.findChild<QAction*>(QStringLiteral("edit.keep"))->trigger(); }
    QPushButton* button(const char* name) {
        return window.findChild<QPushButton*>(QLatin1String(name));
    }
    std::vector<GaugeCard*> cards() { return window.findChild<FitPage*>()->cards(); }

    MainWindow window{Settings{}, [](const Site& site, const Evidence&, const Settings& settings,
                                     const Progress&) -> AnswerRunner::Result {
                          return plainAnswer(site, settings.paths);
                      }};
};

TEST_F(CompareWindow, KeepsTheSiteAndItsFullAnswerAndComparesLaterOnesWithThem) {
    auto* bar = window.findChild<ComparisonBar*>();
    EXPECT_FALSE(bar->isVisible());
    keep();
    EXPECT_TRUE(bar->isVisible());
    EXPECT_FALSE(cards().front()->kept().isEmpty());
    edit("20 TB");
    EXPECT_FALSE(window.findChild<QAction*>(QStringLiteral("edit.keep"))->isEnabled())
        << "nothing half answered is kept";
    settleAnswer();
    ASSERT_EQ(window.kept().all().size(), 1u);
    EXPECT_EQ(*window.kept().all()[0].site, smallSite());
    EXPECT_EQ(window.kept().all()[0].answer->site, smallSite());
    EXPECT_EQ(window.kept().all()[0].answer->outlook.paths, Settings{}.paths);
    keep();
    EXPECT_EQ(window.kept().names(),
              (QStringList{QStringLiteral("Kept 1"), QStringLiteral("Kept 2")}));
}

TEST_F(CompareWindow, GoingBackIsAnEditThatCanBeUndone) {
    keep();
    edit("20 TB");
    settleAnswer();
    const Site edited = window.document().site();
    button("compare.revert")->click();
    EXPECT_EQ(window.document().site(), smallSite());
    EXPECT_EQ(window.findChild<QAction*>(QStringLiteral("edit.undo"))->text(),
              QStringLiteral("&Undo going back to “Kept 1”"));
    window.document().undoStack()->undo();
    EXPECT_EQ(window.document().site(), edited);
}

TEST_F(CompareWindow, TheTableOfDifferencesFollowsTheAnswer) {
    keep();
    button("compare.differences")->click();
    auto* dialog = window.findChild<QDialog*>(QStringLiteral("differencesDialog"));
    ASSERT_NE(dialog, nullptr);
    EXPECT_TRUE(dialog->isVisible());
    const NumberTable& table = window.findChild<ComparisonBar*>()->table();
    const int rows = table.rowCount();
    EXPECT_GT(rows, 0);
    window.document().editSite(QStringLiteral("name"),
                               [](Site& site) { site.sends[0].name = "by night"; });
    settleAnswer();
    EXPECT_EQ(table.rowCount(), rows + 2) << "one send is new, one is gone";
    button("compare.drop")->click();
    EXPECT_TRUE(eventually([&] { return !dialog || !dialog->isVisible(); }));
    EXPECT_TRUE(cards().front()->kept().isEmpty());
}

TEST_F(CompareWindow, ADoubleClickedDateBecomesAnUndoablePlannedEventWithItsFormOpen) {
    auto* fit = window.findChild<FitPage*>();
    const Day day = add_days(smallSite().as_of, 400);
    emit fit->eventWanted(QStringLiteral("/boxes/1"), day);
    ASSERT_EQ(window.document().site().datasets[0].events.size(), 1u);
    EXPECT_EQ(window.document().site().datasets[0].events[0].on, day);
    EXPECT_EQ(window.document().problems(), Problems{});
    EXPECT_EQ(window.findChild<FormPanel*>()->item(), (ItemRef{ItemKind::dataset, 0}));
    ASSERT_NE(window.focusWidget(), nullptr);
    EXPECT_EQ(window.focusWidget()->objectName(), QStringLiteral("events"));
    window.document().undoStack()->undo();
    EXPECT_EQ(window.document().site(), smallSite());
}

TEST_F(CompareWindow, OfSeveralDatasetsTheOneToChangeIsAskedFor) {
    window.document().editSite(QStringLiteral("add"), [](Site& site) {
        Dataset other = site.datasets[0];
        other.name = "mail";
        site.datasets.push_back(other);
        Dataset elsewhere = other;
        elsewhere.name = "elsewhere";
        elsewhere.home = site.boxes[0].name;
        site.datasets.push_back(elsewhere);
        site.sends[0].datasets.push_back("mail");
    });
    QStringList offered;
    window.setAskWhich([&](const QStringList& names) {
        offered = names;
        return 1;
    });
    emit window.findChild<FitPage*>()->eventWanted(QStringLiteral("/boxes/1"),
                                                   add_days(smallSite().as_of, 10));
    EXPECT_EQ(offered.size(), 2) << "what is not sent to the box is not offered";
    EXPECT_EQ(window.document().site().datasets[1].events.size(), 1u);
    window.setAskWhich([](const QStringList&) { return -1; });
    const Site before = window.document().site();
    emit window.findChild<FitPage*>()->eventWanted(QStringLiteral("/boxes/1"),
                                                   add_days(smallSite().as_of, 10));
    EXPECT_EQ(window.document().site(), before);
}

TEST_F(CompareWindow, AnotherSiteStartsWithoutAnythingKept) {
    keep();
    window.document().start(smallSite());
    EXPECT_TRUE(window.kept().all().empty());
    EXPECT_FALSE(window.findChild<ComparisonBar*>()->isVisible());
}

}  // namespace
}  // namespace ullage::ui
