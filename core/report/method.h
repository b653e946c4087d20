// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The method of the forecast in half a page, for whoever checks it.

#include "core/words/wording.h"

#include <string>
#include <vector>

namespace ullage::report {

std::vector<std::string> method_in_words(const Wording&);

}  // namespace ullage::report
