// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/theme.h"

#include "tests/ui/drawing/drawn.h"
#include "ui/theme/status.h"
#include "ui/theme/tile_layout.h"
#include "ui/theme/words.h"

#include <gtest/gtest.h>

#include <QLabel>
#include <QPainter>

#include <limits>

namespace ullage {
namespace {

std::vector<QPalette> palettes() {
    std::vector<QPalette> all{light_palette(), dark_palette()};
    // A desktop with a mid-tone base of its own, one paper-coloured and one blue-black.
    QPalette paper = light_palette();
    paper.setColor(QPalette::Base, QColor(0xE8, 0xDC, 0xC0));
    paper.setColor(QPalette::Highlight, QColor(0xFF, 0xE0, 0x80));
    all.push_back(paper);
    QPalette night = dark_palette();
    night.setColor(QPalette::Base, QColor(0x2A, 0x33, 0x4A));
    night.setColor(QPalette::Window, QColor(0x30, 0x38, 0x50));
    all.push_back(night);
    return all;
}

// Source: WCAG 2.2, definitions of relative luminance and contrast ratio: black on white is 21 : 1;
// #767676 on white is 4.54 : 1 (the well known lightest grey that passes; value from memory).
TEST(Contrast, MatchesThePublishedDefinition) {
    EXPECT_NEAR(contrast(Qt::black, Qt::white), 21.0, 1e-6);
    EXPECT_NEAR(contrast(Qt::white, Qt::black), 21.0, 1e-6);
    EXPECT_NEAR(contrast(QColor(0x76, 0x76, 0x76), Qt::white), 4.54, 0.01);
    EXPECT_NEAR(contrast(QColor(10, 120, 30), QColor(10, 120, 30)), 1.0, 1e-9);
}

TEST(Contrast, LegibleChangesNothingThatIsAlreadyLegible) {
    EXPECT_EQ(legible(QColor(0x00, 0x72, 0xB2), Qt::white, 4.5), QColor(0x00, 0x72, 0xB2));
}

TEST(Contrast, LegibleReachesTheRatioFromAnyColour) {
    for (int r = 0; r < 256; r += 51)
        for (int g = 0; g < 256; g += 51)
            for (int b = 0; b < 256; b += 51)
                for (const QColor& on :
                     {QColor(Qt::white), QColor(0x1A, 0x1C, 0x1E), QColor(0xE8, 0xDC, 0xC0)})
                    EXPECT_GE(contrast(legible(QColor(r, g, b), on, 4.5), on), 4.5);
}

TEST(Theme, TextTokensAreLegibleInLightAndDark) {
    for (const QPalette& palette : palettes()) {
        const Theme t = Theme::of(palette);
        for (const QColor& text : {t.ink, t.muted, t.median, t.full, t.ceiling})
            EXPECT_GE(contrast(text, t.surface), 4.5)
                << text.name().toStdString() << " on " << t.surface.name().toStdString();
        EXPECT_GE(contrast(t.on_full, t.full), 4.5);
        EXPECT_GE(contrast(t.edge, t.surface), 3.0);
        EXPECT_GE(contrast(t.focus, t.surface), 3.0);
        // Text also stands on the chosen card and on open hours.
        for (const QColor& text : {t.ink, t.muted, t.median, t.full})
            EXPECT_GE(contrast(text, t.chosen), 4.5)
                << text.name().toStdString() << " on " << t.chosen.name().toStdString();
        EXPECT_GE(contrast(t.ink, t.open), 4.5);
    }
}

TEST(Theme, FollowsTheLightnessOfTheWindow) {
    EXPECT_FALSE(Theme::of(light_palette()).dark);
    EXPECT_TRUE(Theme::of(dark_palette()).dark);
}

TEST(Theme, ScalesFontsSetInPixelsAndInPoints) {
    QFont points(QStringLiteral("DejaVu Sans"), 10), pixels(QStringLiteral("DejaVu Sans"));
    pixels.setPixelSize(20);
    EXPECT_DOUBLE_EQ(scaled(points, 1.5).pointSizeF(), 15.0);
    EXPECT_EQ(scaled(pixels, 1.5).pixelSize(), 30);
}

TEST(Status, ShapesDifferWithoutColour) {
    std::vector<QImage> grey;
    const Theme theme = Theme::of(light_palette());
    for (const Level level : {Level::fits, Level::tight, Level::overruns, Level::note}) {
        QImage image(48, 48, QImage::Format_RGB32);
        image.fill(Qt::white);
        QPainter painter(&image);
        draw_status(painter, QRectF(0, 0, 48, 48), level, theme);
        painter.end();
        grey.push_back(image.convertToFormat(QImage::Format_Grayscale8));
    }
    for (std::size_t i = 0; i < grey.size(); ++i)
        for (std::size_t k = i + 1; k < grey.size(); ++k) {
            int different = 0;
            for (int y = 0; y < 48; ++y)
                for (int x = 0; x < 48; ++x)
                    different +=
                        std::abs(qGray(grey[i].pixel(x, y)) - qGray(grey[k].pixel(x, y))) > 100;
            EXPECT_GT(different, 100) << i << " and " << k;
        }
}

TEST(Status, EveryLevelHasItsOwnWord) {
    QSet<QString> words;
    for (const Level level : {Level::fits, Level::tight, Level::overruns, Level::note})
        words << status_word(level);
    EXPECT_EQ(words.size(), 4);
    EXPECT_FALSE(words.contains(QString()));
}

TEST(Words, SayWhatTheCoreSaysAboutSpans) {
    // The core rounds and chooses the unit; in English its words are unchanged.
    for (double day = 0; day < 12000; day += 0.7)
        EXPECT_EQ(Words::span(day).toStdString(), say_days(day)) << day;
}

TEST(Words, JoinNumberAndUnitByANoBreakSpace) {
    EXPECT_EQ(Words::bytes(9.2e12, Prefixes::decimal), QStringLiteral("9.2\u00A0TB"));
    EXPECT_EQ(Words::bytes(1099511627776.0 * 2, Prefixes::binary), QStringLiteral("2\u00A0TiB"));
    EXPECT_EQ(Words::percent(0.8), QStringLiteral("80\u00A0%"));
}

TEST(Words, UseTheDecimalSignOfTheLocale) {
    const QLocale before;
    QLocale::setDefault(QLocale(QStringLiteral("de_DE")));
    EXPECT_EQ(Words::bytes(9.2e12, Prefixes::decimal), QStringLiteral("9,2\u00A0TB"));
    EXPECT_EQ(Words::span(1278), QStringLiteral("about 3,5 years"));
    QLocale::setDefault(before);
}

TEST(Words, SayAHorizonWithoutAbout) {
    EXPECT_EQ(Words::horizon(5 * days_per_year), QStringLiteral("5 years"));
    EXPECT_EQ(Words::horizon(days_per_year), QStringLiteral("1 year"));
    EXPECT_EQ(Words::horizon(days_per_year / 2), QStringLiteral("6 months"));
    EXPECT_EQ(Words::horizon(30), QStringLiteral("30 days"));
}

TEST(Words, ChangeUnitOfHoursWithSize) {
    EXPECT_EQ(Words::hours(0.5), QStringLiteral("30\u00A0min"));
    EXPECT_EQ(Words::hours(0.001), QStringLiteral("under\u00A01\u00A0min"));
    EXPECT_EQ(Words::hours(3.44), QStringLiteral("3.4\u00A0h"));
    EXPECT_EQ(Words::hours(52.2), QStringLiteral("52\u00A0h"));
    EXPECT_EQ(Words::hours(76.8), QStringLiteral("3.2\u00A0d"));
}

TEST(Words, NeverClaimNoneOrAllForAChanceBetween) {
    EXPECT_EQ(Words::chance(0), QStringLiteral("none"));
    EXPECT_EQ(Words::chance(1), QStringLiteral("all"));
    EXPECT_EQ(Words::chance(0.0004), QStringLiteral("fewer than 1 in 100"));
    EXPECT_EQ(Words::chance(0.9999), QStringLiteral("more than 99 in 100"));
    EXPECT_EQ(Words::chance(0.03), QStringLiteral("3 in 100"));
}

TEST(Words, SurviveNumbersThatAreNone) {
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const double inf = std::numeric_limits<double>::infinity();
    for (const double x : {nan, inf, -inf}) {
        EXPECT_EQ(Words::bytes(x, Prefixes::decimal), QStringLiteral("?"));
        EXPECT_EQ(Words::span(x), QStringLiteral("?"));
        EXPECT_EQ(Words::hours(x), QStringLiteral("?"));
        EXPECT_EQ(Words::horizon(x), QStringLiteral("?"));
        EXPECT_EQ(Words::chance(x), QStringLiteral("?"));
    }
}

TEST(TileLayout, AddsRowsWhenWidthIsShortAndCutsNothingOff) {
    QWidget box;
    auto* layout = new TileLayout(100, 10, &box);
    for (int i = 0; i < 7; ++i) {
        auto* label = new QLabel(QStringLiteral("tile"));
        label->setMinimumSize(100, 20);
        layout->addWidget(label);
    }
    EXPECT_EQ(layout->columnsFor(100), 1);
    EXPECT_EQ(layout->columnsFor(209), 1);
    EXPECT_EQ(layout->columnsFor(210), 2);
    EXPECT_EQ(layout->columnsFor(5000), 7);
    EXPECT_GT(layout->heightForWidth(210), layout->heightForWidth(700));
    for (const int width : {100, 230, 480, 900}) {
        box.resize(width, layout->heightForWidth(width));
        layout->setGeometry(box.rect());
        std::vector<QRectF> places;
        for (int i = 0; i < layout->count(); ++i) {
            places.emplace_back(layout->itemAt(i)->geometry());
            EXPECT_TRUE(QRectF(box.rect()).contains(places.back())) << width << " tile " << i;
        }
        EXPECT_FALSE(any_overlap(places)) << width;
    }
}

}  // namespace
}  // namespace ullage
