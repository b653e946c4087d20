// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Runs the program as scripts do, in a folder of the test's own. All data are invented.

#include "tests/temporary_folder.h"

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <sstream>
#include <string>
#include <sys/wait.h>
#include <unistd.h>

namespace ullage::testing {

namespace fs = std::filesystem;

struct Outcome {
    int status = -1;
    std::string out, err;
};

class CommandLine : public ::testing::Test {
protected:
    fs::path write(const std::string& name, const std::string& text) const {
        std::ofstream(folder_ / name, std::ios::binary) << text;
        return folder_ / name;
    }

    static std::string slurp(const fs::path& p) {
        std::ifstream in(p);
        std::stringstream s;
        s << in.rdbuf();
        return s.str();
    }

    /// Runs the program, or a copy of it, without a display; `before`: what runs it.
    Outcome run(const std::string& words, const std::string& before = "", const fs::path& program = ULLAGE_PROGRAM) const {
        const fs::path out = folder_ / "stdout";
        const fs::path err = folder_ / "stderr";
        const std::string command = before + "env -u DISPLAY -u WAYLAND_DISPLAY -u QT_QPA_PLATFORM " +
                                    quoted(program) + " " + words + " >'" + out.string() +
                                    "' 2>'" + err.string() + "' </dev/null";
        const int raw = std::system(command.c_str());
        Outcome o{WIFEXITED(raw) ? WEXITSTATUS(raw) : -1, slurp(out), slurp(err)};
        fs::remove(out);
        fs::remove(err);
        return o;
    }

    static std::string quoted(const fs::path& p) { return "'" + p.string() + "'"; }

    const TemporaryFolder temporary_;
    const fs::path folder_ = temporary_.path();
};

// An invented site: 10 TB that grow by exactly 1.46 TB a year (4 GB a day less the leap days), nothing
// overwritten, on a box of 20 TB.
inline const char* const plain_site = R"json({
  "format": "ullage-site", "version": 1, "name": "Plain (invented)", "as_of": "2026-01-01", "horizon": "10 y",
  "datasets": [ { "name": "files", "home": "shelf", "live": "10 TB",
                  "growth": { "per_year": "1.461 TB", "spread": 0 },
                  "turnover": { "per_day": "4 GB", "spread": 0 },
                  "ladder": [ { "every": "1 d", "count": 7 } ] } ],
  "boxes": [ { "name": "shelf", "usable": "20 TB", "ceiling": 0.8 } ] })json";

inline const std::string sample = std::string(ULLAGE_SOURCE_DIR) + "/sample-sites/";

}  // namespace ullage::testing
