// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A sentence that is not yet in any language: its English text with blanks, and the values for them.
/// Pieces of the core that compute say things so; a Wording (wording.h) puts them into words.

#include "core/units/calendar.h"
#include "core/units/units.h"

#include <memory>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

namespace ullage {

struct Message;

/// A number to so many significant digits.
struct Significant {
    double value = 0;
    int digits = 3;
};
/// Digits that are written already, with a decimal point ("2.5 TB"): only the point is the language's.
struct Exact {
    std::string text;
};
struct Percentage {
    double fraction = 0;
    int digits = 3;
};

/// What fills one blank.
struct Argument {
    enum class As { text, exact, whole, figure, percentage, bytes, byte_rate, duration, date, instant, message };

    Argument(std::string words) : as(As::text), text(std::move(words)) {}
    Argument(const char* words) : as(As::text), text(words) {}
    Argument(Exact e) : as(As::exact), text(std::move(e.text)) {}
    Argument(Significant f) : as(As::figure), number(f.value), digits(f.digits) {}
    Argument(Percentage p) : as(As::percentage), number(p.fraction), digits(p.digits) {}
    Argument(Bytes b) : as(As::bytes), number(b.value) {}
    Argument(BytesPerSecond r) : as(As::byte_rate), number(r.value) {}
    Argument(Duration d) : as(As::duration), number(d.value) {}
    Argument(Day day) : as(As::date), number(static_cast<double>(day.time_since_epoch().count())) {}
    Argument(Instant t) : as(As::instant), number(static_cast<double>(t.time_since_epoch().count())) {}
    Argument(Message said);
    template <class Whole, class = std::enable_if_t<std::is_integral_v<Whole>>>
    Argument(Whole n) : as(As::whole), number(static_cast<double>(n)) {}

    As as = As::text;
    std::string text;
    double number = 0;  ///< in the unit of `as`: bytes, bytes/s, seconds, days or seconds since 1970
    int digits = 3;
    std::shared_ptr<const Message> said;  ///< for As::message
    bool operator==(const Argument&) const;
};

struct Message {
    std::string id;                   ///< English, with {} for each argument; what is no known id is said as it is
    std::string id_many;              ///< where `count` chooses between two texts; else empty
    long count = 0;
    std::vector<Argument> arguments;

    Message() = default;
    Message(std::string words) : id(std::move(words)) {}
    Message(const char* words) : id(words) {}
    bool empty() const { return id.empty(); }
    bool operator==(const Message&) const;
};

inline Argument::Argument(Message message)
    : as(As::message), said(std::make_shared<const Message>(std::move(message))) {}

inline bool Argument::operator==(const Argument& o) const {
    return as == o.as && text == o.text && number == o.number && digits == o.digits &&
           (said && o.said ? *said == *o.said : said == o.said);
}

inline bool Message::operator==(const Message& o) const {
    return id == o.id && id_many == o.id_many && count == o.count && arguments == o.arguments;
}

/// For texts that are kept before they are said: marks them for the catalogue.
constexpr const char* translatable(const char* text) { return text; }

/// The blanks are filled in the order of the values.
template <class... Values>
Message message(const char* id, Values&&... values) {
    Message m(id);
    (m.arguments.emplace_back(std::forward<Values>(values)), ...);
    return m;
}

/// The text for one, or that for `count`; the blanks as above, the count only if it is among the values.
template <class... Values>
Message message_n(const char* one, const char* many, long count, Values&&... values) {
    Message m = message(one, std::forward<Values>(values)...);
    m.id_many = many;
    m.count = count;
    return m;
}

}  // namespace ullage
