// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Rebuilding a drive: how long a pass over all of it takes, and what may fail meanwhile.
///
/// Model. A drive is fastest on its outer tracks; over all of them it does about 0.68 of that, so a
/// pass takes bytes ÷ (0.68 × rate). Other drives of the group fail as a Poisson process each: the
/// chance of at least one in that time is 1 − exp(−rate a year × others × hours ÷ 8760).
/// Assumptions: nothing else uses the drives, and the whole drive is read or written (a rebuild of
/// what is allocated alone reads less, small blocks make it several times slower). Drives fail
/// independently; real ones cluster, by batch, age and shock, so the chance is a lower bound.
/// Sources: zones of 118 and 56 MB/s with a mean of 80 in "Upgrading and Repairing PCs"; clustering:
/// Schroeder and Gibson, FAST 2007.

#include "core/units/units.h"

namespace ullage {

/// Mean rate over a whole drive ÷ the rate of its fastest tracks.
inline constexpr double mean_of_fastest = 0.68;
/// What a drive of today does on its fastest tracks, where none is given: 250 MB/s (from memory of data sheets).
inline constexpr BytesPerSecond usual_drive_rate{250e6};
/// Share of drives that fail in a year, where none is given: 1.57 % of a fleet of some 300,000 in 2024
/// (figures published by a cloud operator).
inline constexpr double usual_failure_rate = 0.0157;

/// Hours of a pass over a whole drive; `fastest` > 0.
double whole_drive_hours(double drive_bytes, BytesPerSecond fastest);
/// 0…1; others ≥ 0, yearly 0…1, hours ≥ 0.
double chance_of_another_failure(int others, double yearly, double hours);

}  // namespace ullage
