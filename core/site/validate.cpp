// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/partly_read.h"
#include "core/site/site_json.h"
#include "core/units/quantity_text.h"
#include "core/units/quoted_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <initializer_list>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>

namespace ullage {
namespace {

// The ranges of the format. Those without a reason beside them are wide enough for any real site,
// and narrow enough to catch a wrong unit.
constexpr std::size_t longest_name = 200;
constexpr double least_ratio = 0.5;  // data that grow when compressed are stored as they are
constexpr double most_ratio = 100;
constexpr double most_spread = 5;
constexpr int most_count = 100000;
constexpr int most_drives = 1000;
constexpr int most_streams = 256;
constexpr double ratio_slack = 0.01;  // live and logical are both rounded when they are typed
constexpr double least_horizon_days = 30;
constexpr double most_horizon_years = 30;
constexpr double most_period_days = 100 * days_per_year;
// What one forecast takes, in time and memory, grows with these; far beyond any real site.
constexpr std::size_t most_items = 500;
constexpr std::size_t most_events = 1000;
constexpr std::size_t most_rungs = 100;
constexpr std::size_t most_hours = 500;
constexpr double most_bytes = 1e21;  // 1000 EB: more than all that was ever sold
constexpr double most_shares = 1000; // of the live bytes
constexpr double least_bit_rate = 1;
constexpr double most_bit_rate = 1e15;
constexpr double least_byte_rate = 1;
constexpr double most_byte_rate = 1e15;
constexpr double least_round_trip_s = 1e-7;  // 10 m of cable and back
constexpr double most_round_trip_s = 3600;
constexpr int least_mtu = 576;     // RFC 791: every host takes a datagram of 576 bytes
constexpr int least_mtu_6 = 1280;  // RFC 8200, section 5
constexpr int most_mtu = 65535;    // RFC 791: total length is 16 bits

std::string shown(const Entered<Bytes>& size) {
    return size.text.empty() ? exact_bytes(size.value) : size.text;
}
std::string shown(const Entered<Duration>& duration) {
    return duration.text.empty() ? exact_duration(duration.value) : duration.text;
}
std::string shown(const Entered<Amount>& amount) {
    return amount.text.empty() ? to_text(amount.value) : amount.text;
}

class Checker {
public:
    Checker(const Site& site, const Unread& unread)
        : site_(site),
          unread_(unread),
          datasets_(names_of(site.datasets, "/datasets")),
          boxes_(names_of(site.boxes, "/boxes")),
          links_(names_of(site.links, "/links")) {}

    Problems run() {
        check_site();
        if (!few_items()) return std::move(problems_);
        for (std::size_t i = 0; i < site_.datasets.size(); ++i) {
            check_dataset(site_.datasets[i], fmt::format("/datasets/{}", i));
        }
        for (std::size_t i = 0; i < site_.boxes.size(); ++i) {
            check_box(site_.boxes[i], fmt::format("/boxes/{}", i));
        }
        for (std::size_t i = 0; i < site_.links.size(); ++i) {
            check_link(site_.links[i], fmt::format("/links/{}", i));
        }
        note_deliveries();
        for (std::size_t i = 0; i < site_.sends.size(); ++i) check_send(i);
        for (std::size_t i = 0; i < site_.offers.size(); ++i) {
            check_offer(site_.offers[i], fmt::format("/offers/{}", i));
        }
        return std::move(problems_);
    }

private:
    struct Names {
        std::map<std::string, std::size_t> first;  ///< name → place of the first that has it
        bool unsure = false;                       ///< some names could not be read
        bool has(const std::string& name) const { return first.count(name) > 0; }
    };

    template <class T>
    Names names_of(const std::vector<T>& items, const std::string& list) const {
        Names names;
        names.unsure = unread_.count(list) > 0;
        for (std::size_t i = 0; i < items.size(); ++i) {
            const std::string at = fmt::format("{}/{}", list, i);
            names.unsure = names.unsure || unread_.count(at) > 0 || unread_.count(at + "/name") > 0;
            names.first.emplace(items[i].name, i);
        }
        return names;
    }

    /// True if this member, or one it is part of, could not be read.
    bool unread(std::string at) const {
        if (unread_.empty()) return false;
        while (!at.empty()) {
            if (unread_.count(at) > 0) return true;
            at.resize(at.rfind('/'));
        }
        return false;
    }

    /// Reports, unless it rests on a member that could not be read: the one at `where`, or one of
    /// `rests_on`, named below `base`.
    void fault(const std::string& where, std::string what, const std::string& base = {},
               std::initializer_list<const char*> rests_on = {}) {
        if (unread(where)) return;
        for (const char* member : rests_on) {
            if (unread(base + "/" + member)) return;
        }
        problems_.push_back({where, std::move(what)});
    }

    // -- numbers of items

    bool few(const std::string& where, std::size_t count, std::size_t most) {
        if (count <= most) return true;
        fault(where, fmt::format("{} items; at most {} are read, so leave some out", count, most));
        return false;
    }
    /// Beyond these limits nothing is judged one by one.
    bool few_items() {
        bool all = few("/datasets", site_.datasets.size(), most_items);
        all &= few("/boxes", site_.boxes.size(), most_items);
        all &= few("/links", site_.links.size(), most_items);
        all &= few("/sends", site_.sends.size(), most_items);
        all &= few("/offers", site_.offers.size(), most_items);
        return all;
    }

    // -- single values

    void text(const std::string& where, const std::string& value) {
        if (const auto control = control_character(value)) {
            fault(where, fmt::format("contains the control character {}; leave it out", *control));
        }
    }

    void positive(const std::string& where, double value, std::string_view given) {
        if (!(value > 0) || !std::isfinite(value)) {
            fault(where, fmt::format("{} is not above 0; give a positive quantity", given));
        }
    }
    void positive(const std::string& where, const Entered<Bytes>& size) {
        positive(where, size.value.value, shown(size));
        not_absurd(where, size.value.value, shown(size));
    }
    /// Finite sums and products of sizes rest on this.
    void not_absurd(const std::string& where, double bytes, std::string_view given) {
        if (std::isfinite(bytes) && std::fabs(bytes) > most_bytes) {
            fault(where, fmt::format("{} is more than {}; check the unit", given, exact_bytes(Bytes{most_bytes})));
        }
    }
    void not_absurd(const std::string& where, const Entered<Amount>& amount) {
        const double value = amount.value.value;
        if (amount.value.of == Amount::Of::bytes) {
            not_absurd(where, value, shown(amount));
        } else if (std::isfinite(value) && std::fabs(value) > most_shares) {
            fault(where, fmt::format("{} is more than {} times the live bytes; check the unit", shown(amount), most_shares));
        }
    }
    void positive(const std::string& where, const std::optional<Entered<BytesPerSecond>>& rate) {
        if (!rate) return;
        const std::string given = exact_byte_rate(rate->value);
        positive(where, rate->value.value, given);
        usual(where, rate->value.value, least_byte_rate, most_byte_rate, given, "1 B/s to 1000 TB/s");
    }
    void line_rate(const std::string& where, BitsPerSecond rate) {
        const std::string given = exact_bit_rate(rate);
        positive(where, rate.value, given);
        usual(where, rate.value, least_bit_rate, most_bit_rate, given, "1 bit/s to 1000 Tbit/s");
    }
    /// Of a value above 0.
    void usual(const std::string& where, double value, double least, double most, std::string_view given,
               std::string_view range) {
        if (value > 0 && std::isfinite(value) && (value < least || value > most)) {
            fault(where, fmt::format("{} is outside {}; check the unit", given, range));
        }
    }

    void not_negative(const std::string& where, double value, std::string_view given) {
        if (!(value >= 0) || !std::isfinite(value)) {
            fault(where, fmt::format("{} is below 0; give 0 or more", given));
        }
    }
    void not_negative(const std::string& where, const std::optional<Entered<Duration>>& duration) {
        if (!duration) return;
        not_negative(where, duration->value.value, shown(*duration));
        usual(where, in_days(duration->value), 0, most_period_days, shown(*duration), "0 to 100 years");
    }

    void within(const std::string& where, double value, double least, double most,
                std::string_view what) {
        if (!(value >= least && value <= most)) {
            fault(where, fmt::format("{} {} is outside {} to {}; give a value in that range", what,
                                     value, least, most));
        }
    }

    void spread(const std::string& where, double value) {
        within(where, value, 0, most_spread, "a spread (relative standard deviation) of");
    }
    void spread(const std::string& where, const std::optional<double>& value) {
        if (value) spread(where, *value);
    }

    // -- names

    template <class T>
    void name(const std::string& at, const T& item, std::size_t place, const Names& names,
              const std::string& list) {
        const std::string where = at + "/name";
        if (item.name.empty()) {
            fault(where, "an empty name; give it one, as others refer to it by name");
            return;
        }
        text(where, item.name);
        if (item.name.size() > longest_name) {
            fault(where, fmt::format("a name of {} bytes; the longest is {}", item.name.size(),
                                     longest_name));
        }
        const auto hit = names.first.find(item.name);
        if (hit != names.first.end() && hit->second != place) {
            fault(where, fmt::format("the name {} is taken by {}/{}; give each its own",
                                     in_quotes(item.name), list, hit->second));
        }
    }

    /// True if the name is known, or cannot be judged.
    bool refers(const std::string& where, const std::string& value, const Names& names,
                std::string_view noun) {
        if (names.has(value) || names.unsure || unread(where)) return true;
        // Beyond these, comparing each with each costs more than the hints are worth.
        constexpr std::size_t most_compared = 1000;
        constexpr int most_hints = 100;
        std::vector<std::string> known;
        for (const auto& [known_name, place] : names.first) {
            if (known.size() == (hints_ < most_hints ? most_compared : 10)) break;
            if (!known_name.empty()) known.push_back(known_name);
        }
        const std::string near = ++hints_ <= most_hints ? nearest_word(value, known) : "";
        constexpr std::size_t most_listed = 8;
        std::string mend;
        if (!near.empty()) {
            mend = fmt::format("did you mean {}?", in_quotes(near));
        } else if (known.empty()) {
            mend = fmt::format("the site has no {} yet", noun);
        } else {
            mend = "known are ";
            for (std::size_t i = 0; i < known.size() && i < most_listed; ++i) {
                mend += (i > 0 ? ", " : "") + in_quotes(known[i]);
            }
            if (known.size() > most_listed) mend += " and others";
        }
        fault(where, value.empty()
                         ? fmt::format("no {} is named; {}", noun, mend)
                         : fmt::format("there is no {} {}; {}", noun, in_quotes(value), mend));
        return false;
    }

    // -- the site

    void check_site() {
        if (site_.name.empty()) fault("/name", "an empty name; give the site one");
        if (site_.name.size() > longest_name) {
            fault("/name", fmt::format("a name of {} bytes; the longest is {}", site_.name.size(),
                                       longest_name));
        }
        text("/name", site_.name);
        text("/prepared_for", site_.prepared_for);
        text("/prepared_by", site_.prepared_by);
        text("/currency", site_.currency);
        if (site_.energy_price)
            price("/energy_price", *site_.energy_price, site_.currency + "/kWh");
        if (const auto zone = TimeZone::find(site_.time_zone); !zone) {
            fault("/time_zone", zone.error());
        }
        const double horizon = in_days(site_.horizon.value);
        if (!(horizon >= least_horizon_days && horizon <= most_horizon_years * days_per_year)) {
            fault(
                "/horizon",
                fmt::format("a horizon of {} ({} days) is outside {} days to {} years",
                            shown(site_.horizon), horizon, least_horizon_days, most_horizon_years));
        } else if (const Day last{std::chrono::December / 31 / 9999};
                   site_.as_of + std::chrono::days{static_cast<int>(horizon)} > last) {
            fault(
                "/as_of",
                fmt::format("{} with a horizon of {} runs past the year 9999; give an earlier date",
                            format_date(site_.as_of), shown(site_.horizon)),
                "", {"horizon"});
        }
        if (!(site_.confidence > 0.5 && site_.confidence < 1)) {
            fault("/confidence",
                  fmt::format("a confidence of {} is not between 0.5 and 1 (both excluded); 0.9 is "
                              "usual",
                              site_.confidence));
        }
    }

    // -- datasets

    void check_ladder(const Ladder& ladder, const std::string& at) {
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

    void check_period(const std::string& where, const Period& period) {
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

    /// The size the dataset's own figures are given in, if it is known without a listing.
    static std::optional<double> live_bytes(const Dataset& dataset) {
        if (dataset.live) return dataset.live->value.value;
        if (dataset.logical) {
            return dataset.logical->value.value / dataset.compression_ratio.value_or(1);
        }
        return std::nullopt;
    }

    void check_dataset(const Dataset& dataset, const std::string& at) {
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

    void check_sizes(const Dataset& dataset, const std::string& at) {
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

    void check_turnover(const Dataset& dataset, const Turnover& turnover, const std::string& at) {
        const std::string here = at + "/turnover";
        if (!turnover.per_day && turnover.listing.empty()) {
            fault(here, "needs per_day (what a daily snapshot step writes) or a listing", here,
                  {"per_day", "listing"});
        }
        text(here + "/listing", turnover.listing);
        text(here + "/listing_dataset", turnover.listing_dataset);
        if (!turnover.listing_dataset.empty() && turnover.listing.empty()) {
            fault(here + "/listing_dataset",
                  fmt::format("names {} of a listing, but there is no listing; name the file too",
                              in_quotes(turnover.listing_dataset)),
                  here, {"listing"});
        }
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

    struct Step {
        const char* key;
        const std::optional<Entered<Amount>>& amount;
        double days;
    };

    /// What is written over a longer step is no less than over a shorter one, and no more than the
    /// shorter ones in it add up to: written bytes grow with the step, ever more slowly.
    /// False: they contradict each other, which was reported.
    bool compare_steps(const std::string& at, std::optional<double> live, const Step& shorter,
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

    void check_week_shape(const std::array<double, 7>& shape, const std::string& at) {
        bool any = false;
        for (std::size_t i = 0; i < 7; ++i) {
            any = any || shape[i] != 0;
            not_negative(fmt::format("{}/{}", at, i), shape[i], fmt::format("{}", shape[i]));
        }
        if (!any) fault(at, "all seven days are 0; give at least one of them a weight");
    }

    void check_events(const Dataset& dataset, const std::string& at) {
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

    static std::string event_key(Event::Kind kind) {
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

    /// What is there on the day of a `remove`: the size that was typed, growth till then, and the
    /// events before it.
    void check_remove(const Dataset& dataset, const Event& event, const std::string& at,
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

    // -- boxes

    /// Groups, width, redundancy and drive.
    template <class Groups>
    void check_groups(const Groups& pool, const std::string& at) {
        within(at + "/groups", pool.groups, 1, most_drives, "the number of groups,");
        const Redundancy& redundancy = pool.redundancy;
        if (!parse_redundancy(to_text(redundancy))) {
            fault(
                at + "/redundancy",
                fmt::format("{} cannot be built; known are none, mirror-2 to mirror-4, parity-1 to "
                            "parity-3",
                            to_text(redundancy)));
        } else if (redundancy.kind == Redundancy::Kind::parity && pool.width <= redundancy.n) {
            fault(
                at + "/width",
                fmt::format("a width of {} leaves nothing beside {} parity drives; give {} or more",
                            pool.width, redundancy.n, redundancy.n + 1),
                at, {"redundancy"});
        } else if (redundancy.kind == Redundancy::Kind::mirror && pool.width != redundancy.n) {
            fault(
                at + "/width",
                fmt::format("a width of {} does not go with {}; a mirror's width is its copies, {} "
                            "(more drives are more groups)",
                            pool.width, to_text(redundancy), redundancy.n),
                at, {"redundancy"});
        } else {
            within(at + "/width", pool.width, 1, most_drives, "a width of");
        }
        const Bytes least_drive = mib(64);
        if (!(pool.drive.value >= least_drive) || !std::isfinite(pool.drive.value.value)) {
            fault(at + "/drive",
                  fmt::format("a drive of {} is smaller than {}; give the size on its label",
                              shown(pool.drive), exact_bytes(least_drive)));
        }
        not_absurd(at + "/drive", pool.drive.value.value, shown(pool.drive));
    }

    void check_pool(const Pool& pool, const std::string& at) {
        check_groups(pool, at);
        within(at + "/spares", pool.spares, 0, most_drives, "the number of spares,");
        for (std::size_t i = 0; i < pool.further.size(); ++i) {
            const std::string here = fmt::format("{}/further/{}", at, i);
            check_groups(pool.further[i], here);
            same_sector(pool.further[i], pool, here);
        }
        const double sector = pool.sector.value.value;
        const double power = std::log2(sector);
        if (!(sector >= 512 && sector <= kib(64).value) || power != std::floor(power)) {
            fault(at + "/sector",
                  fmt::format("{} is not a power of two from 512 B to 64 KiB; 4 KiB is usual",
                              shown(pool.sector)));
        }
    }

    void same_sector(const DriveGroups& groups, const Pool& pool, const std::string& at) {
        if (!groups.sector || groups.sector->value == pool.sector.value) return;
        fault(at + "/sector",
              fmt::format("sectors of {} beside sectors of {}: groups of different sector sizes in "
                          "one pool are not modelled; leave sector out here",
                          shown(*groups.sector), shown(pool.sector)));
    }

    void check_change(const BoxChange& change, const Box& box, const std::string& at) {
        text(at + "/note", change.note);
        const bool resize = change.kind == BoxChange::Kind::resize;
        if (resize != box.usable.has_value()) {
            fault(at, resize ? "usable changes on a box that gives usable; one with a pool changes "
                               "by add_groups, swap_drives or widen_to"
                             : "only a box with a pool has drives to change; one that gives usable "
                               "changes by usable",
                  at.substr(0, at.rfind("/changes/")), {"pool", "usable"});
            return;
        }
        if (resize) positive(at + "/usable", change.usable);
        if (!box.pool) return;
        if (change.kind == BoxChange::Kind::add_groups) {
            check_groups(change.added, at + "/add_groups");
            same_sector(change.added, *box.pool, at + "/add_groups");
        }
        if (change.kind == BoxChange::Kind::swap_drives)
            positive(at + "/swap_drives", change.drive);
        const int sets = sets_before(box, change);
        if (change.set < 1 || change.set > sets) {
            fault(at + "/set",
                  fmt::format("there is no set {} of groups on {}; the box has {} then", change.set,
                              format_date(change.on), sets));
        } else if (change.kind == BoxChange::Kind::widen && change.set == 1 &&
                   box.pool->redundancy.kind != Redundancy::Kind::parity) {
            fault(at + "/widen_to", "only parity groups are widened; add groups instead");
        }
    }

    /// How many sets of groups the box has when the change is made.
    static int sets_before(const Box& box, const BoxChange& change) {
        int sets = 1 + static_cast<int>(box.pool->further.size());
        for (const BoxChange& other : box.changes)
            if (other.kind == BoxChange::Kind::add_groups && other.on < change.on) ++sets;
        return sets;
    }

    void check_box(const Box& box, const std::string& at) {
        const auto place = static_cast<std::size_t>(&box - site_.boxes.data());
        name(at, box, place, boxes_, "/boxes");
        if (!(box.ceiling > 0 && box.ceiling <= 1)) {
            fault(at + "/ceiling",
                  fmt::format("a ceiling of {} is not above 0 and at most 1; 0.8 (80 %) is usual",
                              box.ceiling));
        }
        not_negative(at + "/lead_time", box.lead_time);
        if (box.pool && box.usable) {
            fault(at + "/usable",
                  fmt::format("a box has either a pool or usable ({}); take one out",
                              shown(*box.usable)));
        }
        if (box.pool) check_pool(*box.pool, at + "/pool");
        if (box.usable) positive(at + "/usable", *box.usable);
        not_negative(at + "/other_data", box.other_data.value.value, shown(box.other_data));
        not_absurd(at + "/other_data", box.other_data.value.value, shown(box.other_data));
        positive(at + "/disk_rate", box.disk_rate);
        for (std::size_t i = 0; i < box.changes.size(); ++i) {
            check_change(box.changes[i], box, fmt::format("{}/changes/{}", at, i));
        }
        if (box.enclosure && box.enclosure->bays) {
            const std::string here = at + "/enclosure/bays";
            within(here, *box.enclosure->bays, 1, most_drives, "the number of bays,");
        }
        if (box.enclosure && box.enclosure->power) {
            const Power power = box.enclosure->power->value;
            positive(at + "/enclosure/power", power.value, exact_power(power));
        }
    }

    // -- links

    void check_link(const Link& link, const std::string& at) {
        const auto place = static_cast<std::size_t>(&link - site_.links.data());
        name(at, link, place, links_, "/links");
        line_rate(at + "/up", link.up.value);
        if (link.down != link.up) line_rate(at + "/down", link.down.value);
        positive(at + "/round_trip", link.round_trip.value.value, shown(link.round_trip));
        usual(at + "/round_trip", link.round_trip.value.value, least_round_trip_s, most_round_trip_s,
              shown(link.round_trip), "0.0001 ms to 1 h");
        if (!(link.loss >= 0 && link.loss < 1)) {
            fault(at + "/loss",
                  fmt::format("a loss of {} is not from 0 to below 1; it is the share of packets "
                              "lost, such as 1e-5 or \"0.001 %\"",
                              link.loss));
        }
        if (link.ip_version != 4 && link.ip_version != 6) {
            fault(at + "/ip",
                  fmt::format("IP version {} is not known; give 4 or 6", link.ip_version));
        }
        if (link.outer_ip_version && *link.outer_ip_version != 4 && *link.outer_ip_version != 6) {
            fault(at + "/outer_ip",
                  fmt::format("IP version {} is not known; give 4 or 6", *link.outer_ip_version));
        }
        const int least = link.ip_version == 6 ? least_mtu_6 : least_mtu;
        if (link.mtu < least || link.mtu > most_mtu) {
            fault(at + "/mtu",
                  fmt::format("an MTU of {} is outside {} to {} for IP version {}; 1500 is usual",
                              link.mtu, least, most_mtu, link.ip_version),
                  at, {"ip"});
        }
        positive(at + "/receive_window", link.receive_window);
        within(at + "/streams", link.streams, 1, most_streams, "the number of streams,");
        check_hours(link, at + "/hours");
    }

    void check_hours(const Link& link, const std::string& at) {
        if (!few(at, link.hours.size(), most_hours)) return;
        bool opens = link.hours.empty();
        for (std::size_t i = 0; i < link.hours.size(); ++i) {
            const OpenHours& hours = link.hours[i];
            const std::string here = fmt::format("{}/{}", at, i);
            if (std::none_of(hours.days.begin(), hours.days.end(), [](bool day) { return day; })) {
                fault(here + "/days", "no day is named; write for example \"Mon-Fri\"");
            }
            if (hours.from < 0 || hours.from >= 86400) {
                fault(
                    here + "/from",
                    fmt::format("{} is not from 00:00 to 23:59; midnight is 00:00 of the next day",
                                format_time_of_day(hours.from)));
            }
            if (hours.to < 0 || hours.to > 86400) {
                fault(here + "/to",
                      fmt::format("{} is not from 00:00 to 24:00", format_time_of_day(hours.to)));
            }
            within(here + "/share", hours.share, 0, 1, "a share of");
            opens = opens || hours.share > 0 || unread(here) || unread(here + "/share");
        }
        if (!opens) {
            fault(at,
                  "every share is 0, so the link never opens; give one a share above 0, or leave "
                  "hours out for always open");
        }
    }

    // -- sends

    using Delivery = std::pair<std::string, std::string>;  // dataset, box

    void note_deliveries() {
        for (std::size_t i = 0; i < site_.sends.size(); ++i) {
            for (const std::string& dataset : site_.sends[i].datasets) {
                deliveries_.emplace(Delivery{dataset, site_.sends[i].to}, i);
            }
        }
        for (std::size_t i = 0; i < site_.sends.size(); ++i) {
            send_names_.first.emplace(site_.sends[i].name, i);
            const std::string at = fmt::format("/sends/{}", i);
            sends_unsure_ = sends_unsure_ || unread(at) || unread(at + "/to") ||
                            unread(at + "/from") || unread(at + "/datasets");
        }
        for (const std::string& at : unread_) {
            // An unread name in a list of datasets: "/sends/0/datasets/1".
            sends_unsure_ = sends_unsure_ || (at.rfind("/sends", 0) == 0 &&
                                              at.find("/datasets/") != std::string::npos);
        }
        for (std::size_t i = 0; i < site_.offers.size(); ++i) {
            offer_names_.first.emplace(site_.offers[i].name, i);
        }
    }

    void check_send(std::size_t place) {
        const Send& send = site_.sends[place];
        const std::string at = fmt::format("/sends/{}", place);
        name(at, send, place, send_names_, "/sends");
        const bool from = refers(at + "/from", send.from, boxes_, "box");
        const bool to = refers(at + "/to", send.to, boxes_, "box");
        refers(at + "/over", send.over, links_, "link");
        const bool apart = send.from != send.to || send.from.empty();
        if (!apart) {
            fault(at + "/to",
                  fmt::format("from and to are both {}; a send goes to another box",
                              in_quotes(send.to)),
                  at, {"from"});
        }
        if (send.datasets.empty()) {
            fault(at + "/datasets", "no dataset is named; name at least one");
        }
        std::set<std::string> seen;
        for (std::size_t i = 0; i < send.datasets.size(); ++i) {
            const std::string& dataset = send.datasets[i];
            const std::string here = fmt::format("{}/datasets/{}", at, i);
            if (!refers(here, dataset, datasets_, "dataset")) continue;
            if (!seen.insert(dataset).second) {
                fault(here, fmt::format("{} is named twice in this send; once is enough",
                                        in_quotes(dataset)));
                continue;
            }
            if (from && to && apart) check_route(send, place, dataset, here, at);
        }
        check_period(at + "/start/every", send.every.value);
        if (send.at < 0 || send.at >= 86400) {
            fault(at + "/start/at", fmt::format("{} is not from 00:00 to 23:59; midnight is 00:00",
                                                format_time_of_day(send.at)));
        }
        check_payload(send, at);
        positive(at + "/cipher_rate", send.cipher_rate);
        if (const auto* ladder = std::get_if<Ladder>(&send.ladder)) {
            if (ladder->empty()) {
                fault(at + "/ladder",
                      "an empty ladder keeps nothing; give rungs, \"as source\" or "
                      "\"keep all\"");
            }
            check_ladder(*ladder, at + "/ladder");
        }
        check_first_copy(send.first_copy, at + "/first_copy");
    }

    /// Where the dataset of a send comes from: its home, or the box that an earlier send fills.
    void check_route(const Send& send, std::size_t place, const std::string& dataset,
                     const std::string& where, const std::string& at) {
        const auto known = datasets_.first.find(dataset);
        if (known == datasets_.first.end() || sends_unsure_) return;
        const std::string& home = site_.datasets[known->second].home;
        const std::string home_at = fmt::format("/datasets/{}/home", known->second);
        if (unread(home_at) || unread(at + "/from") || unread(at + "/to")) return;
        if (!home.empty() && !boxes_.has(home)) return;
        const std::size_t first = deliveries_.at({dataset, send.to});
        if (first != place) {
            fault(where,
                  fmt::format("{} is carried to {} by the send {} already; take it out of one",
                              in_quotes(dataset), in_quotes(send.to),
                              in_quotes(site_.sends[first].name)));
            return;
        }
        if (!home.empty() && send.to == home) {
            fault(where,
                  fmt::format("{} lives on {}, so it cannot be sent there; send it to another "
                              "box, or change its home",
                              in_quotes(dataset), in_quotes(home)));
            return;
        }
        if (send.from == home) return;
        std::string way = in_quotes(send.to);
        std::string box = send.from;
        std::set<std::string> passed;
        while (box != home && passed.insert(box).second) {
            way = in_quotes(box) + " → " + way;
            if (box == send.to) {
                fault(where,
                      fmt::format("{} goes round in a circle, {}; take one of these sends out",
                                  in_quotes(dataset), way));
                return;
            }
            const auto delivery = deliveries_.find({dataset, box});
            if (delivery == deliveries_.end()) break;
            box = site_.sends[delivery->second].from;
        }
        if (!home.empty() && deliveries_.count({dataset, send.from}) == 0) {
            fault(where,
                  fmt::format("{} is not on {}: its home is {}, and no other send carries it to "
                              "{}; send from {}, or add a send to {}",
                              in_quotes(dataset), in_quotes(send.from), in_quotes(home),
                              in_quotes(send.from), in_quotes(home), in_quotes(send.from)));
        }
    }

    void check_payload(const Send& send, const std::string& at) {
        const std::string where = at + "/stream_ratio";
        if (!(send.stream_ratio > 0 && send.stream_ratio <= most_ratio)) {
            fault(where, fmt::format("a stream ratio of {} is not above 0 and at most {}; 1 is a "
                                     "stream that is not compressed again",
                                     send.stream_ratio, most_ratio));
        } else if (send.stream_ratio != 1 && send.payload != Send::Payload::expanded) {
            const std::string_view payload =
                send.payload == Send::Payload::sealed ? "sealed" : "stored";
            fault(where,
                  fmt::format("a stream ratio of {} with the payload \"{}\": {}; leave it out, or "
                              "send \"expanded\"",
                              send.stream_ratio, payload,
                              send.payload == Send::Payload::sealed
                                  ? "encrypted blocks do not compress"
                                  : "compressed blocks do not compress again"),
                  at, {"payload"});
        }
    }

    void check_first_copy(const FirstCopy& first, const std::string& at) {
        if (first.by == FirstCopy::By::courier && !first.copy_rate) {
            fault(at + "/copy_rate",
                  "missing; a first copy by courier needs the rate at which it is copied, such as "
                  "\"180 MB/s\"");
        }
        positive(at + "/copy_rate", first.copy_rate);
        constexpr double most_days_away = 3650;
        within(at + "/days_away", first.days_away, 0, most_days_away, "the days away,");
    }

    // -- offers

    void check_offer(const Offer& offer, const std::string& at) {
        const auto place = static_cast<std::size_t>(&offer - site_.offers.data());
        name(at, offer, place, offer_names_, "/offers");
        refers(at + "/box", offer.box, boxes_, "box");
        price(at + "/price", offer.price, site_.currency);
        positive(at + "/drive_rate", offer.drive_rate);
        if (offer.failure_rate && !(*offer.failure_rate >= 0 && *offer.failure_rate < 1)) {
            fault(at + "/failure_rate",
                  fmt::format("a failure rate of {} is not from 0 to below 1; it is the share of "
                              "drives that fail in a year, such as \"1.5 %\"",
                              *offer.failure_rate));
        }
        if (offer.as == Offer::As::added) check_added(offer, at);
        if (offer.power) {
            not_negative(at + "/power", offer.power->value.value, exact_power(offer.power->value));
        }
        if (offer.life) positive(at + "/life", offer.life->value.value, shown(*offer.life));
        not_negative(at + "/lead_time", offer.lead_time);
        if (offer.pool && offer.usable) {
            fault(at + "/usable",
                  fmt::format("an offer has either a pool or usable ({}); take one out",
                              shown(*offer.usable)));
        } else if (!offer.pool && !offer.usable) {
            fault(at, "an offer needs a pool or usable, as it is compared by what it holds", at,
                  {"pool", "usable"});
        }
        if (offer.pool) check_pool(*offer.pool, at + "/pool");
        if (offer.usable) positive(at + "/usable", *offer.usable);
    }

    /// What is added goes with what is there: drives to a pool, a size to a size.
    void check_added(const Offer& offer, const std::string& at) {
        const auto place = boxes_.first.find(offer.box);
        if (place == boxes_.first.end() || boxes_.unsure) return;
        const Box& box = site_.boxes[place->second];
        if ((offer.pool && !box.pool) || (offer.usable && !box.usable)) {
            fault(at + "/as",
                  fmt::format("{} is to be added to {}, which has no {}; offer it as \"drives\" or "
                              "\"box\"",
                              in_quotes(offer.name), in_quotes(offer.box),
                              offer.pool ? "pool" : "usable size"),
                  at, {"pool", "usable", "box"});
        } else if (offer.pool && offer.pool->sector.value != box.pool->sector.value) {
            fault(at + "/pool/sector",
                  fmt::format("sectors of {} beside sectors of {}: groups of different sector sizes "
                              "in one pool are not modelled",
                              shown(offer.pool->sector), shown(box.pool->sector)));
        }
    }

    /// In the site's currency, or with none said.
    void price(const std::string& where, const Entered<Money>& entered, const std::string& unit) {
        not_negative(where, entered.value.value,
                     entered.text.empty() ? to_text(entered.value) : entered.text);
        const std::string given = unit_of_money(entered.text);
        if (!given.empty() && given != unit) {
            fault(where, fmt::format("{} is in {}, but the site counts in {}; convert it",
                                     in_quotes(entered.text), given, unit));
        }
    }

    const Site& site_;
    const Unread& unread_;
    Names datasets_, boxes_, links_, send_names_, offer_names_;
    std::map<Delivery, std::size_t>
        deliveries_;  ///< the first send that carries a dataset to a box
    bool sends_unsure_ = false;
    int hints_ = 0;  ///< times the nearest name was looked for
    Problems problems_;
};

}  // namespace

Problems validate(const Site& site) { return validate_partly_read(site, {}); }

Problems validate_partly_read(const Site& site, const Unread& unread) {
    return Checker(site, unread).run();
}

}  // namespace ullage
