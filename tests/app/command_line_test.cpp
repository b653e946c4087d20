// SPDX-License-Identifier: GPL-3.0-or-later
/// The program as scripts see it: exit statuses, what goes to which stream, what is written.
#include "command_line.h"

#include <algorithm>
#include <nlohmann/json.hpp>

using namespace ullage::testing;

TEST_F(CommandLine, HelpAndVersionNeedNoDisplay) {
    EXPECT_EQ(run("--help").status, 0);
    const auto version = run("--version");
    EXPECT_EQ(version.status, 0);
    EXPECT_EQ(version.out.rfind("ullage ", 0), 0U);
    EXPECT_EQ(version.err, "");
}

TEST_F(CommandLine, WrongUsageIsStatus2AndSaysWhy) {
    for (const char* words : {"forecast", "forecast --nothing x", "measure", "check", "--what", "forecast x --paths 0"}) {
        const auto o = run(words);
        EXPECT_EQ(o.status, 2) << words;
        EXPECT_EQ(o.out, "") << words;
        EXPECT_EQ(o.err.rfind("ullage: ", 0), 0U) << words;
    }
}

TEST_F(CommandLine, AMissingFileIsStatus3) {
    EXPECT_EQ(run("forecast " + quoted(folder_ / "none.site.json")).status, 3);
    EXPECT_EQ(run("check " + quoted(folder_ / "none.site.json")).status, 3);
    EXPECT_EQ(run("measure " + quoted(folder_ / "none.tsv")).status, 3);
    EXPECT_EQ(run("forecast " + quoted(folder_)).status, 3) << "a folder is not a site";
}

TEST_F(CommandLine, AWrongSiteIsStatus1WithEveryProblemAndNothingWritten) {
    const auto site = write("bad.site.json", R"({ "format": "ullage-site", "version": 1, "name": "Bad",
      "as_of": "2026-01-01",
      "datasets": [ { "name": "a", "live": "-3 TB", "colour": "red" } ],
      "boxes": [ { "name": "b", "usable": 7, "ceiling": 2 } ],
      "sends": [ { "name": "s", "datasets": ["a"], "from": "b", "to": "nowhere", "over": "no line" } ] })");
    const auto json = folder_ / "out.json";
    const auto o = run("forecast " + quoted(site) + " --json " + quoted(json));
    EXPECT_EQ(o.status, 1);
    EXPECT_EQ(o.out, "");
    EXPECT_FALSE(fs::exists(json));
    for (const char* pointer : {"/datasets/0/live", "/datasets/0/colour", "/boxes/0/ceiling", "/sends/0/to", "/sends/0/over"})
        EXPECT_NE(o.err.find("ullage: " + site.string() + ": " + pointer + ": "), std::string::npos)
            << pointer << "\n" << o.err;
    EXPECT_EQ(run("check " + quoted(site)).status, 1);
}

TEST_F(CommandLine, JsonOnStandardOutputIsAllThatIsThere) {
    const auto o = run("forecast " + quoted(write("p.site.json", plain_site)) + " --json - --paths 20");
    ASSERT_EQ(o.status, 0) << o.err;
    EXPECT_EQ(o.err, "");
    const auto json = nlohmann::json::parse(o.out);
    EXPECT_EQ(json["format"], "ullage-outlook");
    EXPECT_EQ(json["paths"], 20);
}

TEST_F(CommandLine, LanguageIsTheOptionsElseTheEnvironments) {
    const std::string ask = "forecast " + quoted(write("p.site.json", plain_site)) + " --paths 20";
    const auto german = [](const Outcome& o) { return o.out.find("Befunde") != std::string::npos; };
    EXPECT_FALSE(german(run(ask, "LC_ALL=C ")));
    EXPECT_TRUE(german(run(ask + " --language de", "LC_ALL=C ")));
    EXPECT_TRUE(german(run(ask, "LC_ALL=de_DE.UTF-8 ")));
    EXPECT_FALSE(german(run(ask + " --language en", "LC_ALL=de_DE.UTF-8 ")));
    EXPECT_EQ(run(ask + " --language fr").status, 2);
    const auto json = nlohmann::json::parse(run(ask + " --language de --json -").out);
    EXPECT_EQ(json["findings"][0]["level"], "fits") << "keys and their words stay";
    EXPECT_NE(json["findings"][0]["text"].get<std::string>().find("Füllgrenze"), std::string::npos);
}

TEST_F(CommandLine, SolveAndOutageAnswerInGerman) {
    const std::string site = quoted(sample + "harbour-clinic.site.json");
    const auto solve = run("solve " + site + " --for order-date --paths 60 --language de");
    EXPECT_EQ(solve.status, 0) << solve.err;
    EXPECT_NE(solve.out.find("bestellen bis"), std::string::npos) << solve.out;
    const auto outage = run("outage " + site + " --send nightly --from 2027-03-01 --days 10 --paths 60 --language de");
    EXPECT_EQ(outage.status, 0) << outage.err;
    EXPECT_NE(outage.out.find("Wenn die Leitung wieder da ist"), std::string::npos) << outage.out;
}

TEST_F(CommandLine, DaysUntilCeilingAndFullAreTheHandComputedDays) {
    // Used = 10 TB + 4 GB a day (1.461 TB a year of 365.25 d), nothing held: 16 TB after 1,500 days,
    // 20 TB after 2,500.
    const auto o = run("forecast " + quoted(write("p.site.json", plain_site)) + " --json - --paths 5");
    ASSERT_EQ(o.status, 0) << o.err;
    const auto box = nlohmann::json::parse(o.out)["boxes"][0];
    for (const char* p : {"p10", "p50", "p90"}) {
        EXPECT_EQ(box["days_until_ceiling"][p], 1500) << p;
        EXPECT_EQ(box["days_until_full"][p], 2500) << p;
    }
}

TEST_F(CommandLine, TheSameSeedGivesTheSameBytesOnOneAndTwoThreads) {
    for (const char* name : {"harbour-clinic", "fellside-mapmakers"}) {
        const std::string base = "forecast '" + sample + name + ".site.json' --json - --paths 100 --seed 7 ";
        const auto one = run(base + "--threads 1");
        const auto two = run(base + "--threads 2");
        ASSERT_EQ(one.status, 0) << one.err;
        EXPECT_EQ(one.out, two.out) << name;
        EXPECT_NE(one.out, run("forecast '" + sample + name + ".site.json' --json - --paths 100 --seed 8").out);
    }
}

TEST_F(CommandLine, SeveralSitesGiveAnArrayInTheirOrder) {
    const auto o = run("forecast '" + sample + "harbour-clinic.site.json' " +
                       quoted(write("p.site.json", plain_site)) + " --json - --paths 20");
    ASSERT_EQ(o.status, 0) << o.err;
    const auto json = nlohmann::json::parse(o.out);
    ASSERT_EQ(json.size(), 2U);
    EXPECT_EQ(json[0]["site"], "Harbour Clinic (invented)");
    EXPECT_EQ(json[1]["site"], "Plain (invented)");
}

TEST_F(CommandLine, AnotherAsOfMovesTheForecast) {
    const auto site = quoted(write("p.site.json", plain_site));
    const auto o = run("forecast " + site + " --json - --paths 5 --as-of 2026-02-01");
    ASSERT_EQ(o.status, 0) << o.err;
    EXPECT_EQ(nlohmann::json::parse(o.out)["as_of"], "2026-02-01");
}

TEST_F(CommandLine, CsvHasARowForEachDate) {
    const auto o = run("forecast " + quoted(write("p.site.json", plain_site)) + " --csv - --paths 5");
    ASSERT_EQ(o.status, 0) << o.err;
    EXPECT_EQ(o.out.rfind("site,box,date,", 0), 0U);
    EXPECT_GT(std::count(o.out.begin(), o.out.end(), '\n'), 500);
}

TEST_F(CommandLine, WithoutADisplayASiteIsPrintedInstead) {
    const auto o = run(quoted(write("p.site.json", plain_site)));
    EXPECT_EQ(o.status, 0);
    EXPECT_NE(o.out.find("shelf"), std::string::npos);
    EXPECT_NE(o.err.find("no "), std::string::npos);
}

TEST_F(CommandLine, EverySampleSiteIsValid) {
    std::size_t seen = 0;
    for (const auto& entry : fs::directory_iterator(sample)) {
        if (entry.path().extension() != ".json") continue;
        const auto o = run("check " + quoted(entry.path()));
        EXPECT_EQ(o.status, 0) << entry.path() << "\n" << o.err;
        ++seen;
    }
    EXPECT_GE(seen, 2U);
}

TEST_F(CommandLine, MeasureReadsAListingAndTellsABadLineByItsNumber) {
    const auto good = run("measure '" + sample + "fellside-drawings.tsv' --json -");
    ASSERT_EQ(good.status, 0) << good.err;
    EXPECT_EQ(nlohmann::json::parse(good.out)["datasets"][0]["name"], "drawings");
    const auto bad = run("measure " + quoted(write("bad.tsv", "snapshot\ttaken\tunique\tlive\twritten\n"
                                                              "a@1\t1700000000\t0\t100\t100\n"
                                                              "a@2\t1700086400\tmany\t100\t5\n")));
    EXPECT_EQ(bad.status, 1);
    EXPECT_NE(bad.err.find("line 3"), std::string::npos) << bad.err;
    const auto columns = run("measure " + quoted(write("plain.txt", "a@1 1700000000 0 100 100\na@2 1700086400 3 100 5\n")) +
                             " --columns snapshot,taken,unique,live,written");
    EXPECT_EQ(columns.status, 0) << columns.err;
}

TEST_F(CommandLine, MeasureDoubtsAListingThatCannotBeTrueInBothOutputs) {
    // 1 TB that grows by 1 GB a day with nothing written, and a first snapshot of 1970.
    std::string text =
        "snapshot\ttaken\tunique\tlive\twritten\na@0\t0\t0\t1000000000000\t1000000000000\n";
    for (int i = 1; i < 30; ++i)
        text += "a@" + std::to_string(i) + "\t" + std::to_string(1750000000 + i * 86400) + "\t0\t" +
                std::to_string(1000 + i) + "000000000\t0\n";
    const auto file = quoted(write("doubtful.tsv", text));
    const auto o = run("measure " + file);
    EXPECT_EQ(o.status, 0) << "what could be read is shown, with its doubts";
    EXPECT_NE(o.out.find("note: 1 snapshot is dated outside the years 2000 to 2100 (“a@0”"),
              std::string::npos)
        << o.out;
    EXPECT_NE(o.out.find("note: 29 of 29 snapshots grew by more than was written"),
              std::string::npos)
        << o.out;
    const auto json = nlohmann::json::parse(run("measure " + file + " --json -").out);
    EXPECT_EQ(json["datasets"][0]["warnings"].size(), 2U);
}

TEST_F(CommandLine, MeasureOfOneSnapshotIsAnErrorAndOfTwoIsAnAnswerWithANote) {
    const std::string head =
        "snapshot\ttaken\tunique\tlive\twritten\na@1\t1750000000\t0\t1000000\t1000000\n";
    const auto one = run("measure " + quoted(write("one.tsv", head)));
    EXPECT_EQ(one.status, 1);
    EXPECT_NE(one.err.find("at least two are needed"), std::string::npos) << one.err;
    const auto two =
        run("measure " + quoted(write("two.tsv", head + "a@2\t1750086400\t0\t1001000\t5000\n")));
    EXPECT_EQ(two.status, 0) << two.err;
    EXPECT_NE(two.out.find("note: the listing covers 1 d, which is too short"), std::string::npos)
        << two.out;
    EXPECT_NE(two.out.find("fit           0 % of"), std::string::npos) << two.out;
}

TEST_F(CommandLine, AListingThatIsMissingIsNamedByItsPath) {
    const auto site = write("m.site.json", R"({ "format": "ullage-site", "version": 1, "name": "M", "as_of": "2026-01-01",
      "datasets": [ { "name": "a", "home": "b", "turnover": { "listing": "gone.tsv" } } ],
      "boxes": [ { "name": "b", "usable": "1 TB" } ] })");
    const auto o = run("forecast " + quoted(site));
    EXPECT_EQ(o.status, 3);
    EXPECT_NE(o.err.find("gone.tsv"), std::string::npos);
}

TEST_F(CommandLine, AnOutputThatCannotBeWrittenIsStatus3) {
    const auto site = quoted(write("p.site.json", plain_site));
    EXPECT_EQ(run("forecast " + site + " --paths 5 --json " + quoted(folder_ / "no" / "such" / "folder.json")).status, 3);
    if (fs::exists("/dev/full")) {
        EXPECT_EQ(run("forecast " + site + " --paths 5 --json /dev/full").status, 3);
    }
}

TEST_F(CommandLine, SolveAnswersEachQuestionAsTextAndAsJson) {
    const auto site = write("plain.site.json", plain_site);
    // 10 TB + 1.461 TB a year over ten years, held bytes none: 24.61 TB ÷ 0.8.
    const auto usable = run("solve " + quoted(site) + " --for usable --json - --paths 1");
    ASSERT_EQ(usable.status, 0) << usable.err;
    const auto json = nlohmann::json::parse(usable.out);
    EXPECT_EQ(json.at("format"), "ullage-solve");
    EXPECT_EQ(json.at("for"), "usable");
    EXPECT_NEAR(json.at("answers").at(0).at("needed_bytes").get<double>() / (24.61e12 / 0.8), 1, 1e-4);
    // The ceiling of 16 TB is 6 TB of growth away: 1500 days.
    const auto order = run("solve " + quoted(site) + " --for order-date --paths 1");
    EXPECT_EQ(order.status, 0);
    EXPECT_NE(order.out.find("2030-02-09"), std::string::npos) << order.out;
    const auto none = run("solve " + quoted(site) + " --for link-rate");
    EXPECT_EQ(none.status, 1);
    EXPECT_NE(none.err.find("no send"), std::string::npos);
    EXPECT_EQ(run("solve " + quoted(site) + " --for ladder --box shed").status, 1);
    EXPECT_EQ(run("solve " + quoted(site)).status, 2);
}

TEST_F(CommandLine, SolveForALineRateReadsTheListItIsGiven) {
    const auto rates = write("rates.txt", "777 Mbit/s\n");
    const auto a = run("solve '" + sample + "harbour-clinic.site.json' --for link-rate --paths 8 --json - --rates " +
                       quoted(rates));
    ASSERT_EQ(a.status, 0) << a.err;
    EXPECT_EQ(nlohmann::json::parse(a.out).at("answers").at(0).at("sold_bits_per_s"), 777e6);
    EXPECT_EQ(run("solve '" + sample + "harbour-clinic.site.json' --for link-rate --rates /no/such").status, 3);
    const auto bad = write("bad.txt", "10 Mbit/s\nquick\n");
    const auto b = run("solve '" + sample + "harbour-clinic.site.json' --for link-rate --rates " + quoted(bad));
    EXPECT_EQ(b.status, 1);
    EXPECT_NE(b.err.find("line 2"), std::string::npos);
}

TEST_F(CommandLine, OutageTellsTheDrillAndNamesWhatCannotBeAsked) {
    const std::string ask = "outage '" + sample + "harbour-clinic.site.json' --paths 8 --from 2027-06-01 ";
    const auto a = run(ask + "--days 3 --send nightly --json -");
    ASSERT_EQ(a.status, 0) << a.err;
    const auto json = nlohmann::json::parse(a.out);
    for (const char* key : {"format", "version", "send", "link", "from", "days", "backlog_bytes", "catch_up_days",
                            "chance_of_catching_up", "oldest_copy_hours", "chance_base_survives",
                            "longest_outage_days", "remedies", "daily", "full_resend"})
        EXPECT_TRUE(json.contains(key)) << key;
    EXPECT_EQ(json.at("chance_base_survives"), 1);
    EXPECT_NE(run(ask + "--days 3 --send nightly").out.find("share a snapshot"), std::string::npos);
    const auto wrong = run(ask + "--days 3 --send daily");
    EXPECT_EQ(wrong.status, 1);
    EXPECT_NE(wrong.err.find("nightly"), std::string::npos);
}

#ifdef ULLAGE_HAS_UI
TEST_F(CommandLine, AReportIsWrittenWithoutADisplay) {
    const auto site = quoted(write("p.site.json", plain_site));
    const auto pdf = folder_ / "r.pdf";
    const auto html = folder_ / "r.html";
    const auto o = run("report " + site + " --paths 20 --pdf " + quoted(pdf) + " --html " + quoted(html));
    ASSERT_EQ(o.status, 0) << o.err;
    EXPECT_EQ(o.out, "");
    EXPECT_EQ(slurp(pdf).rfind("%PDF-", 0), 0U);
    const auto again = run("report " + site + " --paths 20 --threads 1 --html -");
    EXPECT_EQ(slurp(html), again.out) << "the same site and seed";
    EXPECT_NE(again.out.find("Plain (invented)"), std::string::npos);
    const auto json = nlohmann::json::parse(run("forecast " + site + " --paths 20 --json -").out);
    for (const auto& f : json["findings"]) {
        const auto text = f["text"].get<std::string>();
        if (text.find_first_of("<>&\"'") != std::string::npos) continue;  // escaped there
        EXPECT_NE(again.out.find(text), std::string::npos) << text;
    }
}

TEST_F(CommandLine, AReportsLogoThatIsNoneIsStatus1AndAMissingOne3) {
    const auto site = quoted(write("p.site.json", plain_site));
    const auto html = folder_ / "r.html";
    const std::string base = "report " + site + " --paths 20 --html " + quoted(html) + " --logo ";
    const auto wrong = run(base + quoted(write("logo.png", "no picture")));
    EXPECT_EQ(wrong.status, 1);
    EXPECT_NE(wrong.err.find("logo.png"), std::string::npos) << wrong.err;
    EXPECT_EQ(run(base + quoted(folder_ / "none.png")).status, 3);
    EXPECT_FALSE(fs::exists(html));
    EXPECT_EQ(run("report " + site + " --html " + quoted(folder_ / "no" / "r.html")).status, 3);
    EXPECT_EQ(run("report " + site).status, 2);
}
#endif

TEST_F(CommandLine, WithoutThePartThatDrawsTheRestOfTheProgramWorks) {
    const auto site = quoted(write("p.site.json", plain_site));
    const auto alone = folder_ / "ullage";
    fs::copy_file(ULLAGE_PROGRAM, alone);
    EXPECT_EQ(run("forecast " + site + " --paths 20", "", alone).out, run("forecast " + site + " --paths 20").out);
    for (const std::string& words : {"report " + site + " --html -", "forecast " + site + " --pictures " + quoted(folder_ / "p")}) {
        const auto o = run(words, "", alone);
        EXPECT_EQ(o.status, 2) << words;
        EXPECT_EQ(o.out, "");
        EXPECT_NE(o.err.find("the part of the program that draws, is not there"), std::string::npos) << o.err;
    }
    // One of another build.
    write("ullage-window.so", "");
    const auto other = run("report " + site + " --html -", "", alone);
    EXPECT_EQ(other.status, 2);
    EXPECT_NE(other.err.find("cannot be loaded"), std::string::npos) << other.err;
}

