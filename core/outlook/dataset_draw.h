// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// One dataset over a block of sixteen paths: its live bytes, churn and events, by the laws of paths.h.

#include "core/outlook/held_profiles.h"
#include "core/outlook/paths.h"
#include "core/units/lanes.h"
#include "core/units/sobol.h"

#include <cstddef>
#include <cstdint>
#include <memory>
#include <new>
#include <vector>

namespace ullage {

static_assert(block_paths == lanes);

/// Puts rows of lanes into lines of the cache.
template <class T>
struct RowAllocator {
    using value_type = T;
    static constexpr std::align_val_t line{lanes * sizeof(float)};

    RowAllocator() = default;
    template <class U>
    RowAllocator(const RowAllocator<U>&) {}  // NOLINT: as allocators are
    T* allocate(std::size_t n) { return static_cast<T*>(::operator new(n * sizeof(T), line)); }
    void deallocate(T* at, std::size_t) { ::operator delete(at, line); }
    bool operator==(const RowAllocator&) const { return true; }
};
template <class T>
using Rows = std::vector<T, RowAllocator<T>>;

/// What was drawn, and room to draw in.
struct BlockDraw {
    std::size_t n = 0;                       ///< paths of the block; lanes beyond them have numbers too
    std::size_t curve = 0;
    Rows<double> live;                       ///< [time × block_paths + lane], events left out
    Rows<float> churn;                       ///< [interval × block_paths + lane]
    Rows<float> wander;                      ///< the same: what to add to it for what dies young; empty: nothing
    std::vector<double> event_day, event_bytes;  ///< [event × block_paths + lane]
    std::vector<double> added;               ///< growth of one path, per time
};

class DatasetDrawer {
public:
    /// All must outlive it. `drawn`: room for what paths draw that are not set.
    DatasetDrawer(const std::vector<DatasetModel>& models, const PathsPlan& plan, const HeldProfiles& profiles,
                  std::vector<DrawnInputs>& drawn);

    /// The first `n` lanes of the block are paths. Of blocks side by side each writes only what is its own.
    void draw(std::size_t dataset, std::size_t block, std::size_t n, BlockDraw& draw) const;

    /// Live bytes of all lanes at a day, which lies at `place` if it is above 0: straight lines between the
    /// times, and the events so far.
    void live(std::size_t dataset, const BlockDraw& draw, double day, GridPlace place, DoubleLanes& live) const;
    /// What the replay needs of a path. It is given a curve of its own: few paths are replayed, and those of a block
    /// share one.
    DatasetPath sample(std::size_t dataset, const BlockDraw& draw, std::size_t block, std::size_t lane) const;

private:
    /// What the noise of one dataset's intervals is made of.
    struct NoiseScales {
        std::vector<float> churn_sd, churn_shift;  // per interval from as_of: exp(sd z − shift)
        std::vector<float> wander_step;            // per interval
        float wander_shift = 0;
    };

    std::size_t set_coordinates();
    NoiseScales scales_of(const DatasetModel& m) const;
    void set_path(std::size_t d, const SetInputs& set, std::size_t lane, BlockDraw& draw) const;
    void keep_inputs(std::size_t d, std::uint32_t path, std::size_t lane, const BlockDraw& draw, double level,
                     double live_factor) const;
    std::size_t curve_of(std::size_t d, std::size_t number) const;
    void draw_paths_of(std::size_t d, std::uint32_t first, BlockDraw& draw) const;
    void draw_measured_growth(std::size_t d, std::uint32_t first, const DoubleLanes& start, BlockDraw& draw) const;
    void draw_intervals(std::size_t d, std::uint32_t first, const DoubleLanes& start, const DoubleLanes& rate,
                        const DoubleLanes& level, BlockDraw& draw) const;
    double live_at(std::size_t d, const BlockDraw& draw, double day, std::size_t lane) const;

    const std::vector<DatasetModel>& models_;
    const PathsPlan& plan_;
    const std::vector<double>& edges_;
    const std::size_t past_;                            // intervals before as_of
    const std::vector<std::vector<std::size_t>>& rising_;
    std::vector<DrawnInputs>& drawn_;
    std::vector<std::size_t> first_coordinate_;         // per dataset
    SobolPoints points_;                                // of paths that are drawn
    std::vector<GridPlace> growth_places_;              // of the plan's growth_days
    std::vector<float> wander_keep_, wander_step_;      // per interval
    std::vector<NoiseScales> noise_;                    // per dataset
    std::vector<std::vector<double>> middle_growth_;    // per dataset: bytes added at each time
};

}  // namespace ullage
