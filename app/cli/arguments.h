// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Words of the command line → what is asked.

#include "core/outlook/outlook.h"
#include "core/outlook/solve.h"
#include "core/words/language.h"

#include <optional>
#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace ullage::cli {

struct Arguments {
    enum class Command { window, forecast, measure, solve, outage, report, check, help, version } command = Command::window;
    std::vector<std::string> files;
    Settings settings;
    std::optional<std::string> json, csv;      ///< a file, or "-" for standard output
    std::optional<std::string> pictures;       ///< a folder
    std::vector<std::string> columns;
    bool skip_bad_lines = false;
    bool allow_outside = false;                ///< listings may lie outside the site's folder
    SolveFor solve_for = SolveFor::link_rate;
    std::optional<std::string> box, send;      ///< by name
    std::optional<double> confidence;          ///< above 0.5, below 1
    std::optional<std::string> rates;          ///< a file of line rates that are sold
    std::optional<Day> outage_from;
    double outage_days = 0;
    std::optional<std::string> pdf, html;      ///< a file, or "-" for standard output
    std::optional<std::string> logo;           ///< a file
    std::optional<Language> language;          ///< of the sentences; empty: the environment's
    bool letter = false;                       ///< paper, instead of A4
    bool operator==(const Arguments&) const = default;
};

/// `words` without the program's name. The error is a sentence; it means exit status 2.
tl::expected<Arguments, std::string> parse_arguments(const std::vector<std::string>& words);

std::string help_text();

}  // namespace ullage::cli
