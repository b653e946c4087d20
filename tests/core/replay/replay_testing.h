// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What the tests of the replay share: round numbers. A byte a second is 8 bit/s; time runs in
/// seconds from `origin`, a Monday.

#include "core/replay/replay.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <vector>

namespace ullage::testing {

inline const Instant origin = *parse_instant("2026-11-02");
inline constexpr double mb = 1e6;
inline constexpr std::int64_t hour = 3600;
inline constexpr std::int64_t day = 86400;
inline constexpr std::int64_t never_expires = 4'000'000'000;

inline Instant at(std::int64_t seconds_after) { return origin + std::chrono::seconds(seconds_after); }
inline std::int64_t after(Instant t) { return (t - origin).count(); }

/// A line of 1 MB/s of payload, open in these stretches (seconds).
struct Open {
    std::int64_t from, to;
    double share = 1;
};
inline ReplayLink line(const std::vector<Open>& open, double megabytes_a_second = 1) {
    ReplayLink link;
    link.line_bits_per_second = megabytes_a_second * mb * 8;
    for (const auto& o : open) link.open.push_back({at(o.from), at(o.to), o.share});
    return link;
}

/// A send with a run due, and a snapshot that never expires, at each of these times.
inline ReplaySend send_due(const std::vector<std::int64_t>& due, int dataset = 0) {
    ReplaySend s;
    ReplayDataset d;
    d.dataset = dataset;
    d.supply.own().taken.push_back(at(-day));
    for (const auto t : due) {
        s.due.push_back(at(t));
        d.supply.own().taken.push_back(at(t));
    }
    d.supply.own().expires.assign(d.supply->taken.size(), at(never_expires));
    s.datasets = {d};
    s.already = {{at(-day)}};
    return s;
}

/// Every step to the snapshot taken at due[i] carries bytes[i]; several at once, their sum.
inline SendBytes bytes_by_due(const std::vector<std::int64_t>& due, const std::vector<double>& bytes) {
    return [due, bytes](int, int, Instant from, Instant to) {
        double sum = 0;
        for (std::size_t i = 0; i < due.size(); ++i)
            if (at(due[i]) > from && at(due[i]) <= to) sum += bytes[i];
        return sum;
    };
}

}  // namespace ullage::testing
