// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/cli/output.h"

#include <cstdio>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>

namespace ullage::cli {

void print_problems(const BadInput& bad) {
    for (const auto& p : bad.problems)
        fmt::print(stderr, "ullage: {}: {}{}{}\n", bad.file, p.where, p.where.empty() ? "" : ": ", p.what);
}

void print_error(const std::string& file, const std::string& what) {
    fmt::print(stderr, "ullage: {}: {}\n", file, what);
}

ExitStatus status_of(const BadInput& bad) { return bad.unreadable ? file_trouble : input_wrong; }

bool write_output(const std::string& file, const std::string& text) {
    if (file == "-") {
        const bool ok = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
        if (!ok || std::fflush(stdout) != 0) {
            print_error("standard output", "could not be written");
            return false;
        }
        return true;
    }
    namespace fs = std::filesystem;
    std::error_code error;
    // A pipe or a device is written to as it is; a file is made anew beside itself first.
    const bool in_place = fs::exists(file, error) && !fs::is_regular_file(file, error);
    const std::string target = in_place ? file : file + ".part";
    std::ofstream out(target, std::ios::binary | std::ios::trunc);
    out.write(text.data(), static_cast<std::streamsize>(text.size()));
    out.close();
    if (!out) {
        if (!in_place) fs::remove(target, error);
        print_error(file, "could not be written");
        return false;
    }
    if (!in_place) fs::rename(target, file, error);
    if (error && !in_place) {
        print_error(file, "could not be written: " + error.message());
        fs::remove(target, error);
        return false;
    }
    return true;
}

}  // namespace ullage::cli
