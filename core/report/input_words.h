// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The keys of a site file as a client's engineer reads them.

#include "core/words/wording.h"

#include <string>

namespace ullage::report {

/// "mtu" → "largest packet (MTU), bytes". A key that is not known is read with its underscores as spaces.
std::string input_words(const std::string& key, const Wording&);

}  // namespace ullage::report
