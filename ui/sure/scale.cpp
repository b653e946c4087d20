// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sure/scale.h"

#include "ui/charts/calendar_ticks.h"
#include "ui/charts/fill_table.h"
#include "ui/theme/words.h"

#include <QCoreApplication>
#include <QLocale>

#include <algorithm>
#include <array>
#include <cmath>

namespace ullage {

double Scale::map(double value) const {
    if (!std::isfinite(value)) value = value > 0 ? to : from;
    const double v = std::clamp(value, from, to);
    const double share = log ? std::log(v / from) / std::log(to / from) : (v - from) / (to - from);
    return start + share * (end - start);
}

double Scale::unmap(double pixel) const {
    const double share = end == start ? 0 : std::clamp((pixel - start) / (end - start), 0.0, 1.0);
    return log ? from * std::pow(to / from, share) : from + share * (to - from);
}

std::vector<AxisMark> span_marks(const Scale& days, const QFontMetricsF& metrics) {
    const auto words = [](const char* text) {
        return QCoreApplication::translate("ullage::Scale", text);
    };
    // In the order in which they are wanted where not all have room.
    const std::array<AxisMark, 6> wanted{
        {{1, words(QT_TRANSLATE_NOOP("ullage::Scale", "1 d"))},
         {days_per_year, words(QT_TRANSLATE_NOOP("ullage::Scale", "1 y"))},
         {30, words(QT_TRANSLATE_NOOP("ullage::Scale", "1 month"))},
         {1.0 / 24, words(QT_TRANSLATE_NOOP("ullage::Scale", "1 h"))},
         {5 * days_per_year, words(QT_TRANSLATE_NOOP("ullage::Scale", "5 y"))},
         {7, words(QT_TRANSLATE_NOOP("ullage::Scale", "1 w"))}}};
    constexpr double slack = 1e-6;
    const double gap = metrics.averageCharWidth();
    std::vector<AxisMark> marks;
    for (const AxisMark& mark : wanted) {
        if (mark.value < days.from * (1 - slack) || mark.value > days.to * (1 + slack)) continue;
        const double x = days.map(mark.value), half = metrics.horizontalAdvance(mark.text) / 2;
        const bool touches = std::any_of(marks.begin(), marks.end(), [&](const AxisMark& other) {
            return std::abs(days.map(other.value) - x) <
                   half + metrics.horizontalAdvance(other.text) / 2 + gap;
        });
        if (!touches) marks.push_back(mark);
    }
    std::sort(marks.begin(), marks.end(),
              [](const AxisMark& a, const AxisMark& b) { return a.value < b.value; });
    return marks;
}

std::vector<AxisMark> size_marks(double from, double to, int most, Prefixes prefixes) {
    const double base = prefixes == Prefixes::decimal ? 1000 : 1024;
    const auto within = [&](const std::vector<double>& factors) {
        std::vector<AxisMark> marks;
        double unit = 1;
        for (int power = 0; power <= 6; ++power, unit *= base)  // B … EB
            for (const double factor : factors)
                if (const double v = unit * factor; v >= from * 0.999 && v <= to * 1.001)
                    marks.push_back({v, Words::bytes(v, prefixes)});
        return marks;
    };
    auto marks = within({1, 10, 100});
    if (marks.size() < 3) marks = within({1, 2, 5, 10, 20, 50, 100, 200, 500});
    const auto limit = static_cast<std::size_t>(std::max(2, most));
    if (marks.size() > limit) {
        const std::size_t every = (marks.size() + limit - 1) / limit;
        std::vector<AxisMark> fewer;
        for (std::size_t i = 0; i < marks.size(); i += every) fewer.push_back(marks[i]);
        marks = std::move(fewer);
    }
    return marks;
}

std::vector<AxisMark> even_size_marks(double from, double to, int most, Prefixes prefixes) {
    std::vector<AxisMark> marks;
    if (!(to > from)) return marks;
    const ByteUnit unit = byte_unit(std::max(std::abs(from), std::abs(to)), prefixes);
    const double step = nice_step((to - from) / unit.bytes, std::max(1, most));
    const int decimals = std::clamp(static_cast<int>(std::ceil(-std::log10(step) - 1e-9)), 0, 9);
    for (double n = std::ceil(from / unit.bytes / step - 1e-9);
         n * step * unit.bytes <= to * (1 + 1e-12); ++n)
        marks.push_back({n * step * unit.bytes, QLocale().toString(n * step + 0.0, 'f', decimals) +
                                                    QChar(0x00A0) + unit.name});
    return marks;
}

}  // namespace ullage
