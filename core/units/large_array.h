// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Room for many numbers, nothing written yet. Where it is large the system is asked for large pages, so that
/// touching it first does not stop at every 4 KiB.

#include <cstddef>
#include <cstdlib>
#include <memory>
#include <new>
#include <type_traits>
#ifdef __linux__
#include <sys/mman.h>
#endif

namespace ullage {

struct FreeRoom {
    void operator()(void* room) const { std::free(room); }
};

template <class T>
using LargeArray = std::unique_ptr<T[], FreeRoom>;

/// std::bad_alloc where there is not enough memory.
template <class T>
LargeArray<T> large_array(std::size_t count) {
    static_assert(std::is_trivial_v<T>);
    constexpr std::size_t page = std::size_t{2} << 20;
    const std::size_t bytes = count * sizeof(T);
    const bool large = bytes >= 8 * page;
    const std::size_t whole = (bytes + page - 1) / page * page;
    void* room = large ? std::aligned_alloc(page, whole) : std::malloc(bytes > 0 ? bytes : 1);
    if (!room) throw std::bad_alloc();
#ifdef __linux__
    if (large) madvise(room, whole, MADV_HUGEPAGE);  // advice: where it is not taken, nothing changes
#endif
    return LargeArray<T>(static_cast<T*>(room));
}

}  // namespace ullage
