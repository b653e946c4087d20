// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/growth_rows.h"

#include "core/outlook/remembered.h"

namespace ullage {

namespace {

constexpr std::size_t most_remembered = 256;

/// All that growth_quantiles reads.
std::vector<double> key_of(const GrowthModel& m, const std::vector<double>& days) {
    std::vector<double> key = {m.bytes_per_day, m.standard_error,       m.noise_per_root_day, m.walk_per_root_week,
                               m.pull,          m.pooled_bytes_per_day, m.pooled_spread,      double(m.blocks.size())};
    for (const auto& b : m.blocks) {
        key.insert(key.end(), {b.days, b.bytes, b.age, b.weight, double(b.inside.size())});
        for (const auto& p : b.inside) key.insert(key.end(), {p.day, p.bytes});
    }
    key.insert(key.end(), days.begin(), days.end());
    return key;
}

}  // namespace

std::shared_ptr<const GrowthRows> growth_rows(const GrowthModel& m, const std::vector<double>& days) {
    static Remembered<std::vector<double>, GrowthRows> known(most_remembered);
    return known.get(key_of(m, days), [&] {
        auto rows = growth_quantiles(m, days, {0.1, 0.5, 0.9});
        return GrowthRows{std::move(rows[0]), std::move(rows[1]), std::move(rows[2])};
    });
}

}  // namespace ullage
