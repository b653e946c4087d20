// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/quantity_text.h"

#include "core/units/quoted_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <span>
#include <system_error>

namespace ullage {
namespace {

/// A unit is a power of ten (the prefixes of 1000, per cent, milliseconds) or an exact multiple of
/// the base unit. Powers of ten move the decimal point of the typed digits, so that "9.2 TB" is the
/// double nearest to 9200000000000 and not a rounded product.
struct Unit {
    std::string_view name;
    int power_of_ten = 0;
    double factor = 1;
    bool listed = true;  ///< named in error messages; false: a spelling that is merely understood
};

constexpr double kibi = 1024;
constexpr double mebi = kibi * 1024;
constexpr double gibi = mebi * 1024;
constexpr double tebi = gibi * 1024;
constexpr double pebi = tebi * 1024;
constexpr double exbi = pebi * 1024;

constexpr std::array byte_units{Unit{"B", 0},         Unit{"kB", 3},          Unit{"MB", 6},
                                Unit{"GB", 9},        Unit{"TB", 12},         Unit{"PB", 15},
                                Unit{"EB", 18},       Unit{"KiB", 0, kibi},   Unit{"MiB", 0, mebi},
                                Unit{"GiB", 0, gibi}, Unit{"TiB", 0, tebi},   Unit{"PiB", 0, pebi},
                                Unit{"EiB", 0, exbi}, Unit{"KB", 3, 1, false}};
constexpr std::array bit_rate_units{
    Unit{"bit/s", 0},          Unit{"kbit/s", 3},         Unit{"Mbit/s", 6},
    Unit{"Gbit/s", 9},         Unit{"Tbit/s", 12},        Unit{"bps", 0, 1, false},
    Unit{"kbps", 3, 1, false}, Unit{"Mbps", 6, 1, false}, Unit{"Gbps", 9, 1, false}};
constexpr std::array byte_rate_units{
    Unit{"B/s", 0},         Unit{"kB/s", 3},        Unit{"MB/s", 6},       Unit{"GB/s", 9},
    Unit{"KiB/s", 0, kibi}, Unit{"MiB/s", 0, mebi}, Unit{"GiB/s", 0, gibi}};
constexpr double week_s = seconds_per_day * days_per_week;
constexpr double month_s = seconds_per_day * days_per_month;
constexpr double year_s = seconds_per_day * days_per_year;
constexpr std::array duration_units{Unit{"ms", -3},
                                    Unit{"s", 0},
                                    Unit{"min", 0, seconds_per_minute},
                                    Unit{"h", 0, seconds_per_hour},
                                    Unit{"d", 0, seconds_per_day},
                                    Unit{"w", 0, week_s},
                                    Unit{"mo", 0, month_s},
                                    Unit{"y", 0, year_s},
                                    Unit{"millisecond", -3, 1, false},
                                    Unit{"milliseconds", -3, 1, false},
                                    Unit{"second", 0, 1, false},
                                    Unit{"seconds", 0, 1, false},
                                    Unit{"minute", 0, seconds_per_minute, false},
                                    Unit{"minutes", 0, seconds_per_minute, false},
                                    Unit{"hour", 0, seconds_per_hour, false},
                                    Unit{"hours", 0, seconds_per_hour, false},
                                    Unit{"day", 0, seconds_per_day, false},
                                    Unit{"days", 0, seconds_per_day, false},
                                    Unit{"week", 0, week_s, false},
                                    Unit{"weeks", 0, week_s, false},
                                    Unit{"month", 0, month_s, false},
                                    Unit{"months", 0, month_s, false},
                                    Unit{"year", 0, year_s, false},
                                    Unit{"years", 0, year_s, false}};
constexpr std::array fraction_units{Unit{"%", -2}};
constexpr std::array power_units{Unit{"W", 0}, Unit{"kW", 3}};

using Units = std::span<const Unit>;

bool is_digit(char c) { return c >= '0' && c <= '9'; }
char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }
std::string lower(std::string_view text) {
    std::string out(text);
    std::transform(out.begin(), out.end(), out.begin(), [](char c) { return lower(c); });
    return out;
}

/// Pasted text carries no-break and thin spaces, and a true minus sign; they mean the plain ones.
std::string plain_ascii(std::string_view text) {
    struct Pair {
        std::string_view from;
        char to;
    };
    constexpr std::array<Pair, 5> pairs{Pair{"\u00A0", ' '}, Pair{"\u202F", ' '},
                                        Pair{"\u2009", ' '}, Pair{"\u2212", '-'}, Pair{"\t", ' '}};
    std::string out;
    for (std::size_t i = 0; i < text.size();) {
        const auto hit = std::find_if(pairs.begin(), pairs.end(), [&](const Pair& pair) {
            return text.substr(i, pair.from.size()) == pair.from;
        });
        if (hit == pairs.end()) {
            out += text[i++];
        } else {
            out += hit->to;
            i += hit->from.size();
        }
    }
    const std::size_t first = out.find_first_not_of(' ');
    if (first == std::string::npos) return {};
    return out.substr(first, out.find_last_not_of(' ') - first + 1);
}

struct Kind {
    Units units;
    std::string_view what;     ///< "a size"
    std::string_view example;  ///< "42 GB"
    std::string_view base;     ///< what a plain number means
};

std::string known_units(const Kind& kind) {
    std::string out;
    for (const Unit& unit : kind.units) {
        if (!unit.listed) continue;
        if (!out.empty()) out += ", ";
        out += unit.name;
    }
    return out;
}

/// The number at the start of a text, digit groups taken out: "-1 500.25e3 GB" → "-1500.25", 3,
/// "GB".
struct Scanned {
    std::string mantissa;
    long exponent = 0;
    std::string unit;
};

/// A run of digits from `i` on, digits grouped by '_' or, in threes, by a space.
std::string scan_digits(std::string_view text, std::size_t& i) {
    std::string digits;
    while (i < text.size()) {
        if (is_digit(text[i])) {
            digits += text[i++];
        } else if (text[i] == '_' && !digits.empty() && i + 1 < text.size() &&
                   is_digit(text[i + 1])) {
            ++i;
        } else if (text[i] == ' ' && !digits.empty() && i + 3 < text.size() &&
                   is_digit(text[i + 1]) && is_digit(text[i + 2]) && is_digit(text[i + 3]) &&
                   (i + 4 >= text.size() || !is_digit(text[i + 4]))) {
            ++i;
        } else {
            break;
        }
    }
    return digits;
}

Parsed<Scanned> scan(std::string_view text, std::string_view typed, const Kind& kind) {
    const auto fail = [&](std::string_view why) -> Parsed<Scanned> {
        return tl::make_unexpected(fmt::format("{} is not {}: {}, for example \"{}\"",
                                               in_quotes(typed), kind.what, why, kind.example));
    };
    Scanned out;
    std::size_t i = 0;
    if (text[i] == '+' || text[i] == '-') {
        if (text[i] == '-') out.mantissa = "-";
        ++i;
    }
    const std::string whole = scan_digits(text, i);
    out.mantissa += whole.empty() ? "0" : whole;
    std::string decimals;
    if (i < text.size() && text[i] == '.') {
        ++i;
        while (i < text.size() &&
               (is_digit(text[i]) || (text[i] == '_' && !decimals.empty() && i + 1 < text.size() &&
                                      is_digit(text[i + 1])))) {
            if (text[i] != '_') decimals += text[i];
            ++i;
        }
        if (!decimals.empty()) out.mantissa += "." + decimals;
    }
    if (whole.empty() && decimals.empty()) return fail("a number comes first");
    if (i < text.size() && (text[i] == 'e' || text[i] == 'E')) {
        std::size_t j = i + 1;
        const bool negative = j < text.size() && text[j] == '-';
        if (j < text.size() && (text[j] == '-' || text[j] == '+')) ++j;
        if (j < text.size() && is_digit(text[j])) {
            // Longer exponents are out of range whatever their digits; the sum below must not be.
            constexpr long most = 100000;
            for (; j < text.size() && is_digit(text[j]); ++j) {
                out.exponent = std::min(out.exponent * 10 + (text[j] - '0'), most);
            }
            if (negative) out.exponent = -out.exponent;
            i = j;
        }
    }
    if (i < text.size() && text[i] == ',') {
        return fail("decimals follow a point, and digits are grouped by a space or _");
    }
    while (i < text.size() && text[i] == ' ') ++i;
    out.unit = text.substr(i);
    if (!out.unit.empty() && (is_digit(out.unit.front()) || out.unit.front() == '.')) {
        return fail("the digits must be one number, grouped in threes if at all");
    }
    return out;
}

std::string unknown_unit(std::string_view typed, std::string_view unit, const Kind& kind) {
    const std::string start = fmt::format("{}: unknown unit {}", in_quotes(typed), in_quotes(unit));
    if (kind.units.data() == byte_units.data() && (unit == "b" || unit == "bit")) {
        return fmt::format("{}: {} could be bits or bytes; a size is in bytes, written B",
                           in_quotes(typed), in_quotes(unit));
    }
    if (kind.units.data() == bit_rate_units.data()) {
        for (const Unit& bytes : byte_rate_units) {
            if (unit == bytes.name) {
                return fmt::format(
                    "{}: {} counts bytes, and a line's rate is in bits; multiply by 8 and "
                    "write it in {}",
                    in_quotes(typed), in_quotes(unit), known_units(kind));
            }
        }
    }
    if (kind.units.data() == byte_rate_units.data()) {
        for (const Unit& bits : bit_rate_units) {
            if (unit == bits.name) {
                return fmt::format(
                    "{}: {} counts bits, and this rate is in bytes; divide by 8 and write it "
                    "in {}",
                    in_quotes(typed), in_quotes(unit), known_units(kind));
            }
        }
    }
    if (kind.units.data() == duration_units.data() && lower(unit) == "m") {
        return fmt::format("{}: {} could be minutes or months; write min or mo", in_quotes(typed),
                           in_quotes(unit));
    }
    for (const Unit& candidate : kind.units) {
        if (lower(unit) == lower(candidate.name)) {
            return fmt::format("{}; did you mean {}? Known are {}", start, candidate.name,
                               known_units(kind));
        }
    }
    return fmt::format("{}; known are {}", start, known_units(kind));
}

Parsed<double> parse(std::string_view typed, const Kind& kind) {
    const std::string text = plain_ascii(typed);
    if (text.empty()) {
        return tl::make_unexpected(
            fmt::format("empty: {} is expected, for example \"{}\"", kind.what, kind.example));
    }
    const Parsed<Scanned> scanned = scan(text, typed, kind);
    if (!scanned) return tl::make_unexpected(scanned.error());
    Unit unit;
    if (!scanned->unit.empty()) {
        const auto* const hit =
            std::find_if(kind.units.data(), kind.units.data() + kind.units.size(),
                         [&](const Unit& known) { return known.name == scanned->unit; });
        if (hit == kind.units.data() + kind.units.size()) {
            return tl::make_unexpected(unknown_unit(typed, scanned->unit, kind));
        }
        unit = *hit;
    }
    const std::string number =
        fmt::format("{}e{}", scanned->mantissa, scanned->exponent + unit.power_of_ten);
    double value = 0;
    const auto [end, failure] =
        std::from_chars(number.data(), number.data() + number.size(), value);
    if (failure != std::errc() || end != number.data() + number.size() ||
        !std::isfinite(value * unit.factor)) {
        return tl::make_unexpected(
            fmt::format("{} is not {}: the number is too large or too small to be held (about "
                        "1e-308 to 1e308 {})",
                        in_quotes(typed), kind.what, kind.base));
    }
    return value * unit.factor;
}

constexpr Kind bytes_kind{byte_units, "a size", "42 GB", "bytes"};
constexpr Kind bit_rate_kind{bit_rate_units, "a line rate", "100 Mbit/s", "bit/s"};
constexpr Kind byte_rate_kind{byte_rate_units, "a rate of bytes", "180 MB/s", "bytes/s"};
constexpr Kind duration_kind{duration_units, "a length of time", "18 ms\" or \"26 w", "seconds"};
constexpr Kind fraction_kind{fraction_units, "a share", "0.4 %\" or \"0.004", "as a fraction"};
constexpr Kind power_kind{power_units, "a power", "48 W", "watts"};

template <class T>
Parsed<T> parse_as(std::string_view text, const Kind& kind) {
    const Parsed<double> value = parse(text, kind);
    if (!value) return tl::make_unexpected(value.error());
    return T{*value};
}

/// Decimal digits of a number: ± 0.d1d2d3… × 10^point.
struct Digits {
    bool negative = false;
    std::string digits;  ///< without leading or trailing zeros; empty for zero
    int point = 0;
};

/// `significant` digits, 1…17; 0: the fewest that read back as the same double.
Digits digits_of(double value, int significant) {
    std::array<char, 64> buffer{};
    const auto result =
        significant == 0
            ? std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                            std::chars_format::scientific)
            : std::to_chars(buffer.data(), buffer.data() + buffer.size(), value,
                            std::chars_format::scientific, std::clamp(significant, 1, 17) - 1);
    const std::string_view text(buffer.data(),
                                static_cast<std::size_t>(result.ptr - buffer.data()));
    Digits out;
    const std::size_t e = text.find('e');
    for (const char c : text.substr(0, e)) {
        if (c == '-') out.negative = true;
        if (is_digit(c)) out.digits += c;
    }
    out.digits.erase(out.digits.find_last_not_of('0') + 1);
    const std::string_view exponent = text.substr(e + 1);
    int power = 0;
    for (const char c : exponent) {
        if (is_digit(c)) power = power * 10 + (c - '0');
    }
    out.point = (exponent.front() == '-' ? -power : power) + 1;
    return out;
}

/// Written out without an exponent.
std::string written_out(const Digits& number, int shift = 0) {
    const std::string sign = number.negative ? "-" : "";
    if (number.digits.empty()) return sign + "0";
    const int point = number.point + shift;
    const int count = static_cast<int>(number.digits.size());
    if (point <= 0)
        return sign + "0." + std::string(static_cast<std::size_t>(-point), '0') + number.digits;
    if (point >= count) {
        return sign + number.digits + std::string(static_cast<std::size_t>(point - count), '0');
    }
    const auto split = static_cast<std::size_t>(point);
    return sign + number.digits.substr(0, split) + "." + number.digits.substr(split);
}

/// Value in a unit, for showing.
double in_unit(double value, const Unit& unit) {
    return unit.power_of_ten >= 0 ? value / std::pow(10.0, unit.power_of_ten) / unit.factor
                                  : value * std::pow(10.0, -unit.power_of_ten) / unit.factor;
}

std::string not_finite(double value, std::string_view unit) {
    if (std::isnan(value)) return "not a number";
    return fmt::format("{}∞ {}", value < 0 ? "-" : "", unit);
}

/// The largest of `units` (ascending) in which the rounded number is at least 1, else the first.
std::string format_in(double value, Units units, int significant) {
    if (!std::isfinite(value)) return not_finite(value, units.front().name);
    if (value == 0) return fmt::format("0 {}", units.front().name);
    for (std::size_t i = units.size(); i-- > 0;) {
        const Digits number = digits_of(in_unit(value, units[i]), significant);
        if (number.point >= 1 || i == 0) {
            return fmt::format("{} {}", written_out(number), units[i].name);
        }
    }
    return {};
}

/// Ties go to the first, so smaller units come first. The base unit always reads back; an exponent
/// is written only where plain digits would run on past 24.
std::string exact_in(double value, Units units) {
    if (!std::isfinite(value)) return not_finite(value, units.front().name);
    const Unit* base = nullptr;
    std::string best;
    const Digits digits = digits_of(value, 0);
    for (const Unit& unit : units) {
        if (!unit.listed) continue;
        if (unit.power_of_ten == 0 && unit.factor == 1) base = &unit;
        std::string number;
        if (unit.factor == 1) {
            number = written_out(digits, -unit.power_of_ten);
        } else {
            const double scaled = value / unit.factor;
            if (scaled * unit.factor != value) continue;
            number = written_out(digits_of(scaled, 0));
        }
        const std::string text = fmt::format("{} {}", number, unit.name);
        if (best.empty() || text.size() < best.size()) best = text;
    }
    constexpr std::size_t most = 24;
    if (best.size() > most && base != nullptr) {
        const std::string text = fmt::format("{} {}", value, base->name);
        if (text.size() < best.size()) return text;
    }
    return best;
}

constexpr std::array decimal_sizes{byte_units[0], byte_units[1], byte_units[2], byte_units[3],
                                   byte_units[4], byte_units[5], byte_units[6]};
constexpr std::array binary_sizes{byte_units[0],  byte_units[7],  byte_units[8], byte_units[9],
                                  byte_units[10], byte_units[11], byte_units[12]};
// Weeks and months are left out: "21 d" says more to a reader of a schedule than "3 w".
constexpr std::array shown_durations{duration_units[0], duration_units[1], duration_units[2],
                                     duration_units[3], duration_units[4], duration_units[7]};

/// Edits (insert, delete, replace, swap of neighbours) that turn one word into the other.
std::size_t edit_distance(const std::string& a, const std::string& b) {
    const std::size_t columns = b.size() + 1;
    std::vector<std::size_t> before(columns);
    std::vector<std::size_t> above(columns);
    std::vector<std::size_t> row(columns);
    for (std::size_t j = 0; j < columns; ++j) above[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        row[0] = i;
        for (std::size_t j = 1; j < columns; ++j) {
            const std::size_t replaced = above[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            row[j] = std::min({above[j] + 1, row[j - 1] + 1, replaced});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
                row[j] = std::min(row[j], before[j - 2] + 1);
            }
        }
        before.swap(above);
        above.swap(row);
    }
    return above[columns - 1];
}

}  // namespace

Parsed<Bytes> parse_bytes(std::string_view text) { return parse_as<Bytes>(text, bytes_kind); }
Parsed<BitsPerSecond> parse_bit_rate(std::string_view text) {
    return parse_as<BitsPerSecond>(text, bit_rate_kind);
}
Parsed<BytesPerSecond> parse_byte_rate(std::string_view text) {
    return parse_as<BytesPerSecond>(text, byte_rate_kind);
}
Parsed<Duration> parse_duration(std::string_view text) {
    return parse_as<Duration>(text, duration_kind);
}
Parsed<double> parse_fraction(std::string_view text) { return parse(text, fraction_kind); }
Parsed<Power> parse_power(std::string_view text) { return parse_as<Power>(text, power_kind); }

std::string format_bytes(Bytes bytes, Prefixes prefixes, int digits) {
    return prefixes == Prefixes::decimal ? format_in(bytes.value, decimal_sizes, digits)
                                         : format_in(bytes.value, binary_sizes, digits);
}
std::string format_bit_rate(BitsPerSecond rate, int digits) {
    return format_in(rate.value, Units(bit_rate_units).first(5), digits);
}
std::string format_byte_rate(BytesPerSecond rate, int digits) {
    return format_in(rate.value, Units(byte_rate_units).first(4), digits);
}
std::string format_duration(Duration duration, int digits) {
    return duration.value == 0 ? "0 s" : format_in(duration.value, shown_durations, digits);
}
std::string format_percent(double fraction, int digits) {
    if (!std::isfinite(fraction)) return not_finite(fraction, "%");
    if (fraction == 0) return "0 %";
    return written_out(digits_of(fraction, digits), 2) + " %";
}

std::string exact_bytes(Bytes bytes) { return exact_in(bytes.value, byte_units); }
std::string exact_bit_rate(BitsPerSecond rate) { return exact_in(rate.value, bit_rate_units); }
std::string exact_byte_rate(BytesPerSecond rate) { return exact_in(rate.value, byte_rate_units); }
std::string exact_duration(Duration duration) {
    return duration.value == 0 && !std::signbit(duration.value)
               ? "0 s"
               : exact_in(duration.value, duration_units);
}
std::string exact_power(Power power) { return exact_in(power.value, power_units); }

std::string nearest_word(std::string_view word, const std::vector<std::string>& known) {
    // Longer words are no typing slips, and the distance costs the product of both lengths.
    constexpr std::size_t longest = 256;
    if (word.empty() || word.size() > longest) return {};
    const std::string typed = lower(word);
    const std::size_t allowed = std::max<std::size_t>(2, word.size() / 3);
    std::string best;
    std::size_t best_distance = allowed + 1;
    for (const std::string& candidate : known) {
        if (candidate.empty() || candidate.size() > typed.size() + allowed ||
            typed.size() > candidate.size() + allowed) {
            continue;
        }
        const std::size_t distance = edit_distance(typed, lower(candidate));
        // Two short words with no letter in common are not near, however few the edits.
        if (distance >= std::max(typed.size(), candidate.size())) continue;
        if (distance < best_distance) {
            best_distance = distance;
            best = candidate;
        }
    }
    return best;
}

}  // namespace ullage
