// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// An answer with invented data, for tests of the window: plausible, deterministic, made by hand
/// and not by the model, so that the window's tests do not need the model.

#include "core/findings/findings.h"

#include <memory>
#include <string>

namespace ullage::sample {

enum class Fate {
    tight,      ///< passes its ceiling in about 20 months
    roomy,      ///< a few futures pass the ceiling within the horizon
    endless,    ///< none does
    over,       ///< over its ceiling today
    full,       ///< full today
    shrinking,  ///< holds less every year
    soon,       ///< all futures within a few weeks
};

/// A box of 40 TB usable, five years from 1 November 2026 unless said otherwise.
BoxOutlook box(const std::string& name, Fate fate, double horizon_days = 5 * days_per_year);

/// A nightly send; `late`: some of its drawn runs miss their window, and its line falls behind.
SendOutlook send(const std::string& name, bool late);

/// Site with a clinic (not forecast), an attic (tight), a barn (roomy) and a shed (over its
/// ceiling), and two sends.
Answer answer();
/// `count` boxes with long names and all fates in turn.
Answer many(int count);
/// A site with nothing in it.
Answer empty();

std::shared_ptr<const Answer> shared(Answer answer);

}  // namespace ullage::sample
