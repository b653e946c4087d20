// SPDX-License-Identifier: GPL-3.0-or-later
/// How fast the core is, on invented sites (sites.h). `speed` runs the benchmarks; `speed --site N` prints the
/// site of N datasets, for the whole program and for peer.py to run on; `--listing N` a listing of N snapshots.

#include "core/measure/listing.h"
#include "core/measure/measure.h"
#include "core/outlook/outlook.h"
#include "core/outlook/send_study.h"
#include "core/site/site_json.h"
#include "core/units/kept_memory.h"
#include "tests/benchmarks/sites.h"

#include <benchmark/benchmark.h>
#include <fmt/format.h>
#include <cstdlib>
#include <string>

namespace {

using namespace ullage;

void forecast(benchmark::State& state, Settings settings, int datasets) {
    const Site site = benchmarks::many_datasets(datasets);
    for (auto _ : state) {
        const auto outlook = compute(site, {}, settings);
        if (!outlook) state.SkipWithError("the site is not computed");
        benchmark::DoNotOptimize(outlook);
    }
}

Settings with(int paths, int threads) {
    Settings settings;
    settings.paths = paths;
    settings.threads = threads;
    return settings;
}

/// As the window's first picture after an edit.
Settings preview() {
    Settings settings = with(200, 2);
    settings.judged = settings.searched = false;
    return settings;
}

BENCHMARK_CAPTURE(forecast, preview_20_datasets, preview(), 20)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK_CAPTURE(forecast, paths_2000_20_datasets_1_thread, with(2000, 1), 20)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK_CAPTURE(forecast, paths_2000_20_datasets, with(2000, 2), 20)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK_CAPTURE(forecast, paths_20000_20_datasets, with(20000, 2), 20)->Unit(benchmark::kMillisecond)->UseRealTime();
BENCHMARK_CAPTURE(forecast, paths_2000_200_datasets, with(2000, 2), 200)->Unit(benchmark::kMillisecond)->UseRealTime();

/// One path of eight hourly sends over five years, plans and draws made before.
void replay_a_path(benchmark::State& state) {
    Settings settings = with(1, 1);
    const Site site = benchmarks::eight_sends();
    const auto study = study_sends(site, {}, settings, {});
    if (!study) {
        state.SkipWithError("the site is not computed");
        return;
    }
    PathsReplay one;
    one.threads = 1;
    one.most_paths = 1;
    for (auto _ : state)
        benchmark::DoNotOptimize(
            replay_paths(study->context(), study->plans, study->plan, study->paths, one, {}, 0, 1));
}
BENCHMARK(replay_a_path)->Unit(benchmark::kMillisecond);

void read_listing_of(benchmark::State& state) {
    const std::string text = benchmarks::listing_text(static_cast<int>(state.range(0)));
    for (auto _ : state) {
        const auto listings = parse_listing(text);
        if (!listings) state.SkipWithError("the listing is not read");
        benchmark::DoNotOptimize(listings);
    }
    state.SetBytesProcessed(static_cast<std::int64_t>(state.iterations() * text.size()));
}
BENCHMARK(read_listing_of)->Arg(100'000)->Unit(benchmark::kMillisecond);

}  // namespace

int main(int argc, char** argv) {
    if (argc == 3 && std::string(argv[1]) == "--site") {
        fmt::print("{}", write_site(benchmarks::many_datasets(std::atoi(argv[2]))));
        return 0;
    }
    if (argc == 3 && std::string(argv[1]) == "--listing") {
        fmt::print("{}", benchmarks::listing_text(std::atoi(argv[2])));
        return 0;
    }
    keep_freed_memory();  // as the program
    benchmark::Initialize(&argc, argv);
    benchmark::RunSpecifiedBenchmarks();
    return 0;
}
