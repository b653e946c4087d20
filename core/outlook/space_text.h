// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Groups of drives and planned changes of them in words.

#include "core/site/site.h"
#include "core/words/message.h"

namespace ullage {

/// "1 group of 6 drives, parity-2", "3 mirrors of 2 drives", "4 drives without redundancy".
Message groups_text(int groups, int width, const Redundancy& redundancy);

/// "adds 1 group of 6 drives, parity-2, of 16 TB: second shelf", "drives become 20 TB", "groups
/// widened to 8 drives", "usable becomes 60 TB".
Message change_text(const BoxChange& change);

}  // namespace ullage
