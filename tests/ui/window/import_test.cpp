// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site_json.h"
#include "tests/ui/window/small.h"
#include "ui/import/import_dialog.h"
#include "ui/window/main_window.h"
#include "ui/window/message_bar.h"
#include "ui/window/window_settings.h"

#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QDragEnterEvent>
#include <QFile>
#include <QMimeData>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QTableWidget>
#include <QTemporaryDir>

#include <gtest/gtest.h>

namespace ullage::ui {
namespace {

AnswerRunner::Result plain(const Site& site, const Evidence&, const Settings& settings, const Progress&) {
    return plainAnswer(site, settings.paths);
}

/// Daily snapshots to 2026-10-30 of each dataset, in the usual columns.
std::string rows(const std::string& dataset, int count = 12, const char* separator = "\t") {
    std::string text;
    constexpr long last = 1793318400;  // 2026-10-30
    for (int i = 0; i < count; ++i) {
        const long taken = last - 86400L * (count - 1 - i);
        text += dataset + "@" + std::to_string(i);
        for (const long field : {taken, 1000000L, 5000000000L + 1000000L * i, 30000000L})
            text += separator + std::to_string(field);
        text += '\n';
    }
    return text;
}

const std::string header = "name\tcreation\tused\treferenced\twritten\n";

class Importing : public ::testing::Test {
protected:
    void SetUp() override {
        windowSettings().clear();
        qputenv("ULLAGE_SAMPLES", "/nonexistent");
        window.show();
    }
    void openSmall() {
        const QString path = folder.filePath(QStringLiteral("small.site.json"));
        ASSERT_TRUE(write_site_file(path.toStdString(), smallSite()));
        window.openFile(path);
        ASSERT_TRUE(window.document().isOpen());
    }
    QString put(const char* name, const std::string& text) {
        const QString path = folder.filePath(QLatin1String(name));
        QFile file(path);
        if (!file.open(QIODevice::WriteOnly)) throw std::runtime_error("no file");
        file.write(text.data(), static_cast<qint64>(text.size()));
        return path;
    }
    /// The dialog that is open, done reading.
    ImportDialog* dialog() {
        auto* const found = window.findChild<ImportDialog*>(QStringLiteral("import"));
        if (!found || !eventually([&] { return !found->isReading(); })) throw std::runtime_error("no dialog");
        return found;
    }
    template <class Control>
    Control* control(const char* name) {
        auto* const found = dialog()->findChild<Control*>(QLatin1String(name));
        if (!found) throw std::runtime_error(std::string("no control ") + name);
        return found;
    }
    void choose(int column, const char* role) {
        auto* const box = control<QComboBox>(("import.role." + std::to_string(column)).c_str());
        box->setCurrentIndex(box->findData(QLatin1String(role)));
    }
    void accept() {
        QPointer<ImportDialog> open = dialog();
        control<QPushButton>("import.accept")->click();
        ASSERT_TRUE(eventually([&] { return open.isNull(); }));
    }
    const Site& site() { return window.document().site(); }

    QTemporaryDir folder;
    MainWindow window{Settings{}, plain};
};

TEST_F(Importing, AListingDroppedOnTheWindowIsShownAndTakenInAsOneEdit) {
    openSmall();
    const QString listing = put("list.tsv", header + rows("archive") + rows("mail"));
    QMimeData data;
    data.setUrls({QUrl::fromLocalFile(listing)});
    QDragEnterEvent enter({5, 5}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(&window, &enter);
    EXPECT_TRUE(enter.isAccepted());
    QDropEvent drop({5, 5}, Qt::CopyAction, &data, Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(&window, &drop);
    EXPECT_TRUE(dialog()->said().contains(QStringLiteral("archive and mail"))) << dialog()->said().toStdString();
    auto* const preview = control<QTableWidget>("import.preview");
    EXPECT_EQ(preview->horizontalHeaderItem(3)->text(), QStringLiteral("referenced"));
    EXPECT_EQ(preview->item(1, 0)->text(), QStringLiteral("archive@0"));
    auto* const datasets = control<QTableWidget>("import.datasets");
    ASSERT_EQ(datasets->rowCount(), 2);
    EXPECT_EQ(datasets->item(0, 1)->text(), QStringLiteral("12"));
    EXPECT_EQ(datasets->item(1, 3)->text(), QStringLiteral("30 Oct 2026"));
    EXPECT_TRUE(datasets->item(1, 4)->text().startsWith(QStringLiteral("5.01")));

    const Site before = site();
    accept();
    ASSERT_EQ(site().datasets.size(), before.datasets.size() + 2);
    const Dataset& archive = site().datasets[before.datasets.size()];
    EXPECT_EQ(archive.name, "archive");
    EXPECT_EQ(archive.turnover->listing, "list.tsv");
    EXPECT_EQ(archive.turnover->listing_dataset, "archive");
    EXPECT_TRUE(archive.turnover->listing_columns.empty()) << "its first row says";
    EXPECT_EQ(window.document().problems(), Problems{});
    EXPECT_EQ(window.document().undoStack()->undoText(), QStringLiteral("import of list.tsv"));
    window.document().undoStack()->undo();
    EXPECT_EQ(site(), before);
}

TEST_F(Importing, OnlyWhatIsTickedIsTakenIn) {
    openSmall();
    window.importListing(put("list.tsv", header + rows("archive") + rows("mail")));
    auto* const datasets = control<QTableWidget>("import.datasets");
    datasets->item(0, 0)->setCheckState(Qt::Unchecked);
    EXPECT_FALSE(dialog()->said().contains(QStringLiteral("archive")));
    datasets->item(1, 0)->setCheckState(Qt::Unchecked);
    EXPECT_FALSE(control<QPushButton>("import.accept")->isEnabled());
    datasets->item(1, 0)->setCheckState(Qt::Checked);
    accept();
    EXPECT_EQ(site().datasets.back().name, "mail");
    EXPECT_EQ(site().datasets.size(), 2u);
}

TEST_F(Importing, ColumnsWithoutKnownNamesAreGivenTheirRolesWhichAreRemembered) {
    openSmall();
    const std::string foreign = "what\twhen\talone\tall\tnew\n";
    window.importListing(put("one.tsv", foreign + rows("archive")));
    EXPECT_TRUE(dialog()->said().startsWith(QStringLiteral("Say which column holds"))) << dialog()->said().toStdString();
    EXPECT_FALSE(control<QPushButton>("import.accept")->isEnabled());
    choose(0, "snapshot");
    choose(1, "taken");
    choose(2, "unique");
    choose(3, "live");
    choose(4, "live");  // taken from column 3
    EXPECT_EQ(control<QComboBox>("import.role.3")->currentData().toString(), QString());
    EXPECT_TRUE(dialog()->said().contains(QStringLiteral("bytes written")));
    choose(3, "live");
    choose(4, "written");
    accept();
    const std::vector<std::string> roles = {"snapshot", "taken", "unique", "live", "written"};
    EXPECT_EQ(site().datasets.back().turnover->listing_columns, roles);
    EXPECT_EQ(window.document().problems(), Problems{});
    EXPECT_EQ(window.document().evidence()->listings.at("one.tsv").front().snapshots.size(), 12u);

    window.importListing(put("two.tsv", foreign + rows("mail")));
    EXPECT_TRUE(dialog()->isReady()) << dialog()->said().toStdString();
    accept();
    EXPECT_EQ(site().datasets.back().turnover->listing_columns, roles);
    window.importListing(put("three.tsv", "other\twhen\talone\tall\tnew\n" + rows("scans")));
    EXPECT_FALSE(dialog()->isReady()) << "other columns";
}

TEST_F(Importing, LinesThatCannotBeReadAreShownWithTheirNumbersAndLeftOutOnlyIfAsked) {
    openSmall();
    window.importListing(put("list.tsv", header + rows("archive") + "archive@x\tlater\t0\t1\t1\narchive@y\t5\t-3\t1\t1\n"));
    EXPECT_FALSE(dialog()->isReady());
    const QString lines = control<QPlainTextEdit>("import.badLines")->toPlainText();
    EXPECT_TRUE(lines.contains(QStringLiteral("line 14: "))) << lines.toStdString();
    EXPECT_TRUE(lines.contains(QStringLiteral("line 15: "))) << lines.toStdString();
    control<QCheckBox>("import.leaveOut")->click();
    ASSERT_TRUE(dialog()->isReady()) << dialog()->said().toStdString();
    EXPECT_TRUE(dialog()->said().contains(QStringLiteral("2 lines"))) << dialog()->said().toStdString();
    accept();
    EXPECT_TRUE(site().datasets.back().turnover->listing_skip_bad_lines);
    EXPECT_EQ(window.document().problems(), Problems{});
}

TEST_F(Importing, ADatasetOfTheSameNameIsMeasuredAndWhatWasTypedGivesWay) {
    openSmall();
    const std::string name = site().datasets[0].name;
    window.importListing(put("list.tsv", header + rows(name)));
    EXPECT_TRUE(dialog()->said().contains(QStringLiteral("give way"))) << dialog()->said().toStdString();
    accept();
    ASSERT_EQ(site().datasets.size(), 1u);
    const Dataset& dataset = site().datasets[0];
    EXPECT_FALSE(dataset.live || dataset.logical || dataset.growth || dataset.turnover->per_day);
    EXPECT_EQ(dataset.turnover->listing, "list.tsv");
    EXPECT_FALSE(dataset.ladder.empty());
    EXPECT_EQ(site().sends[0].datasets, (std::vector<std::string>{name})) << "its sends carry it on";
}

TEST_F(Importing, OneDatasetIsNotMeasuredTwice) {
    openSmall();
    window.importListing(put("list.tsv", header + rows("a") + rows("b")));
    for (const char* name : {"import.onto.0", "import.onto.1"}) control<QComboBox>(name)->setCurrentIndex(1);
    EXPECT_FALSE(dialog()->isReady());
    EXPECT_TRUE(dialog()->said().contains(QStringLiteral("twice")));
    control<QComboBox>("import.onto.1")->setCurrentIndex(0);
    EXPECT_TRUE(dialog()->isReady());
}

TEST_F(Importing, ASiteThatBeginsBeforeTheNewestSnapshotBeginsThatDay) {
    openSmall();
    window.document().editSite(QStringLiteral("start"), [](Site& s) { s.as_of = std::chrono::year(2026) / 9 / 1; });
    window.importListing(put("list.tsv", header + rows("archive")));
    EXPECT_TRUE(dialog()->said().contains(QStringLiteral("30 Oct 2026"))) << dialog()->said().toStdString();
    accept();
    EXPECT_EQ(site().as_of, Day(std::chrono::year(2026) / 10 / 30));
}

TEST_F(Importing, StartsASiteAndNamesADatasetWithoutANameAfterItsFile) {
    std::string text = rows("", 12, ",");
    text.erase(std::remove(text.begin(), text.end(), '@'), text.end());
    window.importListing(put("mail box.csv", text));
    choose(0, "snapshot");
    choose(2, "unique");
    choose(3, "live");
    choose(4, "written");
    EXPECT_EQ(control<QComboBox>("import.role.1")->currentData().toString(), QStringLiteral("taken")) << "by its look";
    EXPECT_FALSE(window.document().isOpen());
    accept();
    ASSERT_TRUE(window.document().isOpen());
    ASSERT_EQ(site().datasets.size(), 1u);
    EXPECT_EQ(site().datasets[0].name, "mail box");
}

TEST_F(Importing, CancelLeavesEverythingAndFilesThatAreNoTextAreRefusedInWords) {
    openSmall();
    const Site before = site();
    window.importListing(put("list.tsv", header + rows("archive")));
    dialog()->reject();
    EXPECT_EQ(site(), before);
    EXPECT_TRUE(eventually([&] { return !window.findChild<ImportDialog*>(QStringLiteral("import")); }));
    window.importListing(put("empty.tsv", ""));
    EXPECT_TRUE(window.messageBar().text().contains(QStringLiteral("empty")));
    window.importListing(folder.filePath(QStringLiteral("none.tsv")));
    EXPECT_TRUE(window.messageBar().text().contains(QStringLiteral("no such file")));
    window.importListing(folder.path());
    EXPECT_TRUE(window.messageBar().text().contains(QStringLiteral("folder")));
    EXPECT_EQ(window.findChild<ImportDialog*>(QStringLiteral("import")), nullptr);
}

TEST_F(Importing, AListingOfVeryManyDatasetsGoesByTheirNames) {
    openSmall();
    std::string text = header;
    for (int i = 0; i < 100; ++i) text += rows("d" + std::to_string(i), 3);
    text += rows(site().datasets[0].name, 3);
    window.importListing(put("list.tsv", text));
    ASSERT_TRUE(dialog()->isReady()) << dialog()->said().toStdString();
    EXPECT_TRUE(dialog()->said().contains(QStringLiteral("95 more"))) << dialog()->said().toStdString();
    const ListingPlan plan = dialog()->plan();
    ASSERT_EQ(plan.wanted.size(), 101u);
    EXPECT_TRUE(plan.wanted[0].onto.isEmpty());
    EXPECT_EQ(plan.wanted[100].onto.toStdString(), site().datasets[0].name);
}

}  // namespace
}  // namespace ullage::ui
