// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/solve.h"

#include "core/outlook/ladder_fit.h"
#include "core/outlook/line_rate.h"
#include "core/outlook/send_study.h"
#include "core/units/quantiles.h"

#include <fmt/format.h>
#include <algorithm>

namespace ullage {

namespace {

template <class T>
std::string names_of(const std::vector<T>& all) {
    std::vector<std::string> names;
    for (const auto& item : all) names.push_back("“" + item.name + "”");
    return fmt::format("{}", fmt::join(names, ", "));
}

class Solver {
public:
    Solver(const Site& site, const Evidence& evidence, const Settings& settings,
           const SolveQuestion& q, const Progress& progress)
        : site_(site), evidence_(evidence), settings_(settings), q_(q), progress_(progress) {
        if (settings.as_of) site_.as_of = *settings.as_of;
        answer_.what = q.what;
        answer_.site = site.name;
        answer_.as_of = site_.as_of;
        answer_.confidence = q.confidence.value_or(site.confidence);
    }

    tl::expected<SolveAnswer, ComputeError> run() {
        if (auto problems = faults(); !problems.empty())
            return tl::unexpected(ComputeError(std::move(problems)));
        tl::expected<void, ComputeError> done;
        switch (q_.what) {
            case SolveFor::link_rate:
                done = link_rates();
                break;
            case SolveFor::usable:
            case SolveFor::order_date:
                done = from_outlook();
                break;
            case SolveFor::ladder:
                done = ladders();
                break;
        }
        if (!done) return tl::unexpected(done.error());
        return answer_;
    }

private:
    Problems faults() const {
        Problems problems;
        const auto missing = [&](const auto& all, const std::string& name, const char* what,
                                 const char* at) {
            if (std::none_of(all.begin(), all.end(), [&](const auto& x) { return x.name == name; }))
                problems.push_back({at, fmt::format("there is no {} “{}”; known are {}", what, name,
                                                    names_of(all))});
        };
        if (q_.box) missing(site_.boxes, *q_.box, "box", "/boxes");
        if (q_.send) missing(site_.sends, *q_.send, "send", "/sends");
        if (const double c = answer_.confidence; !(c > 0.5 && c < 1))
            problems.push_back(
                {"", fmt::format("a confidence of {:g} is not above 0.5 and below 1", c)});
        if (q_.what == SolveFor::link_rate && site_.sends.empty())
            problems.push_back({"/sends", "there is no send, so no line has a rate to solve for"});
        if (q_.what != SolveFor::link_rate && q_.box)
            for (const auto& b : site_.boxes)
                if (b.name == *q_.box && !b.pool && !b.usable)
                    problems.push_back(
                        {"/boxes", fmt::format("“{}” has neither a pool nor a usable size, so it "
                                               "is not forecast",
                                               b.name)});
        return problems;
    }

    bool wanted(const Box& box) const {
        return (box.pool || box.usable) && (!q_.box || *q_.box == box.name);
    }

    tl::expected<void, ComputeError> link_rates() {
        const auto study = study_sends(site_, evidence_, settings_, progress_);
        if (!study) return tl::unexpected(study.error());
        const auto context = study->context();
        for (std::size_t l = 0; l < site_.links.size(); ++l) {
            LinkRateAnswer a;
            a.link = site_.links[l].name;
            std::vector<std::size_t> sends;
            for (std::size_t s = 0; s < site_.sends.size(); ++s) {
                const auto& send = site_.sends[s];
                if (send.over != a.link || (q_.send && *q_.send != send.name) ||
                    (q_.box && *q_.box != send.to))
                    continue;
                sends.push_back(s);
                a.sends.push_back(send.name);
            }
            if (sends.empty()) continue;
            a.today_bits_per_second = site_.links[l].up.value.value;
            a.needed_bits_per_second =
                LineRateSearch(context, static_cast<int>(l), answer_.confidence, study->plan,
                               study->paths, settings_.threads, progress_.stop)
                    .needed(sends);
            if (progress_.stop.stop_requested()) return tl::unexpected(ComputeError(Cancelled{}));
            if (a.needed_bits_per_second) {
                a.enough_today = *a.needed_bits_per_second <= a.today_bits_per_second;
                const auto sold = rounded_up(BitsPerSecond{*a.needed_bits_per_second}, q_.sold);
                if (sold) a.sold_bits_per_second = sold->value;
            } else {
                const auto& g = study->plans[sends.front()].goodput;
                a.other_limit = g.bound_by == Limit::rate ? g.next_limit : g.bound_by;
            }
            answer_.link_rates.push_back(std::move(a));
        }
        return {};
    }

    tl::expected<void, ComputeError> from_outlook() {
        Settings settings = settings_;
        settings.judged = false;  // no answer tells of the backtests, nor of what else would do
        settings.searched = false;
        const auto outlook = compute(site_, evidence_, settings, progress_);
        if (!outlook) return tl::unexpected(outlook.error());
        for (const auto& b : outlook->boxes) {
            if (q_.box && *q_.box != b.name) continue;
            const double ceiling = b.ceiling_bytes / b.usable_bytes;
            if (q_.what == SolveFor::usable) {
                answer_.usable.push_back(
                    {b.name, b.usable_bytes,
                     quantile_of_sorted(b.peak_used_bytes, answer_.confidence) / ceiling, ceiling});
                continue;
            }
            OrderDateAnswer a;
            a.box = b.name;
            a.lead_time_days = b.lead_time_days.value_or(0);
            a.ceiling_day = inverse_distribution(b.ceiling_days, 1 - answer_.confidence,
                                                 static_cast<std::size_t>(outlook->paths));
            if (a.ceiling_day) a.order_by = add_days(site_.as_of, *a.ceiling_day - a.lead_time_days);
            a.full_day = b.days_until_full.p50;
            a.chance_of_full = b.chance_of_full_within_horizon;
            answer_.order_dates.push_back(std::move(a));
        }
        return {};
    }

    tl::expected<void, ComputeError> ladders() {
        const auto study = study_sends(site_, evidence_, settings_, progress_);
        if (!study) return tl::unexpected(study.error());
        LadderFitSettings fit;
        fit.confidence = answer_.confidence;
        fit.paths = std::min(settings_.paths, fit.paths);
        fit.seed = settings_.seed;
        fit.threads = settings_.threads;
        fit.stop = progress_.stop;
        for (std::size_t b = 0; b < site_.boxes.size(); ++b) {
            const auto& box = site_.boxes[b];
            if (progress_.report) progress_.report(double(b) / double(site_.boxes.size()));
            if (!wanted(box)) continue;
            const auto found = longest_ladder(study->context(), b, fit);
            if (progress_.stop.stop_requested()) return tl::unexpected(ComputeError(Cancelled{}));
            if (!found) continue;  // nothing is kept there by a ladder
            LadderAnswer a;
            a.box = box.name;
            a.today_days = found->today_days;
            a.longest_days = found->longest_days;
            a.as_long_as_the_horizon = found->as_long_as_the_horizon;
            for (const auto& [dataset, ladder] : found->ladders)
                a.ladders.push_back({dataset, ladder});
            std::vector<std::size_t> sends;
            for (std::size_t s = 0; s < site_.sends.size(); ++s)
                if (site_.sends[s].to == box.name) sends.push_back(s);
            a.sends_fit =
                sends.empty() || carries(study->context(), sends, answer_.confidence, study->plan,
                                         study->paths, settings_.threads, progress_.stop);
            answer_.ladders.push_back(std::move(a));
        }
        return {};
    }

    Site site_;
    const Evidence& evidence_;
    const Settings& settings_;
    const SolveQuestion& q_;
    const Progress& progress_;
    SolveAnswer answer_;
};

}  // namespace

std::string to_string(SolveFor what) {
    switch (what) {
        case SolveFor::link_rate:
            return "link-rate";
        case SolveFor::usable:
            return "usable";
        case SolveFor::ladder:
            return "ladder";
        case SolveFor::order_date:
            return "order-date";
    }
    return {};
}

tl::expected<SolveAnswer, ComputeError> solve(const Site& site, const Evidence& evidence,
                                              const Settings& settings,
                                              const SolveQuestion& question,
                                              const Progress& progress) {
    return Solver(site, evidence, settings, question, progress).run();
}

}  // namespace ullage
