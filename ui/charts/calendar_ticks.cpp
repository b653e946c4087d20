// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/charts/calendar_ticks.h"

#include "ui/theme/words.h"

#include <QLocale>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace ullage {
namespace {

struct Step {
    int months;  // or, if 0,
    int days;
};

constexpr std::array<Step, 13> steps{{{0, 7},
                                      {0, 14},
                                      {1, 0},
                                      {2, 0},
                                      {3, 0},
                                      {6, 0},
                                      {12, 0},
                                      {24, 0},
                                      {60, 0},
                                      {120, 0},
                                      {240, 0},
                                      {600, 0},
                                      {1200, 0}}};

QDate first_at_or_after(const QDate& from, const Step& step) {
    if (step.months == 0) {
        // Mondays; every second one counted from Monday 1970-01-05.
        static const QDate monday(1970, 1, 5);
        const auto days = monday.daysTo(from);
        const auto periods = (days + step.days - 1) / step.days;
        return monday.addDays(periods * step.days);
    }
    int index = from.year() * 12 + from.month() - 1 + (from.day() > 1 ? 1 : 0);
    index = (index + step.months - 1) / step.months * step.months;
    return {index / 12, index % 12 + 1, 1};
}

QString label(const QDate& date, const Step& step) {
    if (step.months == 0)
        return QLocale().toString(date, Words::tr("d MMM", "day and month on an axis"));
    if (step.months % 12 == 0) return QLocale().toString(date, QStringLiteral("yyyy"));
    return Words::month(date);
}

}  // namespace

std::vector<DateTick> calendar_ticks(const QDate& from, const QDate& to, double pixels,
                                     const QFontMetricsF& metrics) {
    std::vector<DateTick> ticks;
    const auto length = from.daysTo(to);
    if (length <= 0 || pixels <= 0) return ticks;
    const double per_day = pixels / static_cast<double>(length);
    const double gap = metrics.averageCharWidth() * 2.5;
    for (const Step& step : steps) {
        // Days and months without their year are unique within a year only.
        if (step.months == 0 && length > 360) continue;
        ticks.clear();
        double widest = 0;
        for (QDate date = first_at_or_after(from, step); date <= to;
             date = step.months == 0 ? date.addDays(step.days) : date.addMonths(step.months)) {
            ticks.push_back({date, label(date, step)});
            widest = std::max(widest, metrics.horizontalAdvance(ticks.back().text));
            if (ticks.size() > 400) break;
        }
        const double shortest = step.months == 0 ? step.days : step.months * 28.0;
        if (ticks.size() <= 1 || shortest * per_day >= widest + gap) return ticks;
    }
    return ticks;
}

double nice_step(double top, int most) {
    if (!(top > 0) || !std::isfinite(top)) return 1;
    const double raw = top / std::max(1, most);
    const double power = std::pow(10.0, std::floor(std::log10(raw)));
    for (const double factor : {1.0, 2.0, 5.0})
        if (factor * power >= raw * (1 - 1e-9)) return factor * power;
    return 10 * power;
}

std::vector<double> pushed_apart(const std::vector<double>& wished, double height, double top,
                                 double bottom) {
    std::vector<std::size_t> order(wished.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return wished[a] < wished[b]; });

    // Clusters that touch are merged and centred on the mean wish of their members.
    struct Cluster {
        double sum = 0;
        int count = 0;
        double start = 0;
    };
    const auto settle = [&](Cluster& c) {
        const double size = c.count * height;
        c.start = c.sum / c.count - size / 2;
        c.start = std::max(top, std::min(c.start, bottom - size));
    };
    std::vector<Cluster> clusters;
    for (const std::size_t i : order) {
        Cluster next{wished[i], 1, 0};
        settle(next);
        while (!clusters.empty() &&
               clusters.back().start + clusters.back().count * height > next.start) {
            next.sum += clusters.back().sum;
            next.count += clusters.back().count;
            clusters.pop_back();
            settle(next);
        }
        clusters.push_back(next);
    }
    std::vector<double> centres(wished.size());
    std::size_t k = 0;
    for (const Cluster& c : clusters)
        for (int i = 0; i < c.count; ++i) centres[order[k++]] = c.start + (i + 0.5) * height;
    return centres;
}

}  // namespace ullage
