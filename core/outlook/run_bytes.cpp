// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/run_bytes.h"

namespace ullage {

PathBytes::PathBytes(const SendContext& c, const std::vector<PlannedSend>& sends, const PathsPlan& plan,
                     const Paths& paths, std::size_t path, const KnownSteps* known)
    : c_(c),
      plan_(plan),
      paths_(paths),
      path_(path),
      known_(known && path < known->paths() ? known : nullptr),
      parts_(sends.size() * c.models.size()),
      rules_(c.models.size()) {
    for (std::size_t s = 0; s < sends.size(); ++s)
        for (std::size_t k = 0; k < sends[s].datasets.size(); ++k)
            parts_[s * rules_.size() + std::size_t(sends[s].datasets[k])].payload_per_stored = sends[s].payload_per_stored[k];
}

double PathBytes::operator()(int send, int dataset, Instant from, Instant to) {
    const auto d = static_cast<std::size_t>(dataset);
    Part& part = parts_[std::size_t(send) * rules_.size() + d];
    if (from == no_snapshot) return part.payload_per_stored * live_bytes(d, to);
    if (known_) {
        const auto& known = known_->of(d);
        const auto& steps = known.steps;
        std::size_t& next = part.next;
        while (next < steps.size() && (steps[next].to < to || (steps[next].to == to && steps[next].from < from))) ++next;
        if (next < steps.size() && steps[next].to == to && steps[next].from == from)
            return part.payload_per_stored * known.bytes[path_ * steps.size() + next];
    }
    return part.payload_per_stored * step_bytes(d, from, to);
}

double PathBytes::live_bytes(std::size_t dataset, Instant t) {
    return rule_of(dataset).live_bytes(paths_.samples[path_][dataset], t);
}

double PathBytes::step_bytes(std::size_t dataset, Instant from, Instant to) {
    if (to <= from) return 0;
    StepBytes& rule = rule_of(dataset);
    const auto step = rule.step(from, to);
    const float noise = StepBytes::noise_of(plan_.seed, dataset, step, static_cast<std::uint32_t>(path_));
    return rule.bytes(step, paths_.samples[path_][dataset], noise);
}

StepBytes& PathBytes::rule_of(std::size_t dataset) {
    auto& rule = rules_[dataset];
    if (!rule)
        rule = std::make_unique<StepBytes>(c_, plan_, paths_.edges, dataset, paths_.samples[path_][dataset].curve);
    return *rule;
}

}  // namespace ullage
