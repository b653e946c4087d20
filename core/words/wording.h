// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Sentences and figures in a language.
///
/// Model. The sources hold each sentence in English, with {} for what is filled in: that text is the
/// key of the translators' catalogue (resources/translations/de.po, GNU gettext). A translation may
/// have its blanks in another order, as {1} … {0}. Numbers are rounded as quantity_text.h does, and
/// written with the language's decimal sign, grouping, months and order of a date.
///   English   9.2 TB   2,150 EUR   2027-10-12   Oct 2027     about 14 months
///   German    9,2 TB   2.150 €     12.10.2027   Okt. 2027    etwa 14 Monate, in etwa 14 Monaten
///
/// Assumptions: the catalogue is complete (tests/core/words); what it does not hold is said in English.
/// Ignored: problems of input files, which are English in every language: they name keys and types.
/// Invariants: values in, values out; no locale of the process is read or set; safe on any thread.
/// Source of German figures and dates: DIN 5008 (from memory).

#include "core/units/quantity_text.h"
#include "core/words/language.h"
#include "core/words/message.h"

#include <string>
#include <string_view>
#include <vector>

namespace ullage {

/// What a span of time stands after: German says "14 Monate" but "in 14 Monaten".
enum class Case { nominative, dative };

class Wording {
public:
    explicit Wording(Language language = Language::english) : language_(language) {}
    Language language() const { return language_; }

    /// The sentence with its blanks filled; whole numbers and texts fill them, other numbers are said
    /// first (see below).
    template <class... Values>
    std::string say(const char* id, const Values&... values) const {
        return filled(catalogued("", id), {as_text(values)...});
    }
    /// … where the same English words are said differently: `context` tells translators which.
    template <class... Values>
    std::string say_as(const char* context, const char* id, const Values&... values) const {
        return filled(catalogued(context, id), {as_text(values)...});
    }
    /// … in the form for `n`: "{} run", "{} runs". `n` fills a blank only if it is among the values.
    template <class... Values>
    std::string say_n(const char* one, const char* many, long n, const Values&... values) const {
        return filled(catalogued("", one, many, n), {as_text(values)...});
    }
    template <class... Values>
    std::string say_n_as(const char* context, const char* one, const char* many, long n,
                         const Values&... values) const {
        return filled(catalogued(context, one, many, n), {as_text(values)...});
    }
    std::string operator()(const Message& message) const;

    std::string bytes(double bytes, Prefixes prefixes = Prefixes::decimal, int digits = 3) const;
    std::string bit_rate(double bits_per_second) const;
    std::string byte_rate(double bytes_per_second) const;
    std::string percent(double fraction, int digits = 3) const;
    std::string number(double value, int digits = 3) const;     ///< significant digits, trailing zeros dropped
    std::string decimals(double value, int decimals) const;     ///< so many behind the decimal sign
    std::string whole(long long n) const;
    std::string money(double amount, const std::string& currency) const;
    std::string date(Day day) const;
    std::string month(Day day) const;
    /// "45 days", "about 20 months", "about 3.5 years": under 60 days in days, under 24 months in months.
    std::string span(double days, Case wanted = Case::nominative) const;
    /// Exact, not "about": "5 years", "400 days".
    std::string horizon(double days, Case wanted = Case::nominative) const;
    /// "40 minutes", "2.5 hours", "4 days"; hours ≥ 0.
    std::string hours(double hours, Case wanted = Case::nominative) const;
    /// A, B and C.
    std::string list(const std::vector<std::string>& items) const;

private:
    std::string catalogued(const char* context, const std::string& id) const;
    std::string catalogued(const char* context, const char* one, const char* many, long n) const;
    std::string filled(const std::string& sentence, const std::vector<std::string>& values) const;
    std::string figures(std::string english) const;
    std::string said(const Argument& argument) const;

    static std::string as_text(const std::string& text) { return text; }
    static std::string as_text(std::string_view text) { return std::string(text); }
    static std::string as_text(const char* text) { return text; }
    std::string as_text(const Message& m) const { return (*this)(m); }
    template <class Whole, class = std::enable_if_t<std::is_integral_v<Whole>>>
    std::string as_text(Whole n) const {
        return whole(static_cast<long long>(n));
    }

    Language language_;
};

/// A message in English, for logs and tests.
std::string english(const Message& message);

}  // namespace ullage
