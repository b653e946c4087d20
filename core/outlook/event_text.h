// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A planned event in words.

#include "core/site/site.h"
#include "core/words/message.h"

namespace ullage {

/// "adds 2.5 TB: old archive moves in"
Message event_text(const Event& event);

}  // namespace ullage
