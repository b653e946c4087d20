// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// How each type of quantity is read from a text or from a plain number, and written exactly.

#include "core/site/site_json.h"
#include "core/units/quantity_text.h"

namespace ullage {

/// A number of seconds as the largest of days, hours, minutes that it is a whole number of.
tl::expected<Period, std::string> period_of_seconds(double value);

template <class T>
struct Traits;
template <>
struct Traits<Bytes> {
    static constexpr std::string_view expected = "a size such as \"42 GB\", or a number of bytes";
    static auto parse(std::string_view text) { return parse_bytes(text); }
    static auto exact(Bytes value) { return exact_bytes(value); }
    static tl::expected<Bytes, std::string> of(double value) { return Bytes{value}; }
};
template <>
struct Traits<BitsPerSecond> {
    static constexpr std::string_view expected =
        "a line rate such as \"100 Mbit/s\", or a number of bit/s";
    static auto parse(std::string_view text) { return parse_bit_rate(text); }
    static auto exact(BitsPerSecond value) { return exact_bit_rate(value); }
    static tl::expected<BitsPerSecond, std::string> of(double value) {
        return BitsPerSecond{value};
    }
};
template <>
struct Traits<BytesPerSecond> {
    static constexpr std::string_view expected =
        "a rate such as \"180 MB/s\", or a number of bytes per second";
    static auto parse(std::string_view text) { return parse_byte_rate(text); }
    static auto exact(BytesPerSecond value) { return exact_byte_rate(value); }
    static tl::expected<BytesPerSecond, std::string> of(double value) {
        return BytesPerSecond{value};
    }
};
template <>
struct Traits<Duration> {
    static constexpr std::string_view expected =
        "a length of time such as \"21 d\", or a number of seconds";
    static auto parse(std::string_view text) { return parse_duration(text); }
    static auto exact(Duration value) { return exact_duration(value); }
    static tl::expected<Duration, std::string> of(double value) { return Duration{value}; }
};
template <>
struct Traits<Power> {
    static constexpr std::string_view expected = "a power such as \"48 W\", or a number of watts";
    static auto parse(std::string_view text) { return parse_power(text); }
    static auto exact(Power value) { return exact_power(value); }
    static tl::expected<Power, std::string> of(double value) { return Power{value}; }
};
template <>
struct Traits<Amount> {
    static constexpr std::string_view expected =
        "a size such as \"14 GB\", a share of the live bytes such as \"0.4 %\", or a number of "
        "bytes";
    static auto parse(std::string_view text) { return parse_amount(text); }
    static auto exact(const Amount& value) { return to_text(value); }
    static tl::expected<Amount, std::string> of(double value) {
        return Amount{value, Amount::Of::bytes};
    }
};
template <>
struct Traits<Period> {
    static constexpr std::string_view expected =
        "a period such as \"15 min\", \"1 d\", \"1 mo\", or a number of seconds";
    static auto parse(std::string_view text) { return parse_period(text); }
    static auto exact(const Period& value) { return to_text(value); }
    static tl::expected<Period, std::string> of(double value) { return period_of_seconds(value); }
};

template <>
struct Traits<Money> {
    static constexpr std::string_view expected =
        "a price such as 2150 or \"2150 EUR\", in the site's currency";
    static auto parse(std::string_view text) { return parse_money(text); }
    static auto exact(Money value) { return to_text(value); }
    static tl::expected<Money, std::string> of(double value) { return Money{value}; }
};

}  // namespace ullage
