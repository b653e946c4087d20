// SPDX-License-Identifier: GPL-3.0-or-later
/// One program: commands without a window, and the window.
#include "app/cli/arguments.h"
#include "app/cli/commands.h"
#include "app/cli/output.h"
#include "core/units/kept_memory.h"

#ifdef ULLAGE_HAS_UI
#include "ui/window/run_window.h"
#endif

#include <cstdlib>
#include <new>
#include <string>
#include <vector>

namespace {

using ullage::cli::Arguments;

#ifdef ULLAGE_HAS_UI
bool has_display() {
    for (const char* name : {"DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"})
        if (const char* value = std::getenv(name); value && *value) return true;
    return false;
}
#endif

int run(int argc, char** argv) {
    const std::vector<std::string> words(argv + 1, argv + argc);
    auto arguments = ullage::cli::parse_arguments(words);
    if (!arguments) {
        ullage::cli::print_error("usage", arguments.error());
        return ullage::cli::usage_wrong;
    }
    ullage::cli::DrawPictures draw;
#ifdef ULLAGE_HAS_UI
    draw = [&](const ullage::Answer& answer, const std::string& folder, std::vector<std::string>& written) {
        return ullage::ui::writePictures(argc, argv, answer, folder, written) == 0;
    };
#endif
    ullage::cli::LayReport lay;
#ifdef ULLAGE_HAS_UI
    lay = [&](const ullage::Answer& answer,
              const ullage::cli::ReportAsked& asked) -> tl::expected<ullage::cli::ReportFiles, std::string> {
        ullage::cli::ReportFiles files;
        const auto trouble = ullage::ui::layReport(argc, argv, answer, asked.logo, asked.letter,
                                                   asked.pdf ? &files.pdf : nullptr, asked.html ? &files.html : nullptr);
        if (!trouble.empty()) return tl::unexpected(trouble);
        return files;
    };
#endif
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
#ifdef ULLAGE_HAS_UI
    if (has_display()) {
        std::optional<std::string> site;
        if (!arguments->files.empty()) site = arguments->files.front();
        return ullage::ui::runWindow(argc, argv, site, arguments->settings, arguments->allow_outside);
    }
    const char* const why = "there is no display, so no window can open";
#else
    const char* const why = "this build has no window";
#endif
    if (arguments->files.empty()) {
        ullage::cli::print_error(why, "give a site to have its forecast printed; see ullage --help");
        return ullage::cli::usage_wrong;
    }
    ullage::cli::print_error(why, "the forecast is printed instead");
    return ullage::cli::run_forecast(*arguments, draw);
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
