// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A site and its answer kept under a name, to hold later states of the site against.
///
/// Kept and present are types of their own, so that the two sides of a comparison cannot be swapped.
/// Both are plain values that share what they hold; nothing kept changes any more. What is kept
/// lives as long as its site is open in the window, and is not written to the site's file.

#include "core/findings/findings.h"

#include <QString>

#include <memory>

namespace ullage {

struct KeptOutlook {
    QString name;                          ///< not empty, of its own among those kept
    std::shared_ptr<const Site> site;      ///< as it was edited; never null
    std::shared_ptr<const Answer> answer;  ///< to that site; never null
};

/// What the window shows now.
struct PresentOutlook {
    std::shared_ptr<const Answer> answer;  ///< null: nothing yet
};

/// The box of that name in a kept answer; null if it had none. Lives as long as `kept`.
const BoxOutlook* box_of(const KeptOutlook& kept, const std::string& name);

}  // namespace ullage
