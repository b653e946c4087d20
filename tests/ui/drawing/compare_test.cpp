// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/drawing/drawn.h"
#include "tests/ui/sample_answer.h"
#include "ui/charts/fill_chart.h"
#include "ui/compare/comparison_bar.h"
#include "ui/compare/differences.h"
#include "ui/gauge/gauge_card.h"
#include "ui/pages/fit_page.h"

#include <gtest/gtest.h>

#include <QAbstractItemModelTester>
#include <QComboBox>
#include <QPushButton>

#include <type_traits>

namespace ullage {
namespace {

// The two sides of a comparison cannot be swapped.
static_assert(!std::is_convertible_v<KeptOutlook, PresentOutlook>);
static_assert(!std::is_convertible_v<PresentOutlook, KeptOutlook>);

KeptOutlook keptOf(const Answer& answer, const QString& name = QStringLiteral("before")) {
    return {name, std::make_shared<const Site>(answer.site), sample::shared(answer)};
}

/// The answer with the attic's days until its ceiling moved.
Answer later(double days) {
    Answer answer = sample::buying(2);
    DayQuantiles& until = answer.outlook.boxes.at(0).days_until_ceiling;
    for (auto* day : {&until.p10, &until.p50, &until.p90}) *day = day->value() + days;
    return answer;
}

/// Row of an item's figure: the text of kept, present and change.
QStringList rowOf(const NumberTable::Content& content, const QString& item, const QString& figure) {
    for (const auto& row : content.rows)
        if (row[0].text == item && row[1].text == figure)
            return {row[2].text, row[3].text, row[4].text};
    return {};
}

TEST(KeptList, KeepsSeveralUnderNamesOfTheirOwnAndComparesWithTheNewest) {
    KeptList list;
    const Answer answer = sample::answer();
    list.keep(keptOf(answer, list.freshName()));
    list.keep(keptOf(answer, list.freshName()));
    list.keep(keptOf(answer, QStringLiteral("Kept 1")));
    list.keep(keptOf(answer, QString()));
    EXPECT_EQ(list.names(), (QStringList{QStringLiteral("Kept 1"), QStringLiteral("Kept 2"),
                                         QStringLiteral("Kept 1 (2)"), QStringLiteral("Kept 3")}));
    EXPECT_EQ(list.chosenIndex(), 3);
}

TEST(KeptList, RenamesOnlyToNamesThatAreFree) {
    KeptList list;
    list.keep(keptOf(sample::answer(), QStringLiteral("a")));
    list.keep(keptOf(sample::answer(), QStringLiteral("b")));
    EXPECT_FALSE(list.rename(0, QStringLiteral("b")));
    EXPECT_FALSE(list.rename(0, QStringLiteral("  ")));
    EXPECT_FALSE(list.rename(7, QStringLiteral("c")));
    EXPECT_TRUE(list.rename(0, QStringLiteral(" smaller  drives ")));
    EXPECT_EQ(list.all()[0].name, QStringLiteral("smaller drives"));
}

TEST(KeptList, DroppingKeepsTheChoiceUnlessItIsDropped) {
    KeptList list;
    for (const char* name : {"a", "b", "c"}) list.keep(keptOf(sample::answer(), QLatin1String(name)));
    list.drop(0);
    EXPECT_EQ(list.chosen()->name, QStringLiteral("c"));
    list.drop(1);
    EXPECT_EQ(list.chosen(), nullptr);
    EXPECT_EQ(list.names(), QStringList{QStringLiteral("b")});
    list.choose(0);
    list.choose(9);
    EXPECT_EQ(list.chosenIndex(), 0);
    list.choose(-1);
    EXPECT_EQ(list.chosen(), nullptr);
}

TEST(Differences, HaveBothValuesAndTheChangeOfEachFigure) {
    const Answer before = sample::buying(2), now = later(200);
    const auto content =
        differences(keptOf(before), {sample::shared(now)}, Prefixes::decimal);
    const std::size_t per_box = 4, per_send = 2, per_offer = 2;
    EXPECT_EQ(content.rows.size(), per_box * before.outlook.boxes.size() +
                                       per_send * before.outlook.sends.size() +
                                       per_offer * before.outlook.offers.size());
    const QString box = QString::fromStdString(before.outlook.boxes[0].name);
    const QStringList row = rowOf(content, box, QStringLiteral("until its ceiling, 5 in 10 futures"));
    ASSERT_EQ(row.size(), 3);
    EXPECT_NE(row[0], row[1]);
    EXPECT_EQ(row[2], QStringLiteral("about 7 months later"));
    const auto found = std::find_if(content.rows.begin(), content.rows.end(), [&](const auto& r) {
        return r[0].text == box && r[1].text == QStringLiteral("until its ceiling, 5 in 10 futures");
    });
    EXPECT_DOUBLE_EQ((*found)[2].value.toDouble(), *before.outlook.boxes[0].days_until_ceiling.p50);
    EXPECT_DOUBLE_EQ((*found)[3].value.toDouble(), *now.outlook.boxes[0].days_until_ceiling.p50);
    EXPECT_DOUBLE_EQ((*found)[4].value.toDouble(), 200) << "present less kept";
    const QString send = QString::fromStdString(before.outlook.sends[0].name);
    EXPECT_EQ(rowOf(content, send, QStringLiteral("runs that are late")).value(2),
              QStringLiteral("the same"));
}

TEST(Differences, OfAnOutlookWithItselfAreNone) {
    const Answer answer = sample::buying(6);
    const auto content = differences(keptOf(answer), {sample::shared(answer)}, Prefixes::binary);
    ASSERT_FALSE(content.rows.empty());
    for (const auto& row : content.rows) EXPECT_EQ(row[4].text, QStringLiteral("the same"));
}

TEST(Differences, SayWhatIsNewAndWhatIsGoneAndWhatNoLongerComes) {
    Answer before = sample::answer(), now = sample::answer();
    now.outlook.boxes[0].name = "loft";
    now.outlook.boxes[1].days_until_ceiling = {};
    before.outlook.boxes[1].days_until_ceiling = {100, 200, 300};
    before.outlook.sends[0].longest_outage_days = 12;
    now.outlook.sends[0].longest_outage_days.reset();
    const auto content = differences(keptOf(before), {sample::shared(now)}, Prefixes::decimal);
    const QString figure = QStringLiteral("until its ceiling, 5 in 10 futures");
    EXPECT_EQ(rowOf(content, QStringLiteral("loft"), figure).value(2), QStringLiteral("new"));
    EXPECT_EQ(rowOf(content, QStringLiteral("attic"), figure).value(2), QStringLiteral("gone"));
    const auto never = rowOf(content, QStringLiteral("barn"), figure);
    EXPECT_EQ(never.value(1), QStringLiteral("not within 5 years"));
    const auto outage = rowOf(content, QString::fromStdString(now.outlook.sends[0].name),
                              QStringLiteral("longest outage it can bear"));
    EXPECT_EQ(outage.value(0), QStringLiteral("12 days"));
    EXPECT_EQ(outage.value(1), QStringLiteral("no limit"));
    EXPECT_TRUE(differences(keptOf(before), {}, Prefixes::decimal).rows.empty());
}

TEST(ComparisonBar, FillsASoundTableModelThroughEveryChange) {
    KeptList list;
    ComparisonBar bar(list);
    QAbstractItemModelTester tester(const_cast<NumberTable*>(&bar.table()),
                                    QAbstractItemModelTester::FailureReportingMode::Fatal);
    EXPECT_FALSE(bar.isVisibleTo(nullptr));
    bar.setPresent({sample::shared(later(100))});
    EXPECT_EQ(bar.table().rowCount(), 0);
    list.keep(keptOf(sample::buying(2)));
    const int rows = bar.table().rowCount();
    EXPECT_GT(rows, 8);
    list.keep(keptOf(sample::buying(4), QStringLiteral("four offers")));
    EXPECT_EQ(bar.table().rowCount(), rows + 4) << "offers that are gone";
    bar.setPrefixes(Prefixes::binary);
    list.rename(1, QStringLiteral("other"));
    EXPECT_EQ(bar.table().headerData(2, Qt::Horizontal).toString(), QStringLiteral("other"));
    list.choose(-1);
    EXPECT_EQ(bar.table().rowCount(), 0);
    list.choose(0);
    bar.setPresent({});
    EXPECT_EQ(bar.table().rowCount(), 0);
}

TEST(ComparisonBar, ChoosesRenamesAndDropsAndIsGoneWithTheLast) {
    KeptList list;
    ComparisonBar bar(list);
    bar.setAskForName([](const QString& name) { return name + QStringLiteral(" again"); });
    list.keep(keptOf(sample::answer(), QStringLiteral("a")));
    EXPECT_FALSE(bar.isHidden());
    bar.findChild<QPushButton*>(QStringLiteral("compare.rename"))->click();
    EXPECT_EQ(list.names(), QStringList{QStringLiteral("a again")});
    auto* chooser = bar.findChild<QComboBox*>();
    EXPECT_EQ(chooser->currentText(), QStringLiteral("a again"));
    emit chooser->activated(0);
    EXPECT_EQ(list.chosen(), nullptr);
    EXPECT_FALSE(bar.findChild<QPushButton*>(QStringLiteral("compare.drop"))->isEnabled());
    emit chooser->activated(1);
    bar.findChild<QPushButton*>(QStringLiteral("compare.drop"))->click();
    EXPECT_TRUE(bar.isHidden());
}

TEST(FillChart, DrawsTheKeptMiddleForecastWithItsNameAtItsEnd) {
    const BoxOutlook box = sample::box("attic", sample::Fate::tight);
    BoxOutlook before = box;
    for (FillPoint& point : before.fill) point.used_bytes.p50 *= 1.5;
    const Day as_of = box.fill.front().date;
    FillChart chart;
    chart.resize(900, 520);
    chart.setBox(&box, 5 * days_per_year, as_of);
    EXPECT_TRUE(chart.keptLine().isEmpty());
    chart.setKept(&before, QStringLiteral("before the move"));
    chart.show();
    settle();
    ASSERT_EQ(chart.keptLine().size(), static_cast<qsizetype>(before.fill.size()));
    EXPECT_NEAR(chart.keptLine().back().y(), before.fill.back().used_bytes.p50 / 1e12, 1e-9);
    EXPECT_TRUE(chart.labelTexts().contains(QStringLiteral("before the move")));
    const auto boxes = chart.labelBoxes();
    for (std::size_t i = 0; i < boxes.size(); ++i)
        for (std::size_t k = i + 1; k < boxes.size(); ++k)
            EXPECT_FALSE(boxes[i].adjusted(0, 1, 0, -1).intersects(boxes[k].adjusted(0, 1, 0, -1)));
    chart.setKept(nullptr, {});
    EXPECT_TRUE(chart.keptLine().isEmpty());
    EXPECT_FALSE(chart.labelTexts().contains(QStringLiteral("before the move")));
}

TEST(FitPage, ShowsTheKeptHeadlineOnEachCardAndTheKeptLine) {
    FitPage page;
    Answer before = sample::answer();
    before.outlook.boxes.erase(before.outlook.boxes.begin());  // there was no attic
    page.setAnswer(sample::shared(sample::answer()));
    page.showItem(QStringLiteral("/boxes/2"));
    page.setKept(keptOf(before));
    EXPECT_EQ(page.cards()[0]->kept(), QStringLiteral("before: not there"));
    EXPECT_EQ(page.cards()[1]->kept(),
              QStringLiteral("before: ") + page.cards()[1]->said().headline);
    EXPECT_TRUE(page.cards()[1]->accessibleDescription().contains(page.cards()[1]->kept()));
    EXPECT_FALSE(page.chart()->keptLine().isEmpty());
    page.showItem(QStringLiteral("/boxes/1"));
    EXPECT_TRUE(page.chart()->keptLine().isEmpty()) << "the attic was not there";
    page.setAnswer(sample::shared(sample::many(5)));
    page.setKept(std::nullopt);
    EXPECT_TRUE(page.cards()[0]->kept().isEmpty());
}

TEST(GaugeCard, KeptHeadlineDoesNotOverlapTheRest) {
    const BoxOutlook box = sample::box("attic", sample::Fate::tight);
    GaugeCard card;
    card.setBox(&box, 5 * days_per_year, box.fill.front().date, Level::tight);
    card.setKept(QStringLiteral("before the second move of the archive: About 20 months"));
    for (const double width : {140.0, 220.0, 500.0}) {
        const CardGeometry g = card.geometryFor(width);
        EXPECT_GE(g.kept.top(), g.when.bottom());
        EXPECT_GE(g.bar_place.top(), g.kept.bottom());
        EXPECT_LE(g.kept.right(), width);
    }
}

}  // namespace
}  // namespace ullage
