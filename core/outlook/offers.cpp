// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/offers.h"

#include "core/pool/rebuild.h"
#include "core/units/quantiles.h"
#include "core/units/quantity_text.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>
#include <numeric>

namespace ullage {

namespace {

constexpr double bytes_per_tib = 1099511627776.0;
constexpr double hours_per_day = 24;
constexpr double watts_per_kw = 1000;
/// A life that ends within a thousandth of the horizon's end is not bought again for it.
constexpr double life_slack = 1e-3;

double lead_days(const Offer& offer, const Box& box) {
    if (offer.lead_time) return in_days(offer.lead_time->value);
    return box.lead_time ? in_days(box.lead_time->value) : 0;
}

double runs_day(const Site& site, const Offer& offer, const Box& box) {
    double day = std::ceil(lead_days(offer, box));
    if (box.in_service) day = std::max(day, days_between(site.as_of, *box.in_service));
    return std::max(0.0, day);
}

std::vector<Message> assumptions_of(const Site& site, const Offer& offer, const Box& box,
                                        double day) {
    std::vector<Message> said;
    if (!offer.lead_time && !box.lead_time)
        said.push_back(message("no lead time is given: it is taken to run at once"));
    if (!offer.power) said.push_back(message("no power is given: its energy is not counted"));
    else if (!site.energy_price)
        said.push_back(message("the site has no price of energy: none is counted"));
    if (!offer.life) said.push_back(message("no life is given: it is bought once"));
    if (offer.pool && !offer.drive_rate)
        said.push_back(message("its drives' rate is not given: {} at their fastest (from memory)",
                               usual_drive_rate));
    if (offer.pool && !offer.failure_rate)
        said.push_back(message("its drives' failure rate is not given: {} of them a year (a large fleet in 2024)",
                               Percentage{usual_failure_rate}));
    if (!offer.pool)
        said.push_back(message("only its usable size is given: what small blocks cost on it is not counted"));
    if (std::any_of(box.changes.begin(), box.changes.end(),
                    [&](const BoxChange& c) { return days_between(site.as_of, c.on) > day; }))
        said.push_back(message("what is planned for the box after it runs is left out"));
    return said;
}

/// Why the box's enclosure cannot take it; empty if it can. A whole box brings its own.
Message obstacle(const Offer& offer, const Box& box, const BoxSpace& with) {
    if (offer.as == Offer::As::box || !box.enclosure || !with.eras.back().shape) return {};
    const int drives = drives_of(*with.eras.back().shape);
    if (box.enclosure->bays && drives > *box.enclosure->bays)
        return message_n("{} drive does not go into {} bays", "{} drives do not go into {} bays", drives, drives,
                         *box.enclosure->bays);
    if (box.enclosure->power && offer.power && offer.power->value > box.enclosure->power->value)
        return message("it draws {} W, more than the {} W of the supply", Significant{offer.power->value.value, 6},
                       Significant{box.enclosure->power->value.value, 6});
    return {};
}

std::optional<RebuildExposure> rebuild_of(const Offer& offer) {
    if (!offer.pool) return {};
    const auto shape = shape_of(*offer.pool);
    if (!shape) return {};
    const BytesPerSecond rate = offer.drive_rate ? offer.drive_rate->value : usual_drive_rate;
    std::optional<RebuildExposure> worst;
    for (const GroupSet& set : shape->sets) {
        if (set.redundancy.kind == Redundancy::Kind::none) continue;
        RebuildExposure e;
        e.hours = whole_drive_hours(
            static_cast<double>(drive_bytes(Bytes{static_cast<double>(set.drive)})), rate);
        e.others = set.width - 1;
        e.spare_failures =
            set.redundancy.kind == Redundancy::Kind::parity ? set.redundancy.n - 1 : set.width - 2;
        e.yearly_failures = offer.failure_rate.value_or(usual_failure_rate);
        e.chance_of_another = chance_of_another_failure(e.others, e.yearly_failures, e.hours);
        // Fewer failures that may follow is worse whatever their chance.
        if (!worst || std::make_pair(-e.spare_failures, e.chance_of_another) >
                          std::make_pair(-worst->spare_failures, worst->chance_of_another))
            worst = e;
    }
    return worst;
}

void set_costs(OfferOutlook& o, const Site& site, const Offer& offer, double runs, double added_bytes) {
    const double left = in_days(site.horizon.value) - runs;
    o.price = offer.price.value.value;
    if (offer.life && left > 0)
        o.purchases = std::max(1, static_cast<int>(std::ceil(left / in_days(offer.life->value) - life_slack)));
    o.replacement_cost = (o.purchases - 1) * o.price;
    if (offer.power && site.energy_price)
        o.energy_cost = offer.power->value.value / watts_per_kw * hours_per_day * std::max(0.0, left) *
                        site.energy_price->value.value;
    o.cost_total = o.price + o.replacement_cost + o.energy_cost;
    const double tib_years = added_bytes / bytes_per_tib * left / days_per_year;
    o.cost_per_usable_tib_year = tib_years > 0 ? o.cost_total / tib_years : 0;
}

bool goes_in(const OfferOutlook& o) { return o.does_not_go_in.empty(); }

bool dominates(const OfferOutlook& a, const OfferOutlook& b) {
    return a.box == b.box && goes_in(a) && a.cost_total <= b.cost_total &&
           a.chance_of_lasting >= b.chance_of_lasting &&
           (a.cost_total < b.cost_total || a.chance_of_lasting > b.chance_of_lasting);
}

/// Whether `a` is ranked before `b`.
bool better(const OfferOutlook& a, const OfferOutlook& b) {
    if (goes_in(a) != goes_in(b)) return goes_in(a);
    if (a.holds != b.holds) return a.holds;
    if (a.holds && a.cost_total != b.cost_total) return a.cost_total < b.cost_total;
    if (a.chance_of_lasting != b.chance_of_lasting) return a.chance_of_lasting > b.chance_of_lasting;
    return a.cost_total < b.cost_total;
}

void rank(std::vector<OfferOutlook>& offers) {
    std::vector<std::size_t> order(offers.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return better(offers[a], offers[b]); });
    for (const std::size_t i : order) {
        OfferOutlook& o = offers[i];
        for (const std::size_t j : order) {
            if (j == i) break;
            if (offers[j].box == o.box) ++o.rank;
        }
        for (const std::size_t j : order)
            if (o.dominated_by.empty() && j != i && dominates(offers[j], o)) o.dominated_by = offers[j].name;
        o.recommended = o.rank == 1 && o.holds;
    }
}

}  // namespace

tl::expected<std::vector<PlannedOffer>, Problems> plan_offers(const Site& site,
                                                              const std::vector<BoxSpace>& spaces,
                                                              const std::vector<double>& days) {
    std::vector<PlannedOffer> plans;
    Problems problems;
    for (std::size_t i = 0; i < site.offers.size(); ++i) {
        const Offer& offer = site.offers[i];
        PlannedOffer plan;
        plan.offer = i;
        while (site.boxes[plan.box].name != offer.box) ++plan.box;
        const Box& box = site.boxes[plan.box];
        plan.runs_day = runs_day(site, offer, box);
        const auto from = std::lower_bound(days.begin(), days.end(), plan.runs_day);
        const double counts_from = from == days.end() ? days.back() : *from;
        auto space = spaces[plan.box].with(offer, counts_from);
        if (!space) {
            problems.push_back({fmt::format("/offers/{}/pool", i), space.error()});
            continue;
        }
        plan.space = *std::move(space);
        plan.ceilings = plan.space.ceiling_on(days);
        for (std::size_t t = 0; t < days.size(); ++t)
            if (days[t] < plan.runs_day) plan.ceilings[t] = std::numeric_limits<double>::infinity();
        plan.assumptions = assumptions_of(site, offer, box, plan.runs_day);
        plans.push_back(std::move(plan));
    }
    if (!problems.empty()) return tl::make_unexpected(std::move(problems));
    return plans;
}

std::vector<OfferOutlook> compare_offers(const Site& site, const std::vector<PlannedOffer>& plans,
                                         const std::vector<std::vector<double>>& ceiling_days,
                                         const std::vector<double>& days,
                                         const std::vector<PathTable>& used) {
    std::vector<OfferOutlook> offers;
    for (std::size_t i = 0; i < plans.size(); ++i) {
        const PlannedOffer& plan = plans[i];
        const Offer& offer = site.offers[plan.offer];
        const Box& box = site.boxes[plan.box];
        OfferOutlook o;
        o.name = offer.name;
        o.box = offer.box;
        o.as = offer.as;
        const SpaceEra& era = plan.space.eras.back();
        if (era.shape) o.capacity = capacity(*era.shape);
        o.usable_bytes = era.usable_bytes;
        o.ceiling_bytes = era.usable_bytes * plan.space.ceiling;
        if (offer.pool)
            if (const auto bought = shape_of(*offer.pool)) o.drives = drives_of(*bought);
        o.running_from = add_days(site.as_of, plan.runs_day);

        const std::size_t paths = used[i].paths();
        std::vector<double> passages;
        for (std::size_t p = 0; p < paths; ++p)
            if (const auto day = first_passage(days, used[i].path(p), block_paths, plan.ceilings))
                passages.push_back(*day);
        std::sort(passages.begin(), passages.end());
        const auto quantile = [&](double q) { return inverse_distribution(passages, q, paths); };
        o.days_until_ceiling = {quantile(0.1), quantile(0.5), quantile(0.9)};
        const auto count = static_cast<double>(paths);
        o.chance_of_lasting = 1 - static_cast<double>(passages.size()) / count;
        const auto& now = ceiling_days[plan.box];
        o.chance_too_late =
            static_cast<double>(std::lower_bound(now.begin(), now.end(), plan.runs_day) - now.begin()) /
            count;

        const double before = plan.space.eras[plan.space.eras.size() - 2].usable_bytes;
        set_costs(o, site, offer, plan.runs_day,
                  era.usable_bytes - (offer.as == Offer::As::added ? before : 0));
        o.rebuild = rebuild_of(offer);
        o.does_not_go_in = obstacle(offer, box, plan.space);
        o.holds = goes_in(o) && o.chance_of_lasting >= site.confidence - 1e-9;
        o.assumptions = plan.assumptions;
        offers.push_back(std::move(o));
    }
    rank(offers);
    return offers;
}

}  // namespace ullage
