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
    Writer(const Site& site, const Outlook& outlook, Prefixes prefixes)
        : site_(site), outlook_(outlook), prefixes_(prefixes) {}

    std::vector<Finding> write() {
        for (const auto& b : outlook_.boxes) box(b);
        take(offer_findings(site_, outlook_));
        for (const auto& s : outlook_.sends) take(send_findings(site_, outlook_, s, prefixes_));
        if (!outlook_.sends.empty()) add(Level::note, "/sends", receiving_practice());
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

    std::string size(double bytes) const { return format_bytes({bytes}, prefixes_); }

    std::string box_pointer(const std::string& name) const {
        for (std::size_t i = 0; i < site_.boxes.size(); ++i)
            if (site_.boxes[i].name == name) return fmt::format("/boxes/{}", i);
        return "";
    }

    std::string horizon() const { return say_horizon(outlook_.horizon_days); }

    void take(const std::vector<Finding>& said) { findings_.insert(findings_.end(), said.begin(), said.end()); }

    void box(const BoxOutlook& b) {
        const std::string about = box_pointer(b.name);
        const Level level = status_of(b, outlook_.horizon_days);
        const double ceiling_percent = b.usable_bytes > 0 ? b.ceiling_bytes / b.usable_bytes : 0;
        const std::string ceiling = fmt::format("{} ceiling", format_percent(ceiling_percent));
        if (b.full_now) {
            add(level, about, fmt::format("{} is full today: {} would be stored on {} of usable space.",
                                          b.name, size(b.used_now_bytes), size(b.usable_bytes)));
        } else if (b.over_ceiling_now) {
            add(level, about, fmt::format("{} is over its {} today, at {} of {} usable.", b.name, ceiling,
                                          size(b.used_now_bytes), size(b.usable_bytes)));
        } else if (b.days_until_ceiling.p50) {
            const auto& q = b.days_until_ceiling;
            std::string text = fmt::format("{} reaches its {} in {}, around {}.", b.name, ceiling,
                                           say_days(*q.p50), month_of(outlook_.as_of, *q.p50));
            text += fmt::format(" 1 in 10: before {}; ", month_of(outlook_.as_of, *q.p10));
            text += q.p90 ? fmt::format("9 in 10: before {}.", month_of(outlook_.as_of, *q.p90))
                          : fmt::format("{} futures stay below it for {}.",
                                        say_chance(1 - b.chance_of_ceiling_within_horizon), horizon());
            add(level, about, text);
        } else if (b.chance_of_ceiling_within_horizon > 0) {
            add(level, about,
                fmt::format("{} most likely stays below its {} for {}; {} futures reach it{}.", b.name,
                            ceiling, horizon(), say_chance(b.chance_of_ceiling_within_horizon),
                            b.days_until_ceiling.p10
                                ? ", the first of them around " + month_of(outlook_.as_of, *b.days_until_ceiling.p10)
                                : ""));
        } else {
            add(level, about, fmt::format("{} stays below its {} for {} in every future drawn; it ends at "
                                          "{} full.", b.name, ceiling, horizon(),
                                          format_percent(b.fill.back().fill, 2)));
        }
        if (b.order_by && !b.full_now) {
            const bool late = *b.order_by <= outlook_.as_of;
            add(late ? Level::overruns : Level::note, about,
                late ? fmt::format("More space for {} should have been ordered by {}: the ceiling may come "
                                   "before a delivery of {} does.", b.name, format_date(*b.order_by),
                                   say_days(b.lead_time_days.value_or(0)))
                     : fmt::format("Order more space for {} by {}: 1 future in 10 reaches the ceiling {} "
                                   "later{}.", b.name, format_date(*b.order_by),
                                   b.lead_time_days ? say_days(*b.lead_time_days) : "that day or not much",
                                   b.lead_time_days ? ", which is the time a delivery takes" : ""));
        }
        // Found on fewer paths than the chance: where they disagree nothing is said.
        if (b.ladder_that_fits && b.ladder_that_fits->longest_days.value_or(0) < b.ladder_that_fits->today_days) {
            const auto& fit = *b.ladder_that_fits;
            add(Level::note, about,
                fit.longest_days
                    ? fmt::format("Keeping snapshots for {} instead of {} would keep {} below its ceiling for {}.",
                                  say_days(*fit.longest_days), say_days(fit.today_days), b.name, horizon())
                    : fmt::format("No shorter ladder would keep {} below its ceiling for {}: it takes more space, or "
                                  "less data.", b.name, horizon()));
        }
        nothing_bought(b, about);
        shares(b, about);
        matters(b, about);
        take(space_findings(outlook_, b, about, prefixes_));
    }

    /// What comes of leaving a box as it is, where its ceiling comes.
    void nothing_bought(const BoxOutlook& b, const std::string& about) {
        if (b.usable_needed_bytes > b.fill.back().usable_bytes)
            add(Level::note, about,
                fmt::format("To stay below its ceiling for {} in {}, {} would need {} of usable space; it has {}{}.",
                            horizon(), say_futures(outlook_.confidence), b.name, size(b.usable_needed_bytes),
                            size(b.fill.back().usable_bytes), b.changes.empty() ? "" : " by then"));
        if (!b.order_by || b.full_now) return;
        if (const auto& full = b.days_until_full.p50)
            add(Level::note, about,
                fmt::format("If nothing is bought, {} is full in {}, around {}, in half of the futures: then nothing "
                            "more is written there, and no copy arrives.", b.name, say_days(*full),
                            month_of(outlook_.as_of, *full)));
        else if (b.chance_of_full_within_horizon > 0)
            add(Level::note, about,
                fmt::format("If nothing is bought, {} is full within {} in {}.", b.name, horizon(),
                            say_futures(b.chance_of_full_within_horizon)));
        else
            add(Level::note, about,
                fmt::format("If nothing is bought, {} passes its ceiling but is not full within {} in any future "
                            "drawn.", b.name, horizon()));
    }

    /// The input that moves the day most, where there is a day to move.
    void matters(const BoxOutlook& b, const std::string& about) {
        const auto first = std::find_if(outlook_.drivers.begin(), outlook_.drivers.end(),
                                        [&](const Driver& d) { return d.box == b.name; });
        if (first == outlook_.drivers.end()) return;
        const Driver& d = *first;
        const std::string start = fmt::format("What matters most for “{}” is the {}: ", b.name, d.input);
        if (!d.low_days && !d.high_days) {
            add(Level::note, about,
                start + fmt::format("{} of the spread between the futures goes with it, but neither its low nor "
                                    "its high alone brings the ceiling within {}.",
                                    format_percent(d.variance_share), horizon()));
            return;
        }
        const std::string low = d.low_days ? "the ceiling comes in " + say_days(*d.low_days)
                                           : "the ceiling does not come within " + horizon();
        std::string high;
        if (!d.high_days) high = "it does not come within " + horizon();
        else if (!d.low_days) high = "it comes in " + say_days(*d.high_days);
        else if (say_days(*d.low_days) == say_days(*d.high_days)) high = "in much the same time";
        else high = "in " + say_days(*d.high_days);
        add(Level::note, about,
            start + fmt::format("at its low (1 in 10 is lower) {}, at its high (1 in 10 is higher) {}.", low, high));
    }

    /// How much of a box snapshots hold, when that is news.
    void shares(const BoxOutlook& b, const std::string& about) {
        const auto& last = b.fill.back();
        if (last.used_bytes.p50 <= 0) return;
        const double held = last.held_bytes.p50 / last.used_bytes.p50;
        if (held >= 0.05)
            add(Level::note, about, fmt::format("After {}, snapshots alone hold {} on {}, {} of what is used.",
                                                horizon(), size(last.held_bytes.p50), b.name,
                                                format_percent(held, 2)));
    }

    void dataset(std::size_t d) {
        const std::string about = fmt::format("/datasets/{}", d);
        const auto& o = outlook_.datasets[d];
        for (const auto& sentence : o.assumptions)
            add(Level::note, about, fmt::format("{}: {}", o.name, sentence));
        if (o.measured)
            add(Level::note, about,
                fmt::format("{}: its listing shows gaps of up to {}; what happens over longer times is an "
                            "extrapolation.", o.name, say_days(o.observed_days)));
    }

    void general() {
        for (std::size_t i = 0; i < site_.sends.size(); ++i)
            if (std::holds_alternative<KeepAll>(site_.sends[i].ladder))
                add(Level::tight, fmt::format("/sends/{}", i),
                    fmt::format("“{}” keeps every snapshot on {}: nothing is ever given back there, so it "
                                "fills for certain; a ladder of its own would end that.",
                                site_.sends[i].name, site_.sends[i].to));
        if (outlook_.boxes.empty())
            add(Level::note, "", "No box has a pool or a usable size, so none is forecast.");
    }

    const Site& site_;
    const Outlook& outlook_;
    Prefixes prefixes_;
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

std::vector<Finding> findings(const Site& site, const Outlook& outlook, Prefixes prefixes) {
    return Writer(site, outlook, prefixes).write();
}

tl::expected<Answer, ComputeError> answer(const Site& site, const Evidence& evidence,
                                          const Settings& settings, const Progress& progress) {
    auto outlook = compute(site, evidence, settings, progress);
    if (!outlook) return tl::unexpected(outlook.error());
    Answer result;
    result.site = site;
    result.outlook = *std::move(outlook);
    result.findings = findings(site, result.outlook);
    return result;
}

}  // namespace ullage
