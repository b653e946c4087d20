// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The commands that need no window. Each returns the exit status.

#include "app/cli/arguments.h"
#include "core/findings/findings.h"

#include <functional>
#include <tl/expected.hpp>

namespace ullage::cli {

/// Draws an answer's boxes into a folder; false if it could not. Needed where arguments ask for pictures.
using DrawPictures =
    std::function<bool(const Answer&, const std::string& folder, std::vector<std::string>& written)>;

/// What of a report is wanted, and its bytes.
struct ReportAsked {
    bool pdf = false, html = false, letter = false;
    std::string logo;  ///< a picture file's bytes; empty: none
};
struct ReportFiles {
    std::string pdf, html;
};
/// Lays an answer's report out. The error is a sentence about the logo.
using LayReport =
    std::function<tl::expected<ReportFiles, std::string>(const Answer&, const ReportAsked&)>;

int run_forecast(const Arguments&, const DrawPictures& draw);
int run_measure(const Arguments&);
int run_solve(const Arguments&);
int run_outage(const Arguments&);
int run_report(const Arguments&, const LayReport& lay);
int run_check(const Arguments&);
int print_help();
int print_version();

}  // namespace ullage::cli
