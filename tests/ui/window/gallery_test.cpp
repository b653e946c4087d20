// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site_json.h"
#include "tests/ui/window/small.h"
#include "ui/gallery/sample_card.h"
#include "ui/gallery/sample_gallery.h"

#include <QAccessible>
#include <QSignalSpy>
#include <QTemporaryDir>

#include <gtest/gtest.h>

namespace ullage::ui {
namespace {

const QString samples = QStringLiteral(ULLAGE_SOURCE_DIR "/sample-sites/");

TEST(SampleGallery, ShowsACardForEachSiteAtOnceAndItsPictureLater) {
    SampleGallery gallery;
    gallery.setSamples({samples + QStringLiteral("saltmarsh-seeds.site.json"),
                        samples + QStringLiteral("lantern-press.site.json"), samples + QStringLiteral("missing.site.json")});
    ASSERT_EQ(gallery.count(), 2);
    auto* const salt = gallery.findChild<SampleCard*>(QStringLiteral("start.sample.0"));
    auto* const lantern = gallery.findChild<SampleCard*>(QStringLiteral("start.sample.1"));
    ASSERT_TRUE(salt && lantern);
    EXPECT_EQ(salt->text(), QStringLiteral("Saltmarsh Seed Bank (invented)"));
    EXPECT_TRUE(salt->picture().isEmpty());
    EXPECT_TRUE(salt->accessibleDescription().startsWith(QStringLiteral("A purchase explained")));
    ASSERT_TRUE(QTest::qWaitFor([&] { return !salt->picture().isEmpty() && !lantern->picture().isEmpty(); }, 30000));
    // The box that has trouble first, its day in words for who cannot see the curve.
    EXPECT_TRUE(salt->accessibleDescription().contains(QStringLiteral("seed vault")));
    EXPECT_EQ(salt->picture().status, Level::tight);
    EXPECT_EQ(lantern->picture().status, Level::fits);
    for (const auto& point : salt->picture().points) {
        EXPECT_LE(point.low, point.middle);
        EXPECT_LE(point.middle, point.high);
    }
    EXPECT_EQ(salt->picture().points.front().part, 0);
    EXPECT_NEAR(salt->picture().points.back().part, 1, 0.01);
}

TEST(SampleGallery, ACardIsChosenByMouseAndByKeys) {
    SampleGallery gallery;
    const QString path = samples + QStringLiteral("lantern-press.site.json");
    gallery.setSamples({path});
    gallery.resize(600, 300);
    gallery.show();
    auto* const card = gallery.findChild<SampleCard*>(QStringLiteral("start.sample.0"));
    ASSERT_TRUE(card);
    QSignalSpy chosen(&gallery, &SampleGallery::chosen);
    QTest::mouseClick(card, Qt::LeftButton);
    QTest::keyClick(card, Qt::Key_Return);
    QTest::keyClick(card, Qt::Key_Space);
    ASSERT_EQ(chosen.count(), 3);
    EXPECT_EQ(chosen.first().first().toString(), path);
    EXPECT_NE(card->focusPolicy(), Qt::NoFocus);
}

TEST(SampleGallery, GoesAwayWhileItsPicturesAreStillDrawn) {
    for (int i = 0; i < 5; ++i) {
        SampleGallery gallery;
        gallery.setSamples({samples + QStringLiteral("brackenfold-archive.site.json")});
        QTest::qWait(40 * i);
    }
}

TEST(SampleGallery, WhatASiteShowsIsATextOfItsOwn) {
    Site site = smallSite();
    EXPECT_EQ(whatItShows(site), QString());
    site.extras["x-shows"] = "\"a \\\"first\\\" box\"";
    EXPECT_EQ(whatItShows(site), QStringLiteral("a \"first\" box"));
    site.extras["x-shows"] = "[1, 2]";
    EXPECT_EQ(whatItShows(site), QString());
}

}  // namespace
}  // namespace ullage::ui
