// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/cli/arguments.h"

#include <gtest/gtest.h>

using namespace ullage;
using namespace ullage::cli;
using Command = Arguments::Command;

namespace {

std::string error_of(const std::vector<std::string>& words) {
    const auto a = parse_arguments(words);
    return a ? "" : a.error();
}

}  // namespace

TEST(Arguments, NoCommandMeansTheWindow) {
    EXPECT_EQ(parse_arguments({})->command, Command::window);
    const auto a = parse_arguments({"x.site.json"});
    ASSERT_TRUE(a);
    EXPECT_EQ(a->command, Command::window);
    EXPECT_EQ(a->files, std::vector<std::string>{"x.site.json"});
}

TEST(Arguments, ForecastTakesEveryOptionInBothSpellings) {
    const auto a = parse_arguments({"forecast", "a", "--json", "-", "--paths=50", "--seed", "18446744073709551615",
                                    "--threads", "2", "--as-of", "2027-02-28", "--csv=out.csv", "b"});
    ASSERT_TRUE(a) << a.error();
    EXPECT_EQ(a->files, (std::vector<std::string>{"a", "b"}));
    EXPECT_EQ(a->json, "-");
    EXPECT_EQ(a->csv, "out.csv");
    EXPECT_EQ(a->settings.paths, 50);
    EXPECT_EQ(a->settings.seed, 18446744073709551615ULL);
    EXPECT_EQ(a->settings.threads, 2);
    EXPECT_EQ(format_date(*a->settings.as_of), "2027-02-28");
}

TEST(Arguments, SolveTakesWhatItIsFor) {
    const auto a = parse_arguments({"solve", "a", "--for", "link-rate", "--send", "nightly", "--confidence", "95 %",
                                    "--rates", "my-rates.txt", "--json=-"});
    ASSERT_TRUE(a) << a.error();
    EXPECT_EQ(a->command, Command::solve);
    EXPECT_EQ(a->solve_for, SolveFor::link_rate);
    EXPECT_EQ(a->send, "nightly");
    EXPECT_DOUBLE_EQ(*a->confidence, 0.95);
    EXPECT_EQ(a->rates, "my-rates.txt");
    EXPECT_EQ(parse_arguments({"solve", "a", "--for", "order-date", "--box", "attic"})->box, "attic");
    for (const char* what : {"usable", "ladder"}) EXPECT_TRUE(parse_arguments({"solve", "a", "--for", what}));
    EXPECT_NE(error_of({"solve", "a"}).find("--for"), std::string::npos);
    EXPECT_NE(error_of({"solve", "a", "--for", "luck"}).find("order-date"), std::string::npos);
    EXPECT_NE(error_of({"solve", "a", "--for", "usable", "--send", "x"}).find("link-rate"), std::string::npos);
    for (const char* c : {"0.5", "1", "90", "much"})
        EXPECT_NE(error_of({"solve", "a", "--for", "usable", "--confidence", c}), "") << c;
    EXPECT_NE(error_of({"solve", "a", "b", "--for", "usable"}), "");
}

TEST(Arguments, OutageNeedsItsSendItsDateAndItsDays) {
    const auto a = parse_arguments({"outage", "a", "--send", "nightly", "--from", "2027-02-01", "--days", "4.5"});
    ASSERT_TRUE(a) << a.error();
    EXPECT_EQ(format_date(*a->outage_from), "2027-02-01");
    EXPECT_EQ(a->outage_days, 4.5);
    EXPECT_NE(error_of({"outage", "a", "--from", "2027-02-01", "--days", "4"}).find("--send"), std::string::npos);
    EXPECT_NE(error_of({"outage", "a", "--send", "x", "--days", "4"}).find("--from"), std::string::npos);
    EXPECT_NE(error_of({"outage", "a", "--send", "x", "--from", "2027-02-01"}).find("--days"), std::string::npos);
    for (const char* days : {"0", "-1", "many", "1e9"})
        EXPECT_NE(error_of({"outage", "a", "--send", "x", "--from", "2027-02-01", "--days", days}), "") << days;
    EXPECT_NE(error_of({"forecast", "a", "--days", "4"}).find("forecast"), std::string::npos);
}

TEST(Arguments, AfterTwoDashesEverythingIsAFile) {
    const auto a = parse_arguments({"forecast", "--", "--json"});
    ASSERT_TRUE(a);
    EXPECT_EQ(a->files, std::vector<std::string>{"--json"});
}

TEST(Arguments, AnUnknownOptionNamesTheNearest) {
    EXPECT_NE(error_of({"forecast", "x", "--jsno", "-"}).find("--json"), std::string::npos);
}

TEST(Arguments, AnOptionOfAnotherCommandIsRefused) {
    EXPECT_NE(error_of({"check", "x", "--json", "-"}).find("check"), std::string::npos);
    EXPECT_NE(error_of({"measure", "x", "--paths", "3"}).find("measure"), std::string::npos);
}

TEST(Arguments, NumbersOutOfRangeAreRefusedWithTheRange) {
    for (const char* paths : {"0", "-3", "1000001", "12x", "", "1e3"})
        EXPECT_NE(error_of({"forecast", "x", "--paths", paths}).find("1000000"), std::string::npos) << paths;
    EXPECT_NE(error_of({"forecast", "x", "--as-of", "2027-02-29"}), "");
}

TEST(Arguments, MissingOrTooManyFilesAreRefused) {
    EXPECT_NE(error_of({"forecast"}), "");
    EXPECT_NE(error_of({"measure"}), "");
    EXPECT_NE(error_of({"measure", "a", "b"}), "");
    EXPECT_NE(error_of({"check", "a", "b"}), "");
    EXPECT_NE(error_of({"a", "b"}), "");
    EXPECT_NE(error_of({"forecast", "a", "--json"}), "");
}

TEST(Arguments, AReportNeedsASiteAndAFile) {
    const auto a = parse_arguments({"report", "a", "--pdf", "p", "--html=-", "--paper", "letter", "--logo", "l"});
    ASSERT_TRUE(a);
    EXPECT_EQ(a->pdf, "p");
    EXPECT_EQ(a->html, "-");
    EXPECT_EQ(a->logo, "l");
    EXPECT_TRUE(a->letter);
    EXPECT_NE(error_of({"report", "a"}), "");
    EXPECT_NE(error_of({"report", "--pdf", "p"}), "");
    EXPECT_NE(error_of({"report", "a", "b", "--pdf", "p"}), "");
    EXPECT_NE(error_of({"report", "a", "--pdf", "-", "--html", "-"}), "");
    EXPECT_NE(error_of({"report", "a", "--pdf", "p", "--paper", "a5"}).find("letter"), std::string::npos);
    EXPECT_NE(error_of({"forecast", "a", "--pdf", "p"}), "");
}

TEST(Arguments, OnlyOneOutputCanHaveStandardOutput) {
    EXPECT_NE(error_of({"forecast", "a", "--json", "-", "--csv", "-"}), "");
}

TEST(Arguments, HelpNamesEveryCommandAndEveryExitStatus) {
    const std::string help = help_text();
    for (const char* word : {"forecast", "measure", "check", "report", "--pdf", "--html", "--json", "--csv", "--paths", "--seed",
                             "--threads", "--as-of", "--columns", "130"})
        EXPECT_NE(help.find(word), std::string::npos) << word;
}
