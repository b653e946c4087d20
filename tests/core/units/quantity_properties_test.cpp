// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/quantity_text.h"

#include <gtest/gtest.h>

#include <clocale>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <fmt/format.h>
#include <locale>
#include <rapidcheck/gtest.h>
#include <string>
#include <string_view>
#include <vector>

namespace ullage {
namespace {

/// Any finite number, by its bits; every other one a round one in some unit.
double any_number() {
    const auto bits = *rc::gen::arbitrary<std::uint64_t>();
    double value = 0;
    std::memcpy(&value, &bits, sizeof value);
    if (*rc::gen::inRange(0, 2) == 0 || !std::isfinite(value))
        value = *rc::gen::inRange(0, 100000) * std::pow(10.0, *rc::gen::inRange(-6, 15));
    return value;
}

RC_GTEST_PROP(QuantityProperty, TheExactTextOfAnyNumberReadsBackBitForBit, ()) {
    const double x = any_number();
    RC_ASSERT(parse_bytes(exact_bytes({x}))->value == x);
    RC_ASSERT(parse_bit_rate(exact_bit_rate({x}))->value == x);
    RC_ASSERT(parse_byte_rate(exact_byte_rate({x}))->value == x);
    RC_ASSERT(parse_duration(exact_duration({x}))->value == x);
    RC_ASSERT(parse_power(exact_power({x}))->value == x);
}

RC_GTEST_PROP(QuantityProperty, AShownTextIsTheNumberToItsDigits, ()) {
    const double x = *rc::gen::inRange(1, 1000000) * std::pow(10.0, *rc::gen::inRange(-3, 14));
    const int digits = *rc::gen::inRange(1, 10);
    const double off = 0.51 * std::pow(10.0, 1 - digits);
    const auto near = [&](double back) { return std::fabs(back / x - 1) <= off; };
    RC_ASSERT(near(parse_bytes(format_bytes({x}, Prefixes::decimal, digits))->value));
    RC_ASSERT(near(parse_bytes(format_bytes({x}, Prefixes::binary, digits))->value));
    RC_ASSERT(near(parse_bit_rate(format_bit_rate({x}, digits))->value));
    RC_ASSERT(near(parse_byte_rate(format_byte_rate({x}, digits))->value));
    RC_ASSERT(near(parse_duration(format_duration({x}, digits))->value));
    RC_ASSERT(near(*parse_fraction(format_percent(x, digits))));
}

RC_GTEST_PROP(QuantityProperty, ANumberThatIsLargerIsNeverShownAsASmallerOne, ()) {
    const double x = *rc::gen::inRange(1, 1000000) * std::pow(10.0, *rc::gen::inRange(-3, 14));
    const double y = x * (1 + *rc::gen::inRange(0, 1000) / 1000.0);
    for (const auto prefixes : {Prefixes::decimal, Prefixes::binary})
        RC_ASSERT(parse_bytes(format_bytes({x}, prefixes))->value <= parse_bytes(format_bytes({y}, prefixes))->value);
    RC_ASSERT(parse_duration(format_duration({x}))->value <= parse_duration(format_duration({y}))->value);
}

/// A locale that writes 1.234,5: of the C++ library, and of the C library where there is one like it.
class CommaLocale {
    struct Points : std::numpunct<char> {
        char do_decimal_point() const override { return ','; }
        char do_thousands_sep() const override { return '.'; }
        std::string do_grouping() const override { return "\3"; }
    };

public:
    CommaLocale()
        : before_(std::locale::global(std::locale(std::locale::classic(), new Points))),
          c_before_(std::setlocale(LC_NUMERIC, nullptr)) {
        for (const char* name : {"de_DE.UTF-8", "fr_FR.UTF-8"})
            if (std::setlocale(LC_NUMERIC, name)) break;
    }
    ~CommaLocale() {
        std::locale::global(before_);
        std::setlocale(LC_NUMERIC, c_before_.c_str());
    }
    CommaLocale(const CommaLocale&) = delete;
    CommaLocale& operator=(const CommaLocale&) = delete;

private:
    std::locale before_;
    std::string c_before_;
};

RC_GTEST_PROP(QuantityProperty, EveryUnitReadsAndWritesTheSameInAnyLocale, ()) {
    const double x = *rc::gen::inRange(0, 1000000) / 8.0;
    const auto typed = [&](std::string_view unit) { return fmt::format("{} {}", x, unit); };
    // What is read, written exactly and to three digits, for every unit of every kind.
    const auto all = [&] {
        std::vector<std::string> out;
        const auto note = [&](const auto& read, const auto& exact, const auto& shown) {
            RC_ASSERT(read.has_value());
            out.push_back(fmt::format("{} {} {}", read->value, exact(*read), shown(*read)));
        };
        for (const char* unit : {"B", "kB", "MB", "GB", "TB", "PB", "EB", "KiB", "MiB", "GiB", "TiB", "PiB", "EiB"})
            note(parse_bytes(typed(unit)), exact_bytes, [](Bytes b) {
                return format_bytes(b) + format_bytes(b, Prefixes::binary);
            });
        for (const char* unit : {"bit/s", "kbit/s", "Mbit/s", "Gbit/s", "Tbit/s", "bps", "kbps", "Mbps", "Gbps"})
            note(parse_bit_rate(typed(unit)), exact_bit_rate, [](BitsPerSecond r) { return format_bit_rate(r); });
        for (const char* unit : {"B/s", "kB/s", "MB/s", "GB/s", "KiB/s", "MiB/s", "GiB/s"})
            note(parse_byte_rate(typed(unit)), exact_byte_rate, [](BytesPerSecond r) { return format_byte_rate(r); });
        for (const char* unit : {"ms", "s", "min", "h", "d", "w", "mo", "y", "days", "weeks", "months", "years"})
            note(parse_duration(typed(unit)), exact_duration, [](Duration d) { return format_duration(d); });
        for (const char* unit : {"W", "kW"})
            note(parse_power(typed(unit)), exact_power, [](Power p) { return exact_power(p); });
        out.push_back(format_percent(*parse_fraction(typed("%"))));
        return out;
    };
    const auto plain = all();
    const CommaLocale comma;
    RC_ASSERT(all() == plain);
}

}  // namespace
}  // namespace ullage
