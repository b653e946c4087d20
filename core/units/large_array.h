// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Room for many numbers, nothing written yet. Where it is large the system is asked for large pages, so that
/// touching it first does not stop at every 4 KiB.

#include "core/units/kept_memory.h"

#include <cstddef>
#include <cstdlib>
#include <memory>
#include <new>
#include <type_traits>

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
    const std::size_t bytes = count * sizeof(T);
    const bool large = bytes >= 8 * large_page;
    const std::size_t whole = (bytes + large_page - 1) / large_page * large_page;
    void* room = large ? std::aligned_alloc(large_page, whole) : std::malloc(bytes > 0 ? bytes : 1);
    if (!room) throw std::bad_alloc();
    if (large) ask_for_large_pages(room, whole);
    return LargeArray<T>(static_cast<T*>(room));
}

}  // namespace ullage
