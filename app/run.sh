#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Builds what is needed and does the main job on a site:
#   app/run.sh [SITE]                        with a display: the window; without: the forecast, printed,
#                                            and a picture of each box's fill
#   app/run.sh forecast|report|solve|check…     the command line (see app/run.sh --help)
set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
. "$root/resources/need-packages.sh"
need_packages
build=$root/build/release
{
    [ -f "$build/build.ninja" ] || cmake -S "$root" --preset release
    cmake --build "$build" --target ullage ullage_window
} >&2
ullage=$build/app/ullage

case "${1:-}" in
    forecast|measure|solve|outage|report|check|--help|-h|--version) exec "$ullage" "$@" ;;
esac
site=${1:-$root/sample-sites/harbour-clinic.site.json}
if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
    exec "$ullage" "$site"
fi
exec "$ullage" forecast "$site" --pictures "$root/build/pictures"
