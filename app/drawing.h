// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What needs the window's libraries. To load them takes as long as a small forecast, so they come with a module beside
/// the program, and only when something is to be drawn.

#include "core/findings/findings.h"

#include <optional>
#include <string>
#include <tl/expected.hpp>
#include <vector>

namespace ullage {

/// The module's functions, as ui/window/run_window.h says of each.
struct Drawing {
    const char* version;  ///< of the program the module was made for
    int (*run_window)(int& argc, char** argv, const std::optional<std::string>& site, const Settings& settings,
                      bool allow_outside);
    int (*write_pictures)(int& argc, char** argv, const Answer& answer, const std::string& folder,
                          std::vector<std::string>& written);
    std::string (*lay_report)(int& argc, char** argv, const Answer& answer, const std::string& logo, bool letter,
                              std::string* pdf, std::string* html);
};

/// Loaded the first time, and kept. The error is a sentence.
const tl::expected<const Drawing*, std::string>& drawing();

}  // namespace ullage
