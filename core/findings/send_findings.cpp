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
    SendWriter(const Site& site, const Outlook& outlook, const SendOutlook& s, Prefixes prefixes,
               const Wording& w)
        : outlook_(outlook), s_(s), prefixes_(prefixes), w_(w) {
        for (std::size_t i = 0; i < site.sends.size(); ++i) {
            if (site.sends[i].name != s.name) continue;
            about_ = fmt::format("/sends/{}", i);
            send_ = &site.sends[i];
        }
        for (const auto& link : site.links)
            if (link.name == s.link) link_ = &link;
        rate_ = w_.bit_rate(s.goodput.bits_per_second);
    }

    std::vector<Finding> write() {
        if (!s_.first_copy_days.p50) {
            add(Level::overruns,
                w_.say(
                    "The first copy of “{}” ({}) is not over the line within {}: carry it by hand, "
                    "or use a faster line.",
                    s_.name, size(s_.first_copy_bytes), horizon(Case::dative)));
            what_would_do();
            return findings_;
        }
        night();
        what_would_do();
        if (s_.starts_closed)
            add(Level::tight,
                w_.say("“{}” always starts while {} is closed and waits until it opens; start it when the line "
                       "opens.",
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
    std::string size(double bytes) const { return w_.bytes(bytes, prefixes_); }
    std::string horizon(Case wanted = Case::nominative) const { return w_.horizon(outlook_.horizon_days, wanted); }
    std::string limit(Limit l) const { return limit_words(l, w_); }

    void night() {
        const Level level = status_of(s_, outlook_.confidence);
        if (s_.falls_behind) {
            std::string text = w_.say(
                "“{}” falls behind for good from about {}: what changes is more than {} carries at {} ({} binds). A "
                "faster line, longer hours or less churn would mend it.",
                s_.name, month_of(outlook_.as_of, s_.days_until_behind.value_or(0), w_), s_.link, rate_,
                limit(s_.bound_by));
            if (s_.days_until_ladder_lost)
                text += " " + w_.say("Around {} the backlog passes the ladder: {} has let go of the last common "
                                     "snapshot, and everything is sent again.",
                                     w_.date(add_days(outlook_.as_of, *s_.days_until_ladder_lost)), s_.from);
            add(level, text);
            return;
        }
        const double missing = s_.chance_of_missing_window;
        std::string text = w_.say(
            "“{}” carries {} a run in {} (9 in 10 runs: up to {} in {}); {} hours are open for it.", s_.name,
            size(s_.bytes_per_run.p50), w_.hours(s_.hours_per_run.p50, Case::dative), size(s_.bytes_per_run.p90),
            w_.hours(s_.hours_per_run.p90, Case::dative),
            w_.decimals(s_.open_hours_per_run, s_.open_hours_per_run < 10 ? 1 : 0));
        if (missing > 0)
            text += " " + (missing < 0.05 ? w_.say("{} of all runs miss their window.", w_.percent(missing, 1))
                                          : w_.say("The window is missed by {}.", chance_of_runs(missing, w_)));
        add(level, text);
        const auto& b = s_.backlog;
        if (b.times_a_year > 0)
            add(Level::note,
                w_.say("“{}” gets behind {} a year: up to {} are then left when its window closes, and it has caught up "
                       "after {} (at worst {}).",
                       s_.name, times(b.times_a_year), size(b.max_bytes), w_.hours(b.hours_to_drain.p50, Case::dative),
                       w_.hours(b.max_hours_to_drain, Case::dative)));
    }

    std::string times(double n) const {
        if (n < 0.95) return w_.say("less than once");
        return w_.say_n("{} time", "{} times", std::lround(n), std::lround(n));
    }

    /// What would have to change, where today's line does not do.
    void what_would_do() {
        if (!s_.line_rate_needed) return;
        const auto sold = rounded_up({*s_.line_rate_needed}, usual_sold_rates());
        const std::string sure = w_.percent(outlook_.confidence);
        const std::string needed = w_.bit_rate(*s_.line_rate_needed), now = w_.bit_rate(s_.line_bits_per_second);
        add(Level::note,
            sold ? w_.say("To keep its windows in its worst year ({} of its runs), “{}” would need a line of {} in its "
                          "direction instead of {}; {} is a rate that is sold.",
                          sure, s_.name, needed, now, w_.bit_rate(sold->value))
                 : w_.say("To keep its windows in its worst year ({} of its runs), “{}” would need a line of {} in its "
                          "direction instead of {}.",
                          sure, s_.name, needed, now));
    }

    void planned_events() {
        for (const auto& e : s_.events) {
            const bool fits = e.chance_of_fitting >= outlook_.confidence;
            // As any night: a move, or what is small beside the rest.
            if (e.bytes.p50 <= (fits ? 2 : 1) * s_.bytes_per_run.p95) continue;
            const std::string start = w_.say("On {} “{}” {}.", w_.date(e.on), e.dataset, e.text) + " ";
            const std::string carried = size(e.bytes.p50), time = w_.hours(e.hours.p50, Case::dative);
            const long turns = std::lround(e.nights.p50);
            if (fits)
                add(Level::note,
                    start + w_.say("“{}” then carries {} in {}, within its window.", s_.name, carried, time));
            else
                add(Level::tight, start + w_.say_n("“{}” then carries {} in {}, which takes {} run's turn.",
                                                   "“{}” then carries {} in {}, which takes {} runs' turns.", turns,
                                                   s_.name, carried, time, turns));
        }
    }

    void line() {
        const auto& g = s_.goodput;
        add(Level::note,
            g.next_bits_per_second > g.bits_per_second * 1.01
                ? w_.say("The line gives {} of payload; {} binds, and without it {} would stop at {}.", rate_,
                         limit(g.bound_by), limit(g.next_limit), w_.bit_rate(g.next_bits_per_second))
                : w_.say("The line gives {} of payload; {} binds.", rate_, limit(g.bound_by)));
    }

    void age() {
        add(Level::note, w_.say("The newest complete copy on {} is usually {} old (19 in 20 times: under {}; worst {}).",
                                s_.to, w_.hours(s_.recovery_point_hours.p50), w_.hours(s_.recovery_point_hours.p95),
                                w_.hours(s_.recovery_point_max_hours)));
    }

    void outage() {
        if (s_.longest_outage_days) {
            const std::string longest = w_.span(std::floor(*s_.longest_outage_days));
            if (*s_.longest_outage_days < short_outage_days)
                add(Level::tight,
                    w_.say("The line may be down for {} before {} and {} share no snapshot and everything must be sent "
                           "again; a longer ladder at the source, or holding the last sent snapshot back, gives more "
                           "time.", longest, s_.from, s_.to));
            else
                add(Level::note, w_.say("The line may be down for {} before {} and {} share no snapshot and everything "
                                        "must be sent again.", longest, s_.from, s_.to));
        } else if (send_ && send_->hold_last_sent) {
            add(Level::note, w_.say("The last sent snapshot of “{}” is held back at {}, so an outage of any length ends "
                                    "with one increment.", s_.name, s_.from));
        }
    }

    void first_copy() {
        if (*s_.first_copy_days.p50 > 0) {
            const bool is_long = *s_.first_copy_days.p50 > long_first_copy_days;
            const std::string bytes = size(s_.first_copy_bytes);
            const std::string after = w_.span(std::ceil(*s_.first_copy_days.p50), Case::dative);
            add(is_long ? Level::tight : Level::note,
                is_long && !s_.first_copy
                    ? w_.say("The first copy ({}) is complete after {}; carrying it by hand may be faster.", bytes, after)
                    : w_.say("The first copy ({}) is complete after {}.", bytes, after));
        }
        if (!s_.first_copy) return;
        const auto& way = *s_.first_copy;
        add(Level::note, two_ways(way));
        const bool by_hand = send_ && send_->first_copy.by == FirstCopy::By::courier;
        if (by_hand ? way.courier_base_expires : way.link_base_expires)
            add(Level::overruns,
                w_.say("{} lets go of the snapshot that the first copy starts from before the first increment: "
                       "everything would be sent again. Hold the last sent snapshot back until it is there.", s_.from));
        for (const auto& sentence : way.assumptions) add(Level::note, w_.say("{}: {}.", s_.name, sentence));
    }

    std::string two_ways(const FirstCopyWays& way) const {
        const std::string by_line =
            way.link_in_step_days
                ? w_.say("Until the nightly runs are in step, the first copy takes {} over the line.",
                         w_.span(std::ceil(*way.link_in_step_days)))
            : way.link_base_expires
                ? w_.say("The first copy does not get there over the line ({} would let go of the snapshot it starts "
                         "from).", s_.from)
                : w_.say("Until the nightly runs are in step, the first copy takes longer than the horizon over the "
                         "line.");
        const std::string copying = w_.hours(way.courier_copy_days * 24), road = w_.hours(way.courier_away_days * 24);
        const std::string by_courier =
            way.courier_days
                ? w_.say("Carried by hand it takes {} (copying {}, {} on the road, the rest catching up).",
                         w_.span(std::ceil(*way.courier_days)), copying, road)
                : w_.say("Carried by hand it takes longer than the horizon (copying {}, {} on the road, the rest "
                         "catching up).", copying, road);
        const std::string advice = way.carry ? w_.say("So carry it by hand.") : w_.say("So send it over the line.");
        std::string text = by_line + " " + by_courier + " " + advice;
        if (way.break_even_bytes)
            text += " " + w_.say("From {} on, carrying is sooner.", size(*way.break_even_bytes));
        return text;
    }

    void restore() {
        const std::string hours = w_.hours(s_.restore_hours.p50);
        if (s_.restore.empty()) {
            add(Level::note,
                w_.say("Restoring everything over the line's other direction takes {} (a year from now).", hours));
            return;
        }
        const auto& all = s_.restore.front();
        const std::string fetch = w_.hours(all.fetch_hours);
        add(Level::note,
            w_.say("Restoring everything over the line's other direction takes {} (a year from now; {} binds).", hours,
                   limit(all.bound_by)) +
                " " + (all.road_binds ? w_.say("Fetching the box takes {} (the road binds).", fetch)
                                      : w_.say("Fetching the box takes {} (the copying binds).", fetch)));
    }

    /// What payload and transport cost and risk. Common practice, no source.
    void transport() {
        if (!send_ || !link_) return;
        const bool wrapped =
            std::any_of(link_->wrappers.begin(), link_->wrappers.end(), hides_content);
        const bool sealed = send_->payload == Send::Payload::sealed;
        if (!wrapped && !sealed)
            add(Level::tight,
                w_.say(
                    "“{}” travels in plain over {}: that is the fastest way, and whoever is on "
                    "the way can read it. Seal the data, or wrap the line.",
                    s_.name, s_.link));
        if (!wrapped && sealed)
            add(Level::note,
                w_.say(
                    "“{}” needs no wrapped line: its blocks are sealed before they leave {}, so "
                    "plain transport costs nothing and shows no content.",
                    s_.name, s_.from));
        if (sealed) {
            add(Level::note,
                w_.say(
                    "{} holds sealed copies and needs no key, but a restore does: keep the key "
                    "somewhere that survives the loss of {}.",
                    s_.to, s_.from));
            add(Level::note,
                w_.say(
                    "Sealed blocks cannot be compressed again on {}: they take there what they "
                    "take at {}.",
                    s_.to, s_.from));
        } else {
            add(Level::note,
                w_.say(
                    "The copies on {} are not sealed: whoever has the box can read them unless "
                    "it seals its own drives.",
                    s_.to));
        }
    }

    const Outlook& outlook_;
    const SendOutlook& s_;
    Prefixes prefixes_;
    const Wording& w_;
    std::string about_, rate_;
    const Send* send_ = nullptr;
    const Link* link_ = nullptr;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> send_findings(const Site& site, const Outlook& outlook,
                                   const SendOutlook& send, Prefixes prefixes, const Wording& w) {
    return SendWriter(site, outlook, send, prefixes, w).write();
}

std::string receiving_practice(const Wording& w) {
    // Common practice, no source.
    return w.say("A box that takes copies should run the same file-system version as its sender, or a newer one. Any "
                 "write to a copy there breaks the next increment, and forcing a resend overwrites what was changed "
                 "(common practice).");
}

}  // namespace ullage
