// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/kept_memory.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <filesystem>
#include <fstream>
#include <functional>
#include <memory>
#include <string>
#include <thread>
#include <vector>

namespace ullage {
namespace {

/// The bytes of this process's memory that the system was asked to give in large pages (proc(5), smaps: VmFlags hg),
/// of what is `wanted` by its first line, its first address and its end.
using Wanted = std::function<bool(const std::string& line, std::uintptr_t from, std::uintptr_t to)>;
std::size_t in_large_pages(const Wanted& wanted) {
    std::ifstream maps("/proc/self/smaps");
    std::size_t bytes = 0, size = 0;
    bool counts = false;
    for (std::string line; std::getline(maps, line);) {
        if (const auto dash = line.find('-'); dash < line.find(' ')) {
            const std::uintptr_t from = std::stoull(line, nullptr, 16), to = std::stoull(line.substr(dash + 1), nullptr, 16);
            counts = wanted(line, from, to);
            size = to - from;
        }
        if (counts && line.starts_with("VmFlags:") && line.find(" hg") != std::string::npos) bytes += size;
    }
    return bytes;
}

std::size_t heap_in_large_pages() {
    return in_large_pages([](const std::string& line, auto, auto) { return line.find("[heap]") != std::string::npos; });
}

std::size_t around_in_large_pages(const void* place) {
    const auto at = reinterpret_cast<std::uintptr_t>(place);
    return in_large_pages([at](const std::string&, auto from, auto to) { return from <= at && at < to; });
}

TEST(KeptMemory, IsTakenInLargePagesAndNotGivenBack) {
#if !defined(__GLIBC__) || defined(ULLAGE_SANITIZED)
    GTEST_SKIP() << "the allocator is another";
#else
    if (!std::filesystem::exists("/sys/kernel/mm/transparent_hugepage")) GTEST_SKIP() << "a system without large pages";
    std::size_t before = 1;
    std::thread([&] {
        keep_freed_memory_of_thread();
        before = around_in_large_pages(std::make_unique<char>().get());
    }).join();
    EXPECT_EQ(before, 0u) << "nobody asked to keep anything";

    keep_freed_memory();
    const std::size_t asked = heap_in_large_pages();
    EXPECT_GT(asked, 200u << 20);
    for (int i = 0; i < 3; ++i) const std::vector<char> large(30 << 20, 'x');
    EXPECT_EQ(heap_in_large_pages(), asked);

    std::size_t of_thread = 0;
    std::thread([&] {
        const std::vector<char> large(20 << 20, 'x');  // more than what the thread before it left has room for
        keep_freed_memory_of_thread();
        of_thread = around_in_large_pages(large.data());
    }).join();
    EXPECT_GT(of_thread, 20u << 20);
#endif
}

}  // namespace
}  // namespace ullage
