// SPDX-License-Identifier: GPL-3.0-or-later
// The laws of curve.h and ladder.h on drawn curves, instants and ladders; a failure is shrunk to a
// small case. The laws follow from the definitions; no outside source.
#include "core/retention/ladder.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <ostream>
#include <tuple>
#include <vector>

namespace ullage {

/// How RapidCheck prints what it drew.
void showValue(const Curve& c, std::ostream& out) {
    for (const auto& part : c.components())
        out << part.bytes << " B living " << part.lifetime_days << " d; ";
}
void showValue(const Rung& r, std::ostream& out) {
    out << r.count.value_or(0) << " of " << in_days(r.every.value.length()) << " d";
}

namespace {

using Seconds = std::chrono::seconds;

const Instant now = *parse_instant("2026-11-01");

/// From a quarter of an hour to some three years, as likely short as long.
rc::Gen<double> any_days() {
    return rc::gen::map(rc::gen::resize(100, rc::gen::inRange(0, 501)),
                        [](int n) { return 0.01 * std::pow(10, n / 100.0); });
}

rc::Gen<Curve> any_curve() {
    const auto component = rc::gen::map(
        rc::gen::pair(rc::gen::inRange(0, 32), rc::gen::inRange(0, 1'000'000)),
        [](const std::pair<int, int>& drawn) {
            return CurveComponent{lifetime_grid()[std::size_t(drawn.first)], double(drawn.second)};
        });
    // Few components: among many, those that die at once hide the others.
    return rc::gen::map(rc::gen::resize(4, rc::gen::container<std::vector<CurveComponent>>(
                                               rc::gen::resize(100, component))),
                        [](std::vector<CurveComponent> parts) { return Curve(std::move(parts)); });
}

/// Rising instants before `now`. Gaps are drawn, in hours, as they shrink on their own: instants
/// would shrink pair by pair, second by second.
rc::Gen<std::vector<Instant>> any_instants() {
    return rc::gen::map(
        rc::gen::container<std::vector<int>>(rc::gen::element(1, 2, 5, 12, 24, 72, 168, 720)),
        [](const std::vector<int>& gaps) {
            std::vector<Instant> list;
            Instant at = now;
            for (const int hours : gaps) list.push_back(at -= Seconds(3600 * hours));
            std::reverse(list.begin(), list.end());
            return list;
        });
}

rc::Gen<Rung> any_rung() {
    using Unit = Period::Unit;
    return rc::gen::map(
        rc::gen::tuple(
            rc::gen::element(Period{15, Unit::minute}, Period{1, Unit::hour}, Period{1, Unit::day},
                             Period{3, Unit::day}, Period{1, Unit::week}, Period{1, Unit::month},
                             Period{1, Unit::year}),
            rc::gen::inRange(1, 20)),
        [](const std::tuple<Period, int>& drawn) {
            Rung r;
            r.every = std::get<0>(drawn);
            r.count = std::get<1>(drawn);
            return r;
        });
}

rc::Gen<Ladder> any_ladder() { return rc::gen::resize(4, rc::gen::container<Ladder>(any_rung())); }

/// Sums of up to a hundred numbers round in the last digits.
double slack(const Curve& c) { return 1e-11 * c.total(); }

RC_GTEST_PROP(CurveProperty, FreedRisesBendsDownAndStaysUnderItsTotal, ()) {
    const auto c = *any_curve();
    const double a = *any_days();
    const double g = *any_days();
    const double h = *any_days();
    RC_ASSERT(c.freed(a) >= 0);
    RC_ASSERT(c.freed(a + g) >= c.freed(a) - slack(c));
    RC_ASSERT(c.freed(a + g + h) <= c.total() + slack(c));
    // The chord over the later stretch is no steeper than that over the earlier one.
    RC_ASSERT((c.freed(a + g + h) - c.freed(a + g)) * g <=
              (c.freed(a + g) - c.freed(a)) * h + slack(c) * (g + h));
}

RC_GTEST_PROP(CurveProperty, TwoStepsFreeAtLeastWhatOneDoesAndUniqueIsTheDifference, ()) {
    const auto c = *any_curve();
    const double g = *any_days();
    const double h = *any_days();
    RC_ASSERT(c.freed(g) + c.freed(h) >= c.freed(g + h) - slack(c));
    RC_ASSERT(c.unique(g, h) >= 0);
    RC_ASSERT(std::abs(c.unique(g, h) - (c.freed(g) + c.freed(h) - c.freed(g + h))) <= slack(c));
}

RC_GTEST_PROP(HeldProperty, OneMoreSnapshotNeverLowersHeldBytesAndOneLessNeverRaisesThem, ()) {
    const auto c = *any_curve();
    const auto list = *any_instants();
    RC_PRE(!list.empty());
    auto less = list;
    less.erase(less.begin() + *rc::gen::inRange<int>(0, int(list.size())));
    RC_ASSERT(held_bytes(c, less, now) <=
              held_bytes(c, list, now) + slack(c) * double(list.size()));
    // On a box, where live does not change after the newest snapshot, the newest is the live data
    // itself.
    if (!less.empty() && less.back() == list.back()) {
        RC_ASSERT(held_bytes(c, less) <= held_bytes(c, list) + slack(c) * double(list.size()));
    }
}

RC_GTEST_PROP(HeldProperty, ThinningNeverRaisesHeldBytesAndKeepsTheNewest, ()) {
    const auto c = *any_curve();
    const auto list = *any_instants();
    RC_PRE(!list.empty());
    const LadderClock clock(*any_ladder(), *TimeZone::find("Europe/Berlin"));
    const auto kept = clock.thinned(list, now);
    RC_ASSERT(!kept.empty());
    RC_ASSERT(kept.back() == list.back());
    RC_ASSERT(std::includes(list.begin(), list.end(), kept.begin(), kept.end()));
    RC_ASSERT(held_bytes(c, kept, now) <=
              held_bytes(c, list, now) + slack(c) * double(list.size()));
    RC_ASSERT(held_bytes(c, kept) <= held_bytes(c, list) + slack(c) * double(list.size()));
}

RC_GTEST_PROP(LadderProperty, OneMoreRungOrALongerOneNeverHoldsLess, ()) {
    const auto c = *any_curve();
    const auto zone = *TimeZone::find("Europe/Berlin");
    const auto ladder = *any_ladder();
    auto more = ladder;
    if (!more.empty() && *rc::gen::arbitrary<bool>()) {
        *more.front().count += *rc::gen::inRange(1, 10);
    } else {
        more.push_back(*any_rung());
    }
    const auto held = LadderClock(ladder, zone).retained(now);
    const auto held_more = LadderClock(more, zone).retained(now);
    RC_ASSERT(std::includes(held_more.begin(), held_more.end(), held.begin(), held.end()));
    RC_ASSERT(held_bytes(c, held_more, now) >=
              held_bytes(c, held, now) - slack(c) * double(held_more.size()));
}

}  // namespace
}  // namespace ullage
