// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/theme/words.h"

#include "core/findings/findings.h"
#include "core/findings/words.h"
#include "ui/language/spoken_language.h"

#include <QLocale>
#include <QRegularExpression>
#include <QStringList>

#include <cmath>

namespace ullage {
namespace {

constexpr QChar no_break(0x00A0);
constexpr int known_digits = 17;  // of a double

QString unknown() { return QStringLiteral("?"); }

// "9.2" → "9,2" where that is the decimal sign; the number of decimals is kept.
QString localized_number(const QString& plain) {
    bool ok = false;
    const double value = QLocale::c().toDouble(plain, &ok);
    if (!ok) return plain;
    const auto point = plain.indexOf(u'.');
    const int decimals =
        point < 0 ? 0 : std::min(known_digits, static_cast<int>(plain.size() - point - 1));
    return QLocale().toString(value, 'f', decimals);
}

}  // namespace

QString Words::localized(const std::string& core_text) {
    static const QRegularExpression number(QStringLiteral(R"(^(-?[0-9]+(?:\.[0-9]+)?)\s*(.*)$)"));
    const QString text = QString::fromStdString(core_text);
    const auto found = number.match(text);
    if (!found.hasMatch()) return text;
    const QString unit = found.captured(2);
    return unit.isEmpty() ? localized_number(found.captured(1))
                          : localized_number(found.captured(1)) + no_break + unit;
}

QString Words::bytes(double bytes, Prefixes prefixes, int digits) {
    return std::isfinite(bytes) ? localized(format_bytes(Bytes{bytes}, prefixes, digits))
                                : unknown();
}

QString Words::rate(double bits_per_second) {
    return std::isfinite(bits_per_second)
               ? localized(format_bit_rate(BitsPerSecond{bits_per_second}, 3))
               : unknown();
}

QString Words::percent(double fraction, int digits) {
    return std::isfinite(fraction) ? localized(format_percent(fraction, digits)) : unknown();
}

QString Words::span(double days) {
    if (!std::isfinite(days)) return unknown();
    static const QRegularExpression said(
        QStringLiteral(R"(^(about )?([0-9]+(?:\.[0-9]+)?) (day|month|year)s?$)"));
    const QString text = QString::fromStdString(say_days(days));
    const auto found = said.match(text);
    if (!found.hasMatch()) return text;
    const bool about = !found.captured(1).isEmpty();
    const double value = QLocale::c().toDouble(found.captured(2));
    const int whole = static_cast<int>(std::ceil(value));  // 1.5 takes the form of many
    const QString number = localized_number(found.captured(2));
    const QString unit = found.captured(3);
    // The count chooses the plural form; %1 is the figure, which may have a decimal.
    QString pattern;
    if (unit == QLatin1String("day"))
        pattern = about ? tr("about %1 day(s)", "", whole) : tr("%1 day(s)", "", whole);
    else if (unit == QLatin1String("month"))
        pattern = about ? tr("about %1 month(s)", "", whole) : tr("%1 month(s)", "", whole);
    else
        pattern = about ? tr("about %1 year(s)", "", whole) : tr("%1 year(s)", "", whole);
    return plural(pattern, whole).arg(number);
}

QString Words::horizon(double days) {
    if (!std::isfinite(days)) return unknown();
    const auto near_whole = [](double x) { return std::abs(x - std::round(x)) < 0.01; };
    const double years = days / days_per_year;
    if (years > 0.99 && near_whole(years)) {
        const int n = static_cast<int>(std::lround(years));
        return plural(tr("%n year(s)", "", n), n);
    }
    if (days < 60) {
        const int n = static_cast<int>(std::lround(days));
        return plural(tr("%n day(s)", "", n), n);
    }
    const double months = 12 * years;
    if (near_whole(months)) {
        const int n = static_cast<int>(std::lround(months));
        return plural(tr("%n month(s)", "", n), n);
    }
    return span(days);
}

QString Words::hours(double hours) {
    if (!std::isfinite(hours)) return unknown();
    const auto figure = [](double x) { return QLocale().toString(x, 'f', x < 9.95 ? 1 : 0); };
    if (hours < 1) {
        const double minutes = 60 * hours;
        if (minutes < 1 && minutes > 0) return tr("under 1 min").replace(u' ', no_break);
        return tr("%1 min").arg(QLocale().toString(minutes, 'f', 0)).replace(u' ', no_break);
    }
    if (hours < 72) return tr("%1 h").arg(figure(hours)).replace(u' ', no_break);
    return tr("%1 d").arg(figure(hours / 24)).replace(u' ', no_break);
}

QString Words::chance(double chance) {
    if (!std::isfinite(chance)) return unknown();
    if (chance <= 0) return tr("none");
    if (chance >= 1) return tr("all");
    if (chance < 0.01) return tr("fewer than 1 in 100");
    if (chance > 0.99) return tr("more than 99 in 100");
    return tr("%1 in 100").arg(QLocale().toString(std::lround(100 * chance)));
}

QString Words::money(double amount, const std::string& currency) {
    if (!std::isfinite(amount)) return unknown();
    QString number = QString::fromStdString(say_money(amount, {})).trimmed();
    number = amount == 0 ? QLocale().toString(0) : localized_number(number.remove(u','));
    return currency.empty() ? number : number + no_break + QString::fromStdString(currency);
}

QString Words::futures(double share) {
    if (!std::isfinite(share)) return unknown();
    static const QRegularExpression said(
        QStringLiteral(R"(^([0-9]+) (of 10 futures|% of futures)$)"));
    const auto found = said.match(QString::fromStdString(say_futures(share)));
    if (!found.hasMatch()) return share > 0 ? tr("all futures drawn") : tr("no future drawn");
    const QString number = localized_number(found.captured(1));
    return found.captured(2).startsWith(u'o')
               ? tr("%1 of 10 futures").arg(number)
               : tr("%1 of futures", "a percentage").arg(number + no_break + u'%');
}

QString Words::both(double size, Prefixes prefixes, int digits) {
    const Prefixes other = prefixes == Prefixes::decimal ? Prefixes::binary : Prefixes::decimal;
    return tr("%1 (%2)", "a size in two units")
        .arg(bytes(size, prefixes, digits), bytes(size, other, digits));
}

QDate Words::date(Day day) {
    static const QDate epoch(1970, 1, 1);
    return epoch.addDays(day.time_since_epoch().count());
}

QString Words::month(const QDate& date) {
    return QLocale().toString(date, tr("MMM yyyy", "month"));
}
QString Words::full_date(const QDate& date) {
    return QLocale().toString(date, tr("d MMM yyyy", "date"));
}
QString Words::month(Day day) { return month(date(day)); }
QString Words::full_date(Day day) { return full_date(date(day)); }

Language Words::language() {
    return spoken_language();
}

QString Words::said(const Message& message) {
    return QString::fromStdString(Wording(language())(message));
}

QString Words::sentence(QString text) {
    if (!text.isEmpty()) text[0] = text[0].toUpper();
    return text;
}

QString Words::plural(QString translated, long long n) {
    return translated.replace(QLatin1String("(s)"), n == 1 ? QString() : QStringLiteral("s"));
}

}  // namespace ullage
