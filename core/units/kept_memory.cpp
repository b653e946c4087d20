// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/kept_memory.h"

#include <cstdlib>  // tells whose library it is
#ifdef __GLIBC__
#include <cstdint>
#include <malloc.h>
#include <sys/mman.h>
#include <unistd.h>
#endif

namespace ullage {

void keep_freed_memory() {
#ifdef __GLIBC__
    // Less is laid out than is kept, else the rest of it would be given back at once.
    constexpr int kept = 256 << 20, laid_out = 240 << 20, usual_pad = 128 << 10;
    constexpr std::uintptr_t page = 2 << 20;
    mallopt(M_MMAP_THRESHOLD, 32 << 20);  // the most that it takes
    mallopt(M_TRIM_THRESHOLD, kept);
    // The heap grows once by all of it: advice is for addresses that are there.
    mallopt(M_TOP_PAD, laid_out);
    const auto before = reinterpret_cast<std::uintptr_t>(sbrk(0));
    void* volatile more_than_is_there = std::malloc(1 << 20);
    std::free(more_than_is_there);
    const auto after = reinterpret_cast<std::uintptr_t>(sbrk(0));
    mallopt(M_TOP_PAD, usual_pad);
    const auto first = (before + page - 1) / page * page, last = after / page * page;
    if (first < last) madvise(reinterpret_cast<void*>(first), last - first, MADV_HUGEPAGE);
#endif
}

}  // namespace ullage
