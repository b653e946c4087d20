// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// Results of functions without side effects, remembered by what went in: an edit of a site changes one dataset, and
/// the others need not be fitted anew.
///
/// What is remembered is never another value than the function gives. Bounded: the oldest result goes first.
/// Safe from several threads, which may work out the same thing twice. Key: ordered, and all that the function
/// depends on.

#include <cstddef>
#include <deque>
#include <map>
#include <memory>
#include <mutex>
#include <utility>

namespace ullage {

template <class Key, class Value>
class Remembered {
public:
    explicit Remembered(std::size_t most) : most_(most) {}

    template <class Make>
    std::shared_ptr<const Value> get(const Key& key, Make make) {
        {
            const std::lock_guard lock(mutex_);
            if (const auto it = known_.find(key); it != known_.end()) return it->second;
        }
        auto made = std::make_shared<const Value>(make());
        const std::lock_guard lock(mutex_);
        const auto [it, added] = known_.try_emplace(key, std::move(made));
        if (added) by_age_.push_back(it);
        auto value = it->second;
        if (by_age_.size() > most_) {
            known_.erase(by_age_.front());
            by_age_.pop_front();
        }
        return value;
    }

    std::size_t size() const {
        const std::lock_guard lock(mutex_);
        return known_.size();
    }

private:
    using Known = std::map<Key, std::shared_ptr<const Value>>;
    mutable std::mutex mutex_;
    Known known_;
    std::deque<typename Known::iterator> by_age_;
    std::size_t most_;
};

}  // namespace ullage
