// SPDX-License-Identifier: GPL-3.0-or-later
/// How right the forecasts were on real histories.
///
///     accuracy FOLDER [--markdown | --json FILE|-]
///
/// FOLDER is laid out as origins.h says. Each listing is measured, the year after is forecast with
/// 2,000 paths, and what came is compared: bytes held under each ladder, live bytes, used bytes,
/// the days on which ceilings were reached (year.h), and growth (growth.h). The scores are those of
/// scores.h. Same input, same figures. Exit status: 0 done, 1 the folder's files are wrong, 2 wrong
/// usage, 3 could not write.
#include "tests/benchmarks/accuracy/growth.h"
#include "tests/benchmarks/accuracy/year.h"

#include <fmt/format.h>
#include <cstdio>
#include <fstream>

using namespace ullage::accuracy;

int main(int argc, char** argv) {
    const std::vector<std::string> words(argv + 1, argv + argc);
    const bool markdown = words.size() == 2 && words[1] == "--markdown";
    const bool json = words.size() == 3 && words[1] == "--json";
    if (words.empty() || (words.size() > 1 && !markdown && !json)) {
        fmt::print(stderr, "usage: accuracy FOLDER [--markdown | --json FILE|-]\n");
        return 2;
    }
    const auto origins = read_origins(words[0]);
    if (!origins) {
        fmt::print(stderr, "{}\n", origins.error());
        return 1;
    }
    std::vector<Table> tables;
    if (!origins->empty()) {
        const auto years =
            judge_years(*origins, ULLAGE_SOURCE_DIR "/tests/reference/ceiling_days.tsv");
        if (!years) {
            fmt::print(stderr, "{}\n", years.error());
            return 1;
        }
        tables = *years;
    }
    const auto growth = judge_growth(words[0]);
    if (!growth) {
        fmt::print(stderr, "{}\n", growth.error());
        return 1;
    }
    tables.insert(tables.end(), growth->begin(), growth->end());

    if (json && words[2] != "-") {
        std::ofstream out(words[2]);
        out << as_json(tables) << std::flush;
        if (!out) {
            fmt::print(stderr, "could not write {}\n", words[2]);
            return 3;
        }
        return 0;
    }
    if (json) {
        fmt::print("{}", as_json(tables));
        return 0;
    }
    fmt::print("{} origins\n", origins->size());
    for (const auto& table : tables)
        fmt::print("\n{}", markdown ? as_markdown(table) : as_text(table));
    return 0;
}
