// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/gauge/days_until_full_gauge.h"
#include "ui/gauge/gauge_card.h"

#include "tests/ui/drawing/drawn.h"
#include "tests/ui/sample_answer.h"
#include "ui/theme/theme.h"

#include <gtest/gtest.h>

#include <QAccessible>
#include <QApplication>
#include <QFontMetricsF>
#include <QPainter>
#include <QSignalSpy>
#include <QTest>

#include <cmath>
#include <random>

namespace ullage {
namespace {

using sample::Fate;

constexpr double horizon = 5 * days_per_year;
constexpr std::array<Fate, 7> fates{Fate::tight, Fate::roomy,     Fate::endless, Fate::over,
                                    Fate::full,  Fate::shrinking, Fate::soon};

Day today() { return sample::answer().outlook.as_of; }

GaugeNumbers numbers_of(const BoxOutlook& b) {
    return {b.days_until_ceiling, b.days_until_full, b.ceiling_marks, b.full_marks, horizon};
}

void expect_sound(const LaneGeometry& lane, const TimeTrack& track) {
    EXPECT_EQ(static_cast<int>(lane.marks.size()) + lane.later, 20);
    for (const QPointF& m : lane.marks) {
        EXPECT_GE(m.x() - lane.radius, track.left - 0.01);
        EXPECT_LE(m.x() + lane.radius, track.right + 0.01);
        EXPECT_GE(m.y() - lane.radius, lane.place.top() - 0.01);
        EXPECT_LE(m.y() + lane.radius, lane.place.bottom() + 0.01);
    }
    for (std::size_t i = 0; i < lane.marks.size(); ++i)
        for (std::size_t k = i + 1; k < lane.marks.size(); ++k) {
            const QPointF d = lane.marks[i] - lane.marks[k];
            EXPECT_GE(std::max(std::abs(d.x()), std::abs(d.y())), 2 * lane.radius - 0.01)
                << "marks " << i << " and " << k << " overlap";
        }
    if (lane.p10 && lane.p50) {
        EXPECT_LE(*lane.p10, *lane.p50);
    }
    if (lane.p50 && lane.p90) {
        EXPECT_LE(*lane.p50, *lane.p90);
    }
    for (const auto& x : {lane.p10, lane.p50, lane.p90})
        if (x) {
            EXPECT_GE(*x, track.left);
            EXPECT_LE(*x, track.right);
        }
}

TEST(GaugeGeometry, MarksLieWithinTheirLaneForEveryFateAndWidth) {
    for (const Fate fate : fates) {
        const BoxOutlook b = sample::box("attic", fate);
        const GaugeText text = GaugeText::of(b, horizon, today(), Level::tight);
        for (const double width : {300.0, 420.0, 620.0, 730.0, 1300.0}) {
            const auto g = gauge_geometry(text, numbers_of(b), {}, width, 0, QApplication::font());
            expect_sound(g.ceiling, g.track);
            expect_sound(g.full, g.track);
        }
    }
}

TEST(GaugeGeometry, MarksLieWithinTheirLaneForRandomFutures) {
    std::mt19937 random(7);
    for (int round = 0; round < 200; ++round) {
        GaugeNumbers n;
        n.horizon_days = std::uniform_real_distribution<>(20, 8000)(random);
        const double centre = std::uniform_real_distribution<>(0, 1.3 * n.horizon_days)(random);
        const double spread = std::uniform_real_distribution<>(0, 0.4 * n.horizon_days)(random);
        std::vector<double> days;
        std::normal_distribution<> draw(centre, spread);
        for (int i = 0; i < 20; ++i) days.push_back(std::max(0.0, draw(random)));
        std::sort(days.begin(), days.end());
        for (std::size_t i = 0; i < 20; ++i)
            if (days[i] <= n.horizon_days) n.ceiling_marks[i] = days[i];
        const double width = std::uniform_real_distribution<>(260, 1500)(random);
        const auto g = gauge_geometry(GaugeText::waiting(QStringLiteral("attic")), n, {}, width, 0,
                                      QApplication::font());
        expect_sound(g.ceiling, g.track);
        EXPECT_EQ(g.full.later, 20);
        EXPECT_TRUE(g.full.marks.empty());
    }
}

TEST(GaugeGeometry, AMarkStandsNearItsOwnDay) {
    const BoxOutlook b = sample::box("attic", Fate::tight);
    const auto g = gauge_geometry(GaugeText::of(b, horizon, today(), Level::tight), numbers_of(b),
                                  {}, 730, 0, QApplication::font());
    std::size_t k = 0;
    for (const auto& day : b.ceiling_marks)
        if (day) {
            EXPECT_NEAR(g.ceiling.marks[k].x(), g.track.x(*day), 5 * g.ceiling.radius);
            ++k;
        }
    EXPECT_EQ(k, g.ceiling.marks.size());
}

TEST(GaugeGeometry, FuturesBeyondTheHorizonAreCountedAndNotDrawn) {
    const BoxOutlook b = sample::box("barn", Fate::roomy);
    const auto g = gauge_geometry(GaugeText::of(b, horizon, today(), Level::fits), numbers_of(b),
                                  {}, 730, 0, QApplication::font());
    const auto within = std::count_if(b.ceiling_marks.begin(), b.ceiling_marks.end(),
                                      [](const auto& m) { return m.has_value(); });
    ASSERT_GT(within, 0);
    ASSERT_LT(within, 20);
    EXPECT_EQ(static_cast<long>(g.ceiling.marks.size()), within);
    EXPECT_EQ(g.ceiling.later, 20 - within);
}

TEST(GaugeGeometry, TextsAndTicksDoNotOverlapAndStayInside) {
    for (const Fate fate : fates)
        for (const char* name : {"attic", "the second copy in the cellar beside the boiler room"})
            for (const double width : {320.0, 500.0, 730.0, 1200.0})
                for (const double size : {9.0, 18.0}) {
                    QFont font = QApplication::font();
                    font.setPointSizeF(size);
                    const BoxOutlook b = sample::box(name, fate);
                    const auto g = gauge_geometry(GaugeText::of(b, horizon, today(), Level::tight),
                                                  numbers_of(b), {}, width, 0, font);
                    std::vector<QRectF> boxes;
                    for (const auto& t : g.texts) boxes.push_back(t.place);
                    boxes.push_back(g.status.place);
                    boxes.push_back(g.shape);
                    for (const auto& tick : g.ticks) boxes.push_back(tick.label);
                    boxes.push_back(g.ceiling.label);
                    boxes.push_back(g.full.label);
                    EXPECT_FALSE(any_overlap(boxes))
                        << name << " width " << width << " font " << size;
                    for (const QRectF& box : boxes) {
                        EXPECT_GE(box.left(), -0.5);
                        EXPECT_GE(box.top(), -0.5);
                        EXPECT_LE(box.bottom(), g.height + 0.5);
                    }
                    // Every text has the room it needs.
                    for (const auto& t : g.texts) {
                        const QRectF need = QFontMetricsF(gauge_font(t.role, font))
                                                .boundingRect(QRectF(0, 0, t.place.width(), 1e6),
                                                              Qt::TextWordWrap, t.text);
                        EXPECT_LE(need.height(), t.place.height() + 0.5) << t.text.toStdString();
                    }
                }
}

TEST(GaugeGeometry, GaugesOfOneWidthShareOneScale) {
    const auto track = [](Fate fate, const char* name) {
        const BoxOutlook b = sample::box(name, fate);
        return gauge_geometry(GaugeText::of(b, horizon, today(), Level::fits), numbers_of(b), {},
                              730, 0, QApplication::font())
            .track;
    };
    const TimeTrack a = track(Fate::tight, "attic"),
                    b = track(Fate::soon, "a box with a long name");
    EXPECT_DOUBLE_EQ(a.left, b.left);
    EXPECT_DOUBLE_EQ(a.right, b.right);
}

TEST(GaugeGeometry, TrackMapsThereAndBack) {
    const TimeTrack track{50, 350, 1800};
    for (double day = 0; day <= 1800; day += 37) EXPECT_NEAR(track.days(track.x(day)), day, 1e-9);
    EXPECT_DOUBLE_EQ(track.x(-5), 50);
    EXPECT_DOUBLE_EQ(track.x(9999), 350);
}

TEST(GaugeGeometry, TickLabelsDoNotTouchForAnyHorizon) {
    for (const double days : {10.0, 45.0, 200.0, 365.25, 700.0, 1826.25, 3652.5, 10957.5})
        for (const double width : {120.0, 250.0, 600.0}) {
            const auto ticks = track_ticks({0, width, days}, 0, QApplication::font());
            std::vector<QRectF> boxes;
            for (const auto& t : ticks) boxes.push_back(t.label);
            EXPECT_FALSE(any_overlap(boxes)) << days << " days in " << width;
        }
}

TEST(GaugeText, SaysTheHeadlineAsTheCoreSaysSpans) {
    const BoxOutlook b = sample::box("attic", Fate::tight);
    ASSERT_TRUE(b.days_until_ceiling.p50);
    const GaugeText t = GaugeText::of(b, horizon, today(), Level::tight);
    EXPECT_EQ(t.headline.toLower().toStdString(), say_days(*b.days_until_ceiling.p50));
    EXPECT_TRUE(t.when.contains(QStringLiteral("80\u00A0% ceiling")));
    ASSERT_EQ(t.range.size(), 2);
    EXPECT_TRUE(t.range[0].startsWith(QStringLiteral("1 in 10: before")));
    EXPECT_TRUE(t.range[1].startsWith(QStringLiteral("9 in 10: before")));
    EXPECT_TRUE(t.full.startsWith(QStringLiteral("Completely full:")));
}

TEST(GaugeText, GivesNoDateToAQuantileBeyondTheHorizon) {
    const BoxOutlook b = sample::box("barn", Fate::roomy);
    ASSERT_FALSE(b.days_until_ceiling.p50);
    const GaugeText t = GaugeText::of(b, horizon, today(), Level::fits);
    EXPECT_EQ(t.headline, QStringLiteral("Not within 5 years"));
    EXPECT_FALSE(t.description().contains(QStringLiteral("9 in 10: before")));
    EXPECT_TRUE(t.description().contains(QStringLiteral("of 20 futures")));
}

TEST(GaugeText, HasItsOwnWordsForEveryState) {
    QSet<QString> headlines;
    for (const Fate fate : {Fate::tight, Fate::endless, Fate::over, Fate::full, Fate::shrinking})
        headlines << GaugeText::of(sample::box("b", fate), horizon, today(), Level::fits).headline;
    headlines << GaugeText::waiting().headline;
    EXPECT_EQ(headlines.size(), 6);
}

TEST(GaugeText, TellsAPastOrderDateFromOneToCome) {
    BoxOutlook b = sample::box("attic", Fate::tight);
    b.order_by = today() - std::chrono::days(10);
    EXPECT_TRUE(
        GaugeText::of(b, horizon, today(), Level::tight).order.contains(QStringLiteral("was")));
    b.order_by = today() + std::chrono::days(10);
    EXPECT_TRUE(GaugeText::of(b, horizon, today(), Level::tight)
                    .order.startsWith(QStringLiteral("Order more by")));
}

TEST(Gauge, TellsAssistiveTechnologyTheSameWords) {
    for (const Fate fate : fates) {
        DaysUntilFullGauge gauge;
        const BoxOutlook b = sample::box("attic", fate);
        gauge.setBox(&b, horizon, today(), Level::tight);
        QAccessibleInterface* face = QAccessible::queryAccessibleInterface(&gauge);
        ASSERT_NE(face, nullptr);
        EXPECT_EQ(face->role(), QAccessible::Graphic);
        EXPECT_TRUE(face->text(QAccessible::Name).contains(QStringLiteral("attic")));
        const QString words = face->text(QAccessible::Description);
        EXPECT_TRUE(words.contains(gauge.text().headline)) << words.toStdString();
        EXPECT_TRUE(words.contains(gauge.text().status));
        for (const QString& line : gauge.text().range) EXPECT_TRUE(words.contains(line));
        EXPECT_TRUE(words.contains(gauge.text().full));
    }
}

// QWidget's setters send the event; the offscreen platform has no bridge to watch it with.
TEST(Gauge, DescriptionFollowsTheAnswer) {
    DaysUntilFullGauge gauge;
    const BoxOutlook a = sample::box("attic", Fate::tight), b = sample::box("attic", Fate::roomy);
    gauge.setBox(&a, horizon, today(), Level::tight);
    const QString before = gauge.accessibleDescription();
    gauge.setBox(&b, horizon, today(), Level::fits);
    EXPECT_NE(gauge.accessibleDescription(), before);
    EXPECT_TRUE(gauge.accessibleDescription().contains(QStringLiteral("Not within 5 years")));
    gauge.setBox(nullptr, horizon, today(), Level::note);
    EXPECT_TRUE(gauge.accessibleDescription().contains(QStringLiteral("No answer yet")));
}

TEST(Gauge, SaysItsStateAndKeepsItsHeightWhileUpdating) {
    DaysUntilFullGauge gauge;
    const BoxOutlook b = sample::box("attic", Fate::tight);
    gauge.setBox(&b, horizon, today(), Level::tight);
    gauge.setState(GaugeState::ready);
    const int height = gauge.heightForWidth(700);
    for (const auto state : {GaugeState::updating, GaugeState::cancelled, GaugeState::failed}) {
        gauge.setState(state);
        EXPECT_EQ(gauge.heightForWidth(700), height);
        EXPECT_TRUE(gauge.accessibleDescription().contains(state_words(state)));
        EXPECT_TRUE(gauge.accessibleDescription().contains(gauge.text().headline))
            << "old figures stay";
    }
}

TEST(Gauge, DrawsSomethingElseForEveryState) {
    std::vector<QImage> pictures;
    const auto shoot = [&](const BoxOutlook* b, GaugeState state) {
        DaysUntilFullGauge gauge;
        gauge.setBox(b, horizon, today(), Level::tight);
        gauge.setState(state);
        gauge.resize(700, 200);
        pictures.push_back(picture_of(gauge));
        EXPECT_GT(colours_in(pictures.back()), 10);
    };
    const BoxOutlook tight = sample::box("attic", Fate::tight),
                     over = sample::box("attic", Fate::over),
                     full = sample::box("attic", Fate::full),
                     shrinking = sample::box("attic", Fate::shrinking);
    shoot(nullptr, GaugeState::nothing);
    shoot(&tight, GaugeState::ready);
    shoot(&tight, GaugeState::updating);
    shoot(&tight, GaugeState::cancelled);
    shoot(&tight, GaugeState::failed);
    shoot(&over, GaugeState::ready);
    shoot(&full, GaugeState::ready);
    shoot(&shrinking, GaugeState::ready);
    for (std::size_t i = 0; i < pictures.size(); ++i)
        for (std::size_t k = i + 1; k < pictures.size(); ++k)
            EXPECT_NE(pictures[i], pictures[k]) << i << k;
}

TEST(Gauge, FollowsLightAndDark) {
    DaysUntilFullGauge gauge;
    const BoxOutlook b = sample::box("attic", Fate::tight);
    gauge.setBox(&b, horizon, today(), Level::tight);
    gauge.setState(GaugeState::ready);
    gauge.resize(700, 200);
    const QImage light = picture_of(gauge);
    gauge.setPalette(dark_palette());
    const QImage dark = picture_of(gauge);
    EXPECT_GT(lightness_of(light), 200);
    EXPECT_LT(lightness_of(dark), 80);
}

TEST(Gauge, PaintsOntoAnythingWithoutAWidgetsSize) {
    DaysUntilFullGauge gauge;
    const BoxOutlook b = sample::box("attic", Fate::tight);
    gauge.setBox(&b, horizon, today(), Level::tight);
    QImage image(900, 300, QImage::Format_RGB32);
    image.fill(Qt::magenta);
    QPainter painter(&image);
    const QTransform before = painter.transform();
    gauge.paintTo(painter, QRectF(50, 20, 800, 260), light_palette(), QApplication::font());
    EXPECT_EQ(painter.transform(), before);
    painter.end();
    EXPECT_EQ(image.pixelColor(10, 10), QColor(Qt::magenta)) << "nothing outside its place";
    EXPECT_EQ(image.pixelColor(895, 295), QColor(Qt::magenta));
    EXPECT_GT(colours_in(image), 10);
}

TEST(Gauge, ReachesEveryHeadlineAtTwiceTheFontSize) {
    DaysUntilFullGauge gauge;
    QFont big = QApplication::font();
    big.setPointSizeF(18);
    gauge.setFont(big);
    const BoxOutlook b = sample::box("attic", Fate::over);
    gauge.setBox(&b, horizon, today(), Level::overruns);
    EXPECT_GT(gauge.heightForWidth(700), 150);
    EXPECT_GE(gauge.sizeHint().height(), gauge.heightForWidth(gauge.sizeHint().width()));
}

TEST(GaugeCard, PutsItsTickWithinItsBarAndItsBarWithinItsTrack) {
    for (const Fate fate : fates) {
        GaugeCard card;
        const BoxOutlook b = sample::box("attic", fate);
        card.setBox(&b, horizon, today(), Level::tight);
        for (const double width : {160.0, 240.0, 400.0}) {
            const CardGeometry g = card.geometryFor(width);
            for (const auto& x : {g.p10, g.p50, g.p90})
                if (x) {
                    EXPECT_GE(*x, g.track.left);
                    EXPECT_LE(*x, g.track.right);
                }
            if (g.p10 && g.p50) {
                EXPECT_LE(*g.p10, *g.p50);
            }
            if (g.p50 && g.p90) {
                EXPECT_LE(*g.p50, *g.p90);
            }
            EXPECT_FALSE(any_overlap({g.shape, g.name, g.headline, g.when, g.bar_place}));
        }
    }
}

TEST(GaugeCard, IsChosenByMouseAndByKeyboard) {
    GaugeCard card;
    const BoxOutlook b = sample::box("attic", Fate::tight);
    card.setBox(&b, horizon, today(), Level::tight);
    card.resize(card.sizeHint());
    card.show();
    QSignalSpy clicked(&card, &QAbstractButton::clicked);
    QTest::mouseClick(&card, Qt::LeftButton);
    QTest::keyClick(&card, Qt::Key_Space);
    QTest::keyClick(&card, Qt::Key_Return);
    EXPECT_EQ(clicked.count(), 3);
    EXPECT_TRUE(card.accessibleDescription().contains(card.said().headline));
    EXPECT_EQ(card.accessibleName(), QStringLiteral("attic"));
}

}  // namespace
}  // namespace ullage
