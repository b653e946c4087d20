#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Installs a build into a new folder and looks at what came: install_test.sh BUILD CMAKE
set -euo pipefail
build=$1 cmake=$2
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
fail() { echo "fault: $*" >&2; faults=1; }
faults=0

"$cmake" --install "$build" --prefix "$place" >/dev/null
ullage=$place/bin/ullage
share=$place/share

# Every file that a desktop, a shell or a reader looks for.
for file in applications/local.ullage.ullage.desktop mime/packages/local.ullage.ullage-mime.xml \
    metainfo/local.ullage.ullage.metainfo.xml icons/hicolor/scalable/apps/ullage.svg \
    bash-completion/completions/ullage man/man1/ullage.1.gz ullage/site.schema.json ullage/line-rates.txt \
    doc/ullage/copyright doc/ullage/changelog.gz; do
    [ -s "$share/$file" ] || fail "$file is not there"
done
for size in 16 22 24 32 48 64 128 256 512; do
    icon=$share/icons/hicolor/${size}x$size/apps/ullage.png
    # Width and height stand in bytes 16 to 23 of a PNG (RFC 2083, section 4.1.1).
    found=$(od -An -tu1 -j16 -N8 "$icon" | awk '{ print $3 * 256 + $4 "x" $7 * 256 + $8 }')
    [ "$found" = "${size}x$size" ] || fail "$icon is $found"
done

# The standards' own judges.
desktop-file-validate "$share/applications/local.ullage.ullage.desktop" || fail "the desktop entry"
appstreamcli validate --no-net "$share/metainfo/local.ullage.ullage.metainfo.xml" >&2 || fail "the metadata"
xmllint --noout "$share/mime/packages/local.ullage.ullage-mime.xml" || fail "the MIME type"

# The installed program and its samples.
version=$(sed -n 's/^project(ullage VERSION \([0-9.]*\).*/\1/p' "$root/CMakeLists.txt")
"$ullage" --version | grep -qx "ullage $version" || fail "--version does not say $version"
grep -q "<release version=\"$version\"" "$share/metainfo/local.ullage.ullage.metainfo.xml" || fail "the release's version"
zcat "$share/doc/ullage/changelog.gz" | head -1 | grep -q "($version)" || fail "the changelog's version"
samples=("$share"/ullage/sample-sites/*.site.json)
for site in "${samples[@]}"; do "$ullage" check "$site" >/dev/null || fail "$site"; done
"$ullage" forecast "${samples[0]}" --paths 20 >/dev/null || fail "a forecast of ${samples[0]}"
# The window's libraries come with a module, when something is drawn; it finds in the program all it needs of it.
ldd "$ullage" | grep -q libQt && fail "a command waits for the window's libraries"
LD_BIND_NOW=1 "$ullage" report "${samples[0]}" --paths 20 --pdf "$place/r.pdf" >&2 || fail "a report of ${samples[0]}"
[ -s "$place/r.pdf" ] || fail "no report was written"

# Every option of --help stands in the manual and in the completion, and no other.
options() { grep -oE -- '--[a-z][a-z-]+' | sort -u; }
helped=$("$ullage" --help | options)
manual=$(zcat "$share/man/man1/ullage.1.gz" | sed 's/\\-/-/g' | options)
completed=$(options <"$share/bash-completion/completions/ullage")
[ "$manual" = "$helped" ] || fail "manual and --help differ: $(diff <(echo "$helped") <(echo "$manual") | grep '[<>]')"
[ "$completed" = "$helped" ] ||
    fail "completion and --help differ: $(diff <(echo "$helped") <(echo "$completed") | grep '[<>]')"

# What bash offers.
offered() { # words…: what stands after them
    bash -c '. "$0"; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _ullage; printf "%s\n" "${COMPREPLY[@]}"' \
        "$share/bash-completion/completions/ullage" "$@"
}
offered ullage fore | grep -qx forecast || fail "completion does not offer forecast"
offered ullage solve --for link | grep -qx link-rate || fail "completion does not offer link-rate"
offered ullage report --p | grep -qx -- --pdf || fail "completion does not offer --pdf"
(cd "$share/ullage/sample-sites" && offered ullage check har) | grep -qx harbour-clinic.site.json ||
    fail "completion does not offer a site"
exit $faults
