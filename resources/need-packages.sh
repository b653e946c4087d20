# SPDX-License-Identifier: GPL-3.0-or-later
# Sourced by app/run.sh and tests/run.sh: brings the Debian packages of resources/packages.txt that are
# missing, and those named as arguments, or says which they are. Expects $root to be the top folder.

need_packages() {
    command -v dpkg-query >/dev/null || {
        echo "This is not Debian: see resources/packages.txt for what to install. Going on without it." >&2
        return 0
    }
    missing=()
    while read -r package _; do
        case "$package" in ''|'#'*) continue ;; esac
        [ "$(dpkg-query -W -f '${db:Status-Abbrev}' "$package" 2>/dev/null)" = "ii " ] || missing+=("$package")
    done < <(cat "$root/resources/packages.txt"; printf '%s\n' "$@")
    [ ${#missing[@]} -eq 0 ] && return 0
    if [ "$(id -u)" -ne 0 ]; then
        echo "These packages are missing: ${missing[*]}" >&2
        echo "Install them and run this again:" >&2
        echo "  sudo apt-get update && sudo apt-get install -y --no-install-recommends ${missing[*]}" >&2
        return 1
    fi
    echo "Installing ${missing[*]}" >&2
    export DEBIAN_FRONTEND=noninteractive
    { apt-get update && apt-get install -y --no-install-recommends "${missing[@]}"; } >&2
}
