// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Exit statuses, messages, and writing results.

#include "core/units/problem.h"

#include <string>

namespace ullage::cli {

enum ExitStatus { done = 0, input_wrong = 1, usage_wrong = 2, file_trouble = 3, interrupted = 130 };

/// "ullage: FILE: WHERE: WHAT", one a line, to standard error.
void print_problems(const BadInput& bad);
void print_error(const std::string& file, const std::string& what);
ExitStatus status_of(const BadInput& bad);

/// Writes the whole text to a file, or to standard output for "-". A file is replaced only when all
/// of it is written. False after an error message.
bool write_output(const std::string& file, const std::string& text);

}  // namespace ullage::cli
