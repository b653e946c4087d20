// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/words/wording.h"

#include <gtest/gtest.h>

#include <clocale>
#include <locale>
#include <thread>
#include <vector>

namespace ullage {
namespace {

const Wording en, de(Language::german);

Day day(int y, unsigned m, unsigned d) { return std::chrono::year(y) / static_cast<int>(m) / static_cast<int>(d); }

TEST(Language, IsReadFromTheNamesOfLocales) {
    for (const char* name : {"de", "de_DE.UTF-8", "de-AT", "DE", "de@euro"})
        EXPECT_EQ(language_of(name), Language::german) << name;
    for (const char* name : {"en", "en_GB.UTF-8", "C", "POSIX", "C.UTF-8"})
        EXPECT_EQ(language_of(name), Language::english) << name;
    for (const char* name : {"", "fr", "den", "d"}) EXPECT_FALSE(language_of(name)) << name;
}

TEST(Language, OfTheEnvironmentIsTheFirstVariableThatIsSet) {  // POSIX.1-2017, 8.2
    EXPECT_EQ(language_of_environment("de_DE.UTF-8", "C", "C"), Language::german);
    EXPECT_EQ(language_of_environment("", "de_DE", "C"), Language::german);
    EXPECT_EQ(language_of_environment(nullptr, nullptr, "de_CH"), Language::german);
    EXPECT_EQ(language_of_environment("C", "de_DE", "de_DE"), Language::english);
    EXPECT_EQ(language_of_environment("fr_FR", "de_DE", "de_DE"), Language::english);
    EXPECT_EQ(language_of_environment(nullptr, nullptr, nullptr), Language::english);
}

TEST(Wording, WritesFiguresAsTheLanguageDoes) {
    EXPECT_EQ(en.bytes(9.24e12), "9.24 TB");
    EXPECT_EQ(de.bytes(9.24e12), "9,24 TB");
    EXPECT_EQ(de.bytes(1.5 * 1099511627776.0, Prefixes::binary), "1,5 TiB");
    EXPECT_EQ(de.percent(0.005), "0,5 %");
    EXPECT_EQ(de.bit_rate(94.2e6), "94,2 Mbit/s");
    EXPECT_EQ(en.number(0.123456), "0.123");
    EXPECT_EQ(de.number(0.123456), "0,123");
    EXPECT_EQ(en.whole(20000), "20000");
    EXPECT_EQ(de.whole(2000), "2000");
    EXPECT_EQ(de.whole(-1234567), "-1.234.567");
}

TEST(Wording, WritesMoneyAsTheLanguageDoes) {
    EXPECT_EQ(en.money(2150, "EUR"), "2,150 EUR");
    EXPECT_EQ(de.money(2150, "EUR"), "2.150 €");
    EXPECT_EQ(de.money(8.604, "CHF"), "8,60 CHF");
    EXPECT_EQ(de.money(1234567.8, "EUR"), "1.234.568 €");
}

TEST(Wording, WritesDatesAsTheLanguageDoes) {
    EXPECT_EQ(en.date(day(2027, 10, 2)), "2027-10-02");
    EXPECT_EQ(de.date(day(2027, 10, 2)), "02.10.2027");
    EXPECT_EQ(en.month(day(2027, 10, 2)), "Oct 2027");
    EXPECT_EQ(de.month(day(2027, 10, 2)), "Okt. 2027");
    EXPECT_EQ(de.month(day(2027, 3, 2)), "März 2027");
}

TEST(Wording, GermanSpansHaveTheirCaseAndNumber) {
    EXPECT_EQ(de.span(427), "etwa 14 Monate");
    EXPECT_EQ(de.span(427, Case::dative), "etwa 14 Monaten");
    EXPECT_EQ(de.span(1), "1 Tag");
    EXPECT_EQ(de.span(1, Case::dative), "1 Tag");
    EXPECT_EQ(de.span(45, Case::dative), "45 Tagen");
    EXPECT_EQ(de.span(1278), "etwa 3,5 Jahre");
    EXPECT_EQ(de.span(1278, Case::dative), "etwa 3,5 Jahren");
    EXPECT_EQ(de.horizon(5 * days_per_year, Case::dative), "5 Jahren");
    EXPECT_EQ(de.horizon(days_per_year), "1 Jahr");
    EXPECT_EQ(de.hours(2.5), "2,5 Stunden");
    EXPECT_EQ(de.hours(0.01), "1 Minute");
    EXPECT_EQ(de.hours(96, Case::dative), "4 Tagen");
}

TEST(Wording, AMessageIsSaidInEitherLanguage) {
    const Message input = message("growth of “{}”", "scans");
    EXPECT_EQ(en(input), "growth of “scans”");
    EXPECT_EQ(de(input), "Wachstum von „scans“");
    const Message bays = message_n("{} drive does not go into {} bays", "{} drives do not go into {} bays", 1, 1, 8);
    EXPECT_EQ(en(bays), "1 drive does not go into 8 bays");
    EXPECT_EQ(de(bays), "1 Laufwerk passt nicht in 8 Einschübe");
    const Message within = message("Listing: {}.", message("the listing covers {}, which is too short to tell how much "
                                                           "growth varies from week to week", days(3)));
    EXPECT_EQ(en(within), "Listing: the listing covers 3 d, which is too short to tell how much growth varies from week "
                          "to week.");
    EXPECT_EQ(de(within), "Liste: die Liste umfasst 3 Tage, zu kurz, um zu sehen, wie das Wachstum von Woche zu Woche "
                          "schwankt.");
    EXPECT_EQ(de(message("adds {}", Exact{"2.5 TB"})), "nimmt 2,5 TB auf");
}

TEST(Wording, WhatNoCatalogueHoldsIsSaidAsItIs) {
    EXPECT_EQ(de(Message("xyzzy {} {")), "xyzzy {} {");
    EXPECT_EQ(de.say("“{}”", "{0} {"), "„{0} {“") << "braces in a name are text";
}

TEST(Wording, MessagesAreEqualIfAllOfThemIs) {
    EXPECT_EQ(message("a {}", 1), message("a {}", 1));
    EXPECT_NE(message("a {}", 1), message("a {}", 2));
    EXPECT_NE(message("a {}", message("b")), message("a {}", message("c")));
}

TEST(Wording, TouchesNoLocaleAndMayBeUsedOnManyThreads) {
    const std::string before = std::setlocale(LC_ALL, nullptr);
    const std::locale global;
    std::vector<std::string> said(8);
    {
        std::vector<std::jthread> threads;
        for (auto& text : said)
            threads.emplace_back([&text] {
                for (int i = 0; i < 200; ++i) text = Wording(Language::german).span(427, Case::dative);
            });
    }
    for (const auto& text : said) EXPECT_EQ(text, "etwa 14 Monaten");
    EXPECT_EQ(std::setlocale(LC_ALL, nullptr), before);
    EXPECT_EQ(std::locale(), global);
}

}  // namespace
}  // namespace ullage
