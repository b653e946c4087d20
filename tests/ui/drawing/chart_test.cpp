// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/charts/fill_chart.h"

#include "tests/ui/drawing/drawn.h"
#include "tests/ui/sample_answer.h"
#include "ui/charts/calendar_ticks.h"
#include "ui/charts/fill_levels.h"
#include "ui/charts/fill_table.h"
#include "ui/charts/fill_text.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <gtest/gtest.h>

#include <QAbstractItemModelTester>
#include <QAbstractScrollArea>
#include <QApplication>
#include <QClipboard>
#include <QDialog>
#include <QFile>
#include <QFileInfo>
#include <QGraphicsTextItem>
#include <QGraphicsView>
#include <QMimeData>
#include <QMouseEvent>
#include <QPainter>
#include <QPushButton>
#include <QSlider>
#include <QTableView>
#include <QTemporaryDir>
#include <QTest>
#include <QTextDocument>
#include <QWheelEvent>
#include <QXmlStreamReader>

#include <random>

namespace ullage {
namespace {

using sample::Fate;

constexpr double horizon = 5 * days_per_year;
constexpr std::array<Fate, 7> fates{Fate::tight, Fate::roomy,     Fate::endless, Fate::over,
                                    Fate::full,  Fate::shrinking, Fate::soon};

Day today() { return sample::answer().outlook.as_of; }

struct Shown {
    explicit Shown(Fate fate = Fate::tight, const QSize& size = QSize(730, 440)) {
        box = sample::box("attic", fate);
        chart.setBox(&box, horizon, today());
        chart.setState(ShownState::ready);
        chart.resize(size);
        chart.show();
        settle();
    }
    BoxOutlook box;
    FillChart chart;
};

void wheel(QWidget* view, const QPoint& at, int angle, Qt::KeyboardModifiers keys) {
    QWheelEvent event(at, view->mapToGlobal(at), QPoint(), QPoint(0, angle), Qt::NoButton, keys,
                      Qt::NoScrollPhase, false);
    QCoreApplication::sendEvent(view, &event);
}

QWidget* viewport_of(FillChart& chart) {
    return qobject_cast<QAbstractScrollArea*>(chart.view())->viewport();
}

TEST(CalendarTicks, AreStartsOfWeeksMonthsOrYearsAndDoNotTouch) {
    const QFontMetricsF metrics(QApplication::font());
    std::mt19937 random(3);
    for (int round = 0; round < 500; ++round) {
        const QDate from =
            QDate(2024, 1, 1).addDays(std::uniform_int_distribution<>(0, 3000)(random));
        const int length = std::uniform_int_distribution<>(10, 15000)(random);
        const double pixels = std::uniform_real_distribution<>(120, 2000)(random);
        const auto ticks = calendar_ticks(from, from.addDays(length), pixels, metrics);
        QSet<QString> texts;
        std::vector<QRectF> boxes;
        for (const DateTick& t : ticks) {
            EXPECT_GE(t.date, from);
            EXPECT_LE(t.date, from.addDays(length));
            EXPECT_TRUE(t.date.day() == 1 || t.date.dayOfWeek() == Qt::Monday)
                << t.text.toStdString();
            if (t.text.size() == 4) {
                EXPECT_EQ(t.date.dayOfYear(), 1) << "a bare year stands at its start";
            }
            texts << t.text;
            const double w = metrics.horizontalAdvance(t.text);
            boxes.emplace_back(from.daysTo(t.date) * pixels / length - w / 2, 0, w, 10);
        }
        EXPECT_EQ(texts.size(), static_cast<int>(ticks.size())) << "texts are unique";
        EXPECT_FALSE(any_overlap(boxes)) << length << " days in " << pixels;
    }
}

TEST(CalendarTicks, ShowYearsForFiveYears) {
    const auto ticks = calendar_ticks(QDate(2026, 11, 1), QDate(2031, 10, 31), 400,
                                      QFontMetricsF(QApplication::font()));
    ASSERT_EQ(ticks.size(), 5u);
    EXPECT_EQ(ticks.front().date, QDate(2027, 1, 1));
    EXPECT_EQ(ticks.back().date, QDate(2031, 1, 1));
}

// The dates are the same at another height; they must follow the plot all the same.
TEST(FillChart, ItsDatesStandBelowThePlotAfterAnyResize) {
    Shown s;
    for (const int height : {520, 400, 470}) {
        s.chart.resize(730, height);
        settle();
        const QImage image = s.chart.view()->grab().toImage();
        const QRectF plot = s.chart.plotArea();
        ASSERT_LT(plot.bottom() + 8, image.height());
        const QRgb ground = image.pixel(image.width() / 2, image.height() - 1);
        int inked = 0;
        for (int y = static_cast<int>(plot.bottom()) + 6; y < image.height(); ++y)
            for (int x = static_cast<int>(plot.left()); x < static_cast<int>(plot.right()); ++x)
                if (image.pixel(x, y) != ground) ++inked;
        EXPECT_GT(inked, 100) << height;
    }
}

TEST(NiceStep, IsOneTwoOrFiveTimesAPowerOfTenAndKeepsToTheCount) {
    for (double top = 0.013; top < 1e7; top *= 1.37)
        for (int most = 1; most < 12; ++most) {
            const double step = nice_step(top, most);
            const double mantissa = step / std::pow(10, std::floor(std::log10(step) + 1e-9));
            EXPECT_TRUE(std::abs(mantissa - 1) < 1e-6 || std::abs(mantissa - 2) < 1e-6 ||
                        std::abs(mantissa - 5) < 1e-6)
                << step;
            EXPECT_LE(top / step, most + 1e-6);
        }
}

TEST(PushedApart, NeverOverlapsAndKeepsOrder) {
    std::mt19937 random(11);
    for (int round = 0; round < 300; ++round) {
        std::vector<double> wished;
        const int count = std::uniform_int_distribution<>(0, 9)(random);
        for (int i = 0; i < count; ++i)
            wished.push_back(std::uniform_real_distribution<>(-20, 320)(random));
        const auto got = pushed_apart(wished, 14, 0, 300);
        ASSERT_EQ(got.size(), wished.size());
        for (std::size_t i = 0; i < got.size(); ++i) {
            EXPECT_GE(got[i], 7 - 1e-9);
            EXPECT_LE(got[i], 293 + 1e-9);
            for (std::size_t k = i + 1; k < got.size(); ++k) {
                EXPECT_GE(std::abs(got[i] - got[k]), 14 - 1e-9);
                if (wished[i] < wished[k]) {
                    EXPECT_LT(got[i], got[k]);
                }
            }
        }
    }
}

TEST(PushedApart, LeavesAloneWhatDoesNotTouch) {
    const std::vector<double> wished{250, 40, 120};
    EXPECT_EQ(pushed_apart(wished, 14, 0, 300), wished);
}

TEST(FillChart, LabelsAtTheEdgeDoNotOverlap) {
    for (const Fate fate : fates)
        for (const QSize size : {QSize(500, 400), QSize(730, 440), QSize(1400, 900)}) {
            const Shown s(fate, size);
            EXPECT_GE(s.chart.labelBoxes().size(), 5u);
            EXPECT_FALSE(any_overlap(s.chart.labelBoxes())) << size.width();
        }
}

TEST(FillChart, LabelsAtTheEdgeStayInsideTheView) {
    const Shown s;
    for (const QRectF& box : s.chart.labelBoxes()) {
        EXPECT_GE(box.left(), s.chart.plotArea().right());
        EXPECT_LE(box.right(), s.chart.view()->width() + 0.5);
    }
}

TEST(FillChart, TitleSaysTheAnswer) {
    EXPECT_EQ(FillText::title(sample::box("attic", Fate::over), horizon, today()),
              QStringLiteral("attic is over its ceiling now"));
    EXPECT_EQ(FillText::title(sample::box("attic", Fate::full), horizon, today()),
              QStringLiteral("attic is full now"));
    EXPECT_TRUE(FillText::title(sample::box("attic", Fate::tight), horizon, today())
                    .startsWith(QStringLiteral("attic passes its ceiling around ")));
    EXPECT_EQ(FillText::title(sample::box("attic", Fate::endless), horizon, today()),
              QStringLiteral("attic stays below its ceiling for 5 years in every future"));
    EXPECT_TRUE(FillText::title(sample::box("attic", Fate::roomy), horizon, today())
                    .contains(QStringLiteral("of 20 futures")));
}

TEST(FillChart, ReadsByKeyboardMouseAndSlider) {
    Shown s;
    EXPECT_EQ(s.chart.readDate(), s.box.fill.front().date);
    QTest::keyClick(s.chart.view(), Qt::Key_Right);
    EXPECT_EQ(s.chart.readDate(), s.box.fill[1].date);
    QTest::keyClick(s.chart.view(), Qt::Key_End);
    EXPECT_EQ(s.chart.readDate(), s.box.fill.back().date);
    QTest::keyClick(s.chart.view(), Qt::Key_Right);
    EXPECT_EQ(s.chart.readDate(), s.box.fill.back().date);
    QTest::keyClick(s.chart.view(), Qt::Key_Home);
    EXPECT_EQ(s.chart.readDate(), s.box.fill.front().date);

    const QRectF plot = s.chart.plotArea();
    QTest::mouseClick(viewport_of(s.chart), Qt::LeftButton, {}, plot.center().toPoint());
    const double middle = days_between(Instant(today()), Instant(*s.chart.readDate()));
    EXPECT_NEAR(middle, horizon / 2, 14);

    auto* slider = s.chart.findChild<QSlider*>(QStringLiteral("fillReader"));
    ASSERT_NE(slider, nullptr);
    EXPECT_EQ(s.box.fill[static_cast<std::size_t>(slider->value())].date, *s.chart.readDate());
    slider->setValue(10);
    EXPECT_EQ(s.chart.readDate(), s.box.fill[10].date);
    EXPECT_TRUE(s.chart.readout().contains(Words::full_date(s.box.fill[10].date)));
    EXPECT_TRUE(
        s.chart.readout().contains(Words::bytes(s.box.fill[10].used_bytes.p50, Prefixes::decimal)));
}

TEST(FillChart, KeepsTheReadDateWhenTheAnswerIsMadeAnew) {
    Shown s;
    s.chart.readAt(s.box.fill[40].date);
    BoxOutlook again = s.box;
    again.fill[40].used_bytes.p50 *= 1.01;
    s.chart.setBox(&again, horizon, today());
    EXPECT_EQ(s.chart.readDate(), s.box.fill[40].date);
}

TEST(FillChart, SliderHandleStandsUnderTheReader) {
    Shown s;
    auto* slider = s.chart.findChild<QSlider*>(QStringLiteral("fillReader"));
    const int half = slider->style()->pixelMetric(QStyle::PM_SliderLength, nullptr, slider) / 2;
    const double left = slider->mapTo(&s.chart, QPoint(0, 0)).x() + half;
    const double plot =
        s.chart.view()->mapTo(&s.chart, QPoint(0, 0)).x() + s.chart.plotArea().left();
    EXPECT_NEAR(left, plot, 3);
}

TEST(FillChart, SurvivesClicksAndWheelAnywhere) {
    Shown s;
    QWidget* view = viewport_of(s.chart);
    for (int x = 1; x < view->width(); x += 46)
        for (int y = 1; y < view->height(); y += 37) {
            QTest::mouseClick(view, Qt::LeftButton, {}, QPoint(x, y));
            QTest::mouseClick(view, Qt::RightButton, {}, QPoint(x, y));
            QTest::mouseDClick(view, Qt::LeftButton, {}, QPoint(x, y));
            wheel(view, QPoint(x, y), x % 2 == 1 ? 120 : -120, Qt::NoModifier);
            wheel(view, QPoint(x, y), y % 2 == 1 ? 120 : -120, Qt::ControlModifier);
        }
    for (const int key : {Qt::Key_Plus, Qt::Key_Minus, Qt::Key_0, Qt::Key_PageUp, Qt::Key_PageDown})
        QTest::keyClick(s.chart.view(), static_cast<Qt::Key>(key));
    for (int i = 0; i < 60; ++i) QTest::keyClick(s.chart.view(), Qt::Key_Plus);
    for (int i = 0; i < 60; ++i) QTest::keyClick(s.chart.view(), Qt::Key_Left, Qt::ControlModifier);
    settle();
    EXPECT_GT(colours_in(picture_of(s.chart)), 10);
}

TEST(FillChart, LeavesThePlainWheelToThePageAndTakesItWithControl) {
    Shown s;
    QWidget* view = viewport_of(s.chart);
    const auto taken = [view](Qt::KeyboardModifiers keys) {
        QWheelEvent event(QPoint(90, 90), view->mapToGlobal(QPoint(90, 90)), QPoint(),
                          QPoint(0, -120), Qt::NoButton, keys, Qt::NoScrollPhase, false);
        QCoreApplication::sendEvent(view, &event);
        return event.isAccepted();
    };
    EXPECT_FALSE(taken(Qt::NoModifier));
    EXPECT_TRUE(taken(Qt::ControlModifier));
}

TEST(FillChart, ZoomsWithControlAndKeepsCalendarTicks) {
    Shown s;
    const QStringList before = s.chart.axisTexts();
    ASSERT_FALSE(before.isEmpty());
    for (int i = 0; i < 8; ++i)
        wheel(viewport_of(s.chart), s.chart.plotArea().center().toPoint(), 120,
              Qt::ControlModifier);
    const QStringList after = s.chart.axisTexts();
    EXPECT_NE(before, after);
    EXPECT_FALSE(after.isEmpty());
    QTest::keyClick(s.chart.view(), Qt::Key_0);
    EXPECT_EQ(s.chart.axisTexts(), before);
}

/// Where the texts of the axes are drawn, in the view.
std::vector<QRectF> axis_text_boxes(const FillChart& chart) {
    std::vector<QRectF> boxes;
    const auto* view = qobject_cast<QGraphicsView*>(chart.view());
    for (const QGraphicsItem* item : view->scene()->items())
        if (const auto* text = dynamic_cast<const QGraphicsTextItem*>(item);
            text && text->isVisible() && !text->toPlainText().isEmpty())
            boxes.push_back(text->sceneBoundingRect().adjusted(
                text->document()->documentMargin(), text->document()->documentMargin(),
                -text->document()->documentMargin(), -text->document()->documentMargin()));
    return boxes;
}

TEST(FillChart, TextsOfTheAxesDoNotOverlapAtAnyWidthFontOrZoom) {
    const BoxOutlook box = sample::box("attic", sample::Fate::tight);
    for (const double points : {8.0, 9.0, 14.0, 20.0})
        for (const int width : {420, 640, 900, 1700, 3600}) {
            FillChart chart;
            QFont font = chart.font();
            font.setPointSizeF(points);
            chart.setFont(font);
            chart.resize(width, static_cast<int>(points * 70));
            chart.setBox(&box, horizon, today());
            chart.show();
            settle();
            for (const double days : {horizon, 400.0, 90.0, 20.0}) {
                chart.setDayRange(100, 100 + days);
                settle();
                const auto boxes = axis_text_boxes(chart);
                ASSERT_GE(boxes.size(), 3u) << points << " pt, " << width << ", " << days << " d";
                for (std::size_t i = 0; i < boxes.size(); ++i)
                    for (std::size_t k = i + 1; k < boxes.size(); ++k)
                        ASSERT_FALSE(boxes[i].intersects(boxes[k]))
                            << points << " pt, " << width << " px, " << days << " days: "
                            << testing::PrintToString(std::vector<double>{
                                   boxes[i].left(), boxes[i].top(), boxes[i].right(), boxes[i].bottom(), boxes[k].left(),
                                   boxes[k].top(), boxes[k].right(), boxes[k].bottom()});
            }
        }
}

TEST(FillChart, OffersToShowAllDatesOnlyWhileZoomed) {
    Shown s;
    auto* all = s.chart.findChild<QPushButton*>(QStringLiteral("fillAllDates"));
    EXPECT_FALSE(all->isVisible());
    QTest::keyClick(s.chart.view(), Qt::Key_Plus);
    EXPECT_TRUE(all->isVisible());
    EXPECT_TRUE(s.chart.isZoomed());
    all->click();
    EXPECT_FALSE(s.chart.isZoomed());
    EXPECT_FALSE(all->isVisible());
}

TEST(FillChart, ADoubleClickOnADateAsksForAnEventThere) {
    Shown s;
    std::vector<Day> asked;
    QObject::connect(&s.chart, &FillChart::eventWanted, &s.chart,
                     [&](Day day) { asked.push_back(day); });
    const QRectF plot = s.chart.plotArea();
    QTest::mouseDClick(viewport_of(s.chart), Qt::LeftButton, {}, plot.center().toPoint());
    QTest::mouseDClick(viewport_of(s.chart), Qt::LeftButton, {}, QPoint(1, 1));
    ASSERT_EQ(asked.size(), 1u) << "beside the dates nothing is asked";
    EXPECT_NEAR(static_cast<double>((asked[0] - today()).count()), horizon / 2, 5);
}

TEST(FillChart, SavesThePictureAsPngOrSvgAndTheNumbers) {
    Shown s;
    QTemporaryDir folder;
    const QString png = folder.filePath(QStringLiteral("a.png")),
                  svg = folder.filePath(QStringLiteral("a.svg")),
                  csv = folder.filePath(QStringLiteral("a.csv"));
    EXPECT_EQ(s.chart.savePicture(png), QString());
    EXPECT_EQ(s.chart.savePicture(svg), QString());
    EXPECT_EQ(s.chart.saveNumbers(csv), QString());
    EXPECT_EQ(QImage(png).size(), QSize(2400, 1400));
    QFile drawn(svg), table(csv);
    ASSERT_TRUE(drawn.open(QIODevice::ReadOnly) && table.open(QIODevice::ReadOnly));
    QXmlStreamReader xml(&drawn);
    int texts = 0;
    while (!xml.atEnd())
        if (xml.readNext() == QXmlStreamReader::StartElement && xml.name() == u"text") ++texts;
    EXPECT_FALSE(xml.hasError()) << xml.errorString().toStdString();
    EXPECT_GT(texts, 10);
    const QStringList lines =
        QString::fromUtf8(table.readAll()).trimmed().split(QStringLiteral("\r\n"));
    EXPECT_EQ(lines.size(), static_cast<qsizetype>(s.box.fill.size()) + 1);
    for (const QString& line : lines) EXPECT_EQ(line.count(u','), FillTable::columns - 1);
    EXPECT_NEAR(lines[1].split(u',')[FillTable::p50].toDouble(),
                s.box.fill.front().used_bytes.p50 / 1e12, 1e-3);
    EXPECT_NE(s.chart.savePicture(folder.filePath(QStringLiteral("none/a.png"))), QString());
    s.chart.copyPicture();
    EXPECT_EQ(QApplication::clipboard()->mimeData()->data(QStringLiteral("image/svg+xml")),
              s.chart.svg());
}

TEST(FillChart, ShowsItsPartsOnRequestAndStillTheBands) {
    Shown s;
    const auto labels = s.chart.labelBoxes().size();
    const QImage with = picture_of(s.chart);
    s.chart.setPartsShown(false);
    EXPECT_LT(s.chart.labelBoxes().size(), labels);
    EXPECT_NE(with, picture_of(s.chart));
}

TEST(FillChart, UsesTheChosenPrefixesEverywhere) {
    Shown s;
    EXPECT_TRUE(s.chart.tabSeparated().contains(QStringLiteral("(TB)")));
    s.chart.setPrefixes(Prefixes::binary);
    EXPECT_TRUE(s.chart.tabSeparated().contains(QStringLiteral("(TiB)")));
    EXPECT_TRUE(s.chart.readout().contains(QStringLiteral("TiB")));
    EXPECT_FALSE(s.chart.readout().contains(QStringLiteral("TB")));
}

TEST(FillChart, CopiesNumbersAndPicture) {
    Shown s;
    s.chart.copyNumbers();
    const QStringList lines = QApplication::clipboard()->text().trimmed().split(u'\n');
    EXPECT_EQ(lines.size(), static_cast<int>(s.box.fill.size()) + 1);
    for (const QString& line : lines) EXPECT_EQ(line.count(u'\t'), FillTable::columns - 1);
    const QStringList first = lines[1].split(u'\t');
    EXPECT_EQ(first[0], QStringLiteral("2026-11-01"));
    EXPECT_NEAR(first[FillTable::p50].toDouble(), s.box.fill.front().used_bytes.p50 / 1e12, 1e-3);
    s.chart.copyPicture();
    EXPECT_FALSE(QApplication::clipboard()->image().isNull());
}

TEST(FillChart, RendersAtAnySizeAndRatio) {
    const Shown s;
    const QImage once = s.chart.renderImage(QSize(900, 500), 1),
                 twice = s.chart.renderImage(QSize(900, 500), 2);
    EXPECT_EQ(once.size(), QSize(900, 500));
    EXPECT_EQ(twice.size(), QSize(1800, 1000));
    EXPECT_DOUBLE_EQ(twice.devicePixelRatio(), 2.0);
    EXPECT_GT(colours_in(once), 20);
    EXPECT_GT(colours_in(twice), 20);
}

// The strip below the plot must hold the dates: Qt Charts places axes lazily.
TEST(FillChart, RenderedPictureHasItsDates) {
    const Shown s;
    const QImage image = s.chart.renderImage(QSize(900, 500), 1);
    const QColor surface = image.pixelColor(2, 2);
    const double em = QFontMetricsF(s.chart.font()).height();
    // Between the plot's lower edge and the note at the bottom, in the middle half of the width.
    int inked = 0;
    for (int y = static_cast<int>(500 - 4.2 * em); y < static_cast<int>(500 - 2.7 * em); ++y)
        for (int x = 225; x < 675; ++x) inked += image.pixelColor(x, y) != surface;
    EXPECT_GT(inked, 60);
}

TEST(FillChart, FollowsLightAndDark) {
    Shown s;
    const QImage light = s.chart.renderImage(QSize(600, 400), 1);
    s.chart.setPalette(dark_palette());
    settle();
    const QImage dark = s.chart.renderImage(QSize(600, 400), 1);
    EXPECT_GT(lightness_of(light), 180);
    EXPECT_LT(lightness_of(dark), 90);
    QImage shown = picture_of(*s.chart.view());
    EXPECT_LT(lightness_of(shown), 110) << "the view itself follows too";
}

TEST(FillChart, NamesItselfAndSaysItsNumbers) {
    const Shown s;
    EXPECT_EQ(s.chart.view()->accessibleName(), s.chart.title());
    const QString words = s.chart.view()->accessibleDescription();
    EXPECT_TRUE(words.contains(s.chart.title()));
    EXPECT_TRUE(words.contains(Words::bytes(s.box.usable_bytes, Prefixes::decimal)));
    EXPECT_TRUE(words.contains(QStringLiteral("old archive moves in"))) << "planned events too";
}

TEST(FillChart, ShowsItsTableOnce) {
    Shown s;
    s.chart.showTable();
    s.chart.showTable();
    settle();
    const auto dialogs = s.chart.findChildren<QDialog*>(QStringLiteral("fillTableDialog"));
    ASSERT_EQ(dialogs.size(), 1);
    auto* view = dialogs[0]->findChild<QTableView*>();
    ASSERT_NE(view, nullptr);
    EXPECT_EQ(view->model()->rowCount(), static_cast<int>(s.box.fill.size()));
    s.chart.setBox(nullptr, 1, {});
    EXPECT_EQ(view->model()->rowCount(), 0) << "the open table follows";
    dialogs[0]->close();
    settle();
    EXPECT_TRUE(s.chart.findChildren<QDialog*>(QStringLiteral("fillTableDialog")).isEmpty());
}

TEST(FillChart, SurvivesStrangeBoxes) {
    FillChart chart;
    chart.resize(600, 400);
    chart.show();
    BoxOutlook empty;
    chart.setBox(&empty, horizon, today());
    settle();
    BoxOutlook one;
    one.name = "one point";
    one.fill.push_back({today(), {}, {}, {}, 0, 0});
    chart.setBox(&one, 0, today());
    settle();
    BoxOutlook odd = sample::box("odd", Fate::tight, 20);
    odd.fill[1].used_bytes.p90 = std::numeric_limits<double>::quiet_NaN();
    odd.fill[2].used_bytes.p10 = std::numeric_limits<double>::infinity();
    chart.setBox(&odd, 20, today());
    settle();
    EXPECT_GT(colours_in(picture_of(chart)), 5);
    chart.setBox(nullptr, 1, {});
    settle();
    EXPECT_FALSE(chart.readDate());
    EXPECT_TRUE(chart.readout().isEmpty());
}

TEST(FillChart, RefillsWithoutGrowing) {
    Shown s;
    settle();
    const auto items = s.chart.view()->findChildren<QObject*>().size();
    for (int i = 0; i < 50; ++i) {
        s.chart.setBox(&s.box, horizon, today());
        s.chart.setState(i % 2 == 0 ? ShownState::updating : ShownState::ready);
    }
    settle();
    EXPECT_EQ(s.chart.view()->findChildren<QObject*>().size(), items);
}

// A box that gets drives on day 500 and larger ones on day 1100.
BoxOutlook changed_box() {
    BoxOutlook box = sample::box("attic", Fate::tight);
    box.changes = {{add_days(today(), 500), "adds a group of 4 drives of 8 TB", 52e12, 41.6e12},
                   {add_days(today(), 1100), "drives become 20 TB", 66e12, 52.8e12}};
    for (FillPoint& p : box.fill) {
        const auto day = static_cast<double>((p.date - today()).count());
        p.usable_bytes = day < 500 ? 40e12 : day < 1100 ? 52e12 : 66e12;
    }
    return box;
}

TEST(SpaceLevels, StepWhereTheBoxIsChanged) {
    const BoxOutlook box = changed_box();
    const std::vector<SpaceLevel> wanted{
        {0, 40e12, 32e12}, {500, 52e12, 41.6e12}, {1100, 66e12, 52.8e12}};
    EXPECT_EQ(space_levels(box, today()), wanted);
    EXPECT_EQ(level_at(wanted, 499.9), wanted[0]);
    EXPECT_EQ(level_at(wanted, 500), wanted[1]);
    EXPECT_EQ(level_at(wanted, 1e6), wanted[2]);
}

TEST(SpaceLevels, FollowThePointsOfABoxThatNamesNoChange) {
    BoxOutlook box = changed_box();
    box.changes.clear();
    const auto levels = space_levels(box, today());
    ASSERT_EQ(levels.size(), 3u);
    EXPECT_NEAR(levels[1].from_day, 500, 7) << "the first point that has it";
    EXPECT_DOUBLE_EQ(levels[2].ceiling_bytes, 0.8 * 66e12);
    for (FillPoint& p : box.fill) p.usable_bytes = 0;
    EXPECT_EQ(space_levels(box, today()).size(), 1u) << "not said: as today";
    EXPECT_DOUBLE_EQ(usable_then(box.fill[3], box), 40e12);
}

TEST(FillChart, CeilingAndFullAreStepsWhereTheBoxIsChanged) {
    Shown s;
    EXPECT_EQ(s.chart.fullLine().size(), 2) << "level without changes";
    const BoxOutlook box = changed_box();
    s.chart.setBox(&box, horizon, today());
    const QList<QPointF> full{{0, 40}, {500, 40}, {500, 52}, {1100, 52}, {1100, 66}, {horizon, 66}};
    const auto drawn = s.chart.fullLine();
    ASSERT_EQ(drawn.size(), full.size());
    for (qsizetype i = 0; i < full.size(); ++i) {
        EXPECT_NEAR(drawn[i].x(), full[i].x(), 1);
        EXPECT_DOUBLE_EQ(drawn[i].y(), full[i].y());
        EXPECT_DOUBLE_EQ(s.chart.ceilingLine()[i].y(), 0.8 * full[i].y());
    }
    EXPECT_TRUE(s.chart.labelTexts().contains(QStringLiteral("full, 66\u00a0TB")));
    s.chart.setDayRange(100, 700);
    EXPECT_TRUE(s.chart.labelTexts().contains(QStringLiteral("full, 52\u00a0TB")))
        << "the level at the right edge";
    EXPECT_FALSE(any_overlap(s.chart.labelBoxes()));
}

TEST(FillChart, ChangesOfTheBoxAreMarkedAndSaid) {
    Shown s;
    const auto events = s.chart.markTips().size();
    const BoxOutlook box = changed_box();
    s.chart.setBox(&box, horizon, today());
    ASSERT_EQ(s.chart.markTips().size(), events + 2);
    EXPECT_EQ(s.chart.markTips().last().replace(QChar(0x00A0), u' ').toStdString(),
              Words::full_date(box.changes[1].on).toStdString() +
                  ": drives become 20 TB; from then on 66 TB usable, ceiling 52.8 TB");
    EXPECT_TRUE(s.chart.view()->accessibleDescription().contains(
        QStringLiteral("adds a group of 4 drives of 8 TB")));
    s.chart.readAt(add_days(today(), 800));
    EXPECT_TRUE(s.chart.readout().contains(QStringLiteral("Usable then: 52\u00a0TB.")))
        << s.chart.readout().toStdString();
    s.chart.readAt(today());
    EXPECT_FALSE(s.chart.readout().contains(QStringLiteral("Usable then")));
}

TEST(FillTable, HasTheUsableSizeOfEachDate) {
    FillTable table;
    const BoxOutlook box = changed_box();
    table.setBox(box);
    EXPECT_EQ(table.index(0, FillTable::usable).data(Qt::EditRole).toDouble(), 40e12);
    EXPECT_EQ(table.index(table.rowCount() - 1, FillTable::usable).data(Qt::EditRole).toDouble(),
              66e12);
}

TEST(FillTable, KeepsTheRulesOfAModel) {
    FillTable table;
    QAbstractItemModelTester tester(&table, QAbstractItemModelTester::FailureReportingMode::Fatal);
    table.setBox(sample::box("attic", Fate::tight));
    table.setPrefixes(Prefixes::binary);
    table.setBox(sample::box("barn", Fate::roomy, 90));
    table.clear();
    table.setBox(sample::box("attic", Fate::full));
    EXPECT_GT(table.rowCount(), 200);
    EXPECT_EQ(table.columnCount(), static_cast<int>(FillTable::columns));
}

TEST(FillTable, GivesTextToReadAndNumbersToSort) {
    FillTable table;
    const BoxOutlook box = sample::box("attic", Fate::tight);
    table.setBox(box);
    const auto index = table.index(3, FillTable::p90);
    EXPECT_EQ(index.data(Qt::DisplayRole).toString(),
              QLocale().toString(box.fill[3].used_bytes.p90 / 1e12, 'f', 2));
    EXPECT_TRUE(table.headerData(FillTable::p90, Qt::Horizontal)
                    .toString()
                    .endsWith(QStringLiteral("(TB)")));
    EXPECT_DOUBLE_EQ(index.data(Qt::EditRole).toDouble(), box.fill[3].used_bytes.p90);
    EXPECT_EQ(table.index(3, FillTable::date).data(Qt::EditRole).toDate(),
              Words::date(box.fill[3].date));
    EXPECT_FALSE(index.data(Qt::ToolTipRole).toString().isEmpty());
    for (int c = 0; c < table.columnCount(); ++c)
        EXPECT_FALSE(table.headerData(c, Qt::Horizontal).toString().isEmpty());
}

// Source: IEC 80000-13 (TB = 10^12, TiB = 2^40).
TEST(ByteUnit, IsOneOfTheUnitItNames) {
    EXPECT_EQ(byte_unit(40e12, Prefixes::decimal).name, QStringLiteral("TB"));
    EXPECT_DOUBLE_EQ(byte_unit(40e12, Prefixes::decimal).bytes, 1e12);
    EXPECT_EQ(byte_unit(40e12, Prefixes::binary).name, QStringLiteral("TiB"));
    EXPECT_DOUBLE_EQ(byte_unit(40e12, Prefixes::binary).bytes, 1099511627776.0);
    EXPECT_DOUBLE_EQ(byte_unit(0, Prefixes::decimal).bytes, 1);
}

TEST(FillPictures, AreWrittenOneABoxUnderDifferentNames) {
    QTemporaryDir folder;
    Answer answer = sample::answer();
    answer.outlook.boxes[1].name = "../at/tic";
    answer.outlook.boxes[2].name = "AT TIC";
    QStringList written;
    ASSERT_TRUE(
        writeFillPictures(answer, folder.filePath(QStringLiteral("new/pictures")), &written));
    ASSERT_EQ(written.size(), 3);
    for (const QString& path : written) {
        EXPECT_EQ(QFileInfo(path).absolutePath(), folder.filePath(QStringLiteral("new/pictures")));
        const QImage image(path);
        EXPECT_EQ(image.size(), QSize(1200, 700));
        EXPECT_GT(colours_in(image), 20);
        EXPECT_GT(lightness_of(image), 180);
    }
    EXPECT_EQ(QSet<QString>(written.begin(), written.end()).size(), 3);
}

TEST(FillPictures, SayWhenTheyCannotBeWritten) {
    QTemporaryDir folder;
    const QString file = folder.filePath(QStringLiteral("file"));
    QFile blocker(file);
    ASSERT_TRUE(blocker.open(QIODevice::WriteOnly));
    EXPECT_FALSE(writeFillPictures(sample::answer(), file + QStringLiteral("/below"), nullptr));
    EXPECT_TRUE(writeFillPictures(sample::empty(), folder.path(), nullptr))
        << "no box, nothing to write";
}

}  // namespace
}  // namespace ullage
