// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/findings.h"
#include "core/outlook/outlook_laws.h"
#include "core/site/site_json.h"
#include "tests/fuzz/targets.h"

#include <algorithm>

namespace ullage::fuzzing {

namespace {

/// Small enough for a few milliseconds: runs and snapshots taken are counted over the horizon.
bool small(const Site& site) {
    const double horizon = in_days(site.horizon.value);
    if (site.datasets.size() > 4 || site.boxes.size() > 4 || site.sends.size() > 4 || horizon > 800) return false;
    const auto few = [&](const Ladder& ladder) {
        double kept = 0, taken = 0;
        for (const auto& rung : ladder) {
            kept += rung.lasts().value / rung.every.value.length().value;
            taken += site.horizon.value / rung.every.value.length();
        }
        return kept <= 500 && taken <= 20'000;
    };
    for (const auto& d : site.datasets)
        if (!few(d.ladder) || d.events.size() > 8) return false;
    for (const auto& s : site.sends) {
        if (s.every.value.length() < hours(2)) return false;
        const auto* own = std::get_if<Ladder>(&s.ladder);
        if (own && !few(*own)) return false;
    }
    return true;
}

}  // namespace

std::string try_forecast(std::string_view text) {
    const auto site = parse_site(text);
    if (!site || !small(*site)) return {};
    Settings settings;
    settings.paths = 3;
    settings.threads = 1;
    const auto a = answer(*site, {}, settings);
    if (!a) {
        const auto* problems = std::get_if<Problems>(&a.error());
        if (!problems || problems->empty()) return "no outlook, and no problem";
        for (const auto& p : *problems)
            if (p.what.empty()) return "a problem without words at " + p.where;
        return {};
    }
    if (const auto broken = broken_laws(a->outlook); !broken.empty()) return broken.front();
    const auto says_no_number = [](std::string_view words) {
        return words.find("nan") != std::string_view::npos || words.find("inf ") != std::string_view::npos;
    };
    const bool in_a_name = says_no_number(text);
    for (const auto& finding : a->findings)
        if (finding.text.empty() || (says_no_number(finding.text) && !in_a_name))
            return "a finding says: " + finding.text;
    if (outlook_json(*a).empty() || outlook_tables(*a).empty() || outlook_csv(*a).empty())
        return "an empty output";
    return {};
}

}  // namespace ullage::fuzzing
