// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/box_parts.h"

#include "core/outlook/kept_copies.h"

namespace ullage {

tl::expected<PoolCapacity, std::string> capacity_of(const Box& box) {
    if (box.pool) return capacity(*box.pool);
    PoolCapacity size;
    if (box.usable) size.usable_bytes = box.usable->value.value;
    return size;
}

double charge_on(const Box& box, const Dataset& dataset, double compression_ratio) {
    return box.pool ? charge_per_stored_byte(*box.pool, dataset.block_size.value, compression_ratio)
                    : 1.0;
}

std::vector<BoxPart> box_parts(const SendContext& context, const std::vector<PlannedSend>& sends,
                               const std::vector<double>& days, std::size_t box, int row) {
    const auto& there = context.site.boxes[box];
    std::vector<BoxPart> parts;
    for (std::size_t d = 0; d < context.models.size(); ++d) {
        const auto& dataset = context.site.datasets[d];
        const auto& model = context.models[d];
        BoxPart part;
        part.box = row;
        part.dataset = static_cast<int>(d);
        part.charge = charge_on(there, dataset, model.compression_ratio);
        if (dataset.home == there.name) {
            part.kept = kept_at_home(LadderClock(dataset.ladder, context.zone), model.known,
                                     context.start, days);
        } else if (auto kept =
                       kept_at_box(sends, d, there.name, model.known, context.start, days)) {
            part.kept = *std::move(kept);
        } else {
            continue;
        }
        parts.push_back(std::move(part));
    }
    return parts;
}

}  // namespace ullage
