// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/units/calendar.h"

#include "cctz/time_zone.h"
#include "core/units/quoted_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <optional>
#include <system_error>
#include <vector>

namespace ullage {
namespace {

using std::chrono::sys_days;
using std::chrono::year_month_day;
using namespace std::chrono_literals;

constexpr int first_year = 1900;
constexpr int last_year = 9999;
constexpr Day first_day{std::chrono::January / 1 / first_year};
constexpr Day last_day{std::chrono::December / 31 / last_year};
constexpr int seconds_in_day = 86400;
constexpr std::array<std::string_view, 12> month_names{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                       "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
constexpr std::array<std::string_view, 12> long_month_names{
    "January", "February", "March",     "April",   "May",      "June",
    "July",    "August",   "September", "October", "November", "December"};

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Takes exactly `count` digits off the front.
std::optional<int> take_digits(std::string_view& text, std::size_t count) {
    if (text.size() < count) return std::nullopt;
    int value = 0;
    for (std::size_t i = 0; i < count; ++i) {
        if (!is_digit(text[i])) return std::nullopt;
        value = value * 10 + (text[i] - '0');
    }
    text.remove_prefix(count);
    return value;
}

bool take(std::string_view& text, char c) {
    if (text.empty() || text.front() != c) return false;
    text.remove_prefix(1);
    return true;
}

/// A date off the front of the text.
tl::expected<Day, std::string> take_date(std::string_view& text, std::string_view typed) {
    const auto year = take_digits(text, 4);
    const bool dash = year && take(text, '-');
    const auto month = dash ? take_digits(text, 2) : std::nullopt;
    const bool dash2 = month && take(text, '-');
    const auto day = dash2 ? take_digits(text, 2) : std::nullopt;
    if (!day) {
        return tl::make_unexpected(
            fmt::format("{} is not a date: write year-month-day, for example \"2026-11-01\"",
                        in_quotes(typed)));
    }
    if (*year < first_year) {
        return tl::make_unexpected(fmt::format("{}: the year {} is outside {} to {}",
                                               in_quotes(typed), *year, first_year, last_year));
    }
    if (*month < 1 || *month > 12) {
        return tl::make_unexpected(fmt::format("{}: there is no month {}; months run from 01 to 12",
                                               in_quotes(typed), *month));
    }
    const std::chrono::year y{*year};
    const std::chrono::month m{static_cast<unsigned>(*month)};
    const auto length =
        static_cast<unsigned>(std::chrono::year_month_day_last{y / m / std::chrono::last}.day());
    if (*day < 1 || *day > static_cast<int>(length)) {
        return tl::make_unexpected(
            fmt::format("{}: there is no day {}; {} {} has {} days", in_quotes(typed), *day,
                        long_month_names[static_cast<std::size_t>(*month - 1)], *year, length));
    }
    return Day{y / m / std::chrono::day{static_cast<unsigned>(*day)}};
}

std::string time_form(std::string_view typed) {
    return fmt::format("{} is not a time of day: write hours and minutes, for example \"20:00\"",
                       in_quotes(typed));
}

/// Hours, minutes and, if there, seconds off the front: 0…86400.
tl::expected<int, std::string> take_time(std::string_view& text, std::string_view typed) {
    const std::size_t hour_digits = text.size() > 1 && text[1] == ':' ? 1 : 2;
    const auto hour = take_digits(text, hour_digits);
    const auto minute = hour && take(text, ':') ? take_digits(text, 2) : std::nullopt;
    if (!minute) return tl::make_unexpected(time_form(typed));
    int second = 0;
    if (take(text, ':')) {
        const auto read = take_digits(text, 2);
        if (!read) return tl::make_unexpected(time_form(typed));
        second = *read;
    }
    const int total = *hour * 3600 + *minute * 60 + second;
    if (*minute > 59 || second > 59 || total > seconds_in_day) {
        return tl::make_unexpected(
            fmt::format("{}: a time of day runs from 00:00 to 24:00, minutes and seconds to 59",
                        in_quotes(typed)));
    }
    return total;
}

/// "Z", "+01:00", "-0530", "+01" → seconds east of UTC.
std::optional<int> parse_offset(std::string_view text) {
    if (text.empty() || text == "Z" || text == "z") return 0;
    const int sign = text.front() == '-' ? -1 : 1;
    if (!take(text, '-') && !take(text, '+')) return std::nullopt;
    const auto hour = take_digits(text, 2);
    if (!hour) return std::nullopt;
    int minute = 0;
    if (!text.empty()) {
        take(text, ':');
        const auto read = take_digits(text, 2);
        if (!read) return std::nullopt;
        minute = *read;
    }
    if (!text.empty() || *hour > 23 || minute > 59) return std::nullopt;
    return sign * (*hour * 3600 + minute * 60);
}

tl::expected<Instant, std::string> within_years(Instant instant, std::string_view typed) {
    if (instant < Instant{first_day} || instant >= Instant{last_day} + 24h) {
        return tl::make_unexpected(fmt::format("{} is outside the years {} to {}", in_quotes(typed),
                                               first_year, last_year));
    }
    return instant;
}

tl::expected<Instant, std::string> epoch_seconds(std::string_view text) {
    std::int64_t seconds = 0;
    const auto [end, failure] = std::from_chars(text.data(), text.data() + text.size(), seconds);
    const Instant latest = Instant{last_day} + 24h;
    if (failure != std::errc() || end != text.data() + text.size() ||
        seconds < Instant{first_day}.time_since_epoch().count() ||
        seconds >= latest.time_since_epoch().count()) {
        return tl::make_unexpected(
            fmt::format("{} seconds since 1970 is outside the years {} to {}; milliseconds are not "
                        "read, divide by 1000",
                        in_quotes(text), first_year, last_year));
    }
    return Instant{std::chrono::seconds{seconds}};
}

}  // namespace

tl::expected<Day, std::string> parse_date(std::string_view text) {
    std::string_view rest = text;
    auto day = take_date(rest, text);
    if (day && !rest.empty()) {
        return tl::make_unexpected(fmt::format(
            "{} is not a date: nothing may follow year-month-day, for example \"2026-11-01\"",
            in_quotes(text)));
    }
    return day;
}

tl::expected<Instant, std::string> parse_instant(std::string_view text) {
    const bool negative = text.size() > 1 && text.front() == '-';
    const std::string_view digits = text.substr(negative ? 1 : 0);
    if (!digits.empty() && std::all_of(digits.begin(), digits.end(), is_digit)) {
        return epoch_seconds(text);
    }
    std::string_view rest = text;
    const auto day = take_date(rest, text);
    if (!day) {
        return tl::make_unexpected(
            fmt::format("{}; a moment is written \"2026-11-01T04:00:00Z\", or in whole seconds "
                        "since 1970",
                        day.error()));
    }
    if (rest.empty()) return Instant{*day};
    if (!take(rest, 'T') && !take(rest, 't') && !take(rest, ' ')) {
        return tl::make_unexpected(
            fmt::format("{} is not a moment: after the date comes T and the time, for example "
                        "\"2026-11-01T04:00:00Z\"",
                        in_quotes(text)));
    }
    const auto time = take_time(rest, text);
    if (!time) return tl::make_unexpected(time.error());
    if (!rest.empty() && (rest.front() == '.' || rest.front() == ',')) {
        rest.remove_prefix(1);
        if (!take_digits(rest, 1)) return tl::make_unexpected(time_form(text));
        while (!rest.empty() && is_digit(rest.front())) rest.remove_prefix(1);
    }
    const auto offset = parse_offset(rest);
    if (!offset) {
        return tl::make_unexpected(
            fmt::format("{}: {} is not an offset from UTC; write Z, or one like +01:00",
                        in_quotes(text), in_quotes(rest)));
    }
    return within_years(Instant{*day} + std::chrono::seconds{*time - *offset}, text);
}

tl::expected<int, std::string> parse_time_of_day(std::string_view text) {
    std::string_view rest = text;
    auto time = take_time(rest, text);
    if (time && !rest.empty()) return tl::make_unexpected(time_form(text));
    return time;
}

std::string format_date(Day day) {
    const year_month_day date{day};
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

std::string format_month(Day day) {
    const year_month_day date{day};
    return fmt::format("{} {}", month_names[static_cast<unsigned>(date.month()) - 1],
                       static_cast<int>(date.year()));
}

std::string format_instant(Instant instant) {
    const Day day = std::chrono::floor<std::chrono::days>(instant);
    const auto second = (instant - Instant{day}).count();
    return fmt::format("{}T{:02}:{:02}:{:02}Z", format_date(day), second / 3600, second / 60 % 60,
                       second % 60);
}

std::string format_time_of_day(int seconds) {
    const std::string minutes = fmt::format("{:02}:{:02}", seconds / 3600, seconds / 60 % 60);
    return seconds % 60 == 0 ? minutes : fmt::format("{}:{:02}", minutes, seconds % 60);
}

double days_between(Instant a, Instant b) {
    return static_cast<double>((b - a).count()) / seconds_in_day;
}

Day add_days(Day day, double days) {
    if (std::isnan(days)) return day;
    const double most = static_cast<double>((last_day - day).count());
    const double least = static_cast<double>((first_day - day).count());
    return day + std::chrono::days{static_cast<int>(
                     std::clamp(std::floor(days), std::min(least, 0.0), std::max(most, 0.0)))};
}

Instant add_days(Instant instant, double days) {
    return instant + std::chrono::seconds{std::llround(days * seconds_in_day)};
}

int weekday_of(Day day) { return static_cast<int>(std::chrono::weekday{day}.iso_encoding()) - 1; }

/// The zone's offsets from 1970 to 2200 as a table, since calendars ask for millions of moments; beyond it the
/// library's rules.
class TimeZone::Zone {
    using Seconds = std::chrono::seconds;
    static constexpr Seconds table_from{0};
    static constexpr Seconds table_to{7'258'118'400};  // 2200-01-01
    static constexpr Seconds most_offset{24 * 3600};
    static constexpr Seconds page{100 * 86400};

    struct Span {
        Seconds since, offset;
    };

public:
    explicit Zone(cctz::time_zone zone) : rules_(std::move(zone)) {
        const auto begin_span = [this](Instant since) {
            spans_.push_back({since.time_since_epoch(), Seconds{rules_.lookup(since).offset}});
        };
        Instant newest{table_from};
        begin_span(newest);
        cctz::time_zone::civil_transition change;
        while (rules_.next_transition(newest, &change)) {
            const auto found = rules_.lookup(change.to);
            newest = found.kind == cctz::time_zone::civil_lookup::REPEATED ? found.trans : found.pre;
            if (newest >= Instant{table_to}) break;
            begin_span(newest);
        }
        std::size_t span = 0;
        for (Seconds t = table_from; t < table_to; t += page) {
            while (span + 1 < spans_.size() && spans_[span + 1].since <= t) ++span;
            pages_.push_back(span);
        }
    }

    /// The wall clock, as seconds since 1970 by it.
    Seconds wall_clock(Instant instant) const {
        const Seconds t = instant.time_since_epoch();
        if (t < table_from || t >= table_to) {
            const cctz::civil_second second = cctz::convert(instant, rules_);
            return Seconds{second - cctz::civil_second(1970, 1, 1)};
        }
        return t + spans_[span_at(t)].offset;
    }

    /// The first moment at which the wall clock shows this; if it jumps over it, the moment of the jump.
    Instant moment_of(Seconds wall) const {
        if (wall < table_from + most_offset || wall >= table_to - most_offset) {
            return cctz::convert(cctz::civil_second(1970, 1, 1) + wall.count(), rules_);
        }
        std::size_t span = span_at(wall - most_offset);
        while (span + 1 < spans_.size() && wall >= spans_[span + 1].since + spans_[span].offset) ++span;
        return Instant{std::max(wall - spans_[span].offset, spans_[span].since)};
    }

private:
    /// Of a moment in the table.
    std::size_t span_at(Seconds t) const {
        std::size_t span = pages_[static_cast<std::size_t>(t / page)];
        while (span + 1 < spans_.size() && spans_[span + 1].since <= t) ++span;
        return span;
    }

    cctz::time_zone rules_;
    std::vector<Span> spans_;
    std::vector<std::size_t> pages_;  // the span at the beginning of each page
};

TimeZone::TimeZone() = default;

tl::expected<TimeZone, std::string> TimeZone::find(const std::string& iana_name) {
    TimeZone found;
    if (iana_name == "UTC") return found;
    const auto fail = [&] {
        return tl::make_unexpected(
            fmt::format("{} is not a time zone this system knows: use a name of the IANA database, "
                        "for example \"Europe/Berlin\" or \"UTC\"",
                        in_quotes(iana_name)));
    };
    // The library would also take file paths and this machine's own zone; a site means the same
    // everywhere, so only names of the database are passed on.
    const bool plain = !iana_name.empty() && iana_name.size() <= 64 &&
                       std::all_of(iana_name.begin(), iana_name.end(), [](char c) {
                           return is_digit(c) || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
                                  c == '_' || c == '+' || c == '-' || c == '/';
                       });
    if (!plain || iana_name.front() == '/' || iana_name == "localtime") return fail();
    cctz::time_zone rules;
    if (!cctz::load_time_zone(iana_name, &rules)) return fail();
    found.name_ = iana_name;
    found.zone_ = std::make_shared<Zone>(std::move(rules));
    return found;
}

Instant TimeZone::instant_of(Day local_date, int seconds_of_day) const {
    if (!zone_) return Instant{local_date} + std::chrono::seconds{seconds_of_day};
    return zone_->moment_of(Instant{local_date}.time_since_epoch() + std::chrono::seconds{seconds_of_day});
}

Day TimeZone::local_day(Instant instant) const {
    return std::chrono::floor<std::chrono::days>(zone_ ? Instant{zone_->wall_clock(instant)} : instant);
}

int TimeZone::local_seconds_of_day(Instant instant) const {
    const Instant wall = zone_ ? Instant{zone_->wall_clock(instant)} : instant;
    return static_cast<int>((wall - Instant{std::chrono::floor<std::chrono::days>(wall)}).count());
}

}  // namespace ullage
