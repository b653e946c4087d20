// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A number of each path at each time of the grid. Sixteen paths lie side by side, a block, and a block's times
/// follow one another: what draws a block writes one piece of memory, and nobody else's.

#include <algorithm>
#include <cstddef>
#include <memory>
#include <utility>
#include <vector>

namespace ullage {

/// Paths that share each dataset's curve.
inline constexpr std::size_t block_paths = 16;

class PathTable {
public:
    PathTable() = default;
    /// In room that several tables share, size_of numbers from `at` on. Nothing is written yet: each block is for
    /// whoever draws it.
    PathTable(std::size_t paths, std::size_t times, std::shared_ptr<float[]> at)
        : paths_(paths), times_(times), values_(std::move(at)) {}

    static std::size_t size_of(std::size_t paths, std::size_t times) {
        return (paths + block_paths - 1) / block_paths * block_paths * times;
    }

    std::size_t paths() const { return paths_; }
    std::size_t times() const { return times_; }
    std::size_t blocks() const { return (paths_ + block_paths - 1) / block_paths; }

    /// [time × block_paths + lane]; of the last block all lanes, though not all are paths.
    float* block(std::size_t b) { return values_.get() + b * block_size(); }
    const float* block(std::size_t b) const { return values_.get() + b * block_size(); }

    /// A path's first time; the others follow in steps of `block_paths`.
    const float* path(std::size_t p) const { return block(p / block_paths) + p % block_paths; }
    float at(std::size_t time, std::size_t p) const { return path(p)[time * block_paths]; }

    /// All paths at a time.
    std::vector<float> row(std::size_t time) const {
        std::vector<float> all;
        row(time, all);
        return all;
    }
    void row(std::size_t time, std::vector<float>& out) const {
        out.resize(paths_);
        for (std::size_t from = 0; from < paths_; from += block_paths)
            std::copy_n(block(from / block_paths) + time * block_paths, std::min(block_paths, paths_ - from),
                        out.data() + from);
    }

private:
    std::size_t block_size() const { return times_ * block_paths; }

    std::size_t paths_ = 0, times_ = 0;
    std::shared_ptr<float[]> values_;
};

}  // namespace ullage
