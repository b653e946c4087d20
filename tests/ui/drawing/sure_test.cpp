// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/drawing/drawn.h"
#include "core/words/wording.h"
#include "tests/ui/sample_answer.h"
#include "ui/sure/backtest_chart.h"
#include "ui/sure/chart_section.h"
#include "ui/sure/driver_bars.h"
#include "ui/sure/scale.h"
#include "ui/sure/sure_tables.h"
#include "ui/sure/sure_text.h"
#include "ui/sure/turnover_chart.h"
#include "ui/theme/text_button.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <gtest/gtest.h>

#include <QAbstractItemModelTester>
#include <QAccessible>
#include <QApplication>
#include <QClipboard>
#include <QDialog>
#include <QPainter>
#include <QPushButton>
#include <QSignalSpy>
#include <QTableView>
#include <QTest>

#include <cmath>
#include <limits>
#include <random>

namespace ullage {
namespace {

constexpr double horizon = 5 * days_per_year;
constexpr double nan = std::numeric_limits<double>::quiet_NaN();
constexpr double infinite = std::numeric_limits<double>::infinity();

QFontMetricsF metrics() { return QFontMetricsF(QApplication::font()); }

void show(QWidget& widget, int width = 700) {
    const int height = widget.hasHeightForWidth() ? widget.heightForWidth(width) : 400;
    widget.resize(width, height);
    widget.show();
    settle();
}

QImage painted(const DrawnWidget& widget, const QSize& size, const QPalette& palette,
               qreal ratio = 1) {
    QImage image(size * ratio, QImage::Format_RGB32);
    image.setDevicePixelRatio(ratio);
    image.fill(Theme::of(palette).surface);
    QPainter painter(&image);
    widget.paintTo(painter, QRectF(QPointF(0, 0), QSizeF(size)), palette, QApplication::font());
    painter.end();
    return image;
}

// Scale ------------------------------------------------------------------------------------------

TEST(Scale, MapsThereAndBack) {
    std::mt19937 random(7);
    for (int round = 0; round < 500; ++round) {
        const bool log = round % 2 == 0;
        const double from = std::uniform_real_distribution<>(log ? 0.001 : -50, 10)(random);
        const Scale scale{from, from + std::uniform_real_distribution<>(1, 1e6)(random),
                          std::uniform_real_distribution<>(0, 300)(random),
                          std::uniform_real_distribution<>(320, 900)(random), log};
        const double share = std::uniform_real_distribution<>(0, 1)(random);
        const double value = log ? scale.from * std::pow(scale.to / scale.from, share)
                                 : scale.from + share * (scale.to - scale.from);
        EXPECT_NEAR(scale.unmap(scale.map(value)), value, 1e-9 * (1 + std::abs(value)));
    }
}

TEST(Scale, HoldsWhatLiesOutsideAndWhatIsNoNumber) {
    const Scale log{0.1, 1000, 500, 100, true};
    EXPECT_DOUBLE_EQ(log.map(0), 500);
    EXPECT_DOUBLE_EQ(log.map(-3), 500);
    EXPECT_DOUBLE_EQ(log.map(1e9), 100);
    EXPECT_DOUBLE_EQ(log.map(infinite), 100);
    EXPECT_DOUBLE_EQ(log.map(nan), 500);
    EXPECT_DOUBLE_EQ(log.unmap(900), 0.1);
}

TEST(SpanMarks, AreAllThereWithRoomAndNeverTouch) {
    const auto texts = [](double pixels) {
        QStringList found;
        std::vector<QRectF> boxes;
        const Scale days{1.0 / 24, horizon, 0, pixels, true};
        for (const AxisMark& mark : span_marks(days, metrics())) {
            found << mark.text;
            const double w = metrics().horizontalAdvance(mark.text);
            boxes.emplace_back(days.map(mark.value) - w / 2, 0, w, 10);
        }
        EXPECT_FALSE(any_overlap(boxes)) << pixels;
        return found;
    };
    EXPECT_EQ(texts(600).join(u'|'), QStringLiteral("1 h|1 d|1 w|1 month|1 y|5 y"));
    for (double pixels = 10; pixels < 600; pixels += 17) EXPECT_GE(texts(pixels).size(), 1);
    EXPECT_TRUE(texts(120).contains(QStringLiteral("1 d")));
}

TEST(SizeMarks, AreRoundRiseAndKeepToTheCount) {
    std::mt19937 random(9);
    for (const Prefixes prefixes : {Prefixes::decimal, Prefixes::binary})
        for (int round = 0; round < 300; ++round) {
            const double from = std::pow(10, std::uniform_real_distribution<>(0, 14)(random));
            const double to = from * std::pow(10, std::uniform_real_distribution<>(0.3, 6)(random));
            const int most = std::uniform_int_distribution<>(2, 9)(random);
            const auto marks = size_marks(from, to, most, prefixes);
            EXPECT_LE(static_cast<int>(marks.size()), most);
            for (std::size_t i = 0; i < marks.size(); ++i) {
                EXPECT_GE(marks[i].value, from * 0.99);
                EXPECT_LE(marks[i].value, to * 1.01);
                if (i > 0) {
                    EXPECT_GT(marks[i].value, marks[i - 1].value);
                }
                EXPECT_FALSE(marks[i].text.contains(u'.')) << marks[i].text.toStdString();
            }
        }
}

TEST(EvenSizeMarks, StandAtEqualDistancesAndSayTheirUnit) {
    const auto marks = even_size_marks(0, 130e9, 4, Prefixes::decimal);
    ASSERT_GE(marks.size(), 2u);
    EXPECT_EQ(marks[0].value, 0);
    for (std::size_t i = 1; i < marks.size(); ++i)
        EXPECT_NEAR(marks[i].value - marks[i - 1].value, marks[1].value, 1);
    for (const AxisMark& mark : marks) EXPECT_TRUE(mark.text.endsWith(QStringLiteral("GB")));
    const auto about_zero = even_size_marks(-3e9, 5e9, 4, Prefixes::binary);
    EXPECT_TRUE(std::any_of(about_zero.begin(), about_zero.end(),
                            [](const AxisMark& m) { return m.value == 0; }));
    EXPECT_TRUE(even_size_marks(5, 5, 4, Prefixes::decimal).empty());
}

// Values -----------------------------------------------------------------------------------------

TEST(CurveAt, LiesBetweenItsNeighboursAndIsHeldAtTheEnds) {
    const auto band = sample::measured_dataset("imaging").curve_band;
    EXPECT_FALSE(curve_at({}, 3));
    EXPECT_EQ(curve_at(band, 1e-9), band.front());
    EXPECT_EQ(curve_at(band, 1e9), band.back());
    for (std::size_t i = 1; i < band.size(); ++i) {
        const double gap = std::sqrt(band[i - 1].gap_days * band[i].gap_days);
        const auto at = curve_at(band, gap);
        EXPECT_DOUBLE_EQ(at->gap_days, gap);
        // Half way in the logarithm of the gap is the geometric mean of the bytes.
        EXPECT_NEAR(at->p50, std::sqrt(band[i - 1].p50 * band[i].p50), 1e-6 * at->p50);
        EXPECT_LE(at->p10, at->p50);
        EXPECT_LE(at->p50, at->p90);
    }
    EXPECT_DOUBLE_EQ(curve_at({{1, 0, 0, 0}, {4, 0, 8, 16}}, 2)->p50, 4) << "no logarithm of zero";
}

TEST(MeasuredSpan, RunsFromTheShortestStepToTheLongestGap) {
    EXPECT_FALSE(measured_span(sample::assumed_dataset("letters")));
    const auto span = measured_span(sample::measured_dataset("imaging"));
    ASSERT_TRUE(span);
    EXPECT_DOUBLE_EQ(span->from_days, 1);
    EXPECT_DOUBLE_EQ(span->to_days, 60);
    EXPECT_TRUE(span->holds(1) && span->holds(60));
    EXPECT_FALSE(span->holds(0.5));
    EXPECT_FALSE(span->holds(61));
}

TEST(CountInside, CountsWhatLayWithinEveryForecastsBand) {
    const auto backtest = *sample::measured_dataset("imaging").backtest;
    EXPECT_EQ(count_inside(backtest, Figure::live), (InsideCount{14, 18}));
    EXPECT_EQ(count_inside(backtest, Figure::freed), (InsideCount{17, 18}));
    ForecastThen edge;
    edge.p10 = 3;
    edge.p90 = 5;
    edge.came = 5;
    EXPECT_TRUE(lies_within(edge)) << "the edge belongs to the band";
    edge.came = 5.1;
    EXPECT_FALSE(lies_within(edge));
}

TEST(Drivers, AreThoseOfTheBoxTheWidestFirst) {
    const Answer a = sample::sure();
    const auto attic = drivers_of(a.outlook, "attic");
    ASSERT_EQ(attic.size(), 3u);
    EXPECT_EQ(english(attic[0].input), "growth of “imaging”");
    EXPECT_EQ(english(attic[1].input), "turnover of “imaging” beyond 60 days");
    EXPECT_EQ(english(attic[2].input), "growth of “mail”");
    const auto barn = drivers_of(a.outlook, "barn");
    ASSERT_EQ(barn.size(), 2u);
    EXPECT_EQ(english(barn[0].input), "growth of “letters”") << "past the horizon counts as the horizon";
    EXPECT_TRUE(drivers_of(a.outlook, "shed").empty());
}

TEST(SoonestBox, IsTheFirstToReachItsCeilingOfThoseWithDrivers) {
    Answer a = sample::sure();
    EXPECT_EQ(a.outlook.boxes[static_cast<std::size_t>(soonest_box(a.outlook))].name, "attic");
    a.outlook.drivers.clear();
    EXPECT_EQ(a.outlook.boxes[static_cast<std::size_t>(soonest_box(a.outlook))].name, "shed");
    a.outlook.boxes.clear();
    EXPECT_EQ(soonest_box(a.outlook), -1);
}

TEST(ChosenOrigins, AreEvenlyAmongThemWithTheOldestAndTheNewest) {
    for (std::size_t count = 0; count < 40; ++count) {
        const auto chosen = chosen_origins(count);
        ASSERT_EQ(chosen.size(), std::min<std::size_t>(count, most_panels));
        if (count == 0) continue;
        EXPECT_EQ(chosen.front(), 0u);
        EXPECT_EQ(chosen.back(), count - 1);
        for (std::size_t i = 1; i < chosen.size(); ++i) {
            EXPECT_GT(chosen[i], chosen[i - 1]);
            const auto step = static_cast<double>(chosen[i] - chosen[i - 1]);
            EXPECT_NEAR(
                step, static_cast<double>(count - 1) / (static_cast<double>(chosen.size()) - 1), 1);
        }
    }
    EXPECT_EQ(chosen_origins(7, 1), std::vector<std::size_t>{6});
}

// Words ------------------------------------------------------------------------------------------

QString plain(QString text) { return text.replace(QChar(0x00A0), u' '); }

TEST(SureText, SaysGapsAsPeopleDo) {
    EXPECT_EQ(plain(SureText::gap(1.0 / 24)), QStringLiteral("1.0 h"));
    EXPECT_EQ(plain(SureText::gap(1)), QStringLiteral("1 day"));
    EXPECT_EQ(plain(SureText::gap(1.4)), QStringLiteral("1.4 days"));
    EXPECT_EQ(plain(SureText::gap(60.2)), QStringLiteral("60 days"));
    EXPECT_EQ(SureText::gap(365.25 * 5), Words::span(365.25 * 5));
}

TEST(SureText, TheTurnoversTitleIsTheAnswer) {
    const DatasetOutlook d = sample::measured_dataset("imaging");
    const auto at = curve_at(d.curve_band, 30);
    EXPECT_EQ(
        plain(SureText::turnoverTitle(d, Prefixes::decimal)),
        plain(QStringLiteral("After 30 days about %1 of “imaging” have been replaced; measured "
                             "up to 60 days")
                  .arg(Words::bytes(at->p50, Prefixes::decimal, 2))));
    EXPECT_TRUE(SureText::turnoverTitle(d, Prefixes::binary).contains(QStringLiteral("GiB")));
    EXPECT_TRUE(SureText::turnoverTitle(sample::assumed_dataset("letters"), Prefixes::decimal)
                    .endsWith(QStringLiteral("nothing was measured")));
    DatasetOutlook none;
    none.name = "x";
    EXPECT_EQ(SureText::turnoverTitle(none, Prefixes::decimal),
              QStringLiteral("No turnover curve of “x”"));
    EXPECT_TRUE(
        SureText::noTurnover(none).startsWith(QStringLiteral("No listing: nothing was measured")));
    none.measured = true;
    EXPECT_TRUE(SureText::noTurnover(none).contains(QStringLiteral("no two snapshots")));
    none.observed_days = 60;
    EXPECT_TRUE(
        plain(SureText::noTurnover(none)).contains(QStringLiteral("gaps of up to 60 days")));
    none.curve_band = {{1, 0, 0, 0}, {100, 0, 0, 0}};
    EXPECT_TRUE(SureText::turnoverTitle(none, Prefixes::decimal)
                    .contains(QStringLiteral("nothing of “x”")));
}

TEST(SureText, SaysWhatIsExtrapolatedAndWhatIsAssumed) {
    const DatasetOutlook d = sample::measured_dataset("imaging");
    const auto words = [&](double gap) {
        return SureText::curvePoint(*curve_at(d.curve_band, gap), d, Prefixes::decimal);
    };
    EXPECT_FALSE(words(20).contains(QStringLiteral("Extrapolated")));
    EXPECT_TRUE(words(61).endsWith(QStringLiteral("Extrapolated.")));
    EXPECT_TRUE(words(0.2).endsWith(QStringLiteral("Extrapolated."))) << "shorter than any step";
    const DatasetOutlook assumed = sample::assumed_dataset("letters");
    EXPECT_TRUE(SureText::curvePoint(assumed.curve_band[3], assumed, Prefixes::decimal)
                    .endsWith(QStringLiteral("Assumed.")));
    EXPECT_TRUE(SureText::turnoverNote(assumed).startsWith(
        QStringLiteral("No listing: nothing was measured")));
    EXPECT_TRUE(
        plain(SureText::turnoverNote(d))
            .startsWith(QStringLiteral("Below 1 day and beyond 60 days nothing was measured")));
}

TEST(SureText, AStepSeenOnceHasNoSpread) {
    const DatasetOutlook d = sample::one_step_dataset("mail");
    EXPECT_EQ(plain(SureText::step(d.measured_steps[0], Prefixes::decimal)),
              QStringLiteral("Measured once over 1 day: 500 MB freed."));
}

TEST(SureText, TheBacktestsTitleCountsWhatCame) {
    const DatasetOutlook d = sample::measured_dataset("imaging");
    EXPECT_EQ(
        plain(SureText::backtestTitle(d, Figure::live)),
        QStringLiteral("Live bytes of “imaging”: 14 of 18 that came lay within the forecast's "
                       "80 % band"));
    EXPECT_TRUE(SureText::backtestTitle(d, Figure::freed).contains(QStringLiteral("17 of 18")));
    EXPECT_TRUE(SureText::backtestTitle(sample::one_step_dataset("mail"), Figure::live)
                    .startsWith(QStringLiteral("No earlier forecast")));
    EXPECT_TRUE(SureText::noBacktest(sample::one_step_dataset("mail"))
                    .contains(QStringLiteral("long enough")));
    EXPECT_TRUE(SureText::noBacktest(sample::assumed_dataset("letters"))
                    .startsWith(QStringLiteral("No listing")));
}

TEST(SureText, AForecastSaysWhereWhatCameLay) {
    const auto backtest = *sample::measured_dataset("imaging").backtest;
    const auto words = [&](double came) {
        ForecastThen f = backtest.origins[0].live[0];
        f.came = came;
        return SureText::forecast(backtest.origins[0], f, Prefixes::decimal);
    };
    const ForecastThen& f = backtest.origins[0].live[0];
    EXPECT_TRUE(words(f.p50).endsWith(QStringLiteral("within the band.")));
    EXPECT_TRUE(words(f.p10 - 1).endsWith(QStringLiteral("below the band.")));
    EXPECT_TRUE(words(f.p90 + 1).endsWith(QStringLiteral("above the band.")));
    EXPECT_TRUE(words(f.p50).contains(Words::bytes(f.p50, Prefixes::decimal, 4)));
}

TEST(SureText, DriversNeverGiveADayToWhatDoesNotCome) {
    const auto drivers = sample::drivers();
    EXPECT_EQ(SureText::driverRange(drivers[0], horizon),
              QStringLiteral("about 14 months to about 2.5 years"))
        << "the sooner end first";
    EXPECT_EQ(SureText::driverRange(drivers[3], horizon),
              QStringLiteral("about 3.6 years, or not within 5 years"));
    EXPECT_EQ(SureText::driverRange(drivers[4], horizon), QStringLiteral("not within 5 years"));
    EXPECT_TRUE(SureText::driver(drivers[3], horizon)
                    .contains(QStringLiteral(
                        "at its low value the ceiling is not reached within 5 years")));
    EXPECT_TRUE(plain(SureText::driver(drivers[0], horizon))
                    .contains(QStringLiteral("61 % of the spread")));
}

TEST(SureText, SaysWhyABoxHasNoDrivers) {
    using sample::Fate;
    const auto why = [](Fate fate) { return SureText::noDrivers(sample::box("b", fate), horizon); };
    EXPECT_TRUE(why(Fate::over).contains(QStringLiteral("already")));
    EXPECT_TRUE(why(Fate::endless).contains(QStringLiteral("in every future")));
    EXPECT_TRUE(why(Fate::tight).contains(QStringLiteral("was not worked out")));
}

TEST(SureText, AsksForWiderBandsOnlyWherePastErrorsDid) {
    DatasetOutlook d = sample::measured_dataset("imaging");
    EXPECT_TRUE(SureText::stretched(d).contains(QStringLiteral("1.38 times as wide")));
    for (const double stretch : {1.0, 1.05, 0.0, nan}) {
        d.stretch = stretch;
        EXPECT_TRUE(SureText::stretched(d).isEmpty()) << stretch;
    }
}

// Tables -----------------------------------------------------------------------------------------

void expect_sound(const NumberTable::Content& content) {
    NumberTable table;
    const QAbstractItemModelTester tester(&table,
                                          QAbstractItemModelTester::FailureReportingMode::Fatal);
    table.setContent(content);
    EXPECT_EQ(table.rowCount(), static_cast<int>(content.rows.size()));
    for (const auto& row : content.rows)
        EXPECT_EQ(static_cast<qsizetype>(row.size()), content.header.size());
    const QStringList lines = table.tabSeparated().chopped(1).split(u'\n');
    EXPECT_EQ(lines.size(), table.rowCount() + 1);
    for (const QString& line : lines)
        EXPECT_EQ(line.count(u'\t'), content.header.size() - 1) << line.toStdString();
}

TEST(SureTables, TurnoverHoldsEveryStepAndEveryPoint) {
    const DatasetOutlook d = sample::measured_dataset("imaging");
    const auto content = SureTables::turnover(d, Prefixes::decimal);
    expect_sound(content);
    ASSERT_EQ(content.rows.size(), d.measured_steps.size() + d.curve_band.size());
    EXPECT_EQ(content.rows[0][0].text, QStringLiteral("measured"));
    EXPECT_DOUBLE_EQ(content.rows[0][3].value.toDouble(), d.measured_steps[0].freed_bytes);
    EXPECT_DOUBLE_EQ(content.rows[0][5].value.toDouble(), d.measured_steps[0].steps);
    EXPECT_EQ(content.rows[5][0].text, QStringLiteral("curve, extrapolated"));
    EXPECT_EQ(content.rows.back()[0].text, QStringLiteral("curve, extrapolated"));
    EXPECT_TRUE(std::any_of(content.rows.begin(), content.rows.end(), [](const auto& row) {
        return row[0].text == QStringLiteral("curve");
    }));
    EXPECT_TRUE(
        SureTables::turnover(d, Prefixes::binary).header[2].contains(QStringLiteral("GiB")));
    EXPECT_EQ(SureTables::turnover(sample::assumed_dataset("x"), Prefixes::decimal).rows[0][0].text,
              QStringLiteral("curve, assumed"));
    expect_sound(SureTables::turnover({}, Prefixes::decimal));
}

TEST(SureTables, BacktestHoldsEveryForecastOfEveryOriginDrawnOrNot) {
    const DatasetOutlook d = sample::measured_dataset("imaging");
    const auto content = SureTables::backtest(d, Figure::live, Prefixes::decimal);
    expect_sound(content);
    ASSERT_EQ(content.rows.size(), 18u);
    EXPECT_EQ(content.rows[0][0].plain, QStringLiteral("2025-12-06"));
    EXPECT_NEAR(content.rows[0][7].value.toDouble(), d.backtest->origins[0].live[0].came, 1);
    EXPECT_EQ(content.rows[0][8].text, QStringLiteral("yes"));
    EXPECT_EQ(content.rows[17][8].text, QStringLiteral("no"));
    expect_sound(
        SureTables::backtest(sample::one_step_dataset("m"), Figure::freed, Prefixes::decimal));
}

TEST(SureTables, DriversSayInWordsWhatDoesNotCome) {
    const auto content = SureTables::drivers(sample::drivers());
    expect_sound(content);
    ASSERT_EQ(content.rows.size(), 5u);
    EXPECT_DOUBLE_EQ(content.rows[0][1].value.toDouble(), 905);
    EXPECT_EQ(content.rows[3][1].text, QStringLiteral("not within the horizon"));
    EXPECT_EQ(content.rows[0][3].text, QStringLiteral("61"));
}

TEST(NumberTable, KeepsSignificantDigitsAndGroupsOnlyForTheEye) {
    using Cell = NumberTable::Cell;
    EXPECT_EQ(Cell::number(0.0123456, 1).text, QStringLiteral("0.0123"));
    EXPECT_EQ(Cell::number(12345.6, 1).text, QStringLiteral("12,346"));
    EXPECT_EQ(Cell::number(12345.6, 1).plain, QStringLiteral("12345.6"));
    EXPECT_EQ(Cell::number(0, 1).text, QStringLiteral("0"));
    EXPECT_EQ(Cell::number(nan, 1).text, QStringLiteral("?"));
    EXPECT_DOUBLE_EQ(Cell::number(5e9, 1e9).value.toDouble(), 5e9) << "the bare number";
}

// Turnover ---------------------------------------------------------------------------------------

struct ShownTurnover {
    explicit ShownTurnover(DatasetOutlook d = sample::measured_dataset("imaging"), int width = 700)
        : dataset(std::move(d)) {
        chart.setDataset(&dataset);
        show(chart, width);
    }
    TurnoverGeometry geometry() const { return chart.geometryFor(chart.width(), chart.font()); }
    DatasetOutlook dataset;
    TurnoverChart chart;
};

TEST(TurnoverChart, LabelsAtTheEdgeDoNotOverlapAndStayInside) {
    for (const auto& d : {sample::measured_dataset("a"), sample::assumed_dataset("b"),
                          sample::one_step_dataset("c")})
        for (const int width : {320, 500, 700, 1400}) {
            const ShownTurnover s(d, width);
            const auto g = s.geometry();
            ASSERT_EQ(g.labels.size(), 3u);
            std::vector<QRectF> boxes;
            for (const EdgeLabel& label : g.labels) boxes.push_back(label.place);
            EXPECT_FALSE(any_overlap(boxes));
            for (const QRectF& box : boxes) {
                EXPECT_GT(box.left(), g.plot.right());
                EXPECT_LE(box.right(), width + 0.5);
            }
            EXPECT_LE(g.beyond_place.right(), width);
            std::vector<QRectF> words;
            for (const QRectF& place : {g.before_place, g.measured_place, g.beyond_place})
                if (!place.isEmpty()) words.push_back(place);
            EXPECT_FALSE(any_overlap(words));
            for (const auto& entry : g.key.entries) {
                EXPECT_LE(entry.words.right(), width + 0.5);
                EXPECT_LE(entry.words.bottom(), g.height);
            }
        }
}

TEST(TurnoverChart, MarksWhereMeasurementBeginsAndEnds) {
    const auto g = ShownTurnover().geometry();
    EXPECT_DOUBLE_EQ(g.measured_start, g.days.map(1));
    EXPECT_DOUBLE_EQ(g.measured_end, g.days.map(60));
    EXPECT_EQ(g.beyond_words, QStringLiteral("extrapolated"));
    EXPECT_GE(g.beyond_place.left(), g.measured_end);
    const auto assumed = ShownTurnover(sample::assumed_dataset("letters")).geometry();
    EXPECT_DOUBLE_EQ(assumed.measured_end, assumed.plot.left());
    EXPECT_TRUE(assumed.measured_words.isEmpty());
    EXPECT_TRUE(assumed.before_place.isEmpty());
    EXPECT_FALSE(g.before_place.isEmpty());
    EXPECT_LE(g.before_place.right(), g.measured_start);
    EXPECT_EQ(assumed.beyond_words, QStringLiteral("assumed, not measured"));
}

TEST(TurnoverChart, HatchesInGreyWhatWasNotMeasured) {
    const ShownTurnover s;
    const auto g = s.geometry();
    for (const QPalette& palette : {light_palette(), dark_palette()}) {
        const QImage image =
            painted(s.chart, s.chart.size(), palette).convertToFormat(QImage::Format_Grayscale8);
        // Between two marks of time, away from curve and grid: high up left, low down right.
        const auto differ = [&](double from_days, double to_days, double top, double height) {
            int changes = 0;
            const int y = static_cast<int>(top + height);
            for (int x = static_cast<int>(g.days.map(from_days)) + 3;
                 x < static_cast<int>(g.days.map(to_days)) - 3; ++x)
                changes += std::abs(qGray(image.pixel(x, y)) - qGray(image.pixel(x - 1, y))) > 6;
            return changes;
        };
        EXPECT_GT(differ(70, 300, g.plot.bottom(), -4), 8) << "beyond";
        EXPECT_GT(differ(0.06, 0.9, g.plot.top(), 4), 8) << "shorter than the shortest step";
        EXPECT_EQ(differ(1.5, 6, g.plot.bottom(), -4), 0) << "measured";
    }
}

TEST(TurnoverChart, ReadsTheNearestAndGoesFromValueToValue) {
    ShownTurnover s;
    const auto all = s.chart.readings();
    ASSERT_EQ(all.size(), s.dataset.measured_steps.size() + s.dataset.curve_band.size());
    for (std::size_t i = 1; i < all.size(); ++i) EXPECT_GE(all[i].at.x(), all[i - 1].at.x());
    for (const auto& reading : all) {
        const int found = s.chart.nearest(reading.at);
        ASSERT_GE(found, 0);
        EXPECT_EQ(all[static_cast<std::size_t>(found)].at, reading.at);
    }
    EXPECT_EQ(s.chart.nearest(QPointF(-500, -500)), -1);

    QSignalSpy told(&s.chart, &ReadChart::readoutChanged);
    QTest::mouseMove(&s.chart, all[6].at.toPoint());
    settle();
    EXPECT_GE(told.count(), 1);
    EXPECT_FALSE(s.chart.readout().isEmpty());
    QTest::mouseClick(&s.chart, Qt::LeftButton, {}, all[9].at.toPoint());
    QEvent leave(QEvent::Leave);
    QCoreApplication::sendEvent(&s.chart, &leave);
    EXPECT_FALSE(s.chart.readout().isEmpty()) << "a press keeps it";
    s.chart.setFocus();
    QTest::keyClick(&s.chart, Qt::Key_Home);
    EXPECT_EQ(s.chart.readout(), all.front().words);
    QTest::keyClick(&s.chart, Qt::Key_Right);
    EXPECT_EQ(s.chart.readout(), all[1].words);
    QTest::keyClick(&s.chart, Qt::Key_End);
    QTest::keyClick(&s.chart, Qt::Key_Right);
    EXPECT_EQ(s.chart.readout(), all.back().words);
    EXPECT_TRUE(s.chart.accessibleDescription().contains(all.back().words));
    s.chart.setDataset(&s.dataset);
    EXPECT_EQ(s.chart.readout(), all.back().words) << "made anew, the same value is read";
    QTest::keyClick(&s.chart, Qt::Key_Escape);
    EXPECT_TRUE(s.chart.readout().isEmpty());
    s.chart.read(2);
    const DatasetOutlook other = sample::assumed_dataset("letters");
    s.chart.setDataset(&other);
    EXPECT_TRUE(s.chart.readout().isEmpty()) << "another dataset is read from the start";
}

TEST(TurnoverChart, NamesItselfAndSaysItsNumbers) {
    ShownTurnover s;
    EXPECT_EQ(s.chart.accessibleName(), s.chart.title());
    const QString words = s.chart.accessibleDescription();
    for (const MeasuredStep& step : s.dataset.measured_steps)
        EXPECT_TRUE(words.contains(SureText::step(step, Prefixes::decimal)));
    EXPECT_TRUE(words.contains(QStringLiteral("Extrapolated.")));
    QAccessibleInterface* face = QAccessible::queryAccessibleInterface(&s.chart);
    ASSERT_NE(face, nullptr);
    EXPECT_EQ(face->role(), QAccessible::Graphic);
    s.chart.setState(ShownState::updating);
    EXPECT_TRUE(s.chart.accessibleDescription().startsWith(QStringLiteral("Updating")));
    s.chart.setPrefixes(Prefixes::binary);
    EXPECT_TRUE(s.chart.title().contains(QStringLiteral("GiB")));
    EXPECT_TRUE(s.chart.accessibleName().contains(QStringLiteral("GiB")));
}

TEST(TurnoverChart, SurvivesStrangeCurvesAndSizes) {
    DatasetOutlook zeros = sample::one_step_dataset("zeros");
    zeros.curve_band = {{1, 0, 0, 0}, {10, 0, 0, 0}};
    zeros.measured_steps = {{1, 0, 0, 0, 3}};
    DatasetOutlook odd = sample::measured_dataset("odd");
    odd.curve_band[3] = {nan, infinite, nan, -1};
    odd.measured_steps[0].low_bytes = 0;
    odd.observed_days = 1e9;
    DatasetOutlook steps_only = sample::one_step_dataset("steps");
    steps_only.curve_band.clear();
    DatasetOutlook flat = sample::assumed_dataset("flat");
    flat.curve_band = {{5, 7e9, 7e9, 7e9}};
    for (const DatasetOutlook& d : {zeros, odd, steps_only, flat}) {
        TurnoverChart chart;
        chart.setDataset(&d);
        EXPECT_TRUE(chart.hasData());
        for (const QSize size : {QSize(1, 1), QSize(60, 40), QSize(700, 400), QSize(6000, 3000)})
            EXPECT_FALSE(painted(chart, size, light_palette()).isNull());
        EXPECT_GT(colours_in(painted(chart, QSize(700, 400), light_palette())), 3) << d.name;
        for (const auto& reading : chart.readings()) {
            EXPECT_TRUE(std::isfinite(reading.at.x()) && std::isfinite(reading.at.y()));
        }
    }
}

// Backtest ---------------------------------------------------------------------------------------

TEST(BacktestChart, DrawsAtMostFourPanelsOnTheSameScales) {
    for (const Figure figure : {Figure::live, Figure::freed}) {
        BacktestChart chart(figure);
        const DatasetOutlook d = sample::measured_dataset("imaging");
        chart.setDataset(&d);
        for (const int width : {260, 420, 700, 1500}) {
            show(chart, width);
            const auto g = chart.geometryFor(width, chart.font());
            ASSERT_EQ(g.panels.size(), 4u);
            std::vector<QRectF> plots;
            for (const auto& panel : g.panels) {
                plots.push_back(panel.plot);
                EXPECT_EQ(panel.days.to, g.panels[0].days.to);
                EXPECT_EQ(panel.bytes.to, g.panels[0].bytes.to);
                EXPECT_LE(panel.plot.right(), width + 40.0);
                EXPECT_FALSE(panel.name.intersects(panel.plot));
                EXPECT_LE(panel.bytes.from, 0);
            }
            EXPECT_FALSE(any_overlap(plots)) << width;
            const auto beside = [&](const QRectF& plot) {
                return std::count_if(plots.begin(), plots.end(), [&](const QRectF& other) {
                    return other.top() == plot.top();
                });
            };
            EXPECT_LE(beside(plots.front()) - beside(plots.back()), 1)
                << "no panel stands alone beneath a row of others";
            EXPECT_GE(chart.height(), g.key.entries.back().words.bottom() - 0.5);
        }
        EXPECT_EQ(chart.caution(),
                  QStringLiteral("Drawn are 4 of 6 forecasts; the table has all."));
        EXPECT_EQ(chart.readings().size(), 12u);
        EXPECT_EQ(chart.accessibleName(), chart.title());
        EXPECT_TRUE(chart.accessibleDescription().contains(chart.title()));
    }
}

TEST(BacktestChart, LiveBytesStartAtTheirChangeOfNothing) {
    BacktestChart chart(Figure::live);
    DatasetOutlook d = sample::measured_dataset("imaging");
    d.backtest->origins.resize(1);
    d.backtest->origins[0].live[0].came = d.backtest->origins[0].live_bytes;
    chart.setDataset(&d);
    show(chart);
    const auto g = chart.geometryFor(chart.width(), chart.font());
    EXPECT_NEAR(chart.readings()[0].at.y(), g.panels[0].bytes.map(0), 1e-9);
    EXPECT_EQ(g.panels.size(), 1u);
    EXPECT_TRUE(chart.caution().isEmpty());
}

TEST(BacktestChart, LeavesOutOriginsWithoutAForecastAndSurvivesNone) {
    BacktestChart chart(Figure::freed);
    DatasetOutlook d = sample::measured_dataset("imaging");
    d.backtest->origins[2].freed.clear();
    chart.setDataset(&d);
    EXPECT_EQ(chart.readings().size(), 12u);
    for (auto& origin : d.backtest->origins) origin.freed.clear();
    chart.setDataset(&d);
    EXPECT_FALSE(chart.hasData());
    EXPECT_TRUE(chart.title().startsWith(QStringLiteral("No earlier forecast")));
    EXPECT_FALSE(painted(chart, QSize(300, 200), dark_palette()).isNull());
    DatasetOutlook odd = sample::measured_dataset("odd");
    odd.backtest->origins[0].freed = {{odd.backtest->origins[0].origin, 0, nan, 0, infinite, 0}};
    chart.setDataset(&odd);
    for (const QSize size : {QSize(1, 1), QSize(80, 60), QSize(5000, 900)})
        EXPECT_FALSE(painted(chart, size, light_palette()).isNull());
    chart.setDataset(nullptr);
    EXPECT_FALSE(chart.hasData());
    EXPECT_FALSE(chart.accessibleName().isEmpty());
}

TEST(BacktestChart, DrawsWhatMissedInAnotherShapeNotOnlyColour) {
    BacktestChart chart(Figure::live);
    DatasetOutlook d = sample::measured_dataset("imaging");
    d.backtest->origins.resize(1);
    d.backtest->origins[0].live.resize(1);
    ForecastThen& f = d.backtest->origins[0].live[0];
    const auto centre_is_filled = [&](double came) {
        f.came = came;
        chart.setDataset(&d);
        show(chart);
        const QImage image = painted(chart, chart.size(), light_palette())
                                 .convertToFormat(QImage::Format_Grayscale8);
        return qGray(image.pixel(chart.readings()[0].at.toPoint())) < 128;
    };
    EXPECT_TRUE(centre_is_filled(f.p50));
    EXPECT_FALSE(centre_is_filled(f.p90 + 2 * (f.p90 - f.p50)));
}

// Drivers ----------------------------------------------------------------------------------------

struct ShownDrivers {
    explicit ShownDrivers(const std::string& name, int width = 700) {
        const Answer a = sample::sure();
        for (const BoxOutlook& b : a.outlook.boxes)
            if (b.name == name) box = b;
        bars.setBox(&box, drivers_of(a.outlook, name), a.outlook.horizon_days);
        show(bars, width);
    }
    DriversGeometry geometry() const { return bars.geometryFor(bars.width(), bars.font()); }
    BoxOutlook box;
    DriverBars bars;
};

TEST(DriverBars, RunFromOneEndToTheOtherAroundTheMiddle) {
    for (const int width : {300, 700, 1400}) {
        const ShownDrivers s("attic", width);
        const auto g = s.geometry();
        ASSERT_EQ(g.rows.size(), 3u);
        ASSERT_TRUE(g.middle);
        double wider = std::numeric_limits<double>::infinity();
        for (std::size_t i = 0; i < g.rows.size(); ++i) {
            const DriverRow& row = g.rows[i];
            const Driver& d = s.bars.drivers()[i];
            EXPECT_DOUBLE_EQ(*row.low, g.track.x(*d.low_days));
            EXPECT_DOUBLE_EQ(*row.high, g.track.x(*d.high_days));
            EXPECT_NEAR(row.bar.left(), std::min(*row.low, *row.high), 1e-9);
            EXPECT_NEAR(row.bar.right(), std::max(*row.low, *row.high), 1e-9);
            EXPECT_LE(row.bar.width(), wider) << "sorted by effect";
            wider = row.bar.width();
            EXPECT_FALSE(any_overlap({row.name_place, row.range_place, row.bar}));
            EXPECT_LE(row.range_place.right(), width);
            EXPECT_FALSE(row.later);
        }
        EXPECT_LE(g.middle_place.right(), width);
        EXPECT_GE(g.height, g.key.entries.back().words.bottom());
    }
}

TEST(DriverBars, PutNoDayAtTheHorizonForWhatDoesNotCome) {
    const ShownDrivers s("barn");
    const auto g = s.geometry();
    ASSERT_EQ(g.rows.size(), 2u);
    EXPECT_FALSE(g.rows[0].low);
    EXPECT_TRUE(g.rows[0].high);
    EXPECT_TRUE(g.rows[0].later);
    EXPECT_FALSE(g.rows[1].low || g.rows[1].high);
    EXPECT_EQ(g.rows[1].bar.width(), 0);
    EXPECT_DOUBLE_EQ(g.track.horizon_days, horizon);
    EXPECT_EQ(g.key.entries.size(), 3u) << "the arrow is explained";
    EXPECT_TRUE(
        s.bars.accessibleDescription().contains(QStringLiteral("not reached within 5 years")));
}

TEST(DriverBars, ReadTheRowUnderThePointerAndEnterIt) {
    ShownDrivers s("attic");
    const auto g = s.geometry();
    EXPECT_EQ(s.bars.nearest(QPointF(20, g.rows[1].place.center().y())), 1);
    EXPECT_EQ(s.bars.nearest(QPointF(20, g.height + 5)), -1);
    QSignalSpy entered(&s.bars, &ReadChart::entered);
    s.bars.setFocus();
    QTest::keyClick(&s.bars, Qt::Key_Return);
    EXPECT_EQ(entered.count(), 0) << "nothing is read yet";
    QTest::keyClick(&s.bars, Qt::Key_Down);
    QTest::keyClick(&s.bars, Qt::Key_Return);
    ASSERT_EQ(entered.count(), 1);
    EXPECT_EQ(entered[0][0].toInt(), 0);
    EXPECT_EQ(s.bars.readout(), SureText::driver(s.bars.drivers()[0], horizon));
}

TEST(DriverBars, SurviveEveryFateAndSize) {
    using sample::Fate;
    for (const Fate fate : {Fate::tight, Fate::endless, Fate::over, Fate::full}) {
        DriverBars bars;
        const BoxOutlook box = sample::box("b", fate);
        auto drivers = sample::drivers();
        drivers.push_back(
            {"b", std::string(300, 'x') + " " + std::string(200, 'y'), "", 0.0, 1e9, nan});
        bars.setBox(&box, drivers, horizon);
        for (const QSize size : {QSize(1, 1), QSize(90, 50), QSize(700, 400), QSize(5000, 900)})
            EXPECT_FALSE(painted(bars, size, dark_palette()).isNull());
        bars.setBox(&box, {}, horizon);
        EXPECT_FALSE(bars.hasData());
        bars.setBox(nullptr, drivers, horizon);
        EXPECT_FALSE(bars.hasData());
        EXPECT_TRUE(bars.readings().empty());
    }
}

// Around the charts ------------------------------------------------------------------------------

TEST(SureCharts, FollowLightDarkAndPixelRatio) {
    const Answer a = sample::sure();
    TurnoverChart curve;
    curve.setDataset(&a.outlook.datasets[0]);
    BacktestChart backtest(Figure::freed);
    backtest.setDataset(&a.outlook.datasets[0]);
    DriverBars bars;
    bars.setBox(&a.outlook.boxes[0], drivers_of(a.outlook, "attic"), horizon);
    for (ReadChart* chart : {static_cast<ReadChart*>(&curve), static_cast<ReadChart*>(&backtest),
                             static_cast<ReadChart*>(&bars)}) {
        const QSize size(700, chart->heightForWidth(700));
        const QImage light = painted(*chart, size, light_palette());
        const QImage dark = painted(*chart, size, dark_palette());
        EXPECT_GT(lightness_of(light), 200);
        EXPECT_LT(lightness_of(dark), 80);
        EXPECT_GT(colours_in(light), 30);
        const QImage twice = painted(*chart, size, light_palette(), 2);
        EXPECT_EQ(twice.size(), size * 2);
        EXPECT_NEAR(lightness_of(twice), lightness_of(light), 6);
        chart->setState(ShownState::failed);
        EXPECT_GT(lightness_of(painted(*chart, size, light_palette())), lightness_of(light))
            << "old figures are paler";
    }
}

TEST(ChartSection, ShowsNoteReadingAndTable) {
    auto* chart = new TurnoverChart;
    ChartSection section(chart, QStringLiteral("turnover"));
    const DatasetOutlook d = sample::measured_dataset("imaging");
    chart->setDataset(&d);
    section.refresh(QStringLiteral("the note"), QStringLiteral("the reason"),
                    SureTables::turnover(d, Prefixes::decimal));
    section.resize(700, 500);
    section.show();
    settle();
    EXPECT_EQ(section.title(), chart->title());
    EXPECT_EQ(section.foot(), QStringLiteral("the note"));
    chart->read(0);
    EXPECT_EQ(section.foot(), chart->readings()[0].words);
    chart->read(-1);
    EXPECT_EQ(section.foot(), QStringLiteral("the note"));

    section.findChild<QPushButton*>(QStringLiteral("turnoverTable"))->click();
    section.activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(&section));
    chart->setFocus();
    QTest::keyClick(chart, Qt::Key_T, Qt::ControlModifier);
    section.showTable();
    settle();
    const auto dialogs = section.findChildren<QDialog*>(QStringLiteral("turnoverTableDialog"));
    ASSERT_EQ(dialogs.size(), 1);
    auto* view = dialogs[0]->findChild<QTableView*>();
    EXPECT_EQ(view->model()->rowCount(),
              static_cast<int>(d.measured_steps.size() + d.curve_band.size()));
    EXPECT_EQ(view->accessibleName(), section.title());
    section.copyNumbers();
    EXPECT_EQ(QApplication::clipboard()->text(), section.table()->tabSeparated());
    dialogs[0]->close();
    settle();

    chart->setDataset(nullptr);
    section.refresh(QStringLiteral("the note"), QStringLiteral("the reason"), {});
    EXPECT_FALSE(chart->isVisible());
    EXPECT_FALSE(section.findChild<QPushButton*>(QStringLiteral("turnoverTable"))->isVisible());
    EXPECT_EQ(section.foot(), QStringLiteral("the reason"));
}

TEST(TextButton, ShowsAllOfItsTextAndIsPressedByKeyboard) {
    TextButton button;
    button.setText(
        QStringLiteral("“letters”: No spread of the growth is given; a quarter of the rate "
                       "is taken instead of it."));
    EXPECT_GT(button.heightForWidth(200), button.heightForWidth(900));
    EXPECT_GE(button.heightForWidth(900), 24);
    show(button, 200);
    QSignalSpy clicked(&button, &QAbstractButton::clicked);
    button.setFocus();
    QTest::keyClick(&button, Qt::Key_Return);
    QTest::keyClick(&button, Qt::Key_Space);
    EXPECT_EQ(clicked.count(), 2);
    QAccessibleInterface* face = QAccessible::queryAccessibleInterface(&button);
    ASSERT_NE(face, nullptr);
    EXPECT_EQ(face->text(QAccessible::Name), button.text());
}

}  // namespace
}  // namespace ullage
