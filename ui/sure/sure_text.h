// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What the page "How sure?" says in words: of a turnover curve and its measurement, of forecasts
/// made from an earlier date, of what a box's day depends on, and of what was not measured.
///
/// Nothing here is computed anew but counts and a value read between two points of a curve.

#include "core/outlook/outlook.h"
#include "core/units/quantity_text.h"

#include <QCoreApplication>
#include <QString>

#include <optional>
#include <vector>

namespace ullage {

/// Which figure of a backtest.
enum class Figure { live, freed };

const std::vector<ForecastThen>& forecasts_of(const BacktestOrigin& origin, Figure figure);
bool lies_within(const ForecastThen& forecast);  ///< what came, within p10…p90

struct InsideCount {
    int inside = 0, all = 0;
    bool operator==(const InsideCount&) const = default;
};
InsideCount count_inside(const Backtest& backtest, Figure figure);

/// The curve at a gap between two of its points, by straight lines in the logarithms; held at its
/// ends. Empty without points.
std::optional<CurveBand> curve_at(const std::vector<CurveBand>& band, double gap_days);

/// The gaps that a listing shows: from its shortest step to the longest gap. A curve outside of
/// them is an extrapolation, to either side. Empty if nothing was measured.
struct MeasuredSpan {
    double from_days = 0, to_days = 0;
    bool holds(double gap_days) const;
};
std::optional<MeasuredSpan> measured_span(const DatasetOutlook& dataset);

/// Drivers of a box, the widest bar first; an end past the horizon counts as the horizon.
std::vector<Driver> drivers_of(const Outlook& outlook, const std::string& box);

/// The box that reaches its ceiling first, of those with drivers if any has; −1 without boxes.
int soonest_box(const Outlook& outlook);

struct SureText {
    Q_DECLARE_TR_FUNCTIONS(ullage::SureText)

public:
    /// "1 h", "1 day", "60 days", "about 5 years".
    static QString gap(double days);

    static QString turnoverTitle(const DatasetOutlook& dataset, Prefixes prefixes);
    static QString turnoverSummary(const DatasetOutlook& dataset, Prefixes prefixes);
    static QString turnoverNote(const DatasetOutlook& dataset);
    static QString step(const MeasuredStep& step, Prefixes prefixes);
    static QString curvePoint(const CurveBand& point, const DatasetOutlook& dataset,
                              Prefixes prefixes);
    /// Why there is no curve to draw.
    static QString noTurnover(const DatasetOutlook& dataset);

    static QString backtestTitle(const DatasetOutlook& dataset, Figure figure);
    static QString backtestSummary(const DatasetOutlook& dataset, Figure figure, Prefixes prefixes);
    static QString backtestNote(const Backtest& backtest, Figure figure);
    static QString forecast(const BacktestOrigin& origin, const ForecastThen& forecast,
                            Prefixes prefixes);
    static QString origin(const BacktestOrigin& origin);        ///< "made 3 Mar 2026"
    static QString originDetail(const BacktestOrigin& origin);  ///< "from 40 snapshots"
    static QString noBacktest(const DatasetOutlook& dataset);

    static QString driversTitle(const BoxOutlook& box, const std::vector<Driver>& drivers);
    static QString driversSummary(const BoxOutlook& box, const std::vector<Driver>& drivers,
                                  double horizon_days);
    static QString driversNote();
    static QString driverRange(const Driver& driver, double horizon_days);
    static QString driver(const Driver& driver, double horizon_days);
    static QString noDrivers(const BoxOutlook& box, double horizon_days);

    /// Sentence about a dataset without measurement, or whose measurement ends; empty if nothing is
    /// to be said.
    static QString notMeasured(const DatasetOutlook& dataset);
    /// That own past errors called for wider bands; empty below 1.05.
    static QString stretched(const DatasetOutlook& dataset);
};

}  // namespace ullage
