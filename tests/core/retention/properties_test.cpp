// SPDX-License-Identifier: GPL-3.0-or-later
// The laws of curve.h and ladder.h on drawn curves, instants and ladders; a failure is shrunk to a small
// case. The laws follow from the definitions; no outside source.
#include "core/retention/ladder.h"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <set>
#include <vector>

namespace ullage {
namespace {

using Seconds = std::chrono::seconds;

const Instant now = *parse_instant("2026-11-01");

rc::Gen<double> quantity(int most) {
    return rc::gen::map(rc::gen::inRange(0, 1000 * most + 1), [](int n) { return n / 1000.0; });
}

rc::Gen<Curve> any_curve() {
    const auto component = rc::gen::map(
        rc::gen::pair(rc::gen::inRange(0, 31), quantity(1'000'000)), [](const std::pair<int, double>& drawn) {
            return CurveComponent{lifetime_grid()[std::size_t(drawn.first)], drawn.second};
        });
    return rc::gen::map(rc::gen::container<std::vector<CurveComponent>>(component),
                        [](std::vector<CurveComponent> parts) { return Curve(std::move(parts)); });
}

/// Rising instants of the 400 days before `now`.
rc::Gen<std::vector<Instant>> any_instants() {
    return rc::gen::map(rc::gen::container<std::set<int>>(rc::gen::inRange(0, 400 * 86400)),
                        [](const std::set<int>& before) {
                            std::vector<Instant> list;
                            for (const int s : before) list.push_back(now - Seconds(s));
                            std::reverse(list.begin(), list.end());
                            return list;
                        });
}

rc::Gen<Rung> any_rung() {
    using Unit = Period::Unit;
    return rc::gen::map(rc::gen::tuple(rc::gen::element(Period{15, Unit::minute}, Period{1, Unit::hour},
                                                        Period{1, Unit::day}, Period{3, Unit::day},
                                                        Period{1, Unit::week}, Period{1, Unit::month},
                                                        Period{1, Unit::year}),
                                       rc::gen::inRange(1, 20)),
                        [](const std::tuple<Period, int>& drawn) {
                            Rung r;
                            r.every = std::get<0>(drawn);
                            r.count = std::get<1>(drawn);
                            return r;
                        });
}

rc::Gen<Ladder> any_ladder() {
    return rc::gen::resize(4, rc::gen::container<Ladder>(any_rung()));
}

/// Sums of up to a hundred numbers round in the last digits.
double slack(const Curve& c) { return 1e-11 * c.total(); }

RC_GTEST_PROP(CurveProperty, FreedRisesBendsDownAndStaysUnderItsTotal, ()) {
    const auto c = *any_curve();
    const double a = *quantity(400);
    const double g = *rc::gen::suchThat(quantity(400), [](double x) { return x > 0; });
    const double h = *rc::gen::suchThat(quantity(400), [](double x) { return x > 0; });
    RC_ASSERT(c.freed(a) >= 0);
    RC_ASSERT(c.freed(a + g) >= c.freed(a) - slack(c));
    RC_ASSERT(c.freed(a + g + h) <= c.total() + slack(c));
    // The chord over the later stretch is no steeper than that over the earlier one.
    RC_ASSERT((c.freed(a + g + h) - c.freed(a + g)) * g <= (c.freed(a + g) - c.freed(a)) * h + slack(c) * (g + h));
}

RC_GTEST_PROP(CurveProperty, TwoStepsFreeAtLeastWhatOneDoesAndUniqueIsTheDifference, ()) {
    const auto c = *any_curve();
    const double g = *quantity(400);
    const double h = *quantity(400);
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
    RC_ASSERT(held_bytes(c, less, now) <= held_bytes(c, list, now) + slack(c) * double(list.size()));
    // On a box, where live does not change after the newest snapshot, the newest is the live data itself.
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
    RC_ASSERT(held_bytes(c, kept, now) <= held_bytes(c, list, now) + slack(c) * double(list.size()));
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
    RC_ASSERT(held_bytes(c, held_more, now) >= held_bytes(c, held, now) - slack(c) * double(held_more.size()));
}

}  // namespace
}  // namespace ullage
