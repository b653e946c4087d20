// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Plain values of a form as text: numbers, shares, dates, times of day. What is read in a field is
/// what is read in the site file.

#include "core/units/calendar.h"

#include <QString>

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <tl/expected.hpp>

namespace ullage::ui {

/// How a value is read and written. The error is a sentence.
template <class Value>
struct ValueText {
    std::function<tl::expected<Value, std::string>(const QString&)> read;
    std::function<QString(Value)> write;
};

ValueText<int> wholeNumber();
ValueText<std::optional<int>> optionalWholeNumber();
ValueText<double> number();
ValueText<std::optional<double>> optionalNumber();
ValueText<double> share();  ///< "80 %"
ValueText<std::optional<double>> optionalShare();
ValueText<Day> date();  ///< "2027-03-01"
ValueText<std::optional<Day>> optionalDate();
ValueText<int> timeOfDay();  ///< "20:00"
/// Seven numbers, Monday first, or nothing.
ValueText<std::optional<std::array<double, 7>>> optionalWeek();

}  // namespace ullage::ui
