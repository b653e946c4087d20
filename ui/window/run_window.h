// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The window from outside: what the program's main calls. No Qt in this header.

#include "core/findings/findings.h"

#include <optional>
#include <string>
#include <vector>

namespace ullage::ui {

/// Opens the window, on a site if one is named, and returns when it is closed: the exit status.
/// `argc` and `argv` must outlive the call. A site that cannot be opened is said in the window.
/// `allowOutside`: listings may lie outside the site's folder.
int runWindow(int& argc, char** argv, const std::optional<std::string>& sitePath,
              const Settings& settings, bool allowOutside = false);

/// Draws the pictures of an answer into a folder, without a display, and names the files written.
/// Returns an exit status: 0, or 3 if one could not be written.
int writePictures(int& argc, char** argv, const Answer& answer, const std::string& folder,
                  std::vector<std::string>& written);

/// The report of an answer as the bytes of its files, each made if it is asked for, without a display.
/// `logo`: the bytes of a PNG or JPEG; empty: none. Returns what is wrong with the logo, or nothing.
std::string layReport(int& argc, char** argv, const Answer& answer, const std::string& logo,
                      bool letter, std::string* pdf, std::string* html);

}  // namespace ullage::ui
