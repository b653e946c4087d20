// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/benchmarks/accuracy/year.h"

#include "tests/benchmarks/accuracy/ceiling.h"
#include "tests/benchmarks/accuracy/forecast.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>
#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>

namespace ullage::accuracy {

namespace {

const std::vector<std::string> listing_names = {"tiered", "daily90", "daily30"};
constexpr double ceiling_factors[] = {1.05, 1.1, 1.2, 1.5};

/// Forecasts of one origin on its dates, and what came.
struct Dates {
    std::vector<Band> forecasts;
    std::vector<double> days, truths;
    std::optional<double> point;  ///< of "churn per day × days kept"
};

struct CeilingDay {
    std::string series, from;
    double factor = 0;
    double truth_days = 0;
    Band days;
};

struct Judged {
    std::map<std::pair<std::string, std::string>, Dates> held;  ///< by listing and ladder
    std::map<std::string, Dates> live, used, held_known;        ///< by what they were forecast from
    std::vector<CeilingDay> ceilings;
    std::string error;
};

Dates dates_of(const Year& year, const PathTable& table, const Dated& truth) {
    Dates d;
    d.days = truth.days;
    d.truths = truth.bytes;
    for (const double day : truth.days) d.forecasts.push_back(year.band_at(table, day));
    return d;
}

/// Of each day of the year: straight lines between what the listing holds and the dated truths.
std::vector<double> daily_of(double at_origin, const Dated& dated) {
    std::vector<double> daily;
    std::size_t next = 0;
    for (double day = 0; day <= year_days; day += 1) {
        while (next + 1 < dated.days.size() && dated.days[next] < day) ++next;
        const double from = next == 0 ? 0 : dated.days[next - 1];
        const double then = next == 0 ? at_origin : dated.bytes[next - 1];
        daily.push_back(then +
                        (dated.bytes[next] - then) * (day - from) / (dated.days[next] - from));
    }
    return daily;
}

double true_day(const std::vector<double>& daily, double limit) {
    const auto at = std::find_if(daily.begin(), daily.end(), [&](double b) { return b >= limit; });
    return std::min(static_cast<double>(at - daily.begin()), year_days);
}

void judge_ceilings(Judged& judged, const char* series, const std::string& from, const Year& year,
                    const PathTable& table, const std::vector<double>& daily) {
    for (const double factor : ceiling_factors) {
        const double limit = factor * daily.front();
        judged.ceilings.push_back({series, from, factor, true_day(daily, limit),
                                   band_of_days(year.days_until(table, limit))});
    }
}

/// "Churn per day × days kept": what is freed in a day, over the whole reach of the ladder.
double churn_times_days(const DatasetModel& model, const Ladder& ladder) {
    double reach_days = 0;
    for (const auto& rung : ladder)
        reach_days =
            std::max(reach_days, in_days(rung.every.value.length()) * rung.count.value_or(1));
    return model.mean_curve.freed(1) * reach_days;
}

/// What a listing alone says, all snapshots to come: of any ladder.
void judge_ladders(Judged& judged, const Origin& origin, const std::string& listing,
                   DatasetModel model) {
    model.known = {};  // the ladder is not the listing's: all of it is forecast
    std::vector<Ladder> kept;
    for (const auto& l : ladders()) kept.push_back(l.ladder);
    const auto year = forecast_year(model, origin.as_of, kept, origin.live.days);
    for (std::size_t b = 0; b < kept.size(); ++b) {
        const auto& name = ladders()[b].name;
        const auto truth = origin.held.find(name);
        if (truth == origin.held.end()) continue;
        auto& dates = judged.held[{listing, name}] =
            dates_of(year, year.paths.held[b], truth->second);
        dates.point = churn_times_days(model, kept[b]);
    }
    judged.live[listing] = dates_of(year, year.paths.live[0], origin.live);
    judge_ceilings(judged, "live", listing, year, year.paths.live[0], origin.live_daily);
}

/// A box of which the listing shows every snapshot, kept on as they are.
void judge_known(Judged& judged, const Origin& origin, const std::string& from,
                 const DatasetModel& model) {
    const auto truth = origin.held.find("tiered");
    if (truth == origin.held.end() || truth->second.days != origin.live.days) return;
    Dated used = truth->second;
    for (std::size_t i = 0; i < used.bytes.size(); ++i) used.bytes[i] += origin.live.bytes[i];
    double held_at_origin = 0;
    for (const double freed : model.known.freed) held_at_origin += freed;
    auto daily = daily_of(held_at_origin, truth->second);
    for (std::size_t i = 0; i < daily.size(); ++i) daily[i] += origin.live_daily[i];

    const auto year = forecast_year(model, origin.as_of, {tiered()}, used.days);
    judged.used[from] = dates_of(year, year.paths.used[0], used);
    judged.held_known[from] = dates_of(year, year.paths.held[0], truth->second);
    judge_ceilings(judged, "used", from, year, year.paths.used[0], daily);
}

void judge_usage(Judged& judged, const Origin& origin, const std::string& from,
                 DatasetModel model) {
    model.known = {};
    const auto year = forecast_year(model, origin.as_of, {Ladder()}, origin.live.days);
    judged.live[from] = dates_of(year, year.paths.live[0], origin.live);
    judge_ceilings(judged, "live", from, year, year.paths.live[0], origin.live_daily);
}

Judged judge(const Origin& origin) {
    Judged judged;
    if (origin.live_daily.size() <= std::size_t(year_days) || origin.live.days.empty() ||
        origin.live.days.back() > year_days) {
        judged.error = fmt::format(
            "{}/{}: truth.json needs dates within 365 days and 366 values of "
            "live_daily; it has {}",
            origin.history, origin.name, origin.live_daily.size());
        return judged;
    }
    for (const auto& listing : listing_names) {
        const auto text = origin.listings.find(listing);
        if (text == origin.listings.end()) continue;
        const auto model = model_of(text->second, "", origin.as_of);
        if (!model) {
            judged.error = fmt::format("{}/{}: {}", origin.history, origin.name, model.error());
            return judged;
        }
        judge_ladders(judged, origin, listing, *model);
        if (listing == "tiered") judge_known(judged, origin, listing, *model);
        if (origin.usage.empty()) continue;
        if (const auto with_usage = model_of(text->second, origin.usage, origin.as_of)) {
            judge_usage(judged, origin, listing + " + usage", *with_usage);
            if (listing == "tiered") judge_known(judged, origin, listing + " + usage", *with_usage);
        }
    }
    return judged;
}

std::vector<Cell> score_cells(const Score& s, bool point) {
    std::vector<Cell> cells = {percent(s.median_error(), 1), percent(s.mean_error(), 1),
                               signed_percent(s.bias(), 1)};
    if (!point) cells.push_back(percent(s.inside(), 0));
    cells.push_back(percent(s.loss(), 2));
    return cells;
}

void append(std::vector<Cell>& row, const std::vector<Cell>& more) {
    row.insert(row.end(), more.begin(), more.end());
}

Table held_table(const std::vector<Judged>& all) {
    Table table;
    table.title = "Bytes held by snapshots in the year after";
    table.note =
        "Errors are of the mean over the dates. guess: churn per day × days kept, as what a "
        "day frees by the same listing, times the ladder's reach.";
    table.columns = {
        "listing",        "ladder",  "median error",        "mean error",        "bias",
        "inside p10–p90", "pinball", "guess: median error", "guess: mean error", "guess: bias",
        "guess: pinball"};
    for (const auto& listing : listing_names)
        for (const auto& ladder : ladders()) {
            Score ours, guess;
            for (const auto& j : all)
                if (const auto at = j.held.find({listing, ladder.name}); at != j.held.end()) {
                    ours.add(at->second.forecasts, at->second.truths);
                    guess.add(*at->second.point, at->second.truths);
                }
            if (ours.empty()) continue;
            std::vector<Cell> row = {text(listing), text(ladder.name)};
            append(row, score_cells(ours, false));
            append(row, score_cells(guess, true));
            table.rows.push_back(std::move(row));
        }
    return table;
}

using ByName = std::map<std::string, Dates> Judged::*;

void add_rows(Table& table, const std::vector<Judged>& all, ByName which, const char* what) {
    for (const auto& listing : listing_names)
        for (const auto& from : {listing, listing + " + usage"}) {
            Score ours;
            for (const auto& j : all)
                if (const auto at = (j.*which).find(from); at != (j.*which).end())
                    ours.add(at->second.forecasts, at->second.truths);
            if (ours.empty()) continue;
            std::vector<Cell> row = {text(what), text(from)};
            append(row, score_cells(ours, false));
            table.rows.push_back(std::move(row));
        }
}

Table live_and_used_table(const std::vector<Judged>& all) {
    Table table;
    table.title = "Live and used bytes in the year after";
    table.note =
        "held, used: under the tiered ladder at the box itself, the listed snapshots known. "
        "usage: with the live bytes of each day before.";
    table.columns = {"of",   "forecast from",  "median error", "mean error",
                     "bias", "inside p10–p90", "pinball"};
    add_rows(table, all, &Judged::live, "live");
    add_rows(table, all, &Judged::held_known, "held");
    add_rows(table, all, &Judged::used, "used");
    return table;
}

/// How errors and cover go with the distance, from the tiered listing.
Table distance_table(const std::vector<Judged>& all) {
    Table table;
    table.title = "By distance, from the tiered listing: median error, and share inside p10–p90";
    table.columns = {"of"};
    struct Line {
        const char* what;
        ByName which;
    };
    for (const auto& [what, which] :
         {Line{"live", &Judged::live}, Line{"held", &Judged::held_known},
          Line{"used", &Judged::used}}) {
        std::map<int, Score> at_date;
        std::map<int, std::vector<double>> days;
        for (const auto& j : all) {
            const auto at = (j.*which).find("tiered");
            if (at == (j.*which).end()) continue;
            const auto& d = at->second;
            for (std::size_t i = 0; i < d.truths.size(); ++i) {
                at_date[int(i)].add({d.forecasts[i]}, {d.truths[i]});
                days[int(i)].push_back(d.days[i]);
            }
        }
        std::vector<Cell> row = {text(what)};
        for (const auto& [i, score] : at_date) {
            row.push_back(percent(score.median_error(), 1));
            row.push_back(percent(score.inside(), 0));
            if (table.columns.size() >= 1 + 2 * at_date.size()) continue;
            table.columns.push_back(fmt::format("{:.0f} days", mean_of(days[i])));
            table.columns.push_back("inside");
        }
        table.rows.push_back(std::move(row));
    }
    return table;
}

/// Of how many origins (each with all factors, in the same order) the loss is less, and more, than
/// the other's.
Cell closer_cell(const std::vector<double>& losses, const std::vector<double>& others) {
    constexpr std::size_t each = std::size(ceiling_factors);
    if (losses.size() != others.size()) return none();
    int closer = 0;
    int farther = 0;
    for (std::size_t i = 0; i + each <= losses.size(); i += each) {
        double difference = 0;
        for (std::size_t k = i; k < i + each; ++k) difference += losses[k] - others[k];
        closer += difference < 0 ? 1 : 0;
        farther += difference > 0 ? 1 : 0;
    }
    return text(fmt::format("{}, {}", closer, farther));
}

/// Scores by series and method; general methods only where the table's true day is ours.
Table ceiling_table(const std::vector<Origin>& origins, const std::vector<Judged>& all,
                    const std::string& reference) {
    const auto known = read_ceiling_rows(reference);
    Table table;
    table.title = "Days until a ceiling: mean pinball loss, in days";
    table.note =
        "Ceilings 1.05, 1.1, 1.2, 1.5 × the bytes at the origin, 365 days if not within the "
        "year. used: only the tiered listing shows what the box holds.";
    table.columns = {"of",
                     "forecast from",
                     "ceilings",
                     "all",
                     "1.05",
                     "1.1",
                     "1.2",
                     "1.5",
                     "reached within the year",
                     "inside p10–p90",
                     "against the best general method",
                     "origins closer, farther than it"};
    const std::vector<std::pair<std::string, std::string>> general = {
        {"arima", "auto.arima, weekly"}, {"ets", "ets, weekly"}, {"rwf", "drift walk, weekly"}};
    for (const std::string series : {"live", "used"}) {
        std::vector<std::pair<std::string, std::map<double, CeilingScore>>> lines;  // factor 0: all
        const auto line = [&](const std::string& name) -> std::map<double, CeilingScore>& {
            for (auto& [n, scores] : lines)
                if (n == name) return scores;
            return lines.emplace_back(name, std::map<double, CeilingScore>()).second;
        };
        const auto put = [&](const std::string& name, double factor, const Band& days,
                             double truth_days) {
            auto& scores = line(name);
            scores[0].add(days, truth_days);
            scores[factor].add(days, truth_days);
        };
        for (std::size_t o = 0; o < all.size(); ++o)
            for (const auto& c : all[o].ceilings) {
                if (c.series != series) continue;
                put(c.from, c.factor, c.days, c.truth_days);
                if (c.from != "tiered") continue;
                for (const auto& row : known)
                    if (row.history == origins[o].history && row.origin == origins[o].name &&
                        row.series == series && row.factor == c.factor &&
                        std::abs(row.truth_days - c.truth_days) <= 1)
                        for (const auto& [method, name] : general)
                            if (const auto at = row.methods.find(method); at != row.methods.end())
                                put(name, c.factor, at->second, c.truth_days);
            }
        const CeilingScore* best = nullptr;
        for (const auto& [method, name] : general)
            for (const auto& [n, scores] : lines)
                if (n == name && (!best || scores.at(0).mean_loss() < best->mean_loss()))
                    best = &scores.at(0);
        const auto best_losses = best ? best->losses : std::vector<double>();
        const double best_mean = mean_of(best_losses);
        std::sort(lines.begin(), lines.end(), [&](const auto& a, const auto& b) {
            const auto rank = [&](const std::string& n) {
                for (std::size_t i = 0; i < listing_names.size(); ++i)
                    if (n.rfind(listing_names[i], 0) == 0)
                        return int(2 * i) + (n == listing_names[i] ? 0 : 1);
                for (std::size_t i = 0; i < general.size(); ++i)
                    if (n == general[i].second) return int(100 + i);
                return 1000;
            };
            return rank(a.first) < rank(b.first);
        });
        for (const auto& [name, scores] : lines) {
            const auto& whole = scores.at(0);
            std::vector<Cell> row = {text(series), text(name), count(double(whole.losses.size())),
                                     number(whole.mean_loss(), 1)};
            for (const double factor : ceiling_factors) {
                const auto at = scores.find(factor);
                row.push_back(at == scores.end() ? none() : number(at->second.mean_loss(), 1));
            }
            row.push_back(whole.reached > 0 ? number(whole.reached_loss / whole.reached, 1)
                                            : none());
            row.push_back(percent(double(whole.inside) / double(whole.losses.size()), 0));
            row.push_back(best_mean > 0 ? signed_percent(whole.mean_loss() / best_mean - 1, 0)
                                        : none());
            row.push_back(best_mean > 0 ? closer_cell(whole.losses, best_losses) : none());
            table.rows.push_back(std::move(row));
        }
    }
    return table;
}

}  // namespace

tl::expected<std::vector<Table>, std::string> judge_years(const std::vector<Origin>& origins,
                                                          const std::string& reference) {
    std::vector<Judged> all(origins.size());
    tbb::parallel_for(std::size_t{0}, origins.size(),
                      [&](std::size_t o) { all[o] = judge(origins[o]); });
    for (const auto& j : all)
        if (!j.error.empty()) return tl::unexpected(j.error);
    return std::vector<Table>{held_table(all), live_and_used_table(all), distance_table(all),
                              ceiling_table(origins, all, reference)};
}

}  // namespace ullage::accuracy
