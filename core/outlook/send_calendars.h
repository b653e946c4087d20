// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Calendars that sends have in common, and plans of the same sends on other lines or in other rooms: worked out once.
/// For one zone and one end of time; not for two threads at once.

#include "core/replay/replay.h"
#include "core/retention/ladder.h"

#include <algorithm>
#include <map>
#include <memory>
#include <tuple>
#include <utility>
#include <vector>

namespace ullage {

class SendCalendars {
public:
    explicit SendCalendars(TimeZone zone) : zone_(std::move(zone)) {}

    std::shared_ptr<const LadderClock> clock(const Ladder& ladder) {
        for (const auto& [known, clock] : clocks_)
            if (known == ladder) return clock;
        clocks_.emplace_back(ladder, std::make_shared<LadderClock>(ladder, zone_));
        return clocks_.back().second;
    }

    std::shared_ptr<const LadderGrid> grid(const std::shared_ptr<const LadderClock>& clock,
                                           Instant from, Instant to) {
        if (!clock) return nullptr;
        auto& known = grids_[clock.get()];
        if (!known.second || from < known.first)
            known = {from, std::make_shared<LadderGrid>(*clock, from, to)};
        return known.second;
    }

    SharedValue<SnapshotSupply> supply(const std::shared_ptr<const LadderClock>& clock, Send::Steps steps,
                                       double period_days, Instant from, Instant to) {
        const auto [it, is_new] = supplies_.try_emplace({clock.get(), steps, period_days, from});
        if (is_new) it->second = snapshots_to_send(*clock, steps, days(period_days), from, to);
        return it->second;
    }

    /// What a send's box receives if every run arrives when it is due, by what was replayed to find it. Each send's
    /// own, so that sends may be asked for side by side once there is room for all.
    struct Received {
        std::vector<ReplaySend> by;
        std::vector<std::vector<Arrival>> arrivals;  ///< per dataset
    };
    void make_room(std::size_t sends) { received_.resize(std::max(received_.size(), sends)); }
    Received& received(std::size_t send) { return received_[send]; }

private:
    TimeZone zone_;
    std::vector<Received> received_;  // by send
    std::vector<std::pair<Ladder, std::shared_ptr<const LadderClock>>> clocks_;
    std::map<const LadderClock*, std::pair<Instant, std::shared_ptr<const LadderGrid>>> grids_;
    std::map<std::tuple<const LadderClock*, Send::Steps, double, Instant>, SharedValue<SnapshotSupply>> supplies_;
};

}  // namespace ullage
