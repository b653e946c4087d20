// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The space of a box over time: its pool or usable size, the planned changes of it, an offer in
/// their place; and what a stored byte takes there.
///
/// Model. An era is the time between two changes. What is written in an era is laid out by that
/// era's pool; what was there before keeps the cost it had, unless the era began with another set of
/// drives, on to which everything was copied. So at a time t
///
///     charge(t) = cost_k + Σ_e before(e, t) × (cost_{e−1} − cost_e),   e after the last fresh start
///
/// where before(e, t) is the share of the bytes at t that were written before era e began:
///   live   (live at e − freed(t − e)) ÷ live at t, less what has been rewritten or removed since
///   held   Σ freed(a + g) − freed(a) over Σ freed(g), over the gaps g of the retained snapshots, a the
///          days from e to the gap's older end (0 if that is before e): of bytes that died in the
///          gap, those as old as that, by the mixture of lifetimes of the curve
/// with the dataset's mean curve and mean growth, so without the noise of a path: it is a small
/// correction of a cost, and 0 where the costs are equal.
/// A copy that arrives after an era began is laid out by that era altogether.
///
/// Assumptions: a change is done on its day; changes dated up to as_of have been made; an offer stands in
/// place of the changes planned after it. Sources: as pool.h.

#include "core/outlook/models.h"
#include "core/outlook/paths.h"
#include "core/pool/pool.h"

#include <optional>
#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace ullage {

struct SpaceEra {
    double from_day = 0;                     ///< from as_of; the first one's says nothing
    std::optional<PoolShape> shape;          ///< empty: only a usable size is known
    double usable_bytes = 0;
    bool fresh = false;                      ///< began by copying everything on to other drives
    std::optional<BoxChange> change;         ///< the plan that began it

    /// Usable bytes taken by one stored byte written in it: 1 without a pool.
    double cost(const Dataset& dataset, double compression_ratio) const;
};

struct BoxSpace {
    std::vector<SpaceEra> eras;              ///< at least one, by date
    double ceiling = 0.8;

    bool known() const { return eras.front().usable_bytes > 0; }
    const SpaceEra& at(double day) const;
    /// At each of `days`.
    std::vector<double> usable_on(const std::vector<double>& days) const;
    std::vector<double> ceiling_on(const std::vector<double>& days) const;
    /// What one stored byte takes at each of `days`, of a dataset of which the box keeps `kept`.
    Charges charges(const Dataset& dataset, const DatasetModel& model, const KeptSnapshots& kept,
                    Instant as_of, const std::vector<double>& days) const;
    std::size_t index_at(double day) const;  ///< of the era
    /// As it was until `day`, then with the offer, at the ceiling it has. Errors: a pool that cannot be built.
    tl::expected<BoxSpace, std::string> with(const Offer& offer, double day) const;
};

/// Nothing (0 bytes) where the box gives neither pool nor usable size. Problems carry pointers below `at`.
tl::expected<BoxSpace, Problem> space_of(const Box& box, Day as_of, const std::string& at);

/// Days from as_of, above 0, on which the space of some box changes.
std::vector<double> change_days(const Site& site);

}  // namespace ullage
