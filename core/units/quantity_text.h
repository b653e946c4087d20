// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Quantities as text: what people type ("42 GB", "100 Mbit/s", "18 ms", "0.4 %", "26 w") to the
/// types of units.h, and back.
///
/// Accepted units (a space before the unit is optional; a plain number is in the base unit):
///   bytes     B kB MB GB TB PB EB (1000), KiB MiB GiB TiB PiB EiB (1024); `KB` reads as kB
///   rate      bit/s kbit/s Mbit/s Gbit/s Tbit/s (also `bps`, `kbps`, `Mbps`, `Gbps`)
///   byte rate B/s kB/s MB/s GB/s KiB/s MiB/s GiB/s
///   duration  ms s min h d w mo (30 d) y (365.25 d), also written out ("days", "weeks")
///   share     a number, or one with %
/// Numbers use a point; exponents are read ("1e-5"); digits may be grouped by `_` or, in threes, by a
/// space. A sign is read: what may not be negative is the caller's to say.
/// Prefixes of 1000 move the decimal point, so that "9.2 TB" is the double nearest to 9200000000000.
/// Not finite, empty, or with an unknown unit: an error that names the units that are known, and the
/// one meant if only its case is off ("mb": did you mean MB?). `b` alone is refused as ambiguous.
/// Source of the prefixes: IEC 80000-13.

#include "core/units/units.h"

#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

namespace ullage {

template <class T>
using Parsed = tl::expected<T, std::string>;  ///< the error is a sentence for the user

Parsed<Bytes> parse_bytes(std::string_view text);
Parsed<BitsPerSecond> parse_bit_rate(std::string_view text);
Parsed<BytesPerSecond> parse_byte_rate(std::string_view text);
Parsed<Duration> parse_duration(std::string_view text);
Parsed<double> parse_fraction(std::string_view text);  ///< "0.4 %" and "0.004" both give 0.004
Parsed<Power> parse_power(std::string_view text);      ///< W, kW

enum class Prefixes { decimal, binary };  ///< TB or TiB

/// "9.2 TB", "14.6 TiB": `digits` significant digits (1…17), trailing zeros dropped, never an
/// exponent; the largest unit in which the number is at least 1.
std::string format_bytes(Bytes, Prefixes = Prefixes::decimal, int digits = 3);
std::string format_bit_rate(BitsPerSecond, int digits = 3);   ///< "94.2 Mbit/s"
std::string format_byte_rate(BytesPerSecond, int digits = 3); ///< "180 MB/s"
std::string format_duration(Duration, int digits = 3);        ///< "18 ms", "4.5 h", "21 d", "5 y" (no weeks, no months)
std::string format_percent(double fraction, int digits = 3);  ///< "0.4 %"

/// The shortest text that parses back to exactly the same value ("9.2 TB", "1500 B"), for files.
/// Of texts equally short the one in the smaller unit; an exponent only where the text would be
/// longer than 24 characters. A value that is not finite has no such text.
std::string exact_bytes(Bytes);
std::string exact_bit_rate(BitsPerSecond);
std::string exact_byte_rate(BytesPerSecond);
std::string exact_duration(Duration);
std::string exact_power(Power);

/// The known word nearest to `word` by edit distance, or empty if none is close (more than a third
/// of its letters differ, at least 2 edits allowed).
std::string nearest_word(std::string_view word, const std::vector<std::string>& known);

}  // namespace ullage
