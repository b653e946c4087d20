// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/drawing/drawn.h"
#include "tests/ui/sample_answer.h"
#include "ui/buy/block_bars.h"
#include "ui/buy/buy_tables.h"
#include "ui/buy/buy_text.h"
#include "ui/buy/frontier_chart.h"
#include "ui/buy/offer_card.h"
#include "ui/buy/space_chart.h"
#include "ui/buy/standing_mark.h"
#include "ui/pages/buy_page.h"
#include "ui/sure/chart_section.h"
#include "ui/theme/bar_rows.h"
#include "ui/theme/theme.h"
#include "ui/theme/words.h"

#include <gtest/gtest.h>

#include <QAbstractItemModelTester>
#include <QAccessible>
#include <QApplication>
#include <QComboBox>
#include <QDialog>
#include <QLabel>
#include <QPainter>
#include <QPushButton>
#include <QScrollArea>
#include <QScrollBar>
#include <QSignalSpy>
#include <QTest>

#include <cmath>
#include <limits>
#include <set>

namespace ullage {
namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

Answer six() { return sample::buying(6); }
BoxOutlook& attic_of(Answer& answer) { return answer.outlook.boxes.front(); }
OfferOutlook& named(Answer& answer, const std::string& name) {
    for (OfferOutlook& offer : answer.outlook.offers)
        if (offer.name == name) return offer;
    throw std::runtime_error("no offer " + name);
}
std::string headline(const Answer& answer) {
    return BuyText::headline(answer, "attic").toStdString();
}
std::string detail(const Answer& answer) { return BuyText::detail(answer, "attic").toStdString(); }
bool says(const QString& text, const char* words) {
    return text.contains(QString::fromUtf8(words));
}
QString plain(QString text) { return text.replace(QChar(0x00A0), u' '); }

void show(QWidget& widget, int width) {
    const int height = widget.hasHeightForWidth() ? widget.heightForWidth(width) : 600;
    widget.resize(width, height);
    widget.show();
    settle();
}

QLabel* label(const QWidget& page, const char* name) {
    return page.findChild<QLabel*>(QLatin1String(name));
}

// Words ------------------------------------------------------------------------------------------

TEST(Words, MoneyIsRoundedAsTheFindingsRoundItAndGrouped) {
    EXPECT_EQ(plain(Words::money(3900, "EUR")).toStdString(), "3,900 EUR");
    EXPECT_EQ(plain(Words::money(1234567.4, "GBP")).toStdString(), "1,234,567 GBP");
    EXPECT_EQ(plain(Words::money(21.44, "EUR")).toStdString(), "21.4 EUR");
    EXPECT_EQ(plain(Words::money(2.5, {})).toStdString(), "2.50");
    EXPECT_EQ(plain(Words::money(0, "EUR")).toStdString(), "0 EUR");
    EXPECT_EQ(Words::money(nan, "EUR"), QStringLiteral("?"));
}

TEST(Words, SharesOfFuturesAreCountedInTenthsOnlyWhereTheyAreTenths) {
    EXPECT_EQ(plain(Words::futures(0.9)).toStdString(), "9 of 10 futures");
    EXPECT_EQ(plain(Words::futures(0.934)).toStdString(), "93 % of futures");
    EXPECT_EQ(plain(Words::futures(0.9996)).toStdString(), "99 % of futures");
    EXPECT_EQ(plain(Words::futures(1)).toStdString(), "all futures drawn");
    EXPECT_EQ(plain(Words::futures(0)).toStdString(), "no future drawn");
    EXPECT_EQ(Words::futures(nan), QStringLiteral("?"));
}

TEST(Words, ASizeInBothUnitsLeadsWithTheChosenOne) {
    EXPECT_EQ(plain(Words::both(40e12, Prefixes::decimal)).toStdString(), "40 TB (36.4 TiB)");
    EXPECT_EQ(plain(Words::both(40e12, Prefixes::binary)).toStdString(), "36.4 TiB (40 TB)");
}

// The answer in words ----------------------------------------------------------------------------

TEST(BuyText, NamesTheCheapestThatHoldsAndTheLastSafeDay) {
    const Answer a = six();
    EXPECT_EQ(plain(BuyText::headline(a, "attic")).toStdString(),
              "Order “six 16 TB drives” by " +
                  Words::full_date(*attic_of(const_cast<Answer&>(a)).order_by).toStdString() +
                  ": the cheapest that lasts 5 years in 9 of 10 futures, 3,900 EUR in all");
    EXPECT_EQ(detail(a), "");
    EXPECT_TRUE(says(BuyText::orderLine(a, "attic"), "1 in 10 futures"));
    EXPECT_EQ(plain(BuyText::ifNothing(a, "attic")).toStdString(),
              "If nothing is bought, “attic” comes to its 80 % ceiling in about 20 months, around "
              "Jul 2028 (1 in 10: before Jan 2028 · 9 in 10: before Jun 2029). It is full in about "
              "3.3 years, around Feb 2030, in half of the futures.");
}

TEST(BuyText, AnOffersOwnLeadTimeMovesTheLastSafeDay) {
    Answer a = six();
    const OfferOutlook& best = named(a, "six 16 TB drives");
    const auto with_box = order_by(a, best);
    a.site.offers[1].lead_time = Entered<Duration>{days(51)};
    const auto with_own = order_by(a, best);
    ASSERT_TRUE(with_box && with_own);
    EXPECT_EQ((*with_box - *with_own).count(), 30) << "21 days of the box, 51 of the offer";
}

TEST(BuyText, WithoutALeadTimeNoDayIsInvented) {
    Answer a = six();
    attic_of(a).lead_time_days.reset();
    attic_of(a).order_by.reset();
    EXPECT_FALSE(order_by(a, named(a, "six 16 TB drives")).has_value());
    EXPECT_EQ(headline(a).rfind("Buy “six 16 TB drives”: the cheapest", 0), 0u) << headline(a);
    EXPECT_TRUE(says(BuyText::orderLine(a, "attic"), "lead time"));
}

TEST(BuyText, SaysThatNothingNeedsToBeBought) {
    Answer a = six();
    attic_of(a).chance_of_ceiling_within_horizon = 0.1;
    EXPECT_EQ(headline(a),
              "Nothing needs to be bought for “attic”: it stays below its ceiling for 5 years in 9 "
              "of 10 futures");
    EXPECT_FALSE(needs_room(attic_of(a), 0.9)) << "the confidence itself is enough";
    EXPECT_EQ(detail(a), "The offers are compared all the same.");
    Answer without = sample::buying(0);
    attic_of(without).chance_of_ceiling_within_horizon = 0;
    attic_of(without).days_until_ceiling = {};
    EXPECT_EQ(detail(without), "") << "no offer is asked for";
    EXPECT_TRUE(says(plain(BuyText::ifNothing(without, "attic")),
                     "stays below its 80 % ceiling for 5 years in all futures drawn"));
    attic_of(a).chance_of_ceiling_within_horizon = 0.1005;
    EXPECT_TRUE(needs_room(attic_of(a), 0.9));
    EXPECT_TRUE(BuyText::orderLine(sample::answer(), "barn").isEmpty() ||
                needs_room(sample::answer().outlook.boxes[1], 0.9));
}

TEST(BuyText, SaysThatThereIsNoOffer) {
    Answer a = sample::buying(0);
    EXPECT_NE(headline(a).find("comes to its ceiling around"), std::string::npos);
    EXPECT_NE(headline(a).find("there is no offer"), std::string::npos);
    EXPECT_NE(detail(a).find("Add an offer"), std::string::npos);
    attic_of(a).days_until_ceiling.p50.reset();
    attic_of(a).chance_of_ceiling_within_horizon = 0.3;
    EXPECT_NE(headline(a).find("30 in 100 futures"), std::string::npos) << headline(a);
    attic_of(a).over_ceiling_now = true;
    EXPECT_EQ(headline(a), "“attic” is over its ceiling now, and there is no offer for it");
    attic_of(a).full_now = true;
    EXPECT_EQ(headline(a), "“attic” is full now, and there is no offer for it");
}

TEST(BuyText, SaysThatNoOfferHoldsAndWhichComesNearest) {
    Answer a = sample::buying(1);
    EXPECT_EQ(headline(a), "No offer for “attic” lasts 5 years in 9 of 10 futures");
    EXPECT_EQ(plain(BuyText::detail(a, "attic")).toStdString(),
              "“two more 8 TB drives” comes nearest: it lasts in 41 % of futures.");
    a.outlook.offers[0].does_not_go_in = "10 drives do not go into 8 bays";
    EXPECT_EQ(headline(a), "No offer goes into “attic”");
}

TEST(BuyText, SaysThatItIsTooLate) {
    Answer a = six();
    attic_of(a).days_until_ceiling.p10 = 5;
    EXPECT_EQ(headline(a), "Order “six 16 TB drives” at once: the last safe day was 16 Oct 2026");
    EXPECT_NE(detail(a).find("the cheapest that lasts"), std::string::npos);
    EXPECT_TRUE(says(BuyText::orderLine(a, "attic"), "was 16 Oct 2026"));
    named(a, "six 16 TB drives").chance_too_late = 0.23;
    EXPECT_NE(detail(a).find("23 in 100 futures come to the ceiling before it runs"),
              std::string::npos)
        << detail(a);
    attic_of(a).over_ceiling_now = true;
    EXPECT_EQ(headline(a), "Order “six 16 TB drives” at once: “attic” is over its ceiling already");
    EXPECT_EQ(BuyText::orderLine(a, "attic"), QString());
    attic_of(a).full_now = true;
    EXPECT_EQ(headline(a), "Order “six 16 TB drives” at once: “attic” is full already");
}

TEST(BuyText, ABoxThatOnlyOffersNameCanBeAskedAbout) {
    Answer a = six();
    for (OfferOutlook& offer : a.outlook.offers) offer.box = "new box";
    EXPECT_EQ(boxes_to_buy_for(a.outlook).back(), "new box");
    EXPECT_EQ(first_to_buy_for(a.outlook), "new box");
    EXPECT_TRUE(says(BuyText::ifNothing(a, "new box"), "no size yet"));
    EXPECT_TRUE(says(BuyText::headline(a, "new box"), "Buy “six 16 TB drives”"));
}

TEST(BuyText, PlannedChangesAreCountedAndSaid) {
    Answer a = six();
    attic_of(a).changes = {
        {add_days(a.outlook.as_of, 500), "groups widened to 9 drives", 46e12, 36.8e12}};
    EXPECT_TRUE(says(BuyText::ifNothing(a, "attic"), "groups widened to 9 drives"));
}

// Offers -----------------------------------------------------------------------------------------

TEST(Standing, EachOfferStandsInOneWay) {
    Answer a = six();
    EXPECT_EQ(standing_of(named(a, "six 16 TB drives")), Standing::recommended);
    EXPECT_EQ(standing_of(named(a, "eight-bay box with 18 TB drives")), Standing::holds);
    EXPECT_EQ(standing_of(named(a, "six 20 TB drives from the second dealer")), Standing::outdone);
    EXPECT_EQ(standing_of(named(a, "two more 8 TB drives")), Standing::too_short);
    EXPECT_EQ(standing_of(named(a, "twelve 8 TB drives")), Standing::does_not_go_in);
    std::set<QString> words;
    for (const auto standing : {Standing::recommended, Standing::holds, Standing::outdone,
                                Standing::too_short, Standing::does_not_go_in})
        words.insert(standing_word(standing));
    EXPECT_EQ(words.size(), 5u);
}

TEST(Standing, ShapesDifferWithoutColour) {
    std::set<QByteArray> outlines;
    for (const auto standing : {Standing::recommended, Standing::holds, Standing::outdone,
                                Standing::too_short, Standing::does_not_go_in}) {
        QImage image(32, 32, QImage::Format_Grayscale8);
        image.fill(Qt::white);
        QPainter painter(&image);
        draw_standing(painter, QRectF(0, 0, 32, 32), standing, Theme::of(light_palette()));
        painter.end();
        QByteArray bits;
        for (int y = 0; y < 32; ++y)
            for (int x = 0; x < 32; ++x) bits += qGray(image.pixel(x, y)) < 200 ? '1' : '0';
        EXPECT_GT(bits.count('1'), 20);
        outlines.insert(bits);
    }
    EXPECT_EQ(outlines.size(), 5u);
}

TEST(OfferText, SaysEveryFigureOfTheOffer) {
    Answer a = six();
    const OfferText t = BuyText::offer(a, named(a, "six 16 TB drives"), Prefixes::decimal);
    const QString all = plain(t.description());
    for (const char* words :
         {"The cheapest that holds.", "6 drives, in place of those in the box.",
          "Lasts 5 years in 93 % of futures.", "Comes to its ceiling: not within 5 years.",
          "Cost over 5 years: 3,900 EUR.", "Price 2,350 EUR, energy 1,010 EUR, replacement 540 EUR",
          "Bought 2 times", "Runs from: 22 Nov 2026.", "63.2 TB (57.4 TiB)", "26 h at least",
          "5 other drives", "1 in 4,500", "1.5 %", "failures cluster", "survives 1 more failure",
          "No life is given: it is counted on to the horizon."})
        EXPECT_TRUE(says(all, words)) << words << "\n" << all.toStdString();
}

TEST(OfferText, SaysWhyItDoesNotGoInAndByWhatItIsOutdone) {
    Answer a = six();
    EXPECT_EQ(BuyText::offer(a, named(a, "twelve 8 TB drives"), Prefixes::decimal).outdone,
              QStringLiteral("12 drives do not go into 8 bays."));
    const OfferText t =
        BuyText::offer(a, named(a, "six 20 TB drives from the second dealer"), Prefixes::decimal);
    EXPECT_EQ(t.outdone.toStdString(),
              "“eight-bay box with 18 TB drives” costs no more and lasts no less.");
    EXPECT_TRUE(says(BuyText::offer(a, named(a, "used shelf"), Prefixes::decimal).outdone,
                     "It does not last"));
}

TEST(OfferText, RebuildingWithoutSpareFailuresSaysThatThePoolIsLost) {
    Answer a = six();
    OfferOutlook& o = named(a, "two more 8 TB drives");
    o.rebuild = RebuildExposure{12, 1, 0, 0.02, 0.4};
    const QString all = BuyText::offer(a, o, Prefixes::decimal).description();
    EXPECT_TRUE(says(all, "the other drive of its group"));
    EXPECT_TRUE(says(all, "40 in 100"));
    EXPECT_TRUE(says(all, "loses the pool"));
}

TEST(OfferCard, MarksAsManyFuturesAsLast) {
    Answer a = six();
    OfferCard card;
    const auto lasting = [&](double chance) {
        OfferOutlook o = named(a, "six 16 TB drives");
        o.chance_of_lasting = chance;
        card.setOffer(a, o, Prefixes::decimal, 7000);
        return card.lasting();
    };
    EXPECT_EQ(lasting(0), 0);
    EXPECT_EQ(lasting(0.41), 8);
    EXPECT_EQ(lasting(0.934), 19);
    EXPECT_EQ(lasting(1), 20);
    EXPECT_EQ(lasting(nan), 0);
}

TEST(OfferCard, EverythingLiesWithinAndNothingOverlapsAtAnyWidth) {
    Answer a = six();
    for (const OfferOutlook& offer : a.outlook.offers)
        for (const int width : {OfferCard::leastWidth(QApplication::font()), 260, 330, 720}) {
            OfferCard card;
            card.setOffer(a, offer, Prefixes::decimal, 6610);
            const OfferGeometry g = card.geometryFor(width);
            std::vector<QRectF> boxes;
            for (const auto& text : g.texts) boxes.push_back(text.place);
            for (const QRectF& mark : g.marks) boxes.push_back(mark);
            EXPECT_FALSE(any_overlap(boxes)) << offer.name << " at " << width;
            for (const QRectF& bar : g.cost_bar)
                if (!bar.isEmpty()) boxes.push_back(bar);
            const QRectF all(0, 0, width, g.height);
            for (const QRectF& box : boxes) EXPECT_TRUE(all.contains(box)) << offer.name;
            EXPECT_GE(g.marks[0].width(), 5) << "marks can be counted";
        }
}

TEST(OfferCard, CostBarsHaveTheScaleOfTheDearest) {
    Answer a = six();
    OfferCard card;
    const OfferOutlook& o = named(a, "six 16 TB drives");
    card.setOffer(a, o, Prefixes::decimal, 2 * o.cost_total);
    const OfferGeometry g = card.geometryFor(300);
    double sum = 0;
    for (const QRectF& bar : g.cost_bar) sum += bar.width();
    double inner = 0;
    for (const auto& text : g.texts) inner = std::max(inner, text.place.width());
    EXPECT_NEAR(sum, inner / 2, 1);
    EXPECT_NEAR(g.cost_bar[0].width() / sum, o.price / o.cost_total, 0.01);
    EXPECT_NEAR(g.cost_bar[1].left(), g.cost_bar[0].right(), 0.01);
}

// Cost against life ------------------------------------------------------------------------------

TEST(FrontierChart, CostRunsAcrossAndYearsRunUpFromZero) {
    const Answer a = six();
    FrontierChart chart;
    chart.setOffers(&a.outlook, "attic");
    const FrontierGeometry g = chart.geometryFor(700, chart.font());
    ASSERT_EQ(g.points.size(), 6u) << "five that go in, and nothing bought";
    EXPECT_EQ(g.points[0].offer, -1);
    EXPECT_DOUBLE_EQ(g.points[0].at.x(), g.cost.map(0));
    EXPECT_GT(g.points[0].mark.left(), g.plot.left()) << "clear of the years";
    for (std::size_t i = 1; i < g.points.size(); ++i)
        EXPECT_GE(g.points[i].at.x(), g.points[i - 1].at.x()) << "by cost";
    const double day = g.years.unmap(g.points[1].at.y()) * days_per_year;  // "two more 8 TB drives"
    EXPECT_NEAR(day, 1490, 1);
    EXPECT_NEAR(g.cost.unmap(g.points[1].at.x()), 680, 0.5);
    EXPECT_DOUBLE_EQ(g.years.map(0), g.plot.bottom());
}

TEST(FrontierChart, WhatComesAfterTheHorizonStandsInItsOwnBand) {
    const Answer a = six();
    FrontierChart chart;
    chart.setOffers(&a.outlook, "attic");
    const FrontierGeometry g = chart.geometryFor(700, chart.font());
    int later = 0;
    for (const FrontierPoint& p : g.points) {
        EXPECT_EQ(g.later_band.contains(p.at), p.later);
        later += p.later ? 1 : 0;
        if (p.high_later) {
            EXPECT_TRUE(g.later_band.contains(QPointF(p.at.x(), *p.high)));
        }
    }
    EXPECT_EQ(later, 3);
    EXPECT_EQ(g.later_words.toStdString(), "later than 5 years");
}

TEST(FrontierChart, StepsJoinOnlyWhatNoOtherOutdoes) {
    const Answer a = six();
    FrontierChart chart;
    chart.setOffers(&a.outlook, "attic");
    const FrontierGeometry g = chart.geometryFor(700, chart.font());
    std::size_t joined = 0;
    for (const FrontierPoint& p : g.points) {
        const bool wanted = p.offer >= 0 && p.standing != Standing::outdone;
        const bool is = std::any_of(g.steps.begin(), g.steps.end(),
                                    [&](const QPointF& at) { return at == p.at; });
        EXPECT_EQ(is, wanted);
        joined += wanted ? 1 : 0;
    }
    EXPECT_EQ(joined, 3u);
    EXPECT_EQ(g.steps.size(), 2 * joined - 1);
    for (std::size_t i = 1; i < g.steps.size(); ++i)
        EXPECT_TRUE(g.steps[i].x() == g.steps[i - 1].x() || g.steps[i].y() == g.steps[i - 1].y())
            << "level or upright";
}

TEST(FrontierChart, NamesOverlapNeitherEachOtherNorAMark) {
    for (const int count : {1, 3, 6})
        for (const int width : {320, 520, 700, 1200}) {
            const Answer a = sample::buying(count);
            FrontierChart chart;
            chart.setOffers(&a.outlook, "attic");
            const FrontierGeometry g = chart.geometryFor(width, chart.font());
            std::vector<QRectF> labels, marks;
            for (const FrontierPoint& p : g.points) {
                if (!p.label.isEmpty()) labels.push_back(p.label);
                marks.push_back(p.mark);
                for (const FrontierPoint& q : g.points)
                    EXPECT_FALSE(!p.label.isEmpty() && p.label.intersects(q.mark));
            }
            EXPECT_FALSE(any_overlap(labels));
            for (const QRectF& place : labels)
                EXPECT_TRUE(QRectF(0, 0, width, g.height).contains(place));
            if (width >= 700) {
                EXPECT_EQ(labels.size(), g.points.size());
            }
        }
}

TEST(FrontierChart, EveryOfferCanBeReadAndEntered) {
    const Answer a = six();
    FrontierChart chart;
    chart.setOffers(&a.outlook, "attic");
    show(chart, 700);
    const auto readings = chart.readings();
    ASSERT_EQ(readings.size(), 6u);
    EXPECT_TRUE(says(readings[0].words, "If nothing is bought"));
    EXPECT_TRUE(says(plain(readings[1].words), "“two more 8 TB drives”: 680 EUR over 5 years"));
    EXPECT_TRUE(says(readings[1].words, "Does not last."));
    EXPECT_EQ(chart.nearest(readings[2].at), 2);
    QSignalSpy entered(&chart, &ReadChart::entered);
    chart.setFocus();
    QTest::keyClick(&chart, Qt::Key_Right);
    QTest::keyClick(&chart, Qt::Key_Right);
    QTest::keyClick(&chart, Qt::Key_Return);
    ASSERT_EQ(entered.count(), 1);
    EXPECT_EQ(a.outlook.offers[static_cast<std::size_t>(chart.offerAt(entered[0][0].toInt()))].name,
              "two more 8 TB drives");
    EXPECT_EQ(chart.offerAt(0), -1);
    EXPECT_EQ(chart.offerAt(99), -1);
}

TEST(FrontierChart, TheTitleSaysWhatLongerLastingCosts) {
    const Answer a = six();
    EXPECT_EQ(plain(BuyText::frontierTitle(a.outlook, "attic")).toStdString(),
              "“two more 8 TB drives” costs least; “eight-bay box with 18 TB drives” lasts "
              "longest, for 5,620 EUR more");
    EXPECT_EQ(plain(BuyText::frontierTitle(sample::buying(1).outlook, "attic")).toStdString(),
              "“two more 8 TB drives” costs 680 EUR over 5 years");
    EXPECT_TRUE(says(BuyText::frontierNote(a.outlook, "attic"), "“twelve 8 TB drives” does not"));
}

TEST(FrontierChart, SurvivesStrangeFigures) {
    Answer a = six();
    for (OfferOutlook& offer : a.outlook.offers) {
        offer.cost_total = 0;
        offer.days_until_ceiling = {0.0, 0.0, 0.0};
    }
    a.outlook.offers[1].cost_total = nan;
    FrontierChart chart;
    chart.setOffers(&a.outlook, "attic");
    show(chart, 500);
    EXPECT_GT(colours_in(picture_of(chart)), 3);
    chart.setOffers(&a.outlook, "no such box");
    EXPECT_FALSE(chart.hasData());
    chart.setOffers(nullptr, {});
    show(chart, 500);
    EXPECT_FALSE(chart.hasData());
    EXPECT_TRUE(chart.readings().empty());
}

// Where the space goes ---------------------------------------------------------------------------

TEST(SpaceChart, StepsLeadFromTheLabelsToWhatIsYours) {
    Answer a = six();
    SpaceChart chart;
    chart.setCapacity(attic_of(a).capacity, 0.8, "attic");
    ASSERT_EQ(chart.steps().size(), 6u);
    const auto readings = chart.readings();
    ASSERT_EQ(readings.size(), 7u);
    const char* names[] = {"On the labels: 72 TB (65.5 TiB)",
                           "Spare drives: takes 8 TB",
                           "Partitions, rounding: takes",
                           "Redundancy: takes",
                           "Kept back: takes",
                           "Above the 80 % ceiling: takes 8 TB",
                           "Yours, below the ceiling: 32 TB (29.1 TiB)"};
    for (std::size_t i = 0; i < readings.size(); ++i)
        EXPECT_TRUE(says(plain(readings[i].words), names[i]))
            << plain(readings[i].words).toStdString();
    EXPECT_EQ(plain(chart.title()).toStdString(),
              "Of 72 TB on the labels, 32 TB (29.1 TiB) are yours");
    chart.setPrefixes(Prefixes::binary);
    EXPECT_EQ(plain(chart.title()).toStdString(),
              "Of 65.5 TiB on the labels, 29.1 TiB (32 TB) are yours");
}

TEST(SpaceChart, ADriveWithMoreThanItsLabelAdds) {
    PoolCapacity c;
    c.label_bytes = 10e12;
    c.formatted_bytes = 10.001e12;
    c.charged_bytes = 8e12;
    c.usable_bytes = 7.9e12;
    SpaceChart chart;
    chart.setCapacity(c, 1, "a");
    EXPECT_TRUE(says(plain(chart.readings()[1].words), "Partitions, rounding: adds 1 GB"))
        << plain(chart.readings()[1].words).toStdString();
    show(chart, 500);
    EXPECT_GT(colours_in(picture_of(chart)), 3);
    chart.setCapacity(std::nullopt, 1, {});
    EXPECT_FALSE(chart.hasData());
    EXPECT_TRUE(chart.readings().empty());
}

TEST(BarRows, NothingOverlapsOrReachesPastTheEdge) {
    std::vector<BarRow> rows(4);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        rows[i].name = QStringLiteral("a row with the number %1").arg(i);
        rows[i].value = QStringLiteral("63.2 TB (57.4 TiB)");
        if (i % 2) rows[i].note = QStringLiteral("a note of some length beside it");
    }
    for (const double width : {120.0, 200.0, 330.0, 480.0, 700.0, 1400.0}) {
        const BarRows placed = placed_rows(rows, 6, width, 4, QApplication::font());
        std::vector<QRectF> parts;
        for (const BarRow& row : placed.rows)
            for (const QRectF& part : {row.name_place, row.bar, row.value_place, row.note_place})
                if (!part.isEmpty()) {
                    parts.push_back(part);
                    EXPECT_GE(part.left(), 6 - 0.01);
                    EXPECT_LE(part.right(), 6 + width + 0.01) << width;
                    EXPECT_LE(part.bottom(), placed.bottom + 0.01);
                }
        EXPECT_FALSE(any_overlap(parts)) << width;
    }
}

// What small blocks cost -------------------------------------------------------------------------

TEST(BlockBars, SayWhatAByteTakesAndWhichBlockWouldSave) {
    Answer a = six();
    BlockBars bars;
    bars.setBox(&attic_of(a));
    show(bars, 700);
    EXPECT_EQ(plain(bars.title()).toStdString(),
              "A byte of “ledger” takes 1.52 bytes here, in blocks of 8 KiB");
    const auto readings = bars.readings();
    ASSERT_EQ(readings.size(), 3u);
    EXPECT_TRUE(says(plain(readings[1].words), "In blocks of 64 KiB it would take 1.03."));
    EXPECT_FALSE(says(readings[0].words, "would take"));
    EXPECT_EQ(bars.nearest(readings[2].at), 2);
    const QString note = plain(BuyText::blocksNote(attic_of(a), Prefixes::decimal));
    EXPECT_TRUE(says(note, "2 groups of 4 drives, mirror-2 would hold 14 % more"))
        << note.toStdString();
}

TEST(BlockBars, LittleCostIsSaidAsLittle) {
    Answer a = six();
    attic_of(a).costs.resize(1);
    BlockBars bars;
    bars.setBox(&attic_of(a));
    EXPECT_EQ(bars.title().toStdString(), "Small blocks cost next to nothing here");
}

// Tables -----------------------------------------------------------------------------------------

TEST(BuyTables, HoldEveryOfferStepAndBlock) {
    Answer a = six();
    const auto offers = BuyTables::offers(a.outlook, "attic", Prefixes::decimal);
    ASSERT_EQ(offers.rows.size(), 6u);
    EXPECT_EQ(offers.rows[0][0].text.toStdString(), "six 16 TB drives");
    EXPECT_EQ(offers.rows[5][1].text.toStdString(), "Does not go in");
    const auto space = BuyTables::space(capacity_steps(*attic_of(a).capacity, 0.8), 0.8);
    ASSERT_EQ(space.rows.size(), 6u);
    EXPECT_EQ(space.rows[0][3].text.toStdString(), "72.00");
    EXPECT_EQ(space.rows[0][4].text.toStdString(), "65.48");
    const auto blocks = BuyTables::blocks(attic_of(a).costs, Prefixes::decimal);
    EXPECT_EQ(blocks.rows[1][4].text.toStdString(), "64.00");
    for (const auto& content : {offers, space, blocks}) {
        for (const auto& row : content.rows)
            EXPECT_EQ(static_cast<qsizetype>(row.size()), content.header.size());
        NumberTable table;
        table.setContent(content);
        QAbstractItemModelTester tester(&table);
    }
}

// The page ---------------------------------------------------------------------------------------

class BuyPageTest : public ::testing::Test {
protected:
    void open(const Answer& answer, const QSize& size = {730, 600}) {
        page.setAnswer(sample::shared(answer));
        page.resize(size);
        page.show();
        settle();
    }
    BuyPage page;
};

TEST_F(BuyPageTest, ShowsTheBoxWithOffersFirstAndItsOffersBestFirst) {
    open(six());
    EXPECT_EQ(page.shownBox(), "attic");
    ASSERT_EQ(page.cards().size(), 6u);
    const char* names[] = {"six 16 TB drives",
                           "eight-bay box with 18 TB drives",
                           "six 20 TB drives from the second dealer",
                           "two more 8 TB drives",
                           "used shelf",
                           "twelve 8 TB drives"};
    for (std::size_t i = 0; i < 6; ++i) {
        EXPECT_EQ(page.cards()[i]->said().name.toStdString(), names[i]);
        EXPECT_EQ(page.cards()[i]->accessibleName().toStdString(), names[i]);
        EXPECT_EQ(page.cards()[i]->accessibleDescription(), page.cards()[i]->said().description());
    }
    EXPECT_EQ(page.cards()[0]->standing(), Standing::recommended);
}

TEST_F(BuyPageTest, ChoosingAnOfferTellsItsPlaceInTheSite) {
    open(six());
    QSignalSpy chosen(&page, &Page::itemChosen);
    QTest::mouseClick(page.cards()[0], Qt::LeftButton);
    page.cards()[1]->setFocus();
    QTest::keyClick(page.cards()[1], Qt::Key_Return);
    ASSERT_EQ(chosen.count(), 2);
    EXPECT_EQ(chosen[0][0].toString(), QStringLiteral("/offers/1"));
    EXPECT_EQ(chosen[1][0].toString(), QStringLiteral("/offers/2"));
    page.frontier()->chart()->read(1);
    emit page.frontier()->chart()->entered(1);
    ASSERT_EQ(chosen.count(), 3);
    EXPECT_EQ(chosen[2][0].toString(), QStringLiteral("/offers/0"));
    emit page.frontier()->chart()->entered(0);  // nothing bought leads nowhere
    EXPECT_EQ(chosen.count(), 3);
}

TEST_F(BuyPageTest, FollowsAPointerToABoxOrAnOffer) {
    open(six());
    QSignalSpy chosen(&page, &Page::itemChosen);
    page.showItem(QStringLiteral("/boxes/3"));
    EXPECT_EQ(page.shownBox(), "shed");
    EXPECT_TRUE(page.cards().empty());
    EXPECT_FALSE(page.frontier()->isVisible());
    EXPECT_FALSE(page.space()->isVisible()) << "it has no pool";
    EXPECT_FALSE(page.blocks()->isVisible());
    page.showItem(QStringLiteral("/offers/4/price"));
    EXPECT_EQ(page.shownBox(), "attic");
    for (const char* other : {"/boxes/0", "/boxes/99", "/offers/99", "/sends/0", ""})
        page.showItem(QLatin1String(other));
    EXPECT_EQ(page.shownBox(), "attic");
    EXPECT_EQ(chosen.count(), 0);
    page.setAnswer(sample::shared(six()));
    EXPECT_EQ(page.shownBox(), "attic");
}

TEST_F(BuyPageTest, GoesToTheBoxThatGetsItsFirstOfferUnlessOneWasChosen) {
    open(sample::buying(0));
    EXPECT_EQ(page.shownBox(), "shed") << "over its ceiling";
    page.setAnswer(sample::shared(six()));
    EXPECT_EQ(page.shownBox(), "attic");
    page.showItem(QStringLiteral("/boxes/2"));
    page.setAnswer(sample::shared(sample::buying(3)));
    EXPECT_EQ(page.shownBox(), "barn");
}

TEST_F(BuyPageTest, TheUsersChoiceOfABoxIsTold) {
    open(six());
    QSignalSpy chosen(&page, &Page::itemChosen);
    auto* box = page.findChild<QComboBox*>(QStringLiteral("buyBoxChooser"));
    ASSERT_EQ(box->count(), 3);
    box->setCurrentIndex(2);
    emit box->activated(2);
    EXPECT_EQ(page.shownBox(), "shed");
    ASSERT_EQ(chosen.count(), 1);
    EXPECT_EQ(chosen[0][0].toString(), QStringLiteral("/boxes/3"));
}

TEST_F(BuyPageTest, ShowsTheSpaceOfTheBoxAsItIsOrWithAnOffer) {
    open(six());
    auto* of = page.findChild<QComboBox*>(QStringLiteral("buySpaceChooser"));
    ASSERT_EQ(of->count(), 6) << "as it is, and five offers that give drives";
    EXPECT_EQ(plain(page.space()->title()).toStdString(),
              "Of 72 TB on the labels, 32 TB (29.1 TiB) are yours");
    of->setCurrentIndex(1);
    emit of->activated(1);
    EXPECT_TRUE(says(plain(page.space()->title()), "Of 96 TB on the labels"));
    page.setPrefixes(Prefixes::binary);
    EXPECT_TRUE(says(plain(page.space()->title()), "Of 87.3 TiB on the labels"))
        << "the choice stays";
}

TEST_F(BuyPageTest, SaysInItsPlaceWhyThereIsNothing) {
    page.resize(730, 600);
    page.show();
    settle();
    const auto said = [&] { return label(page, "pageHeadline")->text().toStdString(); };
    EXPECT_EQ(said(), "No answer yet");
    page.setState(ShownState::updating);
    EXPECT_EQ(said(), "Working out the forecast…");
    page.setState(ShownState::failed);
    EXPECT_EQ(said(), "No forecast");
    open(sample::empty());
    EXPECT_EQ(said(), "No box to buy for");
    open(six());
    page.setAnswer(nullptr);
    EXPECT_TRUE(label(page, "pageHeadline")->isVisible());
}

TEST_F(BuyPageTest, OldFiguresStayAndSayThatTheyAreOld) {
    open(six());
    EXPECT_FALSE(label(page, "buyState")->isVisible());
    page.setUpdating(true);
    settle();
    EXPECT_EQ(label(page, "buyState")->text(), QStringLiteral("Updating…"));
    EXPECT_TRUE(says(page.frontier()->chart()->accessibleDescription(), "Updating…"));
    page.setState(ShownState::ready);
    settle();
    EXPECT_FALSE(label(page, "buyState")->isVisible());
}

TEST_F(BuyPageTest, NothingIsCutOffAtAnyWidthOrFont) {
    for (const int count : {0, 1, 3, 6})
        for (const int width : {360, 520, 730, 1100})
            for (const int points : {9, 14}) {
                QFont font = QApplication::font();
                font.setPointSize(points);
                page.setFont(font);
                open(sample::buying(count), {width, 700});
                for (const QLabel* each : page.findChildren<QLabel*>()) {
                    if (!each->isVisibleTo(&page) || each->text().isEmpty()) continue;
                    const int need = each->wordWrap() ? each->heightForWidth(each->width())
                                                      : each->sizeHint().height();
                    EXPECT_GE(each->height(), need) << each->text().toStdString();
                }
                for (const OfferCard* card : page.cards())
                    EXPECT_GE(card->height(), card->heightForWidth(card->width()))
                        << card->said().name.toStdString() << " at " << width;
                const auto* area = page.findChild<QScrollArea*>();
                if (width >= 520) {
                    EXPECT_EQ(area->horizontalScrollBar()->maximum(), 0) << width;
                }
            }
}

TEST_F(BuyPageTest, EveryControlHasANameAndTakesTheKeyboard) {
    open(six(), {730, 3000});
    for (const QWidget* widget : page.findChildren<QWidget*>()) {
        if (!widget->isVisible() || widget->focusPolicy() == Qt::NoFocus) continue;
        const auto* reader = QAccessible::queryAccessibleInterface(const_cast<QWidget*>(widget));
        ASSERT_NE(reader, nullptr);
        EXPECT_FALSE(reader->text(QAccessible::Name).trimmed().isEmpty())
            << widget->metaObject()->className() << " " << widget->objectName().toStdString();
    }
    QTest::qWait(1);
    page.activateWindow();
    page.cards()[0]->setFocus();
    QTest::keyClick(page.cards()[0], Qt::Key_Tab);
    EXPECT_EQ(QApplication::focusWidget(), page.cards()[1]);
}

TEST_F(BuyPageTest, TextHasItsContrastInLightAndDark) {
    for (const bool dark : {false, true}) {
        page.setPalette(dark ? dark_palette() : light_palette());
        open(six());
        const Theme theme = Theme::of(page.palette());
        for (const char* name : {"buyHeadline", "buyOrderBy", "buyNothing"}) {
            const QColor ink = label(page, name)->palette().color(QPalette::WindowText);
            EXPECT_GE(contrast(ink, theme.surface), 4.5) << name;
        }
        for (const QColor& ground : {theme.surface, theme.chosen})
            for (const QColor& ink : {theme.ink, theme.muted})
                EXPECT_GE(contrast(ink, ground), 4.5) << "text of a card, also under the pointer";
    }
}

TEST_F(BuyPageTest, EverySectionShowsItsNumbersAsATable) {
    open(six(), {730, 3000});
    for (ChartSection* section : {page.frontier(), page.space(), page.blocks()}) {
        section->showTable();
        auto* dialog =
            section->findChild<QDialog*>(section->objectName() + QStringLiteral("TableDialog"));
        ASSERT_NE(dialog, nullptr) << section->objectName().toStdString();
        EXPECT_GT(section->table()->rowCount(), 2);
        dialog->close();
    }
}

}  // namespace
}  // namespace ullage
