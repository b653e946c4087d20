// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// An outage as a person draws it: from a day, for whole days; how a hand on it changes it.
///
/// Invariants: an outage lasts a day at least and lies within its limits; a drag of one edge leaves
/// the other where it is.

#include "core/units/calendar.h"

#include <optional>

namespace ullage {

struct OutageSpan {
    Day from{};
    int days = 1;
    Day to() const { return from + std::chrono::days(days); }  ///< the line is back
    bool operator==(const OutageSpan&) const = default;
};

/// [first, end]: an outage starts on `first` or later and is over by `end`.
struct OutageLimits {
    Day first{}, end{};
    int most_days() const { return static_cast<int>((end - first).count()); }
};

/// The same outage, moved and cut as little as its limits need.
OutageSpan held(OutageSpan span, const OutageLimits& limits);

/// A hand on a time axis: on an edge of the outage, on the whole of it, or drawing a new one.
class OutageDrag {
public:
    enum class Grip { none, fresh, start, end, whole };

    /// What a hand at `day` has hold of; edges reach `slack_days` to both sides.
    static Grip gripAt(const std::optional<OutageSpan>& outage, double day, double slack_days,
                       Day origin);

    /// Days are counted from `origin`, with fractions.
    void begin(Grip grip, const std::optional<OutageSpan>& outage, double day, Day origin);
    OutageSpan at(double day, const OutageLimits& limits) const;
    void end() { grip_ = Grip::none; }
    bool active() const { return grip_ != Grip::none; }
    const std::optional<OutageSpan>& before() const { return before_; }

private:
    Grip grip_ = Grip::none;
    std::optional<OutageSpan> before_;
    double day_ = 0;
    Day origin_{};
};

}  // namespace ullage
