// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/document/item_edits.h"
#include "core/site/site_json.h"
#include "tests/ui/window/small.h"

#include <gtest/gtest.h>

namespace ullage::ui {
namespace {

TEST(ItemPointer, LeadsFromAFieldToItsItem) {
    EXPECT_EQ(itemAt(QStringLiteral("/boxes/1/pool/width")), (ItemRef{ItemKind::box, 1}));
    EXPECT_EQ(itemAt(QStringLiteral("/datasets/0")), (ItemRef{ItemKind::dataset, 0}));
    EXPECT_EQ(itemAt(QString()), ItemRef{});
    EXPECT_EQ(itemAt(QStringLiteral("/horizon")), ItemRef{});
    EXPECT_EQ(itemAt(QStringLiteral("/boxes")), std::nullopt);
    EXPECT_EQ(itemAt(QStringLiteral("/boxes/x")), std::nullopt);
}

TEST(ItemPointer, OfEveryItemLeadsBackToIt) {
    const Site site = smallSite();
    for (const ItemKind kind : listed_kinds)
        for (int i = 0; i < countOf(site, kind); ++i)
            EXPECT_EQ(itemAt(pointerOf({kind, i})), (ItemRef{kind, i}));
}

TEST(SmallSite, FromFiveFiguresIsValid) { EXPECT_EQ(validate(smallSite()), Problems{}); }

TEST(AddItem, EveryKindLeavesTheSiteValid) {
    Site site = smallSite();
    for (const ItemKind kind : listed_kinds) {
        ASSERT_EQ(missingFor(site, kind), QString());
        const int before = countOf(site, kind);
        const ItemRef added = addItem(site, kind);
        EXPECT_EQ(added, (ItemRef{kind, before}));
        EXPECT_EQ(validate(site), Problems{}) << kindName(kind).toStdString();
    }
}

TEST(AddItem, ASendInAnEmptySiteSaysWhatIsMissing) {
    EXPECT_FALSE(missingFor(Site(), ItemKind::send).isEmpty());
    EXPECT_FALSE(missingFor(Site(), ItemKind::offer).isEmpty());
    EXPECT_TRUE(missingFor(Site(), ItemKind::box).isEmpty());
}

TEST(DuplicateItem, IsEqualButForItsNameAndLeavesTheSiteValid) {
    const Site before = smallSite();
    for (const ItemKind kind : listed_kinds) {
        if (kind == ItemKind::send) continue;  // two sends of the same to the same box: see below
        Site site = before;
        const ItemRef copy = duplicateItem(site, {kind, 0});
        EXPECT_EQ(copy, (ItemRef{kind, 1}));
        EXPECT_NE(nameOf(site, copy), nameOf(site, {kind, 0}));
        EXPECT_EQ(validate(site), Problems{}) << kindName(kind).toStdString();
    }
}

TEST(DuplicateItem, OfASendWaitsForAnotherDestination) {
    Site site = smallSite();
    const ItemRef copy = duplicateItem(site, {ItemKind::send, 0});
    const Problems problems = validate(site);
    ASSERT_FALSE(problems.empty());
    for (const Problem& problem : problems)
        EXPECT_EQ(itemAt(QString::fromStdString(problem.where)), copy);
    site.sends[1].to =
        site.boxes[static_cast<std::size_t>(addItem(site, ItemKind::box).index)].name;
    EXPECT_EQ(validate(site), Problems{});
}

TEST(AddItem, ASecondSendGoesToABoxThatHasNoCopyYet) {
    Site site = smallSite();
    addItem(site, ItemKind::box);
    const ItemRef added = addItem(site, ItemKind::send);
    EXPECT_EQ(site.sends[static_cast<std::size_t>(added.index)].to, site.boxes[2].name);
    EXPECT_EQ(validate(site), Problems{});
}

TEST(RenameItem, ChangesTheNameWhereverItIsUsed) {
    Site site = smallSite();
    EXPECT_EQ(renameItem(site, {ItemKind::box, 1}, QStringLiteral("attic")), QString());
    EXPECT_EQ(renameItem(site, {ItemKind::box, 0}, QStringLiteral("clinic")), QString());
    EXPECT_EQ(renameItem(site, {ItemKind::dataset, 0}, QStringLiteral("imaging")), QString());
    EXPECT_EQ(renameItem(site, {ItemKind::link, 0}, QStringLiteral("tunnel")), QString());
    EXPECT_EQ(site.sends[0].to, "attic");
    EXPECT_EQ(site.sends[0].from, "clinic");
    EXPECT_EQ(site.datasets[0].home, "clinic");
    EXPECT_EQ(site.sends[0].datasets, std::vector<std::string>{"imaging"});
    EXPECT_EQ(site.sends[0].over, "tunnel");
    EXPECT_EQ(site.offers[0].box, "attic");
    EXPECT_EQ(validate(site), Problems{});
}

TEST(RenameItem, ToATakenNameIsRefusedAndChangesNothing) {
    Site site = smallSite();
    const Site before = site;
    EXPECT_FALSE(renameItem(site, {ItemKind::box, 1}, QStringLiteral("here")).isEmpty());
    EXPECT_FALSE(renameItem(site, {ItemKind::box, 1}, QStringLiteral("  ")).isEmpty());
    EXPECT_EQ(site, before);
}

TEST(MoveItem, GoesAsFarAsItsSectionAndLeavesTheSiteValid) {
    Site site = smallSite();
    const Site before = site;
    EXPECT_EQ(moveItem(site, {ItemKind::box, 0}, 1), (ItemRef{ItemKind::box, 1}));
    EXPECT_EQ(site.boxes[0], before.boxes[1]);
    EXPECT_EQ(site.boxes[1], before.boxes[0]);
    EXPECT_EQ(validate(site), Problems{});
    EXPECT_EQ(moveItem(site, {ItemKind::box, 1}, 5), (ItemRef{ItemKind::box, 1}));
    EXPECT_EQ(moveItem(site, {ItemKind::box, 1}, -5), (ItemRef{ItemKind::box, 0}));
    EXPECT_EQ(site, before);
}

TEST(RemoveItem, TakesWithItWhatItSaidItWould) {
    const Site before = smallSite();
    const QStringList said = consequencesOfRemoval(before, {ItemKind::box, 1});
    ASSERT_EQ(said.size(), 2);
    EXPECT_TRUE(said[0].contains(QStringLiteral("nightly")));
    EXPECT_TRUE(said[1].contains(QStringLiteral("six 16 TB drives")));
    Site site = before;
    removeItem(site, {ItemKind::box, 1});
    EXPECT_TRUE(site.sends.empty());
    EXPECT_TRUE(site.offers.empty());
    EXPECT_EQ(site.datasets, before.datasets);
}

TEST(RemoveItem, OfAnyItemLeavesAValidSite) {
    const Site before = smallSite();
    for (const ItemKind kind : listed_kinds)
        for (int i = 0; i < countOf(before, kind); ++i) {
            Site site = before;
            removeItem(site, {kind, i});
            EXPECT_EQ(countOf(site, kind), countOf(before, kind) - 1);
            EXPECT_EQ(validate(site), Problems{}) << kindName(kind).toStdString() << " " << i;
        }
}

TEST(RemoveItem, OfOneDatasetOfSeveralLeavesTheSend) {
    Site site = smallSite();
    addItem(site, ItemKind::dataset);
    site.sends[0].datasets.push_back(site.datasets[1].name);
    removeItem(site, {ItemKind::dataset, 0});
    ASSERT_EQ(site.sends.size(), 1u);
    EXPECT_EQ(site.sends[0].datasets, std::vector<std::string>{site.datasets[0].name});
}

}  // namespace
}  // namespace ullage::ui
