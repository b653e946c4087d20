// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/planned_event.h"

#include <algorithm>

namespace ullage::ui {

std::vector<int> datasetsOn(const Site& site, const std::string& box) {
    std::vector<int> found;
    for (std::size_t i = 0; i < site.datasets.size(); ++i) {
        const Dataset& dataset = site.datasets[i];
        const bool is_sent_there =
            std::any_of(site.sends.begin(), site.sends.end(), [&](const Send& send) {
                return send.to == box && std::find(send.datasets.begin(), send.datasets.end(),
                                                   dataset.name) != send.datasets.end();
            });
        if (dataset.home == box || is_sent_there) found.push_back(static_cast<int>(i));
    }
    return found;
}

std::string addPlannedEvent(Site& site, int dataset, Day on) {
    Event event;
    event.on = on;
    event.amount = Entered<Amount>{{1e12, Amount::Of::bytes}, "1 TB"};
    site.datasets[static_cast<std::size_t>(dataset)].events.push_back(event);
    return "/datasets/" + std::to_string(dataset) + "/events";
}

}  // namespace ullage::ui
