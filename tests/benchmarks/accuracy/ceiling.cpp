// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/benchmarks/accuracy/ceiling.h"

#include "tests/benchmarks/accuracy/forecast.h"

#include <fstream>
#include <sstream>

namespace ullage::accuracy {

std::vector<CeilingRow> read_ceiling_rows(const std::string& path) {
    std::ifstream in(path);
    std::string line;
    std::getline(in, line);
    std::istringstream heads(line);
    std::vector<std::string> names;
    for (std::string name; std::getline(heads, name, '\t');) names.push_back(name);
    std::vector<CeilingRow> rows;
    while (std::getline(in, line)) {
        std::istringstream fields(line);
        std::map<std::string, std::string> by_name;
        std::string field;
        for (const auto& name : names)
            if (std::getline(fields, field, '\t')) by_name[name] = field;
        const auto figure = [&](const std::string& name) {
            const auto at = by_name.find(name);
            return at == by_name.end() ? 0.0 : std::strtod(at->second.c_str(), nullptr);
        };
        CeilingRow row{by_name["history"], by_name["origin"],    by_name["series"],
                       figure("factor"),   figure("truth_days"), {}};
        for (const std::string method : {"arima", "ets", "rwf"})
            if (by_name.count(method + "_p50") > 0)
                row.methods[method] = {figure(method + "_p10"), figure(method + "_p50"),
                                       figure(method + "_p90")};
        rows.push_back(std::move(row));
    }
    return rows;
}

void CeilingScore::add(const Band& days, double truth_days) {
    const double loss = days.loss(truth_days);
    losses.push_back(loss);
    inside += days.holds(truth_days) ? 1 : 0;
    if (truth_days >= year_days) return;
    ++reached;
    reached_loss += loss;
}

}  // namespace ullage::accuracy
