// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/kept_memory.h"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <memory>
#include <string>
#include <vector>

namespace ullage {
namespace {

/// The bytes of this process's heap that the system was asked to give in large pages (proc(5), smaps: VmFlags hg).
std::size_t heap_in_large_pages() {
    std::ifstream maps("/proc/self/smaps");
    std::size_t bytes = 0, size = 0;
    bool heap = false;
    for (std::string line; std::getline(maps, line);) {
        if (line.find('-') < line.find(' ')) heap = line.find("[heap]") != std::string::npos;
        if (heap && line.starts_with("Size:")) size = std::stoull(line.substr(5)) * 1024;
        if (heap && line.starts_with("VmFlags:") && line.find(" hg") != std::string::npos) bytes += size;
    }
    return bytes;
}

TEST(KeptMemory, IsTakenInLargePagesAndNotGivenBack) {
#if !defined(__GLIBC__) || defined(ULLAGE_SANITIZED)
    GTEST_SKIP() << "the allocator is another";
#else
    if (!std::filesystem::exists("/sys/kernel/mm/transparent_hugepage")) GTEST_SKIP() << "a system without large pages";
    keep_freed_memory();
    const std::size_t asked = heap_in_large_pages();
    EXPECT_GT(asked, 200u << 20);
    for (int i = 0; i < 3; ++i) const std::vector<char> large(30 << 20, 'x');
    EXPECT_EQ(heap_in_large_pages(), asked);
#endif
}

}  // namespace
}  // namespace ullage
