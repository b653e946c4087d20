// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The answer in three sentences, without terms of the trade: how full and when, does the copy arrive,
/// what to do. Each is about the worst box, the worst send, the order that is due first.

#include "core/findings/findings.h"

#include <array>
#include <string>

namespace ullage::report {

std::array<std::string, 3> three_sentences(const Answer&);

}  // namespace ullage::report
