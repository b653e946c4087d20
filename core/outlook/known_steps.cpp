// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/known_steps.h"

#include "core/outlook/threads.h"

#include <algorithm>
#include <tuple>

namespace ullage {

namespace {

/// What the sends' runs carry of a dataset from as_of on.
std::vector<KnownSteps::Step> steps_of(std::size_t dataset, const std::vector<PlannedSend>& sends, Instant start) {
    std::vector<KnownSteps::Step> steps;
    for (const auto& send : sends) {
        const auto at = std::find(send.datasets.begin(), send.datasets.end(), static_cast<int>(dataset));
        if (at == send.datasets.end()) continue;
        const auto& received = send.received[std::size_t(at - send.datasets.begin())];
        const auto before = static_cast<std::ptrdiff_t>(steps.size());
        for (std::size_t i = 1; i < received.size(); ++i)
            if (received[i].at >= start && received[i - 1].snapshot < received[i].snapshot)
                steps.push_back({received[i - 1].snapshot, received[i].snapshot});
        // Each send's are in order.
        std::inplace_merge(steps.begin(), steps.begin() + before, steps.end(), [](const auto& a, const auto& b) {
            return std::tie(a.to, a.from) < std::tie(b.to, b.from);
        });
    }
    steps.erase(std::unique(steps.begin(), steps.end(),
                            [](const auto& a, const auto& b) { return a.from == b.from && a.to == b.to; }),
                steps.end());
    return steps;
}

}  // namespace

KnownSteps::KnownSteps(const SendContext& c, const std::vector<PlannedSend>& sends, const PathsPlan& plan,
                       const Paths& drawn, std::size_t paths, int threads)
    : all_(c.models.size()), paths_(std::min(paths, drawn.samples.size())) {
    side_by_side(threads, 0, all_.size(), [&](std::size_t d) {
        auto& of = all_[d];
        of.steps = steps_of(d, sends, c.start);
        if (of.steps.empty()) return;
        StepBytes rule(c, plan, drawn.edges, d);
        std::vector<StepBytes::Step> steps;
        steps.reserve(of.steps.size());
        for (const auto& s : of.steps) steps.push_back(rule.step(s.from, s.to));
        std::vector<float> noise;
        StepBytes::draw_noise(plan.seed, d, steps, static_cast<std::uint32_t>(paths_), noise);
        of.bytes.reserve(noise.size());
        for (std::size_t p = 0; p < paths_; ++p) {
            const DatasetPath& path = drawn.samples[p][d];
            for (std::size_t k = 0; k < steps.size(); ++k)
                of.bytes.push_back(rule.bytes(steps[k], path, noise[p * steps.size() + k]));
        }
    });
}

}  // namespace ullage
