// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/findings.h"

#include "core/findings/send_findings.h"
#include "core/findings/space_findings.h"
#include "core/findings/words.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace ullage {

namespace {

// A box is tight when one future in ten reaches the ceiling within the time to buy and fit a larger
// one, twice over, or when half of them do within a year; it overruns when half do within the time to
// buy. Common practice, no source.
constexpr double default_lead_days = 90;
constexpr double tight_median_days = 365;

double lead_days(const BoxOutlook& b) { return b.lead_time_days.value_or(default_lead_days); }

class Writer {
public:
    Writer(const Site& site, const Outlook& outlook, Prefixes prefixes, Language language)
        : site_(site), outlook_(outlook), prefixes_(prefixes), w_(language) {}

    std::vector<Finding> write() {
        for (const auto& b : outlook_.boxes) box(b);
        take(offer_findings(site_, outlook_, w_));
        for (const auto& s : outlook_.sends) take(send_findings(site_, outlook_, s, prefixes_, w_));
        if (!outlook_.sends.empty()) add(Level::note, "/sends", receiving_practice(w_));
        for (std::size_t d = 0; d < outlook_.datasets.size(); ++d) dataset(d);
        general();
        std::stable_sort(findings_.begin(), findings_.end(), [](const Finding& a, const Finding& b) {
            return rank(a.level) < rank(b.level);
        });
        return findings_;
    }

private:
    static int rank(Level level) {
        switch (level) {
            case Level::overruns: return 0;
            case Level::tight: return 1;
            case Level::fits: return 2;
            case Level::note: return 3;
        }
        return 3;
    }

    void add(Level level, std::string about, std::string text) {
        findings_.push_back({level, std::move(about), std::move(text)});
    }

    std::string size(double bytes) const { return w_.bytes(bytes, prefixes_); }

    std::string box_pointer(const std::string& name) const {
        for (std::size_t i = 0; i < site_.boxes.size(); ++i)
            if (site_.boxes[i].name == name) return fmt::format("/boxes/{}", i);
        return "";
    }

    std::string horizon(Case wanted = Case::nominative) const { return w_.horizon(outlook_.horizon_days, wanted); }
    std::string month(double days) const { return month_of(outlook_.as_of, days, w_); }

    void take(const std::vector<Finding>& said) { findings_.insert(findings_.end(), said.begin(), said.end()); }

    void box(const BoxOutlook& b) {
        const std::string about = box_pointer(b.name);
        const Level level = status_of(b, outlook_.horizon_days);
        const double ceiling_percent = b.usable_bytes > 0 ? b.ceiling_bytes / b.usable_bytes : 0;
        const std::string ceiling = w_.percent(ceiling_percent);
        if (b.full_now) {
            add(level, about, w_.say("{} is full today: {} would be stored on {} of usable space.", b.name,
                                     size(b.used_now_bytes), size(b.usable_bytes)));
        } else if (b.over_ceiling_now) {
            add(level, about, w_.say("{} is over its {} ceiling today, at {} of {} usable.", b.name, ceiling,
                                     size(b.used_now_bytes), size(b.usable_bytes)));
        } else if (const auto& q = b.days_until_ceiling; q.p50) {
            std::string text = w_.say("{} reaches its {} ceiling in {}, around {}.", b.name, ceiling,
                                      w_.span(*q.p50, Case::dative), month(*q.p50));
            const std::string early = month(q.p10.value_or(*q.p50));
            text += " " + (q.p90 ? w_.say("1 in 10: before {}; 9 in 10: before {}.", early, month(*q.p90))
                                 : w_.say("1 in 10: before {}; {} stay below it for {}.", early,
                                          chance_of_futures(1 - b.chance_of_ceiling_within_horizon, w_), horizon()));
            add(level, about, text);
        } else if (b.chance_of_ceiling_within_horizon > 0) {
            const std::string chance = chance_of_futures(b.chance_of_ceiling_within_horizon, w_);
            add(level, about,
                q.p10 ? w_.say("{} most likely stays below its {} ceiling for {}; {} reach it, the first of them around "
                               "{}.", b.name, ceiling, horizon(), chance, month(*q.p10))
                      : w_.say("{} most likely stays below its {} ceiling for {}; {} reach it.", b.name, ceiling,
                               horizon(), chance));
        } else {
            add(level, about, w_.say("{} stays below its {} ceiling for {} in every future drawn; it ends at {} full.",
                                     b.name, ceiling, horizon(), w_.percent(b.fill.back().fill, 2)));
        }
        order(b, about);
        shorter_ladder(b, about);
        nothing_bought(b, about);
        shares(b, about);
        matters(b, about);
        take(space_findings(outlook_, b, about, prefixes_, w_));
    }

    void order(const BoxOutlook& b, const std::string& about) {
        if (!b.order_by || b.full_now) return;
        const std::string day = w_.date(*b.order_by);
        if (*b.order_by <= outlook_.as_of)
            add(Level::overruns, about,
                w_.say("More space for {} should have been ordered by {}: the ceiling may come before a delivery of {} "
                       "does.", b.name, day, w_.span(b.lead_time_days.value_or(0), Case::dative)));
        else if (b.lead_time_days)
            add(Level::note, about,
                w_.say("Order more space for {} by {}: 1 future in 10 reaches the ceiling {} later, which is the time a "
                       "delivery takes.", b.name, day, w_.span(*b.lead_time_days)));
        else
            add(Level::note, about,
                w_.say("Order more space for {} by {}: 1 future in 10 reaches the ceiling that day or not much later.",
                       b.name, day));
    }

    /// Found on fewer paths than the chance: where they disagree nothing is said.
    void shorter_ladder(const BoxOutlook& b, const std::string& about) {
        if (!b.ladder_that_fits || b.ladder_that_fits->longest_days.value_or(0) >= b.ladder_that_fits->today_days)
            return;
        const auto& fit = *b.ladder_that_fits;
        add(Level::note, about,
            fit.longest_days
                ? w_.say("Keeping snapshots for {} instead of {} would keep {} below its ceiling for {}.",
                         w_.span(*fit.longest_days), w_.span(fit.today_days), b.name, horizon())
                : w_.say("No shorter ladder would keep {} below its ceiling for {}: it takes more space, or less data.",
                         b.name, horizon()));
    }

    /// What comes of leaving a box as it is, where its ceiling comes.
    void nothing_bought(const BoxOutlook& b, const std::string& about) {
        if (b.usable_needed_bytes > b.fill.back().usable_bytes) {
            const std::string needed = size(b.usable_needed_bytes), has = size(b.fill.back().usable_bytes);
            const std::string sure = say_futures(outlook_.confidence, w_);
            add(Level::note, about,
                b.changes.empty() ? w_.say("To stay below its ceiling for {} in {}, {} would need {} of usable space; it "
                                           "has {}.", horizon(), sure, b.name, needed, has)
                                  : w_.say("To stay below its ceiling for {} in {}, {} would need {} of usable space; it "
                                           "has {} by then.", horizon(), sure, b.name, needed, has));
        }
        if (!b.order_by || b.full_now) return;
        if (const auto& full = b.days_until_full.p50)
            add(Level::note, about,
                w_.say("If nothing is bought, {} is full in {}, around {}, in half of the futures: then nothing more is "
                       "written there, and no copy arrives.", b.name, w_.span(*full, Case::dative), month(*full)));
        else if (b.chance_of_full_within_horizon > 0)
            add(Level::note, about,
                w_.say("If nothing is bought, {} is full within {} in {}.", b.name, horizon(Case::dative),
                       say_futures(b.chance_of_full_within_horizon, w_)));
        else
            add(Level::note, about,
                w_.say("If nothing is bought, {} passes its ceiling but is not full within {} in any future drawn.",
                       b.name, horizon(Case::dative)));
    }

    /// The input that moves the day most, where there is a day to move.
    void matters(const BoxOutlook& b, const std::string& about) {
        const auto first = std::find_if(outlook_.drivers.begin(), outlook_.drivers.end(),
                                        [&](const Driver& d) { return d.box == b.name; });
        if (first == outlook_.drivers.end()) return;
        const Driver& d = *first;
        const std::string start = w_.say("What matters most for “{}” is the {}:", b.name, d.input) + " ";
        const std::string within = horizon(Case::dative);
        if (!d.low_days && !d.high_days) {
            add(Level::note, about,
                start + w_.say("{} of the spread between the futures goes with it, but neither its low nor its high "
                               "alone brings the ceiling within {}.", w_.percent(d.variance_share), within));
            return;
        }
        const std::string low = d.low_days ? w_.span(*d.low_days, Case::dative) : "";
        const std::string high = d.high_days ? w_.span(*d.high_days, Case::dative) : "";
        add(Level::note, about,
            start + (!d.low_days    ? w_.say("at its low (1 in 10 is lower) the ceiling does not come within {}, at its "
                                             "high (1 in 10 is higher) it comes in {}.", within, high)
                     : !d.high_days ? w_.say("at its low (1 in 10 is lower) the ceiling comes in {}, at its high (1 in "
                                             "10 is higher) it does not come within {}.", low, within)
                     : low == high  ? w_.say("at its low (1 in 10 is lower) the ceiling comes in {}, at its high (1 in "
                                             "10 is higher) in much the same time.", low)
                                    : w_.say("at its low (1 in 10 is lower) the ceiling comes in {}, at its high (1 in "
                                             "10 is higher) in {}.", low, high)));
    }

    /// How much of a box snapshots hold, when that is news.
    void shares(const BoxOutlook& b, const std::string& about) {
        const auto& last = b.fill.back();
        if (last.used_bytes.p50 <= 0) return;
        const double held = last.held_bytes.p50 / last.used_bytes.p50;
        if (held >= 0.05)
            add(Level::note, about,
                w_.say("After {}, snapshots alone hold {} on {}, {} of what is used.", horizon(Case::dative),
                       size(last.held_bytes.p50), b.name, w_.percent(held, 2)));
    }

    void dataset(std::size_t d) {
        const std::string about = fmt::format("/datasets/{}", d);
        const auto& o = outlook_.datasets[d];
        for (const auto& sentence : o.assumptions)
            add(Level::note, about, w_.say("{}: {}", o.name, sentence));
        if (o.measured)
            add(Level::note, about,
                w_.say("{}: its listing shows gaps of up to {}; what happens over longer times is an extrapolation.",
                       o.name, w_.span(o.observed_days, Case::dative)));
    }

    void general() {
        for (std::size_t i = 0; i < site_.sends.size(); ++i)
            if (std::holds_alternative<KeepAll>(site_.sends[i].ladder))
                add(Level::tight, fmt::format("/sends/{}", i),
                    w_.say("“{}” keeps every snapshot on {}: nothing is ever given back there, so it fills for certain; "
                           "a ladder of its own would end that.", site_.sends[i].name, site_.sends[i].to));
        if (outlook_.boxes.empty())
            add(Level::note, "", w_.say("No box has a pool or a usable size, so none is forecast."));
    }

    const Site& site_;
    const Outlook& outlook_;
    Prefixes prefixes_;
    Wording w_;
    std::vector<Finding> findings_;
};

}  // namespace

std::string to_string(Level level) {
    switch (level) {
        case Level::fits: return "fits";
        case Level::tight: return "tight";
        case Level::overruns: return "overruns";
        case Level::note: return "note";
    }
    return {};
}

Level status_of(const BoxOutlook& b, double horizon_days) {
    if (b.over_ceiling_now || b.full_now) return Level::overruns;
    const auto& q = b.days_until_ceiling;
    if (q.p50 && *q.p50 <= lead_days(b)) return Level::overruns;
    if (q.p10 && *q.p10 <= 2 * lead_days(b)) return Level::tight;
    if (q.p50 && *q.p50 <= std::min(tight_median_days, horizon_days)) return Level::tight;
    return Level::fits;
}

Level status_of(const SendOutlook& s, double confidence) {
    if (!s.first_copy_days.p50 || s.falls_behind) return Level::overruns;
    if (s.chance_of_missing_window > 1 - confidence) return Level::overruns;
    if (s.chance_of_missing_window > (1 - confidence) / 5) return Level::tight;
    return Level::fits;
}

std::string level_word(Level level, const Wording& w) {
    switch (level) {
        case Level::fits: return w.say_as("status", "fits");
        case Level::tight: return w.say_as("status", "tight");
        case Level::overruns: return w.say_as("status", "overruns");
        case Level::note: return w.say_as("status", "note");
    }
    return {};
}

std::vector<Finding> findings(const Site& site, const Outlook& outlook, Prefixes prefixes, Language language) {
    return Writer(site, outlook, prefixes, language).write();
}

Answer in_language(Answer answer, Language language, Prefixes prefixes) {
    answer.findings = findings(answer.site, answer.outlook, prefixes, language);
    answer.language = language;
    return answer;
}

tl::expected<Answer, ComputeError> answer(const Site& site, const Evidence& evidence, const Settings& settings,
                                          const Progress& progress) {
    auto outlook = compute(site, evidence, settings, progress);
    if (!outlook) return tl::unexpected(outlook.error());
    Answer result;
    result.site = site;
    result.outlook = *std::move(outlook);
    return in_language(std::move(result), Language::english);
}

}  // namespace ullage
