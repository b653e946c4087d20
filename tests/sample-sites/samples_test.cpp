// SPDX-License-Identifier: GPL-3.0-or-later
// The sample sites: what they are made of, what each is there to show, and the forecast each has printed so far.
// A golden text is our own past answer, not a source: when the model is changed on purpose, look at the
// difference, then write it anew with ULLAGE_WRITE_GOLDEN=1 test_samples.
#include "core/findings/findings.h"
#include "core/measure/evidence.h"
#include "core/site/site_json.h"
#include "invented_store.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

namespace ullage {
namespace {

namespace fs = std::filesystem;

const std::string samples = std::string(ULLAGE_SOURCE_DIR) + "/sample-sites";

std::string text_of(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

std::vector<std::string> sample_names() {
    std::vector<std::string> names;
    const std::string ending = ".site.json";
    for (const auto& entry : fs::directory_iterator(samples)) {
        const std::string name = entry.path().filename();
        if (name.size() > ending.size() && name.ends_with(ending)) names.push_back(name.substr(0, name.size() - ending.size()));
    }
    std::sort(names.begin(), names.end());
    return names;
}

Answer answer_of(const std::string& name) {
    const auto site = read_site_file(samples + "/" + name + ".site.json");
    if (!site) throw std::runtime_error(name + ": " + site.error().problems.front().what);
    const auto evidence = load_evidence(*site, samples);
    if (!evidence) throw std::runtime_error(name + ": " + evidence.error().front().problems.front().what);
    Settings settings;
    settings.paths = 400;
    return *answer(*site, *evidence, settings);
}

TEST(Samples, AreSixScenariosAndMoreEachWithItsLine) {
    const std::string readme = text_of(samples + "/README.md");
    EXPECT_GE(sample_names().size(), 6u);
    for (const auto& name : sample_names()) {
        EXPECT_NE(readme.find("| `" + name + ".site.json` |"), std::string::npos) << name;
        EXPECT_NE(text_of(samples + "/" + name + ".site.json").find("(invented)"), std::string::npos) << name;
    }
}

TEST(Samples, InventedListingsAreWhatTheirStoresMake) {
    for (const auto& [file, store] : testing::sample_listings())
        EXPECT_EQ(text_of(samples + "/" + file), testing::listing_of(store)) << file;
}

const BoxOutlook& box(const Answer& a, const std::string& name) {
    return *std::find_if(a.outlook.boxes.begin(), a.outlook.boxes.end(), [&](const auto& b) { return b.name == name; });
}
const SendOutlook& send(const Answer& a, const std::string& name) {
    return *std::find_if(a.outlook.sends.begin(), a.outlook.sends.end(), [&](const auto& s) { return s.name == name; });
}

TEST(Samples, KestrelsLineCannotCarryTheNightAndAFasterOneThatIsSoldCould) {
    const auto a = answer_of("kestrel-architects");
    const auto& s = send(a, "every night");
    EXPECT_EQ(status_of(s, a.outlook.confidence), Level::overruns);
    EXPECT_GT(s.chance_of_missing_window, 0.3);
    ASSERT_TRUE(s.line_rate_needed);
    EXPECT_GT(*s.line_rate_needed, 12e6);
    EXPECT_LT(*s.line_rate_needed, 100e6);
}

TEST(Samples, TidegatesSmallBlocksTakeThreeTimesTheirSizeAndMore) {
    const auto a = answer_of("tidegate-hosting");
    const auto& costs = box(a, "annexe").costs;
    ASSERT_FALSE(costs.empty());
    EXPECT_GT(costs.front().charge, 3);
}

TEST(Samples, LanternsFirstCopyIsSoonerByHandThanOverTheLine) {
    const auto a = answer_of("lantern-press");
    const auto& copy = send(a, "plates, nightly").first_copy;
    ASSERT_TRUE(copy);
    ASSERT_TRUE(copy->link_in_step_days && copy->courier_days);
    EXPECT_TRUE(copy->carry);
    EXPECT_LT(*copy->courier_days * 4, *copy->link_in_step_days);
}

class Sample : public ::testing::TestWithParam<std::string> {};

TEST_P(Sample, PrintsWhatItPrintedSoFar) {
    const std::string golden = std::string(ULLAGE_TEST_DATA) + "/golden/" + GetParam() + ".txt";
    const std::string printed = outlook_tables(answer_of(GetParam()));
    if (std::getenv("ULLAGE_WRITE_GOLDEN") != nullptr) {
        std::ofstream(golden, std::ios::binary) << printed;
        GTEST_SKIP() << "written: " << golden;
    }
    EXPECT_EQ(printed, text_of(golden));
}

INSTANTIATE_TEST_SUITE_P(Every, Sample, ::testing::ValuesIn(sample_names()), [](const auto& sample) {
    std::string name = sample.param;
    std::replace(name.begin(), name.end(), '-', '_');
    return name;
});

}  // namespace
}  // namespace ullage
