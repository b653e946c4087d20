// SPDX-License-Identifier: GPL-3.0-or-later
/// Files that are broken, huge or meant to harm, as the program meets them: each ends soon, with a status
/// and "ullage: FILE: POINTER: what, and the mend".
#include "command_line.h"

#include <chrono>
#include <nlohmann/json.hpp>
#include <sys/stat.h>

using namespace ullage::testing;

namespace {

class HostileFiles : public CommandLine {
protected:
    /// The outcome, which must come within 20 s even on a slow, shared machine.
    Outcome soon(const std::string& words) const {
        const auto begun = std::chrono::steady_clock::now();
        auto o = run(words, "timeout 60 ");
        EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(20)) << words;
        return o;
    }

    /// Refused with this status, nothing on standard output, and one line that begins so and holds `part`.
    void refused(const std::string& words, int status, const std::string& begin, const std::string& part) const {
        const auto o = soon(words);
        EXPECT_EQ(o.status, status) << words << "\n" << o.err;
        EXPECT_EQ(o.out, "") << words;
        EXPECT_EQ(o.err.rfind(begin, 0), 0U) << o.err;
        EXPECT_NE(o.err.find(part), std::string::npos) << o.err;
        for (const char c : o.err) EXPECT_TRUE(c == '\n' || static_cast<unsigned char>(c) >= 0x20) << o.err;
    }

    static std::string with(std::string text, const std::string& from, const std::string& to) {
        const auto at = text.find(from);
        EXPECT_NE(at, std::string::npos) << from;
        if (at != std::string::npos) text.replace(at, from.size(), to);
        return text;
    }

    void refused_site(const std::string& text, const std::string& pointer, const std::string& part) const {
        const auto file = write("h.site.json", text);
        refused("forecast " + quoted(file), 1,
                "ullage: " + file.string() + ": " + pointer + (pointer[0] == '/' ? ": " : ""), part);
        refused("check " + quoted(file), 1, "ullage: " + file.string() + ": ", part);
    }
};

const std::string head = "snapshot\ttaken\tunique\tlive\twritten\n";

}  // namespace

TEST_F(HostileFiles, NestingAHundredThousandDeepIsRefusedAtOnce) {
    refused_site(std::string(100000, '['), "", "nested more than 64 deep");
    refused_site(with(plain_site, "\"name\": \"files\"",
                      "\"x-deep\": " + std::string(100000, '{') + ", \"name\": \"files\""),
                 "line 3", "this is not JSON");
}

TEST_F(HostileFiles, ASiteOfManyMillionValuesOrBytesIsRefusedByItsLimit) {
    std::string many = "[0";
    for (int i = 0; i < 3000000; ++i) many += ",0";
    refused_site(many + "]", "", "more than 1000000 values");
    const auto big = write("big.site.json", "{}");
    fs::resize_file(big, std::uintmax_t{20} << 30U);  // sparse
    refused("forecast " + quoted(big), 1, "ullage: " + big.string() + ": ", "a site file has at most 67108864");
    const auto listing = write("big.tsv", head);
    fs::resize_file(listing, std::uintmax_t{20} << 30U);
    refused("measure " + quoted(listing), 3, "ullage: " + listing.string() + ": ", "are read");
}

TEST_F(HostileFiles, ManyItemsAreRefusedByTheirNumber) {
    std::string boxes = R"({"name": "b0", "usable": "1 TB"})";
    for (int i = 1; i < 20000; ++i) boxes += ", {\"name\": \"b" + std::to_string(i) + "\", \"usable\": \"1 TB\"}";
    refused_site(with(plain_site, "\"boxes\": [", "\"boxes\": [ " + boxes + ","), "/boxes", "at most 500");
    std::string events = R"({"on": "2027-01-01", "remove": "1 MB"})";
    for (int i = 1; i < 100000; ++i) events += R"(, {"on": "2027-01-01", "remove": "1 MB"})";
    refused_site(with(plain_site, "\"ladder\": [", "\"events\": [" + events + "], \"ladder\": ["), "/datasets/0/events",
                 "at most 1000");
}

TEST_F(HostileFiles, NumbersThatAreNoneOrTooLargeAreRefusedWhereTheyStand) {
    for (const char* word : {"NaN", "Infinity", "-Infinity"})
        refused_site(with(plain_site, "\"20 TB\"", word), "line 7", "not JSON");
    for (const char* word : {"\"NaN TB\"", "\"inf\"", "\"1e999 TB\""})
        refused_site(with(plain_site, "\"20 TB\"", word), "/boxes/0/usable", "");
    refused_site(with(plain_site, "\"20 TB\"", "1e999"), "line 7", "too large to be held");
    // 2^64 bytes and more can be said; what no disk will ever hold cannot.
    refused_site(with(plain_site, "\"10 TB\"", "99999999999999999999999999"), "/datasets/0/live", "is more than");
    refused_site(with(plain_site, "\"count\": 7", "\"count\": 18446744073709551616"), "/datasets/0/ladder/0/count",
                 "whole number");
    refused("forecast x --paths 18446744073709551616", 2, "ullage: usage: ", "--paths");
}

TEST_F(HostileFiles, ABoxOfMoreThanTwoToThe63BytesKeepsItsNumbers) {
    const auto site = write("eb.site.json", with(with(plain_site, "\"10 TB\"", "\"30 EB\""), "\"20 TB\"", "\"90 EB\""));
    const auto o = soon("forecast " + quoted(site) + " --paths 5 --json -");
    ASSERT_EQ(o.status, 0) << o.err;
    EXPECT_EQ(nlohmann::json::parse(o.out)["boxes"][0]["usable_bytes"], 9e19);
    EXPECT_NEAR(nlohmann::json::parse(o.out)["boxes"][0]["fill"][0]["used_bytes"]["p50"].get<double>() / 3e19, 1, 1e-6);
}

TEST_F(HostileFiles, DatesOfTheYears1And9999AreRefusedWhereTheyStand) {
    refused_site(with(plain_site, "2026-01-01", "0001-01-01"), "/as_of", "outside 1900 to 9999");
    refused_site(with(plain_site, "2026-01-01", "9999-12-31"), "/as_of", "runs past the year 9999");
    const auto site = quoted(write("p.site.json", plain_site));
    EXPECT_EQ(soon("forecast " + site + " --as-of 0001-01-01").status, 2);
    refused("forecast " + site + " --as-of 9999-12-31", 1, "ullage: ", "runs past the year 9999");
    // An event and a box of the last day are only never seen.
    const auto far = write("far.site.json",
                           with(with(plain_site, "\"ladder\": [",
                                     R"("events": [ { "on": "9999-12-31", "add": "1 TB", "days": 9 } ], "ladder": [)"),
                                "\"usable\"", R"("in_service": "1900-01-01", "lead_time": "30 y", "usable")"));
    EXPECT_EQ(soon("forecast " + quoted(far) + " --paths 5").status, 0);
    const auto listing = write("l.tsv", head + "a@1\t-62135596800\t0\t5\t5\na@2\t253402300799\t0\t6\t2\n");
    EXPECT_LE(soon("measure " + quoted(listing)).status, 1);
}

TEST_F(HostileFiles, BrokenUtf8IsRefusedInASiteAndHarmlessInAListing) {
    refused_site(with(plain_site, "Plain", "Pl\xff\xfe"), "line 2", "not JSON");
    const auto listing = write("l.tsv", head + "a\xff@1\t1750000000\t0\t5\t5\na\xff@2\t1750086400\t0\t6\t2\n");
    const auto o = soon("measure " + quoted(listing) + " --json -");
    ASSERT_EQ(o.status, 0) << o.err;
    EXPECT_EQ(nlohmann::json::parse(o.out)["datasets"][0]["name"], "a\xEF\xBF\xBD") << "valid JSON all the same";
    const auto bad = write("b.tsv", head + "a@1\tyest\x9b" "31merday\t0\t5\t5\n");
    refused("measure " + quoted(bad), 1, "ullage: " + bad.string() + ": line 2: ", "yest\\x9b31merday");
}

TEST_F(HostileFiles, LinesFromAnotherSystemAndAByteOrderMarkAreRead) {
    std::string text = "\xEF\xBB\xBF" + std::string(plain_site);
    for (std::size_t i = 0; (i = text.find('\n', i)) != std::string::npos; i += 2) text.replace(i, 1, "\r\n");
    EXPECT_EQ(soon("check " + quoted(write("dos.site.json", text))).status, 0);
    const auto listing = write("dos.csv", "\xEF\xBB\xBFsnapshot,taken,unique,live,written\r\na@1,1750000000,0,5,5\r\n"
                                          "a@2,1750086400,0,6,2\r\n");
    EXPECT_EQ(soon("measure " + quoted(listing)).status, 0);
    // UTF-16 is said not to be JSON, at its first byte.
    refused_site(std::string("\xff\xfe{\0}\0", 6), "line 1, column 1", "not JSON");
}

TEST_F(HostileFiles, NamesThatSteerATerminalOrTurnTheReadingOrderAreRefused) {
    refused_site(with(plain_site, "\"files\"", "\"fi\\u001b[31mles\""), "/datasets/0/name", "U+001B");
    refused_site(with(plain_site, "\"files\"", "\"fi\\u009bles\""), "/datasets/0/name", "U+009B");
    refused_site(with(plain_site, "\"files\"", "\"fi\\u202eselif\""), "/datasets/0/name", "U+202E");
    refused_site(with(plain_site, "\"files\"", "\"fi\\u2066les\""), "/datasets/0/name", "U+2066");
    // Right-to-left names and the marks they need are names.
    EXPECT_EQ(soon("check " + quoted(write("rtl.site.json", with(plain_site, "\"files\"", "\"קבצים\\u200f (א)\"")))).status,
              0);
    const auto listing = write("esc.tsv", head + "a\x1b[31m@1\t1750000000\t0\t5\t5\n");
    refused("measure " + quoted(listing), 1, "ullage: " + listing.string() + ": line 2: ", "U+001B");
    refused("forecast '" + (folder_ / "no\x1b[31m.json").string() + "'", 3, "ullage: ", "no\\u001b[31m.json");
}

TEST_F(HostileFiles, PipesAndFoldersAndEmptyFilesAreNoInput) {
    ASSERT_EQ(::mkfifo((folder_ / "pipe").c_str(), 0600), 0);
    ASSERT_TRUE(fs::create_directory(folder_ / "folder"));
    for (const char* command : {"forecast ", "check "}) {
        refused(command + quoted(folder_ / "pipe"), 3, "ullage: " + (folder_ / "pipe").string() + ": ", "not a regular file");
        refused(command + quoted(folder_ / "folder"), 3, "ullage: ", "folder");
        refused(command + quoted(write("empty", "")), 1, "ullage: ", "not JSON");
    }
    refused("measure " + quoted(folder_ / "pipe"), 3, "ullage: ", "not a regular file");
    refused("measure " + quoted(folder_ / "folder"), 3, "ullage: ", "folder");
    refused("measure " + quoted(write("empty", "")), 1, "ullage: ", "empty");
    const std::string listed = with(plain_site, "\"per_day\": \"4 GB\"", "\"listing\": \"pipe\"");
    refused("forecast " + quoted(write("piped.site.json", listed)), 3, "ullage: " + (folder_ / "pipe").string() + ": ",
            "not a regular file");
}

TEST_F(HostileFiles, LinksAreFollowedButNotInACircleAndNotOutOfTheFolder) {
    write("real.site.json", plain_site);
    fs::create_symlink("real.site.json", folder_ / "link.site.json");
    EXPECT_EQ(soon("check " + quoted(folder_ / "link.site.json")).status, 0);
    fs::create_symlink("b", folder_ / "a");
    fs::create_symlink("a", folder_ / "b");
    refused("check " + quoted(folder_ / "a"), 3, "ullage: " + (folder_ / "a").string() + ": ", "cannot be opened");
    EXPECT_EQ(soon("forecast " + quoted(folder_ / "link.site.json") + " --paths 2 --json " + quoted(folder_ / "a")).status, 3);
}

TEST_F(HostileFiles, AListingOutsideTheSitesFolderIsReadOnlyIfAllowed) {
    ASSERT_TRUE(fs::create_directory(folder_ / "site"));
    std::string lines = head;
    for (int i = 0; i < 30; ++i)
        lines += "files@" + std::to_string(i) + "\t" + std::to_string(1764547200 + i * 86400) + "\t0\t" +
                 std::to_string(5000000000 + i * 1000000) + "\t" + (i == 0 ? "5000000000" : "2000000") + "\n";
    write("outside.tsv", lines);
    write("site/inside.tsv", lines);
    fs::create_symlink("../outside.tsv", folder_ / "site/link.tsv");
    const auto file = [&](const std::string& listing) {
        return write("site/s.site.json", with(plain_site, "\"per_day\": \"4 GB\"", "\"listing\": \"" + listing + "\""));
    };
    for (const std::string& way : {std::string("../outside.tsv"), std::string("../site/../outside.tsv"),
                                   (folder_ / "outside.tsv").string(), std::string("link.tsv"), std::string("/etc/passwd"),
                                   std::string("../none.tsv")}) {
        const auto site = file(way);
        refused("forecast " + quoted(site), 1, "ullage: " + site.string() + ": /datasets/0/turnover/listing: ",
                "outside the site's folder");
        refused("check " + quoted(site), 1, "ullage: ", "--allow-outside");
    }
    for (const std::string& way : {std::string("inside.tsv"), std::string("./inside.tsv"), std::string("../site/inside.tsv"),
                                   (folder_ / "site/inside.tsv").string()})
        EXPECT_EQ(soon("check " + quoted(file(way))).status, 0) << way;
    EXPECT_EQ(soon("check --allow-outside " + quoted(file("../outside.tsv"))).status, 0);
    EXPECT_EQ(soon("forecast --paths 2 --allow-outside " + quoted(file("link.tsv"))).status, 0);
    // The folder may itself be reached by a link.
    fs::create_symlink("site", folder_ / "way");
    file("inside.tsv");
    EXPECT_EQ(soon("check " + quoted(folder_ / "way/s.site.json")).status, 0);
}

TEST_F(HostileFiles, AnOutputThatCannotBeMadeSaysWhyAndLeavesNothing) {
    const auto site = quoted(write("p.site.json", plain_site));
    const std::string ask = "forecast " + site + " --paths 2 --json ";
    if (fs::exists("/dev/full")) {
        const auto full = soon(ask + "/dev/full");
        EXPECT_EQ(full.status, 3);
        EXPECT_EQ(full.err, "ullage: /dev/full: cannot be written: No space left on device\n");
    }
    refused(ask + quoted(folder_), 3, "ullage: " + folder_.string() + ": ", "is a folder");
    refused(ask + "/proc/no.json", 3, "ullage: /proc/no.json: ", "cannot make a file in its folder");
    refused(ask + quoted(folder_ / "none/o.json"), 3, "ullage: ", "No such file or directory");
    // A link stays one, and what it leads to is written; a stranger's file beside it is not touched.
    write("target.json", "old");
    write("link.json.part", "a stranger's");
    fs::create_symlink("target.json", folder_ / "link.json");
    EXPECT_EQ(soon(ask + quoted(folder_ / "link.json")).status, 0);
    EXPECT_TRUE(fs::is_symlink(folder_ / "link.json"));
    EXPECT_EQ(nlohmann::json::parse(slurp(folder_ / "target.json"))["format"], "ullage-outlook");
    EXPECT_EQ(slurp(folder_ / "link.json.part"), "a stranger's");
}
