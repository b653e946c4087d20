// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/findings/space_findings.h"

#include "core/findings/words.h"

#include <algorithm>
#include <fmt/format.h>

namespace ullage {

namespace {

constexpr double worth_saying = 1.1;  // of a stored byte's cost
constexpr double worth_fearing = 0.1;  // of the chance to come too late

class OfferWriter {
public:
    OfferWriter(const Site& site, const Outlook& outlook, const Wording& w) : site_(site), outlook_(outlook), w_(w) {}

    std::vector<Finding> write() {
        for (const auto& box : site_.boxes) {
            std::vector<const OfferOutlook*> offers;
            for (const auto& o : outlook_.offers)
                if (o.box == box.name) offers.push_back(&o);
            if (!offers.empty()) about_box(box.name, offers);
        }
        return std::move(findings_);
    }

private:
    void add(Level level, const OfferOutlook& o, std::string text) {
        const auto i = static_cast<std::size_t>(&o - outlook_.offers.data());
        findings_.push_back({level, fmt::format("/offers/{}", i), std::move(text)});
    }

    std::string money(double amount) const { return w_.money(amount, outlook_.currency); }
    std::string horizon() const { return w_.horizon(outlook_.horizon_days); }

    void about_box(const std::string& box, const std::vector<const OfferOutlook*>& offers) {
        const auto best = *std::min_element(offers.begin(), offers.end(),
                                            [](const auto* a, const auto* b) { return a->rank < b->rank; });
        if (best->recommended) recommend(box, offers.size(), *best);
        else if (!best->does_not_go_in.empty())
            add(Level::tight, *best, w_.say("No offer for {} goes into it.", box));
        else
            add(Level::tight, *best,
                w_.say("No offer for {} lasts for {} in {}; the likeliest to, “{}”, does in {}.", box, horizon(),
                       say_futures(outlook_.confidence, w_), best->name, say_futures(best->chance_of_lasting, w_)));
        for (const auto* o : offers) {
            if (!o->does_not_go_in.empty()) {
                add(Level::note, *o, w_.say("“{}” does not go into {}: {}.", o->name, box, o->does_not_go_in));
                continue;
            }
            if (!o->dominated_by.empty())
                add(Level::note, *o, w_.say("“{}” can be left aside: “{}” costs no more and lasts no less often.",
                                            o->name, o->dominated_by));
            if (o->chance_too_late > worth_fearing)
                add(Level::tight, *o,
                    w_.say("Even ordered today, “{}” runs from {}: in {} {} is over its ceiling before.", o->name,
                           w_.date(o->running_from), say_futures(o->chance_too_late, w_), box));
        }
    }

    void recommend(const std::string& box, std::size_t count, const OfferOutlook& o) {
        const std::string cost = cost_of(o);
        add(Level::fits, o,
            count == 1 ? w_.say("“{}” lasts for {} on {} in {}: {}.", o.name, horizon(), box,
                                say_futures(o.chance_of_lasting, w_), cost)
                       : w_.say("Of the {} offers for {}, “{}” is the cheapest that lasts for {} in {}: {}.", count, box,
                                o.name, horizon(), say_futures(outlook_.confidence, w_), cost));
        if (o.rebuild) rebuild(o, *o.rebuild);
        for (const auto& sentence : o.assumptions) add(Level::note, o, w_.say("“{}”: {}.", o.name, sentence));
    }

    /// "2,150 EUR in all (…), 1.2 EUR for each usable TiB and year"
    std::string cost_of(const OfferOutlook& o) const {
        std::string text = money(o.cost_total);
        if (o.cost_total > o.price) {
            std::string parts = w_.say("{} to buy", money(o.price));
            if (o.replacement_cost > 0)
                parts += ", " + w_.say("{} to buy again when its life is over", money(o.replacement_cost));
            if (o.energy_cost > 0) parts += ", " + w_.say("{} for energy", money(o.energy_cost));
            text = w_.say("{} in all ({})", text, parts);
        }
        if (o.cost_per_usable_tib_year > 0)
            text += ", " + w_.say("{} for each usable TiB and year", money(o.cost_per_usable_tib_year));
        return text;
    }

    void rebuild(const OfferOutlook& o, const RebuildExposure& r) {
        const std::string time = w_.hours(r.hours);
        add(Level::note, o,
            (r.spare_failures > 0
                 ? w_.say_n("“{}”: to rebuild one drive takes {} at least; {} more in its group may fail meanwhile "
                            "without loss.",
                            "“{}”: to rebuild one drive takes {} at least; {} more in its group may fail meanwhile "
                            "without loss.",
                            r.spare_failures, o.name, time, r.spare_failures)
                 : w_.say("“{}”: to rebuild one drive takes {} at least; another failure in its group meanwhile loses the "
                          "pool.", o.name, time)) +
                " " + w_.say_n("The chance that the other one fails in that time is {1} at {2} of drives a year, if they "
                               "failed independently; real failures cluster, so take it as a lower bound.",
                               "The chance that another of the {0} left fails in that time is {1} at {2} of drives a "
                               "year, if they failed independently; real failures cluster, so take it as a lower bound.",
                               r.others, r.others, w_.percent(r.chance_of_another, 2),
                               w_.percent(r.yearly_failures)));
    }

    const Site& site_;
    const Outlook& outlook_;
    const Wording& w_;
    std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> space_findings(const Outlook& outlook, const BoxOutlook& b, const std::string& about,
                                    Prefixes prefixes, const Wording& w) {
    std::vector<Finding> said;
    const auto size = [&](double bytes) { return w.bytes(bytes, prefixes); };
    const auto block = [&](double bytes) { return w.bytes(bytes, Prefixes::binary); };
    const auto times = [&](double charge) { return w.say("{} times", w.decimals(charge, 2)); };
    for (const auto& c : b.changes)
        said.push_back({Level::note, about,
                        w.say("On {}, {}: {}; {} usable from then on.", w.date(c.on), b.name, c.text,
                              size(c.usable_bytes))});
    for (const auto& c : b.costs) {
        if (c.charge < worth_saying) continue;
        said.push_back(
            {Level::note, about,
             c.better_block_bytes
                 ? w.say("“{}” with blocks of {} takes {} its stored size on {}; blocks of {} would take {}, about {} "
                         "less at the end of {}. A small write then rewrites a larger block, so sends and snapshots "
                         "grow.", c.dataset, block(c.block_bytes), times(c.charge), b.name,
                         block(*c.better_block_bytes), times(c.better_charge),
                         size(c.used_bytes * (1 - c.better_charge / c.charge)),
                         w.horizon(outlook.horizon_days, Case::dative))
                 : w.say("“{}” with blocks of {} takes {} its stored size on {}, for parity and padding beside small "
                         "blocks.", c.dataset, block(c.block_bytes), times(c.charge), b.name)});
    }
    if (b.better_shape)
        said.push_back({Level::note, about,
                        w.say("The drives of {} as {} would hold {} more of this data and survive as many failures in a "
                              "group: a stored byte takes {} its size there, not {}. The wider a group, the longer a "
                              "rebuild in it and the fewer failures the pool stands in all.", b.name,
                              b.better_shape->text, w.percent(b.better_shape->gain, 2), times(b.better_shape->charge),
                              times(b.better_shape->charge_now))});
    return said;
}

std::optional<Day> order_by(const Answer& answer, const OfferOutlook& offer) {
    const Outlook& o = answer.outlook;
    const auto box = std::find_if(o.boxes.begin(), o.boxes.end(),
                                  [&](const BoxOutlook& b) { return b.name == offer.box; });
    if (box == o.boxes.end()) return {};
    std::optional<double> lead = box->lead_time_days;
    for (const Offer& each : answer.site.offers)
        if (each.name == offer.name && each.lead_time) lead = in_days(each.lead_time->value);
    if (!lead) return {};
    if (box->over_ceiling_now || box->full_now) return add_days(o.as_of, -*lead);
    if (!box->days_until_ceiling.p10) return {};
    return add_days(o.as_of, *box->days_until_ceiling.p10 - *lead);
}

std::vector<Finding> offer_findings(const Site& site, const Outlook& outlook, const Wording& w) {
    return OfferWriter(site, outlook, w).write();
}

}  // namespace ullage
