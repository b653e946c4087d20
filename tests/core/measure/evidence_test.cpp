// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/evidence.h"

#include "tests/temporary_folder.h"

#include <gtest/gtest.h>

#include <array>
#include <filesystem>
#include <fstream>

namespace ullage {
namespace {

namespace fs = std::filesystem;

class EvidenceFiles : public ::testing::Test {
protected:
    void put(const std::string& name, const std::string& text) const {
        std::ofstream(folder_ / name, std::ios::binary) << text;
    }
    static Dataset dataset(const std::string& listing, const std::string& usage = "") {
        Dataset d;
        d.name = "d";
        d.turnover = Turnover();
        d.turnover->listing = listing;
        d.usage = usage;
        return d;
    }

    const testing::TemporaryFolder temporary_;
    const fs::path folder_ = temporary_.path();
};

const char* const listing_text = "name taken used refer written\nd@a 0 0 5 5\nd@b 86400 0 6 2\n";

TEST_F(EvidenceFiles, AreReadByTheColumnsTheSiteGives) {
    put("a.txt", "d@a 0 5 0 5 me\nd@b 86400 6 0 2 me\nnot a line\n");
    Site site;
    site.datasets = {dataset("a.txt")};
    auto& turnover = *site.datasets[0].turnover;
    EXPECT_FALSE(load_evidence(site, folder_.string()));
    turnover.listing_columns = {"snapshot", "taken", "live", "unique", "written", "-"};
    EXPECT_FALSE(load_evidence(site, folder_.string())) << "the third line cannot be read";
    turnover.listing_skip_bad_lines = true;
    const auto read = load_evidence(site, folder_.string());
    ASSERT_TRUE(read);
    EXPECT_EQ(read->listings.at("a.txt").front().snapshots.size(), 2u);
    EXPECT_EQ(read->listings.at("a.txt").front().snapshots[1].live_bytes, 6);
}

TEST_F(EvidenceFiles, EveryNamedFileIsReadOnceByItsName) {
    put("l.txt", listing_text);
    put("u.csv", "time,live\n0,5\n86400,6\n");
    Site site;
    site.datasets = {dataset("l.txt", "u.csv"), dataset("l.txt"), Dataset()};
    const auto e = load_evidence(site, folder_.string());
    ASSERT_TRUE(e);
    ASSERT_EQ(e->listings.size(), 1u);
    EXPECT_EQ(e->listings.at("l.txt").front().snapshots.size(), 2u);
    EXPECT_EQ(e->usages.at("u.csv").size(), 2u);
}

TEST_F(EvidenceFiles, FilesThatAreMissingOrWrongAreAllReported) {
    put("bad.txt", "name taken used refer written\nd@a x 0 5 5\n");
    Site site;
    site.datasets = {dataset("none.txt"), dataset("bad.txt"), dataset(".")};
    const auto e = load_evidence(site, folder_.string());
    ASSERT_FALSE(e);
    ASSERT_EQ(e.error().size(), 3u);
    EXPECT_TRUE(e.error()[0].unreadable);
    EXPECT_NE(e.error()[0].file.find("none.txt"), std::string::npos);
    EXPECT_FALSE(e.error()[1].unreadable);
    EXPECT_EQ(e.error()[1].problems.front().where, "line 2");
    EXPECT_TRUE(e.error()[2].unreadable);
}

TEST_F(EvidenceFiles, AFileOutsideTheFolderIsReadOnlyIfItMayLieThere) {
    fs::create_directories(folder_ / "site");
    put("out.txt", listing_text);
    put("site/in.txt", listing_text);
    fs::create_symlink("../out.txt", folder_ / "site/link.txt");
    const std::string folder = (folder_ / "site").string();
    Site site;
    site.datasets = {dataset("in.txt"), dataset("../out.txt"), dataset("link.txt"), dataset("in.txt", "../none.csv")};
    const auto refused = load_evidence(site, folder);
    ASSERT_FALSE(refused);
    ASSERT_EQ(refused.error().size(), 3u);
    const std::array places{"/datasets/1/turnover/listing", "/datasets/2/turnover/listing", "/datasets/3/usage"};
    for (std::size_t i = 0; i < places.size(); ++i) {
        EXPECT_EQ(refused.error()[i].file, "");
        EXPECT_FALSE(refused.error()[i].unreadable);
        EXPECT_EQ(refused.error()[i].problems.at(0).where, places[i]);
    }
    site.datasets.pop_back();
    const auto some = load_evidence(site, folder, [](const std::string& name) { return name == "link.txt"; });
    ASSERT_FALSE(some);
    EXPECT_EQ(some.error().size(), 1u);
    const auto all = load_evidence(site, folder, [](const std::string&) { return true; });
    ASSERT_TRUE(all);
    EXPECT_EQ(all->listings.size(), 3u);
}

TEST_F(EvidenceFiles, AFileLargerThanTheLimitIsRefusedWithBothNumbers) {
    put("big.txt", std::string(2000, 'x'));
    const auto text = read_text_file((folder_ / "big.txt").string(), 1000);
    ASSERT_FALSE(text);
    EXPECT_NE(text.error().find("2000"), std::string::npos);
    EXPECT_NE(text.error().find("1000"), std::string::npos);
    EXPECT_EQ(read_text_file((folder_ / "big.txt").string())->size(), 2000u);
}

TEST(FolderOf, IsWhatStandsBeforeTheName) {
    EXPECT_EQ(folder_of("a/b.site.json"), "a");
    EXPECT_EQ(folder_of("b.site.json"), ".");
    EXPECT_EQ(folder_of("/b.site.json"), "/");
}

}  // namespace
}  // namespace ullage
