// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Stored bytes that a send's step brings from one snapshot of a dataset to a later one, on a path of the forecast.
///
/// Law. A step carries what was written between its snapshots: what the path's turnover curve frees in that gap,
/// times the path's churn, the weekday shape and the noise of the gap, plus growth, plus what planned events put
/// there. Of an event, `add` and `rewrite` are sent whole on their day, `remove` and `move` send next to nothing
/// (moved blocks stay the blocks they were). A send of everything carries what is live, and no step carries more
/// than that.
/// What of a step is the same on every path is worked out once (Step); the rest is a few products.

#include "core/outlook/freed_by_gap.h"
#include "core/outlook/send_plan.h"

#include <cstdint>
#include <vector>

namespace ullage {

/// The steps of one dataset, best asked for in order of time: a search begins where the last one ended.
class StepBytes {
public:
    /// `edges`: bounds of the paths' churn intervals. Only steps of paths with the curve `only_curve` are asked for;
    /// −1: of any.
    StepBytes(const SendContext& c, const PathsPlan& plan, const std::vector<double>& edges, std::size_t dataset,
              int only_curve = -1);

    struct Step {
        double begin = 0, end = 0;         ///< days from as_of
        GridPlace live_begin, live_end;    ///< where they lie on the plan's grid, if after as_of
        std::size_t interval = 0;          ///< of churn, in which it begins …
        bool crosses = false;              ///< … and does not end
        const double* freed = nullptr;     ///< in a gap as long, of each curve, or of the only one
        double shape = 1;                  ///< mean of the weekdays it spans
        float spread = 0, shift = 0;       ///< noise: e^(spread × z − shift)
        std::uint32_t hour = 0;            ///< what its z is counted by
    };
    /// Of snapshots that are not the same: `from` is before `to`.
    Step step(Instant from, Instant to);

    /// Stored bytes of a step on a path, with the noise that was drawn for it.
    double bytes(const Step& step, const DatasetPath& path, float noise) const;
    /// e^(spread × z − shift) of each of these steps on these paths, z of each drawn by path and hour alone.
    static void draw_noise(std::uint64_t seed, std::size_t dataset, const std::vector<Step>& steps, std::uint32_t paths,
                           std::vector<float>& noise);  ///< noise: [path × steps + step]
    static float noise_of(std::uint64_t seed, std::size_t dataset, const Step& step, std::uint32_t path);
    /// Stored bytes that are live.
    double live_bytes(const DatasetPath& path, Instant t);

private:
    double shape_between(double from, double to) const;
    GridPlace place_of(double day);
    double live_at(const DatasetPath& path, double day, GridPlace place) const;
    double churn_of(const Step& step, const DatasetPath& path) const;

    const DatasetModel* model_;
    const std::vector<double>* days_;   // of the plan's grid
    const std::vector<double>* edges_;
    Instant start_;
    int first_weekday_;
    int only_curve_;
    std::size_t day_ = 0, edge_ = 0;    // the first that is later than what was last looked for
    FreedByGap freed_;                  // of each curve, or of the only one
    double noise_gap_ = 0, noise_interval_ = 0;  // that the two below are for
    float spread_ = 0, shift_ = 0;
};

}  // namespace ullage
