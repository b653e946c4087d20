// SPDX-License-Identifier: GPL-3.0-or-later
/// The house keeps its order: a module of core/ includes only stations before it, core/ has no Qt,
/// only ui/charts has Qt Charts, and the top level holds what it should.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace fs = std::filesystem;

namespace {

const fs::path source_dir = ULLAGE_SOURCE_DIR;

/// Stations of core/ in flow order; a module may include itself and those named.
const std::map<std::string, std::set<std::string>>& may_include() {
    static const std::map<std::string, std::set<std::string>> rules = {
        {"units", {}},
        {"words", {"units"}},
        {"site", {"units"}},
        {"turnover", {"units"}},
        {"retention", {"units", "site", "turnover"}},
        {"pool", {"units", "site"}},
        {"link", {"units", "site"}},
        {"measure", {"units", "words", "site", "turnover"}},
        {"replay", {"units", "site", "turnover", "retention", "link"}},
        {"outlook", {"units", "words", "site", "turnover", "retention", "pool", "link", "measure", "replay"}},
        {"findings", {"units", "words", "site", "outlook", "link", "measure"}},
        {"report", {"units", "words", "site", "outlook", "findings"}},
    };
    return rules;
}

struct Include {
    fs::path file;
    std::string target;
};

bool is_code(const fs::path& p) {
    return p.extension() == ".h" || p.extension() == ".cpp" || p.extension() == ".hpp";
}

std::vector<Include> includes_under(const fs::path& folder) {
    static const std::regex line(R"(^\s*#\s*include\s*[<"]([^>"]+)[>"])");
    std::vector<Include> all;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        if (!entry.is_regular_file() || !is_code(entry.path())) continue;
        std::ifstream in(entry.path());
        std::string text;
        for (std::smatch match; std::getline(in, text);)
            if (std::regex_search(text, match, line))
                all.push_back({fs::relative(entry.path(), source_dir), match[1]});
    }
    return all;
}

bool is_qt(const std::string& target) {
    static const std::regex qt(R"(^(Qt[A-Za-z]*/|Q[A-Z]))");
    return std::regex_search(target, qt);
}

}  // namespace

TEST(House, EveryFolderOfCoreIsAKnownStation) {
    std::size_t seen = 0;
    for (const auto& entry : fs::directory_iterator(source_dir / "core")) {
        if (!entry.is_directory()) continue;
        EXPECT_EQ(may_include().count(entry.path().filename().string()), 1U) << entry.path();
        ++seen;
    }
    EXPECT_EQ(seen, may_include().size());
}

TEST(House, AModuleOfCoreIncludesOnlyStationsBeforeIt) {
    std::size_t looked_at = 0;
    for (const auto& [module, allowed] : may_include()) {
        for (const auto& include : includes_under(source_dir / "core" / module)) {
            ++looked_at;
            EXPECT_FALSE(include.target.rfind("ui/", 0) == 0 || include.target.rfind("app/", 0) == 0)
                << include.file << " includes " << include.target;
            if (include.target.rfind("core/", 0) != 0) continue;
            const std::string other = include.target.substr(5, include.target.find('/', 5) - 5);
            EXPECT_TRUE(other == module || allowed.count(other) == 1)
                << include.file << " includes " << include.target << ", a station that is not before it";
        }
    }
    EXPECT_GT(looked_at, 100U) << "the test found too few includes to mean anything";
}

TEST(House, CoreHasNoQt) {
    for (const auto& include : includes_under(source_dir / "core"))
        EXPECT_FALSE(is_qt(include.target)) << include.file << " includes " << include.target;
}

TEST(House, TheCommandLineHasNoQt) {
    for (const auto& include : includes_under(source_dir / "app"))
        EXPECT_FALSE(is_qt(include.target)) << include.file << " includes " << include.target;
}

TEST(House, OnlyTheChartsFolderIncludesQtCharts) {
    static const std::regex charts(
        R"(^QtCharts|^Q(Chart|ChartView|LineSeries|AreaSeries|ScatterSeries|ValueAxis|CategoryAxis|DateTimeAxis|AbstractAxis|AbstractSeries)$)");
    for (const auto& include : includes_under(source_dir / "ui")) {
        if (!std::regex_search(include.target, charts)) continue;
        EXPECT_EQ(include.file.string().rfind("ui/charts/", 0), 0U)
            << include.file << " includes " << include.target;
    }
}

TEST(House, HeadersOfCoreKeepHeavyLibrariesOut) {
    for (const auto& include : includes_under(source_dir / "core")) {
        if (include.file.extension() != ".h" || include.file.filename() == "nnls.h") continue;
        EXPECT_FALSE(include.target.rfind("nlohmann/json.hpp", 0) == 0 ||
                     include.target.rfind("Eigen/", 0) == 0 || include.target.rfind("tbb/", 0) == 0 ||
                     include.target.rfind("boost/", 0) == 0)
            << include.file << " includes " << include.target;
    }
}

TEST(House, TheTopLevelIsWhatItSaysItIs) {
    const std::set<std::string> expected = {"README.md", "DEVELOPERS.md", "LICENSE", "CMakeLists.txt",
                                            "CMakePresets.json", "app", "core", "ui", "tests",
                                            "sample-sites", "resources"};
    std::set<std::string> found;
    for (const auto& entry : fs::directory_iterator(source_dir)) {
        const std::string name = entry.path().filename().string();
        if (name[0] != '.' && name != "build") found.insert(name);
    }
    EXPECT_EQ(found, expected);
}
