// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The commands that need no window. Each returns the exit status.

#include "app/cli/arguments.h"
#include "core/findings/findings.h"

#include <functional>

namespace ullage::cli {

/// Draws an answer's boxes into a folder; false if it could not. Given by the program that has a
/// drawing library; empty where there is none.
using DrawPictures =
    std::function<bool(const Answer&, const std::string& folder, std::vector<std::string>& written)>;

int run_forecast(const Arguments&, const DrawPictures& draw);
int run_measure(const Arguments&);
int run_solve(const Arguments&);
int run_outage(const Arguments&);
int run_check(const Arguments&);
int print_help();
int print_version();

}  // namespace ullage::cli
