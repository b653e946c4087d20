// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/kept_memory.h"

#include <atomic>
#include <cstdint>
#include <cstdlib>  // tells whose library it is
#ifdef __linux__
#include <sys/mman.h>
#endif
#ifdef __GLIBC__
#include <malloc.h>
#include <unistd.h>
#endif

namespace ullage {

void ask_for_large_pages([[maybe_unused]] void* room, [[maybe_unused]] std::size_t bytes) {
#ifdef __linux__
    const auto start = reinterpret_cast<std::uintptr_t>(room);
    const std::uintptr_t from = (start + large_page - 1) / large_page * large_page;
    const std::uintptr_t to = (start + bytes) / large_page * large_page;
    if (from < to) madvise(reinterpret_cast<void*>(from), to - from, MADV_HUGEPAGE);
#endif
}

#ifdef __GLIBC__

namespace {

// Less is laid out than is kept, else the rest of it would be given back at once.
constexpr int kept = 256 << 20, laid_out = 240 << 20;
// A thread's heap is a piece of address space of 64 MB that begins at a multiple of it (glibc's malloc/arena.c); it is
// laid out by this much, else it grows by a few pages at a time.
constexpr std::uintptr_t heap_of_thread = 64 << 20;
constexpr int laid_out_by_thread = 60 << 20;

std::atomic<bool> keeping = false;

char* end_of_first_heap() { return static_cast<char*>(sbrk(0)); }

}  // namespace

void keep_freed_memory() {
    mallopt(M_MMAP_THRESHOLD, 32 << 20);  // the most that it takes
    mallopt(M_TRIM_THRESHOLD, kept);
    // The heap grows once by all of it: advice is for addresses that are there.
    mallopt(M_TOP_PAD, laid_out);
    char* const before = end_of_first_heap();
    void* volatile more_than_is_there = std::malloc(1 << 20);
    std::free(more_than_is_there);
    ask_for_large_pages(before, static_cast<std::size_t>(end_of_first_heap() - before));
    mallopt(M_TOP_PAD, laid_out_by_thread);
    keeping = true;
}

void keep_freed_memory_of_thread() {
    thread_local bool asked = false;
    if (asked || !keeping) return;
    asked = true;
    void* volatile some = std::malloc(1);
    const auto place = reinterpret_cast<std::uintptr_t>(some);
    std::free(some);
    if (place < reinterpret_cast<std::uintptr_t>(end_of_first_heap())) return;  // it shares the first thread's
    ask_for_large_pages(reinterpret_cast<void*>(place / heap_of_thread * heap_of_thread), heap_of_thread);
}

#else

void keep_freed_memory() {}
void keep_freed_memory_of_thread() {}

#endif

}  // namespace ullage
