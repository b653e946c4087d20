// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/site/site_testing.h"
#include "tests/temporary_folder.h"

#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <string>
#include <thread>

namespace ullage {
namespace {

using namespace ullage::testing;
namespace fs = std::filesystem;

class SiteFile : public ::testing::Test {
protected:
    void SetUp() override {
        auto read = parse_site(small_site());
        ASSERT_TRUE(read) << listed(read.error());
        site_ = *read;
    }

    std::string path(const std::string& name) const { return (folder_ / name).string(); }
    static std::string content(const std::string& path) {
        std::ifstream file(path, std::ios::binary);
        return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    }
    static void put(const std::string& path, const std::string& text) {
        std::ofstream(path, std::ios::binary) << text;
    }
    std::size_t files() const {
        return static_cast<std::size_t>(
            std::distance(fs::directory_iterator(folder_), fs::directory_iterator()));
    }

    const TemporaryFolder temporary_;
    const fs::path folder_ = temporary_.path();
    Site site_;
};

TEST_F(SiteFile, WhatIsWrittenIsReadBack) {
    const auto written = write_site_file(path("a.site.json"), site_);
    ASSERT_TRUE(written) << written.error();
    const auto read = read_site_file(path("a.site.json"));
    ASSERT_TRUE(read) << listed(read.error().problems);
    EXPECT_EQ(*read, site_);
    EXPECT_EQ(files(), 1U);
}

TEST_F(SiteFile, ProblemsNameTheFile) {
    put(path("bad.site.json"), with(small_site(), "\"mtu\": 1500", "\"mtu\": 1"));
    const auto read = read_site_file(path("bad.site.json"));
    ASSERT_FALSE(read);
    EXPECT_EQ(read.error().file, path("bad.site.json"));
    EXPECT_FALSE(read.error().unreadable);
    EXPECT_TRUE(only_problem(read.error().problems, "/links/0/mtu", "1"));
}

TEST_F(SiteFile, OnlyRegularFilesAreRead) {
    ASSERT_EQ(::mkfifo(path("pipe").c_str(), 0600), 0);
    const auto pipe = read_site_file(path("pipe"));
    ASSERT_FALSE(pipe);
    EXPECT_TRUE(pipe.error().unreadable);
    EXPECT_TRUE(only_problem(pipe.error().problems, "", "not a regular file"));
    const auto folder = read_site_file(folder_.string());
    ASSERT_FALSE(folder);
    EXPECT_TRUE(folder.error().unreadable);
    EXPECT_TRUE(only_problem(folder.error().problems, "", "a folder"));
    const auto missing = read_site_file(path("missing"));
    ASSERT_FALSE(missing);
    EXPECT_TRUE(missing.error().unreadable);
    EXPECT_TRUE(only_problem(missing.error().problems, "", "cannot be opened"));
    EXPECT_FALSE(read_site_file(""));
}

TEST_F(SiteFile, ReplacingAFileKeepsItsPermissions) {
    put(path("a.site.json"), "old");
    ASSERT_EQ(::chmod(path("a.site.json").c_str(), 0640), 0);
    ASSERT_TRUE(write_site_file(path("a.site.json"), site_));
    struct stat status {};
    ASSERT_EQ(::stat(path("a.site.json").c_str(), &status), 0);
    EXPECT_EQ(status.st_mode & 07777U, 0640U);
    EXPECT_EQ(content(path("a.site.json")), write_site(site_));
}

TEST_F(SiteFile, ALinkStaysALinkAndItsTargetIsWritten) {
    fs::create_directory(folder_ / "real");
    put(path("real/a.site.json"), "old");
    fs::create_symlink("real/a.site.json", path("link.site.json"));
    fs::create_symlink("link.site.json", path("link2.site.json"));
    ASSERT_TRUE(write_site_file(path("link2.site.json"), site_));
    EXPECT_TRUE(fs::is_symlink(path("link.site.json")));
    EXPECT_TRUE(fs::is_symlink(path("link2.site.json")));
    EXPECT_EQ(content(path("real/a.site.json")), write_site(site_));
    fs::create_symlink("real/new.site.json", path("dangling"));
    ASSERT_TRUE(write_site_file(path("dangling"), site_));
    EXPECT_EQ(content(path("real/new.site.json")), write_site(site_));
    fs::create_symlink("round", path("round"));
    const auto round = write_site_file(path("round"), site_);
    ASSERT_FALSE(round);
    EXPECT_NE(round.error().find("links in a row"), std::string::npos) << round.error();
}

TEST_F(SiteFile, WhatIsNoRegularFileIsNotReplaced) {
    fs::create_directory(folder_ / "folder");
    EXPECT_FALSE(write_site_file(path("folder"), site_));
    ASSERT_EQ(::mkfifo(path("pipe").c_str(), 0600), 0);
    EXPECT_FALSE(write_site_file(path("pipe"), site_));
    EXPECT_FALSE(write_site_file("", site_));
    EXPECT_FALSE(write_site_file(path("no/such/folder.site.json"), site_));
    EXPECT_TRUE(fs::is_directory(folder_ / "folder"));
    EXPECT_EQ(files(), 2U);
}

TEST_F(SiteFile, AFailureLeavesTheOldFileAndNoOther) {
    put(path("a.site.json"), "old");
    if (::geteuid() == 0) GTEST_SKIP() << "the superuser may write anywhere";
    fs::permissions(folder_, fs::perms::owner_read | fs::perms::owner_exec);
    const auto written = write_site_file(path("a.site.json"), site_);
    ASSERT_FALSE(written);
    EXPECT_NE(written.error().find("a.site.json"), std::string::npos) << written.error();
    EXPECT_EQ(content(path("a.site.json")), "old");
    EXPECT_EQ(files(), 1U);
    fs::permissions(folder_, fs::perms::owner_all);
    ASSERT_EQ(::chmod(path("a.site.json").c_str(), 0400), 0);
    const auto protected_file = write_site_file(path("a.site.json"), site_);
    ASSERT_FALSE(protected_file);
    EXPECT_NE(protected_file.error().find("may not be written"), std::string::npos);
    EXPECT_EQ(content(path("a.site.json")), "old");
}

TEST_F(SiteFile, AWriteThatFailsHalfWayLeavesTheOldFileAndNoOther) {
    put(path("a.site.json"), "old");
    struct rlimit before {};
    ASSERT_EQ(::getrlimit(RLIMIT_FSIZE, &before), 0);
    struct rlimit small = before;
    small.rlim_cur = 100;
    const auto handler = std::signal(SIGXFSZ, SIG_IGN);
    ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &small), 0);
    const auto written = write_site_file(path("a.site.json"), site_);
    ASSERT_EQ(::setrlimit(RLIMIT_FSIZE, &before), 0);
    std::signal(SIGXFSZ, handler);
    ASSERT_FALSE(written);
    EXPECT_NE(written.error().find("the old file is as it was"), std::string::npos)
        << written.error();
    EXPECT_EQ(content(path("a.site.json")), "old");
    EXPECT_EQ(files(), 1U);
}

TEST_F(SiteFile, KilledWhileSavingItIsOneOfTheTwoWholeSites) {
    const std::string file = path("a.site.json");
    Site other = site_;
    other.name = "Another name";
    ASSERT_TRUE(write_site_file(file, site_));
    bool changed = false;
    for (int trial = 0; trial < 40; ++trial) {
        const pid_t writer = ::fork();
        ASSERT_GE(writer, 0);
        if (writer == 0) {
            while (true) {
                if (!write_site_file(file, other) || !write_site_file(file, site_)) ::_exit(1);
            }
        }
        std::this_thread::sleep_for(std::chrono::microseconds(500 + 700 * trial));
        ASSERT_EQ(::kill(writer, SIGKILL), 0);
        int status = 0;
        ASSERT_EQ(::waitpid(writer, &status, 0), writer);
        ASSERT_TRUE(WIFSIGNALED(status)) << "saving failed";
        const auto read = read_site_file(file);
        ASSERT_TRUE(read) << listed(read.error().problems);
        EXPECT_TRUE(*read == site_ || *read == other);
        changed = changed || *read == other;
    }
    EXPECT_TRUE(changed) << "never killed between the two: the trials are too short";
}

TEST_F(SiteFile, AnUnfinishedFileOfAnEarlierRunIsNotTouched) {
    const std::string other = path(".ullage-" + std::to_string(::getpid()) + "-0.tmp");
    put(other, "someone's");
    ASSERT_TRUE(write_site_file(path("a.site.json"), site_));
    EXPECT_EQ(content(other), "someone's");
    EXPECT_EQ(files(), 2U);
}

TEST_F(SiteFile, AFileTooLargeToReadIsRefusedWithBothSizes) {
    const std::string big = path("big.site.json");
    put(big, " ");
    fs::resize_file(big, (64U << 20U) + 10);
    const auto read = read_site_file(big);
    ASSERT_FALSE(read);
    EXPECT_FALSE(read.error().unreadable);
    EXPECT_TRUE(only_problem(read.error().problems, "", "at most 67108864"));
}

}  // namespace
}  // namespace ullage
