// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/drawing/drawn.h"
#include "tests/ui/sample_answer.h"
#include "ui/arrive/age_chart.h"
#include "ui/arrive/drill_chart.h"
#include "ui/arrive/outage_fields.h"
#include "ui/arrive/outage_text.h"
#include "ui/arrive/send_pictures.h"
#include "ui/arrive/span_bars.h"
#include "ui/pages/arrive_page.h"
#include "ui/sure/chart_section.h"
#include "ui/theme/text_button.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <gtest/gtest.h>

#include <QAbstractItemModelTester>
#include <QAccessible>
#include <QApplication>
#include <QDateEdit>
#include <QLabel>
#include <QPushButton>
#include <QSignalSpy>
#include <QSpinBox>
#include <QTest>
#include <QToolButton>
#include <QWheelEvent>

#include <algorithm>
#include <random>

namespace ullage {
namespace {

using std::chrono::days;
using Grip = OutageDrag::Grip;

constexpr double horizon = 5 * days_per_year;
const Day today = std::chrono::sys_days(std::chrono::year(2026) / 11 / 1);
const OutageLimits five_years{today, today + days(1826)};

QString plain(QString text) { return text.replace(QChar(0x00A0), u' '); }

template <class W>
void show(W& widget, int width = 700) {
    widget.resize(width, widget.heightForWidth(width));
    widget.show();
    settle();
}

// The outage under the hand ----------------------------------------------------------------------

TEST(OutageSpan, IsHeldWithinItsLimitsForAnySpan) {
    std::mt19937 random(3);
    for (int round = 0; round < 500; ++round) {
        const auto day = [&] {
            return today + days(std::uniform_int_distribution<>(-900, 900)(random));
        };
        const Day first = day();
        const OutageLimits limits{first,
                                  first + days(std::uniform_int_distribution<>(1, 400)(random))};
        const OutageSpan span{day(), std::uniform_int_distribution<>(-5, 900)(random)};
        const OutageSpan h = held(span, limits);
        EXPECT_GE(h.days, 1);
        EXPECT_GE(h.from, limits.first);
        EXPECT_LE(h.to(), limits.end);
        EXPECT_EQ(held(h, limits), h);
        if (span.days >= 1 && span.from >= limits.first && span.to() <= limits.end) {
            EXPECT_EQ(h, span);
        }
    }
}

TEST(OutageDrag, AnEdgeLeavesTheOtherWhereItIsAndNeverPassesIt) {
    const OutageSpan span{today + days(100), 12};
    for (int at = -30; at < 400; ++at) {
        OutageDrag drag;
        drag.begin(Grip::start, span, 100, today);
        const OutageSpan left = drag.at(at, five_years);
        EXPECT_EQ(left.to(), span.to());
        EXPECT_EQ(left.from, today + days(std::clamp(at, 0, 111)));
        drag.begin(Grip::end, span, 112, today);
        const OutageSpan right = drag.at(at, five_years);
        EXPECT_EQ(right.from, span.from);
        EXPECT_EQ(right.to(), today + days(std::max(at, 101)));
        drag.begin(Grip::whole, span, 105, today);
        EXPECT_EQ(drag.at(at, five_years).days, 12);
    }
}

TEST(OutageDrag, ANewOneRunsFromThePressToTheHandEitherWay) {
    OutageDrag drag;
    drag.begin(Grip::fresh, {}, 50.2, today);
    EXPECT_EQ(drag.at(61.8, five_years), (OutageSpan{today + days(50), 12}));
    EXPECT_EQ(drag.at(44, five_years), (OutageSpan{today + days(44), 6}));
    EXPECT_EQ(drag.at(50.1, five_years), (OutageSpan{today + days(50), 1}));
    EXPECT_TRUE(drag.active());
    drag.end();
    EXPECT_FALSE(drag.active());
}

TEST(OutageDrag, HasHoldOfEdgesOfTheWholeAndOfNothing) {
    const std::optional<OutageSpan> span = OutageSpan{today + days(100), 30};
    EXPECT_EQ(OutageDrag::gripAt({}, 100, 5, today), Grip::none);
    EXPECT_EQ(OutageDrag::gripAt(span, 97, 5, today), Grip::start);
    EXPECT_EQ(OutageDrag::gripAt(span, 103, 5, today), Grip::start);
    EXPECT_EQ(OutageDrag::gripAt(span, 115, 5, today), Grip::whole);
    EXPECT_EQ(OutageDrag::gripAt(span, 127, 5, today), Grip::end);
    EXPECT_EQ(OutageDrag::gripAt(span, 134, 5, today), Grip::end);
    EXPECT_EQ(OutageDrag::gripAt(span, 137, 5, today), Grip::none);
    EXPECT_EQ(OutageDrag::gripAt(span, 90, 5, today), Grip::none);
}

TEST(TimeMarks, StartAtZeroRiseEvenlyAndKeepToTheCount) {
    for (double top = 0.05; top < 20000; top *= 1.37)
        for (const int most : {2, 4, 7}) {
            const auto marks = time_marks(top, most);
            ASSERT_FALSE(marks.empty());
            EXPECT_EQ(marks[0].value, 0);
            EXPECT_LE(static_cast<int>(marks.size()), most + 1) << top;
            for (std::size_t i = 1; i < marks.size(); ++i) {
                EXPECT_NEAR(marks[i].value, static_cast<double>(i) * marks[1].value, 1e-6);
                EXPECT_LE(marks[i].value, top * 1.0001);
            }
        }
    EXPECT_EQ(plain(time_marks(24, 4).back().text), QStringLiteral("24 h"));
    EXPECT_EQ(plain(time_marks(10 * 24, 5).back().text), QStringLiteral("10 d"));
    EXPECT_TRUE(time_marks(0, 4).empty());
}

// Age --------------------------------------------------------------------------------------------

struct Ages : ::testing::Test {
    Ages() {
        chart.setSend(&send, today, horizon);
        show(chart);
        QObject::connect(&chart, &TimeChart::outageWanted, &chart,
                         [this](const OutageSpan& span) { wanted.push_back(span); });
        QObject::connect(&chart, &TimeChart::outageUnwanted, &chart, [this] { ++unwanted; });
    }
    QPoint at(double day) const {
        const auto plot = chart.plotFor(chart.width(), chart.font());
        return QPointF(plot.days.map(day), plot.place.center().y()).toPoint();
    }
    double perPixel() const {
        const Scale scale = chart.plotFor(chart.width(), chart.font()).days;
        return (scale.to - scale.from) / (scale.end - scale.start);
    }
    void move(double day) {
        QMouseEvent event(QEvent::MouseMove, at(day), chart.mapToGlobal(at(day)), Qt::NoButton,
                          Qt::LeftButton, Qt::NoModifier);
        QApplication::sendEvent(&chart, &event);
    }
    void drag(double from, double to) {
        QTest::mousePress(&chart, Qt::LeftButton, {}, at(from));
        move((from + to) / 2);
        move(to);
        QTest::mouseRelease(&chart, Qt::LeftButton, {}, at(to));
    }

    SendOutlook send = sample::send("nightly", false);
    AgeChart chart;
    std::vector<OutageSpan> wanted;
    int unwanted = 0;
};

TEST_F(Ages, TheTitleIsTheAnswerAndEveryFourWeeksCanBeRead) {
    EXPECT_EQ(plain(chart.title()),
              QStringLiteral("The newest copy is usually 13 h old, and 49 h at worst"));
    const auto readings = chart.readings();
    ASSERT_EQ(readings.size(), send.copy_age.size());
    EXPECT_EQ(plain(readings[0].words),
              QStringLiteral("Four weeks from 1 Nov 2026: the newest copy is at most 13 h old half "
                             "of the time, 24 h in 19 of 20 times, 43 h at worst."));
    for (std::size_t i = 1; i < readings.size(); ++i)
        EXPECT_GT(readings[i].at.x(), readings[i - 1].at.x());
    QTest::keyClick(&chart, Qt::Key_Home);
    EXPECT_EQ(chart.readout(), readings.front().words);
    const auto* reader = QAccessible::queryAccessibleInterface(&chart);
    EXPECT_EQ(reader->text(QAccessible::Name), chart.title());
    EXPECT_TRUE(reader->text(QAccessible::Description).contains(QStringLiteral("19 in 20")));
}

TEST_F(Ages, StandOnZeroWithLabelsThatNeverTouch) {
    for (const int width : {340, 500, 700, 1400}) {
        const AgeGeometry g = chart.geometryFor(width, chart.font());
        EXPECT_EQ(g.hours.from, 0);
        EXPECT_GT(g.hours.to, send.recovery_point_max_hours);
        EXPECT_FALSE(any_overlap({g.label_places.begin(), g.label_places.end()})) << width;
        for (const QRectF& place : g.label_places) {
            EXPECT_GE(place.left(), g.plot.place.right());
            EXPECT_LE(place.right(), width) << width;
        }
    }
}

TEST_F(Ages, AnOutageIsDrawnByPressingAndDragging) {
    drag(400, 500);
    ASSERT_FALSE(wanted.empty());
    EXPECT_NEAR(chart.dayOf(wanted.back().from), 400, perPixel() + 1);
    EXPECT_NEAR(wanted.back().days, 100, 2 * perPixel() + 1);
    EXPECT_EQ(chart.outage(), wanted.back());
    EXPECT_FALSE(chart.isDragging());
}

TEST_F(Ages, AClickReadsAndDrawsNothing) {
    QTest::mouseClick(&chart, Qt::LeftButton, {}, at(400));
    EXPECT_TRUE(wanted.empty());
    EXPECT_FALSE(chart.readout().isEmpty());
}

TEST_F(Ages, ItsEdgesAndTheWholeOfItCanBeDragged) {
    chart.setOutage(OutageSpan{today + days(400), 200});
    drag(600, 700);
    ASSERT_FALSE(wanted.empty());
    EXPECT_EQ(wanted.back().from, today + days(400));
    EXPECT_NEAR(wanted.back().days, 300, perPixel() + 1);
    drag(400, 300);
    EXPECT_EQ(wanted.back().to(), chart.outage()->to());
    EXPECT_NEAR(chart.dayOf(wanted.back().from), 300, perPixel() + 1);
    const int length = wanted.back().days;
    drag(500, 900);
    EXPECT_EQ(wanted.back().days, length);
    EXPECT_NEAR(chart.dayOf(wanted.back().from), 700, 2 * perPixel() + 2);
}

TEST_F(Ages, EscapeInADragBringsBackWhatWasBefore) {
    chart.setOutage(OutageSpan{today + days(400), 200});
    QTest::mousePress(&chart, Qt::LeftButton, {}, at(600));
    move(800);
    EXPECT_NE(chart.outage(), (OutageSpan{today + days(400), 200}));
    QTest::keyClick(&chart, Qt::Key_Escape);
    EXPECT_EQ(chart.outage(), (OutageSpan{today + days(400), 200}));
    EXPECT_EQ(wanted.back(), *chart.outage());
    move(900);
    EXPECT_EQ(wanted.back(), *chart.outage()) << "the drag is over";
}

TEST_F(Ages, TheDatesAreZoomedAndDraggedByKeysWheelAndMouse) {
    const auto in_sight = [&] { return chart.daysInSight(horizon); };
    const auto* button = chart.findChild<QToolButton*>(QStringLiteral("allDates"));
    EXPECT_FALSE(chart.isZoomed() || button->isVisibleTo(&chart));
    QTest::keyClick(&chart, Qt::Key_Plus);
    QTest::keyClick(&chart, Qt::Key_Plus);
    EXPECT_TRUE(chart.isZoomed() && button->isVisibleTo(&chart));
    EXPECT_NEAR(in_sight().second - in_sight().first, horizon * 0.64, 1e-6);
    const double first = in_sight().first;
    QTest::keyClick(&chart, Qt::Key_PageDown);
    EXPECT_GT(in_sight().first, first);
    EXPECT_NEAR(in_sight().second, horizon, 1e-6) << "no farther than the end";
    QTest::keyClick(&chart, Qt::Key_0);
    EXPECT_FALSE(chart.isZoomed() || button->isVisibleTo(&chart));

    // The wheel zooms about the pointer and leaves its date where it is; without Ctrl the page scrolls.
    const auto wheel = [&](Qt::KeyboardModifiers keys) {
        const QPointF point = at(700);
        QWheelEvent event(point, chart.mapToGlobal(point), {}, {0, 240}, Qt::NoButton, keys, Qt::NoScrollPhase, false);
        event.ignore();
        QApplication::sendEvent(&chart, &event);
        return event.isAccepted();
    };
    EXPECT_FALSE(wheel({}));
    const QPoint before = at(700);
    EXPECT_TRUE(wheel(Qt::ControlModifier));
    EXPECT_TRUE(chart.isZoomed());
    EXPECT_NEAR(at(700).x(), before.x(), 2);
    const double from = in_sight().first;
    QTest::mousePress(&chart, Qt::LeftButton, Qt::ShiftModifier, at(700));
    move(650);
    QTest::mouseRelease(&chart, Qt::LeftButton, Qt::ShiftModifier, at(700));
    EXPECT_NE(in_sight().first, from);
    EXPECT_TRUE(wanted.empty()) << "no outage was drawn";
    const_cast<QToolButton*>(button)->click();
    EXPECT_FALSE(chart.isZoomed());
}

TEST_F(Ages, WhatIsReadComesIntoSightAndNothingIsDrawnBesideThePlot) {
    for (int i = 0; i < 12; ++i) QTest::keyClick(&chart, Qt::Key_Plus);
    for (const Qt::Key key : {Qt::Key_Home, Qt::Key_End}) {
        QTest::keyClick(&chart, key);
        const auto plot = chart.plotFor(chart.width(), chart.font());
        const auto all = chart.readings();
        const QPointF read = key == Qt::Key_Home ? all.front().at : all.back().at;
        EXPECT_GE(read.x(), plot.place.left() - 1);
        EXPECT_LE(read.x(), plot.place.right() + 1);
        // An outage far away leaves no edge at the plot's.
        const double far = key == Qt::Key_Home ? horizon - 60 : 20;
        QImage without(chart.size(), QImage::Format_RGB32), with(chart.size(), QImage::Format_RGB32);
        chart.setOutage({});
        chart.render(&without);
        chart.setOutage(OutageSpan{today + days(static_cast<int>(far)), 7});
        chart.render(&with);
        EXPECT_EQ(without, with);
        chart.setOutage({});
    }
    EXPECT_GT(chart.nearest(QPointF(at(static_cast<double>(horizon) - 10))), 0);
    chart.setSend(&send, today + days(1), horizon);
    EXPECT_FALSE(chart.isZoomed()) << "other days";
}

TEST_F(Ages, TheKeyboardPlacesChangesAndTakesAwayAnOutage) {
    QTest::keyClick(&chart, Qt::Key_Home);
    for (int i = 0; i < 3; ++i) QTest::keyClick(&chart, Qt::Key_Right);
    QTest::keyClick(&chart, Qt::Key_Return);
    ASSERT_EQ(wanted.size(), 1u);
    const OutageSpan placed = wanted[0];
    EXPECT_EQ(placed, (OutageSpan{send.copy_age[3].from, AgeChart::first_days}));
    chart.setOutage(placed);
    QTest::keyClick(&chart, Qt::Key_Right, Qt::ShiftModifier);
    EXPECT_EQ(wanted.back(), (OutageSpan{placed.from, 8}));
    QTest::keyClick(&chart, Qt::Key_Left, Qt::ShiftModifier);
    QTest::keyClick(&chart, Qt::Key_Left, Qt::ControlModifier);
    EXPECT_EQ(wanted.back(), (OutageSpan{placed.from - days(1), 7}));
    QTest::keyClick(&chart, Qt::Key_Right, Qt::ControlModifier | Qt::ShiftModifier);
    EXPECT_EQ(wanted.back(), (OutageSpan{placed.from + days(27), 7}));
    QTest::keyClick(&chart, Qt::Key_Escape);
    EXPECT_EQ(unwanted, 1);
    EXPECT_FALSE(chart.outage());
    const std::size_t before = wanted.size();
    QTest::keyClick(&chart, Qt::Key_Right, Qt::ShiftModifier);
    EXPECT_EQ(wanted.size(), before) << "there is nothing to lengthen";
}

TEST_F(Ages, ALengthIsNeverBelowADayNorBeyondTheEnd) {
    chart.setOutage(OutageSpan{today + days(10), 2});
    for (int i = 0; i < 4; ++i) QTest::keyClick(&chart, Qt::Key_Left, Qt::ShiftModifier);
    EXPECT_EQ(chart.outage(), (OutageSpan{today + days(10), 1}));
    chart.setOutage(OutageSpan{chart.limits().end - days(2), 1});
    for (int i = 0; i < 4; ++i) QTest::keyClick(&chart, Qt::Key_Right, Qt::ShiftModifier);
    EXPECT_EQ(chart.outage()->to(), chart.limits().end);
    EXPECT_EQ(chart.outage()->days, 2);
}

TEST_F(Ages, AnOutageIsSeenInThePictureAndSaidInTheSummary) {
    const QImage before = picture_of(chart);
    chart.setOutage(OutageSpan{today + days(400), 12});
    EXPECT_NE(picture_of(chart), before);
    EXPECT_TRUE(chart.summary().contains(QStringLiteral("line down for 12 days from 6 Dec 2027")))
        << chart.summary().toStdString();
    const QImage without = picture_of(chart);
    chart.setDrill(
        std::make_shared<const OutageDrill>(sample::drill("nightly", today + days(400), 12)));
    EXPECT_NE(picture_of(chart), without);
    EXPECT_GT(chart.geometryFor(700, chart.font()).hours.to, 12 * 24) << "the climb has room";
}

TEST_F(Ages, NothingIsShownWithoutACopy) {
    SendOutlook none = send;
    none.copy_age.clear();
    chart.setSend(&none, today, horizon);
    EXPECT_FALSE(chart.hasData());
    EXPECT_TRUE(chart.readings().empty());
    EXPECT_EQ(chart.title(), QStringLiteral("No complete copy comes to be within the horizon"));
    QTest::mouseClick(&chart, Qt::LeftButton, {}, QPoint(50, 5));
    QTest::keyClick(&chart, Qt::Key_Return);
    EXPECT_TRUE(wanted.empty());
}

// Through the outage -----------------------------------------------------------------------------

std::shared_ptr<const OutageDrill> drill_of(int length, bool survives = true) {
    return std::make_shared<const OutageDrill>(
        sample::drill("nightly", today + days(200), length, survives));
}

TEST(DrillChart, ShowsEveryDayOfBothPanels) {
    DrillChart chart;
    chart.setDrill(drill_of(12), five_years);
    show(chart);
    EXPECT_EQ(plain(chart.title()), QStringLiteral("With tunnel down for 12 days from 20 May 2027 "
                                                   "the newest copy gets 13 days old"));
    const auto readings = chart.readings();
    ASSERT_EQ(readings.size(), 12u + 7 + 4);
    EXPECT_TRUE(plain(readings[8].words)
                    .startsWith(QStringLiteral("21 May 2027, line down: the newest copy gets 61 h "
                                               "old")))
        << readings[8].words.toStdString();
    EXPECT_TRUE(readings[8].words.contains(Words::bytes(37e9, Prefixes::decimal)));
    EXPECT_FALSE(readings[3].words.contains(QStringLiteral("line down")));
    for (const int width : {340, 700, 1400}) {
        const DrillGeometry g = chart.geometryFor(width, chart.font());
        EXPECT_FALSE(any_overlap({g.ages_name, g.ages, g.waiting_name, g.waiting}));
        EXPECT_LE(g.waiting.right(), width);
        EXPECT_EQ(g.hours.from, 0);
        EXPECT_EQ(g.bytes.from, 0);
    }
    EXPECT_GT(colours_in(picture_of(chart)), 10);
    chart.setPrefixes(Prefixes::binary);
    EXPECT_TRUE(chart.readings()[8].words.contains(QStringLiteral("GiB")));
}

TEST(DrillChart, NothingMovesUnderTheHandUntilItLetsGo) {
    DrillChart chart;
    chart.setDrill(drill_of(12), five_years);
    chart.setOutage(OutageSpan{today + days(200), 12});
    show(chart);
    std::vector<OutageSpan> wanted;
    QObject::connect(&chart, &TimeChart::outageWanted, &chart,
                     [&](const OutageSpan& span) { wanted.push_back(span); });
    const auto plot = chart.plotFor(chart.width(), chart.font());
    const QPoint edge = QPointF(plot.days.map(19), plot.place.center().y()).toPoint();
    const QPoint later = QPointF(plot.days.map(21), plot.place.center().y()).toPoint();
    QTest::mousePress(&chart, Qt::LeftButton, {}, edge);
    QMouseEvent move(QEvent::MouseMove, later, chart.mapToGlobal(later), Qt::NoButton,
                     Qt::LeftButton, Qt::NoModifier);
    QApplication::sendEvent(&chart, &move);
    ASSERT_FALSE(wanted.empty());
    EXPECT_EQ(wanted.back(), (OutageSpan{today + days(200), 14}));
    chart.setDrill(drill_of(14), five_years);
    EXPECT_EQ(chart.drill()->days, 12);
    QTest::mouseRelease(&chart, Qt::LeftButton, {}, later);
    EXPECT_EQ(chart.drill()->days, 14);
}

TEST(OutageText, SaysWhatWaitsWhatIsLostAndWhatWouldHelp) {
    const QString kept = plain(OutageText::drill(*drill_of(12), Prefixes::decimal).join(u'\n'));
    for (const char* words :
         {"222 GB are waiting; 19 in 20 times at most 300 GB", "caught up 26 h after that",
          "Both ends still share a snapshot", "ends with one increment: 11 days",
          "With holding the last sent snapshot back at clinic: any length.", "25 days"})
        EXPECT_TRUE(kept.contains(QLatin1String(words))) << words << "\n" << kept.toStdString();
    const QString lost =
        plain(OutageText::drill(*drill_of(20, false), Prefixes::decimal).join(u'\n'));
    for (const char* words : {"“imaging” that both ends shared is gone then in all futures",
                              "all of it is sent again, 9.1 TB in 11 days", "needs 9.2 TB",
                              "it has 4.1 TB free, which is too little"})
        EXPECT_TRUE(lost.contains(QString::fromUtf8(words))) << words << "\n" << lost.toStdString();
    OutageDrill never = *drill_of(12);
    never.chance_of_catching_up = 0;
    never.longest_outage_days.reset();
    const QString said = OutageText::drill(never, Prefixes::decimal).join(u' ');
    EXPECT_FALSE(said.contains(QStringLiteral("caught up")));
    EXPECT_TRUE(said.contains(QStringLiteral("In all futures it does not catch up")));
    EXPECT_TRUE(said.contains(QStringLiteral("An outage of any length ends with one increment")));
}

TEST(OutageText, SaysOneDayAndManyDays) {
    EXPECT_EQ(plain(OutageText::days(1)), QStringLiteral("1 day"));
    EXPECT_EQ(plain(OutageText::days(12)), QStringLiteral("12 days"));
    EXPECT_EQ(OutageText::daysUnit(1), QStringLiteral("day"));
    EXPECT_EQ(OutageText::daysUnit(2), QStringLiteral("days"));
    EXPECT_TRUE(plain(OutageText::drillTitle(*drill_of(1))).contains(QStringLiteral("for 1 day ")));
}

TEST(OutageFields, ProposeAnOutageAndChangeTheOneThatIsThere) {
    OutageFields fields;
    fields.setOutage({}, five_years);
    std::vector<OutageSpan> wanted;
    int unwanted = 0;
    QObject::connect(&fields, &OutageFields::outageWanted, &fields,
                     [&](const OutageSpan& span) { wanted.push_back(span); });
    QObject::connect(&fields, &OutageFields::outageUnwanted, &fields, [&] { ++unwanted; });
    fields.days()->setValue(1);
    EXPECT_EQ(fields.days()->suffix(), QStringLiteral(" day"));
    fields.days()->setValue(9);
    EXPECT_EQ(fields.days()->suffix(), QStringLiteral(" days"));
    EXPECT_TRUE(wanted.empty()) << "a proposal asks nothing";
    fields.button()->click();
    ASSERT_EQ(wanted.size(), 1u);
    EXPECT_EQ(wanted[0].days, 9);
    fields.setOutage(wanted[0], five_years);
    fields.date()->setDate(QDate(2028, 2, 3));
    ASSERT_EQ(wanted.size(), 2u);
    EXPECT_EQ(format_date(wanted[1].from), "2028-02-03");
    fields.setOutage(wanted[1], five_years);
    fields.button()->click();
    EXPECT_EQ(unwanted, 1);
    for (const QWidget* field :
         {static_cast<QWidget*>(fields.date()), static_cast<QWidget*>(fields.days())})
        EXPECT_FALSE(field->accessibleName().isEmpty());
}

// The page ---------------------------------------------------------------------------------------

struct OutageOnPage : ::testing::Test {
    OutageOnPage() {
        page.setAnswer(sample::shared(sample::answer()));
        page.resize(730, 600);
        page.show();
        settle();
        QObject::connect(&page, &ArrivePage::outageAsked, &page,
                         [this](const OutageQuestion& q) { asked.push_back(q); });
        QObject::connect(&page, &ArrivePage::outageDropped, &page, [this] { ++dropped; });
    }
    void place(int length) {
        auto* fields = page.outageFields();
        fields->days()->setValue(length);
        if (!page.outage()) fields->button()->click();
    }
    void answerLast(bool survives = true) {
        const OutageQuestion& q = asked.back();
        page.setDrill(std::make_shared<const OutageDrill>(
            sample::drill(q.send, q.from, static_cast<int>(q.days), survives)));
        settle();
    }
    QString stateWords() const {
        const auto* label = page.findChild<QLabel*>(QStringLiteral("outageState"));
        return label->isVisible() ? label->text() : QString();
    }

    ArrivePage page;
    std::vector<OutageQuestion> asked;
    int dropped = 0;
};

TEST_F(OutageOnPage, AsksForTheShownSendAndShowsTheAnswer) {
    place(12);
    ASSERT_EQ(asked.size(), 1u);
    EXPECT_EQ(asked[0].send, "nightly");
    EXPECT_EQ(asked[0].days, 12);
    EXPECT_EQ(stateWords(), QStringLiteral("Working out this outage…"));
    EXPECT_FALSE(page.through()->isVisible());
    answerLast();
    EXPECT_EQ(stateWords(), QString());
    EXPECT_TRUE(page.through()->isVisible());
    EXPECT_TRUE(page.drillWords().contains(QStringLiteral("are waiting")));
    EXPECT_EQ(page.through()->table()->rowCount(), 12 + 7 + 4);
    const QAbstractItemModelTester tester(page.through()->table());
}

TEST_F(OutageOnPage, TheOldPictureStaysPalerUntilTheNewestIsAnswered) {
    place(12);
    answerLast();
    EXPECT_EQ(page.through()->chart()->state(), ShownState::ready);
    page.outageFields()->days()->setValue(20);
    ASSERT_EQ(asked.size(), 2u);
    EXPECT_TRUE(page.through()->isVisible());
    EXPECT_EQ(page.through()->chart()->state(), ShownState::updating);
    page.setDrill(std::make_shared<const OutageDrill>(
        sample::drill("nightly", asked[0].from, 15)));  // of a question in between
    EXPECT_EQ(page.through()->chart()->state(), ShownState::updating);
    answerLast();
    EXPECT_EQ(page.through()->chart()->state(), ShownState::ready);
    EXPECT_TRUE(page.through()->title().contains(QStringLiteral("20")));
    page.setDrill(
        std::make_shared<const OutageDrill>(sample::drill("weekly archive", asked[0].from, 20)));
    EXPECT_TRUE(page.through()->title().contains(QStringLiteral("tunnel down for")))
        << "an answer about another send is not shown";
}

TEST_F(OutageOnPage, ANewAnswerAsksAgainTheSameFiguresDoNot) {
    place(12);
    answerLast();
    page.setAnswer(sample::shared(sample::answer()));
    EXPECT_EQ(asked.size(), 1u) << "nothing has changed";
    Answer changed = sample::answer();
    changed.outlook.sends[0].chance_of_missing_window = 0.03;
    page.setAnswer(sample::shared(changed));
    EXPECT_EQ(asked.size(), 2u);
    page.showItem(QStringLiteral("/sends/1"));
    ASSERT_EQ(asked.size(), 3u);
    EXPECT_EQ(asked.back().send, "weekly archive");
    EXPECT_FALSE(page.through()->isVisible()) << "that of the other send is gone";
}

TEST_F(OutageOnPage, ItsAbsenceIsToldAndAnotherSiteHasNone) {
    place(12);
    answerLast();
    page.outageFields()->button()->click();
    EXPECT_EQ(dropped, 1);
    EXPECT_FALSE(page.outage());
    EXPECT_FALSE(page.through()->isVisible());
    EXPECT_TRUE(page.drillWords().isEmpty());
    answerLast();
    EXPECT_FALSE(page.through()->isVisible()) << "too late";
    place(12);
    page.setAnswer(nullptr);
    EXPECT_EQ(dropped, 2);
    EXPECT_FALSE(page.outage());
}

TEST_F(OutageOnPage, WhatCannotBeDrilledIsSaid) {
    place(12);
    page.setDrillProblems({{"/sends/0", "the first copy of “nightly” is not complete by then"}});
    settle();
    EXPECT_EQ(stateWords(), QStringLiteral("The first copy of “nightly” is not complete by then"));
    page.outageFields()->days()->setValue(13);
    EXPECT_EQ(stateWords(), QStringLiteral("Working out this outage…"));
}

TEST_F(OutageOnPage, AForecastUnderWayMakesTheDrillPaleToo) {
    place(12);
    answerLast();
    page.setUpdating(true);
    EXPECT_EQ(page.through()->chart()->state(), ShownState::updating);
    EXPECT_EQ(page.ages()->chart()->state(), ShownState::updating);
    page.setUpdating(false);
    EXPECT_EQ(page.through()->chart()->state(), ShownState::ready);
}

TEST(ArrivePage, TellsWeekdaysBacklogEventsFirstCopyAndRestores) {
    ArrivePage page;
    page.setAnswer(sample::shared(sample::answer()));
    page.resize(730, 600);
    page.show();
    settle();
    EXPECT_EQ(page.weekdays()->title(),
              QStringLiteral("On every weekday all runs are in time; Friday is the fullest"));
    EXPECT_EQ(page.backlogWords(),
              QStringLiteral("It never gets behind: nothing is left when a run's window closes."));
    ASSERT_EQ(page.events()->buttons().size(), 1u);
    EXPECT_TRUE(
        plain(page.events()->buttons()[0]->text())
            .contains(QStringLiteral("carries 2.52 TB in 9.0 h and takes the time of 1 run; it "
                                     "is in time in 93 in 100 futures")))
        << page.events()->buttons()[0]->text().toStdString();
    QSignalSpy chosen(&page, &Page::itemChosen);
    page.events()->buttons()[0]->click();
    ASSERT_EQ(chosen.size(), 1);
    EXPECT_EQ(chosen[0][0].toString(), QStringLiteral("/datasets/0"));
    EXPECT_TRUE(page.firstCopy()->title().startsWith(QStringLiteral("Send the first copy")));
    EXPECT_TRUE(page.firstCopy()->note().contains(QStringLiteral("carrying is sooner")));
    EXPECT_TRUE(page.findChild<QLabel*>(QStringLiteral("assumed"))
                    ->text()
                    .contains(QStringLiteral("No copy rate is given")));
    EXPECT_EQ(page.restore()->table()->rowCount(), 2);

    page.showItem(QStringLiteral("/sends/1"));
    settle();
    EXPECT_EQ(page.weekdays()->title(),
              QStringLiteral("Sunday is the worst weekday: 62 in 100 runs are late"));
    EXPECT_TRUE(page.backlogWords().contains(QStringLiteral("about 31 times a year")));
    EXPECT_TRUE(page.firstCopy()->title().startsWith(QStringLiteral("Carry the first copy")));
    EXPECT_TRUE(page.firstCopy()->note().contains(QStringLiteral("lets go of the snapshot")));
    EXPECT_TRUE(plain(page.events()->buttons()[0]->text())
                    .contains(QStringLiteral("takes the time of 27 runs; it is never in time")));
}

TEST_F(OutageOnPage, TheKeyboardGoesDownThePage) {
    place(12);
    answerLast();
    page.activateWindow();
    std::vector<QWidget*> order;
    QWidget* at = page.nextInFocusChain();
    for (; at != &page; at = at->nextInFocusChain())
        if (at->isVisible() && (at->focusPolicy() & Qt::TabFocus) && !at->focusProxy())
            order.push_back(at);
    ASSERT_GT(order.size(), 10u);
    int reached = -1;
    for (QWidget* each : order) {
        const int bottom = each->mapTo(&page, QPoint(0, each->height())).y();
        EXPECT_GE(bottom + each->height(), reached) << each->objectName().toStdString();
        reached = bottom;
    }
    for (const QWidget* wanted : {static_cast<QWidget*>(page.ages()->chart()),
                                  static_cast<QWidget*>(page.through()->chart()),
                                  static_cast<QWidget*>(page.outageFields()->button()),
                                  static_cast<QWidget*>(page.firstCopy()->chart()),
                                  static_cast<QWidget*>(page.restore()->chart())})
        EXPECT_NE(std::find(order.begin(), order.end(), wanted), order.end());
}

TEST(ArrivePage, SaysNothingOfAFirstCopyThatIsThere) {
    Answer a = sample::answer();
    a.outlook.sends[0].first_copy.reset();
    a.outlook.sends[0].restore.clear();
    a.outlook.sends[0].events.clear();
    ArrivePage page;
    page.setAnswer(sample::shared(a));
    page.resize(730, 600);
    page.show();
    settle();
    EXPECT_FALSE(page.firstCopy()->isVisible());
    EXPECT_FALSE(page.restore()->isVisible());
    EXPECT_FALSE(page.events()->isVisible());
    EXPECT_FALSE(page.findChild<QLabel*>(QStringLiteral("assumed"))->isVisible());
}

// Bars -------------------------------------------------------------------------------------------

TEST(SpanBars, LieOnOneScaleAndWhatDoesNotEndRunsOn) {
    const SendOutlook late = sample::send("weekly archive", true);
    SpanBars bars;
    bars.setPicture(SendPictures::firstCopy(late, horizon, Prefixes::decimal), true);
    show(bars);
    const SpanGeometry g = bars.geometryFor(700, bars.font());
    ASSERT_EQ(g.rows.size(), 2u);
    const auto& line = g.rows[0];
    const auto& hand = g.rows[1];
    EXPECT_NEAR(line.parts[0].width() / (38 * 24), hand.parts[1].width() / (3 * 24), 0.02);
    ASSERT_EQ(hand.parts.size(), 3u);
    EXPECT_NEAR(hand.parts[1].left(), hand.parts[0].right(), 2);
    EXPECT_NEAR(hand.parts[2].left(), hand.parts[1].right(), 0.01);
    EXPECT_TRUE(bars.picture().rows[0].goes_on);
    EXPECT_NEAR(line.bar.right(), g.scale.end, 0.01);
    EXPECT_TRUE(bars.picture().rows[0].figures.contains(QStringLiteral("in step not within 5")));
    EXPECT_FALSE(bars.picture().rows[0].strong);
    EXPECT_TRUE(bars.picture().rows[1].strong);
}

TEST(SpanBars, AreReadByRowWithMouseAndKeyboard) {
    const SendOutlook send = sample::send("nightly", false);
    SpanBars bars;
    bars.setPicture(SendPictures::restore(send, Prefixes::decimal), true);
    show(bars);
    const auto readings = bars.readings();
    ASSERT_EQ(readings.size(), 4u);
    EXPECT_EQ(bars.nearest(bars.geometryFor(700, bars.font()).rows[2].name.center()), 2);
    QTest::keyClick(&bars, Qt::Key_End);
    EXPECT_EQ(bars.readout(), readings[3].words);
    for (const auto& reading : readings) EXPECT_TRUE(bars.summary().contains(reading.words));
    const auto* reader = QAccessible::queryAccessibleInterface(&bars);
    EXPECT_EQ(reader->text(QAccessible::Name), bars.title());
}

TEST(SpanBars, NoTextOverlapsAnotherAtAnyWidth) {
    for (const bool late : {false, true}) {
        const SendOutlook send = sample::send("s", late);
        for (const SpanPicture& picture :
             {SendPictures::firstCopy(send, horizon, Prefixes::decimal),
              SendPictures::restore(send, Prefixes::decimal),
              SendPictures::weekdays(send, Prefixes::decimal)}) {
            SpanBars bars;
            bars.setPicture(picture, true);
            for (const int width : {340, 480, 700, 1300}) {
                const SpanGeometry g = bars.geometryFor(width, bars.font());
                std::vector<QRectF> boxes;
                for (const auto& row : g.rows)
                    boxes.insert(boxes.end(), {row.name, row.figures, row.bar});
                EXPECT_FALSE(any_overlap(boxes)) << width;
                for (const QRectF& box : boxes) EXPECT_LE(box.right(), width) << width;
                EXPECT_LE(g.rows.back().place.bottom(), g.height);
            }
        }
    }
}

TEST(SpanBars, FollowLightAndDarkAndAreSharpOnAnyGround) {
    const SendOutlook send = sample::send("s", true);
    SpanBars bars;
    bars.setPicture(SendPictures::weekdays(send, Prefixes::decimal), true);
    bars.setPalette(light_palette());
    show(bars);
    const double light = lightness_of(picture_of(bars));
    bars.setPalette(dark_palette());
    EXPECT_LT(lightness_of(picture_of(bars)), light - 60);
}

TEST(SendPictures, TablesHaveEveryNumberThatIsDrawn) {
    const SendOutlook send = sample::send("nightly", false);
    NumberTable table;
    table.setContent(SendPictures::weekdaysTable(send, Prefixes::decimal));
    EXPECT_EQ(table.rowCount(), 7);
    EXPECT_EQ(table.data(table.index(0, 0)).toString(), QStringLiteral("Monday"));
    table.setContent(SendPictures::firstCopyTable(send));
    EXPECT_EQ(table.data(table.index(0, 1), Qt::EditRole).toDouble(), 4.0);
    SendOutlook late = sample::send("late", true);
    table.setContent(SendPictures::firstCopyTable(late));
    EXPECT_EQ(table.data(table.index(0, 3)).toString(), QStringLiteral("not within the horizon"));
    table.setContent(SendPictures::restoreTable(send, Prefixes::binary));
    EXPECT_TRUE(table.headerData(1, Qt::Horizontal).toString().contains(QStringLiteral("TiB")));
    table.setContent(OutageText::ageTable(send));
    EXPECT_EQ(table.rowCount(), static_cast<int>(send.copy_age.size()));
    EXPECT_EQ(table.data(table.index(0, 0), Qt::EditRole).toDate(), QDate(2026, 11, 1));
}

}  // namespace
}  // namespace ullage
