// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What in a listing contradicts itself, or is too little to go by: reasons not to trust its
/// figures.
///
/// What must hold in any true listing (sizes of one dataset in one unit, clock right, no clones):
///   unique_i ≤ written_i         what a snapshot alone holds was not in the one before
///   live_i − live_{i−1} ≤ written_i
///   written ≈ live               only for the oldest snapshot of a dataset, or after it was
///   written anew
/// Rounded sizes ("1.23T") break these by a rounding step: unique may be 5 % more; a step may lack
/// 1 % of live, and less than that counts only where most steps lack it. Not seen: a unit that is
/// wrong for `unique` alone and makes it smaller; a clock wrong by less than the gaps.

#include "core/measure/listing.h"
#include "core/words/message.h"

#include <vector>

namespace ullage {

/// Sentences without a full stop, none if there is nothing to doubt. At least two snapshots.
/// Besides the contradictions: dates outside the years 2000 to 2100, a gap of more than 400 days
/// (no usual ladder leaves one), a listing of less than 14 days (growth is judged by the week).
std::vector<Message> doubts_of(const Listing&);

}  // namespace ullage
