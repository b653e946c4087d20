// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/growth.h"

#include "core/units/calendar.h"
#include "core/units/lanes.h"
#include "core/units/quantiles.h"
#include "core/units/units.h"

#include <algorithm>
#include <cmath>
#include <span>

namespace ullage {

namespace {

constexpr double block_days = 7;
constexpr double chunk_days = 27;         // that share a weight, less a day for rounding
constexpr double recent_days = 60;        // kind 1
constexpr double recent_half_life = 30;   // days
constexpr std::size_t least_recent = 4;   // blocks, for kind 1 to be its own
constexpr double least_walk = 0.05;       // of the log rate, per √week
constexpr double most_walk = 0.25;
constexpr double walk_returns_days = 180;
constexpr std::size_t least_walk_blocks = 16;
constexpr double step_deviations = 6;     // scaled median absolute deviations
constexpr double step_share = 0.01;       // of live
constexpr double deviation_scale = 1.4826;

constexpr double pooled_rate = 0.10;      // of live a year
constexpr double pooled_spread = 0.12;
constexpr double rare_steps = 0.03;       // of live per √year

constexpr double near_days = 30;          // ahead, that the stretch is judged at
constexpr double far_days = 90;
constexpr std::size_t least_points = 5;   // of a history to be judged
constexpr double first_judged_days = 28;
constexpr int judged_futures = 120;
constexpr int most_judged = 24;
constexpr int least_judged = 3;
constexpr double unjudged_stretch = 1.3;
constexpr double most_stretch = 3;
constexpr double half_width = 1.2815515655446004;  // of an 80 % interval, in standard deviations
constexpr double most_error = 16;         // squared, of one date
constexpr double prior_dates = 4;         // at exactly the promised width

constexpr int middle_futures = 256;
constexpr std::uint64_t middle_seed = 1;
constexpr std::uint32_t middle_stream = 0x4d000000u;
constexpr std::uint32_t judge_stream = 0x4a000000u;

std::vector<GrowthBlock> blocks_of(const std::vector<LivePoint>& points) {
    std::vector<GrowthBlock> blocks;
    std::size_t end = points.size() - 1;
    for (std::size_t i = end; i-- > 0;) {
        const double length = points[end].day - points[i].day;
        if (length < block_days - 1e-6 && i > 0) continue;
        // What is left over at the old end counts when it is half a block, or all there is.
        if (length < block_days / 2 && !blocks.empty()) break;
        if (!(length > 0)) continue;
        GrowthBlock block;
        block.days = length;
        block.bytes = points[end].bytes - points[i].bytes;
        block.age = points.back().day - (points[i].day + points[end].day) / 2;
        for (std::size_t j = i; j <= end; ++j)
            block.inside.push_back({points[j].day - points[i].day, points[j].bytes - points[i].bytes});
        blocks.push_back(std::move(block));
        end = i;
    }
    std::reverse(blocks.begin(), blocks.end());
    return blocks;
}

void mark_steps(std::vector<GrowthBlock>& blocks, double live) {
    std::vector<double> rates;
    for (const auto& b : blocks) rates.push_back(b.bytes / b.days);
    const double middle = quantile_of(rates, 0.5);
    const auto off = [&](const GrowthBlock& b) { return b.bytes - middle * b.days; };
    std::vector<double> sizes;
    for (const auto& b : blocks) sizes.push_back(std::abs(off(b)) / std::sqrt(b.days));
    const double deviation = deviation_scale * quantile_of(sizes, 0.5);
    int found = 0;
    for (auto& b : blocks) {
        const double size = std::abs(off(b));
        b.step = size > step_deviations * deviation * std::sqrt(b.days) && size > step_share * live;
        if (b.step) ++found;
    }
    for (auto& b : blocks)
        if (b.step) b.weight = static_cast<double>(found) / (found + 1);
}

/// How fast the rate wanders: what the four-week means differ by beyond their noise.
double walk_of(const std::vector<GrowthBlock>& blocks) {
    if (blocks.size() < least_walk_blocks) return least_walk;
    for (const auto& b : blocks)
        if (std::abs(b.days - block_days) > 1) return least_walk;
    double mean = 0;
    for (const auto& b : blocks) mean += b.bytes / double(blocks.size());
    double variance = 0;
    for (const auto& b : blocks) variance += (b.bytes - mean) * (b.bytes - mean) / double(blocks.size());
    if (mean == 0) return least_walk;
    std::vector<double> fours;
    for (std::size_t i = blocks.size() % 4; i + 4 <= blocks.size(); i += 4)
        fours.push_back((blocks[i].bytes + blocks[i + 1].bytes + blocks[i + 2].bytes + blocks[i + 3].bytes) / 4);
    double sum = 0;
    double squares = 0;
    const auto n = static_cast<double>(fours.size() - 1);
    for (std::size_t i = 1; i < fours.size(); ++i) {
        const double d = fours[i] - fours[i - 1];
        sum += d;
        squares += d * d;
    }
    const double between = squares / n - (sum / n) * (sum / n) - 2 * variance / 4;
    const double walk = std::sqrt(std::max(between, 0.0) / 4) / std::abs(mean);
    return std::clamp(walk, least_walk, most_walk);
}

/// Everything but the stretch.
GrowthModel unstretched(const std::vector<LivePoint>& points) {
    GrowthModel m;
    const double live = points.empty() ? 0 : std::max(points.back().bytes, 0.0);
    m.pooled_bytes_per_day = pooled_rate * live / days_per_year;
    double spread = pooled_spread * live / days_per_year;
    if (points.size() >= 2) m.blocks = blocks_of(points);
    if (m.blocks.empty()) {
        m.pull = 1;
        m.pooled_spread = spread;
        m.stretch_30 = m.stretch_90 = unjudged_stretch;
        return m;
    }
    mark_steps(m.blocks, live);
    m.never_fell = true;
    for (std::size_t i = 1; i < points.size(); ++i)
        if (points[i].bytes < points[i - 1].bytes) m.never_fell = false;

    double bytes = 0;
    double days = 0;
    double weights = 0;
    for (const auto& b : m.blocks) {
        bytes += b.weight * b.bytes;
        days += b.weight * b.days;
        weights += b.weight;
    }
    m.bytes_per_day = bytes / days;
    const auto n = static_cast<double>(m.blocks.size());
    double variance = m.bytes_per_day * m.bytes_per_day * days;  // of one block, which shows none itself
    if (n > 1) {
        variance = 0;
        for (const auto& b : m.blocks) {
            const double off = b.bytes - m.bytes_per_day * b.days;
            variance += b.weight * off * off / b.days;
        }
        variance *= n / ((n - 1) * weights);
    }
    m.noise_per_root_day = std::sqrt(variance);
    m.standard_error = std::sqrt(variance / days);
    m.walk_per_root_week = walk_of(m.blocks);

    // The error of the error, for few blocks, and steps too rare to have been seen.
    const double error = variance / days * (1 + 2 / std::max(n - 1, 1.0)) +
                         rare_steps * rare_steps * live * live / (days * days_per_year);
    spread = std::max(spread, std::abs(m.bytes_per_day));
    const double both = error + spread * spread;
    m.pull = both > 0 ? error / both : 0;
    m.pooled_spread = spread;
    return m;
}

/// Median and 10 % and 90 % of the futures of a model at one day.
struct Reading {
    double low, middle, high;
};

Reading reading_of(const GrowthModel& m, double ahead, std::uint32_t origin) {
    const std::vector<double> days = {ahead};
    std::vector<double> all;
    std::vector<double> added;
    for (int i = 0; i < judged_futures; ++i) {
        RandomSequence random(middle_seed, judge_stream + origin, static_cast<std::uint32_t>(i));
        draw_growth(m, i % growth_kinds, {}, random, days, added);
        all.push_back(added.front());
    }
    return {quantile_of(all, 0.1), quantile_of(all, 0.5), quantile_of(all, 0.9)};
}

/// How much too narrow the model was, `ahead` days ahead, at earlier dates of the history.
struct Judgement {
    double stretch = unjudged_stretch;
    int dates = 0;
};

Judgement judged(const std::vector<LivePoint>& points, double ahead_days, double expected) {
    const double first = points.front().day;
    const double last = points.back().day;
    const double from = first + std::max(first_judged_days, (last - first) / 3);
    const double to = last - ahead_days;
    double every = std::max(block_days, ahead_days / 8);
    every = std::max(every, (to - from) / most_judged);
    Judgement result;
    double errors = 0;
    for (double origin = from; origin <= to + 1e-6; origin += every) {
        const auto after = std::upper_bound(points.begin(), points.end(), origin + 1e-6,
                                            [](double d, const LivePoint& p) { return d < p.day; });
        const std::vector<LivePoint> then(points.begin(), after);
        if (then.size() < least_points) continue;
        const double ahead = origin + ahead_days - then.back().day;
        const auto said = reading_of(unstretched(then), ahead, static_cast<std::uint32_t>(result.dates));
        const double came = live_at(points, origin + ahead_days) - then.back().bytes;
        const double width = came > said.middle ? said.high - said.middle : said.middle - said.low;
        const double z = half_width * (came - said.middle) / std::max(width, 1e-9 * (1 + std::abs(came)));
        errors += std::min(z * z, most_error);
        ++result.dates;
    }
    if (result.dates >= least_judged)
        result.stretch = std::clamp(std::sqrt((errors + prior_dates * expected * expected) / (result.dates + prior_dates)), 1.0,
                                    most_stretch);
    return result;
}

double inside_at(const GrowthBlock& b, double day) { return live_at(b.inside, day); }

/// The numbers a future is drawn by: first those given, then random ones.
class GrowthNumbers {
public:
    GrowthNumbers(std::span<const std::uint32_t> given, RandomSequence& random) : given_(given), random_(random) {}

    double normal() {
        return next_ < given_.size() ? static_cast<double>(normal_of(given_[next_++])) : random_.normal();
    }

    /// Mean 1; 0 instead of a given one where it does not `matter`.
    double weight(bool matters) {
        if (!given_.empty() && !matters) return 0;
        constexpr double part = 1.0 / 4294967296.0;  // 2^-32
        return next_ < given_.size() ? -std::log((static_cast<double>(given_[next_++]) + 0.5) * part)
                                     : random_.exponential();
    }

private:
    std::span<const std::uint32_t> given_;
    RandomSequence& random_;
    std::size_t next_ = 0;
};

/// Blocks drawn one after another until the last day is passed. Gives the rate that the weights stand for.
double draw_blocks(const GrowthModel& m, int kind, GrowthNumbers& numbers, RandomSequence& random,
                   const std::vector<double>& days, std::vector<double>& added) {
    thread_local std::vector<double> upto;
    upto.clear();
    const auto recent = static_cast<std::size_t>(
        std::count_if(m.blocks.begin(), m.blocks.end(),
                      [](const GrowthBlock& b) { return b.age <= recent_days; }));
    const bool newer = (kind == 1 || kind == 2) && recent >= least_recent;
    double sum = 0;
    double chunk = 0;
    double left = 0;  // days of the chunk to come
    double bytes = 0;
    double span = 0;
    for (const auto& b : m.blocks) {
        if (left <= 0) {
            chunk = numbers.weight(!newer);
            left = chunk_days;
        }
        left -= b.days;
        // A block's share of the time is weight × days, so it is drawn by its weight alone.
        double w = b.weight * (newer ? numbers.weight(b.age <= recent_days) : chunk);
        if (newer) w = b.age <= recent_days ? w * std::exp2(-b.age / recent_half_life) : 0;
        upto.push_back(sum += w);
        bytes += w * b.bytes;
        span += w * b.days;
    }
    double walk = 0;
    double start = 0;
    double level = 0;
    std::size_t next = 0;
    while (next < days.size()) {
        const auto at = std::lower_bound(upto.begin(), upto.end(), random.uniform() * sum);
        const auto& b = m.blocks[std::min<std::size_t>(std::size_t(at - upto.begin()), m.blocks.size() - 1)];
        double factor = 1;
        if (kind == 2) {
            const double keep = std::exp(-b.days / walk_returns_days);
            const double weekly = std::exp(-block_days / walk_returns_days);
            const double rest = m.walk_per_root_week * m.walk_per_root_week / (1 - weekly * weekly);
            walk = keep * walk + std::sqrt(rest * (1 - keep * keep)) * random.normal();
            const double gone = std::exp(-2 * (start + b.days) / walk_returns_days);
            factor = std::exp(walk - rest * (1 - gone) / 2);  // mean 1
        }
        for (; next < days.size() && days[next] <= start + b.days; ++next)
            added[next] = level + factor * inside_at(b, days[next] - start);
        start += b.days;
        level += factor * b.bytes;
    }
    return bytes / span;
}

/// Gives the drift.
double draw_walk(const GrowthModel& m, GrowthNumbers& numbers, RandomSequence& random,
                 const std::vector<double>& days, std::vector<double>& added) {
    // Student's t for the drift while there are few blocks to know the noise from.
    constexpr std::size_t few = 12;
    const std::size_t freedom = m.blocks.size() > 1 ? m.blocks.size() - 1 : 1;
    double z = numbers.normal();
    if (freedom <= few) {
        double squares = 0;
        for (std::size_t i = 0; i < freedom; ++i) {
            const double x = random.normal();
            squares += x * x;
        }
        z /= std::sqrt(std::max(squares / double(freedom), 0.05));
    }
    const double rate = m.bytes_per_day + m.standard_error * z;
    double before = 0;
    double level = 0;
    for (std::size_t i = 0; i < days.size(); ++i) {
        const double dt = days[i] - before;
        level += rate * dt;
        if (dt > 0) level += m.noise_per_root_day * std::sqrt(dt) * random.normal();
        added[i] = level;
        before = days[i];
    }
    return rate;
}

}  // namespace

double live_at(const std::vector<LivePoint>& points, double day) {
    if (day <= points.front().day) return points.front().bytes;
    if (day >= points.back().day) return points.back().bytes;
    const auto next = std::upper_bound(points.begin(), points.end(), day,
                                       [](double d, const LivePoint& p) { return d < p.day; });
    const auto& b = *next;
    const auto& a = *(next - 1);
    return a.bytes + (b.bytes - a.bytes) * (day - a.day) / (b.day - a.day);
}

double theil_sen_slope(const std::vector<LivePoint>& points) {
    std::vector<double> slopes;
    for (std::size_t i = 0; i < points.size(); ++i)
        for (std::size_t j = i + 1; j < points.size(); ++j)
            if (points[j].day > points[i].day)
                slopes.push_back((points[j].bytes - points[i].bytes) / (points[j].day - points[i].day));
    return quantile_of(slopes, 0.5);
}

GrowthModel GrowthModel::scaled(double factor) const {
    GrowthModel m = *this;
    for (auto& b : m.blocks) {
        b.bytes *= factor;
        for (auto& p : b.inside) p.bytes *= factor;
    }
    for (double* bytes : {&m.bytes_per_day, &m.standard_error, &m.noise_per_root_day,
                          &m.pooled_bytes_per_day, &m.pooled_spread})
        *bytes *= factor;
    return m;
}

double GrowthModel::middle_rate() const {
    return bytes_per_day + pull * (pooled_bytes_per_day - bytes_per_day);
}

double GrowthModel::rate_spread() const { return stretch_90 * std::hypot((1 - pull) * standard_error, pull * pooled_spread); }

double GrowthModel::stretch(double days_ahead) const {
    if (days_ahead <= near_days) return stretch_30;
    const double part = std::min(std::log(days_ahead / near_days) / std::log(far_days / near_days), 1.0);
    return stretch_30 + part * (stretch_90 - stretch_30);
}

GrowthModel growth_model(const std::vector<LivePoint>& points) {
    GrowthModel m = unstretched(points);
    if (m.blocks.empty()) return m;
    const auto near = judged(points, near_days, 1);
    const auto far = judged(points, far_days, near.stretch);
    m.stretch_30 = near.stretch;
    m.stretch_90 = far.dates < least_judged ? near.stretch : std::max(near.stretch, far.stretch);
    m.judged = near.dates;
    return m;
}

void draw_growth(const GrowthModel& m, int kind, std::span<const std::uint32_t> given, RandomSequence& random,
                 const std::vector<double>& days, std::vector<double>& added) {
    added.assign(days.size(), 0);
    GrowthNumbers numbers(given, random);
    const double pooled = m.pooled_bytes_per_day + m.pooled_spread * numbers.normal();
    double own = 0;
    if (!m.blocks.empty())
        own = kind == 3 ? draw_walk(m, numbers, random, days, added)
                        : draw_blocks(m, kind, numbers, random, days, added);
    // The mean of two rates, each with its error, by their weights.
    for (std::size_t i = 0; i < days.size(); ++i) added[i] += m.pull * (pooled - own) * days[i];
}

std::vector<std::vector<double>> growth_quantiles(const GrowthModel& m, const std::vector<double>& days,
                                                  const std::vector<double>& probabilities) {
    std::vector<std::vector<double>> at(days.size());
    std::vector<double> added;
    for (int i = 0; i < middle_futures; ++i) {
        RandomSequence random(middle_seed, middle_stream, static_cast<std::uint32_t>(i));
        draw_growth(m, i % growth_kinds, {}, random, days, added);
        for (std::size_t d = 0; d < days.size(); ++d) at[d].push_back(added[d]);
    }
    std::vector<std::vector<double>> rows(probabilities.size());
    for (auto& values : at)
        for (std::size_t p = 0; p < probabilities.size(); ++p)
            rows[p].push_back(quantile_of(values, probabilities[p]));
    return rows;
}

std::vector<double> middle_growth(const GrowthModel& m, const std::vector<double>& days) {
    return growth_quantiles(m, days, {0.5}).front();
}

void stretch_growth(const GrowthModel& m, const std::vector<double>& days, const std::vector<double>& middle,
                    std::vector<double>& added) {
    double most = 0;
    for (std::size_t i = 0; i < added.size(); ++i) {
        added[i] = middle[i] + m.stretch(days[i]) * (added[i] - middle[i]);
        if (m.never_fell) added[i] = most = std::max(most, added[i]);
    }
}

}  // namespace ullage
