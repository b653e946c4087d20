// SPDX-License-Identifier: GPL-3.0-or-later
/// How right the forecasts were on real histories.
///
///     accuracy FOLDER
///
/// FOLDER holds history-*/origin*/ with listing-tiered.tsv, listing-daily90.tsv, listing-daily30.tsv (what
/// a listing showed on a day) and truth.json (`as_of`, `held`: bytes held under each ladder on later
/// dates, `live`: live bytes on those dates). Each listing is measured, the year after is forecast with
/// 2,000 paths, and what came is compared:
///   error     of the mean held bytes over the dates, relative: median of |error|, mean of |error|, mean
///   inside    share of truths between p10 and p90 (80 % would be exact)
///   pinball   mean loss of p10, p50, p90 over the truths, relative to the mean truth
///   guess     median |error| of "churn per day × days kept"
#include "core/outlook/paths.h"
#include "core/outlook/quantiles.h"
#include "core/outlook/kept_copies.h"
#include "core/measure/evidence.h"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>

namespace fs = std::filesystem;
using namespace ullage;

namespace {

struct LadderCase {
    const char* name;
    std::vector<std::pair<Period, int>> rungs;
};

const std::vector<LadderCase>& ladders() {
    using U = Period::Unit;
    static const std::vector<LadderCase> all = {
        {"tiered", {{{1, U::hour}, 24}, {{1, U::day}, 14}, {{7, U::day}, 8}, {{30, U::day}, 12}}},
        {"weekly52", {{{7, U::day}, 52}}},
        {"daily30", {{{1, U::day}, 30}}},
        {"daily90", {{{1, U::day}, 90}}},
    };
    return all;
}

Ladder ladder_of(const LadderCase& c) {
    Ladder ladder;
    for (const auto& [every, count] : c.rungs) {
        Rung rung;
        rung.every = every;
        rung.count = count;
        ladder.push_back(rung);
    }
    return ladder;
}

double quantile(std::vector<double> v, double p) { return quantile_of(v, p); }

double pinball(double q, double y, double tau) {
    return std::max(tau * (y - q), (tau - 1) * (y - q));
}

struct Score {
    std::vector<double> errors, guesses;
    double inside = 0, loss = 0, truths = 0, size = 0;

    void add(double truth, const std::vector<double>& drawn) {
        const double low = quantile(drawn, 0.1);
        const double high = quantile(drawn, 0.9);
        inside += truth >= low && truth <= high ? 1 : 0;
        loss += (pinball(low, truth, 0.1) + pinball(quantile(drawn, 0.5), truth, 0.5) +
                 pinball(high, truth, 0.9)) / 3;
        size += truth;
        truths += 1;
    }
};

double mean_of(const std::vector<double>& v) {
    double sum = 0;
    for (const double x : v) sum += x;
    return v.empty() ? 0 : sum / static_cast<double>(v.size());
}

std::vector<double> absolute(std::vector<double> v) {
    for (double& x : v) x = std::abs(x);
    return v;
}

/// A path of truths: dates as days after as_of, and bytes.
using Truth = std::map<double, double>;

Truth truth_of(const nlohmann::json& dates, Instant as_of) {
    Truth t;
    for (const auto& [date, bytes] : dates.items())
        t[std::round(days_between(as_of, *parse_instant(date)))] = bytes.get<double>();
    return t;
}

void judge(const fs::path& origin, std::map<std::string, Score>& held, std::map<std::string, Score>& live) {
    std::ifstream in(origin / "truth.json");
    const auto json = nlohmann::json::parse(in);
    const Instant as_of = *parse_instant(json["as_of"].get<std::string>());
    for (const std::string listing : {"tiered", "daily90", "daily30"}) {
        Site site;
        site.as_of = std::chrono::floor<std::chrono::days>(as_of);
        Dataset dataset;
        dataset.name = "store";
        dataset.turnover.emplace().listing = listing;
        site.datasets.push_back(dataset);
        Evidence evidence;
        evidence.listings[listing] =
            *parse_listing(*read_text_file((origin / ("listing-" + listing + ".tsv")).string()));
        auto models = *dataset_models(site, evidence, site.as_of);
        models[0].known = {};  // the ladder is not the listing's: all of it is forecast
        const Truth live_truth = truth_of(json["live"], as_of);
        for (const auto& c : ladders()) {
            if (!json["held"].contains(c.name)) continue;
            const Truth truth = truth_of(json["held"][c.name], as_of);
            PathsPlan plan;
            plan.as_of = as_of;
            plan.paths = 2000;
            plan.boxes = 1;
            plan.other_bytes = {0};
            std::vector<double> dates;
            for (const auto& [day, bytes] : truth) dates.push_back(day);
            plan.days = time_grid(dates.back(), dates);
            BoxPart part;
            part.kept = kept_at_home(LadderClock(ladder_of(c), TimeZone()), {}, as_of, plan.days);
            plan.parts.push_back(part);
            const auto paths = *draw_paths(models, plan, {}, 0, 1);
            auto& score = held[listing + " -> " + c.name];
            double forecast = 0;
            double came = 0;
            double span = 0;
            for (const auto& [every, count] : c.rungs)
                span = std::max(span, in_days(every.length()) * count);
            const double guess = models[0].mean_curve.freed(1) * span;
            for (const auto& [day, bytes] : truth) {
                const auto at = static_cast<std::size_t>(
                    std::lower_bound(plan.days.begin(), plan.days.end(), day) - plan.days.begin());
                const auto row = paths.held[0].begin() + static_cast<std::ptrdiff_t>(at * paths.paths);
                const std::vector<double> drawn(row, row + static_cast<std::ptrdiff_t>(paths.paths));
                score.add(bytes, drawn);
                forecast += quantile(drawn, 0.5);
                came += bytes;
                if (std::string(c.name) != "tiered" || live_truth.count(day) == 0) continue;
                const auto live_row = paths.live[0].begin() + static_cast<std::ptrdiff_t>(at * paths.paths);
                live[listing].add(live_truth.at(day),
                                  {live_row, live_row + static_cast<std::ptrdiff_t>(paths.paths)});
                live[listing].errors.push_back(quantile({live_row, live_row + static_cast<std::ptrdiff_t>(paths.paths)}, 0.5) /
                                                   live_truth.at(day) - 1);
            }
            score.errors.push_back(forecast / came - 1);
            score.guesses.push_back(guess * static_cast<double>(truth.size()) / came - 1);
        }
    }
}

void print(const char* title, const std::map<std::string, Score>& scores) {
    fmt::print("{:<22} {:>8} {:>8} {:>8} {:>8} {:>8} {:>8}\n", title, "median", "mean", "bias", "inside",
               "pinball", "guess");
    for (const auto& [name, s] : scores)
        fmt::print("{:<22} {:>7.1f}% {:>7.1f}% {:>+7.1f}% {:>7.0f}% {:>7.2f}% {:>8}\n", name,
                   100 * quantile(absolute(s.errors), 0.5), 100 * mean_of(absolute(s.errors)),
                   100 * mean_of(s.errors), 100 * s.inside / s.truths, 100 * s.loss / s.size,
                   s.guesses.empty() ? "" : fmt::format("{:.0f}%", 100 * quantile(absolute(s.guesses), 0.5)));
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        fmt::print(stderr, "accuracy FOLDER\n");
        return 2;
    }
    std::vector<fs::path> origins;
    for (const auto& entry : fs::recursive_directory_iterator(argv[1]))
        if (entry.path().filename() == "truth.json") origins.push_back(entry.path().parent_path());
    std::sort(origins.begin(), origins.end());
    std::map<std::string, Score> held;
    std::map<std::string, Score> live;
    for (const auto& origin : origins) judge(origin, held, live);
    fmt::print("{} origins\n", origins.size());
    print("held: listing -> ladder", held);
    print("live: listing", live);
    return 0;
}
