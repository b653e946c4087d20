// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A field for a quantity with its unit, kept as it was typed: "9.2 TB" stays "9.2 TB".
///
/// Parsing and formatting are the core's; an unreadable text is refused with the core's sentence.

#include "core/site/site.h"
#include "core/site/site_json.h"
#include "core/units/quantity_text.h"
#include "ui/forms/text_field.h"

#include <QCoreApplication>

#include <optional>

namespace ullage::ui {

/// How a type is read and written, and an example of it.
template <class T>
struct QuantityText;

template <>
struct QuantityText<Bytes> {
    static Parsed<Bytes> parse(std::string_view text) { return parse_bytes(text); }
    static std::string write(Bytes value) { return exact_bytes(value); }
    static constexpr const char* example = "9.2 TB";
};
template <>
struct QuantityText<BitsPerSecond> {
    static Parsed<BitsPerSecond> parse(std::string_view text) { return parse_bit_rate(text); }
    static std::string write(BitsPerSecond value) { return exact_bit_rate(value); }
    static constexpr const char* example = "100 Mbit/s";
};
template <>
struct QuantityText<BytesPerSecond> {
    static Parsed<BytesPerSecond> parse(std::string_view text) { return parse_byte_rate(text); }
    static std::string write(BytesPerSecond value) { return exact_byte_rate(value); }
    static constexpr const char* example = "180 MB/s";
};
template <>
struct QuantityText<Duration> {
    static Parsed<Duration> parse(std::string_view text) { return parse_duration(text); }
    static std::string write(Duration value) { return exact_duration(value); }
    static constexpr const char* example = "21 d";
};
template <>
struct QuantityText<Power> {
    static Parsed<Power> parse(std::string_view text) { return parse_power(text); }
    static std::string write(Power value) { return exact_power(value); }
    static constexpr const char* example = "48 W";
};
template <>
struct QuantityText<Money> {
    static Parsed<Money> parse(std::string_view text) { return parse_money(text); }
    static std::string write(Money value) { return to_text(value); }
    static constexpr const char* example = "2150";
};
template <>
struct QuantityText<Amount> {
    static Parsed<Amount> parse(std::string_view text) { return parse_amount(text); }
    static std::string write(const Amount& value) { return to_text(value); }
    static constexpr const char* example = "14 GB";
};
template <>
struct QuantityText<Period> {
    static Parsed<Period> parse(std::string_view text) { return parse_period(text); }
    static std::string write(const Period& value) { return to_text(value); }
    static constexpr const char* example = "1 d";
};

/// The text a value is shown as: as typed, else the shortest exact one.
template <class T>
QString textOf(const Entered<T>& value) {
    return QString::fromStdString(value.text.empty() ? QuantityText<T>::write(value.value)
                                                     : value.text);
}

/// Reads a text into `value`. Returns why it cannot be read, or an empty text.
template <class T>
QString readEntered(const QString& text, Entered<T>& value) {
    const std::string trimmed = text.trimmed().toStdString();
    auto parsed = QuantityText<T>::parse(trimmed);
    if (!parsed) return QString::fromStdString(parsed.error());
    value = Entered<T>(*parsed, trimmed);
    return {};
}

template <class T>
class QuantityField : public TextField {
public:
    struct Value {
        std::function<std::optional<Entered<T>>()> get;
        /// Returns why not, or an empty text.
        std::function<QString(const std::optional<Entered<T>>&)> set;
        bool may_be_empty = false;
    };

    QuantityField(const QString& label, const QString& key, Value value, QWidget* parent = nullptr)
        : TextField(label, key, bindingOf(std::move(value)), parent) {}

private:
    static Binding bindingOf(Value value) {
        const auto get = value.get;
        Binding binding;
        binding.text = [get] {
            const auto held = get();
            return held ? textOf(*held) : QString();
        };
        binding.commit = [value = std::move(value)](const QString& text) {
            if (text.trimmed().isEmpty()) {
                if (value.may_be_empty) return value.set(std::nullopt);
                return QCoreApplication::translate("QuantityField",
                                                   "A value is needed, such as %1.")
                    .arg(QLatin1String(QuantityText<T>::example));
            }
            Entered<T> read;
            const QString refusal = readEntered(text, read);
            return refusal.isEmpty() ? value.set(read) : refusal;
        };
        return binding;
    }
};

}  // namespace ullage::ui
