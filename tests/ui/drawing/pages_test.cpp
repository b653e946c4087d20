// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/drawing/drawn.h"
#include "core/words/wording.h"
#include "tests/ui/sample_answer.h"
#include "ui/charts/fill_chart.h"
#include "ui/gauge/days_until_full_gauge.h"
#include "ui/gauge/gauge_card.h"
#include "ui/pages/arrive_page.h"
#include "ui/pages/arrive_text.h"
#include "ui/pages/fit_page.h"
#include "ui/pages/sure_page.h"
#include "ui/sure/chart_section.h"
#include "ui/sure/driver_bars.h"
#include "ui/theme/text_button.h"
#include "ui/theme/theme.h"
#include "ui/week/limit_chain.h"
#include "ui/week/week_strips.h"

#include <gtest/gtest.h>

#include <QAccessible>
#include <QApplication>
#include <QComboBox>
#include <QLabel>
#include <QScrollArea>
#include <QScrollBar>
#include <QSignalSpy>
#include <QTest>

namespace ullage {
namespace {

constexpr QSize page_size(730, 600);

template <class P>
void open(P& page, const QSize& size = page_size) {
    page.resize(size);
    page.show();
    settle();
}

QString said(const Page& page) {
    return page.findChild<QLabel*>(QStringLiteral("pageHeadline"))->text();
}

// Every label shows all of its text: it is at least as high as its text needs at its width.
void expect_nothing_cut_off(const QWidget& page) {
    for (const QLabel* label : page.findChildren<QLabel*>()) {
        if (!label->isVisibleTo(&page) || label->text().isEmpty()) continue;
        const int need =
            label->wordWrap() ? label->heightForWidth(label->width()) : label->sizeHint().height();
        EXPECT_GE(label->height(), need) << label->text().toStdString();
        if (!label->wordWrap()) {
            EXPECT_GE(label->width(), label->sizeHint().width()) << label->text().toStdString();
        }
    }
    for (const QScrollArea* area : page.findChildren<QScrollArea*>())
        if (area->isVisibleTo(&page)) {
            EXPECT_EQ(area->horizontalScrollBar()->maximum(), 0)
                << "nothing reaches past the right edge";
        }
}

TEST(FitPage, ShowsTheWorstBoxFirst) {
    FitPage page;
    page.setAnswer(sample::shared(sample::answer()));
    open(page);
    EXPECT_EQ(page.shownItem(), QStringLiteral("/boxes/3"));
    EXPECT_EQ(page.gauge()->text().name, QStringLiteral("shed"));
    EXPECT_EQ(page.cards().size(), 3u);
}

TEST(FitPage, ShowsTheItemAPointerNames) {
    FitPage page;
    page.setAnswer(sample::shared(sample::answer()));
    QSignalSpy chosen(&page, &Page::itemChosen);
    page.showItem(QStringLiteral("/boxes/1"));
    EXPECT_EQ(page.gauge()->text().name, QStringLiteral("attic"));
    EXPECT_TRUE(page.cards()[0]->isChecked());
    page.showItem(QStringLiteral("/boxes/2/pool/width"));
    EXPECT_EQ(page.gauge()->text().name, QStringLiteral("barn"));
    for (const char* other :
         {"/datasets/0", "/boxes/99", "/boxes/x", "/boxes", "", "boxes/1", "/boxes/-1"})
        page.showItem(QString::fromLatin1(other));
    EXPECT_EQ(page.gauge()->text().name, QStringLiteral("barn"));
    EXPECT_EQ(chosen.count(), 0) << "only a user's choice is told";
}

TEST(FitPage, TellsWhichBoxTheUserChose) {
    FitPage page;
    page.setAnswer(sample::shared(sample::answer()));
    open(page);
    QSignalSpy chosen(&page, &Page::itemChosen);
    QTest::mouseClick(page.cards()[1], Qt::LeftButton);
    ASSERT_EQ(chosen.count(), 1);
    EXPECT_EQ(chosen[0][0].toString(), QStringLiteral("/boxes/2"))
        << "the site's index, not the outlook's";
    EXPECT_EQ(page.gauge()->text().name, QStringLiteral("barn"));
    EXPECT_TRUE(page.chart()->title().startsWith(QStringLiteral("barn")));
}

TEST(FitPage, SaysWhyABoxIsNotForecast) {
    FitPage page;
    page.setAnswer(sample::shared(sample::answer()));
    open(page);
    page.showItem(QStringLiteral("/boxes/0"));
    auto* notice = page.findChild<QLabel*>(QStringLiteral("fitNotice"));
    ASSERT_TRUE(notice->isVisible());
    EXPECT_TRUE(notice->text().contains(QStringLiteral("clinic")));
    page.showItem(QStringLiteral("/boxes/1"));
    EXPECT_FALSE(notice->isVisible());
}

TEST(FitPage, KeepsTheChoiceWhenTheAnswerIsMadeAnew) {
    FitPage page;
    page.setAnswer(sample::shared(sample::answer()));
    page.showItem(QStringLiteral("/boxes/2"));
    Answer next = sample::answer();
    std::swap(next.outlook.boxes[0], next.outlook.boxes[1]);
    page.setAnswer(sample::shared(next));
    EXPECT_EQ(page.gauge()->text().name, QStringLiteral("barn"));
    EXPECT_TRUE(page.cards()[0]->isChecked());
}

TEST(FitPage, SurvivesEveryKindOfAnswer) {
    FitPage page;
    open(page);
    EXPECT_EQ(said(page), QStringLiteral("No answer yet"));
    page.setAnswer(sample::shared(sample::many(12)));
    settle();
    EXPECT_EQ(page.cards().size(), 12u);
    page.setAnswer(sample::shared(sample::empty()));
    settle();
    EXPECT_EQ(said(page), QStringLiteral("No box to forecast"));
    EXPECT_TRUE(page.shownItem().isEmpty() || page.answer()->outlook.boxes.empty());
    Answer one = sample::answer();
    for (const auto fate :
         {sample::Fate::endless, sample::Fate::full, sample::Fate::shrinking, sample::Fate::soon}) {
        one.outlook.boxes = {sample::box("attic", fate)};
        page.setAnswer(sample::shared(one));
        settle();
        EXPECT_GT(colours_in(picture_of(page)), 10);
        EXPECT_FALSE(page.cards()[0]->isVisible()) << "one box needs no strip";
    }
    page.setAnswer(nullptr);
    settle();
    EXPECT_EQ(said(page), QStringLiteral("No answer yet"));
    page.showItem(QStringLiteral("/boxes/1"));
    page.setPrefixes(Prefixes::binary);
    page.setUpdating(true);
    EXPECT_NE(said(page), QStringLiteral("No answer yet"));
}

TEST(FitPage, PassesItsStateOn) {
    FitPage page;
    page.setAnswer(sample::shared(sample::answer()));
    EXPECT_EQ(page.gauge()->state(), ShownState::ready);
    page.setUpdating(true);
    EXPECT_EQ(page.gauge()->state(), ShownState::updating);
    page.setAnswer(sample::shared(sample::answer()));
    EXPECT_EQ(page.gauge()->state(), ShownState::updating) << "only setUpdating ends it";
    page.setUpdating(false);
    EXPECT_EQ(page.gauge()->state(), ShownState::ready);
    page.setState(ShownState::failed);
    EXPECT_EQ(page.gauge()->state(), ShownState::failed);
    page.setUpdating(false);
    EXPECT_EQ(page.gauge()->state(), ShownState::failed) << "not updating is not mended";
}

TEST(FitPage, FitsBetweenOutlineAndFormWithoutScrolling) {
    FitPage page;
    page.setAnswer(sample::shared(sample::answer()));
    page.showItem(QStringLiteral("/boxes/1"));
    open(page, QSize(730, 620));
    EXPECT_EQ(page.findChild<QScrollArea*>()->verticalScrollBar()->maximum(), 0);
}

TEST(Pages, CutNothingOffAtAnyWidthOrFontSize) {
    const QFont before = QApplication::font();
    for (const double size : {9.0, 13.5, 18.0}) {
        QFont font = before;
        font.setPointSizeF(size);
        QApplication::setFont(font);
        for (const QSize shown :
             {QSize(static_cast<int>(560 * size / 9), 600), QSize(730 * 2, 900)})
            for (const Answer& answer : {sample::sure(), sample::many(12)}) {
                FitPage fit;
                fit.setAnswer(sample::shared(answer));
                open(fit, shown);
                expect_nothing_cut_off(fit);
                ArrivePage arrive;
                arrive.setAnswer(sample::shared(answer));
                open(arrive, shown);
                expect_nothing_cut_off(arrive);
                SurePage sure;
                sure.setAnswer(sample::shared(answer));
                open(sure, shown);
                expect_nothing_cut_off(sure);
            }
    }
    QApplication::setFont(before);
}

TEST(Pages, FollowLightAndDark) {
    FitPage fit;
    ArrivePage arrive;
    SurePage sure;
    for (Page* page :
         {static_cast<Page*>(&fit), static_cast<Page*>(&arrive), static_cast<Page*>(&sure)}) {
        page->setAnswer(sample::shared(sample::sure()));
        page->setPalette(light_palette());
        open(*page);
        const QImage light = picture_of(*page);
        page->setPalette(dark_palette());
        const QImage dark = picture_of(*page);
        EXPECT_GT(lightness_of(light), 190);
        EXPECT_LT(lightness_of(dark), 80);
        EXPECT_GT(colours_in(light), 30);
        EXPECT_GT(colours_in(dark), 30);
    }
}

TEST(Pages, GiveEveryFocusableChildAName) {
    FitPage fit;
    ArrivePage arrive;
    SurePage sure;
    for (Page* page :
         {static_cast<Page*>(&fit), static_cast<Page*>(&arrive), static_cast<Page*>(&sure)}) {
        page->setAnswer(sample::shared(sample::sure()));
        open(*page);
        for (QWidget* child : page->findChildren<QWidget*>()) {
            if (!child->isVisible() || !(child->focusPolicy() & Qt::TabFocus) ||
                child->focusProxy())
                continue;
            QAccessibleInterface* face = QAccessible::queryAccessibleInterface(child);
            ASSERT_NE(face, nullptr);
            EXPECT_FALSE(face->text(QAccessible::Name).isEmpty())
                << child->metaObject()->className() << " " << child->objectName().toStdString();
        }
    }
}

TEST(ArrivePage, ChoosesAmongSends) {
    ArrivePage page;
    page.setAnswer(sample::shared(sample::answer()));
    open(page);
    auto* chooser = page.findChild<QComboBox*>(QStringLiteral("sendChooser"));
    ASSERT_TRUE(chooser->isVisible());
    EXPECT_EQ(page.shownItem(), QStringLiteral("/sends/0"));
    EXPECT_TRUE(page.headline().startsWith(QStringLiteral("“nightly” arrives")));
    QSignalSpy chosen(&page, &Page::itemChosen);
    page.showItem(QStringLiteral("/sends/1/payload"));
    EXPECT_EQ(page.shownItem(), QStringLiteral("/sends/1"));
    EXPECT_EQ(chooser->currentIndex(), 1);
    EXPECT_TRUE(page.headline().contains(QStringLiteral("falls behind")));
    EXPECT_EQ(chosen.count(), 0);
    chooser->setFocus();
    QTest::keyClick(chooser, Qt::Key_Up);
    ASSERT_EQ(chosen.count(), 1);
    EXPECT_EQ(chosen[0][0].toString(), QStringLiteral("/sends/0"));
}

TEST(ArrivePage, SurvivesEveryKindOfAnswer) {
    ArrivePage page;
    open(page);
    EXPECT_EQ(said(page), QStringLiteral("No answer yet"));
    page.setAnswer(sample::shared(sample::many(12)));
    settle();
    page.setAnswer(sample::shared(sample::empty()));
    settle();
    EXPECT_EQ(said(page), QStringLiteral("Nothing is sent yet"));
    Answer bare = sample::answer();
    bare.outlook.sends = {SendOutlook{}};
    page.setAnswer(sample::shared(bare));
    settle();
    EXPECT_FALSE(page.findChild<QComboBox*>(QStringLiteral("sendChooser"))->isVisible());
    bare.site.time_zone = "Nowhere/At_All";
    page.setAnswer(sample::shared(bare));
    page.setPrefixes(Prefixes::binary);
    page.setUpdating(true);
    page.setAnswer(nullptr);
    settle();
    page.showItem(QStringLiteral("/sends/0"));
}

QComboBox* chooser_of(const SurePage& page, const char* name) {
    return page.findChild<QComboBox*>(QLatin1String(name));
}

TEST(SurePage, ShowsTheFirstDatasetAndTheSoonestBox) {
    SurePage page;
    page.setAnswer(sample::shared(sample::sure()));
    open(page);
    EXPECT_EQ(page.shownDataset(), QStringLiteral("/datasets/0"));
    EXPECT_EQ(page.shownBox(), QStringLiteral("/boxes/1"));
    EXPECT_TRUE(page.turnover()->title().contains(QStringLiteral("“imaging”")));
    EXPECT_TRUE(
        page.live()->title().startsWith(QStringLiteral("Live bytes of “imaging”: 14 of 18")));
    EXPECT_TRUE(
        page.freed()->title().startsWith(QStringLiteral("Freed bytes of “imaging”: 17 of 18")));
    EXPECT_EQ(page.drivers()->title(),
              QStringLiteral("When attic reaches its ceiling depends most on growth of “imaging”"));
    EXPECT_EQ(page.live()->table()->rowCount(), 18);
    EXPECT_EQ(page.drivers()->table()->rowCount(), 3);
}

TEST(SurePage, ShowsTheItemAPointerNamesAndTellsOnlyAUsersChoice) {
    SurePage page;
    page.setAnswer(sample::shared(sample::sure()));
    open(page);
    QSignalSpy chosen(&page, &Page::itemChosen);
    page.showItem(QStringLiteral("/datasets/2/growth"));
    EXPECT_EQ(page.shownDataset(), QStringLiteral("/datasets/2"));
    EXPECT_EQ(chooser_of(page, "datasetChooser")->currentIndex(), 2);
    page.showItem(QStringLiteral("/boxes/2"));
    EXPECT_EQ(page.shownBox(), QStringLiteral("/boxes/2"));
    EXPECT_EQ(page.shownDataset(), QStringLiteral("/datasets/2")) << "a box leaves the dataset";
    for (const char* other :
         {"/sends/0", "/boxes/0", "/boxes/99", "/datasets/7", "/datasets/-1", ""})
        page.showItem(QString::fromLatin1(other));
    EXPECT_EQ(page.shownBox(), QStringLiteral("/boxes/2")) << "the clinic is not forecast";
    EXPECT_EQ(page.shownDataset(), QStringLiteral("/datasets/2"));
    EXPECT_EQ(chosen.count(), 0);

    QComboBox* datasets = chooser_of(page, "datasetChooser");
    datasets->setFocus();
    QTest::keyClick(datasets, Qt::Key_Up);
    ASSERT_EQ(chosen.count(), 1);
    EXPECT_EQ(chosen[0][0].toString(), QStringLiteral("/datasets/1"));
    EXPECT_TRUE(page.turnover()->title().contains(QStringLiteral("“mail”")));
    QComboBox* boxes = chooser_of(page, "boxChooser");
    boxes->setFocus();
    QTest::keyClick(boxes, Qt::Key_Down);
    ASSERT_EQ(chosen.count(), 2);
    EXPECT_EQ(chosen[1][0].toString(), QStringLiteral("/boxes/3"));
    EXPECT_TRUE(page.drivers()->foot().contains(QStringLiteral("already"))) << "the shed is over";
}

TEST(SurePage, SaysWhatWasNotMeasuredAndLeadsToItsDataset) {
    SurePage page;
    page.setAnswer(sample::shared(sample::sure()));
    open(page);
    QSignalSpy chosen(&page, &Page::itemChosen);
    QStringList texts;
    for (TextButton* sentence : page.sentences()) texts << sentence->text();
    const QString all = texts.join(u'\n');
    const Answer answer = sample::sure();
    for (const DatasetOutlook& d : answer.outlook.datasets)
        for (const Message& assumption : d.assumptions)
            EXPECT_TRUE(all.contains(QString::fromStdString(english(assumption)))) << english(assumption);
    EXPECT_TRUE(all.contains(QStringLiteral("1.38 times as wide")));
    EXPECT_EQ(all.count(QStringLiteral("times as wide")), 1);
    EXPECT_TRUE(all.contains(QStringLiteral("“letters”: no listing")));
    page.sentences().back()->click();
    ASSERT_EQ(chosen.count(), 1);
    EXPECT_EQ(chosen[0][0].toString(), QStringLiteral("/datasets/2"));

    const auto before = page.sentences().size();
    Answer fewer = sample::sure();
    fewer.outlook.datasets.resize(1);
    page.setAnswer(sample::shared(fewer));
    settle();
    EXPECT_LT(page.sentences().size(), before);
    EXPECT_FALSE(chooser_of(page, "datasetChooser")->isVisible()) << "one needs no choice";
}

TEST(SurePage, EnteringADriverLeadsToWhatItIsAbout) {
    SurePage page;
    page.setAnswer(sample::shared(sample::sure()));
    open(page);
    QSignalSpy chosen(&page, &Page::itemChosen);
    page.drivers()->chart()->setFocus();
    QTest::keyClick(page.drivers()->chart(), Qt::Key_End);
    QTest::keyClick(page.drivers()->chart(), Qt::Key_Return);
    ASSERT_EQ(chosen.count(), 1);
    EXPECT_EQ(chosen[0][0].toString(), QStringLiteral("/datasets/1"));
}

TEST(SurePage, SaysWhatIsNotThere) {
    SurePage page;
    page.setAnswer(sample::shared(sample::answer()));  // nothing of what the page shows is filled
    open(page);
    EXPECT_EQ(page.turnover()->title(), QStringLiteral("No turnover curve of “imaging”"));
    EXPECT_TRUE(
        page.turnover()->foot().startsWith(QStringLiteral("No listing: nothing was measured")));
    EXPECT_TRUE(page.live()->foot().startsWith(QStringLiteral("No listing: nothing was measured")));
    EXPECT_FALSE(page.freed()->isVisible()) << "the reason is not said twice";
    EXPECT_FALSE(page.turnover()->chart()->isVisible());
    EXPECT_TRUE(page.drivers()->title().startsWith(QStringLiteral("Nothing to rank")));
    EXPECT_FALSE(page.drivers()->foot().isEmpty());
}

TEST(SurePage, SurvivesEveryKindOfAnswer) {
    SurePage page;
    open(page);
    EXPECT_EQ(said(page), QStringLiteral("No answer yet"));
    page.setUpdating(true);
    EXPECT_EQ(said(page), QStringLiteral("Working out the forecast…"));
    page.setAnswer(sample::shared(sample::sure()));
    settle();
    page.setAnswer(sample::shared(sample::many(12)));
    settle();
    EXPECT_FALSE(page.turnover()->isVisible()) << "no dataset";
    EXPECT_TRUE(page.drivers()->isVisible());
    page.setAnswer(sample::shared(sample::empty()));
    settle();
    EXPECT_EQ(said(page), QStringLiteral("Nothing is forecast yet"));
    Answer bare = sample::sure();
    bare.outlook.boxes.clear();
    bare.outlook.datasets = {DatasetOutlook{}};
    page.setAnswer(sample::shared(bare));
    settle();
    EXPECT_FALSE(page.drivers()->isVisible());
    EXPECT_EQ(page.shownDataset(), QString());
    page.setPrefixes(Prefixes::binary);
    page.setState(ShownState::failed);
    page.setAnswer(nullptr);
    settle();
    page.showItem(QStringLiteral("/datasets/0"));
}

TEST(SurePage, UsesTheChosenPrefixesEverywhere) {
    SurePage page;
    page.setAnswer(sample::shared(sample::sure()));
    page.setPrefixes(Prefixes::binary);
    open(page);
    EXPECT_TRUE(page.turnover()->title().contains(QStringLiteral("GiB")));
    for (ChartSection* section : {page.turnover(), page.live(), page.freed()}) {
        EXPECT_TRUE(section->table()->tabSeparated().contains(QStringLiteral("iB)")));
        EXPECT_FALSE(section->chart()->accessibleDescription().contains(QStringLiteral("TB")));
        EXPECT_FALSE(section->chart()->accessibleDescription().contains(QStringLiteral("GB")));
    }
}

TEST(SurePage, PassesItsStateOn) {
    SurePage page;
    page.setAnswer(sample::shared(sample::sure()));
    page.setUpdating(true);
    for (ChartSection* section : {page.turnover(), page.live(), page.freed(), page.drivers()})
        EXPECT_EQ(section->chart()->state(), ShownState::updating);
    page.setUpdating(false);
    EXPECT_EQ(page.drivers()->chart()->state(), ShownState::ready);
}

TEST(ArriveText, SaysSixFactsInSentences) {
    for (const bool late : {false, true}) {
        const auto facts =
            ArriveText::facts(sample::send("nightly", late), 5 * days_per_year, Prefixes::decimal);
        ASSERT_EQ(facts.size(), 6u);
        for (const Fact& fact : facts) {
            EXPECT_FALSE(fact.caption.isEmpty());
            EXPECT_FALSE(fact.value.isEmpty());
            EXPECT_TRUE(fact.sentence.endsWith(u'.')) << fact.sentence.toStdString();
        }
    }
}

TEST(ArriveText, NeverGivesANumberToWhatDoesNotHappen) {
    SendOutlook s = sample::send("nightly", false);
    s.first_copy_days = {};
    s.longest_outage_days.reset();
    s.chance_of_missing_window = 0;
    const auto facts = ArriveText::facts(s, 5 * days_per_year, Prefixes::decimal);
    EXPECT_EQ(facts[1].value, QStringLiteral("No run"));
    EXPECT_EQ(facts[3].value, QStringLiteral("Not within 5 years"));
    EXPECT_EQ(facts[4].value, QStringLiteral("No limit"));
    s.first_copy_days = {0.0, 0.0, 0.0};
    EXPECT_EQ(ArriveText::facts(s, 5 * days_per_year, Prefixes::decimal)[3].value,
              QStringLiteral("Already there"));
}

TEST(ArriveText, HeadlineFollowsTheVerdict) {
    SendOutlook s = sample::send("nightly", false);
    EXPECT_TRUE(ArriveText::headline(s, 0.9).contains(QStringLiteral("arrives")));
    s.chance_of_missing_window = 0.2;
    EXPECT_TRUE(ArriveText::headline(s, 0.9).contains(QStringLiteral("misses its window")));
    EXPECT_TRUE(ArriveText::headline(s, 0.7).contains(QStringLiteral("arrives")));
    s.falls_behind = true;
    EXPECT_TRUE(ArriveText::headline(s, 0.7).contains(QStringLiteral("falls behind")));
}

}  // namespace
}  // namespace ullage
