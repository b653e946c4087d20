// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once
/// What must hold of any bytes that reach a reader: not only that nothing crashes. Each target takes a
/// text and returns what broke, as a sentence; empty: all held.
///
///   site       what parses is valid; written and parsed again it has the same values, written once more
///              the same bytes; otherwise every problem has a place and words a terminal can show
///   forecast   a small valid site gives an outlook that the checker of outlooks finds no fault with
///   quantity   what parses is finite and its exact text reads back as the same value; so do dates,
///              times, periods, days; the first eight bytes as a number come back through every text
///   listing    times rise, sizes are finite and not negative; written out and parsed again it is equal;
///              measured it gives finite figures
///   hours      0 … 168 open hours; stretches are disjoint, in order, and agree with the share at an instant
///   arguments  what is accepted lies within its ranges; what is refused says why
///
/// libFuzzer draws the texts (preset `fuzz`, run.sh); ctest runs those of `corpus/`.

#include <array>
#include <string>
#include <string_view>

namespace ullage::fuzzing {

std::string try_site(std::string_view text);
std::string try_forecast(std::string_view text);
std::string try_quantity(std::string_view text);
std::string try_listing(std::string_view text);
std::string try_hours(std::string_view text);
std::string try_arguments(std::string_view text);

struct Target {
    std::string_view name;
    std::string (*run)(std::string_view);
};
inline constexpr std::array targets{Target{"site", try_site},         Target{"forecast", try_forecast},
                                    Target{"quantity", try_quantity}, Target{"listing", try_listing},
                                    Target{"hours", try_hours},       Target{"arguments", try_arguments}};

}  // namespace ullage::fuzzing
