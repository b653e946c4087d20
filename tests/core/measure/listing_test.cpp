// SPDX-License-Identifier: GPL-3.0-or-later
// The accepted column names are the program's own contract (listing.h); no outside source.
#include "core/measure/listing.h"
#include "core/measure/listing_columns.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fmt/format.h>
#include <string>

namespace ullage {
namespace {

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    for (std::size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
    return text;
}

const std::string tabbed =
    "snapshot\ttaken\tunique\tlive\twritten\n"
    "data@a\t86400\t10\t1000\t1000\n"
    "data@b\t172800\t20\t1100\t150\n"
    "data@c\t259200\t0\t1200\t130\n";

Listing only(const std::string& text, const ListingOptions& options = {}) {
    const auto listings = parse_listing(text, options);
    if (!listings) {
        std::string said;
        for (const auto& p : listings.error()) said += p.where + ": " + p.what + "\n";
        ADD_FAILURE() << said << "in\n" << text;
        return {};
    }
    EXPECT_EQ(listings->size(), 1u);
    return listings->front();
}

void expect_sample(const Listing& l) {
    ASSERT_EQ(l.snapshots.size(), 3u);
    EXPECT_EQ(l.dataset, "data");
    EXPECT_EQ(l.snapshots[0].name, "data@a");
    EXPECT_EQ(l.snapshots[0].taken, Instant(std::chrono::seconds(86400)));
    EXPECT_EQ(l.snapshots[1].unique_bytes, 20);
    EXPECT_EQ(l.snapshots[1].live_bytes, 1100);
    EXPECT_EQ(l.snapshots[1].written_bytes, 150);
    EXPECT_TRUE(l.warnings.empty());
}

Problems problems_of(const std::string& text, const ListingOptions& options = {}) {
    const auto listings = parse_listing(text, options);
    EXPECT_FALSE(listings) << text;
    return listings ? Problems{} : listings.error();
}

void expect_problem(const std::string& text, const std::string& where, const std::string& part) {
    const auto problems = problems_of(text);
    ASSERT_FALSE(problems.empty());
    EXPECT_EQ(problems.front().where, where) << problems.front().what;
    EXPECT_NE(problems.front().what.find(part), std::string::npos) << problems.front().what;
}

TEST(Listing, ReadsTabsCommasSemicolonsAndRunsOfSpacesAlike) {
    expect_sample(only(tabbed));
    expect_sample(only(replaced(tabbed, "\t", ",")));
    expect_sample(only(replaced(tabbed, "\t", ";")));
    expect_sample(only(replaced(tabbed, "\t", " ; ")));
    expect_sample(only(replaced(tabbed, "\t", "     ")));
    EXPECT_EQ(only(replaced(tabbed, "\t", "  ")), only(tabbed));
}

TEST(Listing, ReadsWindowsLineEndsAByteOrderMarkCommentsAndBlankLines) {
    expect_sample(only(replaced(tabbed, "\n", "\r\n")));
    expect_sample(only("\xEF\xBB\xBF" + tabbed));
    expect_sample(only("\xEF\xBB\xBF" + replaced(tabbed, "\n", "\r\n")));
    expect_sample(only("# what was on the box\n\n" + replaced(tabbed, "data@b", "\n   \n  # again\ndata@b")));
    expect_sample(only(tabbed.substr(0, tabbed.size() - 1)));  // no line end at the end
}

TEST(Listing, ReadsQuotedFieldsWithSeparatorsAndQuotesInThem) {
    const auto l = only("\"snapshot\",taken,unique,live,written\n"
                        "\"my, \"\"data\"\"@a\",86400,\"10\",1000,1000\n"
                        "\"my, \"\"data\"\"@b\",172800,0,1000,1\n");
    EXPECT_EQ(l.dataset, "my, \"data\"");
    EXPECT_EQ(l.snapshots[0].unique_bytes, 10);
    const auto spaced = only("name taken used refer written\n\"my data@a\" 0 1 5 5\n\"my data@b\" 1 1 5 2\n");
    EXPECT_EQ(spaced.dataset, "my data");
}

TEST(Listing, AcceptsEverySpellingOfAColumnInAnyCaseAndOrder) {
    for (const char* name : {"snapshot", "name", "NAME"})
        for (const char* taken : {"taken", "creation", "time", "Creation"})
            for (const char* unique : {"unique", "used", "USED"})
                for (const char* live : {"live", "referenced", "refer", "Refer"})
                    for (const char* written : {"written", "WRITTEN"}) {
                        const std::string header = std::string(written) + "\t" + live + "\t" + unique + "\t" +
                                                   taken + "\t" + name + "\n";
                        const auto l = only(header + "5\t9\t2\t60\td@x\n1\t9\t0\t120\td@y\n");
                        ASSERT_EQ(l.snapshots.size(), 2u) << header;
                        EXPECT_EQ(l.snapshots[0].unique_bytes, 2) << header;
                        EXPECT_EQ(l.snapshots[0].live_bytes, 9) << header;
                        EXPECT_EQ(l.snapshots[0].written_bytes, 5) << header;
                    }
}

TEST(Listing, PassesOverOptionalAndUnknownColumns) {
    const auto l = only("name,type,creation,used,refer,lrefer,compressratio,written,remark\n"
                        "d@a,snap,0,1,10,20,2.00x,10,hello\n"
                        "d@b,snap,60,1,11,22,2.00x,3,\n");
    EXPECT_EQ(l.snapshots[1].live_bytes, 11);
    EXPECT_EQ(l.snapshots[1].written_bytes, 3);
}

TEST(Listing, TheNameThatStandsFirstInTheContractWinsWhateverTheColumnOrder) {
    const auto l = only("name,taken,used,unique,refer,live,written\nd@a,0,100,1,7,9,2\nd@b,1,100,2,7,9,2\n");
    EXPECT_EQ(l.snapshots[0].unique_bytes, 1);
    EXPECT_EQ(l.snapshots[0].live_bytes, 9);
}

TEST(Listing, TakesRolesByPositionWhenTheFirstRowIsData) {
    ListingOptions options;
    options.columns = {"name", "used", "refer", "written", "creation"};
    const auto l = only("d@a 1 100 100 0\nd@b 2 110 20 3600\n", options);
    ASSERT_EQ(l.snapshots.size(), 2u);
    EXPECT_EQ(l.snapshots[0].line, 1);
    EXPECT_EQ(l.snapshots[1].written_bytes, 20);
    options.columns = {"name", "used", "refer"};
    const auto problems = problems_of("d@a 1 100 100 0\n", options);
    EXPECT_EQ(problems.front().where, "");
    EXPECT_NE(problems.front().what.find("no column for taken, written"), std::string::npos)
        << problems.front().what;
}

TEST(Listing, SizesMayCarryUnitsOfOneThousandOf1024OrOneLetter) {
    // IEC 80000-13 for the prefixes; a single letter is binary, as such listings print it (common
    // practice, no source).
    const auto l = only("name,taken,used,live,written\nd@a,0,1.5K,2 TB,1.8T\nd@b,60,12B,3 TiB,0\nd@c,120,1M,4.2T,7 GB\n");
    EXPECT_EQ(l.snapshots[0].unique_bytes, 1536);
    EXPECT_EQ(l.snapshots[0].live_bytes, 2e12);
    EXPECT_EQ(l.snapshots[1].unique_bytes, 12);
    EXPECT_EQ(l.snapshots[1].live_bytes, 3.0 * 1099511627776);
    EXPECT_EQ(l.snapshots[2].unique_bytes, 1048576);
    EXPECT_EQ(l.snapshots[2].written_bytes, 7e9);
}

TEST(Listing, WrittenRoundedUpAboveLivePassesAndClearlyMoreDoesNot) {
    EXPECT_TRUE(parse_listing("name,taken,used,live,written\nd@a,0,0,1.00T,1.01T\n"));
    expect_problem("name,taken,used,live,written\nd@a,0,0,100000,150000\n", "line 2",
                   "written (150000) is more than live (100000)");
}

TEST(Listing, UniqueRoundedUpAboveLivePassesAndClearlyMoreDoesNot) {
    EXPECT_TRUE(parse_listing("name,taken,used,live,written\nd@a,0,1.01T,1.00T,1.00T\n"));
    expect_problem("name,taken,used,live,written\nd@a,0,150000,100000,10\n", "line 2",
                   "unique (150000) is more than live (100000)");
}

TEST(BadListing, SwappedColumnsAndMixedUnitsThatCannotBeAreErrorsThatSaySo) {
    const std::string of_bytes = "name,taken,used,live,written\n";
    for (const char* line : {"d@a,0,5000000,1000,900000000\n",       // live in another unit
                             "d@a,0,5000000,20000000,1000000000\n",  // written and live swapped
                             "d@a,0,1000000000,5000000,2000000\n"})  // unique and live swapped
        expect_problem(of_bytes + line, "line 2", "are columns swapped, or in different units?");
}

TEST(Listing, TimesMayBeEpochSecondsOrIso8601) {
    // 1 600 000 000 s is 2020-09-13T12:26:40Z (from memory; `date -u -d @1600000000` agrees).
    const auto l = only("name,taken,used,live,written\nd@a,1600000000,0,5,5\nd@b,2020-09-14T12:26:40Z,0,5,1\n"
                        "d@c,2020-09-15T14:26:40+02:00,0,5,1\nd@d,2020-09-17,0,5,1\n");
    EXPECT_EQ((l.snapshots[1].taken - l.snapshots[0].taken).count(), 86400);
    EXPECT_EQ((l.snapshots[2].taken - l.snapshots[1].taken).count(), 86400);
    EXPECT_EQ(format_instant(l.snapshots[3].taken), "2020-09-17T00:00:00Z");
}

TEST(Listing, SeveralDatasetsAreToldApartByWhatStandsBeforeTheAt) {
    const auto listings = parse_listing("name,taken,used,live,written\n"
                                        "pool/b@1,0,0,5,5\npool/a@1,0,0,7,7\npool/b@2,60,0,5,1\n"
                                        "pool/a@2,60,0,8,2\nloose,0,0,3,3\n");
    ASSERT_TRUE(listings);
    ASSERT_EQ(listings->size(), 3u);
    EXPECT_EQ((*listings)[0].dataset, "pool/b");
    EXPECT_EQ((*listings)[0].snapshots.size(), 2u);
    EXPECT_EQ((*listings)[1].dataset, "pool/a");
    EXPECT_EQ((*listings)[1].snapshots[1].live_bytes, 8);
    EXPECT_EQ((*listings)[2].dataset, "");
}

TEST(Listing, NewestFirstIsTurnedRoundAndAnyOtherOrderIsSortedWithAWarning) {
    const auto reversed = only("name,taken,used,live,written\nd@c,120,0,7,1\nd@b,60,0,6,2\nd@a,0,0,5,5\n");
    EXPECT_EQ(reversed.snapshots.front().name, "d@a");
    EXPECT_TRUE(reversed.warnings.empty());
    const auto mixed = only("name,taken,used,live,written\nd@b,60,0,6,2\nd@c,120,0,7,1\nd@a,0,0,5,5\n");
    EXPECT_EQ(mixed.snapshots.front().name, "d@a");
    EXPECT_EQ(mixed.snapshots.back().name, "d@c");
    ASSERT_EQ(mixed.warnings.size(), 1u);
    EXPECT_NE(mixed.warnings[0].find("not in order of time"), std::string::npos);
}

TEST(Listing, OneSnapshotIsAListing) {
    EXPECT_EQ(only("name,taken,used,live,written\nd@a,0,0,5,5\n").snapshots.size(), 1u);
}

TEST(BadListing, AnEmptyFileOrOneWithNothingButCommentsSaysSo) {
    expect_problem("", "", "empty");
    expect_problem("\n\n  \r\n", "", "empty");
    expect_problem("# nothing\n", "", "empty");
    expect_problem("\xEF\xBB\xBF", "", "empty");
}

TEST(BadListing, AHeaderAloneSaysSo) { expect_problem("name,taken,used,live,written\n", "", "nothing below"); }

TEST(BadListing, MissingColumnsAreNamedAtTheHeadersLine) {
    expect_problem("# c\nname,taken,used,live\nd@a,0,0,5\n", "line 2", "no column for written");
    expect_problem("d@a,0,0,5,5\nd@b,60,0,5,1\n", "line 1", "no column for snapshot, taken, unique, live, written");
}

TEST(BadListing, EveryLineThatCannotBeReadIsReportedWithItsNumber) {
    const auto problems = problems_of("name,taken,used,live,written\n"
                                      "d@a,0,0,5,5\n"
                                      "d@b,60,many,5,1\n"
                                      "\n"
                                      "d@c,yesterday,0,5,1\n"
                                      "d@d,180,0,-5,1\n"
                                      "d@e,240,0\n"
                                      ",300,0,5,1\n"
                                      "d@f,360,nan,5,1\n");
    ASSERT_EQ(problems.size(), 6u);
    const std::vector<std::pair<std::string, std::string>> expected = {
        {"line 3", "unique: “many” is not a size"}, {"line 5", "yesterday"}, {"line 6", "negative"},
        {"line 7", "3 fields, but live is field 4"}, {"line 8", "no name"}, {"line 9", "unique: “nan”"}};
    for (std::size_t i = 0; i < expected.size(); ++i) {
        EXPECT_EQ(problems[i].where, expected[i].first);
        EXPECT_NE(problems[i].what.find(expected[i].second), std::string::npos) << problems[i].what;
    }
}

TEST(BadListing, TwoSnapshotsOfADatasetAtOneInstantAreReportedWithBothLines) {
    expect_problem("name,taken,used,live,written\nd@a,0,0,5,5\nd@b,60,0,5,1\nd@c,60,0,5,1\n", "line 4",
                   "“d@b” (line 3)");
    // Of two datasets it is no fault.
    EXPECT_TRUE(parse_listing("name,taken,used,live,written\nd@a,0,0,5,5\ne@a,0,0,5,1\n"));
}

TEST(BadListing, ATimeThatIsWrongByADigitIsFoundByHowFarItLies) {
    expect_problem("name,taken,used,live,written\nd@a,1777788810,0,5,5\nd@b,177878881008,0,5,1\n", "line 3", "years after");
    const auto usage = parse_usage("time,live\n1777788810,5\n177878881008,6\n");
    ASSERT_FALSE(usage);
    EXPECT_EQ(usage.error().front().where, "line 3");
    // Ninety years of yearly snapshots are a history.
    std::string text = "name,taken,used,live,written\n";
    for (long year = 0; year < 90; ++year) text += fmt::format("d@{},{},0,5,5\n", year, year * 31556952);
    EXPECT_EQ(only(text).snapshots.size(), 90u);
}

TEST(BadListing, AThousandBadLinesAreFiftyProblemsAndAWord) {
    std::string text = "name,taken,used,live,written\n";
    for (int i = 0; i < 1000; ++i) text += "d@a,never,0,5,5\n";
    const auto problems = problems_of(text);
    ASSERT_EQ(problems.size(), 51u);
    EXPECT_EQ(problems[49].where, "line 51");
    EXPECT_NE(problems[50].what.find("more"), std::string::npos);
}

TEST(BadListing, SkippingLeavesBadLinesOutAndSaysWhich) {
    ListingOptions options;
    options.skip_bad_lines = true;
    const auto l = only("name,taken,used,live,written\nd@a,0,0,5,5\nd@b,60,x,5,1\nd@c,120,0,5,1\n", options);
    EXPECT_EQ(l.snapshots.size(), 2u);
    ASSERT_EQ(l.warnings.size(), 1u);
    EXPECT_NE(l.warnings[0].find("line 3 left out"), std::string::npos);
    const auto none = parse_listing("name,taken,used,live,written\nd@b,60,x,5,1\n", options);
    ASSERT_FALSE(none);
    EXPECT_NE(none.error().front().what.find("no line"), std::string::npos);
}

TEST(BadListing, OfVeryManyLinesLeftOutTheFirstFiftyAreNamedAndTheRestCounted) {
    std::string text = "name,taken,used,live,written\nd@a,0,0,5,5\n";
    for (int i = 0; i < 1000; ++i) text += "d@b,never,0,5,5\n";
    ListingOptions options;
    options.skip_bad_lines = true;
    const auto l = only(text, options);
    ASSERT_EQ(l.warnings.size(), 51u);
    EXPECT_NE(l.warnings[49].find("line 52 left out"), std::string::npos);
    EXPECT_EQ(l.warnings[50], "950 more lines left out");
    const auto lines = read_listing_lines(whole_text(text), {});
    ASSERT_TRUE(lines);
    EXPECT_EQ(lines->bad_line_count, 1000u);
    EXPECT_EQ(lines->bad_lines.size(), 50u);
}

TEST(Listing, WithRolesGivenAHeaderRowIsPassedOverAndABadFirstLineIsNot) {
    ListingOptions options;
    options.columns = {"snapshot", "taken", "-", "unique", "live", "written"};
    const std::string rows = "d@a,0,x,0,5,5\nd@b,60,x,0,6,2\n";
    EXPECT_EQ(only("what,when,who,alone,all,new\n" + rows, options).snapshots.size(), 2u);
    EXPECT_EQ(only(rows, options).snapshots.size(), 2u);
    for (const char* first : {"d@0,soon,x,0,5,5\n", "what,when,who,alone,all,5\n"}) {
        const auto bad = parse_listing(first + rows, options);
        ASSERT_FALSE(bad) << first;
        EXPECT_EQ(bad.error().front().where, "line 1");
    }
    const auto twice = parse_listing("what,when,who,alone,all,new\nwhat,when,who,alone,all,new\n" + rows, options);
    ASSERT_FALSE(twice);
    EXPECT_EQ(twice.error().front().where, "line 2");
}

using Roles = std::vector<std::string>;

TEST(ListingPreview, ShowsTheFirstRowsAndWhatTheirNamesSay) {
    const std::string text = "# made today\nname;creation;used;who;referenced;written\nd@a;0;0;me;5;5\nd@b;60;0;me;6;2\nd@c;9;0\n";
    const auto p = preview_listing(whole_text(text), 2);
    EXPECT_EQ(p.header, (Roles{"name", "creation", "used", "who", "referenced", "written"}));
    EXPECT_EQ(p.roles, (Roles{"snapshot", "taken", "unique", "", "live", "written"}));
    ASSERT_EQ(p.rows.size(), 2u);
    EXPECT_EQ(p.rows[1], (Roles{"d@b", "60", "0", "me", "6", "2"}));
    EXPECT_EQ(preview_listing(whole_text(text), 100).rows.size(), 3u);
}

TEST(ListingPreview, WithoutNamesTellsOnlyWhatIsClear) {
    const auto p = preview_listing(whole_text("5 tank@a 2026-01-01T00:00:00Z 1.5G 7\n"), 5);
    EXPECT_TRUE(p.header.empty());
    EXPECT_EQ(p.roles, (Roles{"", "snapshot", "taken", "", ""}));
    const auto foreign = preview_listing(whole_text("what when all\nd 0 5 6 7\n"), 5);
    EXPECT_EQ(foreign.header.size(), 3u);
    EXPECT_EQ(foreign.roles, (Roles{"", "", "", "", ""}));  // as wide as the widest row
    EXPECT_EQ(preview_listing(whole_text(""), 5).columns(), 0u);
}

TEST(ListingPreview, RolesOfNamesAreThoseThatAListingIsReadBy) {
    // What the preview says of a header and reads with roles given is what reading by the header gives.
    for (const std::string header : {"name,taken,used,live,written", "written,refer,snapshot,unique,creation",
                                     "used,name,unique,taken,live,written"}) {
        const auto names = preview_listing(whole_text(header + "\n"), 1);
        std::string row;
        for (const auto& role : names.roles)
            row += (row.empty() ? "" : ",") + std::string(role == "snapshot" ? "d@a" : role == "taken" ? "60" : "5");
        const std::string text = header + "\n" + row + "\n";
        ListingOptions given;
        given.columns = names.roles;
        EXPECT_EQ(only(text), only(text, given)) << header;
    }
}

TEST(BadListing, AnUnclosedQuoteOrOddBytesAreProblemsNotCrashes) {
    EXPECT_FALSE(parse_listing("name,taken,used,live,written\n\"d@a,0,0,5,5\n"));
    EXPECT_FALSE(parse_listing(std::string("name,taken,used,live,written\n") + '\0' + "\xFF,\x01,0,5,5\n"));
    EXPECT_FALSE(parse_listing(std::string(1000, ',')));
    EXPECT_FALSE(parse_listing("name,taken,used,live,written\nd@a,0,0,1e400,5\n"));
}

TEST(Usage, ReadsTimesAndLiveBytesInAnyOrder) {
    const auto points = parse_usage("time;live\n2026-01-02;6 GB\n2026-01-01;5 GB\n2026-01-03T12:00Z;7 GB\n");
    ASSERT_TRUE(points);
    ASSERT_EQ(points->size(), 3u);
    EXPECT_EQ((*points)[0].live_bytes, 5e9);
    EXPECT_EQ(days_between((*points)[0].time, (*points)[2].time), 2.5);
    const auto both = parse_usage("date used live\n0 9 5\n60 9 6\n");
    ASSERT_TRUE(both);
    EXPECT_EQ(both->front().live_bytes, 5);
}

TEST(Usage, FaultsCarryTheirLine) {
    const auto none = parse_usage("");
    ASSERT_FALSE(none);
    const auto points = parse_usage("time,live\n0,5\n60,6\n# note\n60,7\nnever,-8\n");
    ASSERT_FALSE(points);
    ASSERT_EQ(points.error().size(), 3u);
    EXPECT_EQ(points.error()[0].where, "line 6");
    EXPECT_EQ(points.error()[1].where, "line 6");
    EXPECT_EQ(points.error()[2].where, "line 5");
    EXPECT_NE(points.error()[2].what.find("line 3"), std::string::npos);
    EXPECT_FALSE(parse_usage("time,size\n0,5\n"));
}

}  // namespace
}  // namespace ullage
