// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/box_parts.h"

namespace ullage {

std::vector<double> grid_of(const SendContext& context) {
    auto days = event_days(context.models);
    for (const double day : change_days(context.site)) days.push_back(day);
    return time_grid(context.horizon_days, days);
}

std::vector<BoxPart> box_parts(const SendContext& context, const std::vector<PlannedSend>& sends,
                               const std::vector<double>& days, std::size_t box, int row,
                               const BoxSpace& space, KeptMemo& memo,
                               const std::vector<OfferSpace>& offers) {
    const auto& there = context.site.boxes[box];
    std::vector<BoxPart> parts;
    for (std::size_t d = 0; d < context.models.size(); ++d) {
        const auto& dataset = context.site.datasets[d];
        const auto& model = context.models[d];
        BoxPart part;
        part.box = row;
        part.dataset = static_cast<int>(d);
        if (dataset.home == there.name) {
            part.kept = kept_at_home(LadderClock(dataset.ladder, context.zone), model.known,
                                     context.start, days, memo);
        } else if (auto kept =
                       kept_at_box(sends, d, there.name, model.known, context.start, days, memo)) {
            part.kept = *std::move(kept);
        } else {
            continue;
        }
        part.charges = space.charges(dataset, model, part.kept, context.start, days);
        for (const auto& offer : offers)
            part.offers.push_back(
                {offer.offer, offer.space->charges(dataset, model, part.kept, context.start, days)});
        parts.push_back(std::move(part));
    }
    return parts;
}

}  // namespace ullage
