// SPDX-License-Identifier: GPL-3.0-or-later
/// What holds of every outlook, over random sites; a run by hand takes more of them:
/// RC_PARAMS="max_success=10000" test_outlook --gtest_filter='OutlookLaws*'
#include "core/outlook/outlook_laws.h"

#include "outlook_testing.h"
#include "tests/core/site/random_site.h"

#include <cmath>
#include <limits>
#include <rapidcheck/gtest.h>

namespace ullage {
namespace {

using namespace testing;

/// Few paths: laws of single paths and of quantiles hold at any number.
Outlook random_outlook(const Site& site, int threads = 1) {
    Settings settings;
    settings.paths = 5;
    settings.threads = threads;
    auto o = compute(site, {}, settings);
    if (o) return *std::move(o);
    // Valid, and yet not covered by the model: said, and no outlook.
    const auto* problems = std::get_if<Problems>(&o.error());
    RC_ASSERT(problems && !problems->empty() && !problems->front().what.empty());
    RC_DISCARD("not covered");
}

RC_GTEST_PROP(OutlookLaws, HoldOnEveryRandomSite, ()) {
    const Site site = *any_site();
    const auto broken = broken_laws(random_outlook(site));
    if (!broken.empty()) RC_FAIL(broken.front() + "\n" + write_site(site));
}

RC_GTEST_PROP(OutlookLaws, OneThreadAndThreeGiveTheSameOutlook, ()) {
    const Site site = *any_site();
    RC_ASSERT(random_outlook(site, 1) == random_outlook(site, 3));
}

const BoxOutlook* home_of(const Outlook& o) {
    const auto it = std::find_if(o.boxes.begin(), o.boxes.end(), [](const BoxOutlook& b) { return b.name == "home"; });
    return it == o.boxes.end() ? nullptr : &*it;
}

/// Sums of single-precision figures in another order.
bool at_least(double a, double b) { return a >= b * (1 - 1e-5) - 1e4; }

RC_GTEST_PROP(OutlookLaws, OneMoreRungNeverHoldsLess, ()) {
    Site site = *any_site();
    site.boxes[0].changes.clear();
    site.offers.clear();
    site.boxes[0].pool.reset();
    site.boxes[0].usable = Entered<Bytes>(Bytes{1e14});
    const auto before = random_outlook(site);
    for (auto& d : site.datasets) d.ladder.push_back(any_rung());
    const auto after = random_outlook(site);
    const auto* less = home_of(before);
    const auto* more = home_of(after);
    RC_ASSERT(less && more && less->fill.size() == more->fill.size());
    for (std::size_t i = 0; i < less->fill.size(); ++i) {
        RC_ASSERT(at_least(more->fill[i].held_bytes.p10, less->fill[i].held_bytes.p10));
        RC_ASSERT(at_least(more->fill[i].held_bytes.p50, less->fill[i].held_bytes.p50));
        RC_ASSERT(at_least(more->fill[i].held_bytes.p90, less->fill[i].held_bytes.p90));
        RC_ASSERT(at_least(more->fill[i].used_bytes.p90, less->fill[i].used_bytes.p90));
    }
}

/// Never sooner; a day that never comes is the latest.
bool no_sooner(const std::optional<double>& a, const std::optional<double>& b) {
    return !a || (b && *a >= *b);
}

RC_GTEST_PROP(OutlookLaws, MoreDrivesOrLargerOnesAreNeverFullerAndNeverSoonerFull, ()) {
    Site site = *any_site();
    site.boxes[0].changes.clear();  // of the drives that are other ones now
    site.offers.clear();
    site.boxes[0].usable.reset();
    site.boxes[0].pool = any_pool(any_scale(1e10, 1e14));
    const auto before = random_outlook(site);
    auto& pool = *site.boxes[0].pool;
    const int way = *rc::gen::inRange(0, 3);
    if (way == 0) pool.groups += *rc::gen::inRange(1, 4);
    if (way == 1) pool.drive = Bytes{pool.drive.value.value + 1e9 * *rc::gen::inRange(1, 4000)};
    if (way == 2) {
        RC_PRE(pool.redundancy.kind == Redundancy::Kind::parity);
        pool.width += *rc::gen::inRange(1, 4);
    }
    const auto after = random_outlook(site);
    const auto* few = home_of(before);
    const auto* many = home_of(after);
    RC_ASSERT(few && many);
    RC_ASSERT(many->usable_bytes >= few->usable_bytes);
    for (std::size_t i = 0; i < few->fill.size(); ++i)
        RC_ASSERT(many->fill[i].fill <= few->fill[i].fill * (1 + 1e-5));
    RC_ASSERT(no_sooner(many->days_until_full.p10, few->days_until_full.p10));
    RC_ASSERT(no_sooner(many->days_until_full.p50, few->days_until_full.p50));
    RC_ASSERT(no_sooner(many->days_until_ceiling.p50, few->days_until_ceiling.p50));
    RC_ASSERT(many->chance_of_full_within_horizon <= few->chance_of_full_within_horizon);
}

RC_GTEST_PROP(OutlookLaws, AHigherCeilingIsNeverReachedSooner, ()) {
    Site site = *any_site();
    site.boxes[0].changes.clear();
    site.offers.clear();
    site.boxes[0].pool.reset();
    site.boxes[0].usable = Entered<Bytes>(Bytes{any_scale(1e9, 1e14)});
    site.boxes[0].ceiling = any_between(0.3, 0.9);
    const auto before = random_outlook(site);
    site.boxes[0].ceiling = std::min(1.0, site.boxes[0].ceiling + any_between(0, 0.5));
    const auto after = random_outlook(site);
    const auto* low = home_of(before);
    const auto* high = home_of(after);
    RC_ASSERT(low && high);
    for (std::size_t i = 0; i < low->ceiling_marks.size(); ++i)
        RC_ASSERT(no_sooner(high->ceiling_marks[i], low->ceiling_marks[i]));
    RC_ASSERT(low->days_until_full == high->days_until_full);
}

TEST(OutlookLaws, ARelayCarriesNothingBeforeItsSourceHasItsFirstCopy) {
    // "attic" has its first copy 20 days from now at the soonest; what goes on to "far" is no sooner.
    auto d = dataset("d", 1 * tb, 0);
    churn(d, 1 * gb);
    d.ladder = daily(60);
    auto s = site(60, {d}, {box("home"), box("attic", 4 * tb), box("far", 4 * tb)});
    add_send(s, 1000, FirstCopy::By::courier);
    s.sends[0].first_copy.copy_rate = Entered<BytesPerSecond>(BytesPerSecond{2e8});
    s.boxes[1].in_service = as_of + std::chrono::days(20);
    auto onward = s.sends[0];
    onward.name = "onward";
    onward.from = "attic";
    onward.to = "far";
    onward.first_copy = {};
    onward.first_copy.by = FirstCopy::By::present;
    onward.every = Period{6, Period::Unit::hour};
    s.sends.push_back(onward);
    EXPECT_EQ(broken_laws(outlook_of(s, 3)), std::vector<std::string>());
    // Nor if that is not within the horizon.
    s.sends[0].first_copy.days_away = 38;
    EXPECT_EQ(broken_laws(outlook_of(s, 3)), std::vector<std::string>());
    s.sends[0].first_copy.days_away = 60;
    EXPECT_EQ(broken_laws(outlook_of(s, 3)), std::vector<std::string>());
}

/// Each law sees what breaks it.
TEST(BrokenLaws, NameWhatIsBrokenAndWhere) {
    auto d = dataset("d", 1 * tb, 0.2 * tb, 0.3);
    churn(d, 5 * gb, 20 * gb, 0.2);
    d.ladder = daily(10);
    auto s = site(300, {d}, {box("home", 1.2 * tb), box("attic", 3 * tb)});
    add_send(s, 100);
    const Outlook good = outlook_of(s, 20);
    ASSERT_EQ(broken_laws(good), std::vector<std::string>());
    ASSERT_TRUE(good.boxes[0].days_until_ceiling.p50);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    const auto expect = [&](const std::string& part, auto breaks) {
        Outlook bad = good;
        breaks(bad);
        const auto broken = broken_laws(bad);
        EXPECT_TRUE(std::any_of(broken.begin(), broken.end(),
                                [&](const std::string& law) { return law.find(part) != std::string::npos; }))
            << part << ", found " << (broken.empty() ? "nothing" : broken.front());
    };
    expect("box “home”: bytes", [&](Outlook& o) { o.boxes[0].used_now_bytes = nan; });
    expect("box “home”: fill", [&](Outlook& o) { o.boxes[0].fill[3].used_bytes.p10 = o.boxes[0].fill[3].used_bytes.p90 * 2; });
    expect("fill: not the median", [&](Outlook& o) { o.boxes[0].fill[3].fill *= 1.1; });
    expect("fill: two points", [&](Outlook& o) { o.boxes[0].fill.erase(o.boxes[0].fill.end() - 2); });
    expect("fill: does not end", [&](Outlook& o) { o.boxes[0].fill.resize(20); });
    expect("days until the ceiling", [](Outlook& o) { o.boxes[0].days_until_ceiling.p10 = -1; });
    expect("days until the ceiling", [](Outlook& o) { o.boxes[0].days_until_ceiling.p90 = 400; });
    expect("days until full", [](Outlook& o) { o.boxes[0].days_until_full = {5, 4, 6}; });
    expect("ceiling and full, p50", [](Outlook& o) {
        o.boxes[0].days_until_full.p10 = o.boxes[0].days_until_full.p50 = *o.boxes[0].days_until_ceiling.p50 - 1;
    });
    expect("chance of full", [](Outlook& o) { o.boxes[0].chance_of_full_within_horizon = 1.5; });
    expect("ceiling marks", [](Outlook& o) { o.boxes[0].ceiling_marks[0].reset(); });
    expect("days of the ceiling", [](Outlook& o) { o.boxes[0].ceiling_days.pop_back(); });
    expect("peaks", [](Outlook& o) { o.boxes[0].peak_used_bytes.pop_back(); });
    expect("order by", [](Outlook& o) { o.boxes[0].order_by.reset(); });
    expect("send “nightly”: goodput", [](Outlook& o) { o.sends[0].goodput.bits_per_second = 0; });
    expect("send “nightly”: hours a run", [&](Outlook& o) { o.sends[0].hours_per_run.p95 = nan; });
    expect("recovery point", [](Outlook& o) { o.sends[0].recovery_point_max_hours = 0; });
    expect("open week", [](Outlook& o) { o.sends[0].open_week.push_back({160, 169, 1}); });
    expect("dataset “d”: written", [](Outlook& o) { o.datasets[0].written_7d = -1; });
    expect("curve band", [](Outlook& o) { std::swap(o.datasets[0].curve_band[0], o.datasets[0].curve_band[1]); });
    expect("driver", [](Outlook& o) { o.drivers.push_back({"home", "growth", "/datasets/0", 3, 4, 1.2}); });
}

}  // namespace
}  // namespace ullage
