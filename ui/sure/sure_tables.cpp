// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/sure/sure_tables.h"

#include "ui/charts/fill_table.h"
#include "ui/theme/words.h"

#include <algorithm>

namespace ullage {
namespace {

using Cell = NumberTable::Cell;

Cell date(Instant at) {
    return Cell::date(Words::date(std::chrono::floor<std::chrono::days>(at)));
}

}  // namespace

NumberTable::Content SureTables::turnover(const DatasetOutlook& d, Prefixes prefixes) {
    double top = 0;
    for (const MeasuredStep& s : d.measured_steps)
        top = std::max({top, s.freed_bytes, s.high_bytes});
    for (const CurveBand& p : d.curve_band) top = std::max(top, p.p90);
    const ByteUnit unit = byte_unit(top, prefixes);
    NumberTable::Content content;
    content.header = {tr("What"),
                      tr("After (days)"),
                      tr("1 in 10 below (%1)").arg(unit.name),
                      tr("Middle, or mean (%1)").arg(unit.name),
                      tr("1 in 10 above (%1)").arg(unit.name),
                      tr("Steps")};
    const auto row = [&](const QString& what, double gap, double low, double middle, double high,
                         const Cell& steps) {
        content.rows.push_back({Cell::words(what), Cell::number(gap, 1),
                                Cell::number(low, unit.bytes), Cell::number(middle, unit.bytes),
                                Cell::number(high, unit.bytes), steps});
    };
    for (const MeasuredStep& s : d.measured_steps)
        row(tr("measured"), s.gap_days, s.low_bytes, s.freed_bytes, s.high_bytes,
            Cell::number(s.steps, 1, 1));
    const auto span = measured_span(d);
    for (const CurveBand& p : d.curve_band)
        row(!d.measured                       ? tr("curve, assumed")
            : span && span->holds(p.gap_days) ? tr("curve")
                                              : tr("curve, extrapolated"),
            p.gap_days, p.p10, p.p50, p.p90, Cell::words({}));
    return content;
}

NumberTable::Content SureTables::backtest(const DatasetOutlook& d, Figure figure,
                                          Prefixes prefixes) {
    double top = 0;
    if (d.backtest)
        for (const BacktestOrigin& o : d.backtest->origins)
            for (const ForecastThen& f : forecasts_of(o, figure))
                top = std::max({top, f.p90, f.came});
    const ByteUnit unit = byte_unit(top, prefixes);
    NumberTable::Content content;
    content.header = {tr("Made"),
                      tr("From snapshots"),
                      tr("For"),
                      tr("Days ahead"),
                      tr("1 in 10 below (%1)").arg(unit.name),
                      tr("Middle (%1)").arg(unit.name),
                      tr("1 in 10 above (%1)").arg(unit.name),
                      tr("Came (%1)").arg(unit.name),
                      tr("Within the band")};
    if (d.backtest)
        for (const BacktestOrigin& o : d.backtest->origins)
            for (const ForecastThen& f : forecasts_of(o, figure))
                content.rows.push_back(
                    {date(o.origin), Cell::number(o.snapshots, 1, 1), date(f.at),
                     Cell::number(f.days_ahead, 1), Cell::number(f.p10, unit.bytes, 4),
                     Cell::number(f.p50, unit.bytes, 4), Cell::number(f.p90, unit.bytes, 4),
                     Cell::number(f.came, unit.bytes, 4),
                     Cell::words(lies_within(f) ? tr("yes") : tr("no"))});
    return content;
}

NumberTable::Content SureTables::drivers(const std::vector<Driver>& drivers) {
    NumberTable::Content content;
    content.header = {tr("Input"), tr("Days until the ceiling, input low"),
                      tr("Days until the ceiling, input high"), tr("Share of the spread (%)")};
    const auto days = [](const std::optional<double>& x) {
        return x ? Cell::number(*x, 1) : Cell::words(tr("not within the horizon"));
    };
    for (const Driver& d : drivers)
        content.rows.push_back({Cell::words(Words::said(d.input)), days(d.low_days),
                                days(d.high_days), Cell::number(100 * d.variance_share, 1, 2)});
    return content;
}

}  // namespace ullage
