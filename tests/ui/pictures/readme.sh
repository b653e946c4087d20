#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Makes the README's pictures anew from a build: tests/ui/pictures/readme.sh [BUILD]   (default build/release)
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../../.." && pwd)
build=${1:-$root/build/release}
"$build/tests/ui/test_pictures" --gtest_filter="Window/Pictures*:*Other*light" >/dev/null 2>&1 || { echo "test_pictures failed" >&2; exit 1; }
for page in start fit arrive buy; do
    cp "$build/pictures/$page-light-100.png" "$root/resources/pictures/$page.png"
done
ls -l "$root/resources/pictures"
