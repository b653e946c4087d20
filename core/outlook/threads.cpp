// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/outlook/threads.h"

#include "core/outlook/outlook.h"
#include "core/units/kept_memory.h"

#include <algorithm>

#ifdef ULLAGE_PLAIN_THREADS

#include <atomic>
#include <exception>
#include <vector>

namespace ullage {

void side_by_side(int threads, std::size_t first, std::size_t last,
                  const std::function<void(std::size_t)>& work) {
    if (last <= first) return;
    const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
    const std::size_t wanted = threads > 0 ? static_cast<std::size_t>(threads) : cores;
    std::atomic<std::size_t> next{first};
    std::exception_ptr thrown;
    std::mutex guard;
    const auto run = [&] {
        for (std::size_t i = next++; i < last; i = next++) {
            try {
                work(i);
            } catch (...) {
                const std::lock_guard lock(guard);
                if (!thrown) thrown = std::current_exception();
            }
        }
    };
    std::vector<std::thread> others;
    for (std::size_t t = 1; t < std::min(wanted, last - first); ++t) others.emplace_back(run);
    run();
    for (auto& other : others) other.join();
    if (thrown) std::rethrow_exception(thrown);
}

}  // namespace ullage

#else

#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

namespace ullage {

void side_by_side(int threads, std::size_t first, std::size_t last,
                  const std::function<void(std::size_t)>& work) {
    tbb::task_arena arena(threads > 0 ? threads : tbb::task_arena::automatic);
    arena.execute([&] {
        tbb::parallel_for(first, last, [&](std::size_t i) {
            keep_freed_memory_of_thread();
            work(i);
        });
    });
}

}  // namespace ullage

#endif

namespace ullage {

bool side_by_side_told(int threads, std::size_t count, std::size_t round, const Progress& progress, double told_from,
                       double told_to, const std::function<void(std::size_t)>& work) {
    if (!progress.report) round = count;
    for (std::size_t from = 0; from < count; from += round) {
        const std::size_t to = std::min(from + round, count);
        side_by_side(threads, from, to, [&](std::size_t i) {
            if (!progress.stop.stop_requested()) work(i);
        });
        if (progress.stop.stop_requested()) return false;
        if (progress.report)
            progress.report(told_from + (told_to - told_from) * static_cast<double>(to) / static_cast<double>(count));
    }
    return true;
}

}  // namespace ullage
