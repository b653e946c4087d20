// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A forecast takes and gives back the same large pieces of memory for every site and edit. Given back to the system,
/// each would be cleared page by page when it is taken again; and taken in pages of 4 KB, a first forecast spends a
/// fifth to a half of its time on being given them.

#include <cstddef>

namespace ullage {

/// Large pages, where the system has them.
inline constexpr std::size_t large_page = std::size_t{2} << 20;

/// Advises the system to give the whole large pages of this room as such; where it does not, nothing changes.
void ask_for_large_pages(void* room, std::size_t bytes);

/// From now on the process keeps what it has freed, up to 256 MB, and its first thread takes nearly so much in pages of
/// 2 MB where the system has them. Address space, not memory, is taken at once. Once, before threads begin; where it
/// cannot be had, nothing changes.
void keep_freed_memory();

/// The same for what the calling thread takes, up to 64 MB, if keep_freed_memory was called before the thread began. At
/// once if it was asked before.
void keep_freed_memory_of_thread();

}  // namespace ullage
