// SPDX-License-Identifier: GPL-3.0-or-later
#include "report_testing.h"

#include "core/report/report_words.h"
#include "core/report/terms.h"

#include <algorithm>

namespace ullage {
namespace {

using namespace testing;

std::size_t times(const std::string& text, const std::string& part) {
    std::size_t n = 0;
    for (std::size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
    return n;
}

#define EXPECT_SAID(text, part) EXPECT_NE((text).find(part), std::string::npos) << text

OfferOutlook offer(const std::string& name, int rank, double cost, double chance) {
    OfferOutlook o;
    o.name = name;
    o.box = "attic";
    o.rank = rank;
    o.price = o.cost_total = cost;
    o.usable_bytes = 61e12;
    o.chance_of_lasting = chance;
    o.holds = chance >= 0.9;
    o.recommended = rank == 1 && o.holds;
    o.running_from = *parse_date("2026-11-29");
    return o;
}

/// "attic" with these offers.
Answer offered(std::vector<OfferOutlook> offers) {
    Answer a = answer();
    a.outlook.offers = std::move(offers);
    a.outlook.currency = "EUR";
    return with_findings(a);
}

BoxOutlook endless() {
    BoxOutlook b = box();
    b.days_until_ceiling = b.days_until_full = {};
    b.chance_of_ceiling_within_horizon = b.chance_of_full_within_horizon = 0;
    b.order_by.reset();
    b.fill.back() = point(1826, 22e12, 2e12, 40e12);
    return b;
}

TEST(Report, TheAnswerIsThreeSentencesInPlainWords) {
    const auto r = report_of(offered({offer("six drives", 1, 2150, 0.97)}));
    EXPECT_EQ(r.answer[0], "attic will most likely be 80 % full, the level to act at, in about 3.6 years (around May "
                           "2030); in 8 of 10 futures that we drew it takes between 2.7 and 4.7 years.");
    EXPECT_EQ(r.answer[1], "The regular copy “nightly” arrives in time: it is made in the hours that the line is open "
                           "for it.");
    EXPECT_EQ(r.answer[2], "We propose “six drives” for attic, 2,150 EUR in all over 5 years, ordered by 2029-07-07.");
}

TEST(Report, SpansAreSaidAsAPersonSaysThem) {
    EXPECT_EQ(report::say_between(340, 570, Wording()), "between 11 and 19 months");
    EXPECT_EQ(report::say_between(45, 427, Wording()), "between 45 days and 14 months");
    EXPECT_EQ(report::say_between(1, 30, Wording()), "between 1 day and 30 days");
    EXPECT_EQ(report::say_between(20, 30, Wording()), "between 20 and 30 days");
    EXPECT_EQ(report::say_between(426, 427, Wording()), "about 14 months");
}

TEST(Report, EveryFindingStandsInItOnce) {
    Answer a = offered({offer("six drives", 1, 2150, 0.97), offer("eight drives", 2, 9000, 1)});
    a.findings.push_back({Level::note, "/links/0", "About a line."});
    a.findings.push_back({Level::tight, "/boxes/0", "About a box that is not forecast."});
    a.findings.push_back({Level::tight, "/offers/7", "About an offer that is not there."});
    const std::string text = text_of_report(report_of(a));
    for (const auto& f : a.findings) EXPECT_EQ(times(text, "* " + f.text + "\n"), 1U) << f.text << "\n" << text;
}

TEST(Report, FindingsStandInTheSectionTheyAreAbout) {
    const Answer a = offered({offer("six drives", 1, 2150, 0.97)});
    const auto r = report_of(a);
    for (const auto& f : a.findings) {
        const std::string heading = f.level == Level::note               ? "Appendix A: item by item"
                                    : f.about.rfind("/boxes", 0) == 0    ? "How full, when"
                                    : f.about.rfind("/sends", 0) == 0 && f.level == Level::fits ? "Appendix A: item by item"
                                    : f.about.rfind("/sends", 0) == 0    ? "Does it arrive in time"
                                    : f.about.rfind("/offers", 0) == 0   ? "What we propose"
                                    : f.about.rfind("/datasets", 0) == 0 ? "What this rests on"
                                                                         : "Cautions";
        EXPECT_SAID(section_of(r, heading), "* " + f.text + "\n");
    }
}

TEST(Report, EachTermIsExplainedOnceAndAtItsFirstUse) {
    const std::string text = text_of_report(report_of(offered({offer("six drives", 1, 2150, 0.97)})));
    for (const char* start : {"A snapshot is", "The ceiling is", "A send copies", "A dataset is"})
        EXPECT_EQ(times(text, start), 1U) << start << "\n" << text;
    for (const auto& term : terms(Wording())) EXPECT_LE(times(text, term.meaning), 1U) << term.meaning;
}

TEST(Report, NamesUseNoTerms) {
    Explainer e;
    EXPECT_TRUE(e.first_used_in("The file “snapshots of the pool” is there.").empty());
    EXPECT_FALSE(e.first_used_in("Snapshots are kept.").empty());
    EXPECT_TRUE(e.first_used_in("Another snapshot.").empty()) << "told before";
}

TEST(Report, AnUnknownWordWithinAnotherIsNoTerm) {
    Explainer e;
    EXPECT_TRUE(e.first_used_in("The letterbox sends1 is liveable.").empty());
}

TEST(Report, SaysWhatHappensIfNothingIsDone) {
    const auto r = report_of(answer());
    EXPECT_SAID(section_of(r, "What we propose"), "| attic | 2029-07-07 | 40 TB | no more than it has | full within 5 years in 2 of 10 futures |");
    EXPECT_SAID(section_of(r, "What we propose"), "No offers were given, so none is compared here.");
    EXPECT_EQ(r.answer[2], "More space for attic should be ordered by 2029-07-07; offers to compare were not given.");
}

TEST(Report, ASiteWhereNothingEverFillsNeedsNothing) {
    Answer a = answer();
    a.outlook.boxes = {endless()};
    const auto r = report_of(with_findings(a));
    EXPECT_EQ(r.answer[0], "No box reaches the level to act at within 5 years in any future that we drew; the fullest "
                           "then is attic, at 55 %.");
    EXPECT_EQ(r.answer[2], "Nothing needs to be bought now.");
    EXPECT_SAID(section_of(r, "What we propose"), "| attic | not needed | 40 TB | no more than it has | stays below the level to act at for 5 years |");
    EXPECT_SAID(section_of(r, "Appendix A: item by item"), "not within 5 years");
}

TEST(Report, AFullBoxComesFirstInTheAnswer) {
    Answer a = answer();
    BoxOutlook full = box();
    full.name = "shed";
    full.full_now = full.over_ceiling_now = true;
    full.used_now_bytes = 41e12;
    full.days_until_ceiling = full.days_until_full = {0, 0, 0};
    full.order_by = as_of - std::chrono::days(21);
    a.outlook.boxes.push_back(full);
    const auto r = report_of(with_findings(a));
    EXPECT_EQ(r.answer[0], "shed is full today: nothing more can be written there.");
    EXPECT_EQ(r.answer[2], "More space for shed should be ordered now; offers to compare were not given.");
    EXPECT_SAID(section_of(r, "Appendix A: item by item"), "| today | today | today |");
    EXPECT_SAID(section_of(r, "What we propose"), "| shed | 2026-10-11, which has passed: now | 40 TB | no more than it has | is full already |");
}

TEST(Report, NoLinkAndNoBoxAreSaid) {
    Answer a = answer();
    a.site.sends.clear();
    a.outlook.sends.clear();
    a.outlook.boxes.clear();
    const auto r = report_of(with_findings(a));
    EXPECT_EQ(r.answer[0], "No box is forecast, since none has a stated size.");
    EXPECT_EQ(r.answer[1], "No copy is sent to another box in this plan, so nothing here protects against the loss of a "
                           "box.");
    EXPECT_SAID(section_of(r, "Does it arrive in time"), "No copy is sent anywhere in this plan.");
}

TEST(Report, ALateSendIsSaid) {
    Answer a = answer();
    a.outlook.sends[0].chance_of_missing_window = 0.51;
    EXPECT_EQ(report_of(a).answer[1], "The regular copy “nightly” does not arrive in time: 51 % of its runs take longer "
                                      "than the line is open for them.");
    a.outlook.sends[0].falls_behind = true;
    a.outlook.sends[0].days_until_behind = 100;
    EXPECT_EQ(report_of(a).answer[1], "The regular copy “nightly” falls behind for good from about Feb 2027: more changes "
                                      "than the line carries.");
    a.outlook.sends[0].first_copy_days = {};
    EXPECT_EQ(report_of(a).answer[1], "The first copy of “nightly” is not complete over the line within 5 years: carry it "
                                      "by hand, or use a faster line.");
}

TEST(Report, NoOfferThatLastsIsProposed) {
    const auto r = report_of(offered({offer("two drives", 1, 300, 0.4)}));
    EXPECT_EQ(r.answer[2], "None of the offers for attic is sure enough to last for 5 years, so ask for others.");
    EXPECT_SAID(section_of(r, "What we propose"), "| two drives | 61 TB | 40 % | not within 5 years | 300 EUR | 300 EUR | "
                                                  "2029-07-07 | does not last |");
}

TEST(Report, OffersStandByRankAndTheProposedOneIsStressed) {
    const auto r = report_of(offered({offer("dear", 2, 9000, 1), offer("cheap", 1, 2150, 0.97)}));
    for (const auto& section : r.sections)
        for (const auto& part : section.parts)
            if (const auto* t = std::get_if<ReportTable>(&part); t && t->caption == "Offers for attic") {
                ASSERT_EQ(t->rows.size(), 2U);
                EXPECT_EQ(t->rows[0][0], "cheap");
                EXPECT_EQ(t->stressed, 0);
                return;
            }
    FAIL() << "no table of offers";
}

TEST(Report, RowsAreAsLongAsTheirHeader) {
    Answer a = offered({offer("six drives", 1, 2150, 0.97)});
    a.outlook.drivers = {{"attic", "growth of “imaging”", "/datasets/0", 905.0, {}, 0.61}};
    std::size_t tables = 0;
    for (const auto& section : report_of(a).sections)
        for (const auto& part : section.parts)
            if (const auto* t = std::get_if<ReportTable>(&part)) {
                ++tables;
                EXPECT_FALSE(t->rows.empty()) << t->caption;
                for (const auto& row : t->rows) EXPECT_EQ(row.size(), t->header.size()) << t->caption;
            }
    EXPECT_GT(tables, 6U);
}

TEST(Report, WhatMovesTheDayIsSaidInTheBodyOfTheBoxThatFillsSoonest) {
    Answer a = answer();
    a.outlook.boxes = {endless(), endless()};
    a.outlook.boxes[0].name = "calm";
    a.outlook.boxes[1].days_until_ceiling.p10 = 900;
    a.outlook.drivers = {{"calm", "growth of “imaging”", "/datasets/0", {}, {}, 0.9},
                         {"attic", "growth of “imaging”", "/datasets/0", {}, 900.0, 0.6}};
    const auto text = section_of(report_of(with_findings(a)), "What this rests on");
    EXPECT_SAID(text, "What moves the day of attic most");
    EXPECT_EQ(text.find("What moves the day of calm most"), std::string::npos) << text;
}

TEST(Report, ThirtyDatasetsAreThirtyRows) {
    Answer a = answer();
    a.site.datasets.clear();
    a.outlook.datasets.clear();
    for (int i = 1; i <= 30; ++i) {
        Dataset asked;
        DatasetOutlook d = dataset();
        asked.name = d.name = "dataset number " + std::to_string(i) + " with a name that is long, as names are";
        a.site.datasets.push_back(asked);
        a.outlook.datasets.push_back(d);
    }
    const auto r = report_of(with_findings(a));
    const auto text = section_of(r, "Appendix B: all figures");
    for (const auto& d : a.outlook.datasets) EXPECT_SAID(text, "| " + d.name + " | 9.2 TB (assumed) |");
    const auto body = section_of(r, "What this rests on");
    EXPECT_EQ(times(body, " | 9.2 TB (assumed) |"), 6U) << "the body has the largest";
    EXPECT_SAID(body, "The 6 largest of 30 datasets are shown; all are in Appendix B.");
}

TEST(Report, TheParticularsAreThoseOfTheSite) {
    Answer a = answer();
    a.site.prepared_for = "Quayside Ltd";
    a.site.prepared_by = "A. Cooper";
    const auto r = report_of(a);
    const std::vector<std::pair<std::string, std::string>> expected = {
        {"Prepared for", "Quayside Ltd"}, {"Prepared by", "A. Cooper"}, {"As of", "2026-11-01"}};
    EXPECT_EQ(r.particulars, expected);
    EXPECT_EQ(r.title, "How full, when, and what to do: Quayside");
}

TEST(Report, ABoxThatIsNotThereYetIsNotCalledEmpty) {
    Answer a = answer();
    a.site.boxes[1].in_service = *parse_date("2026-12-01");
    const auto r = report_of(a);
    const auto text = section_of(r, "How full, when");
    EXPECT_SAID(section_of(r, "Appendix A: item by item"), "| attic | fits | 40 TB | from 2026-12-01 |");
    EXPECT_SAID(text, "It is in service from 2026-12-01, with 40 TB usable.");
    EXPECT_EQ(text.find("are used"), std::string::npos);
}

TEST(Report, TheBodyComesBeforeTheAppendix) {
    const auto r = report_of(answer());
    bool appendix = false;
    for (const auto& section : r.sections) {
        EXPECT_EQ(section.appendix, section.heading.rfind("Appendix", 0) == 0) << section.heading;
        EXPECT_GE(section.appendix, appendix) << section.heading;
        appendix = section.appendix;
    }
    EXPECT_TRUE(appendix);
}

TEST(Report, SaysHowLargeToBuyWhereNoOfferIsGiven) {
    Answer a = answer();
    a.outlook.boxes[0].usable_needed_bytes = 52e12;
    EXPECT_SAID(section_of(report_of(with_findings(a)), "What we propose"), "| attic | 2029-07-07 | 40 TB | 52 TB |");
}

TEST(Report, IsInTheLanguageOfTheAnswer) {
    const auto r = report_of(in_language(offered({offer("six drives", 1, 2150, 0.97)}), Language::german));
    EXPECT_EQ(r.language, "de");
    EXPECT_EQ(r.title, "Wie voll, wann, und was zu tun ist: Quayside");
    EXPECT_EQ(r.answer[0], "attic wird höchstwahrscheinlich in etwa 3,6 Jahren (etwa im Mai 2030) zu 80 % voll sein, das ist "
                           "die Füllgrenze; in 8 von 10 gezogenen Verläufen dauert es zwischen 2,7 und 4,7 Jahren.");
    EXPECT_EQ(r.answer[2], "Wir schlagen „six drives“ für attic vor, insgesamt 2.150 € über 5 Jahre, zu bestellen bis zum "
                           "07.07.2029.");
    const std::string text = text_of_report(r);
    EXPECT_SAID(text, "Ein Snapshot ist der Zustand");
    for (const char* english : {" the ", " of ", " is ", "futures"})
        EXPECT_EQ(text.find(english), std::string::npos) << english << "\n" << text;
}

TEST(Report, GermanTermsAreSeenInAllTheirFormsButNotInNames) {
    Explainer e{Wording(Language::german)};
    EXPECT_TRUE(e.first_used_in("Die Datei „Snapshots des Pools“ ist da.").empty());
    EXPECT_FALSE(e.first_used_in("in 3 von 10 Verläufen").empty());
    EXPECT_FALSE(e.first_used_in("Übertragungen enden.").empty());
}

TEST(Report, BracesInNamesAreText) {
    Answer a = answer();
    a.outlook.boxes[0].name = "attic {0} {";
    EXPECT_SAID(report_of(a).answer[0], "attic {0} { will most likely");
}

}  // namespace
}  // namespace ullage
