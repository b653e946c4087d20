// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site_json.h"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>
#include <string>

namespace ullage {
namespace {

template <class T>
std::string error_of(const tl::expected<T, std::string>& parsed) {
    return parsed ? "no error" : parsed.error();
}

#define EXPECT_SAYS(text, part) EXPECT_NE(std::string(text).find(part), std::string::npos) << (text)

TEST(SitePeriod, LengthsAreTheMeanOfTheCalendar) {
    using Unit = Period::Unit;
    EXPECT_EQ((Period{15, Unit::minute}.length()), Duration{900});
    EXPECT_EQ((Period{6, Unit::hour}.length()), Duration{21600});
    EXPECT_EQ((Period{1, Unit::day}.length()), Duration{86400});
    EXPECT_EQ((Period{2, Unit::week}.length()), days(14));
    // The mean Gregorian-like year of 365.25 d has 12 months of 30.4375 d.
    EXPECT_EQ((Period{1, Unit::month}.length()), days(30.4375));
    EXPECT_EQ((Period{12, Unit::month}.length()), (Period{1, Unit::year}.length()));
    EXPECT_EQ((Period{2, Unit::year}.length()), days(730.5));
}

TEST(SiteRung, LastsCountTimesEveryOrAsLongAsSaid) {
    Rung rung;
    rung.every = Period{1, Period::Unit::week};
    rung.count = 26;
    EXPECT_EQ(rung.lasts(), days(182));
    rung.count.reset();
    rung.keep_for = Entered<Duration>(days(45));
    EXPECT_EQ(rung.lasts(), days(45));
}

TEST(SiteTexts, PeriodsReadAndWrite) {
    using Unit = Period::Unit;
    const std::array<std::pair<const char*, Period>, 6> rows{{{"15 min", {15, Unit::minute}},
                                                              {"1 h", {1, Unit::hour}},
                                                              {"1 d", {1, Unit::day}},
                                                              {"2 w", {2, Unit::week}},
                                                              {"1 mo", {1, Unit::month}},
                                                              {"1 y", {1, Unit::year}}}};
    for (const auto& [text, period] : rows) {
        EXPECT_EQ(parse_period(text), period) << text;
        EXPECT_EQ(to_text(period), text);
    }
    EXPECT_EQ(parse_period("3days"), (Period{3, Unit::day}));
    EXPECT_EQ(parse_period("1 month"), (Period{1, Unit::month}));
    EXPECT_EQ(parse_period("24 h"), (Period{24, Unit::hour}));
    EXPECT_EQ(parse_period("3600"), (Period{1, Unit::hour}));
    EXPECT_EQ(parse_period("86400"), (Period{1, Unit::day}));
}

TEST(SiteTexts, MalformedPeriodsSayWhy) {
    EXPECT_SAYS(error_of(parse_period("")), "a whole number comes first");
    EXPECT_SAYS(error_of(parse_period("daily")), "a whole number comes first");
    EXPECT_SAYS(error_of(parse_period("1.5 h")), "must be whole");
    EXPECT_SAYS(error_of(parse_period("0 d")), "at least 1");
    EXPECT_SAYS(error_of(parse_period("-1 d")), "at least 1");
    EXPECT_SAYS(error_of(parse_period("30 s")), "the shortest is a minute");
    EXPECT_SAYS(error_of(parse_period("1 m")), "minutes or months");
    EXPECT_SAYS(error_of(parse_period("1 fortnight")), "known are min, h, d, w, mo, y");
    EXPECT_SAYS(error_of(parse_period("99999999999 d")), "too large");
    EXPECT_SAYS(error_of(parse_period("61")), "61 seconds is not a period");
}

TEST(SiteTexts, AmountsAreBytesOrAShareOfLive) {
    EXPECT_EQ(parse_amount("14 GB"), (Amount{14e9, Amount::Of::bytes}));
    EXPECT_EQ(parse_amount("0.4 %"), (Amount{0.004, Amount::Of::live_share}));
    EXPECT_SAYS(error_of(parse_amount("4 percent")), "or a share of the live bytes");
    EXPECT_EQ(to_text(Amount{14e9, Amount::Of::bytes}), "14 GB");
    EXPECT_EQ(to_text(Amount{0.004, Amount::Of::live_share}), "0.4 %");
    EXPECT_DOUBLE_EQ((Amount{0.004, Amount::Of::live_share}.bytes(1e12)), 4e9);
    EXPECT_DOUBLE_EQ((Amount{7, Amount::Of::bytes}.bytes(1e12)), 7);
}

TEST(SiteTexts, SharesReadBackBitForBit) {
    std::mt19937_64 random(3);
    std::uniform_real_distribution<double> exponent(-12, 1);
    for (int i = 0; i < 5000; ++i) {
        const Amount amount{std::pow(10.0, exponent(random)), Amount::Of::live_share};
        ASSERT_EQ(parse_amount(to_text(amount)), amount) << to_text(amount);
    }
}

TEST(SiteTexts, RedundancyAndWrappersReadAndWrite) {
    for (const char* text :
         {"none", "mirror-2", "mirror-3", "mirror-4", "parity-1", "parity-2", "parity-3"}) {
        const auto value = parse_redundancy(text);
        ASSERT_TRUE(value) << text;
        EXPECT_EQ(to_text(*value), text);
    }
    EXPECT_SAYS(error_of(parse_redundancy("parity-4")), "did you mean \"parity-");
    EXPECT_SAYS(error_of(parse_redundancy("mirror")), "nown are");
    EXPECT_SAYS(error_of(parse_redundancy("")), "nown are \"none\"");
    for (const char* text : {"vlan", "pppoe", "wireguard", "esp", "esp-udp", "ssh", "tls"}) {
        const auto value = parse_wrapper(text);
        ASSERT_TRUE(value) << text;
        EXPECT_EQ(to_text(*value), text);
    }
    EXPECT_SAYS(error_of(parse_wrapper("wiregaurd")), "did you mean \"wireguard\"?");
}

TEST(SiteTexts, DaysOfTheWeekReadAndWrite) {
    using Days = std::array<bool, 7>;
    EXPECT_EQ(parse_days("Mon-Fri"), (Days{true, true, true, true, true, false, false}));
    EXPECT_EQ(parse_days("Sat, Sun"), (Days{false, false, false, false, false, true, true}));
    EXPECT_EQ(parse_days("sunday"), (Days{false, false, false, false, false, false, true}));
    EXPECT_EQ(parse_days("Sat-Mon,Wed"), (Days{true, false, true, false, false, true, true}));
    EXPECT_EQ(days_text({true, true, true, true, true, false, false}), "Mon-Fri");
    EXPECT_EQ(days_text({false, false, false, false, false, true, true}), "Sat-Sun");
    EXPECT_EQ(days_text({true, false, true, false, false, false, false}), "Mon,Wed");
    EXPECT_EQ(days_text({true, true, true, true, true, true, true}), "Mon-Sun");
    for (const char* text :
         {"", "Mon-", "-Fri", "Mo", "Mon Fri", "Mon,,Fri", "Mon-Wed-Fri", "1-5"}) {
        EXPECT_SAYS(error_of(parse_days(text)), "Mon-Fri");
    }
    for (unsigned bits = 1; bits < 128; ++bits) {
        Days days{};
        for (unsigned i = 0; i < 7; ++i) days[i] = (bits >> i & 1U) != 0;
        EXPECT_EQ(parse_days(days_text(days)), days) << days_text(days);
    }
}

}  // namespace
}  // namespace ullage
