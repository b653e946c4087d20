// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/quantity_traits.h"
#include "core/site/site_words.h"

#include <charconv>
#include <climits>
#include <cmath>
#include <optional>
#include <system_error>

namespace ullage {
namespace {

std::string lower(std::string_view text) {
    std::string out(text);
    for (char& c : out) {
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    }
    return out;
}

std::string_view trimmed(std::string_view text) {
    const std::size_t first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

constexpr std::array<std::string_view, 7> day_names{"Mon", "Tue", "Wed", "Thu",
                                                    "Fri", "Sat", "Sun"};
constexpr std::array<std::string_view, 7> long_day_names{
    "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"};

std::optional<std::size_t> day_number(std::string_view text) {
    const std::string name = lower(trimmed(text));
    for (std::size_t i = 0; i < 7; ++i) {
        if (name == long_day_names[i] || name == lower(day_names[i])) return i;
    }
    return std::nullopt;
}

}  // namespace

tl::expected<Period, std::string> period_of_seconds(double value) {
    struct Step {
        double length;
        Period::Unit unit;
    };
    for (const Step& step :
         {Step{seconds_per_day, Period::Unit::day}, Step{seconds_per_hour, Period::Unit::hour},
          Step{seconds_per_minute, Period::Unit::minute}}) {
        const double n = value / step.length;
        if (n >= 1 && n <= INT_MAX && n == std::floor(n)) {
            return Period{static_cast<int>(n), step.unit};
        }
    }
    return tl::make_unexpected(
        fmt::format("{} seconds is not a period: write a whole number of minutes, hours, days, "
                    "weeks, months or years, for example \"15 min\" or \"1 d\"",
                    value));
}

std::string to_text(const Amount& amount) {
    if (amount.of == Amount::Of::bytes) return exact_bytes(Bytes{amount.value});
    constexpr int most_digits = 17;
    for (int digits = 1; digits < most_digits; ++digits) {
        std::string text = format_percent(amount.value, digits);
        const auto back = parse_fraction(text);
        if (back && *back == amount.value) return text;
    }
    return format_percent(amount.value, most_digits);
}

std::string to_text(const Period& period) {
    return fmt::format("{} {}", period.n, word_of(period.unit, period_words));
}

std::string to_text(Money money) { return fmt::format("{}", money.value); }

std::string to_text(const Redundancy& redundancy) {
    switch (redundancy.kind) {
        case Redundancy::Kind::none:
            return "none";
        case Redundancy::Kind::mirror:
            return fmt::format("mirror-{}", redundancy.n);
        case Redundancy::Kind::parity:
            return fmt::format("parity-{}", redundancy.n);
    }
    return {};
}

std::string to_text(Wrapper wrapper) { return word_of(wrapper, wrapper_words); }

std::string to_text(Offer::As as) { return word_of(as, offer_words); }

std::string days_text(const std::array<bool, 7>& days) {
    std::string out;
    for (std::size_t i = 0; i < 7; ++i) {
        if (!days[i]) continue;
        std::size_t last = i;
        while (last + 1 < 7 && days[last + 1]) ++last;
        if (!out.empty()) out += ",";
        out += day_names[i];
        if (last > i) out += fmt::format("-{}", day_names[last]);
        i = last;
    }
    return out;
}

tl::expected<Amount, std::string> parse_amount(std::string_view text) {
    if (text.find('%') != std::string_view::npos) {
        const auto share = parse_fraction(text);
        if (!share) return tl::make_unexpected(share.error());
        return Amount{*share, Amount::Of::live_share};
    }
    const auto bytes = parse_bytes(text);
    if (!bytes) return tl::make_unexpected(bytes.error() + "; or a share of the live bytes, in %");
    return Amount{bytes->value, Amount::Of::bytes};
}

namespace {

/// Where the number of a price ends: the last character that is part of it, and 1.
std::size_t end_of_number(std::string_view text) {
    const std::size_t last = text.find_last_of("0123456789.%");
    return last == std::string_view::npos ? 0 : last + 1;
}

}  // namespace

tl::expected<Money, std::string> parse_money(std::string_view text) {
    const std::string_view number = text.substr(0, end_of_number(text));
    const auto value = parse_fraction(number);
    if (!value || number.find('%') != std::string_view::npos) {
        return tl::make_unexpected(fmt::format(
            "{} is not a price; write a number and, if you like, the currency after it, such as "
            "\"2150 EUR\"",
            in_quotes(text)));
    }
    return Money{*value};
}

std::string unit_of_money(std::string_view text) {
    return std::string(trimmed(text.substr(end_of_number(text))));
}

tl::expected<Period, std::string> parse_period(std::string_view text) {
    const auto fail = [&](std::string_view why) {
        return tl::make_unexpected(
            fmt::format("{} is not a period: {}; write for example \"15 min\", \"1 h\", \"1 d\", "
                        "\"1 w\", \"1 mo\" or \"1 y\"",
                        in_quotes(text), why));
    };
    const std::string_view typed = trimmed(text);
    int n = 0;
    const auto [end, failure] = std::from_chars(typed.data(), typed.data() + typed.size(), n);
    if (failure == std::errc::result_out_of_range) return fail("the number is too large");
    if (failure != std::errc()) return fail("a whole number comes first");
    const std::string_view unit =
        trimmed(typed.substr(static_cast<std::size_t>(end - typed.data())));
    if (unit.empty()) return period_of_seconds(n);
    if (unit.front() == '.' || unit.front() == ',' || unit.front() == 'e') {
        return fail("the number must be whole");
    }
    if (n < 1) return fail("the number must be at least 1");
    for (const Word<Period::Unit>& word : period_words) {
        if (word.text == unit) return Period{n, word.value};
    }
    if (unit == "s" || unit == "ms") return fail("the shortest is a minute");
    if (unit == "m" || unit == "M") return fail("m could be minutes or months");
    return fail(fmt::format("unknown unit {}; known are min, h, d, w, mo, y", in_quotes(unit)));
}

tl::expected<Redundancy, std::string> parse_redundancy(std::string_view text) {
    constexpr std::array words{
        Word<std::pair<Redundancy::Kind, int>>{"none", {Redundancy::Kind::none, 1}},
        Word<std::pair<Redundancy::Kind, int>>{"mirror-2", {Redundancy::Kind::mirror, 2}},
        Word<std::pair<Redundancy::Kind, int>>{"mirror-3", {Redundancy::Kind::mirror, 3}},
        Word<std::pair<Redundancy::Kind, int>>{"mirror-4", {Redundancy::Kind::mirror, 4}},
        Word<std::pair<Redundancy::Kind, int>>{"parity-1", {Redundancy::Kind::parity, 1}},
        Word<std::pair<Redundancy::Kind, int>>{"parity-2", {Redundancy::Kind::parity, 2}},
        Word<std::pair<Redundancy::Kind, int>>{"parity-3", {Redundancy::Kind::parity, 3}}};
    const auto value = parse_word(text, words);
    if (!value) return tl::make_unexpected(value.error());
    return Redundancy{value->first, value->second};
}

tl::expected<Wrapper, std::string> parse_wrapper(std::string_view text) {
    return parse_word(text, wrapper_words);
}

tl::expected<std::array<bool, 7>, std::string> parse_days(std::string_view text) {
    const auto fail = [&](std::string_view part) {
        return tl::make_unexpected(fmt::format(
            "{}: {} is not a day or a run of days; write for example \"Mon-Fri\" or \"Sat,Sun\"",
            in_quotes(text), in_quotes(part)));
    };
    std::array<bool, 7> days{};
    std::string_view rest = text;
    while (true) {
        const std::size_t comma = rest.find(',');
        const std::string_view part = trimmed(rest.substr(0, comma));
        const std::size_t dash = part.find('-');
        const auto first = day_number(part.substr(0, dash));
        const auto last =
            dash == std::string_view::npos ? first : day_number(part.substr(dash + 1));
        if (!first || !last) return fail(part);
        // "Sat-Mon" runs over the end of the week.
        for (std::size_t i = *first;; i = (i + 1) % 7) {
            days[i] = true;
            if (i == *last) break;
        }
        if (comma == std::string_view::npos) return days;
        rest.remove_prefix(comma + 1);
    }
}

}  // namespace ullage
