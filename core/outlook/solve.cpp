// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/solve.h"

#include "core/outlook/line_rate.h"
#include "core/outlook/quantiles.h"
#include "core/outlook/send_study.h"
#include "core/site/site_json.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <limits>

namespace ullage {

namespace {

constexpr int ladder_paths = 400;  // of each try; a quantile of the fill needs no more

template <class T>
std::string names_of(const std::vector<T>& all) {
    std::vector<std::string> names;
    for (const auto& item : all) names.push_back("“" + item.name + "”");
    return fmt::format("{}", fmt::join(names, ", "));
}

Rung* longest_rung(Ladder& ladder) {
    const auto at = std::max_element(ladder.begin(), ladder.end(), [](const Rung& a, const Rung& b) {
        return a.lasts() < b.lasts();
    });
    return at == ladder.end() ? nullptr : &*at;
}

double kept_days(const Ladder& ladder) {
    double days = 0;
    for (const auto& rung : ladder) days = std::max(days, in_days(rung.lasts()));
    return days;
}

void keep_for(Rung& rung, double days) {
    rung.keep_for.reset();
    rung.count = std::max(1, static_cast<int>(std::floor(days / in_days(rung.every.value.length()) + 1e-9)));
}

/// The longest rung keeps for `days`, and no other rung longer than that.
Ladder stretched(Ladder ladder, double days) {
    Rung* longest = longest_rung(ladder);
    for (auto& rung : ladder)
        if (&rung == longest || in_days(rung.lasts()) > days) keep_for(rung, days);
    return ladder;
}

std::string ladder_text(const Ladder& ladder) {
    std::string text;
    for (const auto& rung : ladder)
        text += fmt::format("{}{} × {}", text.empty() ? "" : ", ", to_text(rung.every.value),
                            rung.count ? *rung.count
                                       : static_cast<int>(rung.lasts() / rung.every.value.length()));
    return text;
}

class Solver {
public:
    Solver(const Site& site, const Evidence& evidence, const Settings& settings, const SolveQuestion& q,
           const Progress& progress)
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
            case SolveFor::link_rate: done = link_rates(); break;
            case SolveFor::usable:
            case SolveFor::order_date: done = from_outlook(); break;
            case SolveFor::ladder: done = ladders(); break;
        }
        if (!done) return tl::unexpected(done.error());
        return answer_;
    }

private:
    Problems faults() const {
        Problems problems;
        const auto missing = [&](const auto& all, const std::string& name, const char* what, const char* at) {
            if (std::none_of(all.begin(), all.end(), [&](const auto& x) { return x.name == name; }))
                problems.push_back({at, fmt::format("there is no {} “{}”; known are {}", what, name, names_of(all))});
        };
        if (q_.box) missing(site_.boxes, *q_.box, "box", "/boxes");
        if (q_.send) missing(site_.sends, *q_.send, "send", "/sends");
        if (const double c = answer_.confidence; !(c > 0.5 && c < 1))
            problems.push_back({"", fmt::format("a confidence of {:g} is not above 0.5 and below 1", c)});
        if (q_.what == SolveFor::link_rate && site_.sends.empty())
            problems.push_back({"/sends", "there is no send, so no line has a rate to solve for"});
        if (q_.what != SolveFor::link_rate && q_.box)
            for (const auto& b : site_.boxes)
                if (b.name == *q_.box && !b.pool && !b.usable)
                    problems.push_back({"/boxes", fmt::format("“{}” has neither a pool nor a usable size, so it "
                                                              "is not forecast", b.name)});
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
                if (send.over != a.link || (q_.send && *q_.send != send.name) || (q_.box && *q_.box != send.to))
                    continue;
                sends.push_back(s);
                a.sends.push_back(send.name);
            }
            if (sends.empty()) continue;
            a.today_bits_per_second = site_.links[l].up.value.value;
            a.needed_bits_per_second =
                line_rate_needed(context, static_cast<int>(l), sends, answer_.confidence, study->plan,
                                 study->paths, settings_.threads, progress_.stop);
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
        const auto outlook = compute(site_, evidence_, settings_, progress_);
        if (!outlook) return tl::unexpected(outlook.error());
        for (const auto& b : outlook->boxes) {
            if (q_.box && *q_.box != b.name) continue;
            const double ceiling = b.ceiling_bytes / b.usable_bytes;
            if (q_.what == SolveFor::usable) {
                answer_.usable.push_back(
                    {b.name, b.usable_bytes, quantile_of_sorted(b.peak_used_bytes, answer_.confidence) / ceiling,
                     ceiling});
                continue;
            }
            OrderDateAnswer a;
            a.box = b.name;
            a.lead_time_days = b.lead_time_days.value_or(0);
            // Inverse distribution function, as everywhere for days that may never come.
            const auto rank = static_cast<std::size_t>(
                std::max(1.0, std::ceil((1 - answer_.confidence) * outlook->paths - 1e-9)));
            if (rank <= b.ceiling_days.size()) {
                a.ceiling_day = b.ceiling_days[rank - 1];
                a.order_by = add_days(site_.as_of, *a.ceiling_day - a.lead_time_days);
            }
            answer_.order_dates.push_back(std::move(a));
        }
        return {};
    }

    /// The ladder by which a box keeps a dataset: a send's own, or, as the source, the dataset's.
    struct Keeping {
        std::string dataset;
        std::size_t index = 0;            ///< of the dataset
        std::optional<std::size_t> send;  ///< whose ladder it is; empty: the dataset's
    };

    const Ladder& ladder_of(const Site& site, const Keeping& k) const {
        return k.send ? std::get<Ladder>(site.sends[*k.send].ladder) : site.datasets[k.index].ladder;
    }
    Ladder& ladder_of(Site& site, const Keeping& k) const {
        return k.send ? std::get<Ladder>(site.sends[*k.send].ladder) : site.datasets[k.index].ladder;
    }

    /// Empty where everything is kept.
    std::optional<Keeping> keeping_at(std::size_t dataset, const std::string& box) const {
        const auto& d = site_.datasets[dataset];
        std::string at = box;
        while (d.home != at) {
            const auto send = std::find_if(site_.sends.begin(), site_.sends.end(), [&](const Send& s) {
                return s.to == at && std::find(s.datasets.begin(), s.datasets.end(), d.name) != s.datasets.end();
            });
            if (send == site_.sends.end()) break;
            if (std::holds_alternative<KeepAll>(send->ladder)) return {};
            if (std::holds_alternative<Ladder>(send->ladder))
                return Keeping{d.name, dataset, std::size_t(send - site_.sends.begin())};
            at = send->from;
        }
        return Keeping{d.name, dataset, {}};
    }

    std::vector<Keeping> keepings(const Box& box) const {
        std::vector<Keeping> all;
        for (std::size_t d = 0; d < site_.datasets.size(); ++d) {
            const auto& name = site_.datasets[d].name;
            const bool there =
                site_.datasets[d].home == box.name ||
                std::any_of(site_.sends.begin(), site_.sends.end(), [&](const Send& s) {
                    return s.to == box.name &&
                           std::find(s.datasets.begin(), s.datasets.end(), name) != s.datasets.end();
                });
            if (!there) continue;
            if (const auto k = keeping_at(d, box.name); k && !ladder_of(site_, *k).empty()) all.push_back(*k);
        }
        return all;
    }

    /// The site with the box's snapshots kept for `days`.
    Site with_ladders(const std::vector<Keeping>& keepings, double days) const {
        Site site = site_;
        for (const auto& k : keepings) ladder_of(site, k) = stretched(ladder_of(site_, k), days);
        return site;
    }

    tl::expected<bool, ComputeError> fits(const Site& site, const std::string& box) const {
        Settings few = settings_;
        few.paths = std::min(few.paths, ladder_paths);
        const auto outlook = compute(site, evidence_, few, {progress_.stop, {}});
        if (!outlook) return tl::unexpected(outlook.error());
        for (const auto& b : outlook->boxes)
            if (b.name == box) return b.chance_of_ceiling_within_horizon <= 1 - answer_.confidence + 1e-12;
        return false;
    }

    tl::expected<void, ComputeError> ladders() {
        int done = 0;
        for (const auto& box : site_.boxes) {
            if (progress_.report) progress_.report(double(done++) / double(site_.boxes.size()));
            if (!wanted(box)) continue;
            const auto kept = keepings(box);
            LadderAnswer a;
            a.box = box.name;
            double shortest = std::numeric_limits<double>::infinity();
            for (const auto& k : kept) {
                auto copy = ladder_of(site_, k);
                a.today_days = std::max(a.today_days, kept_days(copy));
                if (const Rung* rung = longest_rung(copy))
                    shortest = std::min(shortest, in_days(rung->every.value.length()));
            }
            if (!std::isfinite(shortest)) continue;  // nothing is kept there by a ladder
            if (auto sends = sends_fit(box.name); sends)
                a.sends_fit = *sends;
            else
                return tl::unexpected(sends.error());
            const double most = std::max(in_days(site_.horizon.value), a.today_days);
            const auto tried = longest_that_fits(kept, box.name, shortest, most, a);
            if (!tried) return tl::unexpected(tried.error());
            if (a.longest_days) {
                const Site with = with_ladders(kept, *a.longest_days);
                for (const auto& k : kept) a.ladders.push_back({k.dataset, ladder_text(ladder_of(with, k))});
            }
            answer_.ladders.push_back(std::move(a));
        }
        return {};
    }

    tl::expected<bool, ComputeError> sends_fit(const std::string& box) const {
        const auto study = study_sends(site_, evidence_, settings_, {progress_.stop, {}});
        if (!study) return tl::unexpected(study.error());
        std::vector<std::size_t> sends;
        for (std::size_t s = 0; s < site_.sends.size(); ++s)
            if (site_.sends[s].to == box) sends.push_back(s);
        if (sends.empty()) return true;
        return carries(study->context(), sends, answer_.confidence, study->plan, study->paths,
                       settings_.threads, progress_.stop);
    }

    /// Bisection over whole steps of the shortest of the longest rungs: keeping longer never uses less.
    tl::expected<void, ComputeError> longest_that_fits(const std::vector<Keeping>& kept, const std::string& box,
                                                       double step, double most, LadderAnswer& a) const {
        const auto ok = [&](double steps) { return fits(with_ladders(kept, steps * step), box); };
        double low = 1;
        double high = std::max(1.0, std::floor(most / step));
        auto all = ok(high);
        if (!all) return tl::unexpected(all.error());
        if (*all) {
            a.longest_days = high * step;
            a.as_long_as_the_horizon = true;
            return {};
        }
        auto least = ok(low);
        if (!least) return tl::unexpected(least.error());
        if (!*least) return {};
        while (high - low > 1) {
            const double middle = std::floor((low + high) / 2);
            const auto fit = ok(middle);
            if (!fit) return tl::unexpected(fit.error());
            (*fit ? low : high) = middle;
        }
        a.longest_days = low * step;
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
        case SolveFor::link_rate: return "link-rate";
        case SolveFor::usable: return "usable";
        case SolveFor::ladder: return "ladder";
        case SolveFor::order_date: return "order-date";
    }
    return {};
}

tl::expected<SolveAnswer, ComputeError> solve(const Site& site, const Evidence& evidence,
                                              const Settings& settings, const SolveQuestion& question,
                                              const Progress& progress) {
    return Solver(site, evidence, settings, question, progress).run();
}

}  // namespace ullage
