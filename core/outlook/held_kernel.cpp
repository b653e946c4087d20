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
        : past_(past), freed_(freed), listed_(past.taken.size(), 0.0),
          steps_(curves, std::vector<double>(past.taken.size(), 0.0)) {
        for (std::size_t i = 1; i < past.taken.size(); ++i) {
            listed_[i] = listed_[i - 1] + past.freed[i];
            const auto& step = freed(past.taken[i] - past.taken[i - 1]);
            for (std::size_t c = 0; c < curves; ++c) steps_[c][i] = steps_[c][i - 1] + step[c];
        }
    }

    /// Adds a gap's bytes to the time's place of each curve's row; false: the listing does not hold both its ends.
    bool add(Instant from, Instant to, std::size_t time, std::vector<std::vector<double>>& rows) {
        const auto& taken = past_.taken;
        const auto a = std::lower_bound(taken.begin(), taken.end(), from);
        if (a == taken.end() || *a != from) return false;
        const auto b = std::lower_bound(a, taken.end(), to);
        if (b == taken.end() || *b != to) return false;
        const auto first = static_cast<std::size_t>(a - taken.begin());
        const auto last = static_cast<std::size_t>(b - taken.begin());
        const double listed = last == first + 1 ? past_.freed[last] : listed_[last] - listed_[first];
        const std::vector<double>* whole = last == first + 1 ? nullptr : &freed_(to - from);
        for (std::size_t c = 0; c < rows.size(); ++c) {
            const double steps = steps_[c][last] - steps_[c][first];
            rows[c][time] += whole && steps > 0 ? listed * std::min(1.0, (*whole)[c] / steps) : listed;
        }
        return true;
    }

private:
    const KnownPast& past_;
    FreedByGap& freed_;
    std::vector<double> listed_;              // up to each snapshot
    std::vector<std::vector<double>> steps_;  // the same by the curve, step for step
};

}  // namespace

double young_share(double gap_days) { return 1 / (1 + gap_days / young_days); }

HeldKernel held_kernel(std::shared_ptr<const GapLayout> layout, const DatasetModel& model, float* weights) {
    std::vector<Curve> curves = model.curves;
    curves.push_back(model.mean_curve);
    const std::size_t count = curves.size();
    const std::size_t times = layout->first.size();
    HeldKernel k;
    k.weights = weights;
    k.known.assign(count, std::vector<double>(times, 0.0));
    FreedByGap freed(curves);
    FreedByListing listed(model.known, count, freed);
    const Instant listed_until = model.known.taken.empty() ? Instant::min() : model.known.taken.back();
    std::vector<double> bytes;  // [length][curve]
    std::vector<double> young_shares;
    for (const auto length : layout->lengths) {
        const auto& of_curves = freed(length);
        bytes.insert(bytes.end(), of_curves.begin(), of_curves.end());
        young_shares.push_back(young_share(static_cast<double>(length.count()) / seconds_per_day));
    }
    std::vector<double> sums;  // of one time: [interval][curve]
    for (std::size_t i = 0; i < times; ++i) {
        sums.assign(layout->count[i] * count, 0.0);
        double all = 0;
        double young = 0;
        for (std::size_t g = layout->first_gap[i]; g < layout->first_gap[i + 1]; ++g) {
            const auto& gap = layout->gaps[g];
            if (gap.to <= listed_until && listed.add(gap.from, gap.to, i, k.known)) continue;
            const double* of_gap = &bytes[gap.length * count];
            all += of_gap[0];
            young += of_gap[0] * young_shares[gap.length];
            for (std::size_t p = gap.first_piece; p < layout->last_piece(g); ++p) {
                const auto& piece = layout->pieces[p];
                double* sum = &sums[piece.interval * count];
                for (std::size_t c = 0; c < count; ++c) sum[c] += of_gap[c] * piece.share;
            }
        }
        for (std::size_t c = 0; c < count; ++c) {
            float* out = weights + c * layout->weights + layout->offset[i];
            for (std::size_t j = 0; j < layout->count[i]; ++j) out[j] = static_cast<float>(sums[j * count + c]);
        }
        k.young.push_back(all > 0 ? static_cast<float>(young / all) : 0.0F);
    }
    k.layout = std::move(layout);
    return k;
}

}  // namespace ullage
