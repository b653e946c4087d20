// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Bytes of one run's step on one path of the forecast.
///
/// Law. From one snapshot to a later one a send carries what was written between them: what the
/// path's turnover curve frees in that gap, times the path's churn, the weekday shape and the noise
/// of the gap, plus growth, plus what planned events put there; all times the payload of a stored
/// byte. Of an event, `add` and `rewrite` are sent whole on their day, `remove` and `move` send
/// next to nothing (moved blocks stay the blocks they were). A send of everything carries what is
/// live, and no step carries more than that.

#include "core/outlook/send_plan.h"

#include <optional>
#include <utility>
#include <vector>

namespace ullage {

class PathBytes {
public:
    PathBytes(const SendContext& c, const std::vector<PlannedSend>& sends, const PathsPlan& plan,
              const Paths& paths, std::size_t path);

    /// As SendBytes of the replay.
    double operator()(int send, int dataset, std::optional<Instant> from, Instant to);
    /// Stored bytes of a dataset that are live at t.
    double live_bytes(std::size_t dataset, Instant t);

private:
    double freed_in(std::size_t d, double gap);
    double live_at(std::size_t d, double day);
    double events_between(std::size_t d, double from, double to, bool net) const;
    double churn_between(std::size_t d, double from, double to);
    double shape_between(std::size_t d, double from, double to) const;
    double run_noise(std::size_t d, double gap, double end);

    const SendContext c_;  // a value, as it only refers: it may have been made for the call
    const std::vector<PlannedSend>& sends_;
    const PathsPlan& plan_;
    const std::vector<double>& edges_;
    const std::vector<DatasetPath>& sample_;
    std::uint32_t path_;
    int first_weekday_;
    struct Known {
        long long seconds;
        double bytes;
    };
    /// Runs come mostly in order of time: a search begins where the last one ended.
    struct Place {
        std::size_t day = 0, edge = 0;  ///< of the grid's days, of the paths' intervals: the first that is later
    };
    struct Noise {
        double gap = 0, interval = 0, spread = 0, shift = 0;  ///< of the last gap in an interval as long
    };
    std::vector<std::vector<Known>> freed_;  // by dataset: gaps asked for before
    std::vector<Place> place_;               // by dataset
    std::vector<Noise> noise_;               // by dataset
};

}  // namespace ullage
