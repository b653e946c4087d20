// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sure/sure_text.h"

#include "ui/theme/words.h"

#include <QLocale>

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>
#include <utility>

namespace ullage {
namespace {

constexpr double title_gap_days = 30;   // "after 30 days"
constexpr double least_stretch = 1.05;  // a widening below this is not worth a sentence

QString name_of(const std::string& name) { return QString::fromStdString(name); }

QString number(int n) { return QLocale().toString(n); }

Day day_of(Instant at) { return std::chrono::floor<std::chrono::days>(at); }

// Linear where a logarithm does not exist.
double between(double a, double b, double share) {
    return a > 0 && b > 0 ? a * std::pow(b / a, share) : a + (b - a) * share;
}

}  // namespace

const std::vector<ForecastThen>& forecasts_of(const BacktestOrigin& origin, Figure figure) {
    return figure == Figure::live ? origin.live : origin.freed;
}

bool lies_within(const ForecastThen& f) { return f.came >= f.p10 && f.came <= f.p90; }

InsideCount count_inside(const Backtest& backtest, Figure figure) {
    InsideCount count;
    for (const BacktestOrigin& origin : backtest.origins)
        for (const ForecastThen& f : forecasts_of(origin, figure)) {
            ++count.all;
            count.inside += lies_within(f) ? 1 : 0;
        }
    return count;
}

std::optional<CurveBand> curve_at(const std::vector<CurveBand>& band, double gap_days) {
    if (band.empty()) return std::nullopt;
    if (gap_days <= band.front().gap_days) return band.front();
    for (std::size_t i = 1; i < band.size(); ++i) {
        const CurveBand &a = band[i - 1], &b = band[i];
        if (gap_days > b.gap_days) continue;
        const double share =
            a.gap_days > 0 && b.gap_days > a.gap_days
                ? std::log(gap_days / a.gap_days) / std::log(b.gap_days / a.gap_days)
                : 1;
        return CurveBand{gap_days, between(a.p10, b.p10, share), between(a.p50, b.p50, share),
                         between(a.p90, b.p90, share)};
    }
    return band.back();
}

bool MeasuredSpan::holds(double gap_days) const {
    constexpr double slack = 1e-9;
    return gap_days >= from_days * (1 - slack) && gap_days <= to_days * (1 + slack);
}

std::optional<MeasuredSpan> measured_span(const DatasetOutlook& d) {
    if (!d.measured || !(d.observed_days > 0)) return std::nullopt;
    MeasuredSpan span{d.measured_steps.empty() ? 0 : d.observed_days, d.observed_days};
    for (const MeasuredStep& s : d.measured_steps)
        span.from_days = std::min(span.from_days, s.gap_days);
    return span;
}

std::vector<Driver> drivers_of(const Outlook& outlook, const std::string& box) {
    std::vector<Driver> found;
    for (const Driver& d : outlook.drivers)
        if (d.box == box) found.push_back(d);
    const double horizon = outlook.horizon_days;
    const auto effect = [horizon](const Driver& d) {
        return std::abs(d.low_days.value_or(horizon) - d.high_days.value_or(horizon));
    };
    std::stable_sort(found.begin(), found.end(), [&](const Driver& a, const Driver& b) {
        return std::make_pair(effect(a), a.variance_share) >
               std::make_pair(effect(b), b.variance_share);
    });
    return found;
}

int soonest_box(const Outlook& outlook) {
    constexpr double never = std::numeric_limits<double>::infinity();
    int best = -1;
    std::tuple<bool, double, double, double> least;
    for (std::size_t i = 0; i < outlook.boxes.size(); ++i) {
        const BoxOutlook& b = outlook.boxes[i];
        const bool silent = std::none_of(outlook.drivers.begin(), outlook.drivers.end(),
                                         [&](const Driver& d) { return d.box == b.name; });
        const std::tuple<bool, double, double, double> key{
            silent, b.days_until_ceiling.p50.value_or(never),
            b.days_until_ceiling.p10.value_or(never), -b.chance_of_ceiling_within_horizon};
        if (best >= 0 && !(key < least)) continue;
        best = static_cast<int>(i);
        least = key;
    }
    return best;
}

QString SureText::gap(double days) {
    if (days < 0.99) return Words::hours(24 * days);
    if (days >= 100 || !std::isfinite(days)) return Words::span(days);
    const bool whole = days >= 10 || std::abs(days - std::round(days)) < 0.05;
    const auto n = static_cast<int>(whole ? std::lround(days) : std::lround(std::ceil(days)));
    return Words::plural(tr("%1 day(s)", "", n), n)
        .arg(QLocale().toString(days, 'f', whole ? 0 : 1))
        .replace(u' ', QChar(0x00A0));
}

// Turnover ---------------------------------------------------------------------------------------

QString SureText::turnoverTitle(const DatasetOutlook& d, Prefixes prefixes) {
    const QString name = name_of(d.name);
    const QString end = !d.measured ? tr("assumed, not measured")
                        : !(d.observed_days > 0)
                            ? tr("nothing measured between snapshots")
                            : tr("measured up to %1").arg(gap(d.observed_days));
    const auto at = curve_at(d.curve_band, title_gap_days);
    if (!at) {
        if (d.measured_steps.empty()) return tr("No turnover curve of “%1”").arg(name);
        return tr("What “%1” freed between its snapshots; %2").arg(name, end);
    }
    if (!(at->p50 > 0))
        return tr("After %1 nothing of “%2” has been replaced; %3")
            .arg(gap(title_gap_days), name, end);
    const QString replaced = Words::bytes(at->p50, prefixes, 2);
    if (!d.measured)
        return tr("After %1 about %2 of “%3” are taken to have been replaced; nothing was measured")
            .arg(gap(title_gap_days), replaced, name);
    return tr("After %1 about %2 of “%3” have been replaced; %4")
        .arg(gap(title_gap_days), replaced, name, end);
}

QString SureText::noTurnover(const DatasetOutlook& d) {
    if (!d.measured)
        return tr("No listing: nothing was measured of “%1”, and no curve was worked out.")
            .arg(name_of(d.name));
    if (d.observed_days > 0)
        return tr("Its listing shows gaps of up to %1, but no curve was worked out.")
            .arg(gap(d.observed_days));
    return tr("Its listing shows no two snapshots between which something could be counted.");
}

QString SureText::step(const MeasuredStep& s, Prefixes prefixes) {
    const auto bytes = [prefixes](double b) { return Words::bytes(b, prefixes); };
    if (s.steps <= 1)
        return tr("Measured once over %1: %2 freed.").arg(gap(s.gap_days), bytes(s.freed_bytes));
    return tr("Measured %1 times over %2: %3 freed on average, 8 in 10 times between %4 and %5.")
        .arg(number(s.steps), gap(s.gap_days), bytes(s.freed_bytes), bytes(s.low_bytes),
             bytes(s.high_bytes));
}

QString SureText::curvePoint(const CurveBand& p, const DatasetOutlook& d, Prefixes prefixes) {
    const auto bytes = [prefixes](double b) { return Words::bytes(b, prefixes); };
    const QString values =
        tr("Curve, after %1: in the middle %2 replaced, 8 in 10 times between %3 and %4.")
            .arg(gap(p.gap_days), bytes(p.p50), bytes(p.p10), bytes(p.p90));
    if (!d.measured) return values + u' ' + tr("Assumed.");
    const auto span = measured_span(d);
    return span && span->holds(p.gap_days) ? values : values + u' ' + tr("Extrapolated.");
}

QString SureText::turnoverSummary(const DatasetOutlook& d, Prefixes prefixes) {
    QStringList words{turnoverTitle(d, prefixes) + u'.'};
    if (d.curve_band.empty() && d.measured_steps.empty()) {
        words << noTurnover(d);
        return words.join(u' ');
    }
    for (const MeasuredStep& s : d.measured_steps) words << step(s, prefixes);
    if (d.curve_band.empty()) {
        words << tr("No curve was worked out.");
    } else {
        for (const double days : {1.0, title_gap_days, days_per_year})
            if (days >= d.curve_band.front().gap_days && days < d.curve_band.back().gap_days)
                words << curvePoint(*curve_at(d.curve_band, days), d, prefixes);
        words << curvePoint(d.curve_band.back(), d, prefixes);
    }
    return words.join(u' ');
}

QString SureText::turnoverNote(const DatasetOutlook& d) {
    QStringList words;
    if (!d.measured)
        words
            << tr("No listing: nothing was measured of “%1”; all of the curve is assumed from the "
                  "figures given.")
                   .arg(name_of(d.name));
    else if (d.curve_band.empty())
        words << tr("No curve was worked out; only what was measured is shown.");
    else if (const auto span = measured_span(d); !span)
        words << tr(
            "The listing shows no gap between snapshots: all of the curve is extrapolated.");
    else if (span->from_days > d.curve_band.front().gap_days)
        words << tr("Below %1 and beyond %2 nothing was measured: there the curve is extrapolated.")
                     .arg(gap(span->from_days), gap(span->to_days));
    else
        words << tr("Beyond %1 nothing was measured: there the curve is extrapolated.")
                     .arg(gap(span->to_days));
    words << tr(
        "Across: time from one snapshot to a later one. Up: bytes of the first that the "
        "later one no longer holds. Both scales grow by factors. Point at a chart, or use the "
        "arrow keys "
        "on it, to read its values.");
    return words.join(u' ');
}

// Backtest ---------------------------------------------------------------------------------------

QString SureText::backtestTitle(const DatasetOutlook& d, Figure figure) {
    const QString name = name_of(d.name);
    const InsideCount count = d.backtest ? count_inside(*d.backtest, figure) : InsideCount{};
    if (!d.backtest) return tr("No earlier forecast of “%1”").arg(name);
    if (count.all == 0)
        return figure == Figure::live
                   ? tr("No earlier forecast of the live bytes of “%1”").arg(name)
                   : tr("No earlier forecast of what “%1” frees").arg(name);
    return (figure == Figure::live
                ? tr("Live bytes of “%1”: %2 of %3 that came lay within the forecast's 80 % band")
                : tr("Freed bytes of “%1”: %2 of %3 that came lay within the forecast's 80 % band"))
        .arg(name, number(count.inside), number(count.all));
}

QString SureText::noBacktest(const DatasetOutlook& d) {
    return d.measured
               ? tr("No forecast was made from an earlier date of “%1”: that takes a listing "
                    "long enough to hold what came after it.")
                     .arg(name_of(d.name))
               : tr("No listing: nothing was measured of “%1”, so there is no past to try a "
                    "forecast on.")
                     .arg(name_of(d.name));
}

QString SureText::origin(const BacktestOrigin& o) {
    return tr("made %1", "a forecast, date").arg(Words::full_date(day_of(o.origin)));
}

QString SureText::originDetail(const BacktestOrigin& o) {
    return Words::plural(tr("from %n snapshot(s)", "", o.snapshots), o.snapshots);
}

QString SureText::forecast(const BacktestOrigin& o, const ForecastThen& f, Prefixes prefixes) {
    const auto bytes = [prefixes](double b) { return Words::bytes(b, prefixes, 4); };
    const QString verdict = lies_within(f)   ? tr("within the band")
                            : f.came < f.p10 ? tr("below the band")
                                             : tr("above the band");
    return tr("Forecast made %1 for %2, %3 ahead: %4, 8 in 10 times between %5 and %6. Came: %7, "
              "%8.")
        .arg(Words::full_date(day_of(o.origin)), Words::full_date(day_of(f.at)), gap(f.days_ahead),
             bytes(f.p50), bytes(f.p10), bytes(f.p90), bytes(f.came), verdict);
}

QString SureText::backtestSummary(const DatasetOutlook& d, Figure figure, Prefixes prefixes) {
    QStringList words{backtestTitle(d, figure) + u'.'};
    if (!d.backtest || count_inside(*d.backtest, figure).all == 0) {
        words << noBacktest(d);
        return words.join(u' ');
    }
    words << backtestNote(*d.backtest, figure);
    for (const BacktestOrigin& o : d.backtest->origins)
        if (const auto& all = forecasts_of(o, figure); !all.empty())
            words << forecast(o, all.back(), prefixes);
    return words.join(u' ');
}

QString SureText::backtestNote(const Backtest& b, Figure figure) {
    const double error = figure == Figure::live ? b.live_error : b.freed_error;
    QStringList words;
    words << (figure == Figure::live
                  ? tr("Across: time since the forecast was made. Up: change since then.")
                  : tr("Across: time since the forecast was made. Up: freed since then."));
    words
        << tr("At the last snapshot that each forecast reaches, half of them are off by less than "
              "%1 of what came.")
               .arg(Words::percent(error));
    if (figure == Figure::live)
        words << tr(
            "Snapshots thinned since could not be measured, so these forecasts had less to "
            "go by than one made on that day.");
    return words.join(u' ');
}

// Drivers ----------------------------------------------------------------------------------------

QString SureText::driversTitle(const BoxOutlook& box, const std::vector<Driver>& drivers) {
    const QString name = name_of(box.name);
    if (drivers.empty()) return tr("Nothing to rank for %1").arg(name);
    return tr("When %1 reaches its ceiling depends most on %2")
        .arg(name, Words::said(drivers.front().input));
}

QString SureText::driverRange(const Driver& d, double horizon_days) {
    const QString never = tr("not within %1").arg(Words::horizon(horizon_days));
    if (!d.low_days && !d.high_days) return never;
    if (!d.low_days || !d.high_days)
        return tr("%1, or %2", "time, 'not within 5 years'")
            .arg(Words::span(d.low_days ? *d.low_days : *d.high_days), never);
    const QString first = Words::span(std::min(*d.low_days, *d.high_days));
    const QString last = Words::span(std::max(*d.low_days, *d.high_days));
    return first == last ? first : tr("%1 to %2", "times").arg(first, last);
}

QString SureText::driver(const Driver& d, double horizon_days) {
    const auto reached = [&](const std::optional<double>& x) {
        return x ? tr("the ceiling is reached in %1").arg(Words::span(*x))
                 : tr("the ceiling is not reached within %1").arg(Words::horizon(horizon_days));
    };
    return tr("%1: at its low value %2; at its high value %3. It makes %4 of the spread.")
        .arg(Words::sentence(Words::said(d.input)), reached(d.low_days), reached(d.high_days),
             Words::percent(d.variance_share));
}

QString SureText::noDrivers(const BoxOutlook& box, double horizon_days) {
    const QString name = name_of(box.name);
    if (box.full_now || box.over_ceiling_now)
        return tr("%1 has reached its ceiling already: no day is left that could depend on "
                  "anything.")
            .arg(name);
    if (box.chance_of_ceiling_within_horizon <= 0)
        return tr("%1 stays below its ceiling for %2 in every future, so there is no day to "
                  "explain.")
            .arg(name, Words::horizon(horizon_days));
    return tr("What the day depends on was not worked out for %1.").arg(name);
}

QString SureText::driversSummary(const BoxOutlook& box, const std::vector<Driver>& drivers,
                                 double horizon_days) {
    QStringList words{driversTitle(box, drivers) + u'.'};
    if (drivers.empty()) {
        words << noDrivers(box, horizon_days);
        return words.join(u' ');
    }
    words << (box.days_until_ceiling.p50
                  ? tr("In the middle forecast the ceiling is reached in %1.")
                        .arg(Words::span(*box.days_until_ceiling.p50))
                  : tr("In the middle forecast the ceiling is not reached within %1.")
                        .arg(Words::horizon(horizon_days)));
    for (const Driver& d : drivers) words << driver(d, horizon_days);
    return words.join(u' ');
}

QString SureText::driversNote() {
    return tr(
        "Each bar: the day with this one input at its low value (1 in 10 lies below) and at "
        "its high value (1 in 10 lies above), all others at their middle. Share: how much of "
        "the spread over all futures goes with it.");
}

// What was not measured --------------------------------------------------------------------------

QString SureText::notMeasured(const DatasetOutlook& d) {
    const QString name = name_of(d.name);
    return d.measured ? tr("“%1”: what happens beyond %2 was not measured but extrapolated.")
                            .arg(name, gap(d.observed_days))
                      : tr("“%1”: no listing, so nothing of its turnover was measured.").arg(name);
}

QString SureText::stretched(const DatasetOutlook& d) {
    if (!(d.stretch > least_stretch) || !std::isfinite(d.stretch)) return {};
    return tr("“%1”: its growth, forecast from earlier dates, missed by more than its spread "
              "allowed; so its bands were made %2 times as wide.")
        .arg(name_of(d.name), QLocale().toString(d.stretch, 'f', 2));
}

}  // namespace ullage
