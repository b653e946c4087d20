// SPDX-License-Identifier: GPL-3.0-or-later
// Days are worked out by hand in the comment beside each; a year is 365.25 d; a normal input's p10
// and p90 lie 1.28155 standard deviations from its middle.
#include "core/outlook/drivers.h"
#include "core/words/wording.h"
#include "outlook_testing.h"

#include "core/measure/evidence.h"

#include <cmath>
#include <numeric>

namespace ullage {
namespace {

using namespace testing;

constexpr double years_20 = 20 * 365.25;

std::vector<std::string> inputs_of(const Outlook& o, const std::string& box) {
    std::vector<std::string> names;
    for (const auto& d : o.drivers)
        if (d.box == box) names.push_back(english(d.input));
    return names;
}

const Driver& driver_of(const Outlook& o, const std::string& input) {
    static const Driver none;
    for (const auto& d : o.drivers)
        if (english(d.input) == input) return d;
    ADD_FAILURE() << "no driver " << input;
    return none;
}

double shares(const Outlook& o, const std::string& box) {
    double sum = 0;
    for (const auto& d : o.drivers) sum += d.box == box ? d.variance_share : 0;
    return sum;
}

TEST(Drivers, ALoneUncertainGrowthHasTheDaysOfHeadroomOverRateAndAllOfTheVariance) {
    const auto o = outlook_of(
        site(years_20, {dataset("scans", 1 * tb, 0.1 * tb, 0.25)}, {box("home", 2 * tb)}), 2000);
    ASSERT_EQ(o.drivers.size(), 1u);
    const auto& d = o.drivers[0];
    EXPECT_EQ(d.box, "home");
    EXPECT_EQ(english(d.input), "growth of “scans”");
    EXPECT_EQ(d.about, "/datasets/0");
    // 0.6 TB ÷ (0.1 × (1 ∓ 0.320388) TB/y): 3224.63 d and 1659.74 d, up to whole days.
    EXPECT_EQ(d.low_days, std::optional(3225.0));
    EXPECT_EQ(d.high_days, std::optional(1660.0));
    EXPECT_GT(d.variance_share, 0.95);
    EXPECT_LE(d.variance_share, 1);
}

TEST(Drivers, TwoEqualInputsHaveTheSameDaysAndHalfOfTheVarianceEach) {
    const auto o = outlook_of(
        site(years_20,
             {dataset("a", 0.5 * tb, 0.05 * tb, 0.25), dataset("b", 0.5 * tb, 0.05 * tb, 0.25)},
             {box("home", 2 * tb)}),
        4000);
    ASSERT_EQ(o.drivers.size(), 2u);
    // 0.6 TB ÷ (0.1 × (1 ∓ 0.160194) TB/y): 2609.53 d and 1888.91 d.
    for (const auto& d : o.drivers) {
        EXPECT_EQ(d.low_days, std::optional(2610.0));
        EXPECT_EQ(d.high_days, std::optional(1889.0));
        EXPECT_NEAR(d.variance_share, 0.5, 0.05);
    }
    EXPECT_LT(shares(o, "home"), 1.02);
}

TEST(Drivers, AnInputWithoutSpreadIsNone) {
    auto steady = dataset("steady", 0.5 * tb, 0.05 * tb, 0);
    churn(steady, 5 * gb, 20 * gb, 0);
    steady.ladder = daily(10);
    steady.events = {event(Event::Kind::add, 100, 0.1 * tb)};
    const auto o = outlook_of(
        site(years_20, {steady, dataset("b", 0.5 * tb, 0.05 * tb, 0.25)}, {box("home", 2 * tb)}),
        200);
    EXPECT_EQ(inputs_of(o, "home"), std::vector<std::string>{"growth of “b”"});
    const auto sure = outlook_of(site(years_20, {steady}, {box("home", 0.9 * tb)}), 200);
    EXPECT_TRUE(sure.boxes[0].days_until_ceiling.p50);
    EXPECT_TRUE(sure.drivers.empty());
}

TEST(Drivers, ABoxThatNeverFillsOrIsFullTodayHasNone) {
    const auto roomy =
        outlook_of(site(1000, {dataset("d", 1 * tb, 0.1 * tb, 0.25)}, {box("home", 20 * tb)}), 200);
    EXPECT_EQ(roomy.boxes[0].chance_of_ceiling_within_horizon, 0);
    EXPECT_TRUE(roomy.drivers.empty());
    const auto full = outlook_of(
        site(1000, {dataset("d", 1 * tb, 0.1 * tb, 0.25)}, {box("home", 1.1 * tb)}), 200);
    EXPECT_TRUE(full.boxes[0].over_ceiling_now);
    EXPECT_TRUE(full.drivers.empty());
}

TEST(Drivers, ADayThatMayNotComeCountsAsTheHorizon) {
    // As the first, within 2500 days: the low does not come, and 2500 − 1660 is still the greatest
    // effect.
    auto slow = dataset("slow", 0.1 * tb, 0.001 * tb, 0.25);
    const auto o = outlook_of(
        site(2500, {dataset("scans", 0.9 * tb, 0.099 * tb, 0.25), slow}, {box("home", 2 * tb)}),
        400);
    const auto names = inputs_of(o, "home");
    ASSERT_FALSE(names.empty());
    EXPECT_EQ(names[0], "growth of “scans”");
    EXPECT_FALSE(o.drivers[0].low_days);
    // 0.6 TB ÷ (0.001 + 0.099 × 1.320388 TB/y) = 1663.83 d.
    EXPECT_EQ(o.drivers[0].high_days, std::optional(1664.0));
}

TEST(Drivers, SizesAndDatesOfEventsMoveTheDay) {
    // 0.6 TB of headroom; 0.5 TB arrive about day 1000; the growth of 0.0365 TB a year does the
    // rest.
    auto d = dataset("d", 1 * tb, 0.036525 * tb, 0);
    d.events = {event(Event::Kind::add, 1000, 0.5 * tb)};
    d.events[0].spread = 0.1;
    d.events[0].date_spread = days(100);
    const auto o = outlook_of(site(3000, {d}, {box("home", 2 * tb)}), 2000);
    // 0.1 TB a 1000 d. The size at its low, 0.435922 TB: 0.164078 TB ÷ 0.0001 TB/d = 1640.78 d. At
    // its high, 0.564078 TB, what is left is there on day 359, so the day of the event itself:
    // 1000.
    const auto& size = driver_of(o, "size of what “d” adds about 2029-07-29");
    EXPECT_EQ(size.low_days, std::optional(1641.0));
    EXPECT_EQ(size.high_days, std::optional(1000.0));
    // In the middle 0.1 TB are left, grown by day 1000. Early (day 871.8): still day 1000; late:
    // day 1128.2, found between the weeks about it, so within a week.
    const auto& date = driver_of(o, "date of what “d” adds about 2029-07-29");
    EXPECT_EQ(date.low_days, std::optional(1000.0));
    ASSERT_TRUE(date.high_days);
    EXPECT_NEAR(*date.high_days, 1128.2, 7);
    EXPECT_EQ(o.drivers[0].input, size.input);
    EXPECT_GT(size.variance_share, date.variance_share);
    EXPECT_GT(date.variance_share, 0.02);
}

TEST(Drivers, StoredSizeTurnoverAndWhatIsNotKnownOfItAreInputsOfTheBoxesThatHoldThem) {
    auto d = dataset("mail", 1, 0.2 * tb, 0.2);
    d.live.reset();
    d.logical = Entered<Bytes>(Bytes{2 * tb});
    d.compression_ratio = 1.6;
    d.compression_spread = 0.05;
    churn(d, 6 * gb, {}, 0.2);
    d.ladder = {rung(1, Period::Unit::day, 7)};
    auto s = site(3650, {d}, {box("home", 2.2 * tb), box("attic", 4 * tb)});
    add_send(s, 200);
    s.sends[0].ladder = Ladder{rung(1, Period::Unit::month, 24)};
    const auto o = outlook_of(s, 1000);
    const auto home = inputs_of(o, "home");
    // A week of daily snapshots hold a day's turnover each, which was typed: no curve moves it.
    EXPECT_EQ(std::count(home.begin(), home.end(), "turnover of “mail” beyond 1 day"), 0);
    for (const char* input :
         {"growth of “mail”", "stored size of “mail” (compression)", "turnover of “mail”"})
        EXPECT_EQ(std::count(home.begin(), home.end(), input), 1) << input;
    const auto attic = inputs_of(o, "attic");
    EXPECT_EQ(std::count(attic.begin(), attic.end(), "turnover of “mail” beyond 1 day"), 1);
    EXPECT_LT(shares(o, "home"), 1.05);
    EXPECT_LT(shares(o, "attic"), 1.05);
}

TEST(Drivers, MoreIsNeverLater) {
    auto a = dataset("a", 1 * tb, 0.2 * tb, 0.3);
    churn(a, 5 * gb, 20 * gb, 0.3);
    a.ladder = {rung(1, Period::Unit::day, 14), rung(1, Period::Unit::month, 12)};
    a.events = {event(Event::Kind::add, 200, 0.1 * tb), event(Event::Kind::rewrite, 300, 0.2 * tb)};
    for (auto& e : a.events) e.spread = 0.3;
    auto b = dataset("b", 1 * tb, 0.1 * tb, 0.4);
    b.ladder = daily(7);
    auto s = site(3650, {a, b}, {box("home", 4 * tb), box("attic", 5 * tb)});
    add_send(s, 200);
    const auto o = outlook_of(s, 100);
    EXPECT_GE(o.drivers.size(), 8u);
    const auto day = [&](const std::optional<double>& d) { return d.value_or(o.horizon_days); };
    for (const auto& d : o.drivers)
        EXPECT_LE(day(d.high_days), day(d.low_days)) << d.box << ": " << english(d.input);
    // Greatest effect first within a box, the boxes in their own order.
    for (std::size_t i = 1; i < o.drivers.size(); ++i) {
        const auto &x = o.drivers[i - 1], &y = o.drivers[i];
        if (x.box != y.box) {
            EXPECT_EQ(x.box, "home");
            continue;
        }
        EXPECT_GE(std::abs(day(x.high_days) - day(x.low_days)),
                  std::abs(day(y.high_days) - day(y.low_days)));
    }
}

TEST(Drivers, TheDaysDependOnNeitherSeedNorPathsAndTheAnswerNotOnThreads) {
    auto d = dataset("d", 1 * tb, 0.1 * tb, 0.25);
    churn(d, 5 * gb, 20 * gb, 0.3);
    d.ladder = daily(30);
    const auto s = site(years_20, {d}, {box("home", 2 * tb)});
    const auto one = outlook_of(s, 400, 1, 1);
    EXPECT_EQ(one.drivers, outlook_of(s, 400, 1, 3).drivers);
    const auto other = outlook_of(s, 900, 7, 1);
    const auto& growth = driver_of(one, "growth of “d”");
    EXPECT_EQ(growth.low_days, driver_of(other, english(growth.input)).low_days);
    EXPECT_EQ(growth.high_days, driver_of(other, english(growth.input)).high_days);
    EXPECT_NE(growth.variance_share, driver_of(other, english(growth.input)).variance_share);
}

TEST(Drivers, TheMiddleFutureLiesNearTheMedianOfThePaths) {
    auto d = dataset("d", 1 * tb, 0.1 * tb, 0.25);
    churn(d, 5 * gb, 20 * gb, 0.2);
    d.ladder = {rung(1, Period::Unit::day, 30), rung(1, Period::Unit::month, 12)};
    const auto o = outlook_of(site(years_20, {d}, {box("home", 2 * tb)}), 1000);
    const double median = *o.boxes[0].days_until_ceiling.p50;
    for (const auto& x : o.drivers) {
        EXPECT_LT(*x.high_days, median * 1.03) << english(x.input);
        EXPECT_GT(*x.low_days, median * 0.97) << english(x.input);
    }
}

TEST(Drivers, MeasuredGrowthAndTurnoverAreInputs) {
    const std::string folder = std::string(ULLAGE_SOURCE_DIR) + "/sample-sites";
    const auto s = parse_site(*read_text_file(folder + "/fellside-mapmakers.site.json"));
    ASSERT_TRUE(s);
    Evidence evidence;
    evidence.listings["fellside-drawings.tsv"] =
        *parse_listing(*read_text_file(folder + "/fellside-drawings.tsv"));
    const auto o = outlook_of(*s, 1000, 1, 0, evidence);
    for (const auto& b : o.boxes) {
        const auto names = inputs_of(o, b.name);
        for (const char* input :
             {"growth of “drawings”", "turnover of “drawings”", "long-term turnover of “drawings”"})
            EXPECT_EQ(std::count(names.begin(), names.end(), input), 1) << b.name << ": " << input;
        EXPECT_LT(shares(o, b.name), 1.1);
        EXPECT_GT(shares(o, b.name), 0.1);
    }
    for (const auto& d : o.drivers)
        EXPECT_LE(d.high_days.value_or(o.horizon_days), d.low_days.value_or(o.horizon_days))
            << english(d.input);
}

TEST(ShareOfVariance, IsWhatGoesWithTheInput) {
    std::vector<float> x, y, steps;
    std::vector<double> sum, product, of_steps;
    for (std::uint32_t p = 0; p < 4000; ++p) {
        const double a = normal_number(1, 1, p, 0);
        const double b = normal_number(1, 2, p, 0);
        x.push_back(float(a));
        y.push_back(float(b));
        steps.push_back(float(p % 8));
        sum.push_back(2 * a + b);
        product.push_back(a * a);
        of_steps.push_back(p % 8 == 3 ? 1 : 0);
    }
    // Var(2a + b) = 4 + 1, of which four fifths are a's.
    EXPECT_NEAR(share_of_variance(x, sum), 0.8, 0.03);
    EXPECT_NEAR(share_of_variance(y, sum), 0.2, 0.03);
    // Neither rising nor falling, and still all of it, but for what is lost within the outermost
    // groups.
    EXPECT_GT(share_of_variance(x, product), 0.7);
    EXPECT_LT(share_of_variance(y, product), 0.02);
    // A few equal values are groups of their own.
    EXPECT_NEAR(share_of_variance(steps, of_steps), 1, 1e-9);
    EXPECT_EQ(share_of_variance(x, std::vector<double>(x.size(), 3)), 0);
    EXPECT_EQ(share_of_variance(std::vector<float>(x.size(), 1), sum), 0);
    EXPECT_EQ(share_of_variance({1, 2, 3}, {1, 2, 3}), 0) << "too few paths to tell";
}

}  // namespace
}  // namespace ullage
