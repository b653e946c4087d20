// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/outlook_laws.h"

#include "core/words/wording.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <initializer_list>

namespace ullage {

namespace {

constexpr double slack = 1e-9;  // relative, where two figures of one quantity were rounded apart

class Laws {
public:
    std::vector<std::string> broken;

    void of(const Outlook& o) {
        about_ = "the outlook";
        positive("horizon", o.horizon_days);
        hold(o.paths >= 1, "paths", "fewer than 1");
        hold(o.confidence > 0.5 && o.confidence < 1, "confidence", "outside 0.5 to 1");
        for (const auto& b : o.boxes) of(b, o);
        for (const auto& s : o.sends) of(s, o);
        for (const auto& d : o.datasets) of(d);
        for (const auto& offer : o.offers) of(offer, o);
        for (const auto& d : o.drivers) of(d, o);
    }

private:
    void hold(bool holds, const std::string& figure, const std::string& what) {
        if (!holds) broken.push_back(fmt::format("{}: {}: {}", about_, figure, what));
    }
    void finite(const std::string& figure, double value) {
        hold(std::isfinite(value), figure, fmt::format("{} is not finite", value));
    }
    void not_negative(const std::string& figure, double value) {
        hold(std::isfinite(value) && value >= 0, figure, fmt::format("{} is not 0 or more", value));
    }
    void positive(const std::string& figure, double value) {
        hold(std::isfinite(value) && value > 0, figure, fmt::format("{} is not above 0", value));
    }
    void share(const std::string& figure, double value) {
        hold(value >= 0 && value <= 1, figure, fmt::format("{} is not in 0 to 1", value));
    }
    /// Each finite, at least 0, no less than the one before.
    void rising(const std::string& figure, std::initializer_list<double> values) {
        double before = 0;
        for (const double value : values) {
            hold(std::isfinite(value) && value >= before - slack * before, figure,
                 fmt::format("{} after {}", value, before));
            before = value;
        }
    }
    void rising(const std::string& figure, const RunQuantiles& q) { rising(figure, {q.p50, q.p90, q.p95}); }
    void rising(const std::string& figure, const std::vector<double>& values) {
        hold(std::is_sorted(values.begin(), values.end()), figure, "not in rising order");
        for (const double value : values) not_negative(figure, value);
    }

    /// A day in 0…horizon, or none; none is later than any day.
    void day(const std::string& figure, const std::optional<double>& value, const Outlook& o) {
        if (!value) return;
        hold(*value >= 0 && *value <= o.horizon_days + 1, figure,
             fmt::format("day {} is not in 0 to {}", *value, o.horizon_days));
    }
    void no_later(const std::string& figure, const std::optional<double>& sooner,
                  const std::optional<double>& later) {
        if (later) hold(sooner && *sooner <= *later, figure, fmt::format("one that comes by day {} comes after it", *later));
    }
    void rising(const std::string& figure, const DayQuantiles& q, const Outlook& o) {
        for (const auto& value : {q.p10, q.p50, q.p90}) day(figure, value, o);
        no_later(figure, q.p10, q.p50);
        no_later(figure, q.p50, q.p90);
    }

    void of(const BoxOutlook& b, const Outlook& o) {
        about_ = fmt::format("box “{}”", b.name);
        for (const double bytes : {b.label_bytes, b.raw_bytes, b.used_now_bytes}) not_negative("bytes", bytes);
        positive("usable", b.usable_bytes);
        positive("ceiling", b.ceiling_bytes);
        hold(b.ceiling_bytes <= b.usable_bytes, "ceiling", "above usable");
        hold(b.raw_bytes == 0 || b.usable_bytes <= b.raw_bytes, "usable", "above raw");
        rising("days until the ceiling", b.days_until_ceiling, o);
        rising("days until full", b.days_until_full, o);
        no_later("ceiling and full, p10", b.days_until_ceiling.p10, b.days_until_full.p10);
        no_later("ceiling and full, p50", b.days_until_ceiling.p50, b.days_until_full.p50);
        no_later("ceiling and full, p90", b.days_until_ceiling.p90, b.days_until_full.p90);
        share("chance of the ceiling", b.chance_of_ceiling_within_horizon);
        share("chance of full", b.chance_of_full_within_horizon);
        hold(b.chance_of_full_within_horizon <= b.chance_of_ceiling_within_horizon, "chance of full",
             "above that of the ceiling");
        for (std::size_t i = 0; i < b.ceiling_marks.size(); ++i) {
            day("ceiling mark", b.ceiling_marks[i], o);
            day("full mark", b.full_marks[i], o);
            no_later("ceiling and full mark", b.ceiling_marks[i], b.full_marks[i]);
            if (i == 0) continue;
            no_later("ceiling marks", b.ceiling_marks[i - 1], b.ceiling_marks[i]);
            no_later("full marks", b.full_marks[i - 1], b.full_marks[i]);
        }
        if (b.lead_time_days) not_negative("lead time", *b.lead_time_days);
        hold(b.order_by.has_value() == b.days_until_ceiling.p10.has_value(), "order by",
             "given without a tenth percentile of the ceiling, or the other way round");
        hold(!b.full_now || b.over_ceiling_now, "full now", "but not over its ceiling");
        hold(b.peak_used_bytes.size() == static_cast<std::size_t>(o.paths), "peaks", "not one a path");
        rising("peaks", b.peak_used_bytes);
        not_negative("usable needed", b.usable_needed_bytes);
        rising("days of the ceiling", b.ceiling_days);
        hold(std::abs(static_cast<double>(b.ceiling_days.size()) -
                      b.chance_of_ceiling_within_horizon * o.paths) < 0.5,
             "days of the ceiling", "not as many as its chance says");
        if (b.ladder_that_fits) {
            not_negative("ladder today", b.ladder_that_fits->today_days);
            if (b.ladder_that_fits->longest_days) not_negative("ladder that fits", *b.ladder_that_fits->longest_days);
        }
        of(b.fill, o);
        hold(b.fill.empty() || b.fill.front().usable_bytes == b.usable_bytes, "usable", "not that of the first day");
        if (b.capacity) hold(b.capacity->usable_bytes == b.usable_bytes, "usable", "not that of its drives");
        const Day* on = &o.as_of;
        for (const auto& c : b.changes) {
            hold(c.on > o.as_of && c.on >= *on, "changes", "not after as_of, in order");
            positive("usable after a change", c.usable_bytes);
            on = &c.on;
        }
        for (const auto& c : b.costs) {
            positive("cost of a block", c.charge);
            not_negative("bytes of a dataset", c.used_bytes);
            if (!c.better_block_bytes) continue;
            hold(*c.better_block_bytes > c.block_bytes && c.better_charge < c.charge, "better block", "not larger and cheaper");
        }
        if (b.better_shape) hold(b.better_shape->gain > 0, "better layout", "gains nothing");
        for (std::size_t i = 1; i < b.events.size(); ++i)
            hold(b.events[i - 1].on <= b.events[i].on, "events", "not in order");
    }

    void of(const std::vector<FillPoint>& fill, const Outlook& o) {
        hold(!fill.empty() && fill.front().date == o.as_of, "fill", "does not begin at as_of");
        if (fill.empty()) return;
        const auto span = static_cast<double>((fill.back().date - o.as_of).count());
        hold(std::abs(span - o.horizon_days) <= 1, "fill", "does not end at the horizon");
        const Day* before = nullptr;
        for (const auto& p : fill) {
            for (const auto& band : {p.used_bytes, p.live_bytes, p.held_bytes})
                rising("fill", {band.p10, band.p25, band.p50, band.p75, band.p90});
            not_negative("other bytes", p.other_bytes);
            not_negative("fill", p.fill);
            positive("usable then", p.usable_bytes);
            hold(std::abs(p.fill * p.usable_bytes - p.used_bytes.p50) <= slack * p.used_bytes.p50, "fill",
                 "not the median over usable");
            if (before) {
                const auto gap = (p.date - *before).count();
                hold(gap >= 1 && gap <= 7, "fill", fmt::format("two points {} days apart", gap));
            }
            before = &p.date;
        }
    }

    void of(const SendOutlook& s, const Outlook& o) {
        about_ = fmt::format("send “{}”", s.name);
        positive("goodput", s.goodput.bits_per_second);
        positive("line", s.line_bits_per_second);
        hold(s.goodput.bits_per_second <= s.line_bits_per_second * (1 + slack), "goodput", "above the line");
        for (const auto& step : s.goodput.chain) not_negative("goodput after " + step.name, step.bits_per_second);
        rising("bytes a run", s.bytes_per_run);
        rising("hours a run", s.hours_per_run);
        not_negative("open hours a run", s.open_hours_per_run);
        share("chance of missing the window", s.chance_of_missing_window);
        rising("recovery point", {s.recovery_point_hours.p50, s.recovery_point_hours.p90,
                                  s.recovery_point_hours.p95, s.recovery_point_max_hours});
        // From in_service, which may lie before as_of: the horizon bounds it not.
        for (const auto& value : {s.first_copy_days.p10, s.first_copy_days.p50, s.first_copy_days.p90})
            if (value) not_negative("first copy", *value);
        no_later("first copy", s.first_copy_days.p10, s.first_copy_days.p50);
        no_later("first copy", s.first_copy_days.p50, s.first_copy_days.p90);
        not_negative("first copy", s.first_copy_bytes);
        if (s.longest_outage_days) not_negative("longest outage", *s.longest_outage_days);
        rising("restore", s.restore_hours);
        day("days until behind", s.days_until_behind, o);
        day("days until the ladder is lost", s.days_until_ladder_lost, o);
        rising("open share", s.open_share_per_run);
        for (const auto& run : s.week) {
            rising("hours of a run of the week", {run.hours_p50, run.hours_p95});
            rising("bytes of a run of the week", {run.bytes_p50, run.bytes_p95});
        }
        double hour = 0;
        for (const auto& [from, to, part] : s.open_week) {
            hold(from >= hour && to > from && to <= 168, "open week", fmt::format("{} to {}", from, to));
            hold(part > 0 && part <= 1, "open week", fmt::format("a share of {}", part));
            hour = to;
        }
        for (const auto& w : s.weekdays) of(w);
        for (const auto& point : s.copy_age)
            rising("age of the copy", {point.p50_hours, point.p95_hours, point.max_hours});
        not_negative("times behind a year", s.backlog.times_a_year);
        rising("backlog", {s.backlog.bytes.p50, s.backlog.bytes.p90, s.backlog.bytes.p95, s.backlog.max_bytes});
        rising("hours to drain", {s.backlog.hours_to_drain.p50, s.backlog.hours_to_drain.p90,
                                  s.backlog.hours_to_drain.p95, s.backlog.max_hours_to_drain});
        for (const auto& e : s.events) {
            rising("bytes of an event", e.bytes);
            rising("hours of an event", e.hours);
            rising("nights of an event", e.nights);
            share("chance that an event fits", e.chance_of_fitting);
        }
        if (s.first_copy) {
            const auto& ways = *s.first_copy;
            for (const double value : {ways.bytes, ways.link_days.value_or(0), ways.link_in_step_days.value_or(0),
                                       ways.courier_copy_days, ways.courier_away_days,
                                       ways.courier_days.value_or(0), ways.break_even_bytes.value_or(0)})
                not_negative("ways of the first copy", value);
        }
        for (const auto& r : s.restore) {
            rising("bytes to restore", r.bytes);
            rising("hours to restore", r.link_hours);
            not_negative("hours to fetch", r.fetch_hours);
        }
        if (s.line_rate_needed) positive("line rate needed", *s.line_rate_needed);
    }

    void of(const WeekdayRuns& w) {
        hold(w.weekday >= 0 && w.weekday <= 6 && w.runs >= 1, "weekday", "not one with runs");
        rising("bytes of a weekday", w.bytes);
        rising("hours of a weekday", w.hours);
        rising("open share of a weekday", w.open_share);
        share("chance of missing the window on a weekday", w.chance_of_missing_window);
    }

    void of(const DatasetOutlook& d) {
        about_ = fmt::format("dataset “{}”", d.name);
        not_negative("live", d.live_bytes);
        positive("compression", d.compression_ratio);
        finite("growth", d.growth_bytes_per_day);
        not_negative("spread of growth", d.growth_spread_bytes_per_day);
        for (const double bytes : {d.written_1h, d.written_1d, d.written_7d, d.written_30d})
            not_negative("written", bytes);
        for (const auto& part : d.curve) {
            positive("lifetime", part.lifetime_days);
            not_negative("curve", part.bytes);
        }
        not_negative("observed", d.observed_days);
        double gap = 0;
        for (const auto& c : d.curve_band) {
            hold(c.gap_days > gap, "curve band", "gaps not rising");
            gap = c.gap_days;
            rising("curve band", {c.p10, c.p50, c.p90});
        }
        for (const auto& s : d.measured_steps) {
            positive("gap of a step", s.gap_days);
            hold(s.steps >= 1, "measured step", "of none");
            finite("freed", s.freed_bytes);
            hold(s.low_bytes <= s.high_bytes, "measured step", "p10 above p90");
        }
        hold(d.stretch >= 1 && std::isfinite(d.stretch), "stretch", "below 1");
        if (d.backtest) of(*d.backtest);
    }

    void of(const Backtest& b) {
        for (const double value : {b.live_error, b.freed_error}) not_negative("error of the backtest", value);
        for (const double value : {b.live_inside, b.freed_inside}) share("share inside the band", value);
        for (const auto& origin : b.origins)
            for (const auto* side : {&origin.live, &origin.freed})
                for (const auto& f : *side) {
                    positive("days ahead", f.days_ahead);
                    finite("came", f.came);
                    rising("backtest", {f.p10, f.p50, f.p90});
                }
    }

    void of(const OfferOutlook& x, const Outlook& o) {
        about_ = fmt::format("offer “{}”", x.name);
        positive("usable", x.usable_bytes);
        hold(x.ceiling_bytes > 0 && x.ceiling_bytes <= x.usable_bytes, "ceiling", "not in 0 to usable");
        rising("days until the ceiling", x.days_until_ceiling, o);
        share("chance of lasting", x.chance_of_lasting);
        share("chance to come too late", x.chance_too_late);
        for (const double sum : {x.price, x.energy_cost, x.replacement_cost, x.cost_per_usable_tib_year})
            not_negative("cost", sum);
        hold(std::abs(x.price + x.energy_cost + x.replacement_cost - x.cost_total) <= slack * x.cost_total, "cost",
             "not the sum of its parts");
        hold(x.purchases >= 1 && x.drives >= 0, "purchases", "none");
        hold(x.running_from >= o.as_of, "runs from", "before as_of");
        hold(!x.recommended || (x.holds && x.rank == 1), "recommended", "but does not hold, or is not the first");
        hold(!x.holds || (x.does_not_go_in.empty() && x.chance_of_lasting >= o.confidence - slack), "holds",
             "but does not go in, or does not last");
        int ahead = 0;
        for (const auto& other : o.offers) {
            if (other.box != x.box || &other == &x) continue;
            hold(other.rank != x.rank, "rank", "that of another offer");
            ahead += other.rank < x.rank;
            if (other.name != x.dominated_by) continue;
            hold(other.rank < x.rank && other.cost_total <= x.cost_total &&
                     other.chance_of_lasting >= x.chance_of_lasting, "dominated", "by one that is no better");
        }
        hold(ahead == x.rank - 1, "rank", "a place is left out");
        if (!x.rebuild) return;
        positive("hours of a rebuild", x.rebuild->hours);
        share("chance of another failure", x.rebuild->chance_of_another);
        hold(x.rebuild->others >= 1 && x.rebuild->spare_failures < x.rebuild->others, "rebuild",
             "stands as many failures as drives are left");
    }

    void of(const Driver& d, const Outlook& o) {
        about_ = fmt::format("driver “{}” of box “{}”", english(d.input), d.box);
        day("low", d.low_days, o);
        day("high", d.high_days, o);
        share("share of the variance", d.variance_share);
    }

    std::string about_;
};

}  // namespace

std::vector<std::string> broken_laws(const Outlook& outlook) {
    Laws laws;
    laws.of(outlook);
    return std::move(laws.broken);
}

}  // namespace ullage
