// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/cli/output.h"

#include "core/site/replace_file.h"
#include "core/units/quoted_text.h"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fmt/format.h>

namespace ullage::cli {

void print_problems(const BadInput& bad) {
    for (const auto& p : bad.problems) print_error(bad.file, p.where.empty() ? p.what : p.where + ": " + p.what);
}

// Names and what was typed come from outside; none may steer the terminal.
void print_error(const std::string& file, const std::string& what) {
    fmt::print(stderr, "ullage: {}: {}\n", without_controls(file), without_controls(what));
}

ExitStatus status_of(const BadInput& bad) { return bad.unreadable ? file_trouble : input_wrong; }

bool write_output(const std::string& file, const std::string& text) {
    if (file == "-") {
        const bool ok = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
        if (!ok || std::fflush(stdout) != 0) {
            print_error("standard output", fmt::format("cannot be written: {}", std::strerror(errno)));
            return false;
        }
        return true;
    }
    namespace fs = std::filesystem;
    std::error_code error;
    // A pipe or a device is written to as it is; a file is made anew beside itself first.
    if (fs::exists(file, error) && !fs::is_regular_file(file, error)) {
        if (fs::is_directory(file, error)) {
            print_error(file, "is a folder; name a file");
            return false;
        }
        std::FILE* const out = std::fopen(file.c_str(), "wb");
        const bool all = out && std::fwrite(text.data(), 1, text.size(), out) == text.size() && std::fflush(out) == 0;
        const int why = errno;
        if (out) std::fclose(out);
        if (!all) print_error(file, fmt::format("cannot be written: {}", std::strerror(why)));
        return all;
    }
    const auto written = replace_file(file, text);
    if (!written) print_error(file, written.error());
    return written.has_value();
}

}  // namespace ullage::cli
