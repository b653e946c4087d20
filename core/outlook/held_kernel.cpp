// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/held_kernel.h"

#include "core/outlook/freed_by_gap.h"
#include "core/units/calendar.h"

#include <algorithm>
#include <cmath>

namespace ullage {

namespace {

constexpr double young_days = 4;

/// What gaps freed by the listing, per curve.
class FreedByListing {
public:
    FreedByListing(const KnownPast& past, std::size_t curves, FreedByGap& freed)
        : past_(past), freed_(freed), listed_(past.taken.size()), steps_(curves) {
        for (auto& steps : steps_) steps.resize(past.taken.size());
        for (std::size_t i = 1; i < past.taken.size(); ++i) {
            listed_[i] = listed_[i - 1] + past.freed[i];
            const auto& step = freed(past.taken[i] - past.taken[i - 1]);
            for (std::size_t c = 0; c < curves; ++c) steps_[c][i] = steps_[c][i - 1] + step[c];
        }
    }

    /// Adds a gap's bytes to the time's place of each curve's row.
    void add(const GapLayout::Listed& gap, std::size_t time, std::vector<std::vector<double>>& rows) {
        const auto [first, last] = gap;
        const double listed = last == first + 1 ? past_.freed[last] : listed_[last] - listed_[first];
        const std::vector<double>* whole = last == first + 1 ? nullptr : &freed_(past_.taken[last] - past_.taken[first]);
        for (std::size_t c = 0; c < rows.size(); ++c) {
            const double steps = steps_[c][last] - steps_[c][first];
            rows[c][time] += whole && steps > 0 ? listed * std::min(1.0, (*whole)[c] / steps) : listed;
        }
    }

private:
    const KnownPast& past_;
    FreedByGap& freed_;
    std::vector<double> listed_;              // up to each snapshot
    std::vector<std::vector<double>> steps_;  // the same by the curve, step for step
};

}  // namespace

double young_share(double gap_days) { return 1 / (1 + gap_days / young_days); }

namespace {

void set_young(const GapLayout& layout, HeldKernel& k) {
    std::vector<double> share;  // of each length
    for (const auto length : layout.lengths)
        share.push_back(young_share(static_cast<double>(length.count()) / seconds_per_day));
    for (std::size_t i = 0; i < layout.shapes.size(); ++i) {
        double all = 0;
        double young = 0;
        for (const auto* gaps = layout.shapes.begin(i); gaps < layout.shapes.end(i); ++gaps) {
            const std::size_t length = layout.length_of[gaps->row];
            const double bytes = static_cast<double>(gaps->weight) * static_cast<double>(k.freed.front()[length]);
            all += bytes;
            young += bytes * share[length];
        }
        k.young.push_back(all > 0 ? static_cast<float>(young / all) : 0.0F);
    }
}

}  // namespace

double HeldKernel::held(std::size_t curve, std::size_t time) const {
    double bytes = known.empty() ? 0 : known[curve][time];
    for (const auto* gaps = layout->shapes.begin(time); gaps < layout->shapes.end(time); ++gaps)
        bytes += static_cast<double>(gaps->weight) * static_cast<double>(freed[curve][layout->length_of[gaps->row]]);
    return bytes;
}

HeldKernel held_kernel(std::shared_ptr<const GapLayout> layout, const DatasetModel& model) {
    std::vector<Curve> curves = model.curves;
    curves.push_back(model.mean_curve);
    HeldKernel k;
    FreedByGap freed(curves);
    k.freed.resize(curves.size());
    for (const auto length : layout->lengths) {
        const auto& of_curves = freed(length);
        for (std::size_t c = 0; c < curves.size(); ++c) k.freed[c].push_back(static_cast<float>(of_curves[c]));
    }
    if (model.wander > 0) set_young(*layout, k);
    if (!layout->listed.empty()) {
        const std::size_t times = layout->shapes.size();
        k.known.assign(curves.size(), std::vector<double>(times, 0.0));
        FreedByListing listed(model.known, curves.size(), freed);
        for (std::size_t i = 0; i < times; ++i)
            for (std::size_t g = layout->first_listed[i]; g < layout->first_listed[i + 1]; ++g)
                listed.add(layout->listed[g], i, k.known);
    }
    k.layout = std::move(layout);
    return k;
}

}  // namespace ullage
