// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/measure/doubts.h"

#include "core/measure/measure.h"

#include <algorithm>

namespace ullage {

namespace {

constexpr double least_span_days = 14;    // two weeks: the fewest that growth can vary between
constexpr double longest_gap_days = 400;  // a year's rung and a bit
constexpr double unique_slack = 1.05;     // two sizes of two or three digits each
constexpr double step_slack = 0.01;       // of live
constexpr double written_whole = 0.98;    // of live
constexpr double block = 4096;            // bytes: rounding up to whole blocks

const Instant first_credible = Day(std::chrono::year(2000) / 1 / 1);
const Instant last_credible = Day(std::chrono::year(2100) / 1 / 1);

bool credible(Instant t) { return t >= first_credible && t < last_credible; }

class Doubts {
public:
    explicit Doubts(const std::vector<Snapshot>& list) : list_(list) {}

    std::vector<Message> all() {
        dates();
        gaps();
        span();
        growth_without_writing();
        unique_above_written();
        written_whole_again();
        return std::move(said_);
    }

private:
    void dates() {
        const auto wrong = [](const Snapshot& s) { return !credible(s.taken); };
        const auto count =
            static_cast<std::size_t>(std::count_if(list_.begin(), list_.end(), wrong));
        if (count == 0) return;
        const auto& s = *std::find_if(list_.begin(), list_.end(), wrong);
        const auto lines = list_.size();
        said_.push_back(message_n(
            "{0} snapshot is dated outside the years 2000 to 2100 (“{2}”: {3}): was a clock not set? Gaps and rates that "
            "rest on such a date are wrong; leave the lines out or mend their times",
            "{} of {} snapshots are dated outside the years 2000 to 2100 (“{}”: {}): was a clock not set? Gaps and rates "
            "that rest on such a date are wrong; leave the lines out or mend their times",
            static_cast<long>(count), count, lines, s.name, s.taken));
    }

    void gaps() {
        std::size_t count = 0;
        std::size_t longest = 0;
        double longest_days = 0;
        for (std::size_t i = 1; i < list_.size(); ++i) {
            const double gap = days_between(list_[i - 1].taken, list_[i].taken);
            if (gap <= longest_gap_days || !credible(list_[i - 1].taken) || !credible(list_[i].taken)) continue;
            ++count;
            if (gap <= longest_days) continue;
            longest = i;
            longest_days = gap;
        }
        if (count == 0) return;
        const auto& before = list_[longest - 1].name;
        const auto& after = list_[longest].name;
        said_.push_back(
            count == 1 ? message("nothing between “{}” and “{}”, {} apart: was a clock wrong, or are lines missing? "
                                 "Growth and turnover are averaged over such a gap",
                                 before, after, days(longest_days))
                       : message("nothing between “{}” and “{}”, {} apart (the longest of {} such gaps): was a clock "
                                 "wrong, or are lines missing? Growth and turnover are averaged over such a gap",
                                 before, after, days(longest_days), count));
    }

    void span() {
        const double covered = days_between(list_.front().taken, list_.back().taken);
        if (covered < least_span_days)
            said_.push_back(message("the listing covers {}, which is too short to tell how much growth varies from week "
                                    "to week",
                                    days(covered)));
    }

    void growth_without_writing() {
        std::size_t clear = 0;
        std::size_t any = 0;
        for (std::size_t i = 1; i < list_.size(); ++i) {
            const double freed = freed_between(list_[i - 1], list_[i]);
            if (freed < -step_slack * list_[i].live_bytes) ++clear;
            if (freed < -block) ++any;
        }
        if (clear == 0 && 2 * any <= list_.size() - 1) return;
        const std::size_t count = std::max(clear, any);
        said_.push_back(message_n(
            "{0} snapshot grew by more than was written into it: the columns may be of different datasets or in "
            "different units, or some lines may be missing; what such a step freed counts as nothing",
            "{} of {} snapshots grew by more than was written into them: the columns may be of different datasets or in "
            "different units, or some lines may be missing; what such a step freed counts as nothing",
            static_cast<long>(count), count, list_.size() - 1));
    }

    void unique_above_written() {
        std::size_t count = 0;
        const Snapshot* first = nullptr;
        for (std::size_t i = 1; i < list_.size(); ++i) {
            const auto& s = list_[i];
            if (s.unique_bytes <= unique_slack * s.written_bytes + block) continue;
            if (++count == 1) first = &s;
        }
        if (count == 0) return;
        said_.push_back(message_n(
            "{0} snapshot alone holds more than was written into it (“{2}”: {3} of {4} written): the columns may be "
            "swapped or in different units",
            "{} of {} snapshots alone hold more than was written into them (“{}”: {} of {} written): the columns may be "
            "swapped or in different units",
            static_cast<long>(count), count, list_.size() - 1, first->name, Bytes{first->unique_bytes},
            Bytes{first->written_bytes}));
    }

    void written_whole_again() {
        const auto whole = [](const Snapshot& s) {
            return s.live_bytes > 0 && s.written_bytes >= written_whole * s.live_bytes;
        };
        if (whole(list_.front())) return;
        const auto found = std::find_if(list_.begin() + 1, list_.end(), whole);
        if (found == list_.end()) return;
        said_.push_back(message(
            "“{}” was written whole ({} of {} live), as the oldest snapshot of a dataset is, but “{}” is older: either "
            "all was written anew then, or the times run backwards",
            found->name, Bytes{found->written_bytes}, Bytes{found->live_bytes}, list_.front().name));
    }

    const std::vector<Snapshot>& list_;
    std::vector<Message> said_;
};

}  // namespace

std::vector<Message> doubts_of(const Listing& listing) {
    return Doubts(listing.snapshots).all();
}

}  // namespace ullage
