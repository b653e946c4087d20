// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/forms/number_text.h"

#include "core/units/quantity_text.h"

#include <QCoreApplication>
#include <QRegularExpression>
#include <QStringList>

#include <cmath>

namespace ullage::ui {

namespace {

struct Numbers {
    Q_DECLARE_TR_FUNCTIONS(Numbers)
};

constexpr int shown_digits = 12;

tl::unexpected<std::string> refused(const QString& sentence) {
    return tl::make_unexpected(sentence.toStdString());
}

tl::expected<double, std::string> readNumber(const QString& text) {
    bool is_number = false;
    const double read = text.toDouble(&is_number);
    if (!is_number || !std::isfinite(read))
        return refused(Numbers::tr("“%1” is not a number, such as 0.25.").arg(text));
    return read;
}

QString writeNumber(double value) { return QString::number(value, 'g', shown_digits); }

tl::expected<int, std::string> readWhole(const QString& text) {
    bool is_number = false;
    const int read = text.toInt(&is_number);
    if (!is_number) return refused(Numbers::tr("“%1” is not a whole number, such as 6.").arg(text));
    return read;
}

QString writeWhole(int value) { return QString::number(value); }

tl::expected<double, std::string> readShare(const QString& text) {
    return parse_fraction(text.toStdString());
}

QString writeShare(double value) {
    return QString::fromStdString(format_percent(value, shown_digits));
}

tl::expected<Day, std::string> readDate(const QString& text) {
    return parse_date(text.toStdString());
}

QString writeDate(Day day) { return QString::fromStdString(format_date(day)); }

/// The same for a value that may be absent.
template <class Value>
ValueText<std::optional<Value>> orNothing(tl::expected<Value, std::string> (*read)(const QString&),
                                          QString (*write)(Value)) {
    return {[read](const QString& text) -> tl::expected<std::optional<Value>, std::string> {
                if (text.isEmpty()) return std::optional<Value>();
                auto parsed = read(text);
                if (!parsed) return tl::make_unexpected(parsed.error());
                return std::optional<Value>(*parsed);
            },
            [write](std::optional<Value> value) { return value ? write(*value) : QString(); }};
}

}  // namespace

ValueText<int> wholeNumber() { return {readWhole, writeWhole}; }
ValueText<std::optional<int>> optionalWholeNumber() {
    return orNothing<int>(readWhole, writeWhole);
}

ValueText<double> number() { return {readNumber, writeNumber}; }
ValueText<std::optional<double>> optionalNumber() {
    return orNothing<double>(readNumber, writeNumber);
}
ValueText<double> share() { return {readShare, writeShare}; }
ValueText<std::optional<double>> optionalShare() {
    return orNothing<double>(readShare, writeShare);
}
ValueText<Day> date() { return {readDate, writeDate}; }
ValueText<std::optional<Day>> optionalDate() { return orNothing<Day>(readDate, writeDate); }

ValueText<int> timeOfDay() {
    return {[](const QString& text) -> tl::expected<int, std::string> {
                return parse_time_of_day(text.toStdString());
            },
            [](int seconds) { return QString::fromStdString(format_time_of_day(seconds)); }};
}

ValueText<std::optional<std::array<double, 7>>> optionalWeek() {
    using Week = std::array<double, 7>;
    return {
        [](const QString& text) -> tl::expected<std::optional<Week>, std::string> {
            if (text.isEmpty()) return std::optional<Week>();
            static const QRegularExpression between(QStringLiteral("[\\s,;]+"));
            const QStringList parts = text.split(between, Qt::SkipEmptyParts);
            if (parts.size() != 7)
                return refused(Numbers::tr("Seven numbers are needed, Monday first; here are %1.")
                                   .arg(parts.size()));
            Week week{};
            for (std::size_t i = 0; i < week.size(); ++i) {
                const auto read = readNumber(parts[static_cast<qsizetype>(i)]);
                if (!read) return tl::make_unexpected(read.error());
                week[i] = *read;
            }
            return std::optional<Week>(week);
        },
        [](std::optional<Week> week) {
            if (!week) return QString();
            QStringList parts;
            for (const double day : *week) parts << writeNumber(day);
            return parts.join(QLatin1Char(' '));
        }};
}

}  // namespace ullage::ui
