// SPDX-License-Identifier: GPL-3.0-or-later
/// Reads one site a line from standard input; answers each with a line: `ok`, or the pointer and the
/// words of each problem, separated by tabs. `--random N SEED` writes N drawn sites instead, one a line.
/// For site_schema_test.py, which judges the same texts by resources/site.schema.json.

#include "core/site/site_json.h"
#include "tests/core/site/random_site.h"

#include <cstdint>
#include <cstdlib>
#include <iostream>
#include <string>
#include <string_view>

namespace {

std::string on_one_line(std::string text) {
    for (char& c : text)
        if (c == '\n' || c == '\t') c = ' ';
    return text;
}

ullage::Site drawn(int seed) {
    constexpr int size = 100;
    return ullage::testing::any_site()(rc::Random(static_cast<std::uint64_t>(seed)), size).value();
}

int judge() {
    for (std::string line; std::getline(std::cin, line);) {
        const auto site = ullage::parse_site(line);
        if (site) {
            std::cout << "ok\n";
            continue;
        }
        std::string out;
        for (const auto& problem : site.error())
            out += (out.empty() ? "" : "\t") + on_one_line(problem.where + ": " + problem.what);
        std::cout << out << '\n';
    }
    return 0;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc == 1) return judge();
    if (argc != 4 || std::string_view(argv[1]) != "--random") return 2;
    const int count = std::atoi(argv[2]);
    const int seed = std::atoi(argv[3]);
    for (int i = 0; i < count; ++i)
        std::cout << on_one_line(ullage::write_site(drawn(seed + i))) << '\n';
    return std::cout ? 0 : 3;
}
