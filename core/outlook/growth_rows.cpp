// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/growth_rows.h"

#include "core/outlook/print.h"
#include "core/outlook/remembered.h"

namespace ullage {

namespace {

constexpr std::size_t most_remembered = 256;

/// Of all that growth_quantiles reads.
Print print_of(const GrowthModel& m, const std::vector<double>& days) {
    PrintOf print;
    for (const double figure : {m.bytes_per_day, m.standard_error, m.noise_per_root_day, m.walk_per_root_week, m.pull,
                                m.pooled_bytes_per_day, m.pooled_spread})
        print.put(figure);
    for (const auto& b : m.blocks) {
        for (const double figure : {b.days, b.bytes, b.age, b.weight}) print.put(figure);
        print.put(std::uint64_t{b.inside.size()});
        for (const auto& p : b.inside) {
            print.put(p.day);
            print.put(p.bytes);
        }
    }
    print.put(std::uint64_t{days.size()});
    for (const double day : days) print.put(day);
    return print.print();
}

}  // namespace

std::shared_ptr<const GrowthRows> growth_rows(const GrowthModel& m, const std::vector<double>& days) {
    static Remembered<Print, GrowthRows> known(most_remembered);
    return known.get(print_of(m, days), [&] {
        auto rows = growth_quantiles(m, days, {0.1, 0.5, 0.9});
        return GrowthRows{std::move(rows[0]), std::move(rows[1]), std::move(rows[2])};
    });
}

}  // namespace ullage
