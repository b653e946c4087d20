// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site_json.h"
#include "tests/ui/window/small.h"
#include "ui/buy/offer_card.h"
#include "ui/findings/findings_list.h"
#include "ui/forms/form.h"
#include "ui/forms/form_panel.h"
#include "ui/outline/outline_pane.h"
#include "ui/pages/arrive_page.h"
#include "ui/pages/buy_page.h"
#include "ui/pages/fit_page.h"
#include "ui/pages/report_page.h"
#include "ui/pages/sure_page.h"
#include "ui/report/write_report.h"
#include "ui/sure/chart_section.h"
#include "ui/sure/read_chart.h"
#include "ui/theme/drawn_widget.h"
#include "ui/theme/text_button.h"
#include "ui/window/about_dialog.h"
#include "ui/window/main_window.h"
#include "ui/window/message_bar.h"
#include "ui/window/question_pages.h"
#include "ui/window/window_settings.h"

#include <QAbstractButton>
#include <QAbstractItemView>
#include <QAccessible>
#include <QApplication>
#include <QComboBox>
#include <QDragEnterEvent>
#include <QFile>
#include <QLabel>
#include <QLineEdit>
#include <QListView>
#include <QMenuBar>
#include <QMimeData>
#include <QPushButton>
#include <QSplitter>
#include <QTabWidget>
#include <QTemporaryDir>
#include <QTreeView>

#include <gtest/gtest.h>

#include <set>

namespace ullage::ui {
namespace {

using State = AnswerRunner::State;

AnswerRunner::Result plain(const Site& site, const Evidence&, const Settings& settings,
                           const Progress&) {
    return plainAnswer(site, settings.paths);
}

class WindowTest : public ::testing::Test {
protected:
    void SetUp() override {
        windowSettings().clear();
        qputenv("ULLAGE_SAMPLES", "/nonexistent");
        window.show();
        window.activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&window));
    }
    void openSmall() {
        path = folder.filePath(QStringLiteral("small.site.json"));
        ASSERT_TRUE(write_site_file(path.toStdString(), smallSite()));
        window.openFile(path);
        ASSERT_TRUE(window.document().isOpen());
        ASSERT_TRUE(eventually([&] { return window.runner().state() == State::idle; }));
    }
    QAction* action(const char* name) {
        auto* found = window.findChild<QAction*>(QLatin1String(name));
        if (!found) throw std::runtime_error(std::string("no action ") + name);
        return found;
    }
    template <class Control>
    Control* control(const char* name) {
        auto* found = window.findChild<Control*>(QLatin1String(name));
        if (!found) throw std::runtime_error(std::string("no control ") + name);
        return found;
    }
    void type(const char* name, const QString& text) {
        auto* edit =
            control<FormPanel>("formPanel")->form()->findChild<QLineEdit*>(QLatin1String(name));
        ASSERT_NE(edit, nullptr);
        edit->setFocus();
        edit->selectAll();
        QTest::keyClicks(edit, text);
        QTest::keyClick(edit, Qt::Key_Return);
    }

    QTemporaryDir folder;
    QString path;
    MainWindow window{Settings{}, plain};
};

/// Every widget that takes part in the keyboard's round and is on screen has a name to be read out.
std::vector<std::string> namelessControls(QWidget& root) {
    std::vector<std::string> nameless;
    for (QWidget* widget : root.findChildren<QWidget*>()) {
        if (!widget->isVisible() || widget->focusPolicy() == Qt::NoFocus) continue;
        if (widget->focusProxy()) continue;
        const QAccessibleInterface* reader = QAccessible::queryAccessibleInterface(widget);
        const QString name = reader ? reader->text(QAccessible::Name) : QString();
        if (name.trimmed().isEmpty())
            nameless.push_back(std::string(widget->metaObject()->className()) + " " +
                               widget->objectName().toStdString());
    }
    return nameless;
}

TEST_F(WindowTest, OpensASiteAnswersItAndShowsTheFindings) {
    openSmall();
    ASSERT_TRUE(window.shownAnswer());
    EXPECT_EQ(window.shownAnswer()->outlook.paths, Settings{}.paths);
    EXPECT_EQ(control<QListView>("findings")->model()->rowCount(), 2);
    EXPECT_TRUE(window.windowTitle().contains(QStringLiteral("Quayside Veterinary")));
    EXPECT_FALSE(window.isWindowModified());
    EXPECT_EQ(control<QLabel>("state")->text(), QStringLiteral("Up to date, from 2,000 futures"));
}

TEST_F(WindowTest, AnEditIsAnsweredAndUndoBringsBackTheSavedState) {
    openSmall();
    window.showPointer(QStringLiteral("/boxes/1"));
    type("usable", QStringLiteral("20 TB"));
    EXPECT_TRUE(window.isWindowModified());
    EXPECT_EQ(window.runner().state(), State::updating);
    ASSERT_TRUE(eventually([&] { return window.runner().state() == State::idle; }));
    EXPECT_EQ(window.shownAnswer()->site.boxes[1].usable->text, "20 TB");
    EXPECT_EQ(action("edit.undo")->text(), QStringLiteral("&Undo copies: usable"));
    action("edit.undo")->trigger();
    EXPECT_FALSE(window.isWindowModified());
    ASSERT_TRUE(eventually([&] { return window.runner().state() == State::idle; }));
    EXPECT_EQ(window.shownAnswer()->site, smallSite());
}

TEST_F(WindowTest, SavingWritesTheFileWithTheTextStillBeingTyped) {
    openSmall();
    window.showPointer(QStringLiteral("/boxes/1/usable"));
    auto* edit = qobject_cast<QLineEdit*>(window.focusWidget());
    ASSERT_NE(edit, nullptr);
    edit->selectAll();
    QTest::keyClicks(edit, QStringLiteral("21 TB"));
    action("file.save")->trigger();
    EXPECT_FALSE(window.isWindowModified());
    const auto again = read_site_file(path.toStdString());
    ASSERT_TRUE(again);
    EXPECT_EQ(again->boxes[1].usable->text, "21 TB");
}

TEST_F(WindowTest, AFaultPausesTheForecastAndIsNamedWithAWayToIt) {
    openSmall();
    window.showPointer(QStringLiteral("/boxes/1"));
    type("ceiling", QStringLiteral("700 %"));
    EXPECT_EQ(window.runner().state(), State::idle);
    EXPECT_TRUE(window.messageBar().isVisible());
    window.showPointer(QString());
    control<QPushButton>("messageBar.action.0")->click();
    EXPECT_EQ(window.focusWidget()->objectName(), QStringLiteral("ceiling"));
    type("ceiling", QStringLiteral("70 %"));
    EXPECT_FALSE(window.messageBar().isVisible());
    EXPECT_TRUE(eventually([&] { return window.runner().state() == State::idle; }));
    EXPECT_EQ(window.shownAnswer()->site.boxes[1].ceiling, 0.7);
}

TEST_F(WindowTest, AFileThatCannotBeReadIsSaidInTheBar) {
    openSmall();
    window.openFile(folder.filePath(QStringLiteral("none.site.json")));
    EXPECT_TRUE(window.messageBar().isVisible());
    EXPECT_TRUE(window.messageBar().text().contains(QStringLiteral("none.site.json")));
    EXPECT_EQ(window.document().path(), path);
}

TEST_F(WindowTest, UnsavedWorkIsAskedAboutBeforeItGoes) {
    openSmall();
    window.showPointer(QStringLiteral("/boxes/1"));
    type("usable", QStringLiteral("20 TB"));
    int asked = 0;
    window.setAskToLeave([&] {
        ++asked;
        return MainWindow::Leave::stay;
    });
    window.close();
    EXPECT_TRUE(window.isVisible());
    window.openFile(path);
    EXPECT_EQ(asked, 2);
    EXPECT_TRUE(window.isWindowModified());
    window.setAskToLeave([] { return MainWindow::Leave::discard; });
    window.close();
    EXPECT_FALSE(window.isVisible());
}

TEST_F(WindowTest, ChoosingAFindingLeadsToItsItemAndPage) {
    openSmall();
    auto* findings = control<QListView>("findings");
    emit findings->activated(findings->model()->index(1, 0));
    EXPECT_EQ(control<OutlinePane>("outlinePane")->chosen(), (ItemRef{ItemKind::box, 1}));
    EXPECT_EQ(control<FormPanel>("formPanel")->item(), (ItemRef{ItemKind::box, 1}));
}

TEST_F(WindowTest, WhatToBuyIsTheThirdQuestionAndOpensTheOfferOfACard) {
    openSmall();
    auto* pages = control<QTabWidget>("pages");
    ASSERT_EQ(pages->count(), 5);
    EXPECT_EQ(pages->tabText(2), QStringLiteral("What to buy?"));
    action("view.page.2")->trigger();
    auto* page = pages->currentWidget()->findChild<BuyPage*>();
    ASSERT_NE(page, nullptr);
    EXPECT_EQ(page->state(), ShownState::ready);
    EXPECT_EQ(namelessControls(window), std::vector<std::string>{});

    auto shown = std::make_shared<Answer>(*window.shownAnswer());
    OfferOutlook offer;
    offer.name = shown->site.offers.at(0).name;
    offer.box = shown->site.offers.at(0).box;
    shown->outlook.offers = {offer};
    page->setAnswer(shown);
    ASSERT_EQ(page->cards().size(), 1u);
    page->cards()[0]->click();
    EXPECT_EQ(control<FormPanel>("formPanel")->item(), (ItemRef{ItemKind::offer, 0}));

    pages->setCurrentIndex(0);
    emit control<FindingsList>("findingsPane")->chosen(QStringLiteral("/offers/0"));
    EXPECT_TRUE(page->isVisible()) << "a finding about an offer leads here";
}

TEST_F(WindowTest, TheReportIsTheLastPageAndSavesWhatItShows) {
    openSmall();
    auto* pages = control<QTabWidget>("pages");
    EXPECT_EQ(pages->tabText(4), QStringLiteral("Report"));
    action("view.page.4")->trigger();
    auto* page = pages->currentWidget()->findChild<ReportPage*>();
    ASSERT_NE(page, nullptr);
    EXPECT_EQ(page->state(), ShownState::ready);
    ASSERT_NE(page->pages(), nullptr);
    EXPECT_EQ(namelessControls(window), std::vector<std::string>{});
    QTemporaryDir saved;
    const QString html = saved.filePath(QStringLiteral("r.html"));
    ASSERT_TRUE(page->save(html, ReportPage::As::html)) << page->said().toStdString();
    QFile file(html);
    ASSERT_TRUE(file.open(QIODevice::ReadOnly));
    Answer answer = *window.shownAnswer();
    answer.findings = findings(answer.site, answer.outlook);
    EXPECT_EQ(file.readAll().toStdString(), html_of(answer, report_of(answer), {}));
}

TEST_F(WindowTest, HowSureIsTheFourthQuestionAndFollowsTheChosenDataset) {
    openSmall();
    auto* pages = control<QTabWidget>("pages");
    ASSERT_EQ(pages->count(), 5);
    EXPECT_EQ(pages->tabText(3), QStringLiteral("How sure?"));
    action("view.page.3")->trigger();
    auto* page = pages->currentWidget()->findChild<SurePage*>();
    ASSERT_NE(page, nullptr);
    EXPECT_EQ(page->state(), ShownState::ready);
    EXPECT_EQ(namelessControls(window), std::vector<std::string>{});

    auto shown = std::make_shared<Answer>(*window.shownAnswer());
    for (const Dataset& dataset : shown->site.datasets) {
        DatasetOutlook outlook;
        outlook.name = dataset.name;
        outlook.assumptions = {"No growth is given; none is taken."};
        shown->outlook.datasets.push_back(outlook);
    }
    page->setAnswer(shown);
    ASSERT_FALSE(page->sentences().empty());
    page->sentences().back()->click();
    EXPECT_EQ(control<OutlinePane>("outlinePane")->chosen(), (ItemRef{ItemKind::dataset, 0}));
    EXPECT_EQ(control<FormPanel>("formPanel")->item(), (ItemRef{ItemKind::dataset, 0}));
    EXPECT_TRUE(page->isVisible()) << "the question stays";
}

TEST_F(WindowTest, APageIsMadeWhenItsQuestionIsFirstLookedAt) {
    openSmall();
    EXPECT_NE(window.findChild<FitPage*>(), nullptr);
    EXPECT_EQ(window.findChild<SurePage*>(), nullptr);
    EXPECT_EQ(window.findChild<BuyPage*>(), nullptr);
    control<OutlinePane>("outlinePane")->choose({ItemKind::box, 1});
    action("view.page.3")->trigger();
    auto* const sure = window.findChild<SurePage*>();
    ASSERT_NE(sure, nullptr);
    EXPECT_TRUE(sure->isVisible());
    EXPECT_EQ(sure->answer(), window.shownAnswer());
    EXPECT_EQ(sure->state(), ShownState::ready);
    EXPECT_EQ(sure->shownBox(), QStringLiteral("/boxes/1"));
    EXPECT_EQ(window.findChild<BuyPage*>(), nullptr);
}

TEST_F(WindowTest, ALatePageHasTheUnitsAndTheNewestChoice) {
    action("view.binary")->trigger();
    openSmall();
    auto shown = std::make_shared<Answer>(*window.shownAnswer());
    OfferOutlook offer;
    offer.name = shown->site.offers.at(0).name;
    offer.box = shown->site.offers.at(0).box;
    offer.usable_bytes = 50e12;
    offer.ceiling_bytes = 40e12;
    OfferOutlook other = offer;
    other.box = shown->site.boxes.at(0).name;
    ASSERT_NE(other.box, offer.box);
    shown->outlook.offers = {offer, other};
    auto* const pages = control<QuestionPages>("pages");
    pages->setAnswer(shown, {});
    pages->showItem(QStringLiteral("/offers/0"));
    pages->showItem(QStringLiteral("/boxes/0"));
    action("view.page.2")->trigger();
    const auto* const buy = window.findChild<BuyPage*>();
    EXPECT_EQ(buy->shownBox(), other.box) << "it was chosen after the offer of the other box";
    ASSERT_EQ(buy->cards().size(), 1u);
    EXPECT_TRUE(buy->cards()[0]->accessibleDescription().contains(QStringLiteral("36.4")))  // TiB
        << buy->cards()[0]->accessibleDescription().toStdString();
}

TEST_F(WindowTest, TheFirstLookAtAQuestionTakesTheKeyboardToItsPage) {
    openSmall();
    control<QWidget>("gauge")->setFocus();
    action("view.page.1")->trigger();
    EXPECT_TRUE(window.findChild<ArrivePage*>()->isAncestorOf(window.focusWidget()));
}

TEST_F(WindowTest, TabGoesFromTheQuestionsToTheirPageAndOnToTheFindings) {
    openSmall();
    for (int i = 0; i < 4; ++i) {
        action(("view.page." + std::to_string(i)).c_str())->trigger();
        auto* const pages = control<QTabWidget>("pages");
        pages->tabBar()->setFocus();
        QTest::keyClick(window.focusWidget(), Qt::Key_Tab);
        EXPECT_TRUE(pages->currentWidget()->isAncestorOf(window.focusWidget())) << i;
        for (int step = 0; step < 50 && pages->isAncestorOf(window.focusWidget()); ++step)
            QTest::keyClick(window.focusWidget(), Qt::Key_Tab);
        EXPECT_TRUE(control<FindingsList>("findingsPane")->isAncestorOf(window.focusWidget()))
            << i << " " << window.focusWidget()->objectName().toStdString();
    }
}

TEST_F(WindowTest, APageOutOfSightTakesUpTheNewestAnswerWhenItComesToSight) {
    openSmall();
    auto* const pages = control<QTabWidget>("pages");
    pages->setCurrentIndex(1);
    pages->setCurrentIndex(0);
    window.document().editSite(QStringLiteral("name"), [](Site& site) {
        site.sends[0].name = "renamed";
    });
    ASSERT_TRUE(eventually([&] { return window.runner().state() == State::idle; }));
    auto* const arrive = window.findChild<ArrivePage*>();
    ASSERT_NE(arrive, nullptr);
    EXPECT_EQ(arrive->answer()->outlook.sends[0].name, "renamed") << "it has it, though it has not shown it";
    const auto shows = [&] {
        for (const auto* box : arrive->findChildren<QComboBox*>())
            if (box->findText(QStringLiteral("renamed")) >= 0) return true;
        for (const auto* label : arrive->findChildren<QLabel*>())
            if (label->text().contains(QStringLiteral("renamed"))) return true;
        return false;
    };
    EXPECT_FALSE(shows());
    pages->setCurrentIndex(1);
    EXPECT_TRUE(shows());
}

TEST_F(WindowTest, TheStartPageMakesAValidSiteFromFiveFigures) {
    auto* live = control<QLineEdit>("start.live");
    live->setFocus();
    live->selectAll();
    QTest::keyClicks(live, QStringLiteral("6 TB"));
    control<QPushButton>("start.create")->click();
    ASSERT_TRUE(window.document().isOpen());
    EXPECT_EQ(window.document().site().datasets[0].live->text, "6 TB");
    EXPECT_EQ(window.document().problems(), Problems{});
    EXPECT_TRUE(window.isWindowModified());
    EXPECT_TRUE(eventually([&] { return window.shownAnswer() != nullptr; }));
    window.setAskToLeave([] { return MainWindow::Leave::discard; });
}

TEST_F(WindowTest, TheStartPageIsMadeWhenItComesToSight) {
    MainWindow other{Settings{}};
    Site site = smallSite();
    other.document().start(site);
    other.setAskToLeave([] { return MainWindow::Leave::discard; });
    other.show();
    EXPECT_FALSE(other.findChild<QPushButton*>(QStringLiteral("start.open")));
    other.document().close();
    auto* open = other.findChild<QPushButton*>(QStringLiteral("start.open"));
    ASSERT_TRUE(open);
    EXPECT_TRUE(open->isVisible());
}

TEST_F(WindowTest, TheStartPageStaysWhileAFigureCannotBeRead) {
    auto* live = control<QLineEdit>("start.live");
    live->setText(QStringLiteral("lots"));
    control<QPushButton>("start.create")->click();
    EXPECT_FALSE(window.document().isOpen());
    EXPECT_TRUE(control<QLabel>("start.live.problem")->isVisible());
}

TEST_F(WindowTest, AFileChangedBehindTheWindowIsReadAgainOrKept) {
    openSmall();
    Site other = smallSite();
    other.name = "written elsewhere";
    const auto said = [&] {
        return window.messageBar().text().contains(QStringLiteral("changed by another program"));
    };
    ASSERT_TRUE(write_site_file(path.toStdString(), other));
    ASSERT_TRUE(eventually(said));
    control<QPushButton>("messageBar.action.0")->click();
    EXPECT_EQ(window.document().site(), other);
    EXPECT_FALSE(window.document().isModified());

    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    ASSERT_TRUE(write_site_file(path.toStdString(), smallSite()));
    ASSERT_TRUE(eventually(said));
    control<QPushButton>("messageBar.action.1")->click();
    EXPECT_EQ(window.document().site(), other);
    EXPECT_TRUE(window.document().isModified());
    EXPECT_TRUE(window.save());
    const auto saved = read_site_file(path.toStdString());
    ASSERT_TRUE(saved);
    EXPECT_EQ(*saved, other);
}

TEST_F(WindowTest, AReadOnlyFileIsSaidWhenOpenedAndWhenSaved) {
    path = folder.filePath(QStringLiteral("small.site.json"));
    ASSERT_TRUE(write_site_file(path.toStdString(), smallSite()));
    ASSERT_TRUE(QFile::setPermissions(path, QFile::ReadOwner | QFile::ReadUser));
    window.openFile(path);
    EXPECT_TRUE(window.messageBar().text().contains(QStringLiteral("read-only")));
    window.document().editSite(QStringLiteral("name"), [](Site& site) { site.name = "other"; });
    EXPECT_FALSE(window.save());
    EXPECT_TRUE(window.messageBar().text().contains(QStringLiteral("nothing was saved")));
    EXPECT_EQ(*read_site_file(path.toStdString()), smallSite());
}

TEST_F(WindowTest, RecentFilesRememberWhatWasOpen) {
    openSmall();
    EXPECT_TRUE(eventually([&] { return RecentFiles().all() == QStringList{path}; }));
    action("file.new")->trigger();
    EXPECT_FALSE(window.document().isOpen());
    control<QPushButton>("start.recent.0")->click();
    EXPECT_TRUE(window.document().isOpen());
}

TEST_F(WindowTest, LayoutPageThemeAndUnitsAreRemembered) {
    openSmall();
    window.setGeometry(40, 30, 1180, 720);
    action("view.page.2")->trigger();
    action("view.dark")->trigger();
    action("view.binary")->trigger();
    control<QSplitter>("panes")->setSizes({300, 500, 480});
    control<QSplitter>("middle")->setSizes({500, 120});
    const QRect geometry = window.geometry();
    const QList<int> sizes = control<QSplitter>("panes")->sizes();
    const QList<int> heights = control<QSplitter>("middle")->sizes();
    window.close();
    MainWindow again{Settings{}, plain};
    again.document().start(smallSite());
    again.show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(&again));
    EXPECT_EQ(again.geometry(), geometry);
    EXPECT_EQ(again.findChild<QSplitter*>(QStringLiteral("panes"))->sizes(), sizes);
    EXPECT_EQ(again.findChild<QSplitter*>(QStringLiteral("middle"))->sizes(), heights);
    EXPECT_EQ(again.findChild<QTabWidget*>(QStringLiteral("pages"))->currentIndex(), 2);
    EXPECT_TRUE(again.findChild<QAction*>(QStringLiteral("view.dark"))->isChecked());
    EXPECT_TRUE(again.findChild<QAction*>(QStringLiteral("view.binary"))->isChecked());
    EXPECT_LT(QApplication::palette().color(QPalette::Window).lightness(), 128);
    again.setTheme(ThemeChoice::system);
}

TEST_F(WindowTest, KeysOfUndoReachTheWindowFromAFieldWithNothingUncommitted) {
    openSmall();
    window.showPointer(QStringLiteral("/boxes/1"));
    type("usable", QStringLiteral("20 TB"));
    QTest::keyClick(window.focusWidget(), Qt::Key_Z, Qt::ControlModifier);
    EXPECT_EQ(window.document().site(), smallSite());
}

TEST_F(WindowTest, EveryControlOnScreenHasANameToBeReadOut) {
    EXPECT_EQ(namelessControls(window), std::vector<std::string>{}) << "start page";
    openSmall();
    for (const char* pointer :
         {"", "/datasets/0", "/boxes/0", "/boxes/1", "/links/0", "/sends/0", "/offers/0"}) {
        window.showPointer(QLatin1String(pointer));
        EXPECT_EQ(namelessControls(window), std::vector<std::string>{}) << pointer;
    }
    AboutDialog about;
    about.show();
    EXPECT_EQ(namelessControls(about), std::vector<std::string>{}) << "about";
}

TEST_F(WindowTest, EveryControlOfTheFormsHasAnObjectNameOfItsOwn) {
    openSmall();
    for (const char* pointer :
         {"", "/datasets/0", "/boxes/1", "/links/0", "/sends/0", "/offers/0"}) {
        window.showPointer(QLatin1String(pointer));
        std::set<QString> names;
        const QWidget* form = control<FormPanel>("formPanel")->form();
        for (const QWidget* widget : form->findChildren<QWidget*>()) {
            if (!widget->isVisible() || widget->focusPolicy() == Qt::NoFocus) continue;
            ASSERT_FALSE(widget->objectName().isEmpty())
                << pointer << " " << widget->metaObject()->className();
            EXPECT_TRUE(names.insert(widget->objectName()).second)
                << pointer << " " << widget->objectName().toStdString();
        }
    }
}

TEST_F(WindowTest, MenusHaveNoMnemonicTwice) {
    for (const QMenu* menu : window.menuBar()->findChildren<QMenu*>()) {
        std::set<QChar> used;
        for (const QAction* entry : menu->actions()) {
            const qsizetype at = entry->text().indexOf(QLatin1Char('&'));
            if (at < 0 || !entry->isVisible()) continue;
            EXPECT_TRUE(used.insert(entry->text()[at + 1].toLower()).second)
                << menu->title().toStdString() << ": " << entry->text().toStdString();
        }
    }
}

TEST_F(WindowTest, TheKeyboardReachesEveryPane) {
    openSmall();
    std::set<QString> reached;
    for (int i = 0; i < 4; ++i) {
        action("view.nextPane")->trigger();
        const QWidget* now = window.focusWidget();
        for (const char* pane : {"outline", "pages.bar", "findings", "formPanel"}) {
            const QWidget* holder = control<QWidget>(pane);
            if (holder == now || holder->isAncestorOf(now)) reached.insert(QLatin1String(pane));
        }
    }
    EXPECT_EQ(reached.size(), 4u);
}

TEST(MainWindow, EscapeCancelsARunAndTheOldAnswerStays) {
    windowSettings().clear();
    std::atomic<bool> slow{false};
    MainWindow window(Settings{},
                      [&](const Site& site, const Evidence&, const Settings& settings,
                          const Progress& progress) -> AnswerRunner::Result {
                          while (slow && !progress.stop.stop_requested())
                              std::this_thread::sleep_for(std::chrono::milliseconds(1));
                          if (progress.stop.stop_requested())
                              return tl::make_unexpected(ComputeError(Cancelled{}));
                          return plainAnswer(site, settings.paths);
                      });
    window.show();
    window.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window));
    window.document().start(smallSite());
    ASSERT_TRUE(eventually([&] { return window.runner().state() == State::idle; }));
    const auto before = window.shownAnswer();
    ASSERT_TRUE(before);
    slow = true;
    window.document().editSite(QStringLiteral("x"), [](Site& s) { s.boxes[1].ceiling = 0.5; });
    ASSERT_TRUE(eventually([&] {
        return window.findChild<QWidget*>(QStringLiteral("progress"))->isVisible();
    })) << "progress is shown when it takes long";
    QTest::keyClick(&window, Qt::Key_Escape);
    EXPECT_EQ(window.runner().state(), State::cancelled);
    EXPECT_EQ(window.shownAnswer(), before);
    EXPECT_TRUE(window.messageBar().isVisible());
    slow = false;
    window.findChild<QPushButton*>(QStringLiteral("messageBar.action.0"))->click();
    ASSERT_TRUE(eventually([&] { return window.runner().state() == State::idle; }));
    EXPECT_EQ(window.shownAnswer()->site.boxes[1].ceiling, 0.5);
    EXPECT_FALSE(window.messageBar().isVisible());
    window.setAskToLeave([] { return MainWindow::Leave::discard; });
}

TEST(MainWindow, AnswersASmallSiteWithTheRealModel) {
    windowSettings().clear();
    Settings settings;
    settings.paths = 50;
    MainWindow window(settings);
    window.show();
    window.document().start(smallSite());
    ASSERT_TRUE(QTest::qWaitFor([&] { return window.runner().state() != State::updating; }, 60000));
    ASSERT_EQ(window.runner().state(), State::idle) << window.messageBar().text().toStdString();
    ASSERT_TRUE(window.shownAnswer());
    ASSERT_EQ(window.shownAnswer()->outlook.boxes.size(), 1u);
    EXPECT_GT(window.shownAnswer()->outlook.boxes[0].fill.back().used_bytes.p50, 4e12)
        << "at the end it holds more than the data there is today";
    EXPECT_FALSE(window.shownAnswer()->findings.empty());
}

TEST(MainWindow, AnOutageIsDrilledBehindTheWindowAndGivenUpByEscape) {
    windowSettings().clear();
    Settings settings;
    settings.paths = 50;
    std::atomic<bool> slow{false};
    std::atomic<int> stopped{0};
    MainWindow window(settings, answer,
                      [&](const Site& site, const Evidence& evidence, const Settings& with,
                          const OutageQuestion& question,
                          const Progress& progress) -> OutageRunner::Result {
                          while (slow && !progress.stop.stop_requested())
                              std::this_thread::sleep_for(std::chrono::milliseconds(1));
                          if (progress.stop.stop_requested()) ++stopped;
                          return outage_drill(site, evidence, with, question, progress);
                      });
    window.show();
    window.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&window));
    window.document().start(smallSite());
    ASSERT_TRUE(QTest::qWaitFor([&] { return window.runner().state() == State::idle; }, 60000));
    window.findChild<QTabWidget*>(QStringLiteral("pages"))->setCurrentIndex(1);
    auto* page = window.findChild<ArrivePage*>();
    auto* chart = page->ages()->chart();
    chart->setFocus();
    for (const auto key : {Qt::Key_Home, Qt::Key_Right, Qt::Key_Right, Qt::Key_Return})
        QTest::keyClick(chart, key);
    ASSERT_TRUE(page->outage());
    ASSERT_TRUE(eventually([&] { return !page->drillWords().isEmpty(); }));
    EXPECT_TRUE(page->through()->isVisible());
    EXPECT_EQ(namelessControls(window), std::vector<std::string>{});

    slow = true;
    QTest::keyClick(chart, Qt::Key_Right, Qt::ShiftModifier);
    QTest::qWait(2 * LatestTask::pause_ms);
    EXPECT_EQ(page->through()->chart()->state(), ShownState::updating);
    QTest::keyClick(chart, Qt::Key_Escape);
    EXPECT_FALSE(page->outage());
    EXPECT_TRUE(eventually([&] { return stopped == 1; })) << "the work ends";
    EXPECT_FALSE(page->through()->isVisible());
    slow = false;
    window.setAskToLeave([] { return MainWindow::Leave::discard; });
}

}  // namespace
}  // namespace ullage::ui
