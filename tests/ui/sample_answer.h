// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// An answer with invented data, for tests of the window: plausible, deterministic, made by hand
/// and not by the model, so that the window's tests do not need the model.

#include "core/findings/findings.h"
#include "core/outlook/outage_drill.h"

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

/// A drill of a send's line; not `survives`: everything is sent again, and the box lacks room for
/// it.
OutageDrill drill(const std::string& send, Day from, int days, bool survives = true);

/// Site with a clinic (not forecast), an attic (tight), a barn (roomy) and a shed (over its
/// ceiling), and two sends.
Answer answer();
/// A dataset with a listing of 60 days: five lengths of step, a curve with its band, and a backtest
/// of six origins, three forecasts of each figure of each, of which some missed.
DatasetOutlook measured_dataset(const std::string& name);
/// A dataset whose listing holds one step only: no spread, no backtest.
DatasetOutlook one_step_dataset(const std::string& name);
/// A dataset without a listing, its curve assumed, with two assumptions.
DatasetOutlook assumed_dataset(const std::string& name);
/// What the attic's and the barn's days depend on; some ends lie past the horizon.
std::vector<Driver> drivers();
/// answer() with those three datasets ("imaging", "mail", "letters") and those drivers.
Answer sure();

/// answer() with a pool under the attic, what its blocks cost, a planned change, and the first
/// `offers` (0…6) of these for it, as the site lists them: one that does not last, the cheapest
/// that holds, a whole box that holds longest, one outdone by it, one that does not go in, one that
/// is outdone and does not last.
Answer buying(int offers);

/// `count` boxes with long names and all fates in turn.
Answer many(int count);
/// A site with nothing in it.
Answer empty();

std::shared_ptr<const Answer> shared(Answer answer);

}  // namespace ullage::sample
