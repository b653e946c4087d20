// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/sold_rates.h"

#include "core/outlook/sold_rates_text.h"
#include "core/units/quantity_text.h"

#include <fmt/format.h>
#include <algorithm>

namespace ullage {

tl::expected<std::vector<BitsPerSecond>, Problems> parse_sold_rates(std::string_view text) {
    std::vector<BitsPerSecond> rates;
    Problems problems;
    int number = 0;
    while (!text.empty()) {
        const auto end = text.find('\n');
        std::string_view line = text.substr(0, end);
        text = end == std::string_view::npos ? std::string_view() : text.substr(end + 1);
        ++number;
        line = line.substr(0, line.find('#'));
        const auto first = line.find_first_not_of(" \t\r");
        if (first == std::string_view::npos) continue;
        line = line.substr(first, line.find_last_not_of(" \t\r") - first + 1);
        const auto rate = parse_bit_rate(line);
        if (!rate)
            problems.push_back({fmt::format("line {}", number), rate.error()});
        else if (!(rate->value > 0))
            problems.push_back(
                {fmt::format("line {}", number), fmt::format("a rate of {} is not above 0", line)});
        else
            rates.push_back(*rate);
    }
    if (problems.empty() && rates.empty())
        problems.push_back({"", "there is no rate in it; give one a line, such as 100 Mbit/s"});
    if (!problems.empty()) return tl::unexpected(problems);
    std::sort(rates.begin(), rates.end());
    rates.erase(std::unique(rates.begin(), rates.end()), rates.end());
    return rates;
}

std::vector<BitsPerSecond> usual_sold_rates() {
    return parse_sold_rates(sold_rates_text).value_or(std::vector<BitsPerSecond>());
}

std::optional<BitsPerSecond> rounded_up(BitsPerSecond needed,
                                        const std::vector<BitsPerSecond>& sold) {
    const auto at = std::lower_bound(sold.begin(), sold.end(), needed);
    if (at == sold.end()) return {};
    return *at;
}

}  // namespace ullage
