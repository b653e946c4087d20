// SPDX-License-Identifier: GPL-3.0-or-later
/// The fuzzers' seeds, and every text that once broke a reader, through the same targets.
#include "tests/fuzz/targets.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <iterator>

namespace ullage::fuzzing {
namespace {

namespace fs = std::filesystem;

class Seeds : public ::testing::TestWithParam<Target> {};

TEST_P(Seeds, HoldWhatMustHoldOfAnyText) {
    int seen = 0;
    for (const auto& entry : fs::directory_iterator(fs::path(ULLAGE_FUZZ_CORPUS) / GetParam().name)) {
        std::ifstream in(entry.path(), std::ios::binary);
        const std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
        EXPECT_EQ(GetParam().run(text), "") << entry.path();
        // Cut anywhere it is what a broken copy leaves.
        for (std::size_t cut = text.size(); cut > 0; cut = cut * 7 / 8)
            EXPECT_EQ(GetParam().run(std::string_view(text).substr(0, cut)), "") << entry.path() << " to " << cut;
        ++seen;
    }
    EXPECT_GE(seen, 3);
}

INSTANTIATE_TEST_SUITE_P(Fuzz, Seeds, ::testing::ValuesIn(targets),
                         [](const auto& target) { return std::string(target.param.name); });

}  // namespace
}  // namespace ullage::fuzzing
