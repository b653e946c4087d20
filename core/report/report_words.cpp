// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/report/report_words.h"

#include "core/findings/words.h"
#include "core/report/sentences.h"

namespace ullage::report {

std::string size(double bytes) { return format_bytes({bytes}); }

std::string level_words(Level level) {
    switch (level) {
        case Level::fits: return std::string(sentences::fits);
        case Level::tight: return std::string(sentences::tight);
        case Level::overruns: return std::string(sentences::overruns);
        case Level::note: break;
    }
    return {};
}

std::string say_between(double low_days, double high_days) {
    const std::string low = say_days(low_days), high = say_days(high_days);
    if (low == high) return low;
    static constexpr std::string_view about = "about ";
    const auto bare = [](const std::string& t) { return t.rfind(about, 0) == 0 ? t.substr(about.size()) : t; };
    const std::string from = bare(low), to = bare(high);
    const std::size_t unit = to.find_last_of(' ');
    if (from.size() > to.size() - unit && from.substr(from.size() - (to.size() - unit)) == to.substr(unit))
        return filled(sentences::between, from.substr(0, from.size() - (to.size() - unit)), to);
    return filled(sentences::between, from, to);
}

std::string when(const Outlook& o, const std::optional<double>& days) {
    if (!days) return filled(sentences::not_within, say_horizon(o.horizon_days));
    if (*days <= 0) return std::string(sentences::today);
    return fmt::format("{} ({})", say_days(*days), month_of(o.as_of, *days));
}

std::string ceiling_share(const BoxOutlook& b) {
    return format_percent(b.usable_bytes > 0 ? b.ceiling_bytes / b.usable_bytes : 0);
}

std::string say_share(double share) {
    constexpr double least = 0.001;
    if (share <= 0) return std::string(sentences::none);
    if (share >= 1) return std::string(sentences::all);
    if (share < least) return std::string(sentences::nearly_none);
    constexpr double small = 0.05;  // said to one digit, as the findings do
    return share > 1 - least ? std::string(sentences::nearly_all) : format_percent(share, share < small ? 1 : 2);
}

}  // namespace ullage::report
