// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The steps that sends take when every run arrives when it is due, and what each carries on each sample path: worked
/// out before the replay, once for all of a site's sends and however often they are replayed.

#include "core/outlook/step_bytes.h"

#include <vector>

namespace ullage {

class KnownSteps {
public:
    /// Of the first `paths` sample paths.
    KnownSteps(const SendContext& c, const std::vector<PlannedSend>& sends, const PathsPlan& plan, const Paths& drawn,
               std::size_t paths, int threads);

    struct Step {
        Instant from{}, to{};
    };
    /// Of one dataset, in order of their end and then of their beginning.
    struct OfDataset {
        std::vector<Step> steps;
        std::vector<double> bytes;  ///< stored, [path × steps + step]
    };
    const OfDataset& of(std::size_t dataset) const { return all_[dataset]; }
    std::size_t paths() const { return paths_; }

private:
    std::vector<OfDataset> all_;
    std::size_t paths_;
};

}  // namespace ullage
