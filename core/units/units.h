// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Strong types for the quantities of the trade. Bits meet bytes, and decimal prefixes meet binary
/// ones, only in this folder.
///
/// Every quantity holds one double in its base unit (bytes, bits per second, bytes per second,
/// seconds). A double counts bytes exactly up to 2^53 (9 PB). Quantities of the same kind add,
/// subtract and compare; a plain number scales them; dividing two of a kind gives a plain number.
/// Source of the prefixes: IEC 80000-13 (k, M, G, T are powers of 1000; Ki, Mi, Gi, Ti of 1024).

#include <compare>

namespace ullage {

template <class Kind>
struct Quantity {
    double value = 0;

    friend constexpr auto operator<=>(const Quantity&, const Quantity&) = default;
    constexpr Quantity operator-() const { return {-value}; }
    constexpr Quantity& operator+=(Quantity b) { value += b.value; return *this; }
    constexpr Quantity& operator-=(Quantity b) { value -= b.value; return *this; }
    constexpr Quantity& operator*=(double k) { value *= k; return *this; }
    friend constexpr Quantity operator+(Quantity a, Quantity b) { return {a.value + b.value}; }
    friend constexpr Quantity operator-(Quantity a, Quantity b) { return {a.value - b.value}; }
    friend constexpr Quantity operator*(Quantity a, double k) { return {a.value * k}; }
    friend constexpr Quantity operator*(double k, Quantity a) { return {a.value * k}; }
    friend constexpr Quantity operator/(Quantity a, double k) { return {a.value / k}; }
    friend constexpr double operator/(Quantity a, Quantity b) { return a.value / b.value; }
};

using Bytes = Quantity<struct BytesKind>;                    ///< value: bytes
using BitsPerSecond = Quantity<struct BitsPerSecondKind>;    ///< value: bit/s
using BytesPerSecond = Quantity<struct BytesPerSecondKind>;  ///< value: bytes/s
using Duration = Quantity<struct DurationKind>;              ///< value: seconds
using Power = Quantity<struct PowerKind>;                    ///< value: watts
using Money = Quantity<struct MoneyKind>;                    ///< value: units of the site's currency

inline constexpr double seconds_per_minute = 60;
inline constexpr double seconds_per_hour = 3600;
inline constexpr double seconds_per_day = 86400;
inline constexpr double days_per_week = 7;
inline constexpr double days_per_month = 30;      ///< a month as a length of time
inline constexpr double days_per_year = 365.25;   ///< a year as a length of time

constexpr Duration seconds(double n) { return {n}; }
constexpr Duration hours(double n) { return {n * seconds_per_hour}; }
constexpr Duration days(double n) { return {n * seconds_per_day}; }
constexpr double in_hours(Duration d) { return d.value / seconds_per_hour; }
constexpr double in_days(Duration d) { return d.value / seconds_per_day; }

constexpr Bytes decimal_tb(double n) { return {n * 1e12}; }
constexpr Bytes kib(double n) { return {n * 1024}; }
constexpr Bytes mib(double n) { return {n * 1048576}; }
constexpr Bytes gib(double n) { return {n * 1073741824}; }
constexpr Bytes tib(double n) { return {n * 1099511627776.0}; }

constexpr BytesPerSecond to_bytes_per_second(BitsPerSecond r) { return {r.value / 8}; }
constexpr BitsPerSecond to_bits_per_second(BytesPerSecond r) { return {r.value * 8}; }

}  // namespace ullage
