// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// A large value that many keep and few change: copying it copies a pointer, and two copies compare at once.

#include <memory>
#include <utility>

namespace ullage {

template <class T>
class SharedValue {
public:
    SharedValue() : value_(std::make_shared<T>()) {}
    SharedValue(T value) : value_(std::make_shared<T>(std::move(value))) {}  // NOLINT: implicit by design

    const T& operator*() const { return *value_; }
    const T* operator->() const { return value_.get(); }
    bool operator==(const SharedValue& other) const { return value_ == other.value_ || *value_ == *other.value_; }

    /// To be changed: a copy of its own, if others keep it too.
    T& own() {
        if (value_.use_count() > 1) value_ = std::make_shared<T>(*value_);
        return *value_;
    }

private:
    std::shared_ptr<T> value_;
};

}  // namespace ullage
