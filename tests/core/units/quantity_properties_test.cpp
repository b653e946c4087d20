// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/quantity_text.h"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <cstring>
#include <rapidcheck/gtest.h>

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

}  // namespace
}  // namespace ullage
