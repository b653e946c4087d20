// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site_checker.h"

#include "core/units/quantity_text.h"
#include "core/units/quoted_text.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace ullage {

void SiteChecker::check_link(const Link& link, const std::string& at) {
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

void SiteChecker::check_hours(const Link& link, const std::string& at) {
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

}  // namespace ullage
