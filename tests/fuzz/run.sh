#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Builds the fuzzers and runs each for a while, as many at a time as there are cores; prints executions and
# findings, ends with 1 if there are any.
#   tests/fuzz/run.sh [SECONDS [TARGET…]]   SECONDS: of each target (default 60)
# What breaks a target stays in build/fuzz/found/TARGET: mend it, and put the input into corpus/TARGET.
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
seconds=${1:-60}
[ $# -gt 0 ] && shift
targets=("$@")
[ ${#targets[@]} -gt 0 ] || targets=(site forecast quantity listing hours arguments)
cd "$root"
. resources/need-packages.sh
need_packages clang libclang-rt-dev lld
cmake --preset fuzz >/dev/null
cmake --build --preset fuzz --target "${targets[@]/#/fuzz_}" ${CMAKE_BUILD_PARALLEL_LEVEL:+-j "$CMAKE_BUILD_PARALLEL_LEVEL"}

fuzz() { # one target; what it says goes to its log
    local target=$1
    local grown=build/fuzz/grown/$target found=build/fuzz/found/$target log=build/fuzz/$target.log
    mkdir -p "$grown" "$found"
    # 25 s: a reader that takes longer than that for 8 KB hangs. 2,048 MB: it eats memory.
    build/fuzz/tests/fuzz/fuzz_"$target" "$grown" "tests/fuzz/corpus/$target" -max_total_time="$seconds" \
        -max_len=8192 -timeout=25 -rss_limit_mb=2048 -print_final_stats=1 -artifact_prefix="$found/" \
        $([ -f "tests/fuzz/$target.dict" ] && echo "-dict=tests/fuzz/$target.dict") >"$log" 2>&1
}

worst=0
declare -A running=()
for target in "${targets[@]}"; do
    while [ "$(jobs -rp | wc -l)" -ge "$(nproc)" ]; do sleep 0.2; done
    fuzz "$target" &
    running[$target]=$!
done
for target in "${targets[@]}"; do
    wait "${running[$target]}" || worst=1
    log=build/fuzz/$target.log
    runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "$log")
    printf '%-10s %12s executions in %s s, %s findings\n' "$target" "${runs:-?}" "$seconds" \
        "$(find "build/fuzz/found/$target" -type f | wc -l)"
    grep -hE '^broken: |ERROR: |SUMMARY: |runtime error' "$log" | head -5 || true
    for found in build/fuzz/found/"$target"/*; do
        [ -f "$found" ] || continue
        echo "$found, as base64:"
        base64 -w 120 "$found"
    done
done
exit $worst
