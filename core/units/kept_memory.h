// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A forecast takes and gives back the same large pieces of memory for every site and edit. Given back to the system,
/// each would be cleared page by page when it is taken again; and taken in pages of 4 KB, a first forecast spends a
/// fifth to a half of its time on being given them.

namespace ullage {

/// From now on the process keeps what it has freed, up to 256 MB, and its first thread takes nearly so much in pages of
/// 2 MB where the system has them (others have heaps of their own; one for all would make them wait for each other).
/// Address space, not memory, is taken at once. Once, before threads begin; where it cannot be had, nothing changes.
void keep_freed_memory();

}  // namespace ullage
