// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/link/hours.h"

#include <algorithm>
#include <cstdint>
#include <iterator>
#include <set>
#include <utility>

namespace ullage {
namespace {

using WholeSeconds = std::chrono::seconds;

constexpr int day_s = 86400;
constexpr int week_s = 7 * day_s;
constexpr WholeSeconds longest_look{8 * day_s};
constexpr WholeSeconds probe_step{3 * day_s};

constexpr Instant table_from{std::chrono::sys_days{std::chrono::January / 1 / 2000}};
constexpr Instant table_to{std::chrono::sys_days{std::chrono::January / 1 / 2100}};

int offset_of(const TimeZone& zone, Instant t) {
    const Instant midnight_as_utc = zone.local_day(t);
    return static_cast<int>(
        (midnight_as_utc + WholeSeconds(zone.local_seconds_of_day(t)) - t).count());
}

/// First instant in (from, limit] at which the zone is `offset` no more; limit if there is none.
Instant end_of_offset(const TimeZone& zone, Instant from, Instant limit, int offset) {
    Instant same = from;
    while (same < limit) {
        Instant other = std::min(same + probe_step, limit);
        if (offset_of(zone, other) == offset) {
            same = other;
            continue;
        }
        while (other - same > WholeSeconds(1)) {
            const Instant middle = same + (other - same) / 2;
            (offset_of(zone, middle) == offset ? same : other) = middle;
        }
        return other;
    }
    return limit;
}

/// Second of the week from Monday 00:00 at an instant shown by a wall clock `offset_s` ahead of
/// UTC.
int second_of_week(Instant t, int offset_s) {
    constexpr std::int64_t first_monday = std::int64_t{4} * day_s;  // 1970-01-05
    const std::int64_t s = t.time_since_epoch().count() + offset_s - first_monday;
    const auto r = static_cast<int>(s % week_s);
    return r < 0 ? r + week_s : r;
}

double cut(double share) { return share > 0 ? std::min(share, 1.0) : 0; }

}  // namespace

WeeklyHours::WeeklyHours(const std::vector<OpenHours>& hours, TimeZone zone)
    : zone_(std::move(zone)) {
    struct Span {
        int from, to;
        double share;
    };
    std::vector<Span> spans;
    std::set<int> edges{0, week_s};
    const auto add = [&](int from, int to, double share) {
        spans.push_back({from, to, share});
        edges.insert({from, to});
    };
    for (const OpenHours& h : hours) {
        const int from = std::clamp(h.from, 0, day_s);
        int to = std::clamp(h.to, 0, day_s);
        if (to <= from) to += day_s;
        for (int day = 0; day < 7; ++day) {
            if (!h.days[static_cast<std::size_t>(day)]) continue;
            const int start = day * day_s + from, end = day * day_s + to;
            if (start < week_s) add(start, std::min(end, week_s), cut(h.share));
            if (end > week_s) add(std::max(start - week_s, 0), end - week_s, cut(h.share));
        }
    }
    for (auto edge = edges.begin(); std::next(edge) != edges.end(); ++edge) {
        const int from = *edge, to = *std::next(edge);
        double share = hours.empty() ? 1 : 0;
        for (const Span& s : spans) {
            if (s.from <= from && to <= s.to) share = std::max(share, s.share);
        }
        if (!week_.empty() && week_.back().share == share) {
            week_.back().to_s = to;
        } else {
            week_.push_back({from, to, share});
        }
    }

    utc_ = zone_.name() == "UTC";
    if (utc_ || week_.size() == 1) return;
    for (Instant t = table_from; t < table_to;) {
        const int offset = offset_of(zone_, t);
        const Instant end = end_of_offset(zone_, t, table_to, offset);
        clocks_.push_back({t, end, offset});
        t = end;
    }
}

/// The stretch of constant offset that holds t; outside the table its `to` is not looked for beyond
/// `limit`.
WeeklyHours::Clock WeeklyHours::clock_at(Instant t, Instant limit) const {
    if (utc_) return {t, limit, 0};
    if (!clocks_.empty() && t >= table_from && t < table_to) {
        const auto after = std::upper_bound(clocks_.begin(), clocks_.end(), t,
                                            [](Instant x, const Clock& c) { return x < c.from; });
        return *std::prev(after);
    }
    const int offset = offset_of(zone_, t);
    return {t, end_of_offset(zone_, t, limit, offset), offset};
}

std::size_t WeeklyHours::piece_at(int week_second) const {
    const auto after = std::upper_bound(week_.begin(), week_.end(), week_second,
                                        [](int s, const Piece& p) { return s < p.from_s; });
    return static_cast<std::size_t>(after - week_.begin()) - 1;
}

double WeeklyHours::share_at(Instant t) const {
    if (week_.size() == 1) return week_.front().share;
    return week_[piece_at(second_of_week(t, clock_at(t, t).offset_s))].share;
}

Instant WeeklyHours::next_change(Instant t) const {
    const Instant limit = t + longest_look;
    if (week_.size() == 1) return limit;

    const double share = share_at(t);
    while (t < limit) {
        const Clock clock = clock_at(t, limit);
        const Instant clock_end = std::min(clock.to, limit);
        const int now = second_of_week(t, clock.offset_s);
        std::size_t piece = piece_at(now);
        int ahead = 0;  // seconds from t to the end of `piece` by this clock
        if (week_[piece].share == share) {
            ahead = week_[piece].to_s - now;
            piece = (piece + 1) % week_.size();
            if (week_[piece].share == share) {  // Sunday night and Monday morning alike
                ahead += week_[piece].to_s - week_[piece].from_s;
            }
        }
        const Instant change = t + WholeSeconds(ahead);
        if (change < clock_end) return change;
        t = clock_end;
    }
    return limit;
}

std::vector<OpenStretch> WeeklyHours::stretches(Instant from, Instant to) const {
    std::vector<OpenStretch> found;
    for (Instant t = from; t < to;) {
        const Instant end = std::min(next_change(t), to);
        const double share = share_at(t);
        if (share > 0) {
            if (!found.empty() && found.back().to == t && found.back().share == share) {
                found.back().to = end;
            } else {
                found.push_back({t, end, share});
            }
        }
        t = end;
    }
    return found;
}

double WeeklyHours::open_hours_per_week() const {
    int open_s = 0;
    for (const Piece& p : week_) {
        if (p.share > 0) open_s += p.to_s - p.from_s;
    }
    return open_s / 3600.0;
}

bool WeeklyHours::never_opens() const { return week_.size() == 1 && !(week_.front().share > 0); }

bool WeeklyHours::always_open() const { return week_.size() == 1 && week_.front().share == 1; }

}  // namespace ullage
