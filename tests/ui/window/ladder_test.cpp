// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/retention/ladder.h"
#include "tests/ui/window/small.h"
#include "ui/document/site_document.h"
#include "ui/forms/form_panel.h"
#include "ui/ladder/ladder_timeline.h"

#include <gtest/gtest.h>

namespace ullage::ui {
namespace {

Rung rung(int n, Period::Unit unit, int count) {
    Rung r;
    r.every = Period{n, unit};
    r.count = count;
    return r;
}

TEST(LadderTimeline, HasALaneForEachRungWithTheSnapshotsItKeeps) {
    LadderTimeline timeline;
    const Ladder ladder = {rung(1, Period::Unit::hour, 24), rung(1, Period::Unit::day, 14)};
    const Day day = std::chrono::year(2026) / 11 / 1;
    timeline.setLadder(ladder, day, "UTC");
    ASSERT_EQ(timeline.lanes().size(), 2u);
    // At noon: 24 full hours back from noon itself, and the midnights of the last 14 days.
    EXPECT_EQ(timeline.lanes()[0].age_days.size(), 24u);
    EXPECT_EQ(timeline.lanes()[1].age_days.size(), 14u);
    EXPECT_NEAR(timeline.lanes()[1].age_days.back(), 0.5, 1e-9);
    // One midnight is on both: 37 together.
    const auto all = LadderClock(ladder, TimeZone()).retained(Instant{day} + std::chrono::hours(12));
    EXPECT_TRUE(timeline.words().startsWith(QString::number(all.size()))) << timeline.words().toStdString();
    EXPECT_EQ(timeline.accessibleDescription(), timeline.words());
}

TEST(LadderTimeline, DrawsLaddersOfNothingAndOfHundredsAtAnyWidth) {
    LadderTimeline timeline;
    timeline.show();
    for (const Ladder& ladder : {Ladder{}, Ladder{rung(15, Period::Unit::minute, 96)},
                                 Ladder{rung(1, Period::Unit::hour, 400), rung(1, Period::Unit::year, 10)}})
        for (const int width : {40, 300, 1500}) {
            timeline.setLadder(ladder, std::chrono::year(2026) / 11 / 1, "Europe/Berlin");
            timeline.resize(width, timeline.sizeHint().height());
            EXPECT_FALSE(timeline.grab().isNull());
        }
}

TEST(LadderField, FollowsTheEditsOfTheLadder) {
    SiteDocument document;
    document.start(smallSite());
    FormPanel panel(document);
    QObject::connect(&document, &SiteDocument::siteChanged, &panel, &FormPanel::refresh);
    panel.showItem({ItemKind::dataset, 0});
    panel.resize(500, 900);
    panel.show();
    auto* const timeline = panel.findChild<LadderTimeline*>();
    ASSERT_TRUE(timeline);
    EXPECT_TRUE(timeline->isVisible());
    EXPECT_EQ(timeline->lanes().size(), 1u);
    document.editSite(QStringLiteral("a rung"), [](Site& site) {
        site.datasets[0].ladder.push_back(rung(1, Period::Unit::week, 8));
    });
    ASSERT_EQ(timeline->lanes().size(), 2u);
    EXPECT_EQ(timeline->lanes()[1].age_days.size(), 8u);
    document.editSite(QStringLiteral("none"), [](Site& site) { site.datasets[0].ladder.clear(); });
    EXPECT_FALSE(timeline->isVisible());
}

}  // namespace
}  // namespace ullage::ui
