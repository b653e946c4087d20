// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/pool/rebuild.h"

#include <cmath>

namespace ullage {

double whole_drive_hours(double drive_bytes, BytesPerSecond fastest) {
    return drive_bytes / (mean_of_fastest * fastest.value) / seconds_per_hour;
}

double chance_of_another_failure(int others, double yearly, double hours) {
    constexpr double hours_a_year = 8760;
    return -std::expm1(-yearly * others * hours / hours_a_year);
}

}  // namespace ullage
