#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Builds everything and runs every test without a display; ends with ctest's own summary.
#   tests/run.sh [PRESET [ctest options…]]   PRESET: release (default), ci, dev, asan, fuzz
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
. "$root/resources/need-packages.sh"
preset=${1:-release}
[ $# -gt 0 ] && shift
case $preset in fuzz) need_packages clang libclang-rt-dev lld ;; *) need_packages ;; esac
cd "$root"
cmake --preset "$preset"
cmake --build --preset "$preset"
exec ctest --test-dir "$root/build/$preset" --output-on-failure -j "$(nproc)" "$@"
