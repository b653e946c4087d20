// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/site/site_testing.h"

#include <gtest/gtest.h>

#include <random>
#include <string>
#include <vector>

namespace ullage {
namespace {

using namespace ullage::testing;

Day day(int year, unsigned month, unsigned dom) {
    return Day{std::chrono::year{year} / std::chrono::month{month} / std::chrono::day{dom}};
}

TEST(SiteJson, TheWholeExampleIsRead) {
    const auto read = parse_site(quayside());
    ASSERT_TRUE(read) << listed(read.error());
    const Site& site = *read;
    EXPECT_EQ(site.name, "Quayside Veterinary");
    EXPECT_EQ(site.as_of, day(2026, 11, 1));
    EXPECT_EQ(site.horizon.value, days(5 * days_per_year));
    EXPECT_EQ(site.confidence, 0.9);
    ASSERT_EQ(site.datasets.size(), 2U);
    const Dataset& imaging = site.datasets[0];
    EXPECT_EQ(imaging.kind, Dataset::Kind::files);
    EXPECT_EQ(imaging.block_size.value, mib(1));
    EXPECT_EQ(imaging.live->value, decimal_tb(9.2));
    EXPECT_EQ(imaging.live->text, "9.2 TB");
    EXPECT_EQ(imaging.compression_ratio, 1.15);
    EXPECT_EQ(imaging.growth->per_year.value, (Amount{1.6e12, Amount::Of::bytes}));
    EXPECT_EQ(imaging.turnover->per_week->value, (Amount{61e9, Amount::Of::bytes}));
    EXPECT_EQ((*imaging.week_shape)[6], 0.1);
    ASSERT_EQ(imaging.ladder.size(), 3U);
    EXPECT_EQ(imaging.ladder[2].lasts(), days(182));
    ASSERT_EQ(imaging.events.size(), 2U);
    EXPECT_EQ(imaging.events[1].kind, Event::Kind::rewrite);
    EXPECT_EQ(imaging.events[1].on, day(2028, 1, 10));
    EXPECT_EQ(site.datasets[1].kind, Dataset::Kind::volume);
    EXPECT_EQ(site.datasets[1].turnover->listing, "virtual-disks.tsv");
    ASSERT_EQ(site.boxes.size(), 2U);
    EXPECT_FALSE(site.boxes[0].pool);
    const Box& attic = site.boxes[1];
    EXPECT_EQ(attic.in_service, day(2026, 12, 1));
    EXPECT_EQ(attic.lead_time->value, days(21));
    EXPECT_EQ(attic.pool->redundancy, (Redundancy{Redundancy::Kind::parity, 2}));
    EXPECT_EQ(attic.pool->drive.value, decimal_tb(12));
    const Link& tunnel = site.links.at(0);
    EXPECT_EQ(tunnel.down.value, BitsPerSecond{250e6});
    EXPECT_EQ(tunnel.loss, 1e-5);
    EXPECT_EQ(tunnel.wrappers, std::vector<Wrapper>{Wrapper::wireguard});
    EXPECT_EQ(tunnel.hours.at(0).from, 19 * 3600);
    EXPECT_EQ(tunnel.hours.at(1).days_text, "Sat-Sun");
    const Send& nightly = site.sends.at(0);
    EXPECT_EQ(nightly.at, 20 * 3600);
    EXPECT_EQ(nightly.first_copy.by, FirstCopy::By::courier);
    EXPECT_EQ(nightly.first_copy.days_away, 3);
    EXPECT_TRUE(std::holds_alternative<AsSource>(nightly.ladder));
    EXPECT_EQ(site.offers.at(0).price.value.value, 2150);
    EXPECT_EQ(site.offers.at(0).power->value, Power{48});
}

TEST(SiteJson, TheExampleIsWrittenTheSameTheSecondTime) {
    const auto first = parse_site(quayside());
    ASSERT_TRUE(first) << listed(first.error());
    const std::string once = write_site(*first);
    const auto second = parse_site(once);
    ASSERT_TRUE(second) << listed(second.error());
    EXPECT_EQ(*second, *first);
    EXPECT_EQ(write_site(*second), once);
}

TEST(SiteJson, EveryKeyIsReadAndWrittenBackByteForByte) {
    const auto site = parse_site(every_key());
    ASSERT_TRUE(site) << listed(site.error());
    EXPECT_EQ(write_site(*site), every_key());
}

TEST(SiteJson, MembersEqualToTheirDefaultAreLeftOut) {
    const auto site = parse_site(R"({"format":"ullage-site","version":1,"name":"Bare",
        "as_of":"2026-11-01","time_zone":"UTC","horizon":"5 y","confidence":0.9,"currency":"EUR",
        "prepared_for":"","datasets":[{"name":"d","kind":"files","block_size":131072,"live":1e12}],
        "boxes":[{"name":"b","ceiling":"80 %","other_data":0}],
        "links":[{"name":"l","up":"1 Mbit/s","down":"1 Mbit/s","mtu":1500,"hours":[]}],
        "sends":[],"offers":[]})");
    ASSERT_TRUE(site) << listed(site.error());
    EXPECT_EQ(write_site(*site), R"({
  "format": "ullage-site",
  "version": 1,
  "name": "Bare",
  "as_of": "2026-11-01",
  "datasets": [
    { "name": "d", "live": "1 TB" }
  ],
  "boxes": [
    { "name": "b" }
  ],
  "links": [
    { "name": "l", "up": "1 Mbit/s" }
  ]
}
)");
}

TEST(SiteJson, ASimpleDatasetIsComplete) {
    const auto site = parse_site(R"({"format":"ullage-site","version":1,"name":"Simple",
        "as_of":"2026-11-01","boxes":[],"datasets":[{"name":"d","live":"2 TB",
        "compression_ratio":1.3,"turnover":{"per_day":"0.5 %"},
        "ladder":[{"every":"1 d","count":30}]}]})");
    ASSERT_TRUE(site) << listed(site.error());
    EXPECT_EQ(site->datasets[0].turnover->per_day->value, (Amount{0.005, Amount::Of::live_share}));
}

TEST(SiteJson, APlainNumberIsInTheBaseUnitAndWrittenAsItsExactText) {
    const auto site =
        parse_site(with(with(with(small_site(), "\"128 KiB\"", "16384"), "\"50 Mbit/s\"", "5e7"),
                        "\"20 ms\"", "0.018"));
    ASSERT_TRUE(site) << listed(site.error());
    EXPECT_EQ(site->datasets[0].block_size, Entered<Bytes>(kib(16)));
    EXPECT_EQ(site->links[0].up, Entered<BitsPerSecond>(BitsPerSecond{5e7}));
    EXPECT_EQ(site->links[0].round_trip, Entered<Duration>(Duration{0.018}));
    const std::string text = write_site(*site);
    EXPECT_NE(text.find("\"block_size\": \"16 KiB\""), std::string::npos) << text;
    EXPECT_NE(text.find("\"up\": \"50 Mbit/s\""), std::string::npos) << text;
    EXPECT_NE(text.find("\"round_trip\": \"18 ms\""), std::string::npos) << text;
    const auto again = parse_site(text);
    ASSERT_TRUE(again) << listed(again.error());
    EXPECT_EQ(write_site(*again), text);
}

TEST(SiteJson, APlainNumberOfDaysIsInDays) {
    const auto site = parse_site(
        with(with(small_site(), "\"remove\": \"300 GB\"", "\"remove\": \"300 GB\", \"days\": 14"),
             "\"days_away\": 2", "\"days_away\": \"1 w\""));
    ASSERT_TRUE(site) << listed(site.error());
    EXPECT_EQ(site->datasets[0].events[0].date_spread->value, days(14));
    EXPECT_EQ(site->sends[0].first_copy.days_away, 7);
}

TEST(SiteJson, ATextThatNoLongerSaysItsValueIsNotWritten) {
    auto site = parse_site(small_site());
    ASSERT_TRUE(site) << listed(site.error());
    site->datasets[0].live->value = decimal_tb(2);
    site->links[0].hours[0].days = {true, false, false, false, false, false, false};
    const std::string text = write_site(*site);
    EXPECT_NE(text.find("\"live\": \"2 TB\""), std::string::npos) << text;
    EXPECT_NE(text.find("\"days\": \"Mon\""), std::string::npos) << text;
}

TEST(SiteJson, DownIsAsUpWhereItIsLeftOut) {
    const auto site = parse_site(small_site());
    ASSERT_TRUE(site) << listed(site.error());
    EXPECT_EQ(site->links[0].down, site->links[0].up);
    EXPECT_EQ(write_site(*site).find("\"down\""), std::string::npos);
}

TEST(SiteJson, AMirrorsWidthIsItsCopiesWhereItIsLeftOut) {
    const auto site = parse_site(with(small_site(), "\"width\": 6, \"redundancy\": \"parity-2\"",
                                      "\"redundancy\": \"mirror-3\""));
    ASSERT_TRUE(site) << listed(site.error());
    EXPECT_EQ(site->boxes[1].pool->width, 3);
}

TEST(SiteJson, UnknownKeyIsReportedWithItsPointer) {
    EXPECT_TRUE(only_problem(
        problems_of(with(small_site(), "\"compression_ratio\"", "\"compresion_ratio\"")),
        "/datasets/0/compresion_ratio", "did you mean \"compression_ratio\"?"));
    EXPECT_TRUE(only_problem(problems_of(with(small_site(), "\"width\"", "\"wdith\"")),
                             "/boxes/1/pool/wdith", "did you mean \"width\"?"));
    EXPECT_TRUE(only_problem(problems_of(with(small_site(), "\"boxes\"", "\"box\"")), "/box",
                             "did you mean \"boxes\"?"));
    EXPECT_TRUE(only_problem(problems_of(with(small_site(), "\"at\": \"20:00\"", "\"zzzzzz\": 1")),
                             "/sends/0/start/zzzzzz", "known here are every, at"));
}

TEST(SiteJson, PointersEscapeWhatRfc6901SaysTheyMust) {
    // RFC 6901, section 3.
    EXPECT_TRUE(only_problem(problems_of(with(small_site(), "\"mtu\": 1500", "\"a/b~c\": 1500")),
                             "/links/0/a~1b~0c", "unknown key"));
}

TEST(SiteJson, KeysOfOnesOwnAreKept) {
    const auto site = parse_site(every_key());
    ASSERT_TRUE(site) << listed(site.error());
    EXPECT_EQ(site->extras.at("x-notes"), R"(["kept", { "and": "ignored" }])");
    EXPECT_EQ(site->datasets[0].events[1].extras.at("x-ticket"), R"([1, { "a": 1e-9 }])");
    EXPECT_EQ(site->sends[0].start_extras.at("x-cron"), "\"no\"");
}

TEST(SiteJson, MissingMembersAreReportedWithTheirPointer) {
    const Problems problems = problems_of(R"({"format":"ullage-site","datasets":[{}],
        "boxes":[{"pool":{"redundancy":"parity-1"}}],"links":[{}],"sends":[{}],"offers":[{}]})");
    for (const char* pointer :
         {"/version", "/name", "/as_of", "/datasets/0/name", "/boxes/0/name", "/boxes/0/pool/width",
          "/boxes/0/pool/drive", "/links/0/name", "/links/0/up", "/sends/0/name",
          "/sends/0/datasets", "/sends/0/from", "/sends/0/to", "/sends/0/over", "/offers/0/name",
          "/offers/0/box", "/offers/0/price"}) {
        EXPECT_TRUE(reports(problems, pointer, "missing; expected")) << pointer << "\n"
                                                                     << listed(problems);
    }
    EXPECT_TRUE(
        reports(problems_of(R"({"format":"ullage-site","version":1})"), "/datasets", "missing"));
    EXPECT_TRUE(
        reports(problems_of(R"({"format":"ullage-site","version":1})"), "/boxes", "missing"));
    EXPECT_TRUE(reports(problems_of(R"({"version":1})"), "/format", "missing"));
}

TEST(SiteJson, AnotherVersionOrFormatIsRefusedAtOnce) {
    EXPECT_TRUE(only_problem(problems_of(with(small_site(), "\"version\": 1", "\"version\": 2")),
                             "/version", "found version 2; this program reads version 1"));
    EXPECT_TRUE(
        only_problem(problems_of(with(small_site(), "\"version\": 1", "\"version\": \"1\"")),
                     "/version", "found the text \"1\", expected the number 1"));
    EXPECT_TRUE(only_problem(problems_of(with(small_site(), "ullage-site", "other")), "/format",
                             "expected \"ullage-site\""));
}

TEST(SiteJson, AWrongTypeSaysWhatWasFoundAndWhatIsExpected) {
    struct Row {
        const char* from;
        const char* to;
        const char* pointer;
        const char* part;
    };
    const std::vector<Row> rows{
        {"\"Small\"", "7", "/name", "found the number 7, expected a text"},
        {"\"2026-11-01\"", "20261101", "/as_of", "expected a date"},
        {"\"2026-11-01\"", "\"2026-02-30\"", "/as_of", "February 2026 has 28 days"},
        {"\"5 y\"", "true", "/horizon", "found true, expected a length of time"},
        {"\"confidence\": 0.9", "\"confidence\": []", "/confidence",
         "found a list, expected a share"},
        {"\"1 TB\"", "{}", "/datasets/0/live", "found an object, expected a size"},
        {"\"1 TB\"", "\"1 tb\"", "/datasets/0/live", "did you mean TB?"},
        {"\"compression_ratio\": 1.5", "\"compression_ratio\": \"1.5\"",
         "/datasets/0/compression_ratio", "expected a number without quotes"},
        {"[1, 1, 1, 1, 1, 0, 0]", "[1, 1, 1]", "/datasets/0/week_shape", "found 3 items"},
        {"[1, 1, 1, 1, 1, 0, 0]", "[1, 1, 1, 1, 1, 0, null]", "/datasets/0/week_shape/6",
         "found null"},
        {"[1, 1, 1, 1, 1, 0, 0]", "\"1\"", "/datasets/0/week_shape", "a list of 7 numbers"},
        {"{ \"per_year\": \"100 GB\", \"spread\": 0.1 }", "\"100 GB\"", "/datasets/0/growth",
         "expected an object such as { \"per_year\""},
        {"\"per_day\": \"10 GB\"", "\"per_day\": null", "/datasets/0/turnover/per_day",
         "a share of the live bytes"},
        {"\"every\": \"1 d\", \"count\": 30", "\"every\": \"1.5 d\", \"count\": 30",
         "/datasets/0/ladder/0/every", "must be whole"},
        {"\"count\": 30", "\"count\": 2.5", "/datasets/0/ladder/0/count",
         "found the number 2.5, expected a whole number"},
        {"\"remove\": \"300 GB\"", "\"note\": \"x\"", "/datasets/0/events/0",
         "an event needs one of"},
        {"\"remove\": \"300 GB\"", "\"remove\": \"1 GB\", \"add\": \"1 GB\"",
         "/datasets/0/events/0", "this one has add and remove"},
        {"{ \"name\": \"office\" }", "{ \"name\": \"office\", \"in_service\": 5 }",
         "/boxes/0/in_service", "expected a date"},
        {"\"parity-2\"", "2", "/boxes/1/pool/redundancy", "found the number 2"},
        {"\"parity-2\"", "\"raid6\"", "/boxes/1/pool/redundancy", "is not known"},
        {"\"loss\": 0", "\"loss\": \"few\"", "/links/0/loss", "is not a share"},
        {"\"19:00\"", "19", "/links/0/hours/0/from", "expected a time of day"},
        {"\"06:00\"", "\"6 am\"", "/links/0/hours/0/to", "is not a time of day"},
        {"\"Mon-Fri\"", "\"workdays\"", "/links/0/hours/0/days", "is not a day or a run of days"},
        {"\"loss\": 0", "\"loss\": 0, \"wrappers\": [\"vlan\", \"vpn\"]", "/links/0/wrappers/1",
         "did you mean \"vlan\"?"},
        {"\"loss\": 0", "\"loss\": 0, \"congestion\": \"vegas\"", "/links/0/congestion",
         "\"cubic\", \"reno\""},
        {"[\"data\"]", "\"data\"", "/sends/0/datasets", "expected a list"},
        {"[\"data\"]", "[\"data\", 3]", "/sends/0/datasets/1", "expected a text"},
        {"\"over\": \"line\", \"start\"",
         "\"over\": \"line\", \"hold_last_sent\": \"yes\", \"start\"", "/sends/0/hold_last_sent",
         "expected true or false"},
        {"[ { \"every\": \"1 w\", \"count\": 10 } ]", "\"keep everything\"", "/sends/0/ladder",
         "\"as source\", \"keep all\" or a list of rungs"},
        {"\"payload\": \"expanded\"", "\"payload\": \"expand\"", "/sends/1/payload",
         "did you mean \"expanded\"?"},
        {"\"by\": \"courier\"", "\"by\": \"pigeon\"", "/sends/0/first_copy/by", "\"courier\""},
        {"\"price\": 100", "\"price\": true", "/offers/0/price", "a price such as 2150"},
        {"\"price\": 100", "\"price\": \"dear\"", "/offers/0/price", "is not a price"},
        {"\"40 W\"", "\"40 w\"", "/offers/0/power", "did you mean W?"},
    };
    for (const Row& row : rows) {
        EXPECT_TRUE(
            only_problem(problems_of(with(small_site(), row.from, row.to)), row.pointer, row.part))
            << row.from << " → " << row.to;
    }
    EXPECT_TRUE(only_problem(problems_of("[]"), "", "found a list, expected a site"));
    EXPECT_TRUE(only_problem(problems_of("7"), "", "found the number 7"));
}

TEST(SiteJson, AllProblemsAreReportedInOneRun) {
    std::string text = small_site();
    text = with(text, "\"1 TB\"", "\"1 QB\"");
    text = with(text, "\"mtu\": 1500", "\"mtu\": 100");
    text = with(text, "\"from\": \"attic\"", "\"from\": \"atic\"");
    text = with(text, "\"price\": 100", "\"price\": 100, \"colour\": \"red\"");
    text = with(text, "\"ceiling\": 0.8", "\"ceiling\": 8");
    text = with(text, "\"name\": \"Small\"", "\"name\": \"\"");
    const Problems problems = problems_of(text);
    EXPECT_EQ(problems.size(), 6U) << listed(problems);
    EXPECT_TRUE(reports(problems, "/datasets/0/live", "unknown unit \"QB\"")) << listed(problems);
    EXPECT_TRUE(reports(problems, "/links/0/mtu", "100")) << listed(problems);
    EXPECT_TRUE(reports(problems, "/sends/1/from", "did you mean \"attic\"?")) << listed(problems);
    EXPECT_TRUE(reports(problems, "/offers/0/colour", "unknown key")) << listed(problems);
    EXPECT_TRUE(reports(problems, "/boxes/1/ceiling", "8")) << listed(problems);
    EXPECT_TRUE(reports(problems, "/name", "empty")) << listed(problems);
}

TEST(SiteJson, AnUnreadNameIsNotAlsoReportedWhereItIsReferredTo) {
    EXPECT_TRUE(
        only_problem(problems_of(with(small_site(), "{ \"name\": \"attic\"", "{ \"name\": 5")),
                     "/boxes/1/name", "found the number 5"));
    EXPECT_TRUE(only_problem(
        problems_of(with(small_site(), "{ \"name\": \"data\"", "{ \"nmae\": \"data\"")),
        "/datasets/0/nmae", "did you mean \"name\"?"));
}

TEST(SiteJson, TextThatIsNotJsonIsOneProblemWithLineAndColumn) {
    const auto problem = [](const std::string& text) {
        const Problems problems = problems_of(text);
        EXPECT_EQ(problems.size(), 1U) << listed(problems);
        return problems.empty() ? Problem{} : problems.front();
    };
    EXPECT_EQ(problem("{\n  \"name\": \"a\",\n  oops\n}").where, "line 3, column 3");
    EXPECT_EQ(problem("{\n  \"é\": oops\n}").where, "line 2, column 8");
    EXPECT_NE(problem("{\n  \"a\": 1,\n}").what.find("expected string literal"), std::string::npos);
    EXPECT_NE(problem("{\"a\": 1").what.find("expected '}'"), std::string::npos);
    EXPECT_EQ(problem("").where, "line 1, column 1");
    EXPECT_NE(problem("[1e400]").what.find("too large"), std::string::npos);
    EXPECT_NE(problem("{} {}").what.find("expected end of input"), std::string::npos);
    EXPECT_NE(problem("{\"a\": \"\xff\"}").what.find("UTF-8"), std::string::npos);
    EXPECT_NE(problem("{'a': 1}").what.find("not JSON"), std::string::npos);
    EXPECT_NE(problem(std::string("{\"a\": \"\0\"}", 10)).what.find("not JSON"), std::string::npos);
    EXPECT_LT(problem("{\"a\": \"" + std::string(100000, 'x')).what.size(), 300U);
}

TEST(SiteJson, AKeyGivenTwiceIsReportedWithItsPointer) {
    EXPECT_TRUE(only_problem(
        problems_of(with(small_site(), "\"mtu\": 1500", "\"mtu\": 1500, \"mtu\": 1400")),
        "/links/0/mtu", "appears twice"));
    EXPECT_TRUE(only_problem(problems_of(with(small_site(), "\"mtu\": 1500",
                                              "\"mtu\": 1500, \"x-a\": [0, {\"k\": 1, \"k\": 2}]")),
                             "/links/0/x-a/1/k", "appears twice"));
}

TEST(SiteJson, DepthSizeAndCountAreLimited) {
    const auto nested = [](int depth) {
        return with(small_site(), "\"mtu\": 1500",
                    "\"mtu\": 1500, \"x-a\": " + std::string(static_cast<std::size_t>(depth), '[') +
                        std::string(static_cast<std::size_t>(depth), ']'));
    };
    // The member itself is inside the site, the list of links and the link.
    EXPECT_TRUE(parse_site(nested(61)));
    EXPECT_TRUE(only_problem(problems_of(nested(62)), "", "more than 64 deep"));
    EXPECT_TRUE(only_problem(problems_of(std::string(5000000, '[')), "", "more than 64 deep"));
    EXPECT_TRUE(
        only_problem(problems_of(std::string((64U << 20U) + 1, ' ')), "", "at most 67108864"));
    std::string many = "[0";
    for (int i = 0; i < 1000000; ++i) many += ",0";
    EXPECT_TRUE(only_problem(problems_of(many + "]"), "", "more than 1000000 values"));
}

TEST(SiteJson, ATruncatedFileAlwaysHasAProblem) {
    for (const std::string& text : {quayside(), every_key()}) {
        // The last byte is the newline after the closing brace.
        for (std::size_t size = 0; size + 1 < text.size(); ++size) {
            const auto site = parse_site(std::string_view(text).substr(0, size));
            ASSERT_FALSE(site) << size;
            ASSERT_EQ(site.error().size(), 1U) << size;
            ASSERT_FALSE(site.error()[0].what.empty()) << size;
        }
    }
}

TEST(SiteJson, DamagedFilesAreReadOrRefusedButNeverCrash) {
    std::mt19937_64 random(7);
    const std::string text = every_key();
    const std::string bytes = "\"{}[],:0-9eE.xé\\ \n\x01";
    int refused = 0;
    for (int i = 0; i < 3000; ++i) {
        std::string damaged = text;
        const std::size_t edits = 1 + random() % 4;
        for (std::size_t e = 0; e < edits; ++e) {
            const std::size_t at = random() % damaged.size();
            switch (random() % 3) {
                case 0:
                    damaged[at] = bytes[random() % bytes.size()];
                    break;
                case 1:
                    damaged.erase(at, 1 + random() % 20);
                    break;
                default:
                    damaged.insert(at, 1, bytes[random() % bytes.size()]);
            }
        }
        const auto site = parse_site(damaged);
        if (!site) {
            ++refused;
            ASSERT_FALSE(site.error().empty());
            continue;
        }
        const std::string written = write_site(*site);
        const auto again = parse_site(written);
        ASSERT_TRUE(again) << written << listed(again.error());
        ASSERT_EQ(write_site(*again), written);
    }
    EXPECT_GT(refused, 1000);
}

/// Sites with members present or absent at random read back equal.
TEST(SiteJson, WritingThenReadingGivesAnEqualSite) {
    std::mt19937_64 random(99);
    const auto flip = [&] { return random() % 2 == 0; };
    const auto base = parse_site(every_key());
    ASSERT_TRUE(base);
    for (int i = 0; i < 500; ++i) {
        Site site = *base;
        Dataset& dataset = site.datasets[0];
        if (flip()) dataset.live.reset();
        if (flip()) dataset.growth.reset();
        if (flip()) dataset.turnover->per_month.reset();
        if (flip()) dataset.turnover->per_week.reset();
        if (flip()) dataset.turnover->listing_dataset.clear();
        if (flip()) dataset.turnover->listing_columns.clear();
        if (flip()) dataset.turnover->listing_skip_bad_lines = false;
        if (flip()) dataset.week_shape.reset();
        if (flip()) dataset.ladder.clear();
        if (flip()) dataset.events.clear();
        if (flip()) dataset.extras.clear();
        if (flip()) site.boxes[1].pool->spares = static_cast<int>(random() % 5);
        if (flip()) site.boxes[1].other_data = {};
        if (flip()) site.links[0].wrappers.clear();
        if (flip()) site.links[0].hours.clear();
        if (flip()) site.links[0].down = site.links[0].up;
        if (flip()) site.links[0].loss = static_cast<double>(random() % 1000) * 1e-7;
        if (flip()) site.sends[0].ladder = AsSource{};
        if (flip()) site.sends[0].first_copy = {};
        if (flip()) site.sends.pop_back();
        if (flip()) site.offers.clear();
        if (flip()) site.prepared_for = "Zoë \"Quotes\" \\ Łódź 東京";
        const auto back = parse_site(write_site(site));
        ASSERT_TRUE(back) << listed(back.error());
        ASSERT_EQ(*back, site) << write_site(site);
    }
}

}  // namespace
}  // namespace ullage
