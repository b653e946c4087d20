// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/benchmarks/accuracy/growth.h"

#include "core/measure/evidence.h"
#include "core/measure/growth.h"
#include "core/outlook/paths.h"
#include "core/units/quantiles.h"
#include "tests/benchmarks/accuracy/scores.h"

#include <fmt/format.h>
#include <tbb/parallel_for.h>
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <functional>
#include <random>
#include <sstream>

namespace fs = std::filesystem;

namespace ullage::accuracy {

namespace {

constexpr int futures = 600;
constexpr int ahead_days = 180;                // censoring bound
constexpr int threshold_days = 30;             // of mean growth
constexpr std::size_t first_origin_day = 400;  // the same dates whatever the history's length
constexpr std::size_t between_origins_days = 42;
constexpr int simulated_series = 400;
constexpr int simulated_history = 180;
constexpr std::uint64_t seed = 7;
constexpr std::uint32_t stream = 1;

const std::vector<double>& grid() {
    static const std::vector<double> days = time_grid(ahead_days, {30, 90});
    return days;
}

std::size_t time_of(double day) {
    return static_cast<std::size_t>(std::lower_bound(grid().begin(), grid().end(), day) -
                                    grid().begin());
}

/// Bytes added by each day of the grid, per future.
using Futures = std::vector<std::vector<double>>;

struct History {
    std::vector<double> added;  ///< bytes of each day
    double level = 0;           ///< before the first of them
    double mean = 0, sd = 0;    ///< of a day
};

History history_of(const std::vector<double>& added, std::size_t origin, std::size_t length) {
    History h;
    for (std::size_t i = 0; i + length < origin; ++i) h.level += added[i];
    h.added.assign(added.begin() + static_cast<std::ptrdiff_t>(origin - length),
                   added.begin() + static_cast<std::ptrdiff_t>(origin));
    h.mean = mean_of(h.added);
    for (const double a : h.added) h.sd += (a - h.mean) * (a - h.mean);
    h.sd = std::sqrt(h.sd / static_cast<double>(length - 1));
    return h;
}

Futures ours(const History& h) {
    std::vector<LivePoint> points = {{0, h.level}};
    for (const double a : h.added)
        points.push_back({points.back().day + 1, points.back().bytes + a});
    const auto model = growth_model(points);
    const auto middle = middle_growth(model, grid());
    Futures all(futures);
    for (int i = 0; i < futures; ++i) {
        RandomSequence random(seed, stream, static_cast<std::uint32_t>(i));
        draw_growth(model, i % growth_kinds, {}, random, grid(), all[std::size_t(i)]);
        stretch_growth(model, grid(), middle, all[std::size_t(i)]);
    }
    return all;
}

/// Standard walks of independent steps, and the error of the drift, the same for every series.
struct StandardWalks {
    std::vector<double> drift;
    Futures walk;
};

const StandardWalks& standard_walks() {
    static const StandardWalks walks = [] {
        StandardWalks w;
        for (int i = 0; i < futures; ++i) {
            RandomSequence random(seed, stream + 1, static_cast<std::uint32_t>(i));
            w.drift.push_back(random.normal());
            auto& walk = w.walk.emplace_back(1, 0.0);
            for (std::size_t t = 1; t < grid().size(); ++t)
                walk.push_back(walk.back() +
                               std::sqrt(grid()[t] - grid()[t - 1]) * random.normal());
        }
        return w;
    }();
    return walks;
}

Futures drift_walk(const History& h) {
    const auto& standard = standard_walks();
    const double error = h.sd / std::sqrt(static_cast<double>(h.added.size()));
    Futures all = standard.walk;
    for (std::size_t i = 0; i < all.size(); ++i)
        for (std::size_t t = 0; t < all[i].size(); ++t)
            all[i][t] = (h.mean + error * standard.drift[i]) * grid()[t] + h.sd * all[i][t];
    return all;
}

struct GrowthScore {
    double dates = 0;
    double in_80[2] = {0, 0}, in_95[2] = {0, 0}, loss[2] = {0, 0},
           growth[2] = {0, 0};  // 30, 90 days
    double day_in_80 = 0, day_loss = 0;

    void add(const GrowthScore& o) {
        dates += o.dates;
        for (int k : {0, 1}) {
            in_80[k] += o.in_80[k];
            in_95[k] += o.in_95[k];
            loss[k] += o.loss[k];
            growth[k] += o.growth[k];
        }
        day_in_80 += o.day_in_80;
        day_loss += o.day_loss;
    }
};

GrowthScore score_of(const Futures& all, const History& h, const std::vector<double>& added,
                     std::size_t origin) {
    GrowthScore s;
    s.dates = 1;
    const double limit = threshold_days * h.mean;
    double sum = 0;
    double came[2] = {0, 0};
    double true_day = ahead_days;
    for (int d = 1; d <= ahead_days && origin + std::size_t(d) <= added.size(); ++d) {
        sum += added[origin + std::size_t(d) - 1];
        if (d == 30) came[0] = sum;
        if (d == 90) came[1] = sum;
        if (sum >= limit) true_day = std::min(true_day, double(d));
    }
    std::vector<double> values;
    for (int k : {0, 1}) {
        const double ahead = k == 0 ? 30 : 90;
        values.clear();
        for (const auto& f : all) values.push_back(f[time_of(ahead)]);
        std::sort(values.begin(), values.end());
        const auto within = [&](double low, double high) {
            return quantile_of_sorted(values, low) <= came[k] &&
                   came[k] <= quantile_of_sorted(values, high);
        };
        s.in_80[k] = within(0.1, 0.9) ? 1 : 0;
        s.in_95[k] = within(0.025, 0.975) ? 1 : 0;
        for (int level = 1; level <= 9; ++level)
            s.loss[k] += pinball(quantile_of_sorted(values, 0.1 * level), came[k], 0.1 * level) / 9;
        s.growth[k] = h.mean * ahead;
    }
    values.clear();
    std::vector<float> path(grid().size());
    for (const auto& f : all) {
        for (std::size_t t = 0; t < path.size(); ++t) path[t] = static_cast<float>(f[t]);
        values.push_back(first_passage(grid(), path.data(), 1, limit).value_or(ahead_days));
    }
    std::sort(values.begin(), values.end());
    for (int level = 1; level <= 9; ++level)
        s.day_loss += pinball(inverse_distribution(values, 0.1 * level), true_day, 0.1 * level) / 9;
    s.day_in_80 = inverse_distribution(values, 0.1) <= true_day &&
                  true_day <= inverse_distribution(values, 0.9);
    return s;
}

struct Both {
    GrowthScore ours, walk;
};

/// Scores at many dates of many series; dates whose history did not grow are left out.
struct Case {
    const std::vector<double>* added = nullptr;
    std::size_t origin = 0, length = 0;
};

Both judge(const std::vector<Case>& cases) {
    std::vector<Both> each(cases.size());
    tbb::parallel_for(std::size_t{0}, cases.size(), [&](std::size_t i) {
        const auto& c = cases[i];
        const auto h = history_of(*c.added, c.origin, c.length);
        if (!(h.mean > 0)) return;
        each[i].ours = score_of(ours(h), h, *c.added, c.origin);
        each[i].walk = score_of(drift_walk(h), h, *c.added, c.origin);
    });
    Both sum;
    for (const auto& b : each) {
        sum.ours.add(b.ours);
        sum.walk.add(b.walk);
    }
    return sum;
}

Table empty_table(std::string title, std::string note, const char* of) {
    Table table;
    table.title = std::move(title);
    table.note = std::move(note);
    table.columns = {
        of,         "days seen",     "by",       "dates",    "30 days: 80 %", "30: 95 %",
        "30: loss", "90 days: 80 %", "90: 95 %", "90: loss", "T: 80 %",       "T: loss"};
    return table;
}

void add_rows(Table& table, const std::string& name, std::size_t length, const Both& both) {
    for (const auto& [by, s] :
         {std::pair("Ullage", &both.ours), std::pair("drift walk", &both.walk)}) {
        if (s->dates == 0) continue;
        std::vector<Cell> row = {text(name), count(double(length)), text(by), count(s->dates)};
        for (int k : {0, 1}) {
            row.push_back(percent(s->in_80[k] / s->dates, 0));
            row.push_back(percent(s->in_95[k] / s->dates, 0));
            row.push_back(percent(s->loss[k] / s->growth[k], 1));
        }
        row.push_back(percent(s->day_in_80 / s->dates, 0));
        row.push_back(percent(s->day_loss / s->dates / threshold_days, 1));
        table.rows.push_back(std::move(row));
    }
}

tl::expected<std::vector<double>, std::string> read_growth(const std::string& path) {
    const auto text = read_text_file(path);
    if (!text) return tl::unexpected(text.error());
    std::istringstream lines(*text);
    std::string line;
    std::getline(lines, line);
    std::vector<double> added;
    while (std::getline(lines, line)) {
        const auto comma = line.find(',');
        if (comma == std::string::npos)
            return tl::unexpected(fmt::format("{}: “{}” has no second column", path, line));
        added.push_back(std::strtod(line.c_str() + comma + 1, nullptr));
    }
    return added;
}

double normal(std::mt19937_64& random) { return std::normal_distribution<double>()(random); }
double weekday(int day) { return day % 7 < 5 ? 1.28 : 0.3; }

using Simulation = std::function<void(std::mt19937_64&, std::vector<double>&)>;

const std::vector<std::pair<std::string, Simulation>>& simulations() {
    static const std::vector<std::pair<std::string, Simulation>> all = {
        {"S1 independent days",
         [](auto& r, auto& days) {
             for (double& d : days) d = 1 + 0.8 * normal(r);
         }},
        {"S2 working week",
         [](auto& r, auto& days) {
             for (std::size_t i = 0; i < days.size(); ++i)
                 days[i] = weekday(int(i)) + 0.4 * normal(r);
         }},
        {"S3 days that remember",
         [](auto& r, auto& days) {
             double e = 0;
             for (std::size_t i = 0; i < days.size(); ++i) {
                 e = 0.6 * e + 0.8 * std::sqrt(1 - 0.6 * 0.6) * normal(r);
                 days[i] = weekday(int(i)) + e;
             }
         }},
        {"S4 loads and purges",
         [](auto& r, auto& days) {
             std::uniform_real_distribution<double> u;
             for (double& d : days) {
                 d = 0.9 + 0.3 * normal(r);
                 if (u(r) < 0.03) d += std::exp(2 + 0.6 * normal(r)) * (u(r) < 1.0 / 3 ? -1 : 1);
             }
         }},
        {"S5 a rate that drifts",
         [](auto& r, auto& days) {
             double rate = 0;
             for (double& d : days) d = std::exp(rate += 0.015 * normal(r)) + 0.4 * normal(r);
         }},
        {"S6 a rate that doubles",
         [](auto& r, auto& days) {
             const int change = std::uniform_int_distribution<int>(0, int(days.size()) - 1)(r);
             for (std::size_t i = 0; i < days.size(); ++i)
                 days[i] = (int(i) < change ? 1 : 2) + 0.4 * normal(r);
         }},
    };
    return all;
}

}  // namespace

tl::expected<std::vector<Table>, std::string> judge_growth(const std::string& folder) {
    std::vector<fs::path> files;
    std::error_code failed;
    for (const auto& entry : fs::directory_iterator(folder, failed)) {
        const std::string name = entry.path().filename().string();
        if (name.rfind("growth-", 0) == 0 && entry.path().extension() == ".csv")
            files.push_back(entry.path());
    }
    std::sort(files.begin(), files.end());
    const std::string note =
        "80 %, 95 %: truths within that interval. T: the day on which 30 days of mean growth "
        "are added. Losses: of mean growth × days ahead; of 30 days.";
    auto measured = empty_table("Growth of append-only stores", note, "history");
    for (const auto& path : files) {
        const auto added = read_growth(path.string());
        if (!added) return tl::unexpected(added.error());
        for (const std::size_t length : {60, 180, 365}) {
            std::vector<Case> cases;
            for (std::size_t o = first_origin_day; o + ahead_days <= added->size();
                 o += between_origins_days)
                cases.push_back({&*added, o, length});
            add_rows(measured, path.stem().string().substr(7), length, judge(cases));
        }
    }
    auto simulated =
        empty_table(fmt::format("Growth of simulated pools, {} series each", simulated_series),
                    note, "process");
    for (const auto& [name, make] : simulations()) {
        std::vector<std::vector<double>> series(
            simulated_series, std::vector<double>(simulated_history + ahead_days));
        std::vector<Case> cases;
        for (std::size_t i = 0; i < series.size(); ++i) {
            std::mt19937_64 random(i + 1);
            make(random, series[i]);
            cases.push_back({&series[i], simulated_history, simulated_history});
        }
        add_rows(simulated, name, simulated_history, judge(cases));
    }
    std::vector<Table> tables;
    if (!measured.rows.empty()) tables.push_back(std::move(measured));
    tables.push_back(std::move(simulated));
    return tables;
}

}  // namespace ullage::accuracy
