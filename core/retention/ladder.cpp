// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/retention/ladder.h"

#include <algorithm>
#include <cmath>

namespace ullage {

namespace {

using Seconds = std::chrono::seconds;
using Unit = Period::Unit;

constexpr int seconds_a_day = 86400;

int seconds_of(Period p) { return p.n * (p.unit == Unit::minute ? 60 : 3600); }
bool within_a_day(Period p) { return p.unit == Unit::minute || p.unit == Unit::hour; }

int floor_div(int a, int b) { return a / b - (a % b < 0 ? 1 : 0); }

Seconds whole_seconds(Duration d) { return Seconds(static_cast<std::int64_t>(std::llround(d.value))); }

}  // namespace

CalendarGrid::CalendarGrid(Period every, TimeZone zone, int at)
    : every_(every), zone_(std::move(zone)), at_(at) {
    if (within_a_day(every_)) at_ %= std::min(seconds_of(every_), seconds_a_day);
}

Instant CalendarGrid::point_of_day(Day day, int second) const {
    return zone_.instant_of(day, second);
}

Day CalendarGrid::start_of_period(Day day) const {
    using namespace std::chrono;
    switch (every_.unit) {
        case Unit::week: {
            constexpr int monday = 4;  // 1970-01-05
            const int n = 7 * every_.n;
            const int d = static_cast<int>(day.time_since_epoch().count()) - monday;
            return Day(std::chrono::days(floor_div(d, n) * n + monday));
        }
        case Unit::month: {
            const year_month_day ymd(day);
            const int index =
                int(ymd.year()) * 12 + static_cast<int>(unsigned(ymd.month())) - 1;
            const int first = floor_div(index, every_.n) * every_.n;
            return sys_days(year(floor_div(first, 12)) /
                            month(static_cast<unsigned>(first - floor_div(first, 12) * 12) + 1) / 1);
        }
        case Unit::year: {
            const year_month_day ymd(day);
            return sys_days(year(floor_div(int(ymd.year()), every_.n) * every_.n) / January / 1);
        }
        default: {
            const int d = static_cast<int>(day.time_since_epoch().count());
            return Day(std::chrono::days(floor_div(d, every_.n) * every_.n));
        }
    }
}

Day CalendarGrid::next_period(Day start) const {
    using namespace std::chrono;
    switch (every_.unit) {
        case Unit::week: return start + std::chrono::days(7 * every_.n);
        case Unit::month: {
            const year_month_day ymd(start);
            return sys_days((ymd.year() / ymd.month() + months(every_.n)) / 1);
        }
        case Unit::year: {
            const year_month_day ymd(start);
            return sys_days((ymd.year() + years(every_.n)) / January / 1);
        }
        default: return start + std::chrono::days(every_.n);
    }
}

Instant CalendarGrid::at_or_before(Instant t) const {
    const Day today = zone_.local_day(t);
    if (within_a_day(every_)) {
        const int step = seconds_of(every_);
        const int now = zone_.local_seconds_of_day(t);
        for (Day day = today;; day -= std::chrono::days(1)) {
            const int last = day == today ? now : seconds_a_day - 1;
            if (last < at_) continue;
            Instant point = point_of_day(day, at_ + (last - at_) / step * step);
            // Where the clocks go back, the wall shows a time twice and the first is meant.
            if (point > t) point = point_of_day(day, at_ + std::max((last - at_) / step - 1, 0) * step);
            if (point > t) continue;
            // In the second showing of an hour the first showing's later points have gone by.
            if (t - point >= Seconds(step))
                for (Instant next = after(point); next <= t; next = after(next)) point = next;
            return point;
        }
    }
    for (Day start = start_of_period(today);; start = start_of_period(start - std::chrono::days(1))) {
        const Instant point = point_of_day(start, at_);
        if (point <= t) return point;
    }
}

Instant CalendarGrid::after(Instant t) const {
    const Day today = zone_.local_day(t);
    if (within_a_day(every_)) {
        const int step = seconds_of(every_);
        const int now = zone_.local_seconds_of_day(t);
        for (Day day = today;; day += std::chrono::days(1)) {
            int first = at_;
            if (day == today && now >= at_) first = at_ + (now - at_) / step * step;
            for (int second = first; second < seconds_a_day; second += step) {
                const Instant point = point_of_day(day, second);
                if (point > t) return point;
            }
        }
    }
    for (Day start = start_of_period(today);; start = next_period(start)) {
        const Instant point = point_of_day(start, at_);
        if (point > t) return point;
    }
}

std::vector<Instant> CalendarGrid::between(Instant from, Instant to) const {
    std::vector<Instant> points;
    Instant last = from - Seconds(1);
    if (within_a_day(every_)) {
        if (to > from) points.reserve(static_cast<std::size_t>((to - from) / Seconds(seconds_of(every_))) + 2);
        add_days_points(last, to, points);
        return points;
    }
    for (Day start = start_of_period(zone_.local_day(last));; start = next_period(start)) {
        const Instant point = point_of_day(start, at_);
        if (point > to) return points;
        if (point > last) points.push_back(last = point);
    }
}

void CalendarGrid::add_days_points(Instant last, Instant to, std::vector<Instant>& points) const {
    const int step = seconds_of(every_);
    Day day = zone_.local_day(last);
    Instant midnight = point_of_day(day, 0);
    while (last < to && midnight <= to) {
        day += std::chrono::days(1);
        const Instant next = point_of_day(day, 0);
        if (next - midnight == Seconds(seconds_a_day)) {
            // No clock is changed: seconds on the wall are seconds.
            for (int second = at_; second < seconds_a_day; second += step) {
                const Instant point = midnight + Seconds(second);
                if (point > to) return;
                if (point > last) points.push_back(last = point);
            }
        } else {
            for (Instant point = after(last); point < next && point <= to; point = after(point))
                points.push_back(last = point);
        }
        midnight = next;
    }
}

LadderClock::LadderClock(const Ladder& ladder, const TimeZone& zone) {
    for (const auto& rung : ladder)
        rungs_.push_back({CalendarGrid(rung.every.value, zone), whole_seconds(rung.lasts())});
}

std::vector<Instant> LadderClock::taken(Instant from, Instant to) const {
    std::vector<Instant> all;
    for (const auto& rung : rungs_) {
        const auto points = rung.grid.between(from, to);
        all.insert(all.end(), points.begin(), points.end());
    }
    std::sort(all.begin(), all.end());
    all.erase(std::unique(all.begin(), all.end()), all.end());
    return all;
}

std::vector<Instant> LadderClock::retained(Instant t) const {
    std::vector<Instant> all;
    for (const auto& rung : rungs_) {
        const auto points = rung.grid.between(t - rung.lasts + Seconds(1), t);
        all.insert(all.end(), points.begin(), points.end());
    }
    std::sort(all.begin(), all.end());
    all.erase(std::unique(all.begin(), all.end()), all.end());
    return all;
}

Instant LadderClock::expires(Instant s) const {
    Instant last = s;
    for (const auto& rung : rungs_)
        if (rung.grid.at_or_before(s) == s) last = std::max(last, s + rung.lasts);
    return last;
}

std::vector<Instant> LadderClock::thinned(const std::vector<Instant>& received, Instant t) const {
    std::vector<Instant> kept;
    if (received.empty()) return kept;
    for (const auto& rung : rungs_) {
        auto it = std::upper_bound(received.begin(), received.end(), t - rung.lasts);
        // A period may have begun, and been served, before the oldest that is young enough.
        while (it != received.end()) {
            const Instant period = rung.grid.at_or_before(*it);
            if (it == received.begin() || *(it - 1) < period) kept.push_back(*it);
            it = std::lower_bound(it + 1, received.end(), rung.grid.after(*it));
        }
    }
    kept.push_back(received.back());
    std::sort(kept.begin(), kept.end());
    kept.erase(std::unique(kept.begin(), kept.end()), kept.end());
    return kept;
}

Duration LadderClock::span() const {
    Seconds longest(0);
    for (const auto& rung : rungs_) longest = std::max(longest, rung.lasts);
    return {static_cast<double>(longest.count())};
}

double held_bytes(const Curve& curve, const std::vector<Instant>& instants) {
    double held = 0;
    for (std::size_t i = 1; i < instants.size(); ++i)
        held += curve.freed(days_between(instants[i - 1], instants[i]));
    return held;
}

double held_bytes(const Curve& curve, const std::vector<Instant>& instants, Instant until) {
    if (instants.empty()) return 0;
    return held_bytes(curve, instants) + curve.freed(days_between(instants.back(), until));
}

}  // namespace ullage
