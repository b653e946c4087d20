// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Bytes of one run's step on one path of the forecast: the stored bytes of step_bytes.h, times the payload of a
/// stored byte.

#include "core/outlook/known_steps.h"

#include <memory>
#include <vector>

namespace ullage {

class PathBytes {
public:
    /// `known`: what is not in it is worked out; may be null.
    PathBytes(const SendContext& c, const std::vector<PlannedSend>& sends, const PathsPlan& plan, const Paths& paths,
              std::size_t path, const KnownSteps* known = nullptr);

    /// As SendBytes of the replay.
    double operator()(int send, int dataset, Instant from, Instant to);
    /// Stored bytes of a dataset that are live at t.
    double live_bytes(std::size_t dataset, Instant t);

private:
    double step_bytes(std::size_t dataset, Instant from, Instant to);
    StepBytes& rule_of(std::size_t dataset);

    const SendContext c_;  // a value, as it only refers: it may have been made for the call
    const PathsPlan& plan_;
    const Paths& paths_;
    std::size_t path_;
    const KnownSteps* known_;
    /// Of one dataset in one send.
    struct Part {
        double payload_per_stored = 0;
        std::size_t next = 0;  ///< known step: runs come in order of time
    };
    std::vector<Part> parts_;                         // [send × datasets + dataset]
    std::vector<std::unique_ptr<StepBytes>> rules_;   // by dataset, of those that were needed
};

}  // namespace ullage
