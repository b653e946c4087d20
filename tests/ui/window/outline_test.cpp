// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/window/small.h"
#include "ui/document/item_edits.h"
#include "ui/document/site_document.h"
#include "ui/findings/findings_list.h"
#include "ui/outline/outline_model.h"
#include "ui/outline/outline_pane.h"

#include <QAbstractItemModelTester>
#include <QListView>
#include <QSignalSpy>
#include <QTreeView>

#include <gtest/gtest.h>

namespace ullage::ui {
namespace {

using Mode = QAbstractItemModelTester::FailureReportingMode;

std::shared_ptr<const Answer> answerWith(Level level, const std::string& about) {
    auto answer = std::make_shared<Answer>(plainAnswer(smallSite(), 100));
    answer->findings = {{level, about, "Because."}};
    return answer;
}

TEST(OutlineModel, KeepsTheRulesOfModelsThroughEdits) {
    SiteDocument document;
    OutlineModel model(document);
    const QAbstractItemModelTester tester(&model, Mode::Fatal);
    document.start(smallSite());
    for (const ItemKind kind : listed_kinds)
        document.editSite(QStringLiteral("add"), [&](Site& s) { addItem(s, kind); });
    document.editSite(QStringLiteral("remove"), [](Site& s) { removeItem(s, {ItemKind::box, 0}); });
    model.setAnswer(answerWith(Level::tight, "/boxes/0"));
    model.setProblems({{"/boxes/0/ceiling", "too high"}});
    while (document.undoStack()->canUndo()) document.undoStack()->undo();
    document.close();
    document.start(smallSite());
    EXPECT_EQ(model.rowCount(model.indexOfSection(ItemKind::box)), 2);
}

TEST(OutlineModel, ShowsEveryItemUnderItsSectionInOrder) {
    SiteDocument document;
    OutlineModel model(document);
    document.start(smallSite());
    for (const ItemKind kind : listed_kinds) {
        const QModelIndex section = model.indexOfSection(kind);
        ASSERT_EQ(model.rowCount(section), countOf(document.site(), kind));
        for (int i = 0; i < model.rowCount(section); ++i) {
            const QModelIndex at = model.index(i, 0, section);
            EXPECT_EQ(at.data().toString(), nameOf(document.site(), {kind, i}));
            EXPECT_EQ(at.data(OutlineModel::PointerRole).toString(), pointerOf({kind, i}));
            EXPECT_EQ(model.indexOf({kind, i}), at);
        }
    }
}

TEST(OutlineModel, SaysTheStatusInWordsForTheScreenReaderToo) {
    SiteDocument document;
    OutlineModel model(document);
    document.start(smallSite());
    const QModelIndex offer = model.indexOf({ItemKind::offer, 0});
    EXPECT_EQ(offer.data(Qt::AccessibleTextRole).toString(), QStringLiteral("six 16 TB drives"));
    model.setAnswer(answerWith(Level::tight, "/offers/0"));
    EXPECT_EQ(offer.data(OutlineModel::StatusTextRole).toString(), QStringLiteral("Tight"));
    EXPECT_EQ(offer.data(Qt::ToolTipRole).toString(), QStringLiteral("Because."));
    EXPECT_EQ(offer.data(Qt::AccessibleTextRole).toString(),
              QStringLiteral("six 16 TB drives, Tight"));
}

TEST(OutlineModel, AStatusStaysWithItsItemWhenItemsMove) {
    SiteDocument document;
    OutlineModel model(document);
    document.start(smallSite());
    model.setAnswer(answerWith(Level::overruns, "/offers/0"));
    document.editSite(QStringLiteral("first"), [](Site& s) {
        Offer other = s.offers[0];
        other.name = "another";
        s.offers.insert(s.offers.begin(), other);
    });
    EXPECT_FALSE(model.indexOf({ItemKind::offer, 0}).data(OutlineModel::StatusRole).isValid());
    EXPECT_EQ(model.indexOf({ItemKind::offer, 1}).data(OutlineModel::StatusRole).toInt(),
              static_cast<int>(Level::overruns));
}

TEST(OutlineModel, RenamingInPlaceIsOneUndoableEditEverywhere) {
    SiteDocument document;
    OutlineModel model(document);
    document.start(smallSite());
    const QModelIndex box = model.indexOf({ItemKind::box, 1});
    EXPECT_TRUE(model.setData(box, QStringLiteral("attic"), Qt::EditRole));
    EXPECT_EQ(document.site().sends[0].to, "attic");
    QSignalSpy refused(&model, &OutlineModel::renameRefused);
    EXPECT_FALSE(model.setData(box, QStringLiteral("here"), Qt::EditRole));
    EXPECT_EQ(refused.count(), 1);
    document.undoStack()->undo();
    EXPECT_EQ(document.site(), smallSite());
}

TEST(OutlinePane, RemovalNamesWhatDependsOnTheItemAndAsksFirst) {
    SiteDocument document;
    OutlineModel model(document);
    OutlinePane pane(document, model);
    document.start(smallSite());
    QString asked;
    pane.setConfirm([&](const QString&, const QString& consequences) {
        asked = consequences;
        return false;
    });
    pane.choose({ItemKind::link, 0});
    pane.removeChosen();
    EXPECT_TRUE(asked.contains(QStringLiteral("nightly")));
    EXPECT_EQ(document.site(), smallSite());

    pane.setConfirm([](const QString&, const QString&) { return true; });
    pane.removeChosen();
    EXPECT_TRUE(document.site().links.empty());
    EXPECT_TRUE(document.site().sends.empty());
    document.undoStack()->undo();
    EXPECT_EQ(document.site(), smallSite());
}

TEST(OutlinePane, RemovalOfWhatNothingDependsOnDoesNotAsk) {
    SiteDocument document;
    OutlineModel model(document);
    OutlinePane pane(document, model);
    document.start(smallSite());
    bool asked = false;
    pane.setConfirm([&](const QString&, const QString&) { return asked = true; });
    pane.choose({ItemKind::offer, 0});
    pane.removeChosen();
    EXPECT_FALSE(asked);
    EXPECT_TRUE(document.site().offers.empty());
    EXPECT_EQ(pane.chosen(), ItemRef{});
}

TEST(OutlinePane, AddingChoosesTheNewItem) {
    SiteDocument document;
    OutlineModel model(document);
    OutlinePane pane(document, model);
    document.start(smallSite());
    QSignalSpy wanted(&pane, &OutlinePane::formWanted);
    pane.addNew(ItemKind::box);
    EXPECT_EQ(pane.chosen(), (ItemRef{ItemKind::box, 2}));
    EXPECT_EQ(wanted.count(), 1);
    pane.duplicateChosen();
    EXPECT_EQ(pane.chosen(), (ItemRef{ItemKind::box, 3}));
}

TEST(FindingsModel, KeepsTheRulesOfModels) {
    FindingsModel model;
    const QAbstractItemModelTester tester(&model, Mode::Fatal);
    model.setFindings({{Level::fits, "/boxes/0", "It fits."}, {Level::note, "", "A note."}});
    model.setFindings({});
}

TEST(FindingsList, ActivatingOneNamesItsItem) {
    FindingsList list;
    list.resize(600, 200);
    list.setAnswer(answerWith(Level::overruns, "/sends/0"));
    list.show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(&list));
    QSignalSpy chosen(&list, &FindingsList::chosen);
    const QModelIndex first = list.view()->model()->index(0, 0);
    EXPECT_EQ(first.data(Qt::AccessibleTextRole).toString(), QStringLiteral("Overruns: Because."));
    list.view()->setFocus();
    list.view()->setCurrentIndex(first);
    QTest::keyClick(list.view(), Qt::Key_Return);
    ASSERT_EQ(chosen.count(), 1);
    EXPECT_EQ(chosen[0][0].toString(), QStringLiteral("/sends/0"));
    QTest::mouseClick(list.view()->viewport(), Qt::LeftButton, {},
                      list.view()->visualRect(first).center());
    EXPECT_EQ(chosen.count(), 2);
}

}  // namespace
}  // namespace ullage::ui
