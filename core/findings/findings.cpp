// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/findings.h"

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

std::string month_of(Day as_of, double days) { return format_month(add_days(as_of, days)); }

std::string plural(long n, const char* one, const char* many) {
    return fmt::format("{} {}", n, n == 1 ? one : many);
}

/// "1 in 10", "half of the", "9 in 10": chances as people count them, before "futures" or "runs".
std::string say_chance(double chance) {
    const long tenths = std::lround(chance * 10);
    if (chance <= 0) return "none";
    if (chance >= 1) return "all";
    if (tenths == 0) return "fewer than 1 in 10";
    if (tenths == 10) return "more than 9 in 10";
    if (tenths == 5) return "half of the";
    return fmt::format("{} in 10", tenths);
}

std::string say_hours(double hours) {
    if (hours < 1) return plural(std::max(1L, std::lround(hours * 60)), "minute", "minutes");
    if (hours < 10) return fmt::format("{:.1f} hours", hours);
    if (hours < 72) return plural(std::lround(hours), "hour", "hours");
    return plural(std::lround(hours / 24), "day", "days");
}

std::string limit_words(Limit limit) {
    switch (limit) {
        case Limit::rate: return "the line's own rate";
        case Limit::window: return "the receive window over the round trip";
        case Limit::loss: return "lost packets";
        case Limit::cipher: return "the speed of the cipher";
        case Limit::disk: return "the disks";
        case Limit::hours: return "the hours in which the line is open";
    }
    return {};
}

class Writer {
public:
    Writer(const Site& site, const Outlook& outlook, Prefixes prefixes)
        : site_(site), outlook_(outlook), prefixes_(prefixes) {}

    std::vector<Finding> write() {
        for (const auto& b : outlook_.boxes) box(b);
        for (const auto& s : outlook_.sends) send(s);
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

    /// The horizon is exact, not "about".
    std::string horizon() const {
        const double years = outlook_.horizon_days / days_per_year;
        if (std::abs(years - std::round(years)) < 0.01 && years >= 0.99)
            return plural(std::lround(years), "year", "years");
        return plural(std::lround(outlook_.horizon_days), "day", "days");
    }

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
        shares(b, about);
        matters(b, about);
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

    std::string send_pointer(const std::string& name) const {
        for (std::size_t i = 0; i < site_.sends.size(); ++i)
            if (site_.sends[i].name == name) return fmt::format("/sends/{}", i);
        return "";
    }

    bool holds_last_sent(const std::string& name) const {
        return std::any_of(site_.sends.begin(), site_.sends.end(), [&](const Send& send) {
            return send.name == name && send.hold_last_sent;
        });
    }

    void send(const SendOutlook& s) {
        const std::string about = send_pointer(s.name);
        const Level level = status_of(s, outlook_.confidence);
        const std::string rate = format_bit_rate({s.goodput.bits_per_second});
        if (!s.first_copy_days.p50) {
            add(Level::overruns, about,
                fmt::format("The first copy of “{}” ({}) is not over the line within {}: carry it by hand, "
                            "or use a faster line.", s.name, size(s.first_copy_bytes), horizon()));
            return;
        }
        if (s.falls_behind) {
            add(Level::overruns, about,
                fmt::format("“{}” falls behind for good from about {}: what changes is more than {} carries "
                            "at {} ({} binds). A faster line, longer hours or less churn would mend it.",
                            s.name, month_of(outlook_.as_of, s.days_until_behind.value_or(0)), s.link, rate,
                            limit_words(s.bound_by)));
        } else {
            const double missing = s.chance_of_missing_window;
            std::string text = fmt::format(
                "“{}” carries {} a run in {} (9 in 10 runs: up to {} in {}); {} hours are open for it.",
                s.name, size(s.bytes_per_run.p50), say_hours(s.hours_per_run.p50),
                size(s.bytes_per_run.p90), say_hours(s.hours_per_run.p90),
                fmt::format("{:.{}f}", s.open_hours_per_run, s.open_hours_per_run < 10 ? 1 : 0));
            if (missing > 0)
                text += fmt::format(" {} runs miss their window.",
                                    missing < 0.05 ? fmt::format("{} of all", format_percent(missing, 1))
                                                   : say_chance(missing));
            add(level, about, text);
        }
        add(Level::note, about,
            fmt::format("The line gives {} of payload; {} binds{}.", rate, limit_words(s.goodput.bound_by),
                        s.goodput.next_bits_per_second > s.goodput.bits_per_second * 1.01
                            ? fmt::format(", and without it {} would stop at {}",
                                          limit_words(s.goodput.next_limit),
                                          format_bit_rate({s.goodput.next_bits_per_second}))
                            : ""));
        add(Level::note, about,
            fmt::format("The newest complete copy on {} is usually {} old (19 in 20 times: under {}; worst "
                        "{}).", s.to, say_hours(s.recovery_point_hours.p50),
                        say_hours(s.recovery_point_hours.p95), say_hours(s.recovery_point_max_hours)));
        if (s.longest_outage_days) {
            const bool short_of = *s.longest_outage_days < 3;
            add(short_of ? Level::tight : Level::note, about,
                fmt::format("The line may be down for {} before {} and {} share no snapshot and everything "
                            "must be sent again{}.", say_days(std::floor(*s.longest_outage_days)), s.from,
                            s.to, short_of ? "; a longer ladder at the source, or holding the last sent "
                                             "snapshot back, gives more time" : ""));
        } else if (holds_last_sent(s.name)) {
            add(Level::note, about, fmt::format("The last sent snapshot of “{}” is held back at {}, so an "
                                                "outage of any length ends with one increment.", s.name,
                                                s.from));
        }
        if (*s.first_copy_days.p50 > 0)
            add(*s.first_copy_days.p50 > 30 ? Level::tight : Level::note, about,
                fmt::format("The first copy ({}) is complete after {}{}.", size(s.first_copy_bytes),
                            say_days(std::ceil(*s.first_copy_days.p50)),
                            *s.first_copy_days.p50 > 30 ? "; carrying it by hand may be faster" : ""));
        add(Level::note, about,
            fmt::format("Restoring everything over the line's other direction takes {} (a year from now).",
                        say_hours(s.restore_hours.p50)));
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
        if (!site_.offers.empty())
            add(Level::note, "/offers",
                fmt::format("{} read and not compared yet.",
                            plural(static_cast<long>(site_.offers.size()), "offer is", "offers are")));
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

std::string say_days(double days) {
    constexpr double month = days_per_year / 12;
    if (days < 60) return plural(std::lround(days), "day", "days");
    if (days < 24 * month) return fmt::format("about {} months", std::lround(days / month));
    const double years = std::round(days / days_per_year * 10) / 10;
    return years == std::floor(years) ? fmt::format("about {:.0f} years", years)
                                      : fmt::format("about {:.1f} years", years);
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
