// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/send_findings.h"

#include "core/findings/words.h"
#include "core/outlook/sold_rates.h"
#include "core/units/quantity_text.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>

namespace ullage {

namespace {

constexpr double short_outage_days = 3;      // a long weekend; common practice, no source
constexpr double long_first_copy_days = 30;  // common practice, no source

bool hides_content(Wrapper w) { return w != Wrapper::vlan && w != Wrapper::pppoe; }

class SendWriter {
public:
    SendWriter(const Site& site, const Outlook& outlook, const SendOutlook& s, Prefixes prefixes)
        : outlook_(outlook), s_(s), prefixes_(prefixes) {
        for (std::size_t i = 0; i < site.sends.size(); ++i) {
            if (site.sends[i].name != s.name) continue;
            about_ = fmt::format("/sends/{}", i);
            send_ = &site.sends[i];
        }
        for (const auto& link : site.links)
            if (link.name == s.link) link_ = &link;
        rate_ = format_bit_rate({s.goodput.bits_per_second});
    }

    std::vector<Finding> write() {
        if (!s_.first_copy_days.p50) {
            add(Level::overruns,
                fmt::format(
                    "The first copy of “{}” ({}) is not over the line within {}: carry it by hand, "
                    "or use a faster line.",
                    s_.name, size(s_.first_copy_bytes), horizon()));
            what_would_do();
            return findings_;
        }
        night();
        what_would_do();
        if (s_.starts_closed)
            add(Level::tight,
                fmt::format("“{}” always starts while {} is closed and waits until it opens; "
                            "start it when the line opens.",
                            s_.name, s_.link));
        planned_events();
        line();
        age();
        outage();
        first_copy();
        restore();
        transport();
        return findings_;
    }

private:
    void add(Level level, std::string text) {
        findings_.push_back({level, about_, std::move(text)});
    }
    std::string size(double bytes) const { return format_bytes({bytes}, prefixes_); }
    std::string horizon() const {
        const double years = outlook_.horizon_days / days_per_year;
        if (std::abs(years - std::round(years)) < 0.01 && years >= 0.99)
            return plural(std::lround(years), "year", "years");
        return plural(std::lround(outlook_.horizon_days), "day", "days");
    }

    void night() {
        const Level level = status_of(s_, outlook_.confidence);
        if (s_.falls_behind) {
            std::string text = fmt::format(
                "“{}” falls behind for good from about {}: what changes is more than {} carries "
                "at {} ({} binds). A faster line, longer hours or less churn would mend it.",
                s_.name, month_of(outlook_.as_of, s_.days_until_behind.value_or(0)), s_.link, rate_,
                limit_words(s_.bound_by));
            if (s_.days_until_ladder_lost)
                text += fmt::format(
                    " Around {} the backlog passes the ladder: {} has let go of the last "
                    "common snapshot, and everything is sent again.",
                    format_date(add_days(outlook_.as_of, *s_.days_until_ladder_lost)), s_.from);
            add(level, text);
            return;
        }
        const double missing = s_.chance_of_missing_window;
        std::string text = fmt::format(
            "“{}” carries {} a run in {} (9 in 10 runs: up to {} in {}); {} hours are open for it.",
            s_.name, size(s_.bytes_per_run.p50), say_hours(s_.hours_per_run.p50),
            size(s_.bytes_per_run.p90), say_hours(s_.hours_per_run.p90),
            fmt::format("{:.{}f}", s_.open_hours_per_run, s_.open_hours_per_run < 10 ? 1 : 0));
        if (missing > 0)
            text +=
                fmt::format(" {} runs miss their window.",
                            missing < 0.05 ? fmt::format("{} of all", format_percent(missing, 1))
                                           : say_chance(missing));
        add(level, text);
        const auto& b = s_.backlog;
        if (b.times_a_year > 0)
            add(Level::note,
                fmt::format("“{}” gets behind {} a year: up to {} are then left when its window "
                            "closes, and "
                            "it has caught up after {} (at worst {}).",
                            s_.name, times(b.times_a_year), size(b.max_bytes),
                            say_hours(b.hours_to_drain.p50), say_hours(b.max_hours_to_drain)));
    }

    static std::string times(double n) {
        if (n < 0.95) return "less than once";
        return plural(std::lround(n), "time", "times");
    }

    /// What would have to change, where today's line does not do.
    void what_would_do() {
        if (!s_.line_rate_needed) return;
        const auto sold = rounded_up({*s_.line_rate_needed}, usual_sold_rates());
        add(Level::note,
            fmt::format(
                "To keep its windows in its worst year ({} of its runs), “{}” would need a line of "
                "{} in its "
                "direction instead of {}{}.",
                format_percent(outlook_.confidence, 3), s_.name,
                format_bit_rate({*s_.line_rate_needed}), format_bit_rate({s_.line_bits_per_second}),
                sold ? fmt::format("; {} is a rate that is sold", format_bit_rate(*sold)) : ""));
    }

    void planned_events() {
        for (const auto& e : s_.events) {
            const bool fits = e.chance_of_fitting >= outlook_.confidence;
            // As any night: a move, or what is small beside the rest.
            if (e.bytes.p50 <= (fits ? 2 : 1) * s_.bytes_per_run.p95) continue;
            add(fits ? Level::note : Level::tight,
                fmt::format(
                    "On {} “{}” {}. “{}” then carries {} in {}{}.", format_date(e.on), e.dataset,
                    e.text, s_.name, size(e.bytes.p50), say_hours(e.hours.p50),
                    fits ? ", within its window"
                         : fmt::format(", which takes {}", plural(std::lround(e.nights.p50),
                                                                  "run's turn", "runs' turns"))));
        }
    }

    void line() {
        add(Level::note,
            fmt::format("The line gives {} of payload; {} binds{}.", rate_,
                        limit_words(s_.goodput.bound_by),
                        s_.goodput.next_bits_per_second > s_.goodput.bits_per_second * 1.01
                            ? fmt::format(", and without it {} would stop at {}",
                                          limit_words(s_.goodput.next_limit),
                                          format_bit_rate({s_.goodput.next_bits_per_second}))
                            : ""));
    }

    void age() {
        add(Level::note,
            fmt::format(
                "The newest complete copy on {} is usually {} old (19 in 20 times: under {}; worst "
                "{}).",
                s_.to, say_hours(s_.recovery_point_hours.p50),
                say_hours(s_.recovery_point_hours.p95), say_hours(s_.recovery_point_max_hours)));
    }

    void outage() {
        if (s_.longest_outage_days) {
            const bool short_of = *s_.longest_outage_days < short_outage_days;
            add(short_of ? Level::tight : Level::note,
                fmt::format(
                    "The line may be down for {} before {} and {} share no snapshot and everything "
                    "must be sent again{}.",
                    say_days(std::floor(*s_.longest_outage_days)), s_.from, s_.to,
                    short_of ? "; a longer ladder at the source, or holding the last sent "
                               "snapshot back, gives more time"
                             : ""));
        } else if (send_ && send_->hold_last_sent) {
            add(Level::note, fmt::format("The last sent snapshot of “{}” is held back at {}, so an "
                                         "outage of any length ends with one increment.",
                                         s_.name, s_.from));
        }
    }

    void first_copy() {
        if (*s_.first_copy_days.p50 > 0)
            add(*s_.first_copy_days.p50 > long_first_copy_days ? Level::tight : Level::note,
                fmt::format("The first copy ({}) is complete after {}{}.",
                            size(s_.first_copy_bytes), say_days(std::ceil(*s_.first_copy_days.p50)),
                            *s_.first_copy_days.p50 > long_first_copy_days && !s_.first_copy
                                ? "; carrying it by hand may be faster"
                                : ""));
        if (!s_.first_copy) return;
        const auto& w = *s_.first_copy;
        const std::string by_line =
            w.link_in_step_days
                ? fmt::format("takes {} over the line", say_days(std::ceil(*w.link_in_step_days)))
            : w.link_base_expires ? fmt::format(
                                        "does not get there over the line ({} would let go of the "
                                        "snapshot it starts from)",
                                        s_.from)
                                  : std::string("takes longer than the horizon over the line");
        const std::string by_courier =
            w.courier_days ? say_days(std::ceil(*w.courier_days)) : "longer than the horizon";
        add(Level::note,
            fmt::format("Until the nightly runs are in step, the first copy {}, and {} carried by "
                        "hand (copying {}, "
                        "{} on the road, the rest catching up): {}{}.",
                        by_line, by_courier, say_hours(w.courier_copy_days * 24),
                        say_hours(w.courier_away_days * 24),
                        w.carry ? "carry it by hand" : "send it over the line",
                        w.break_even_bytes ? fmt::format("; from {} on, carrying is sooner",
                                                         size(*w.break_even_bytes))
                                           : ""));
        const bool by_hand = send_ && send_->first_copy.by == FirstCopy::By::courier;
        if (by_hand ? w.courier_base_expires : w.link_base_expires)
            add(Level::overruns, fmt::format("{} lets go of the snapshot that the first copy "
                                             "starts from before the first increment: "
                                             "everything would be sent again. Hold the last sent "
                                             "snapshot back until it is there.",
                                             s_.from));
        for (const auto& sentence : w.assumptions)
            add(Level::note, s_.name + ": " + sentence + ".");
    }

    void restore() {
        if (s_.restore.empty()) {
            add(Level::note, fmt::format("Restoring everything over the line's other direction "
                                         "takes {} (a year from now).",
                                         say_hours(s_.restore_hours.p50)));
            return;
        }
        const auto& all = s_.restore.front();
        add(Level::note,
            fmt::format("Restoring everything over the line's other direction takes {} (a year "
                        "from now; {} binds); "
                        "fetching the box takes {} ({} binds).",
                        say_hours(s_.restore_hours.p50), limit_words(all.bound_by),
                        say_hours(all.fetch_hours), all.road_binds ? "the road" : "the copying"));
    }

    /// What payload and transport cost and risk. Common practice, no source.
    void transport() {
        if (!send_ || !link_) return;
        const bool wrapped =
            std::any_of(link_->wrappers.begin(), link_->wrappers.end(), hides_content);
        const bool sealed = send_->payload == Send::Payload::sealed;
        if (!wrapped && !sealed)
            add(Level::tight,
                fmt::format(
                    "“{}” travels in plain over {}: that is the fastest way, and whoever is on "
                    "the way can read it. Seal the data, or wrap the line.",
                    s_.name, s_.link));
        if (!wrapped && sealed)
            add(Level::note,
                fmt::format(
                    "“{}” needs no wrapped line: its blocks are sealed before they leave {}, so "
                    "plain transport costs nothing and shows no content.",
                    s_.name, s_.from));
        if (sealed) {
            add(Level::note,
                fmt::format(
                    "{} holds sealed copies and needs no key, but a restore does: keep the key "
                    "somewhere that survives the loss of {}.",
                    s_.to, s_.from));
            add(Level::note,
                fmt::format(
                    "Sealed blocks cannot be compressed again on {}: they take there what they "
                    "take at {}.",
                    s_.to, s_.from));
        } else {
            add(Level::note,
                fmt::format(
                    "The copies on {} are not sealed: whoever has the box can read them unless "
                    "it seals its own drives.",
                    s_.to));
        }
    }

    const Outlook& outlook_;
    const SendOutlook& s_;
    Prefixes prefixes_;
    std::string about_, rate_;
    const Send* send_ = nullptr;
    const Link* link_ = nullptr;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> send_findings(const Site& site, const Outlook& outlook,
                                   const SendOutlook& send, Prefixes prefixes) {
    return SendWriter(site, outlook, send, prefixes).write();
}

std::string receiving_practice() {
    // Common practice, no source.
    return "A box that takes copies should run the same file-system version as its sender, or a "
           "newer one. Any "
           "write to a copy there breaks the next increment, and forcing a resend overwrites what "
           "was changed "
           "(common practice).";
}

}  // namespace ullage
