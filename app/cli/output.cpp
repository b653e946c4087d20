// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/cli/output.h"

#include "core/site/replace_file.h"
#include "core/units/quoted_text.h"

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <fmt/format.h>
#include <functional>
#include <string_view>
#include <utility>

namespace ullage::cli {

void print_problems(const BadInput& bad) {
    for (const auto& p : bad.problems) print_error(bad.file, p.where.empty() ? p.what : p.where + ": " + p.what);
}

// Names and what was typed come from outside; none may steer the terminal.
void print_error(const std::string& file, const std::string& what) {
    fmt::print(stderr, "ullage: {}: {}\n", without_controls(file), without_controls(what));
}

ExitStatus status_of(const BadInput& bad) { return bad.unreadable ? file_trouble : input_wrong; }

namespace {

using NextPiece = std::function<std::string_view()>;

bool write_pieces(std::FILE* out, const NextPiece& next) {
    for (std::string_view piece = next(); !piece.empty(); piece = next())
        if (std::fwrite(piece.data(), 1, piece.size(), out) != piece.size()) return false;
    return std::fflush(out) == 0;
}

/// A file is replaced only when all of it is written. False after an error message.
bool write_output(const std::string& file, const NextPiece& next) {
    if (file == "-") {
        if (write_pieces(stdout, next)) return true;
        print_error("standard output", fmt::format("cannot be written: {}", std::strerror(errno)));
        return false;
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
        const bool all = out && write_pieces(out, next);
        const int why = errno;
        if (out) std::fclose(out);
        if (!all) print_error(file, fmt::format("cannot be written: {}", std::strerror(why)));
        return all;
    }
    const auto written = replace_file(file, next);
    if (!written) print_error(file, written.error());
    return written.has_value();
}

}  // namespace

bool write_output(const std::string& file, const std::string& text) {
    return write_output(file, NextPiece([rest = std::string_view(text)]() mutable {
                            return std::exchange(rest, std::string_view());
                        }));
}

void Spool::add(const std::string& text) {
    if (!file_ || std::fwrite(text.data(), 1, text.size(), file_) != text.size()) failed_ = true;
}

bool Spool::write_to(const std::string& file) {
    if (failed_ || !file_ || std::fflush(file_) != 0) {
        print_error("a file for the time being", fmt::format("cannot be written: {}", std::strerror(errno)));
        return false;
    }
    std::rewind(file_);
    std::array<char, 65536> buffer{};
    return write_output(file, NextPiece([&]() -> std::string_view {
                            return {buffer.data(), std::fread(buffer.data(), 1, buffer.size(), file_)};
                        }));
}

}  // namespace ullage::cli
