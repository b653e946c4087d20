// SPDX-License-Identifier: GPL-3.0-or-later
/// The entry point that libFuzzer calls, for the target named at build time.
#include "tests/fuzz/targets.h"

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string broke =
        ullage::fuzzing::ULLAGE_FUZZ_TARGET({reinterpret_cast<const char*>(data), size});
    if (!broke.empty()) {
        std::fprintf(stderr, "broken: %s\n", broke.c_str());
        std::abort();
    }
    return 0;
}
