// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site_json.h"
#include "tests/ui/window/small.h"
#include "ui/document/item_edits.h"
#include "ui/document/site_document.h"
#include "ui/forms/checks_field.h"
#include "ui/forms/form.h"
#include "ui/forms/form_panel.h"
#include "ui/forms/shared_fields.h"
#include "ui/forms/table_field.h"

#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QTableWidget>
#include <QToolButton>

#include <gtest/gtest.h>

namespace ullage::ui {
namespace {

/// The panel on an item of the small site, shown, so that focus works.
class FormTest : public ::testing::Test {
protected:
    void SetUp() override {
        document.start(smallSite());
        QObject::connect(&document, &SiteDocument::siteChanged, &panel, &FormPanel::refresh);
        QObject::connect(&document, &SiteDocument::problemsChanged, &panel,
                         [this] { panel.setProblems(document.problems()); });
        panel.resize(400, 900);
        panel.show();
        panel.activateWindow();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&panel));
    }

    template <class Control>
    Control* control(const char* name) {
        auto* found = panel.form()->findChild<Control*>(QLatin1String(name));
        if (!found) throw std::runtime_error(std::string("no control ") + name);
        return found;
    }
    QLineEdit* line(const char* name) { return control<QLineEdit>(name); }
    QString fault(const char* name) {
        auto* label = control<QLabel>((std::string(name) + ".problem").c_str());
        return label->isHidden() ? QString() : label->text();
    }
    void type(const char* name, const QString& text, Qt::Key end = Qt::Key_Return) {
        QLineEdit* edit = line(name);
        edit->setFocus();
        edit->selectAll();
        QTest::keyClicks(edit, text);
        QTest::keyClick(edit, end);
    }

    static void pick(QComboBox* combo, int index) {
        combo->setCurrentIndex(index);
        emit combo->activated(index);
    }

    SiteDocument document;
    FormPanel panel{document};
};

TEST_F(FormTest, AQuantityTypedWithItsUnitBecomesTheSitesAndKeepsItsText) {
    panel.showItem({ItemKind::box, 1});
    type("usable", QStringLiteral("14.5 TiB"));
    EXPECT_EQ(document.site().boxes[1].usable, (Entered<Bytes>{tib(14.5), "14.5 TiB"}));
    EXPECT_EQ(line("usable")->text(), QStringLiteral("14.5 TiB"));
    EXPECT_EQ(document.undoStack()->count(), 1);
    EXPECT_EQ(document.undoStack()->undoText(), QStringLiteral("copies: usable"));
}

TEST_F(FormTest, LeavingTheFieldCommitsToo) {
    panel.showItem({ItemKind::box, 1});
    type("usable", QStringLiteral("20 TB"), Qt::Key_Tab);
    EXPECT_EQ(document.site().boxes[1].usable->text, "20 TB");
    EXPECT_EQ(document.undoStack()->count(), 1);
}

TEST_F(FormTest, TextThatCannotBeReadIsSaidBesideTheFieldAndChangesNothing) {
    panel.showItem({ItemKind::box, 1});
    type("usable", QStringLiteral("many"));
    EXPECT_FALSE(fault("usable").isEmpty());
    EXPECT_EQ(document.site(), smallSite());
    EXPECT_EQ(line("usable")->text(), QStringLiteral("many")) << "what was typed stays";
    EXPECT_EQ(line("usable")->accessibleDescription(), fault("usable"));

    type("ceiling", QStringLiteral("75 %"));
    EXPECT_EQ(line("usable")->text(), QStringLiteral("many")) << "an edit elsewhere leaves it";
    EXPECT_EQ(document.site().boxes[1].ceiling, 0.75);

    type("usable", QStringLiteral("16 TB"));
    EXPECT_EQ(fault("usable"), QString());
    EXPECT_EQ(document.site().boxes[1].usable->text, "16 TB");
}

TEST_F(FormTest, EscapeGivesBackTheTextOfTheSite) {
    panel.showItem({ItemKind::box, 1});
    type("usable", QStringLiteral("many"));
    QTest::keyClick(line("usable"), Qt::Key_Escape);
    EXPECT_EQ(line("usable")->text(), QStringLiteral("12 TB"));
    EXPECT_EQ(fault("usable"), QString());
}

TEST_F(FormTest, UndoRestoresTheField) {
    panel.showItem({ItemKind::box, 1});
    type("usable", QStringLiteral("20 TB"));
    document.undoStack()->undo();
    EXPECT_EQ(line("usable")->text(), QStringLiteral("12 TB"));
    document.undoStack()->redo();
    EXPECT_EQ(line("usable")->text(), QStringLiteral("20 TB"));
}

TEST_F(FormTest, ARequiredValueCannotBeEmptiedButAnOptionalOneCan) {
    panel.showItem({ItemKind::link, 0});
    type("up", QString());
    line("up")->clear();
    QTest::keyClick(line("up"), Qt::Key_Return);
    EXPECT_FALSE(fault("up").isEmpty());
    EXPECT_EQ(document.site().links, smallSite().links);

    panel.showItem({ItemKind::box, 1});
    line("lead_time")->clear();
    QTest::keyClick(line("lead_time"), Qt::Key_Return);
    EXPECT_EQ(fault("lead_time"), QString());
    EXPECT_EQ(document.site().boxes[1].lead_time, std::nullopt);
}

TEST_F(FormTest, WhatValidationSaysStandsBesideItsField) {
    panel.showItem({ItemKind::box, 1});
    type("ceiling", QStringLiteral("700 %"));
    EXPECT_EQ(document.site().boxes[1].ceiling, 7);
    EXPECT_FALSE(fault("ceiling").isEmpty());
    EXPECT_EQ(fault("usable"), QString());
    type("ceiling", QStringLiteral("70 %"));
    EXPECT_EQ(fault("ceiling"), QString());
}

TEST_F(FormTest, AFieldOfAPointerGetsTheFocus) {
    panel.focusField(QStringLiteral("/boxes/1/ceiling"));
    EXPECT_EQ(panel.item(), (ItemRef{ItemKind::box, 1}));
    EXPECT_TRUE(line("ceiling")->hasFocus());
}

TEST_F(FormTest, RenamingUpdatesWhatRefersToTheItem) {
    panel.showItem({ItemKind::box, 1});
    type("name", QStringLiteral("attic"));
    EXPECT_EQ(document.site().sends[0].to, "attic");
    EXPECT_EQ(document.site().offers[0].box, "attic");
    type("name", QStringLiteral("here"));
    EXPECT_FALSE(fault("name").isEmpty());
    EXPECT_EQ(document.site().boxes[1].name, "attic");
}

TEST_F(FormTest, ASizeFromDrivesShowsTheFieldsOfDrivesAndIsValid) {
    panel.showItem({ItemKind::box, 1});
    EXPECT_TRUE(line("usable")->isVisible());
    EXPECT_FALSE(line("pool.width")->isVisible());
    auto* way = control<QComboBox>("pool");
    way->setFocus();
    QTest::keyClick(way, Qt::Key_Home);
    ASSERT_TRUE(document.site().boxes[1].pool);
    EXPECT_FALSE(document.site().boxes[1].usable);
    EXPECT_TRUE(line("pool.width")->isVisible());
    EXPECT_FALSE(line("usable")->isVisible());
    EXPECT_EQ(document.problems(), Problems{});
    type("pool.width", QStringLiteral("8"));
    EXPECT_EQ(document.site().boxes[1].pool->width, 8);
}

TEST_F(FormTest, ALadderIsEditedCellByCellRungByRung) {
    panel.showItem({ItemKind::dataset, 0});
    auto* table = control<QTableWidget>("ladder");
    ASSERT_EQ(table->rowCount(), 1);
    control<QToolButton>("ladder.add")->click();
    ASSERT_EQ(document.site().datasets[0].ladder.size(), 2u);
    EXPECT_EQ(document.site().datasets[0].ladder[1].every.text, "1 w");
    table->item(1, 1)->setText(QStringLiteral("26"));
    EXPECT_EQ(document.site().datasets[0].ladder[1].count, 26);
    table->item(1, 1)->setText(QStringLiteral("26 w"));
    EXPECT_EQ(document.site().datasets[0].ladder[1].count, std::nullopt);
    EXPECT_EQ(document.site().datasets[0].ladder[1].keep_for->text, "26 w");

    const Site before = document.site();
    table->item(1, 0)->setText(QStringLiteral("often"));
    EXPECT_EQ(document.site(), before);
    EXPECT_TRUE(fault("ladder").contains(QStringLiteral("Row 2"))) << fault("ladder").toStdString();
    EXPECT_EQ(table->item(1, 0)->text(), QStringLiteral("often"));
    table->item(1, 0)->setText(QStringLiteral("1 mo"));
    EXPECT_EQ(fault("ladder"), QString());

    table->setCurrentCell(0, 0);
    control<QToolButton>("ladder.remove")->click();
    ASSERT_EQ(document.site().datasets[0].ladder.size(), 1u);
    EXPECT_EQ(document.site().datasets[0].ladder[0].every.text, "1 mo");
    while (document.undoStack()->canUndo()) document.undoStack()->undo();
    EXPECT_EQ(document.site(), smallSite());
    EXPECT_EQ(table->rowCount(), 1);
}

TEST_F(FormTest, HoursAndWrappersOfALinkAreTables) {
    panel.showItem({ItemKind::link, 0});
    auto* hours = control<QTableWidget>("hours");
    control<QToolButton>("hours.add")->click();
    ASSERT_EQ(hours->rowCount(), 1);
    hours->item(0, 0)->setText(QStringLiteral("Sat-Sun"));
    hours->item(0, 3)->setText(QStringLiteral("80 %"));
    const OpenHours& open = document.site().links[0].hours.at(0);
    EXPECT_EQ(days_text(open.days), "Sat-Sun");
    EXPECT_EQ(open.share, 0.8);
    hours->item(0, 1)->setText(QStringLiteral("25:99"));
    EXPECT_FALSE(fault("hours").isEmpty());
    EXPECT_EQ(document.site().links[0].hours.at(0).from, 19 * 3600);

    control<QToolButton>("wrappers.add")->click();
    EXPECT_EQ(document.site().links[0].wrappers, std::vector{Wrapper::wireguard});
    control<QTableWidget>("wrappers")->item(0, 0)->setText(QStringLiteral("ssh"));
    EXPECT_EQ(document.site().links[0].wrappers, std::vector{Wrapper::ssh});
    control<QToolButton>("wrappers.add")->click();
    control<QTableWidget>("wrappers")->setCurrentCell(1, 0);
    control<QToolButton>("wrappers.up")->click();
    EXPECT_EQ(document.site().links[0].wrappers, (std::vector{Wrapper::wireguard, Wrapper::ssh}));
}

TEST_F(FormTest, ATunnelsCipherAndItsOuterPacketsAreChosenWhereThereIsOne) {
    panel.showItem({ItemKind::link, 0});
    auto* cipher = control<QComboBox>("esp");
    auto* outer = control<QComboBox>("outer_ip");
    EXPECT_FALSE(cipher->isVisible());
    EXPECT_FALSE(outer->isVisible());
    document.editSite(QStringLiteral("x"),
                      [](Site& s) { s.links[0].wrappers = {Wrapper::wireguard}; });
    EXPECT_FALSE(cipher->isVisible());
    EXPECT_TRUE(outer->isVisible());
    document.editSite(QStringLiteral("x"), [](Site& s) { s.links[0].wrappers = {Wrapper::esp}; });
    ASSERT_TRUE(cipher->isVisible());
    EXPECT_EQ(cipher->currentText(), QStringLiteral("AES-GCM, tag of 16 bytes"));
    pick(cipher, 3);
    EXPECT_EQ(document.site().links[0].esp, EspCipher::aes_cbc_sha256);
    EXPECT_EQ(outer->currentText(), QStringLiteral("as inside"));
    pick(outer, 2);
    EXPECT_EQ(document.site().links[0].outer_ip_version, 6);
    pick(outer, 0);
    EXPECT_EQ(document.site().links[0].outer_ip_version, std::nullopt);
    EXPECT_EQ(document.problems(), Problems{});
}

TEST_F(FormTest, SendsShareALineEvenlyOrInTurn) {
    panel.showItem({ItemKind::link, 0});
    pick(control<QComboBox>("sharing"), 1);
    EXPECT_EQ(document.site().links[0].sharing, Sharing::in_turn);
}

TEST_F(FormTest, ASendStartsByTheClockOrAfterEachSnapshot) {
    panel.showItem({ItemKind::send, 0});
    EXPECT_TRUE(line("start.every")->isVisible());
    pick(control<QComboBox>("start.after_each_snapshot"), 1);
    EXPECT_TRUE(document.site().sends[0].after_each_snapshot);
    EXPECT_FALSE(line("start.every")->isVisible());
    EXPECT_FALSE(line("start.at")->isVisible());
    const auto again = parse_site(write_site(document.site()));
    ASSERT_TRUE(again);
    EXPECT_TRUE(again->sends[0].after_each_snapshot);
    pick(control<QComboBox>("start.after_each_snapshot"), 0);
    EXPECT_TRUE(line("start.every")->isVisible());
    EXPECT_EQ(document.site().sends, smallSite().sends);
}

TEST_F(FormTest, ARelaysOwnLadderStartsAsThatOfTheSendThatFeedsIt) {
    const Ladder middle{{Entered<Period>(Period{2, Period::Unit::day}), 5, {}, {}}};
    document.editSite(QStringLiteral("x"), [&](Site& s) {
        s.sends[0].ladder = middle;
        Send relay = s.sends[0];
        relay.name = "onwards";
        relay.ladder = AsSource{};
        relay.from = s.sends[0].to;
        addItem(s, ItemKind::box);
        relay.to = s.boxes.back().name;
        s.sends.push_back(relay);
    });
    panel.showItem({ItemKind::send, 1});
    pick(control<QComboBox>("ladder"), 2);
    ASSERT_TRUE(std::holds_alternative<Ladder>(document.site().sends[1].ladder));
    EXPECT_EQ(std::get<Ladder>(document.site().sends[1].ladder), middle);
}

TEST_F(FormTest, EventsOfADatasetKeepKindSizeAndDate) {
    panel.showItem({ItemKind::dataset, 0});
    control<QToolButton>("events.add")->click();
    auto* events = control<QTableWidget>("events");
    events->item(0, 0)->setText(QStringLiteral("2027-03-01"));
    events->item(0, 1)->setText(QString::number(static_cast<int>(Event::Kind::rewrite)));
    events->item(0, 2)->setText(QStringLiteral("2.5 TB"));
    events->item(0, 3)->setText(QStringLiteral("re-encoded"));
    const Event& event = document.site().datasets[0].events.at(0);
    EXPECT_EQ(format_date(event.on), "2027-03-01");
    EXPECT_EQ(event.kind, Event::Kind::rewrite);
    EXPECT_EQ(event.amount.text, "2.5 TB");
    EXPECT_EQ(event.note, "re-encoded");
    EXPECT_EQ(document.problems(), Problems{});
}

TEST_F(FormTest, PlannedChangesOfABoxWithDrivesAreATable) {
    document.editSite(QStringLiteral("pool"), [](Site& s) {
        s.boxes[1].usable.reset();
        Pool pool;
        pool.width = 6;
        pool.redundancy = {Redundancy::Kind::parity, 2};
        pool.drive = Entered<Bytes>{decimal_tb(12), "12 TB"};
        s.boxes[1].pool = pool;
    });
    panel.showItem({ItemKind::box, 1});
    const auto steps = document.undoStack()->count();
    control<QToolButton>("changes.add")->click();
    EXPECT_EQ(document.undoStack()->count(), steps + 1);
    EXPECT_EQ(document.undoStack()->undoText(), QStringLiteral("copies: changes"));
    auto* table = control<QTableWidget>("changes");
    ASSERT_EQ(table->rowCount(), 1);
    EXPECT_EQ(table->item(0, 2)->text(), QStringLiteral("1 x 6 x 12 TB, parity-2"));
    EXPECT_EQ(document.problems(), Problems{}) << "a fresh row is valid";
    table->item(0, 0)->setText(QStringLiteral("2027-06-01"));
    table->item(0, 2)->setText(QStringLiteral("2 × 4 x 16 TB, mirror-4"));
    table->item(0, 4)->setText(QStringLiteral("second shelf"));
    const auto change = [&]() -> const BoxChange& { return document.site().boxes[1].changes[0]; };
    EXPECT_EQ(format_date(change().on), "2027-06-01");
    EXPECT_EQ(change().kind, BoxChange::Kind::add_groups);
    EXPECT_EQ(change().added.groups, 2);
    EXPECT_EQ(change().added.width, 4);
    EXPECT_EQ(change().added.drive.text, "16 TB");
    EXPECT_EQ(change().added.redundancy, (Redundancy{Redundancy::Kind::mirror, 4}));
    EXPECT_EQ(change().note, "second shelf");
    EXPECT_EQ(document.problems(), Problems{});

    const Site before = document.site();
    table->item(0, 2)->setText(QStringLiteral("many drives"));
    EXPECT_TRUE(fault("changes").contains(QStringLiteral("Row 1")));
    table->item(0, 3)->setText(QStringLiteral("2"));
    EXPECT_EQ(document.site(), before) << "added groups are of no set";

    const auto kind = [&](BoxChange::Kind to) {
        table->item(0, 1)->setText(QString::number(static_cast<int>(to)));
    };
    kind(BoxChange::Kind::swap_drives);
    EXPECT_EQ(table->item(0, 2)->text(), QStringLiteral("24 TB")) << "larger than those there";
    EXPECT_EQ(table->item(0, 3)->text(), QStringLiteral("1"));
    EXPECT_EQ(document.problems(), Problems{});
    table->item(0, 2)->setText(QStringLiteral("20 TB"));
    EXPECT_EQ(change().drive.text, "20 TB");
    kind(BoxChange::Kind::widen);
    EXPECT_EQ(change().width, 7);
    EXPECT_EQ(change().drive, Entered<Bytes>()) << "nothing is left of the other kind";
    EXPECT_EQ(document.problems(), Problems{});
    kind(BoxChange::Kind::resize);
    EXPECT_FALSE(document.problems().empty()) << "a pool is not resized";
    EXPECT_FALSE(fault("changes").isEmpty());
}

TEST_F(FormTest, ABoxWithAUsableSizePlansANewOne) {
    panel.showItem({ItemKind::box, 1});
    control<QToolButton>("changes.add")->click();
    const BoxChange& change = document.site().boxes[1].changes.at(0);
    EXPECT_EQ(change.kind, BoxChange::Kind::resize);
    EXPECT_EQ(change.usable.value, decimal_tb(24));
    EXPECT_EQ(document.problems(), Problems{});
}

TEST_F(FormTest, WhatGoesIntoABoxIsOptional) {
    panel.showItem({ItemKind::box, 1});
    type("enclosure.bays", QStringLiteral("8"));
    type("enclosure.power", QStringLiteral("250 W"));
    const auto enclosure = [&] { return document.site().boxes[1].enclosure; };
    ASSERT_TRUE(enclosure());
    EXPECT_EQ(enclosure()->bays, 8);
    EXPECT_EQ(enclosure()->power->text, "250 W");
    EXPECT_EQ(document.undoStack()->undoText(), QStringLiteral("copies: power supply"));
    type("enclosure.bays", QStringLiteral("eight"));
    EXPECT_FALSE(fault("enclosure.bays").isEmpty());
    for (const char* name : {"enclosure.bays", "enclosure.power"}) {
        line(name)->clear();
        QTest::keyClick(line(name), Qt::Key_Return);
    }
    EXPECT_FALSE(enclosure()) << "an enclosure that says nothing is none";
}

TEST_F(FormTest, APoolHasFurtherGroupsOfAnotherShape) {
    panel.showItem({ItemKind::box, 1});
    auto* way = control<QComboBox>("pool");
    way->setFocus();
    QTest::keyClick(way, Qt::Key_Home);
    auto* table = control<QTableWidget>("pool.further");
    EXPECT_EQ(table->rowCount(), 0);
    control<QToolButton>("pool.further.add")->click();
    ASSERT_EQ(document.site().boxes[1].pool->further.size(), 1u);
    EXPECT_EQ(document.site().boxes[1].pool->further[0].width, 6) << "as the first groups";
    table->item(0, 2)->setText(QStringLiteral("mirror-2"));
    table->item(0, 3)->setText(QStringLiteral("16 TB"));
    const DriveGroups& groups = document.site().boxes[1].pool->further[0];
    EXPECT_EQ(groups.redundancy, (Redundancy{Redundancy::Kind::mirror, 2}));
    EXPECT_EQ(groups.width, 2) << "a mirror's width is its copies";
    EXPECT_EQ(groups.drive.text, "16 TB");
    EXPECT_EQ(document.problems(), Problems{});
}

TEST_F(FormTest, AnOfferSaysHowItGoesInAndWhatItsDrivesDo) {
    panel.showItem({ItemKind::offer, 0});
    auto* as = control<QComboBox>("as");
    as->setFocus();
    QTest::keyClick(as, Qt::Key_End);
    EXPECT_EQ(document.site().offers[0].as, Offer::As::box);
    type("price", QStringLiteral("2350 EUR"));
    EXPECT_EQ(document.site().offers[0].price.text, "2350 EUR");
    EXPECT_EQ(document.problems(), Problems{});
    type("price", QStringLiteral("2350 GBP"));
    EXPECT_FALSE(fault("price").isEmpty()) << "the site counts in EUR";
    type("price", QStringLiteral("2350"));
    type("drive_rate", QStringLiteral("260 MB/s"));
    type("failure_rate", QStringLiteral("1.5 %"));
    EXPECT_EQ(document.site().offers[0].drive_rate->text, "260 MB/s");
    EXPECT_DOUBLE_EQ(*document.site().offers[0].failure_rate, 0.015);
    EXPECT_EQ(document.problems(), Problems{});
}

TEST_F(FormTest, TheSiteHasAPriceOfEnergy) {
    panel.showItem({ItemKind::site, 0});
    type("energy_price", QStringLiteral("0.32 EUR/kWh"));
    ASSERT_TRUE(document.site().energy_price);
    EXPECT_DOUBLE_EQ(document.site().energy_price->value.value, 0.32);
    EXPECT_EQ(document.problems(), Problems{});
    EXPECT_TRUE(document.undoStack()->undoText().endsWith(QStringLiteral(": energy price")));
}

TEST(GroupsText, ReadsWhatItWrites) {
    DriveGroups groups;
    groups.groups = 3;
    groups.width = 2;
    groups.redundancy = {Redundancy::Kind::mirror, 2};
    groups.drive = Entered<Bytes>{decimal_tb(18), "18 TB"};
    DriveGroups read;
    EXPECT_EQ(readGroups(groupsText(groups), read), QString());
    EXPECT_EQ(read, groups);
    EXPECT_EQ(readGroups(QStringLiteral("4 x 8 TB"), read), QString());
    EXPECT_EQ(read.groups, 1);
    EXPECT_EQ(read.redundancy, Redundancy{});
    for (const char* wrong : {"", "8 TB", "a x 8 TB", "1 x 2 x 3 x 8 TB", "2 x 6 x many",
                              "6 x 8 TB, twice", "b x 6 x 8 TB"}) {
        const DriveGroups before = read;
        EXPECT_FALSE(readGroups(QLatin1String(wrong), read).isEmpty()) << wrong;
        EXPECT_EQ(read, before) << wrong;
    }
}

TEST_F(FormTest, ASendsLadderOfItsOwnStartsAsTheSources) {
    panel.showItem({ItemKind::send, 0});
    auto* kind = panel.form()->findChild<QComboBox*>(QStringLiteral("ladder"));
    ASSERT_NE(kind, nullptr);
    kind->setFocus();
    QTest::keyClick(kind, Qt::Key_End);
    ASSERT_TRUE(std::holds_alternative<Ladder>(document.site().sends[0].ladder));
    EXPECT_EQ(std::get<Ladder>(document.site().sends[0].ladder), smallSite().datasets[0].ladder);
    EXPECT_EQ(document.problems(), Problems{});
}

TEST_F(FormTest, ASendsDatasetsAreChecked) {
    document.editSite(QStringLiteral("add"), [](Site& s) { addItem(s, ItemKind::dataset); });
    panel.showItem({ItemKind::send, 0});
    auto* check = control<QCheckBox>("datasets.dataset");
    EXPECT_FALSE(check->isChecked());
    check->click();
    EXPECT_EQ(document.site().sends[0].datasets, (std::vector<std::string>{"data", "dataset"}));
}

TEST_F(FormTest, SizeAsStoredAndUncompressedAreEitherOr) {
    panel.showItem({ItemKind::dataset, 0});
    type("logical", QStringLiteral("5 TB"));
    EXPECT_EQ(document.site().datasets[0].live, std::nullopt);
    EXPECT_EQ(document.site().datasets[0].logical->text, "5 TB");
    EXPECT_EQ(line("live")->text(), QString());
    EXPECT_EQ(document.problems(), Problems{});
}

TEST_F(FormTest, TypedButUncommittedTextIsNotLostWhenAnotherItemIsShown) {
    panel.showItem({ItemKind::box, 1});
    line("usable")->setText(QStringLiteral("30 TB"));
    panel.showItem({ItemKind::link, 0});
    EXPECT_EQ(document.site().boxes[1].usable->text, "30 TB");
}

TEST_F(FormTest, EveryFieldWritesWhatItShowsAndSoChangesNothing) {
    for (const ItemKind kind : {ItemKind::site, ItemKind::dataset, ItemKind::box, ItemKind::link,
                                ItemKind::send, ItemKind::offer}) {
        panel.showItem({kind, 0});
        for (QLineEdit* edit : panel.form()->findChildren<QLineEdit*>()) {
            const QString shown = edit->text();
            if (shown.isEmpty() || !edit->isVisible()) continue;
            edit->setText(shown + QLatin1Char(' '));
            emit edit->editingFinished();
            EXPECT_EQ(document.problems(), Problems{}) << edit->objectName().toStdString();
            while (document.undoStack()->canUndo()) document.undoStack()->undo();
            EXPECT_EQ(edit->text(), shown) << edit->objectName().toStdString();
        }
    }
    EXPECT_EQ(document.site(), smallSite());
}

}  // namespace
}  // namespace ullage::ui
