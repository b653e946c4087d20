#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Builds the fuzzers and runs each for a while; prints executions and findings, ends with 1 if there are any.
#   tests/fuzz/run.sh [SECONDS [TARGET…]]   SECONDS: of each target (default 60)
# What breaks a target stays in build/fuzz/found/TARGET: mend it, and put the input into corpus/TARGET.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
seconds=${1:-60}
[ $# -gt 0 ] && shift
targets=("$@")
[ ${#targets[@]} -gt 0 ] || targets=(site forecast quantity listing hours arguments)
cd "$root"
cmake --preset fuzz >/dev/null
cmake --build --preset fuzz --target "${targets[@]/#/fuzz_}" ${CMAKE_BUILD_PARALLEL_LEVEL:+-j "$CMAKE_BUILD_PARALLEL_LEVEL"}
worst=0
for target in "${targets[@]}"; do
    grown=build/fuzz/grown/$target found=build/fuzz/found/$target log=build/fuzz/$target.log
    mkdir -p "$grown" "$found"
    # 25 s: a reader that takes longer than that for 8 KB hangs. 2,048 MB: it eats memory.
    build/fuzz/tests/fuzz/fuzz_"$target" "$grown" "tests/fuzz/corpus/$target" -max_total_time="$seconds" \
        -max_len=8192 -timeout=25 -rss_limit_mb=2048 -print_final_stats=1 -artifact_prefix="$found/" \
        $([ -f "tests/fuzz/$target.dict" ] && echo "-dict=tests/fuzz/$target.dict") >"$log" 2>&1 || worst=1
    runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$log")
    printf '%-10s %12s executions in %s s, %s findings\n' "$target" "${runs:-?}" "$seconds" \
        "$(find "$found" -type f | wc -l)"
    grep -hE '^broken: |ERROR: |SUMMARY: |runtime error' "$log" | head -5 || true
done
exit $worst
