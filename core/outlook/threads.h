// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Work side by side. What comes out may not depend on the number of threads: each piece of work writes
/// only what is its own.
/// oneTBB underneath; with ULLAGE_PLAIN_THREADS std::thread, which a thread sanitizer sees through.

#include <cstddef>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <thread>

namespace ullage {

struct Progress;  // outlook.h

/// work(i) for each i from `first` up to before `last`, on `threads` threads (0: one a core); returns when all
/// have ended. What one throws is thrown here. May be called from within such work.
void side_by_side(int threads, std::size_t first, std::size_t last,
                  const std::function<void(std::size_t)>& work);

/// The same for each i below `count`, with progress told from the calling thread, from `told_from` up to `told_to`, after
/// each round of so many; all at once if nobody asks. False if it was stopped: then some work was left out.
bool side_by_side_told(int threads, std::size_t count, std::size_t round, const Progress& progress, double told_from,
                       double told_to, const std::function<void(std::size_t)>& work);

/// Room to work in, one for each thread that asks for it. What is in it may not tell in the answer.
template <class T>
class PerThread {
public:
    T& local() {
        const std::lock_guard lock(guard_);
        auto& own = rooms_[std::this_thread::get_id()];
        if (!own) own = std::make_unique<T>();
        return *own;
    }

private:
    std::mutex guard_;
    std::map<std::thread::id, std::unique_ptr<T>> rooms_;
};

}  // namespace ullage
