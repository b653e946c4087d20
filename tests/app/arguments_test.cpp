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

TEST(Arguments, OnlyOneOutputCanHaveStandardOutput) {
    EXPECT_NE(error_of({"forecast", "a", "--json", "-", "--csv", "-"}), "");
}

TEST(Arguments, HelpNamesEveryCommandAndEveryExitStatus) {
    const std::string help = help_text();
    for (const char* word : {"forecast", "measure", "check", "--json", "--csv", "--paths", "--seed",
                             "--threads", "--as-of", "--columns", "130"})
        EXPECT_NE(help.find(word), std::string::npos) << word;
}
