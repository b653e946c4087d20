// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/quantity_text.h"

#include <gtest/gtest.h>

#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>
#include <random>
#include <string>
#include <utility>
#include <vector>

namespace ullage {
namespace {

template <class T>
std::string error_of(const Parsed<T>& parsed) {
    return parsed ? "no error" : parsed.error();
}

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

#define EXPECT_SAYS(text, part) EXPECT_TRUE(contains(text, part)) << (text)

TEST(QuantityText, DecimalBytePrefixesArePowersOfAThousand) {
    // IEC 80000-13: kilo 10^3 … exa 10^18.
    const std::vector<std::pair<std::string, double>> rows{
        {"1 B", 1},     {"1 kB", 1e3},  {"1 MB", 1e6}, {"1 GB", 1e9},
        {"1 TB", 1e12}, {"1 PB", 1e15}, {"1 EB", 1e18}};
    for (const auto& [text, value] : rows) EXPECT_EQ(parse_bytes(text), Bytes{value}) << text;
}

TEST(QuantityText, BinaryBytePrefixesArePowersOf1024) {
    // IEC 80000-13: kibi 2^10 … exbi 2^60.
    const std::vector<std::pair<std::string, int>> rows{
        {"1 KiB", 10}, {"1 MiB", 20}, {"1 GiB", 30}, {"1 TiB", 40}, {"1 PiB", 50}, {"1 EiB", 60}};
    for (const auto& [text, power] : rows) {
        EXPECT_EQ(parse_bytes(text), Bytes{std::ldexp(1.0, power)}) << text;
    }
}

TEST(QuantityText, OneTebibyteIsAsManyTerabytesAsTheStandardSays) {
    // IEC 80000-13: 1 TiB = 2^40 B = 1 099 511 627 776 B.
    EXPECT_EQ(parse_bytes("1 TiB"), parse_bytes("1.099511627776 TB"));
    EXPECT_EQ(parse_bytes("1 TiB"), parse_bytes("1 099 511 627 776"));
    EXPECT_EQ(format_bytes(tib(1), Prefixes::decimal, 13), "1.099511627776 TB");
}

TEST(QuantityText, CapitalKiloReadsAsKilo) { EXPECT_EQ(parse_bytes("4 KB"), Bytes{4000}); }

TEST(QuantityText, ATypedDecimalIsTheNearestDoubleOfItsBytes) {
    EXPECT_EQ(parse_bytes("9.2 TB")->value, 9200000000000.0);
    EXPECT_EQ(parse_bytes("1.1 MB")->value, 1100000.0);
    EXPECT_EQ(parse_bytes("0.3 GB")->value, 300000000.0);
    EXPECT_EQ(parse_duration("18 ms")->value, 0.018);
}

TEST(QuantityText, BitRateUnitsAndTheirShortSpellings) {
    const std::vector<std::pair<std::string, double>> rows{
        {"7 bit/s", 7}, {"7 kbit/s", 7e3}, {"7 Mbit/s", 7e6}, {"7 Gbit/s", 7e9}, {"7 Tbit/s", 7e12},
        {"7 bps", 7},   {"7 kbps", 7e3},   {"7 Mbps", 7e6},   {"7 Gbps", 7e9},   {"7", 7}};
    for (const auto& [text, value] : rows) {
        EXPECT_EQ(parse_bit_rate(text), BitsPerSecond{value}) << text;
    }
}

TEST(QuantityText, ByteRateUnits) {
    const std::vector<std::pair<std::string, double>> rows{{"3 B/s", 3},
                                                           {"3 kB/s", 3e3},
                                                           {"3 MB/s", 3e6},
                                                           {"3 GB/s", 3e9},
                                                           {"3 KiB/s", 3 * 1024.0},
                                                           {"3 MiB/s", 3 * 1048576.0},
                                                           {"3 GiB/s", 3 * 1073741824.0}};
    for (const auto& [text, value] : rows) {
        EXPECT_EQ(parse_byte_rate(text), BytesPerSecond{value}) << text;
    }
}

TEST(QuantityText, DurationUnitsAndTheirWords) {
    const std::vector<std::pair<std::string, double>> rows{
        {"250 ms", 0.25},        {"2 s", 2},
        {"2 min", 120},          {"2 h", 7200},
        {"2 d", 172800},         {"2 w", 1209600},
        {"2 mo", 60 * 86400.0},  {"2 y", 730.5 * 86400},
        {"1 millisecond", 1e-3}, {"2 milliseconds", 2e-3},
        {"1 second", 1},         {"2 seconds", 2},
        {"1 minute", 60},        {"2 minutes", 120},
        {"1 hour", 3600},        {"2 hours", 7200},
        {"1 day", 86400},        {"2 days", 172800},
        {"1 week", 604800},      {"2 weeks", 1209600},
        {"1 month", 2592000},    {"2 months", 5184000},
        {"1 year", 31557600},    {"2 years", 63115200}};
    for (const auto& [text, value] : rows) EXPECT_EQ(parse_duration(text), Duration{value}) << text;
}

TEST(QuantityText, PerCentAndFractionAreTheSameNumber) {
    EXPECT_EQ(parse_fraction("0.4 %"), 0.004);
    EXPECT_EQ(parse_fraction("0.004"), 0.004);
    EXPECT_EQ(parse_fraction("80%"), 0.8);
    EXPECT_EQ(parse_fraction("1e-5"), 1e-5);
}

TEST(QuantityText, PowerUnits) {
    EXPECT_EQ(parse_power("48 W"), Power{48});
    EXPECT_EQ(parse_power("1.2 kW"), Power{1200});
}

TEST(QuantityText, TheSpaceBeforeTheUnitIsOptionalAndEndsAreTrimmed) {
    EXPECT_EQ(parse_bytes("42GB"), Bytes{42e9});
    EXPECT_EQ(parse_bytes("  42   GB \t"), Bytes{42e9});
    EXPECT_EQ(parse_bytes("42\u00A0GB"), Bytes{42e9});
    EXPECT_EQ(parse_bytes("\u22123 GB"), Bytes{-3e9});
}

TEST(QuantityText, ExponentsAndGroupsOfDigitsAreRead) {
    EXPECT_EQ(parse_bytes("1.5e3 MB"), Bytes{1.5e9});
    EXPECT_EQ(parse_bytes("1E3"), Bytes{1000});
    EXPECT_EQ(parse_bytes("2 EB"), Bytes{2e18});
    EXPECT_EQ(parse_bytes("2EiB"), Bytes{std::ldexp(2.0, 60)});
    EXPECT_EQ(parse_bytes("12 345 678"), Bytes{12345678});
    EXPECT_EQ(parse_bytes("12_345_678 B"), Bytes{12345678});
    EXPECT_EQ(parse_bytes("1\u202F500 GB"), Bytes{1.5e12});
    EXPECT_EQ(parse_bytes(".5 kB"), Bytes{500});
    EXPECT_EQ(parse_bytes("0"), Bytes{0});
    EXPECT_EQ(parse_bytes("0e-99999999999999999999"), Bytes{0});
}

TEST(QuantityText, AnUnknownUnitNamesTheKnownOnes) {
    const std::string error = error_of(parse_bytes("42 QB"));
    EXPECT_SAYS(error, "\"42 QB\"");
    EXPECT_SAYS(error, "unknown unit \"QB\"");
    EXPECT_SAYS(error, "B, kB, MB, GB, TB, PB, EB, KiB, MiB, GiB, TiB, PiB, EiB");
    EXPECT_SAYS(error_of(parse_bit_rate("1 x")), "bit/s, kbit/s, Mbit/s, Gbit/s, Tbit/s");
    EXPECT_SAYS(error_of(parse_byte_rate("1 x")), "B/s, kB/s, MB/s, GB/s, KiB/s, MiB/s, GiB/s");
    EXPECT_SAYS(error_of(parse_duration("1 x")), "ms, s, min, h, d, w, mo, y");
    EXPECT_SAYS(error_of(parse_fraction("1 x")), "known are %");
    EXPECT_SAYS(error_of(parse_power("1 x")), "W, kW");
}

TEST(QuantityText, AUnitWithTheWrongCaseNamesTheOneMeant) {
    EXPECT_SAYS(error_of(parse_bytes("4 mb")), "did you mean MB?");
    EXPECT_SAYS(error_of(parse_bytes("4 tib")), "did you mean TiB?");
    EXPECT_SAYS(error_of(parse_bit_rate("4 mbit/s")), "did you mean Mbit/s?");
    EXPECT_SAYS(error_of(parse_duration("4 Days")), "did you mean days?");
    EXPECT_SAYS(error_of(parse_power("4 KW")), "did you mean kW?");
}

TEST(QuantityText, AmbiguousUnitsAreRefused) {
    EXPECT_SAYS(error_of(parse_bytes("8 b")), "bits or bytes");
    EXPECT_SAYS(error_of(parse_duration("8 m")), "minutes or months");
}

TEST(QuantityText, BitsForBytesAndBytesForBitsAreRefused) {
    EXPECT_SAYS(error_of(parse_bit_rate("12 MB/s")), "multiply by 8");
    EXPECT_SAYS(error_of(parse_byte_rate("100 Mbit/s")), "divide by 8");
}

TEST(QuantityText, MalformedNumbersSayWhatIsExpected) {
    EXPECT_SAYS(error_of(parse_bytes("")), "empty");
    EXPECT_SAYS(error_of(parse_bytes("   ")), "for example \"42 GB\"");
    EXPECT_SAYS(error_of(parse_bytes("GB")), "a number comes first");
    EXPECT_SAYS(error_of(parse_bytes("-")), "a number comes first");
    EXPECT_SAYS(error_of(parse_bytes("inf")), "a number comes first");
    EXPECT_SAYS(error_of(parse_bytes("nan GB")), "a number comes first");
    EXPECT_SAYS(error_of(parse_bytes("1,5 TB")), "a point");
    EXPECT_SAYS(error_of(parse_bytes("1 2 TB")), "one number");
    EXPECT_SAYS(error_of(parse_bytes("1.2.3 TB")), "one number");
    EXPECT_SAYS(error_of(parse_bytes("1 5000 GB")), "one number");
    EXPECT_SAYS(error_of(parse_bytes("0x10 B")), "unknown unit \"x10 B\"");
    EXPECT_SAYS(error_of(parse_bytes("1e400")), "too large or too small");
    EXPECT_SAYS(error_of(parse_bytes("1e308 EiB")), "too large");
    EXPECT_SAYS(error_of(parse_bytes("1e99999999999999999999 B")), "too large");
}

TEST(QuantityText, ALongTextIsCutInTheMessageAtAWholeCharacter) {
    std::string typed = "1 ";
    for (int i = 0; i < 1000; ++i) typed += "ä";
    const std::string error = error_of(parse_duration(typed));
    EXPECT_SAYS(error, "ä…\"");
}

TEST(QuantityText, FormattingPicksTheLargestUnitOfAtLeastOne) {
    EXPECT_EQ(format_bytes(decimal_tb(9.2)), "9.2 TB");
    EXPECT_EQ(format_bytes(tib(14.6), Prefixes::binary), "14.6 TiB");
    EXPECT_EQ(format_bytes(Bytes{999}), "999 B");
    EXPECT_EQ(format_bytes(Bytes{1000}), "1 kB");
    EXPECT_EQ(format_bytes(Bytes{0}), "0 B");
    EXPECT_EQ(format_bytes(Bytes{-2.5e9}), "-2.5 GB");
    EXPECT_EQ(format_bit_rate(BitsPerSecond{94.15e6}), "94.2 Mbit/s");
    EXPECT_EQ(format_byte_rate(BytesPerSecond{180e6}), "180 MB/s");
    EXPECT_EQ(format_duration(Duration{0.018}), "18 ms");
    EXPECT_EQ(format_duration(hours(4.5)), "4.5 h");
    EXPECT_EQ(format_duration(days(21)), "21 d");
    EXPECT_EQ(format_duration(days(5 * days_per_year)), "5 y");
    EXPECT_EQ(format_duration(Duration{0}), "0 s");
    EXPECT_EQ(format_percent(0.004), "0.4 %");
    EXPECT_EQ(format_percent(1), "100 %");
    EXPECT_EQ(format_percent(0.12345, 4), "12.35 %");
}

TEST(QuantityText, RoundingUpToTheNextUnitTakesThatUnit) {
    EXPECT_EQ(format_bytes(Bytes{999.9996e9}), "1 TB");
    EXPECT_EQ(format_bytes(Bytes{999.4e9}), "999 GB");
    EXPECT_EQ(format_bytes(Bytes{1023 * 1024.0}, Prefixes::binary, 2), "1 MiB");
    EXPECT_EQ(format_bytes(Bytes{1023 * 1024.0}, Prefixes::binary, 3), "1020 KiB");
}

TEST(QuantityText, FormattingNeverWritesAnExponent) {
    EXPECT_EQ(format_bytes(Bytes{1.234e24}), "1230000 EB");
    EXPECT_EQ(format_bytes(Bytes{1e-7}), "0.0000001 B");
    std::mt19937_64 random(11);
    std::uniform_real_distribution<double> exponent(-30, 30);
    for (int i = 0; i < 2000; ++i) {
        const std::string text = format_bytes(Bytes{std::pow(10.0, exponent(random))});
        EXPECT_EQ(text.substr(0, text.find(' ')).find('e'), std::string::npos) << text;
    }
}

TEST(QuantityText, ValuesThatAreNotFiniteAreShownAsWords) {
    EXPECT_EQ(format_bytes(Bytes{std::numeric_limits<double>::infinity()}), "∞ B");
    EXPECT_EQ(format_percent(std::nan("")), "not a number");
}

TEST(QuantityText, ExactTextIsTheShortest) {
    EXPECT_EQ(exact_bytes(decimal_tb(9.2)), "9.2 TB");
    EXPECT_EQ(exact_bytes(Bytes{1500}), "1500 B");
    EXPECT_EQ(exact_bytes(kib(128)), "128 KiB");
    EXPECT_EQ(exact_bytes(Bytes{0}), "0 B");
    EXPECT_EQ(exact_bit_rate(BitsPerSecond{100e6}), "100 Mbit/s");
    EXPECT_EQ(exact_byte_rate(BytesPerSecond{400e6}), "400 MB/s");
    EXPECT_EQ(exact_duration(days(182)), "26 w");
    EXPECT_EQ(exact_duration(days(5 * days_per_year)), "5 y");
    EXPECT_EQ(exact_duration(Duration{0.02}), "20 ms");
    EXPECT_EQ(exact_duration(Duration{0}), "0 s");
    EXPECT_EQ(exact_power(Power{48}), "48 W");
}

/// Finite doubles of every size and sign: random bits, then the sizes people have.
std::vector<double> many_doubles() {
    std::mt19937_64 random(20261101);
    std::vector<double> out{0.0,
                            -0.0,
                            1.0,
                            std::numeric_limits<double>::max(),
                            std::numeric_limits<double>::min(),
                            std::numeric_limits<double>::denorm_min(),
                            std::nextafter(1e12, 2e12),
                            std::nextafter(86400.0, 0.0)};
    while (out.size() < 6000) {
        const auto value = std::bit_cast<double>(random());
        if (std::isfinite(value)) out.push_back(value);
    }
    std::uniform_real_distribution<double> exponent(-4, 19);
    for (int i = 0; i < 6000; ++i) out.push_back(std::pow(10.0, exponent(random)));
    for (int i = 0; i < 6000; ++i) out.push_back(std::round(std::pow(10.0, exponent(random))));
    return out;
}

std::uint64_t bits(double value) { return std::bit_cast<std::uint64_t>(value); }

template <class T, class Write, class Read>
void expect_bit_for_bit(Write write, Read read) {
    for (const double value : many_doubles()) {
        const std::string text = write(T{value});
        const auto back = read(text);
        ASSERT_TRUE(back) << text << ": " << back.error();
        ASSERT_EQ(bits(back->value), bits(value)) << text;
    }
}

TEST(QuantityText, ExactTextsReadBackBitForBit) {
    expect_bit_for_bit<Bytes>(exact_bytes, parse_bytes);
    expect_bit_for_bit<BitsPerSecond>(exact_bit_rate, parse_bit_rate);
    expect_bit_for_bit<BytesPerSecond>(exact_byte_rate, parse_byte_rate);
    expect_bit_for_bit<Duration>(exact_duration, parse_duration);
    expect_bit_for_bit<Power>(exact_power, parse_power);
}

TEST(QuantityText, SeventeenDigitsOfAFormattedSizeAreItsValue) {
    std::mt19937_64 random(5);
    std::uniform_real_distribution<double> exponent(0, 18);
    for (int i = 0; i < 5000; ++i) {
        const double value = std::pow(10.0, exponent(random));
        const auto back = parse_bytes(format_bytes(Bytes{value}, Prefixes::binary, 17));
        ASSERT_TRUE(back);
        EXPECT_NEAR(back->value / value, 1, 1e-15);
    }
}

TEST(NearestWord, FindsSlipsOfTheKeyboard) {
    const std::vector<std::string> known{"datasets", "boxes", "links", "sends", "offers", "up"};
    EXPECT_EQ(nearest_word("dataset", known), "datasets");
    EXPECT_EQ(nearest_word("bxoes", known), "boxes");
    EXPECT_EQ(nearest_word("Links", known), "links");
    EXPECT_EQ(nearest_word("ofers", known), "offers");
}

TEST(NearestWord, IsEmptyWhenNothingIsClose) {
    const std::vector<std::string> known{"datasets", "boxes", "up"};
    EXPECT_EQ(nearest_word("horizon", known), "");
    EXPECT_EQ(nearest_word("xy", known), "");
    EXPECT_EQ(nearest_word("", known), "");
    EXPECT_EQ(nearest_word(std::string(100000, 'a'), {std::string(100000, 'a')}), "");
}

}  // namespace
}  // namespace ullage
