// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// 128 bits of what values say, to know them again by: two that differ share them by a chance not worth counting.

#include <array>
#include <bit>
#include <cstdint>
#include <string_view>

namespace ullage {

using Print = std::array<std::uint64_t, 2>;

class PrintOf {
public:
    void put(std::uint64_t bits) {
        print_[0] = (print_[0] ^ bits) * 0x100000001B3u;
        print_[0] ^= print_[0] >> 29;
        print_[1] = std::rotl(print_[1] ^ (bits * 0xBF58476D1CE4E5B9u), 27) * 0x94D049BB133111EBu;
    }
    void put(double number) { put(std::bit_cast<std::uint64_t>(number)); }
    void put(std::string_view text) {
        put(std::uint64_t{text.size()});
        for (const char c : text) put(std::uint64_t{static_cast<unsigned char>(c)});
    }
    const Print& print() const { return print_; }

private:
    Print print_ = {0xCBF29CE484222325u, 0x9E3779B97F4A7C15u};
};

}  // namespace ullage
