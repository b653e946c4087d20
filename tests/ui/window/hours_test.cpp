// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/link/hours.h"
#include "core/site/site_json.h"
#include "tests/ui/window/small.h"
#include "ui/document/site_document.h"
#include "ui/forms/form.h"
#include "ui/forms/form_panel.h"
#include "ui/hours/hours_painter.h"
#include "ui/hours/week_grid.h"

#include <QSignalSpy>

#include <gtest/gtest.h>

#include <random>

namespace ullage::ui {
namespace {

OpenHours row(const char* days, int from_hour, int to_hour, double share = 1) {
    OpenHours hours;
    hours.days = *parse_days(days);
    hours.days_text = days;
    hours.from = from_hour * 3600;
    hours.to = to_hour * 3600;
    hours.share = share;
    return hours;
}

TEST(WeekGrid, SaysOfEachHalfHourWhatTheForecastSays) {
    std::mt19937 random(3);
    const auto below = [&](int n) { return static_cast<int>(random() % unsigned(n)); };
    for (int trial = 0; trial < 60; ++trial) {
        std::vector<OpenHours> rows;
        for (int i = 1 + below(4); i > 0; --i) {
            OpenHours hours;
            for (auto& day : hours.days) day = below(2) == 1;
            hours.from = 1800 * below(48);
            hours.to = 1800 * below(49);
            hours.share = below(11) / 10.0;
            rows.push_back(hours);
        }
        const WeekGrid grid = gridOf(rows);
        const WeeklyHours week(rows, TimeZone());
        const Instant monday = Instant{Day{std::chrono::year(2026) / 11 / 2}};
        for (int cell = 0; cell < cells_a_week; ++cell)
            ASSERT_EQ(grid[std::size_t(cell)], week.share_at(monday + std::chrono::minutes(30 * cell + 15))) << cell;
    }
}

TEST(WeekGrid, RowsThatAreMadeOfItSayTheSame) {
    std::mt19937 random(4);
    for (int trial = 0; trial < 200; ++trial) {
        WeekGrid grid{};
        double share = 0;
        for (auto& cell : grid) {
            if (random() % 12 == 0) share = double(random() % 3) / 2;
            cell = share;
        }
        ASSERT_EQ(gridOf(rowsOf(grid)), grid);
    }
}

TEST(WeekGrid, RowsAreAsAPersonWouldWriteThem) {
    const std::vector<OpenHours> nights = {row("Mon-Fri", 19, 6, 0.8), row("Sat-Sun", 0, 24)};
    // Friday's night runs into the open Saturday with another share: it is Saturday that counts there.
    const auto rows = rowsOf(gridOf({row("Mon-Thu", 19, 6, 0.8)}));
    ASSERT_EQ(rows.size(), 1u);
    EXPECT_EQ(rows[0].days_text, "Mon-Thu");
    EXPECT_EQ(rows[0].from, 19 * 3600);
    EXPECT_EQ(rows[0].to, 6 * 3600);
    EXPECT_EQ(rows[0].share, 0.8);
    EXPECT_EQ(gridOf(rowsOf(gridOf(nights))), gridOf(nights));
    EXPECT_TRUE(rowsOf(gridOf({})).empty());
    WeekGrid closed{};
    ASSERT_EQ(rowsOf(closed).size(), 1u);
    EXPECT_EQ(rowsOf(closed)[0].share, 0);
}

TEST(HoursPainter, DraggingOpensOrClosesARectangleInOneStroke) {
    HoursPainter painter;
    painter.resize(600, 200);
    painter.setGrid(gridOf({row("Mon-Fri", 20, 24, 0.5)}));
    painter.show();
    QSignalSpy painted(&painter, &HoursPainter::painted);
    const auto middle = [&](int day, int half) { return painter.cellPlace(day, half).center().toPoint(); };
    QTest::mousePress(&painter, Qt::LeftButton, {}, middle(5, 40));
    QTest::mouseMove(&painter, middle(6, 43));
    QTest::mouseRelease(&painter, Qt::LeftButton, {}, middle(6, 43));
    ASSERT_EQ(painted.count(), 1);
    // The weekend opens as far as the rectangle goes, with the share that the other hours have.
    for (int day = 5; day < 7; ++day)
        for (int half = 38; half < 48; ++half)
            EXPECT_EQ(painter.grid()[std::size_t(day * cells_a_day + half)], half >= 40 && half <= 43 ? 0.5 : 0.0);
    // From an open cell it closes.
    QTest::mouseClick(&painter, Qt::LeftButton, {}, middle(0, 41));
    EXPECT_EQ(painted.count(), 2);
    EXPECT_EQ(painter.grid()[41], 0);
    EXPECT_EQ(painter.grid()[42], 0.5);
}

TEST(HoursPainter, TheKeyboardDoesTheSame) {
    HoursPainter painter;
    painter.resize(600, 200);
    painter.setGrid(WeekGrid{});
    painter.show();
    painter.setFocus();
    QTest::keyClick(&painter, Qt::Key_Home);
    QTest::keyClick(&painter, Qt::Key_Right, Qt::ShiftModifier);
    QTest::keyClick(&painter, Qt::Key_Down, Qt::ShiftModifier);
    QTest::keyClick(&painter, Qt::Key_Space);
    EXPECT_EQ(painter.grid(), gridOf({row("Mon-Tue", 0, 1)}));
    EXPECT_TRUE(painter.accessibleDescription().contains(QStringLiteral("00:00 to 01:00: open")))
        << painter.accessibleDescription().toStdString();
    QTest::keyClick(&painter, Qt::Key_Space);
    EXPECT_EQ(painter.grid(), WeekGrid{});
}

TEST(HoursField, PaintingIsOneUndoableEditAndTheTableFollows) {
    SiteDocument document;
    document.start(smallSite());
    FormPanel panel(document);
    QObject::connect(&document, &SiteDocument::siteChanged, &panel, &FormPanel::refresh);
    panel.showItem({ItemKind::link, 0});
    panel.resize(500, 900);
    panel.show();
    auto* const painter = panel.findChild<HoursPainter*>();
    ASSERT_TRUE(painter);
    EXPECT_EQ(painter->grid(), gridOf({}));  // always open
    painter->setFocus();
    QTest::keyClick(painter, Qt::Key_Home);
    QTest::keyClick(painter, Qt::Key_Space);
    ASSERT_FALSE(document.site().links[0].hours.empty());
    EXPECT_EQ(gridOf(document.site().links[0].hours)[0], 0);
    EXPECT_EQ(gridOf(document.site().links[0].hours)[1], 1);
    EXPECT_TRUE(document.problems().empty());
    document.undoStack()->undo();
    EXPECT_EQ(document.site(), smallSite());
    EXPECT_EQ(painter->grid(), gridOf({}));
}

}  // namespace
}  // namespace ullage::ui
