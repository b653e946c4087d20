// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site_json.h"
#include "tests/ui/window/small.h"
#include "ui/document/item_edits.h"
#include "ui/document/open_file.h"
#include "ui/document/recovery.h"
#include "ui/document/site_document.h"

#include <QDir>
#include <QFile>
#include <QSignalSpy>
#include <QTemporaryDir>

#include <gtest/gtest.h>

#include <random>

namespace ullage::ui {
namespace {

void write(const QString& path, const QByteArray& bytes) {
    QFile file(path);
    ASSERT_TRUE(file.open(QIODevice::WriteOnly));
    ASSERT_EQ(file.write(bytes), bytes.size());
}

QByteArray read(const QString& path) {
    QFile file(path);
    return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray();
}

TEST(SiteDocument, UndoAndRedoGiveBackTheSameBytes) {
    SiteDocument document;
    document.start(smallSite());
    std::vector<std::string> states{write_site(document.site())};
    document.editSite(QStringLiteral("name"), [](Site& s) { s.name = "other"; });
    states.push_back(write_site(document.site()));
    document.editSite(QStringLiteral("new box"), [](Site& s) { addItem(s, ItemKind::box); });
    states.push_back(write_site(document.site()));
    document.editSite(QStringLiteral("no dataset"), [](Site& s) {
        removeItem(s, {ItemKind::dataset, 0});
    });
    states.push_back(write_site(document.site()));
    for (std::size_t i = states.size() - 1; i-- > 0;) {
        document.undoStack()->undo();
        EXPECT_EQ(write_site(document.site()), states[i]);
    }
    for (std::size_t i = 1; i < states.size(); ++i) {
        document.undoStack()->redo();
        EXPECT_EQ(write_site(document.site()), states[i]);
    }
}

/// One edit drawn at random, of all that the window can make of items and their parts.
void editAtRandom(Site& site, std::mt19937& draw) {
    const auto below = [&](int n) { return static_cast<int>(draw() % static_cast<unsigned>(n)); };
    const ItemKind kind = listed_kinds[static_cast<std::size_t>(below(listed_kinds.size()))];
    const int count = countOf(site, kind);
    const ItemRef item{kind, count > 0 ? below(count) : 0};
    const QString name = QStringLiteral("name %1").arg(below(1000));
    switch (below(7)) {
        case 0:
            if (missingFor(site, kind).isEmpty()) addItem(site, kind);
            break;
        case 1:
            duplicateItem(site, item);
            break;
        case 2:
            if (exists(site, item)) renameItem(site, item, name);
            break;
        case 3:
            moveItem(site, item, below(2) == 0 ? -1 : 1);
            break;
        case 4:
            if (count > 2) removeItem(site, item);
            break;
        case 5:
            if (site.links.empty()) break;
            site.links[0].hours.push_back({});
            site.links[0].hours.back().from = below(48) * 1800;
            break;
        default:
            for (Dataset& dataset : site.datasets)
                dataset.live =
                    Entered<Bytes>{Bytes{below(100) * 1e12}, std::to_string(below(100)) + " TB"};
    }
}

TEST(SiteDocument, FiveHundredRandomEditsAreUndoneAndRedoneToTheByte) {
    SiteDocument document;
    document.start(smallSite());
    std::mt19937 draw(20261126);
    std::vector<std::string> states{write_site(document.site())};
    while (states.size() <= 500) {
        document.editSite(QStringLiteral("edit"), [&](Site& site) { editAtRandom(site, draw); });
        // An edit that drew nothing to change is no step.
        if (static_cast<std::size_t>(document.undoStack()->count()) == states.size())
            states.push_back(write_site(document.site()));
    }
    for (std::size_t i = states.size() - 1; i-- > 0;) {
        document.undoStack()->undo();
        ASSERT_EQ(write_site(document.site()), states[i]) << i;
    }
    EXPECT_FALSE(document.undoStack()->canUndo());
    EXPECT_FALSE(document.isModified());
    for (std::size_t i = 1; i < states.size(); ++i) {
        document.undoStack()->redo();
        ASSERT_EQ(write_site(document.site()), states[i]) << i;
    }
    EXPECT_FALSE(document.undoStack()->canRedo());
}

TEST(SiteDocument, AnEditThatChangesNothingIsNoStep) {
    SiteDocument document;
    document.start(smallSite());
    QSignalSpy changed(&document, &SiteDocument::siteChanged);
    document.editSite(QStringLiteral("nothing"), [](Site&) {});
    EXPECT_EQ(document.undoStack()->count(), 0);
    EXPECT_EQ(changed.count(), 0);
    EXPECT_FALSE(document.isModified());
}

TEST(SiteDocument, ARefusedEditChangesNothing) {
    SiteDocument document;
    document.start(smallSite());
    const std::string before = write_site(document.site());
    const QString why = document.tryEdit(QStringLiteral("name"), [](Site& s) {
        s.name = "half done";
        return QStringLiteral("no");
    });
    EXPECT_EQ(why, QStringLiteral("no"));
    EXPECT_EQ(write_site(document.site()), before);
    EXPECT_EQ(document.undoStack()->count(), 0);
}

TEST(SiteDocument, EditsOfOneFieldWithinASecondAreOneStep) {
    SiteDocument document;
    document.start(smallSite());
    const QString field = QStringLiteral("/boxes/1/ceiling");
    for (const double ceiling : {0.7, 0.71, 0.72})
        document.editSite(
            QStringLiteral("ceiling"), [&](Site& s) { s.boxes[1].ceiling = ceiling; }, field);
    EXPECT_EQ(document.undoStack()->count(), 1);
    document.editSite(
        QStringLiteral("name"), [](Site& s) { s.name = "x"; }, QStringLiteral("/name"));
    EXPECT_EQ(document.undoStack()->count(), 2);
    document.undoStack()->undo();
    document.undoStack()->undo();
    EXPECT_EQ(document.site(), smallSite());
}

TEST(SiteDocument, UndoTextSaysWhatChanged) {
    SiteDocument document;
    document.start(smallSite());
    document.editSite(QStringLiteral("copies: ceiling"), [](Site& s) { s.boxes[1].ceiling = 0.7; });
    EXPECT_EQ(document.undoStack()->undoText(), QStringLiteral("copies: ceiling"));
}

TEST(SiteDocument, SavedAndReopenedIsTheSameSiteAndUnmodified) {
    QTemporaryDir folder;
    const QString path = folder.filePath(QStringLiteral("a.site.json"));
    SiteDocument document;
    document.start(smallSite(), true);
    EXPECT_TRUE(document.isModified());
    ASSERT_TRUE(document.saveAs(path));
    EXPECT_FALSE(document.isModified());
    document.editSite(QStringLiteral("name"), [](Site& s) { s.name = "other"; });
    EXPECT_TRUE(document.isModified());
    document.undoStack()->undo();
    EXPECT_FALSE(document.isModified());

    SiteDocument again;
    EXPECT_EQ(again.open(path), std::nullopt);
    EXPECT_EQ(again.site(), document.site());
    EXPECT_EQ(again.path(), path);
    EXPECT_FALSE(again.isModified());
}

TEST(SiteDocument, OpeningAFaultyFileSaysWhereAndKeepsTheOpenSite) {
    QTemporaryDir folder;
    const QString path = folder.filePath(QStringLiteral("bad.site.json"));
    write(path, R"({"format": "ullage-site", "version": 1, "as_of": "2026-11-01",
                    "boxes": [{"name": "attic", "usable": "12 parsecs"}]})");
    SiteDocument document;
    document.start(smallSite());
    const auto bad = document.open(path);
    ASSERT_TRUE(bad);
    ASSERT_FALSE(bad->problems.empty());
    EXPECT_EQ(bad->problems[0].where, "/boxes/0/usable");
    EXPECT_FALSE(bad->unreadable);
    EXPECT_EQ(document.site(), smallSite());

    const auto missing = document.open(folder.filePath(QStringLiteral("none.site.json")));
    ASSERT_TRUE(missing);
    EXPECT_TRUE(missing->unreadable);
}

TEST(SiteDocument, AFaultySiteIsNotWrittenOverAGoodFile) {
    QTemporaryDir folder;
    const QString path = folder.filePath(QStringLiteral("a.site.json"));
    SiteDocument document;
    document.start(smallSite());
    ASSERT_TRUE(document.saveAs(path));
    const QByteArray before = read(path);
    document.editSite(QStringLiteral("ceiling"), [](Site& s) { s.boxes[1].ceiling = 7; });
    ASSERT_FALSE(document.problems().empty());
    EXPECT_EQ(document.problems()[0].where, "/boxes/1/ceiling");
    const auto saved = document.save();
    ASSERT_FALSE(saved);
    EXPECT_TRUE(saved.error().contains(QStringLiteral("/boxes/1/ceiling")));
    EXPECT_EQ(read(path), before);
    EXPECT_TRUE(document.isModified());
}

TEST(SiteDocument, AFileChangedByAnotherProgramIsNoticed) {
    QTemporaryDir folder;
    const QString path = folder.filePath(QStringLiteral("a.site.json"));
    SiteDocument document;
    document.start(smallSite());
    ASSERT_TRUE(document.saveAs(path));
    EXPECT_FALSE(document.changedOnDisk());
    write(path, read(path) + "\n");
    EXPECT_TRUE(document.changedOnDisk());
    ASSERT_TRUE(document.save());
    EXPECT_FALSE(document.changedOnDisk());
}

TEST(SiteDocument, AReadOnlyFileIsNotReplacedAndTheWorkCanGoElsewhere) {
    QTemporaryDir folder;
    const QString path = folder.filePath(QStringLiteral("a.site.json"));
    SiteDocument document;
    document.start(smallSite());
    ASSERT_TRUE(document.saveAs(path));
    EXPECT_FALSE(document.isReadOnly());
    const QByteArray before = read(path);
    ASSERT_TRUE(QFile::setPermissions(path, QFile::ReadOwner | QFile::ReadUser));
    EXPECT_TRUE(document.isReadOnly());
    document.editSite(QStringLiteral("name"), [](Site& site) { site.name = "other"; });
    const auto refused = document.save();
    ASSERT_FALSE(refused);
    EXPECT_TRUE(refused.error().contains(QStringLiteral("read-only")));
    EXPECT_EQ(read(path), before);
    EXPECT_TRUE(document.isModified());
    ASSERT_TRUE(document.saveAs(folder.filePath(QStringLiteral("b.site.json"))));
    EXPECT_FALSE(document.isModified());
    EXPECT_FALSE(document.isReadOnly());
}

TEST(SiteDocument, ListingsAreReadAgainOnlyWhenTheirPathsChange) {
    int loads = 0;
    SiteDocument document([&](const Site&, const std::string&) {
        ++loads;
        return tl::expected<Evidence, std::vector<BadInput>>(Evidence{});
    });
    document.start(smallSite());
    const int at_start = loads;
    document.editSite(QStringLiteral("name"), [](Site& s) { s.name = "x"; });
    EXPECT_EQ(loads, at_start);
    document.editSite(QStringLiteral("listing"),
                      [](Site& s) { s.datasets[0].turnover->listing = "a.tsv"; });
    EXPECT_EQ(loads, at_start + 1);
    document.undoStack()->undo();
    EXPECT_EQ(loads, at_start + 2);
}

TEST(SiteDocument, AMissingListingIsAProblemOfTheFieldThatNamesIt) {
    QTemporaryDir folder;
    SiteDocument document;
    document.start(smallSite());
    ASSERT_TRUE(document.saveAs(folder.filePath(QStringLiteral("a.site.json"))));
    document.editSite(QStringLiteral("listing"),
                      [](Site& s) { s.datasets[0].turnover->listing = "none.tsv"; });
    ASSERT_EQ(document.problems().size(), 1u);
    EXPECT_EQ(document.problems()[0].where, "/datasets/0/turnover/listing");
    document.undoStack()->undo();
    EXPECT_EQ(document.problems(), Problems{});
}

TEST(SiteDocument, SavingToAnotherFolderKeepsTheListingsWithinReach) {
    QTemporaryDir folder;
    ASSERT_TRUE(QDir(folder.path()).mkpath(QStringLiteral("sub")));
    write(folder.filePath(QStringLiteral("list.tsv")),
          "name\tcreation\tused\treferenced\twritten\n"
          "data@a\t1700000000\t0\t1000\t1000\n"
          "data@b\t1700086400\t0\t1100\t100\n");
    Site site = smallSite();
    site.datasets[0].turnover->listing = "list.tsv";
    SiteDocument document;
    document.start(site);
    ASSERT_TRUE(document.saveAs(folder.filePath(QStringLiteral("a.site.json"))))
        << "a relative path of an unsaved site is left alone";
    EXPECT_EQ(document.site().datasets[0].turnover->listing, "list.tsv");
    EXPECT_EQ(document.problems(), Problems{});
    ASSERT_TRUE(document.saveAs(folder.filePath(QStringLiteral("sub/a.site.json"))));
    EXPECT_EQ(document.site().datasets[0].turnover->listing, "../list.tsv");
    EXPECT_EQ(document.problems(), Problems{});
    EXPECT_EQ(document.evidence()->listings.count("../list.tsv"), 1u);
}

TEST(OpenFile, TellsOnceOfEachChangeByAnotherProgramAndNotOfItsOwn) {
    QTemporaryDir folder;
    const QString path = folder.filePath(QStringLiteral("a.site.json"));
    ASSERT_TRUE(write_site_file(path.toStdString(), smallSite()));
    SiteDocument document;
    OpenFile file(document, folder.filePath(QStringLiteral("locks")));
    ASSERT_FALSE(document.open(path));
    QSignalSpy changed(&file, &OpenFile::changedOutside);
    document.editSite(QStringLiteral("name"), [](Site& site) { site.name = "Mine"; });
    ASSERT_TRUE(document.save());
    QTest::qWait(400);
    EXPECT_EQ(changed.count(), 0);
    Site theirs = smallSite();
    theirs.name = "Theirs";
    ASSERT_TRUE(write_site_file(path.toStdString(), theirs));
    ASSERT_TRUE(eventually([&] { return changed.count() == 1; }));
    write(folder.filePath(QStringLiteral("beside")), "another file");
    QTest::qWait(400);
    EXPECT_EQ(changed.count(), 1);
    // Replaced a second time, though the file that was watched at first is gone.
    theirs.name = "Theirs again";
    ASSERT_TRUE(write_site_file(path.toStdString(), theirs));
    EXPECT_TRUE(eventually([&] { return changed.count() == 2; }));
    ASSERT_FALSE(document.open(path));
    EXPECT_EQ(document.site().name, "Theirs again");
}

TEST(OpenFile, ASecondWindowOnTheSameFileIsTold) {
    QTemporaryDir folder;
    const QString locks = folder.filePath(QStringLiteral("locks"));
    const QString path = folder.filePath(QStringLiteral("a.site.json"));
    ASSERT_TRUE(write_site_file(path.toStdString(), smallSite()));
    ASSERT_TRUE(QFile::link(path, folder.filePath(QStringLiteral("link.site.json"))));
    SiteDocument first, second;
    OpenFile of_first(first, locks);
    ASSERT_FALSE(first.open(path));
    EXPECT_FALSE(of_first.isOpenElsewhere());
    {
        OpenFile of_second(second, locks);
        QSignalSpy told(&of_second, &OpenFile::openElsewhere);
        ASSERT_FALSE(second.open(folder.filePath(QStringLiteral("link.site.json"))));
        EXPECT_TRUE(of_second.isOpenElsewhere());
        EXPECT_EQ(told.count(), 1);
        second.close();
        EXPECT_FALSE(of_second.isOpenElsewhere());
    }
    first.close();
    OpenFile of_second(second, locks);
    ASSERT_FALSE(second.open(path));
    EXPECT_FALSE(of_second.isOpenElsewhere());
}

TEST(Recovery, UnsavedWorkOfAWindowThatIsGoneIsFoundAgain) {
    QTemporaryDir folder;
    const QString root = folder.filePath(QStringLiteral("recovery"));
    const QString path = folder.filePath(QStringLiteral("a.site.json"));
    SiteDocument document;
    document.start(smallSite());
    ASSERT_TRUE(document.saveAs(path));
    Recovery recovery(document, root);
    EXPECT_FALSE(recovery.copyNow()) << "nothing is unsaved";
    document.editSite(QStringLiteral("name"), [](Site& s) { s.name = "unsaved"; });
    ASSERT_TRUE(recovery.copyNow());

    SiteDocument other;
    Recovery after_crash(other, root);
    EXPECT_TRUE(after_crash.lostWork().isEmpty()) << "the other window is still open";
    const QDir copies(root);
    const QString mine = copies.filePath(copies.entryList(QDir::Dirs | QDir::NoDotAndDotDot).at(0));
    ASSERT_TRUE(QFile::remove(mine + QStringLiteral("/lock"))) << "as after a crash";
    const QList<LostWork> lost = after_crash.lostWork();
    ASSERT_EQ(lost.size(), 1);
    EXPECT_EQ(lost[0].origin, path);
    other.recover(lost[0].site, lost[0].origin);
    EXPECT_EQ(other.site(), document.site());
    EXPECT_EQ(other.path(), path);
    EXPECT_TRUE(other.isModified());
    Recovery::discard(lost[0]);
    EXPECT_TRUE(after_crash.lostWork().isEmpty());
}

TEST(Recovery, TheCopyGoesWhenTheWorkIsSavedOrUndone) {
    QTemporaryDir folder;
    const QString root = folder.filePath(QStringLiteral("recovery"));
    const auto copies = [&] {
        return QDir(root).entryList(QDir::Dirs | QDir::NoDotAndDotDot).size();
    };
    SiteDocument document;
    document.start(smallSite());
    ASSERT_TRUE(document.saveAs(folder.filePath(QStringLiteral("a.site.json"))));
    Recovery recovery(document, root);
    for (const bool save : {true, false}) {
        document.editSite(QStringLiteral("name"), [&](Site& s) { s.name += "x"; });
        ASSERT_TRUE(recovery.copyNow());
        EXPECT_EQ(copies(), 1);
        if (save)
            ASSERT_TRUE(document.save());
        else
            document.undoStack()->undo();
        EXPECT_EQ(copies(), 0);
    }
}

TEST(Recovery, AFaultySiteIsNotCopiedOverAGoodCopy) {
    QTemporaryDir folder;
    SiteDocument document;
    document.start(smallSite(), true);
    Recovery recovery(document, folder.path());
    ASSERT_TRUE(recovery.copyNow());
    document.editSite(QStringLiteral("ceiling"), [](Site& s) { s.boxes[1].ceiling = 7; });
    EXPECT_FALSE(recovery.copyNow());
}

constexpr const char* listed_site = R"json({"format": "ullage-site", "version": 1, "name": "Listed (invented)",
    "as_of": "2026-01-02", "datasets": [{"name": "d", "home": "b", "turnover": {"listing": "%1"}}],
    "boxes": [{"name": "b", "usable": "1 TB"}]})json";
constexpr const char* listing =
    "snapshot\ttaken\tunique\tlive\twritten\nd@1\t1767139200\t0\t5000\t5000\nd@2\t1767225600\t0\t5100\t200\n";

TEST(SiteDocument, AnOpenedFileMayNotNameAListingOutsideItsFolderButTheUserMay) {
    QTemporaryDir folder;
    ASSERT_TRUE(QDir(folder.path()).mkdir(QStringLiteral("site")));
    write(folder.filePath(QStringLiteral("out.tsv")), listing);
    write(folder.filePath(QStringLiteral("other.tsv")), listing);
    write(folder.filePath(QStringLiteral("site/in.tsv")), listing);
    const QString path = folder.filePath(QStringLiteral("site/s.site.json"));
    write(path, QString::fromUtf8(listed_site).arg(QStringLiteral("../out.tsv")).toUtf8());

    SiteDocument document;
    ASSERT_EQ(document.open(path), std::nullopt);
    ASSERT_EQ(document.problems().size(), 1U);
    EXPECT_EQ(document.problems()[0].where, "/datasets/0/turnover/listing");
    EXPECT_NE(document.problems()[0].what.find("outside the site's folder"), std::string::npos);
    EXPECT_TRUE(document.evidence()->listings.empty());

    const auto name = [&](const char* file) {
        document.editSite(QStringLiteral("listing"), [&](Site& s) { s.datasets[0].turnover->listing = file; });
    };
    name("in.tsv");
    EXPECT_TRUE(document.problems().empty());
    name("../other.tsv");
    EXPECT_TRUE(document.problems().empty()) << "named by the user";
    name("../out.tsv");
    EXPECT_EQ(document.problems().size(), 1U) << "named by the file";

    // Saved elsewhere it is the same file, still named by the opened site.
    ASSERT_TRUE(QDir(folder.path()).mkdir(QStringLiteral("elsewhere")));
    ASSERT_TRUE(document.saveAs(folder.filePath(QStringLiteral("elsewhere/t.site.json"))));
    EXPECT_EQ(document.site().datasets[0].turnover->listing, "../out.tsv");
    EXPECT_EQ(document.problems().size(), 1U);

    SiteDocument trusting;
    trusting.allowOutside();
    ASSERT_EQ(trusting.open(path), std::nullopt);
    EXPECT_TRUE(trusting.problems().empty());
}

}  // namespace
}  // namespace ullage::ui
