// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site_checker.h"

#include "core/units/quantity_text.h"
#include "core/units/quoted_text.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace ullage {

void SiteChecker::note_deliveries() {
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

void SiteChecker::check_send(std::size_t place) {
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

void SiteChecker::check_route(const Send& send, std::size_t place, const std::string& dataset,
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

void SiteChecker::check_payload(const Send& send, const std::string& at) {
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

void SiteChecker::check_first_copy(const FirstCopy& first, const std::string& at) {
    if (first.by == FirstCopy::By::courier && !first.copy_rate) {
        fault(at + "/copy_rate",
              "missing; a first copy by courier needs the rate at which it is copied, such as "
              "\"180 MB/s\"");
    }
    positive(at + "/copy_rate", first.copy_rate);
    constexpr double most_days_away = 3650;
    within(at + "/days_away", first.days_away, 0, most_days_away, "the days away,");
}

}  // namespace ullage
