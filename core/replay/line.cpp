// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/replay/line.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numeric>

namespace ullage {

namespace {

constexpr double bit_slack = 1e-3;      // of a bit: what rounding of event times may leave over
constexpr double slack_seconds = 1e-6;  // times of 1e9 s resolve 1e-7 s

/// What `now` resolves counts too: late in the calendar that is more than the slack, and a transfer with less
/// to go would never end.
bool is_done(const Transfer& t, double now) {
    const double resolved = 4 * std::numeric_limits<double>::epsilon() * std::abs(now);
    return t.bits_left <= bit_slack + t.rate * std::max(slack_seconds, resolved);
}

}  // namespace

Instant as_instant(double s) {
    return Instant(std::chrono::seconds(static_cast<std::int64_t>(std::ceil(s - slack_seconds))));
}

double Line::share_at(double t) {
    const auto& open = link_->open;
    while (stretch_ < open.size() && as_seconds(open[stretch_].to) <= t) ++stretch_;
    if (stretch_ >= open.size()) {
        divided_until_ = never_s;
        return 0;
    }
    const double from = as_seconds(open[stretch_].from);
    divided_until_ = from > t ? from : as_seconds(open[stretch_].to);
    return from > t ? 0 : open[stretch_].share;
}

void Line::divide(double now) {
    if (divided_ && now < divided_until_) return;
    divided_ = true;
    double left = link_->line_bits_per_second * share_at(now);
    if (link_->sharing == Sharing::in_turn) {
        for (auto& t : transfers_) {
            t.rate = std::min(left, t.own_bits_per_second);
            left = 0;
        }
        return;
    }
    if (transfers_.size() == 1) {
        transfers_.front().rate = std::min(left, transfers_.front().own_bits_per_second);
        return;
    }
    if (!ordered_) set_order();
    for (std::size_t i = 0; i < by_need_.size(); ++i) {
        auto& t = transfers_[by_need_[i]];
        const double even = left / static_cast<double>(by_need_.size() - i);
        t.rate = std::min(even, t.own_bits_per_second);
        left -= t.rate;
    }
}

void Line::begin(const Transfer& transfer) {
    transfers_.push_back(transfer);
    note_change();
}

void Line::note_change() {
    divided_ = false;
    ordered_ = false;
}

void Line::set_order() {
    ordered_ = true;
    by_need_.resize(transfers_.size());
    std::iota(by_need_.begin(), by_need_.end(), 0u);
    std::sort(by_need_.begin(), by_need_.end(), [&](std::size_t i, std::size_t j) {
        const Transfer& a = transfers_[i];
        const Transfer& b = transfers_[j];
        return a.own_bits_per_second != b.own_bits_per_second ? a.own_bits_per_second < b.own_bits_per_second
                                                              : a.id < b.id;
    });
}

double Line::next_event_of_some(double now) {
    divide(now);
    double next = divided_until_;
    for (const auto& t : transfers_)
        if (t.rate > 0) next = std::min(next, now + t.bits_left / t.rate);
    return next;
}

void Line::carry(double now, double then) {
    divide(now);
    const double seconds = then - now;
    for (auto& t : transfers_) {
        if (t.rate <= 0) continue;
        t.bits_left -= t.rate * seconds;
        t.busy_seconds += seconds;
        carried_bits_ += t.rate * seconds;
    }
    for (std::size_t i = 0; i < transfers_.size();) {
        if (!is_done(transfers_[i], then)) {
            ++i;
            continue;
        }
        done_.push_back(transfers_[i]);
        transfers_.erase(transfers_.begin() + static_cast<std::ptrdiff_t>(i));
    }
    if (!done_.empty()) note_change();
}

}  // namespace ullage
