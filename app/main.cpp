// SPDX-License-Identifier: GPL-3.0-or-later
/// One program: commands without a window, and the window.
#include "app/cli/arguments.h"
#include "app/cli/commands.h"
#include "app/cli/output.h"
#include "app/drawing.h"
#include "core/units/kept_memory.h"

#include <cstdlib>
#include <new>
#include <optional>
#include <string>
#include <vector>

namespace {

using ullage::cli::Arguments;

bool has_display() {
    for (const char* name : {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"})
        if (const char* value = std::getenv(name); value && *value) return true;
    return false;
}

/// The window if there can be one; else the forecast is printed.
int run_window(int argc, char** argv, const Arguments& arguments) {
    std::string why = "there is no display, so no window can open";
    if (has_display()) {
        if (const auto& window = ullage::drawing()) {
            std::optional<std::string> site;
            if (!arguments.files.empty()) site = arguments.files.front();
            return (*window)->run_window(argc, argv, site, arguments.settings, arguments.allow_outside);
        } else {
            why = window.error();
        }
    }
    if (arguments.files.empty()) {
        ullage::cli::print_error(why, "give a site to have its forecast printed; see ullage --help");
        return ullage::cli::usage_wrong;
    }
    ullage::cli::print_error(why, "the forecast is printed instead");
    return ullage::cli::run_forecast(arguments, {});
}

int run(int argc, char** argv) {
    const std::vector<std::string> words(argv + 1, argv + argc);
    auto arguments = ullage::cli::parse_arguments(words);
    if (!arguments) {
        ullage::cli::print_error("usage", arguments.error());
        return ullage::cli::usage_wrong;
    }
    if ((arguments->pictures || arguments->command == Arguments::Command::report) && !ullage::drawing()) {
        ullage::cli::print_error("drawing", ullage::drawing().error());
        return ullage::cli::usage_wrong;
    }
    const auto draw = [&](const ullage::Answer& answer, const std::string& folder, std::vector<std::string>& written) {
        return (*ullage::drawing())->write_pictures(argc, argv, answer, folder, written) == 0;
    };
    const auto lay = [&](const ullage::Answer& answer,
                         const ullage::cli::ReportAsked& asked) -> tl::expected<ullage::cli::ReportFiles, std::string> {
        ullage::cli::ReportFiles files;
        const auto trouble =
            (*ullage::drawing())->lay_report(argc, argv, answer, asked.logo, asked.letter,
                                             asked.pdf ? &files.pdf : nullptr, asked.html ? &files.html : nullptr);
        if (!trouble.empty()) return tl::unexpected(trouble);
        return files;
    };
    using Command = Arguments::Command;
    switch (arguments->command) {
        case Command::help: return ullage::cli::print_help();
        case Command::version: return ullage::cli::print_version();
        case Command::forecast: return ullage::cli::run_forecast(*arguments, draw);
        case Command::measure: return ullage::cli::run_measure(*arguments);
        case Command::solve: return ullage::cli::run_solve(*arguments);
        case Command::outage: return ullage::cli::run_outage(*arguments);
        case Command::report: return ullage::cli::run_report(*arguments, lay);
        case Command::check: return ullage::cli::run_check(*arguments);
        case Command::window: break;
    }
    return run_window(argc, argv, *arguments);
}

}  // namespace

int main(int argc, char** argv) {
    ullage::keep_freed_memory();
    try {
        return run(argc, argv);
    } catch (const std::bad_alloc&) {
        ullage::cli::print_error("memory", "there is not enough of it for this; ask for fewer paths, a shorter horizon "
                                           "or a shorter listing");
        return ullage::cli::file_trouble;
    }
}
