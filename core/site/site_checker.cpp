// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site_checker.h"

#include "core/units/quantity_text.h"
#include "core/units/quoted_text.h"

#include <cmath>

namespace ullage {

std::string shown(const Entered<Bytes>& size) {
    return size.text.empty() ? exact_bytes(size.value) : size.text;
}
std::string shown(const Entered<Duration>& duration) {
    return duration.text.empty() ? exact_duration(duration.value) : duration.text;
}
std::string shown(const Entered<Amount>& amount) {
    return amount.text.empty() ? to_text(amount.value) : amount.text;
}

Problems SiteChecker::run() {
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

bool SiteChecker::unread(std::string at) const {
    if (unread_.empty()) return false;
    while (!at.empty()) {
        if (unread_.count(at) > 0) return true;
        at.resize(at.rfind('/'));
    }
    return false;
}

void SiteChecker::fault(const std::string& where, std::string what, const std::string& base,
           std::initializer_list<const char*> rests_on) {
    if (unread(where)) return;
    for (const char* member : rests_on) {
        if (unread(base + "/" + member)) return;
    }
    problems_.push_back({where, std::move(what)});
}

bool SiteChecker::few(const std::string& where, std::size_t count, std::size_t most) {
    if (count <= most) return true;
    fault(where, fmt::format("{} items; at most {} are read, so leave some out", count, most));
    return false;
}

bool SiteChecker::few_items() {
    bool all = few("/datasets", site_.datasets.size(), most_items);
    all &= few("/boxes", site_.boxes.size(), most_items);
    all &= few("/links", site_.links.size(), most_items);
    all &= few("/sends", site_.sends.size(), most_items);
    all &= few("/offers", site_.offers.size(), most_items);
    return all;
}

void SiteChecker::text(const std::string& where, const std::string& value) {
    if (const auto control = control_character(value)) {
        fault(where, fmt::format("contains the control character {}; leave it out", *control));
    }
}

void SiteChecker::positive(const std::string& where, double value, std::string_view given) {
    if (!(value > 0) || !std::isfinite(value)) {
        fault(where, fmt::format("{} is not above 0; give a positive quantity", given));
    }
}

void SiteChecker::positive(const std::string& where, const Entered<Bytes>& size) {
    positive(where, size.value.value, shown(size));
    not_absurd(where, size.value.value, shown(size));
}

void SiteChecker::not_absurd(const std::string& where, double bytes, std::string_view given) {
    if (std::isfinite(bytes) && std::fabs(bytes) > most_bytes) {
        fault(where, fmt::format("{} is more than {}; check the unit", given, exact_bytes(Bytes{most_bytes})));
    }
}

void SiteChecker::not_absurd(const std::string& where, const Entered<Amount>& amount) {
    const double value = amount.value.value;
    if (amount.value.of == Amount::Of::bytes) {
        not_absurd(where, value, shown(amount));
    } else if (std::isfinite(value) && std::fabs(value) > most_shares) {
        fault(where, fmt::format("{} is more than {} times the live bytes; check the unit", shown(amount), most_shares));
    }
}

void SiteChecker::positive(const std::string& where, const std::optional<Entered<BytesPerSecond>>& rate) {
    if (!rate) return;
    const std::string given = exact_byte_rate(rate->value);
    positive(where, rate->value.value, given);
    usual(where, rate->value.value, least_byte_rate, most_byte_rate, given, "1 B/s to 1000 TB/s");
}

void SiteChecker::line_rate(const std::string& where, BitsPerSecond rate) {
    const std::string given = exact_bit_rate(rate);
    positive(where, rate.value, given);
    usual(where, rate.value, least_bit_rate, most_bit_rate, given, "1 bit/s to 1000 Tbit/s");
}

void SiteChecker::usual(const std::string& where, double value, double least, double most, std::string_view given,
           std::string_view range) {
    if (value > 0 && std::isfinite(value) && (value < least || value > most)) {
        fault(where, fmt::format("{} is outside {}; check the unit", given, range));
    }
}

void SiteChecker::not_negative(const std::string& where, double value, std::string_view given) {
    if (!(value >= 0) || !std::isfinite(value)) {
        fault(where, fmt::format("{} is below 0; give 0 or more", given));
    }
}

void SiteChecker::not_negative(const std::string& where, const std::optional<Entered<Duration>>& duration) {
    if (!duration) return;
    not_negative(where, duration->value.value, shown(*duration));
    usual(where, in_days(duration->value), 0, most_period_days, shown(*duration), "0 to 100 years");
}

void SiteChecker::within(const std::string& where, double value, double least, double most,
            std::string_view what) {
    if (!(value >= least && value <= most)) {
        fault(where, fmt::format("{} {} is outside {} to {}; give a value in that range", what,
                                 value, least, most));
    }
}

void SiteChecker::spread(const std::string& where, double value) {
    within(where, value, 0, most_spread, "a spread (relative standard deviation) of");
}

void SiteChecker::spread(const std::string& where, const std::optional<double>& value) {
    if (value) spread(where, *value);
}

bool SiteChecker::refers(const std::string& where, const std::string& value, const Names& names,
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

void SiteChecker::check_site() {
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

Problems validate(const Site& site) { return validate_partly_read(site, {}); }

Problems validate_partly_read(const Site& site, const Unread& unread) {
    return SiteChecker(site, unread).run();
}

}  // namespace ullage
