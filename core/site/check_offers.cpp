// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/site/site_checker.h"

#include "core/units/quantity_text.h"
#include "core/units/quoted_text.h"

#include <algorithm>
#include <cmath>
#include <set>

namespace ullage {

void SiteChecker::check_offer(const Offer& offer, const std::string& at) {
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

void SiteChecker::check_added(const Offer& offer, const std::string& at) {
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

void SiteChecker::price(const std::string& where, const Entered<Money>& entered, const std::string& unit) {
    not_negative(where, entered.value.value,
                 entered.text.empty() ? to_text(entered.value) : entered.text);
    const std::string given = unit_of_money(entered.text);
    if (!given.empty() && given != unit) {
        fault(where, fmt::format("{} is in {}, but the site counts in {}; convert it",
                                 in_quotes(entered.text), given, unit));
    }
}

}  // namespace ullage
