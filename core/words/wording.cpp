// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/words/wording.h"

#include "core/words/catalogue.h"

#include <fmt/args.h>
#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace ullage {

namespace {

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

/// Digits before the point in threes.
std::string grouped(std::string text, std::string_view sign) {
    const std::size_t first = !text.empty() && text.front() == '-' ? 1 : 0;
    std::size_t at = first;
    while (at < text.size() && is_digit(text[at])) ++at;
    while (at > first + 3) text.insert(at -= 3, sign);
    return text;
}

}  // namespace

std::string Wording::catalogued(const char* context, const std::string& id) const {
    return translated(language_, context, id);
}

std::string Wording::catalogued(const char* context, const char* one, const char* many, long n) const {
    return translated(language_, context, one, many, n);
}

std::string Wording::filled(const std::string& sentence, const std::vector<std::string>& values) const {
    if (values.empty()) return sentence;
    fmt::dynamic_format_arg_store<fmt::format_context> store;
    for (const auto& value : values) store.push_back(value);
    return fmt::vformat(sentence, store);
}

std::string Wording::operator()(const Message& m) const {
    std::vector<std::string> values;
    for (const auto& argument : m.arguments) values.push_back(said(argument));
    return filled(m.id_many.empty() ? translated(language_, "", m.id)
                                    : translated(language_, "", m.id, m.id_many, m.count),
                  values);
}

std::string Wording::said(const Argument& a) const {
    switch (a.as) {
        case Argument::As::text: return a.text;
        case Argument::As::exact: return figures(a.text);
        case Argument::As::whole: return whole(std::llround(a.number));
        case Argument::As::figure: return number(a.number, a.digits);
        case Argument::As::percentage: return percent(a.number, a.digits);
        case Argument::As::bytes: return bytes(a.number);
        case Argument::As::byte_rate: return byte_rate(a.number);
        case Argument::As::duration:
            return language_ == Language::english ? format_duration({a.number}) : hours(in_hours({a.number}));
        case Argument::As::date: return date(Day(std::chrono::days(std::llround(a.number))));
        case Argument::As::instant: return format_instant(Instant(std::chrono::seconds(std::llround(a.number))));
        case Argument::As::message: return a.said ? (*this)(*a.said) : std::string();
    }
    return {};
}

/// A figure as quantity_text.h writes it ("9.2 TB"), with the language's decimal sign.
std::string Wording::figures(std::string text) const {
    if (language_ == Language::english) return text;
    for (std::size_t i = 1; i + 1 < text.size(); ++i)
        if (text[i] == '.' && is_digit(text[i - 1]) && is_digit(text[i + 1])) text[i] = ',';
    return text;
}

std::string Wording::bytes(double bytes, Prefixes prefixes, int digits) const {
    return figures(format_bytes({bytes}, prefixes, digits));
}

std::string Wording::bit_rate(double bits_per_second) const { return figures(format_bit_rate({bits_per_second})); }
std::string Wording::byte_rate(double bytes_per_second) const { return figures(format_byte_rate({bytes_per_second})); }
std::string Wording::percent(double fraction, int digits) const { return figures(format_percent(fraction, digits)); }

std::string Wording::number(double value, int digits) const {
    return figures(fmt::format("{:.{}g}", value, digits));
}

std::string Wording::decimals(double value, int decimals) const {
    return figures(fmt::format("{:.{}f}", value, decimals));
}

/// English leaves whole numbers as they are; German groups those of five digits or more.
std::string Wording::whole(long long n) const {
    std::string text = std::to_string(n);
    constexpr long long ungrouped = 10'000;
    return language_ == Language::german && std::abs(n) >= ungrouped ? grouped(std::move(text), ".") : text;
}

std::string Wording::money(double amount, const std::string& currency) const {
    const double size = std::abs(amount);
    const int decimals = size >= 100 ? 0 : size >= 10 ? 1 : 2;
    std::string text = figures(fmt::format("{:.{}f}", amount, decimals));
    const bool german = language_ == Language::german;
    return grouped(std::move(text), german ? "." : ",") + " " + (german && currency == "EUR" ? "€" : currency);
}

std::string Wording::date(Day day) const {
    if (language_ == Language::english) return format_date(day);
    const std::chrono::year_month_day d{day};
    return fmt::format("{:02}.{:02}.{:04}", static_cast<unsigned>(d.day()), static_cast<unsigned>(d.month()),
                       static_cast<int>(d.year()));
}

std::string Wording::month(Day day) const {
    if (language_ == Language::english) return format_month(day);
    static constexpr const char* names[] = {"Jan.", "Feb.", "März",  "Apr.", "Mai",  "Juni",
                                            "Juli", "Aug.", "Sept.", "Okt.", "Nov.", "Dez."};
    const std::chrono::year_month_day d{day};
    return fmt::format("{} {}", names[static_cast<unsigned>(d.month()) - 1], static_cast<int>(d.year()));
}

std::string Wording::span(double days, Case wanted) const {
    constexpr double month = days_per_year / 12;
    const bool dative = wanted == Case::dative;
    if (days < 60) {
        const long n = std::lround(days);
        return dative ? say_n_as("dative", "{} day", "{} days", n, n) : say_n("{} day", "{} days", n, n);
    }
    if (days < 24 * month) {
        const long n = std::lround(days / month);
        return dative ? say_as("dative", "about {} months", n) : say("about {} months", n);
    }
    const double years = std::round(days / days_per_year * 10) / 10;
    const std::string n = decimals(years, years == std::floor(years) ? 0 : 1);
    return dative ? say_as("dative", "about {} years", n) : say("about {} years", n);
}

std::string Wording::horizon(double days, Case wanted) const {
    const bool dative = wanted == Case::dative;
    const double years = days / days_per_year;
    if (std::abs(years - std::round(years)) < 0.01 && years >= 0.99) {
        const long n = std::lround(years);
        return dative ? say_n_as("dative", "{} year", "{} years", n, n) : say_n("{} year", "{} years", n, n);
    }
    const long n = std::lround(days);
    return dative ? say_n_as("dative", "{} day", "{} days", n, n) : say_n("{} day", "{} days", n, n);
}

std::string Wording::hours(double hours, Case wanted) const {
    constexpr double as_days = 72;
    if (hours < 1) {
        const long n = std::max(1L, std::lround(hours * 60));
        return say_n("{} minute", "{} minutes", n, n);
    }
    if (hours < 10) return say("{} hours", decimals(hours, 1));
    if (hours < as_days) return say("{} hours", std::lround(hours));
    const long n = std::lround(hours / 24);
    return wanted == Case::dative ? say_n_as("dative", "{} day", "{} days", n, n) : say_n("{} day", "{} days", n, n);
}

std::string Wording::list(const std::vector<std::string>& items) const {
    std::string text;
    for (std::size_t i = 0; i < items.size(); ++i) {
        if (i + 1 == items.size() && i > 0) return say("{} and {}", text, items[i]);
        text += (i > 0 ? ", " : "") + items[i];
    }
    return text;
}

std::string english(const Message& message) { return Wording()(message); }

}  // namespace ullage
