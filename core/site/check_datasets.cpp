// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site_checker.h"

#include "core/units/quantity_text.h"
#include "core/units/quoted_text.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace ullage {

void SiteChecker::check_ladder(const Ladder& ladder, const std::string& at) {
    if (!few(at, ladder.size(), most_rungs)) return;
    for (std::size_t i = 0; i < ladder.size(); ++i) {
        const Rung& rung = ladder[i];
        const std::string here = fmt::format("{}/{}", at, i);
        check_period(here + "/every", rung.every.value);
        if (rung.count && rung.keep_for) {
            fault(here, fmt::format("a rung has either count ({}) or for ({}); take one out",
                                    *rung.count, shown(*rung.keep_for)));
        } else if (!rung.count && !rung.keep_for) {
            fault(here, "a rung needs count (how many) or for (how long)", here,
                  {"count", "for"});
        }
        if (rung.count && (*rung.count < 1 || *rung.count > most_count)) {
            fault(here + "/count",
                  fmt::format("a count of {} is outside 1 to {}", *rung.count, most_count));
        }
        if (rung.keep_for) {
            const double kept = in_days(rung.keep_for->value);
            if (!(kept > 0 && kept <= most_period_days)) {
                fault(here + "/for", fmt::format("{} ({} days) is outside 0 to 100 years",
                                                 shown(*rung.keep_for), kept));
            }
        }
    }
}

void SiteChecker::check_period(const std::string& where, const Period& period) {
    if (period.n < 1) {
        fault(where, fmt::format("every {} is not a period; the number is at least 1",
                                 to_text(period)));
        return;
    }
    constexpr int minutes_a_day = 1440;
    constexpr int hours_a_day = 24;
    const bool too_long = (period.unit == Period::Unit::minute && period.n > minutes_a_day) ||
                          (period.unit == Period::Unit::hour && period.n > hours_a_day);
    if (too_long) {
        fault(where, fmt::format("{} is longer than a day, where minutes and hours start again "
                                 "each midnight; write it in days",
                                 to_text(period)));
    } else if (in_days(period.length()) > most_period_days) {
        fault(where,
              fmt::format("{} ({} days) is longer than 100 years; write a shorter period",
                          to_text(period), in_days(period.length())));
    }
}

std::optional<double> SiteChecker::live_bytes(const Dataset& dataset) {
    if (dataset.live) return dataset.live->value.value;
    if (dataset.logical) {
        return dataset.logical->value.value / dataset.compression_ratio.value_or(1);
    }
    return std::nullopt;
}

void SiteChecker::check_dataset(const Dataset& dataset, const std::string& at) {
    const auto place = static_cast<std::size_t>(&dataset - site_.datasets.data());
    name(at, dataset, place, datasets_, "/datasets");
    const double block = dataset.block_size.value.value;
    constexpr double least_block = 512;
    const double most_block = mib(64).value;
    if (!(block >= least_block && block <= most_block)) {
        fault(at + "/block_size", fmt::format("{} is outside 512 B to 64 MiB; 128 KiB is usual",
                                              shown(dataset.block_size)));
    }
    if (!dataset.home.empty()) refers(at + "/home", dataset.home, boxes_, "box");
    check_sizes(dataset, at);
    if (dataset.growth) {
        const Growth& growth = *dataset.growth;
        if (!std::isfinite(growth.per_year.value.value)) {
            fault(at + "/growth/per_year", "not a finite amount; give a size or a share");
        }
        not_absurd(at + "/growth/per_year", growth.per_year);
        spread(at + "/growth/spread", growth.spread);
    }
    if (dataset.turnover) check_turnover(dataset, *dataset.turnover, at);
    if (dataset.week_shape) check_week_shape(*dataset.week_shape, at + "/week_shape");
    check_ladder(dataset.ladder, at + "/ladder");
    check_events(dataset, at);
    text(at + "/usage", dataset.usage);
}

void SiteChecker::check_sizes(const Dataset& dataset, const std::string& at) {
    if (dataset.live) positive(at + "/live", *dataset.live);
    if (dataset.logical) positive(at + "/logical", *dataset.logical);
    const double ratio = dataset.compression_ratio.value_or(1);
    const bool ratio_ok = ratio >= least_ratio && ratio <= most_ratio;
    if (!ratio_ok) {
        fault(
            at + "/compression_ratio",
            fmt::format("a ratio of {} is outside {} to {}; it is logical ÷ stored, 1 for data "
                        "that do not compress",
                        ratio, least_ratio, most_ratio));
    }
    spread(at + "/compression_spread", dataset.compression_spread);
    const bool listing = dataset.turnover && !dataset.turnover->listing.empty();
    if (!dataset.live && !dataset.logical && !listing) {
        fault(at,
              "its size is missing; give live (stored bytes), logical (bytes before "
              "compression) or turnover.listing",
              at, {"live", "logical", "turnover", "turnover/listing"});
    }
    if (dataset.live && dataset.logical && ratio_ok) {
        const double expected = dataset.live->value.value * ratio;
        const double given = dataset.logical->value.value;
        if (expected > 0 && given > 0 && std::fabs(given / expected - 1) > ratio_slack) {
            fault(
                at + "/logical",
                fmt::format("logical is {}, but live {} × compression_ratio {}{} is {}; leave "
                            "one of the three out, or write a ratio of {:.3g}",
                            shown(*dataset.logical), shown(*dataset.live), ratio,
                            dataset.compression_ratio ? "" : " (not given)",
                            format_bytes(Bytes{expected}, Prefixes::decimal, 4),
                            given / dataset.live->value.value),
                at, {"live", "compression_ratio"});
        }
    }
}

void SiteChecker::check_listing(const Turnover& turnover, const std::string& here) {
    if (!turnover.listing_dataset.empty() && turnover.listing.empty()) {
        fault(here + "/listing_dataset",
              fmt::format("names {} of a listing, but there is no listing; name the file too",
                          in_quotes(turnover.listing_dataset)),
              here, {"listing"});
    }
    const std::string columns = here + "/listing_columns";
    if (!turnover.listing_columns.empty() && turnover.listing.empty()) {
        fault(columns, "says what the columns of a listing are, but there is no listing; name the file too", here,
              {"listing"});
    }
    if (!few(columns, turnover.listing_columns.size(), most_columns)) return;
    for (std::size_t i = 0; i < turnover.listing_columns.size(); ++i) {
        text(fmt::format("{}/{}", columns, i), turnover.listing_columns[i]);
    }
    if (turnover.listing.empty()) return;
    const auto [first, is_first] = listings_.try_emplace(turnover.listing, &turnover);
    if (!is_first && (first->second->listing_columns != turnover.listing_columns ||
                      first->second->listing_skip_bad_lines != turnover.listing_skip_bad_lines)) {
        fault(here + "/listing",
              fmt::format("{} is read otherwise by a dataset before this one; give both the same listing_columns and "
                          "listing_skip_bad_lines", in_quotes(turnover.listing)),
              here, {"listing_columns", "listing_skip_bad_lines"});
    }
}

void SiteChecker::check_turnover(const Dataset& dataset, const Turnover& turnover, const std::string& at) {
    const std::string here = at + "/turnover";
    if (!turnover.per_day && turnover.listing.empty()) {
        fault(here, "needs per_day (what a daily snapshot step writes) or a listing", here,
              {"per_day", "listing"});
    }
    text(here + "/listing", turnover.listing);
    text(here + "/listing_dataset", turnover.listing_dataset);
    check_listing(turnover, here);
    spread(here + "/spread", turnover.spread);
    for (const auto& [key, amount] :
         {std::pair{"per_day", &turnover.per_day}, std::pair{"per_week", &turnover.per_week},
          std::pair{"per_month", &turnover.per_month}}) {
        if (!*amount) continue;
        not_negative(here + "/" + key, (*amount)->value.value, shown(**amount));
        not_absurd(here + "/" + key, **amount);
    }
    const auto live = live_bytes(dataset);
    if (turnover.per_day) {
        const Amount& day = turnover.per_day->value;
        if (day.of == Amount::Of::live_share && day.value > 1) {
            fault(
                here + "/per_day",
                fmt::format("{} is more than all live bytes (100 %); a step cannot write more",
                            shown(*turnover.per_day)));
        } else if (live && *live > 0 && day.of == Amount::Of::bytes && day.value > *live) {
            fault(
                here + "/per_day",
                fmt::format("{} a day is more than the live {}; a step cannot write more than "
                            "is there",
                            shown(*turnover.per_day), format_bytes(Bytes{*live})),
                at, {"live", "logical", "compression_ratio"});
        }
    }
    const Step day{"per_day", turnover.per_day, 1};
    const Step week{"per_week", turnover.per_week, 7};
    const Step month{"per_month", turnover.per_month, days_per_month};
    const bool week_fits = compare_steps(here, live, day, week);
    const bool month_fits = compare_steps(here, live, day, month);
    if (week_fits && month_fits) compare_steps(here, live, week, month);
}

bool SiteChecker::compare_steps(const std::string& at, std::optional<double> live, const Step& shorter,
                   const Step& longer) {
    if (!shorter.amount || !longer.amount) return true;
    const Amount& a = shorter.amount->value;
    const Amount& b = longer.amount->value;
    if (a.of != b.of && !live) return true;
    const double scale = live.value_or(1);
    const double least = a.of == b.of ? a.value : a.bytes(scale);
    const double given = a.of == b.of ? b.value : b.bytes(scale);
    if (!(least >= 0) || !(given >= 0)) return true;
    const double times = longer.days / shorter.days;
    // Both figures of a longer pair are rounded; a day's is the base of the others.
    const double slack = shorter.days > 1 ? 0.01 : 1e-9;
    const auto say = [&](double value) {
        return a.of == b.of && a.of == Amount::Of::live_share
                   ? format_percent(value, 4)
                   : format_bytes(Bytes{value}, Prefixes::decimal, 4);
    };
    const std::string where = at + "/" + longer.key;
    const std::initializer_list<const char*> rests_on{shorter.key};
    if (given < least * (1 - slack)) {
        fault(where,
              fmt::format("{} {} is less than {} {}; a longer step writes at least as much, so "
                          "give {} or more",
                          longer.key, say(given), shorter.key, say(least), say(least)),
              at, rests_on);
        return false;
    }
    if (given > least * times * (1 + slack)) {
        fault(
            where,
            fmt::format("{} {} is more than {:.4g} × {} {} = {}; a longer step writes at most "
                        "the sum of the shorter ones, so give {} or less",
                        longer.key, say(given), times, shorter.key, say(least),
                        say(least * times), say(least * times)),
            at, rests_on);
        return false;
    }
    return true;
}

void SiteChecker::check_week_shape(const std::array<double, 7>& shape, const std::string& at) {
    bool any = false;
    for (std::size_t i = 0; i < 7; ++i) {
        any = any || shape[i] != 0;
        not_negative(fmt::format("{}/{}", at, i), shape[i], fmt::format("{}", shape[i]));
    }
    if (!any) fault(at, "all seven days are 0; give at least one of them a weight");
}

void SiteChecker::check_events(const Dataset& dataset, const std::string& at) {
    if (!few(at + "/events", dataset.events.size(), most_events)) return;
    for (std::size_t i = 0; i < dataset.events.size(); ++i) {
        const Event& event = dataset.events[i];
        const std::string here = fmt::format("{}/events/{}", at, i);
        const std::string key = event_key(event.kind);
        positive(here + "/" + key, event.amount.value.value, shown(event.amount));
        not_absurd(here + "/" + key, event.amount);
        spread(here + "/spread", event.spread);
        not_negative(here + "/days", event.date_spread);
        text(here + "/note", event.note);
        if (event.kind == Event::Kind::remove)
            check_remove(dataset, event, at, here + "/" + key);
    }
}

std::string SiteChecker::event_key(Event::Kind kind) {
    switch (kind) {
        case Event::Kind::add:
            return "add";
        case Event::Kind::remove:
            return "remove";
        case Event::Kind::rewrite:
            return "rewrite";
        case Event::Kind::move:
            return "move";
    }
    return {};
}

void SiteChecker::check_remove(const Dataset& dataset, const Event& event, const std::string& at,
                  const std::string& where) {
    const Amount& amount = event.amount.value;
    if (amount.of == Amount::Of::live_share) {
        if (amount.value > 1) {
            fault(where,
                  fmt::format("{} is more than all live bytes (100 %)", shown(event.amount)));
        }
        return;
    }
    if (!dataset.live && !dataset.logical) return;
    const double size = dataset.live ? dataset.live->value.value : dataset.logical->value.value;
    if (!(size > 0)) return;
    double there = size;
    if (dataset.growth && event.on > site_.as_of) {
        const double years =
            static_cast<double>((event.on - site_.as_of).count()) / days_per_year;
        there += std::max(0.0, dataset.growth->per_year.value.bytes(size) * years);
    }
    for (const Event& other : dataset.events) {
        if (&other == &event || other.on > event.on) continue;
        if (other.kind == Event::Kind::add) there += other.amount.value.bytes(size);
        if (other.kind == Event::Kind::remove && other.on < event.on) {
            there -= other.amount.value.bytes(size);
        }
    }
    if (amount.value > there) {
        fault(where,
              fmt::format("removes {}, but on {} there will be {} (live, growth and earlier "
                          "events); remove that much at most",
                          shown(event.amount), format_date(event.on),
                          format_bytes(Bytes{std::max(there, 0.0)}, Prefixes::decimal, 4)),
              at, {"live", "logical", "growth", "growth/per_year", "events"});
    }
}

}  // namespace ullage
