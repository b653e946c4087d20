// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// The turnover curve: how many of today's stored bytes are gone after δ days.
///
/// Law. For two snapshots δ days apart, freed(δ) is what the older holds and the newer does not.
/// Blocks die at random ages; as a mixture of exponential lifetimes
///     freed(δ) = Σ_k A_k (1 − exp(−δ/τ_k)),   A_k ≥ 0 bytes,  τ_k > 0 days,
/// so freed is 0 at 0, increasing, concave, and at most Σ A_k.
/// `unique(g, h)` = freed(g) + freed(h) − freed(g + h): blocks born in one gap and dead in the next.
/// Ignored: ages that depend on the time of day or on each other.
/// Invariants: freed(a + b) ≤ freed(a) + freed(b); freed(b) ≥ freed(a) for b ≥ a.

#include <vector>

namespace ullage {

struct CurveComponent {
    double lifetime_days = 0;  ///< > 0
    double bytes = 0;          ///< ≥ 0
    bool operator==(const CurveComponent&) const = default;
};

class Curve {
public:
    Curve() = default;
    explicit Curve(std::vector<CurveComponent> components) : components_(std::move(components)) {}

    const std::vector<CurveComponent>& components() const { return components_; }
    /// Bytes; δ ≥ 0 days (a negative δ counts as 0).
    double freed(double delta_days) const;
    double unique(double gap_days, double next_gap_days) const;
    /// Σ A_k: bytes that ever die.
    double total() const;
    Curve scaled(double factor) const;
    bool operator==(const Curve&) const = default;

private:
    std::vector<CurveComponent> components_;
};

/// The lifetimes every fit uses: 32 points spaced evenly on a log scale from 0.02 d to 3650 d.
const std::vector<double>& lifetime_grid();

}  // namespace ullage
