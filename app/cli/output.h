// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Exit statuses, messages, and writing results.

#include "core/units/problem.h"

#include <cstdio>
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

/// A text that grows too large for memory: it is held in a file without a name until it is written out.
class Spool {
public:
    Spool() : file_(std::tmpfile()) {}
    ~Spool() {
        if (file_) std::fclose(file_);
    }
    Spool(const Spool&) = delete;
    Spool& operator=(const Spool&) = delete;

    void add(const std::string& text);
    /// As write_output. Only once, at the end.
    bool write_to(const std::string& file);

private:
    std::FILE* file_;
    bool failed_ = false;
};

}  // namespace ullage::cli
