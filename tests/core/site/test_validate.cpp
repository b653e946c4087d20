// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/site/site_testing.h"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <string>
#include <vector>

namespace ullage {
namespace {

using namespace ullage::testing;

struct Row {
    std::string from;
    std::string to;
    std::string pointer;
    std::string part;
};

/// Each row breaks one rule of the small site, and is the only problem reported.
void expect_each(const std::vector<Row>& rows) {
    for (const Row& row : rows) {
        EXPECT_TRUE(
            only_problem(problems_of(with(small_site(), row.from, row.to)), row.pointer, row.part))
            << row.from << " → " << row.to;
    }
}

void expect_valid(const std::string& from, const std::string& to) {
    const Problems problems = problems_of(with(small_site(), from, to));
    EXPECT_TRUE(problems.empty()) << from << " → " << to << "\n" << listed(problems);
}

TEST(SiteRules, TheSmallSiteIsValid) {
    EXPECT_TRUE(problems_of(small_site()).empty()) << listed(problems_of(small_site()));
}

TEST(SiteRules, HorizonConfidenceAndZone) {
    expect_each({
        {"\"5 y\", \"confidence\"", "\"29 d\", \"confidence\"", "/horizon",
         "29 d (29 days) is outside 30 days"},
        {"\"5 y\", \"confidence\"", "\"31 y\", \"confidence\"", "/horizon", "to 30 years"},
        {"\"confidence\": 0.9", "\"confidence\": 0.5", "/confidence", "0.5"},
        {"\"confidence\": 0.9", "\"confidence\": 1", "/confidence", "a confidence of 1"},
        {"\"confidence\": 0.9", "\"confidence\": \"95\"", "/confidence", "a confidence of 95"},
        {"\"time_zone\": \"UTC\"", "\"time_zone\": \"Europe/Berln\"", "/time_zone",
         "\"Europe/Berln\""},
        {"\"as_of\": \"2026-11-01\"", "\"as_of\": \"9998-11-01\"", "/as_of", "past the year 9999"},
    });
    expect_valid("\"5 y\", \"confidence\"", "\"30 d\", \"confidence\"");
    expect_valid("\"5 y\", \"confidence\"", "\"30 y\", \"confidence\"");
    expect_valid("\"confidence\": 0.9", "\"confidence\": \"95 %\"");
    expect_valid("\"time_zone\": \"UTC\"", "\"time_zone\": \"America/New_York\"");
}

TEST(SiteRules, NamesAreNeitherEmptyNorTakenNorStrange) {
    expect_each({
        {"\"name\": \"Small\"", "\"name\": \"\"", "/name", "empty"},
        {"\"name\": \"Small\"", "\"name\": \"Sm\\u0007all\"", "/name", "U+0007"},
        {"\"name\": \"Small\"", "\"name\": \"Sm\\u0085all\"", "/name", "U+0085"},
        {"\"name\": \"Small\"", "\"name\": \"Small\", \"prepared_by\": \"a\\nb\"", "/prepared_by",
         "U+000A"},
        {"{ \"name\": \"office\" }", "{ \"name\": \"office\" }, { \"name\": \"\" }",
         "/boxes/1/name", "empty"},
        {"{ \"name\": \"office\" }", "{ \"name\": \"office\" }, { \"name\": \"a\\u001bb\" }",
         "/boxes/1/name", "U+001B"},
        {"{ \"name\": \"office\" }", "{ \"name\": \"office\" }, { \"name\": \"office\" }",
         "/boxes/1/name", "\"office\" is taken by /boxes/0"},
        {"\"links\": [", "\"links\": [ { \"name\": \"line\", \"up\": 1 },", "/links/1/name",
         "taken by /links/0"},
        {"\"datasets\": [",
         "\"datasets\": [ { \"name\": \"data\", \"home\": \"office\", \"live\": 1 },",
         "/datasets/1/name", "taken by /datasets/0"},
        {"\"name\": \"onward\"", "\"name\": \"nightly\"", "/sends/1/name", "taken by /sends/0"},
        {"\"offers\": [",
         "\"offers\": [ { \"name\": \"drives\", \"box\": \"far\", \"price\": 1, \"usable\": 1 },",
         "/offers/1/name", "taken by /offers/0"},
        {"\"name\": \"drives\"", "\"name\": \"" + std::string(201, 'n') + "\"", "/offers/0/name",
         "201 bytes; the longest is 200"},
    });
}

TEST(SiteRules, NamesThatAreReferredToExist) {
    expect_each({
        {"\"home\": \"office\"", "\"home\": \"ofice\"", "/datasets/0/home",
         "did you mean \"office\"?"},
        {"\"to\": \"far\"", "\"to\": \"nowhere\"", "/sends/1/to",
         "known are \"attic\", \"far\", \"office\""},
        {"\"from\": \"office\"", "\"from\": \"\"", "/sends/0/from", "no box is named"},
        {"\"over\": \"line\", \"start\"", "\"over\": \"lime\", \"start\"", "/sends/0/over",
         "did you mean \"line\"?"},
        {"[\"data\"]", "[\"data\", \"date\"]", "/sends/0/datasets/1", "did you mean \"data\"?"},
        {"\"box\": \"attic\"", "\"box\": \"atic\"", "/offers/0/box", "did you mean \"attic\"?"},
    });
}

TEST(SiteRules, SizesArePositive) {
    expect_each({
        {"\"live\": \"1 TB\"", "\"live\": \"-1 TB\"", "/datasets/0/live", "-1 TB is not above 0"},
        {"\"live\": \"1 TB\"", "\"logical\": \"0 B\"", "/datasets/0/logical", "0 B is not above 0"},
        {"\"128 KiB\"", "\"0 B\"", "/datasets/0/block_size", "0 B is outside 512 B to 64 MiB"},
        {"\"128 KiB\"", "\"1 GB\"", "/datasets/0/block_size", "1 GB is outside"},
        {"\"usable\": \"9 TB\"", "\"usable\": 0", "/boxes/2/usable", "is not above 0"},
        {"\"other_data\": \"1 GB\"", "\"other_data\": \"-1 GB\"", "/boxes/1/other_data",
         "-1 GB is below 0"},
        {"\"200 MB/s\"", "\"0 MB/s\"", "/boxes/1/disk_rate", "is not above 0"},
        {"\"50 Mbit/s\"", "\"0 Mbit/s\"", "/links/0/up", "is not above 0"},
        {"\"up\": \"50 Mbit/s\"", "\"up\": \"50 Mbit/s\", \"down\": \"-1 Mbit/s\"", "/links/0/down",
         "is not above 0"},
        {"\"20 ms\"", "\"0 ms\"", "/links/0/round_trip", "0 ms is not above 0"},
        {"\"6 MiB\"", "\"-6 MiB\"", "/links/0/receive_window", "-6 MiB is not above 0"},
        {"\"400 MB/s\"", "0", "/sends/0/cipher_rate", "is not above 0"},
        {"\"100 MB/s\"", "-1", "/sends/0/first_copy/copy_rate", "is not above 0"},
        {"\"price\": 100", "\"price\": -100", "/offers/0/price", "-100 is below 0"},
        {"\"40 W\"", "\"-40 W\"", "/offers/0/power", "-40 W is below 0"},
        {"\"life\": \"5 y\"", "\"life\": \"0 y\"", "/offers/0/life", "0 y is not above 0"},
        {"\"life\": \"5 y\"", "\"life\": \"5 y\", \"lead_time\": \"-1 d\"", "/offers/0/lead_time",
         "-1 d is below 0"},
        {"\"ceiling\": 0.8", "\"ceiling\": 0.8, \"lead_time\": \"-1 d\"", "/boxes/1/lead_time",
         "-1 d is below 0"},
        {"\"usable\": \"20 TB\"", "\"usable\": \"-20 TB\"", "/offers/0/usable",
         "-20 TB is not above 0"},
    });
}

TEST(SiteRules, ADatasetHasASize) {
    expect_each({{"\"live\": \"1 TB\",", "", "/datasets/0", "give live (stored bytes), logical"}});
    expect_valid("\"live\": \"1 TB\",", "\"logical\": \"1.5 TB\",");
    const Problems problems =
        problems_of(with(with(small_site(), "\"live\": \"1 TB\",", ""), "\"per_day\": \"10 GB\"",
                         "\"listing\": \"data.tsv\""));
    EXPECT_TRUE(problems.empty()) << listed(problems);
}

TEST(SiteRules, LiveAndLogicalAgreeWithTheRatio) {
    expect_each({
        {"\"live\": \"1 TB\"", "\"live\": \"1 TB\", \"logical\": \"1.6 TB\"", "/datasets/0/logical",
         "logical is 1.6 TB, but live 1 TB × compression_ratio 1.5 is 1.5 TB"},
        {"\"live\": \"1 TB\",\n    \"compression_ratio\": 1.5",
         "\"live\": \"1 TB\", \"logical\": \"1.5 TB\"", "/datasets/0/logical",
         "write a ratio of 1.5"},
    });
    expect_valid("\"live\": \"1 TB\"", "\"live\": \"1 TB\", \"logical\": \"1.51 TB\"");
}

TEST(SiteRules, RatiosAndSpreadsAreInRange) {
    expect_each({
        {"\"compression_ratio\": 1.5", "\"compression_ratio\": 0.4",
         "/datasets/0/compression_ratio", "0.4 is outside 0.5 to 100"},
        {"\"compression_ratio\": 1.5", "\"compression_ratio\": 101",
         "/datasets/0/compression_ratio", "101 is outside 0.5 to 100"},
        {"\"compression_ratio\": 1.5", "\"compression_ratio\": 1.5, \"compression_spread\": 6",
         "/datasets/0/compression_spread", "6 is outside 0 to 5"},
        {"\"100 GB\", \"spread\": 0.1", "\"100 GB\", \"spread\": -0.1", "/datasets/0/growth/spread",
         "-0.1 is outside 0 to 5"},
        {"\"90 GB\", \"spread\": 0.1", "\"90 GB\", \"spread\": 5.1", "/datasets/0/turnover/spread",
         "5.1 is outside 0 to 5"},
        {"\"remove\": \"300 GB\"", "\"remove\": \"300 GB\", \"spread\": 9",
         "/datasets/0/events/0/spread", "9 is outside 0 to 5"},
    });
    expect_valid("\"compression_ratio\": 1.5", "\"compression_ratio\": 0.5");
    expect_valid("\"compression_ratio\": 1.5", "\"compression_ratio\": 100");
}

TEST(SiteRules, LongerStepsWriteMoreButNotMoreThanTheirDays) {
    expect_each({
        {"\"per_week\": \"40 GB\"", "\"per_week\": \"9 GB\"", "/datasets/0/turnover/per_week",
         "per_week 9 GB is less than per_day 10 GB"},
        {"\"per_week\": \"40 GB\", \"per_month\": \"90 GB\"", "\"per_week\": \"71 GB\"",
         "/datasets/0/turnover/per_week", "per_week 71 GB is more than 7 × per_day 10 GB = 70 GB"},
        {"\"per_week\": \"40 GB\", \"per_month\": \"90 GB\"", "\"per_month\": \"9 GB\"",
         "/datasets/0/turnover/per_month", "per_month 9 GB is less than per_day 10 GB"},
        {"\"per_week\": \"40 GB\", \"per_month\": \"90 GB\"", "\"per_month\": \"301 GB\"",
         "/datasets/0/turnover/per_month",
         "per_month 301 GB is more than 30 × per_day 10 GB = 300 GB"},
        {"\"per_month\": \"90 GB\"", "\"per_month\": \"30 GB\"", "/datasets/0/turnover/per_month",
         "per_month 30 GB is less than per_week 40 GB"},
        {"\"per_month\": \"90 GB\"", "\"per_month\": \"200 GB\"", "/datasets/0/turnover/per_month",
         "per_month 200 GB is more than 4.286 × per_week 40 GB = 171.4 GB"},
        // A share of 1 TB live: 0.5 % is 5 GB.
        {"\"per_week\": \"40 GB\", \"per_month\": \"90 GB\"", "\"per_week\": \"0.5 %\"",
         "/datasets/0/turnover/per_week", "per_week 5 GB is less than per_day 10 GB"},
    });
    expect_valid("\"per_week\": \"40 GB\", \"per_month\": \"90 GB\"", "\"per_week\": \"70 GB\"");
    expect_valid("\"per_week\": \"40 GB\", \"per_month\": \"90 GB\"", "\"per_week\": \"10 GB\"");
    expect_valid("\"per_day\": \"10 GB\"", "\"per_day\": \"1 %\"");
    expect_valid("\"per_week\": \"40 GB\", \"per_month\": \"90 GB\"", "\"per_week\": \"4 %\"");
}

TEST(SiteRules, TurnoverHasADayOrAListingAndFitsIntoLive) {
    expect_each({
        {"\"per_day\": \"10 GB\", ", "", "/datasets/0/turnover", "needs per_day"},
        {"\"per_day\": \"10 GB\", \"per_week\": \"40 GB\", \"per_month\": \"90 GB\"",
         "\"per_day\": \"-10 GB\"", "/datasets/0/turnover/per_day", "-10 GB is below 0"},
        {"\"per_day\": \"10 GB\", \"per_week\": \"40 GB\", \"per_month\": \"90 GB\"",
         "\"per_day\": \"2 TB\"", "/datasets/0/turnover/per_day",
         "2 TB a day is more than the live 1 TB"},
        {"\"per_day\": \"10 GB\", \"per_week\": \"40 GB\", \"per_month\": \"90 GB\"",
         "\"per_day\": \"101 %\"", "/datasets/0/turnover/per_day",
         "101 % is more than all live bytes"},
        {"\"per_day\": \"10 GB\"", "\"per_day\": \"10 GB\", \"listing_dataset\": \"a\"",
         "/datasets/0/turnover/listing_dataset", "there is no listing"},
        {"\"per_day\": \"10 GB\"", "\"per_day\": \"10 GB\", \"listing_columns\": [\"taken\"]",
         "/datasets/0/turnover/listing_columns", "there is no listing"},
        {"\"per_day\": \"10 GB\"", "\"per_day\": \"10 GB\", \"listing\": \"a\", \"listing_columns\": [\"taken\", 3]",
         "/datasets/0/turnover/listing_columns/1", "expected a text"},
        {"\"per_day\": \"10 GB\"", "\"per_day\": \"10 GB\", \"listing\": \"a\\tb\"",
         "/datasets/0/turnover/listing", "U+0009"},
    });
}

TEST(SiteRules, AListingIsReadOneWayByAllItsDatasets) {
    Site site;
    site.name = "S";
    site.as_of = std::chrono::year(2026) / 11 / 1;
    for (const char* name : {"a", "b"}) {
        Dataset d;
        d.name = name;
        d.turnover.emplace();
        d.turnover->listing = "all.tsv";
        site.datasets.push_back(d);
    }
    site.boxes.push_back({});
    site.boxes[0].name = "box";
    ASSERT_TRUE(validate(site).empty());
    site.datasets[1].turnover->listing_columns = {"snapshot", "taken", "unique", "live", "written"};
    Problems problems = validate(site);
    ASSERT_EQ(problems.size(), 1u);
    EXPECT_EQ(problems[0].where, "/datasets/1/turnover/listing");
    EXPECT_NE(problems[0].what.find("listing_columns"), std::string::npos);
    site.datasets[0].turnover->listing_columns = site.datasets[1].turnover->listing_columns;
    EXPECT_TRUE(validate(site).empty());
    site.datasets[0].turnover->listing_skip_bad_lines = true;
    EXPECT_EQ(validate(site).size(), 1u);
}

TEST(SiteRules, AWeekShapeHasWeight) {
    expect_each({
        {"[1, 1, 1, 1, 1, 0, 0]", "[0, 0, 0, 0, 0, 0, 0]", "/datasets/0/week_shape",
         "all seven days are 0"},
        {"[1, 1, 1, 1, 1, 0, 0]", "[1, 1, -1, 1, 1, 0, 0]", "/datasets/0/week_shape/2",
         "-1 is below 0"},
    });
}

TEST(SiteRules, ARungHasACountOrALength) {
    expect_each({
        {"\"count\": 30", "\"count\": 30, \"for\": \"30 d\"", "/datasets/0/ladder/0",
         "either count (30) or for (30 d)"},
        {", \"count\": 30", "", "/datasets/0/ladder/0", "needs count (how many) or for (how long)"},
        {"\"count\": 30", "\"count\": 0", "/datasets/0/ladder/0/count", "0 is outside 1 to 100000"},
        {"\"count\": 30", "\"count\": 100001", "/datasets/0/ladder/0/count",
         "100001 is outside 1 to 100000"},
        {"\"count\": 30", "\"for\": \"0 d\"", "/datasets/0/ladder/0/for",
         "0 d (0 days) is outside"},
        {"\"count\": 30", "\"for\": \"101 y\"", "/datasets/0/ladder/0/for", "101 y"},
        {"\"every\": \"1 d\", \"count\": 30", "\"every\": \"36 h\", \"count\": 30",
         "/datasets/0/ladder/0/every", "36 h is longer than a day"},
        {"\"every\": \"1 d\", \"count\": 30", "\"every\": \"101 y\", \"count\": 30",
         "/datasets/0/ladder/0/every", "longer than 100 years"},
        {"\"count\": 10", "\"count\": 0", "/sends/0/ladder/0/count", "0 is outside 1 to 100000"},
        {"[ { \"every\": \"1 w\", \"count\": 10 } ]", "[]", "/sends/0/ladder",
         "an empty ladder keeps nothing"},
    });
    expect_valid("\"count\": 30", "\"for\": \"30 d\"");
    expect_valid("\"every\": \"1 d\", \"count\": 30", "\"every\": \"24 h\", \"count\": 100000");
}

TEST(SiteRules, EventsMoveWhatIsThere) {
    expect_each({
        // 1 TB and 120 days' share of 100 GB a year.
        {"\"remove\": \"300 GB\"", "\"remove\": \"1.1 TB\"", "/datasets/0/events/0/remove",
         "removes 1.1 TB, but on 2027-03-01 there will be 1.033 TB"},
        {"\"remove\": \"300 GB\"", "\"remove\": \"101 %\"", "/datasets/0/events/0/remove",
         "101 % is more than"},
        {"\"remove\": \"300 GB\"", "\"remove\": \"0 GB\"", "/datasets/0/events/0/remove",
         "0 GB is not above 0"},
        {"\"remove\": \"300 GB\"", "\"add\": \"-1 GB\"", "/datasets/0/events/0/add",
         "-1 GB is not above 0"},
        {"\"remove\": \"300 GB\"", "\"remove\": \"300 GB\", \"days\": -1",
         "/datasets/0/events/0/days", "is below 0"},
        {"\"remove\": \"300 GB\"", "\"remove\": \"300 GB\", \"note\": \"a\\rb\"",
         "/datasets/0/events/0/note", "U+000D"},
        {"{ \"on\": \"2027-03-01\", \"remove\": \"300 GB\" }",
         "{ \"on\": \"2027-01-01\", \"remove\": \"900 GB\" }, { \"on\": \"2027-03-01\", "
         "\"remove\": \"300 GB\" }",
         "/datasets/0/events/1/remove", "there will be 132.9 GB"},
    });
    expect_valid("{ \"on\": \"2027-03-01\", \"remove\": \"300 GB\" }",
                 "{ \"on\": \"2027-01-01\", \"add\": \"4 TB\" }, { \"on\": \"2027-03-01\", "
                 "\"remove\": \"3 TB\" }");
}

TEST(SiteRules, ABoxHasAPoolOrUsable) {
    expect_each({
        {"\"ceiling\": 0.8", "\"usable\": \"9 TB\"", "/boxes/1/usable",
         "either a pool or usable (9 TB)"},
        {"\"ceiling\": 0.8", "\"ceiling\": 0", "/boxes/1/ceiling", "a ceiling of 0"},
        {"\"ceiling\": 0.8", "\"ceiling\": 1.01", "/boxes/1/ceiling", "a ceiling of 1.01"},
        {"\"ceiling\": 0.8", "\"ceiling\": 80", "/boxes/1/ceiling", "0.8 (80 %)"},
    });
    expect_valid("\"ceiling\": 0.8", "\"ceiling\": \"100 %\"");
}

TEST(SiteRules, APoolCanBeBuilt) {
    expect_each({
        {"\"width\": 6", "\"width\": 2", "/boxes/1/pool/width",
         "a width of 2 leaves nothing beside 2 parity drives; give 3 or more"},
        {"\"width\": 6", "\"width\": 1001", "/boxes/1/pool/width", "1001 is outside 1 to 1000"},
        {"\"parity-2\"", "\"mirror-2\"", "/boxes/1/pool/width",
         "a width of 6 does not go with mirror-2"},
        {"\"groups\": 1", "\"groups\": 0", "/boxes/1/pool/groups", "0 is outside 1 to 1000"},
        {"\"spares\": 0", "\"spares\": -1", "/boxes/1/pool/spares", "-1 is outside 0 to 1000"},
        {"\"drive\": \"4 TB\"", "\"drive\": \"60 MiB\"", "/boxes/1/pool/drive",
         "60 MiB is smaller than 64 MiB"},
        {"\"4 KiB\"", "\"4 kB\"", "/boxes/1/pool/sector", "4 kB is not a power of two"},
        {"\"4 KiB\"", "\"256 B\"", "/boxes/1/pool/sector", "512 B to 64 KiB"},
        {"\"4 KiB\"", "\"0 B\"", "/boxes/1/pool/sector", "512 B to 64 KiB"},
        {"\"usable\": \"20 TB\"",
         "\"pool\": { \"width\": 3, \"redundancy\": \"parity-3\", \"drive\": \"4 TB\" }",
         "/offers/0/pool/width", "3 parity drives; give 4 or more"},
    });
    expect_valid("\"width\": 6", "\"width\": 3");
    expect_valid("\"drive\": \"4 TB\"", "\"drive\": \"64 MiB\"");
    expect_valid("\"width\": 6, \"redundancy\": \"parity-2\"",
                 "\"width\": 2, \"redundancy\": \"mirror-2\"");
}

TEST(SiteRules, LinksAreLinesThatOpen) {
    expect_each({
        {"\"loss\": 0", "\"loss\": 1", "/links/0/loss", "a loss of 1 is not from 0 to below 1"},
        {"\"loss\": 0", "\"loss\": -0.1", "/links/0/loss", "-0.1"},
        {"\"mtu\": 1500", "\"mtu\": 575", "/links/0/mtu", "575 is outside 576 to 65535"},
        {"\"mtu\": 1500", "\"mtu\": 65536", "/links/0/mtu", "65536 is outside 576 to 65535"},
        // RFC 8200, section 5: IPv6 needs links of at least 1280 octets.
        {"\"mtu\": 1500,\n    \"ip\": 4", "\"mtu\": 1279, \"ip\": 6", "/links/0/mtu",
         "1279 is outside 1280 to 65535"},
        {"\"ip\": 4", "\"ip\": 5", "/links/0/ip", "IP version 5 is not known"},
        {"\"ip\": 4", "\"ip\": 4, \"outer_ip\": 7", "/links/0/outer_ip", "IP version 7 is not known"},
        {"\"ip\": 4", "\"ip\": 4, \"esp\": \"aes\"", "/links/0/esp", "aes-gcm-16"},
        {"\"ip\": 4", "\"ip\": 4, \"sharing\": \"fair\"", "/links/0/sharing", "in turn"},
        {"\"streams\": 1", "\"streams\": 0", "/links/0/streams", "0 is outside 1 to 256"},
        {"\"share\": 0.8", "\"share\": 1.2", "/links/0/hours/0/share", "1.2 is outside 0 to 1"},
        {"\"share\": 0.8", "\"share\": 0", "/links/0/hours", "the link never opens"},
        {"\"19:00\"", "\"24:00\"", "/links/0/hours/0/from", "24:00 is not from 00:00 to 23:59"},
    });
    expect_valid("\"mtu\": 1500", "\"mtu\": 576");
    expect_valid("\"mtu\": 1500", "\"mtu\": 65535");
    expect_valid("\"days\": \"Mon-Fri\", \"from\": \"19:00\", \"to\": \"06:00\", \"share\": 0.8",
                 "\"share\": 0.5");
}

TEST(SiteRules, ASendGoesToAnotherBox) {
    expect_each({
        {"\"from\": \"attic\", \"to\": \"far\"", "\"from\": \"attic\", \"to\": \"attic\"",
         "/sends/1/to", "from and to are both \"attic\""},
        {"\"over\": \"line\", \"start\"", "\"start\"", "/sends/0/over", "missing; expected a text"},
        {"\"over\": \"line\", \"start\"", "\"over\": \"\", \"start\"", "/sends/0/over",
         "no link is named"},
        {"[\"data\"]", "[\"data\", \"data\"]", "/sends/0/datasets/1", "named twice"},
        {"\"at\": \"20:00\"", "\"at\": \"24:00\"", "/sends/0/start/at", "24:00 is not from 00:00"},
        {"\"every\": \"1 d\", \"at\": \"20:00\"", "\"at\": \"20:00\", \"after_each_snapshot\": true",
         "/sends/0/start/at", "no time of its own"},
        {"\"every\": \"1 d\", \"at\"", "\"every\": \"48 h\", \"at\"", "/sends/0/start/every",
         "48 h is longer than a day"},
    });
    EXPECT_TRUE(reports(problems_of(with(small_site(), "[\"data\"]", "[]")), "/sends/0/datasets",
                        "no dataset is named"));
}

TEST(SiteRules, ASendCarriesWhatItsSourceHas) {
    expect_each({
        {"\"from\": \"attic\", \"to\": \"far\"", "\"from\": \"far\", \"to\": \"attic\"",
         "/sends/1/datasets/0", "\"data\" is carried to \"attic\" by the send \"nightly\" already"},
        {"\"from\": \"attic\", \"to\": \"far\"", "\"from\": \"attic\", \"to\": \"office\"",
         "/sends/1/datasets/0", "\"data\" lives on \"office\", so it cannot be sent there"},
    });
    const Problems elsewhere =
        problems_of(with(small_site(), "\"home\": \"office\"", "\"home\": \"far\""));
    EXPECT_EQ(elsewhere.size(), 2U) << listed(elsewhere);
    EXPECT_TRUE(reports(elsewhere, "/sends/0/datasets/0", "send from \"far\""));
    EXPECT_TRUE(reports(elsewhere, "/sends/1/datasets/0", "lives on \"far\""));
    // The first send no longer fills the attic, so the second has nothing to pass on.
    const Problems broken =
        problems_of(with(with(small_site(), "{ \"name\": \"office\" }",
                              "{ \"name\": \"office\" }, { \"name\": \"shed\" }"),
                         "\"to\": \"attic\"", "\"to\": \"shed\""));
    EXPECT_TRUE(
        only_problem(broken, "/sends/1/datasets/0",
                     "\"data\" is not on \"attic\": its home is \"office\", and no other send"));
}

TEST(SiteRules, ADatasetWithoutAHomeMayStartAnywhere) {
    expect_valid("\"home\": \"office\", ", "");
}

TEST(SiteRules, SendsDoNotGoRoundInACircle) {
    const std::string boxes = with(small_site(), "{ \"name\": \"office\" }",
                                   "{ \"name\": \"office\" }, { \"name\": \"shed\" }");
    const Problems problems = problems_of(with(boxes, "\"from\": \"office\", \"to\": \"attic\"",
                                               "\"from\": \"far\", \"to\": \"attic\""));
    EXPECT_EQ(problems.size(), 2U) << listed(problems);
    EXPECT_TRUE(
        reports(problems, "/sends/0/datasets/0", "in a circle, \"attic\" → \"far\" → \"attic\""))
        << listed(problems);
    EXPECT_TRUE(
        reports(problems, "/sends/1/datasets/0", "in a circle, \"far\" → \"attic\" → \"far\""))
        << listed(problems);
}

TEST(SiteRules, OnlyAnExpandedStreamIsCompressedAgain) {
    expect_each({
        {"\"payload\": \"expanded\"", "\"payload\": \"sealed\"", "/sends/1/stream_ratio",
         "1.5 with the payload \"sealed\": encrypted"},
        {"\"payload\": \"expanded\"", "\"payload\": \"stored\"", "/sends/1/stream_ratio",
         "1.5 with the payload \"stored\""},
        {"\"stream_ratio\": 1.5", "\"stream_ratio\": 0", "/sends/1/stream_ratio",
         "a stream ratio of 0"},
        {"\"stream_ratio\": 1.5", "\"stream_ratio\": -2", "/sends/1/stream_ratio",
         "a stream ratio of -2"},
    });
}

TEST(SiteRules, ACourierNeedsARate) {
    expect_each({
        {"\"copy_rate\": \"100 MB/s\", ", "", "/sends/0/first_copy/copy_rate", "needs the rate"},
        {"\"days_away\": 2", "\"days_away\": -1", "/sends/0/first_copy/days_away",
         "-1 is outside 0 to"},
    });
}

TEST(SiteRules, AnOfferHoldsSomething) {
    expect_each({
        {",\n      \"usable\": \"20 TB\"", "", "/offers/0", "needs a pool or usable"},
        {"\"usable\": \"20 TB\"",
         "\"usable\": \"20 TB\", \"pool\": { \"redundancy\": \"mirror-2\", \"drive\": \"4 TB\" }",
         "/offers/0/usable", "either a pool or usable (20 TB)"},
    });
}

TEST(SiteRules, PricesAreInTheSitesCurrency) {
    expect_each({
        {"\"price\": 100", "\"price\": \"100 USD\"", "/offers/0/price",
         "in USD, but the site counts in EUR"},
        {"\"price\": 100", "\"price\": \"100 EUR/kWh\"", "/offers/0/price", "in EUR/kWh"},
        {"\"horizon\"", "\"energy_price\": \"0.3 EUR\", \"horizon\"", "/energy_price",
         "the site counts in EUR/kWh"},
        {"\"horizon\"", "\"energy_price\": -0.3, \"horizon\"", "/energy_price", "-0.3 is below 0"},
        {"\"life\": \"5 y\"", "\"life\": \"5 y\", \"failure_rate\": 1", "/offers/0/failure_rate",
         "not from 0 to below 1"},
        {"\"life\": \"5 y\"", "\"life\": \"5 y\", \"drive_rate\": 0", "/offers/0/drive_rate",
         "is not above 0"},
    });
    expect_valid("\"price\": 100", "\"price\": \"100 EUR\"");
    expect_valid("\"price\": 100", "\"price\": \"99.50\"");
    expect_valid("\"horizon\"", "\"energy_price\": \"0.31 EUR/kWh\", \"horizon\"");
}

TEST(SiteRules, GroupsOfAPoolShareItsSectorAndEachCanBeBuilt) {
    const std::string drive = "\"drive\": \"4 TB\"";
    const auto with_further = [&](const std::string& groups) {
        return drive + ", \"further\": [ " + groups + " ]";
    };
    expect_each({
        {drive,
         with_further("{ \"redundancy\": \"mirror-2\", \"drive\": \"4 TB\", \"sector\": \"8 KiB\" }"),
         "/boxes/1/pool/further/0/sector", "8 KiB beside sectors of 4 KiB"},
        {drive,
         with_further("{ \"width\": 1, \"redundancy\": \"parity-1\", \"drive\": \"4 TB\" }"),
         "/boxes/1/pool/further/0/width", "give 2 or more"},
        {drive, with_further("{ \"redundancy\": \"mirror-2\" }"), "/boxes/1/pool/further/0/drive",
         "missing"},
    });
    expect_valid(drive, with_further("{ \"redundancy\": \"mirror-2\", \"drive\": \"4 TB\" }"));
}

TEST(SiteRules, ChangesOfABoxGoWithWhatItIs) {
    const std::string ceiling = "\"ceiling\": 0.8";
    const auto with_change = [&](const std::string& change) {
        return ceiling + ", \"changes\": [ { \"on\": \"2027-01-01\", " + change + " } ]";
    };
    expect_each({
        {ceiling, with_change("\"usable\": \"9 TB\""), "/boxes/1/changes/0", "one with a pool changes"},
        {ceiling, with_change("\"swap_drives\": \"8 TB\", \"set\": 2"), "/boxes/1/changes/0/set",
         "no set 2"},
        {ceiling, with_change("\"swap_drives\": \"8 TB\", \"widen_to\": 8"), "/boxes/1/changes/0",
         "make it 2 of them"},
        {ceiling, with_change("\"note\": \"nothing\""), "/boxes/1/changes/0", "a change needs one of"},
        {"\"usable\": \"9 TB\"",
         "\"usable\": \"9 TB\", \"changes\": [ { \"on\": \"2027-01-01\", \"widen_to\": 8 } ]",
         "/boxes/2/changes/0", "only a box with a pool"},
        {ceiling, ceiling + ", \"enclosure\": { \"bays\": 0 }", "/boxes/1/enclosure/bays",
         "0 is outside 1 to"},
    });
    expect_valid(ceiling, with_change("\"widen_to\": 8"));
}

TEST(SiteRules, WhatIsAddedGoesWithWhatIsThere) {
    expect_each({
        {"\"life\": \"5 y\"", "\"life\": \"5 y\", \"as\": \"added\"", "/offers/0/as",
         "has no usable size"},
        {"\"life\": \"5 y\"", "\"life\": \"5 y\", \"as\": \"lent\"", "/offers/0/as", "\"added\""},
    });
}

TEST(SiteRules, SitesBuiltInCodeAreJudgedToo) {
    auto read = parse_site(small_site());
    ASSERT_TRUE(read) << listed(read.error());
    EXPECT_TRUE(validate(*read).empty()) << listed(validate(*read));
    const double nan = std::nan("");
    Site site = *read;
    site.horizon.value = Duration{nan};
    EXPECT_TRUE(only_problem(validate(site), "/horizon", "nan"));
    site = *read;
    site.datasets[0].live->value = Bytes{std::numeric_limits<double>::infinity()};
    EXPECT_TRUE(reports(validate(site), "/datasets/0/live", "is not above 0"));
    site = *read;
    site.boxes[1].pool->redundancy = {Redundancy::Kind::mirror, 7};
    EXPECT_TRUE(
        only_problem(validate(site), "/boxes/1/pool/redundancy", "mirror-7 cannot be built"));
    site = *read;
    site.datasets[0].ladder[0].every = Period{0, Period::Unit::day};
    EXPECT_TRUE(only_problem(validate(site), "/datasets/0/ladder/0/every", "at least 1"));
    site = *read;
    site.links[0].hours[0].days.fill(false);
    EXPECT_TRUE(only_problem(validate(site), "/links/0/hours/0/days", "no day"));
    site.links[0].hours[0].days.fill(true);
    site.links[0].hours[0].to = 90000;
    EXPECT_TRUE(
        only_problem(validate(site), "/links/0/hours/0/to", "25:00 is not from 00:00 to 24:00"));
    site = *read;
    site.boxes[1].ceiling = nan;
    EXPECT_TRUE(only_problem(validate(site), "/boxes/1/ceiling", "nan"));
    EXPECT_TRUE(reports(validate(Site{}), "/name", "empty"));
}

}  // namespace
}  // namespace ullage
