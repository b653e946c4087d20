#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Gathers the sentences of core/ and app/cli/ into de.po, and those of ui/ into ullage_de.ts; translate
# what is then empty or unfinished. With arguments it leaves these alone and writes instead: into the first
# file the template of core/, into the second, if there is one, ullage_de.ts brought up to date.
set -eu
PATH=$PATH:/usr/lib/qt6/bin
here=$(cd "$(dirname "$0")" && pwd)
cd "$here/../.."

template=${1:-$(mktemp)}
find core app -name '*.cpp' -o -name '*.h' | LC_ALL=C sort |
  xgettext --files-from=- --language=C++ --from-code=UTF-8 --no-location --add-comments=TRANSLATORS \
    --package-name=ullage --output="$template" --keyword= \
    --keyword=say --keyword=say_as:1c,2 --keyword=say_n:1,2 --keyword=say_n_as:1c,2,3 \
    --keyword=message --keyword=message_n:1,2 --keyword=translatable
# Not printf's blanks, and no date: the catalogue changes only where its texts do.
sed -i -e '/^#, .*c-format$/d' -e '/^"POT-Creation-Date/d' -e '/^"Report-Msgid-Bugs-To/d' "$template"

if [ $# -ne 1 ]; then
  window=${2:-$here/ullage_de.ts}
  [ "$window" = "$here/ullage_de.ts" ] || cp "$here/ullage_de.ts" "$window"
  # It warns of templates that it takes for classes; what it finds is right.
  lupdate -silent -locations none -no-obsolete -disable-heuristic sametext -disable-heuristic similartext \
    -disable-heuristic number -I . ui -ts "$window" 2>/dev/null
fi

if [ $# -eq 0 ]; then
  msgmerge --update --no-fuzzy-matching --backup=none --no-location --no-wrap --quiet "$here/de.po" "$template"
  msgattrib --no-obsolete --no-wrap --output-file="$here/de.po" "$here/de.po"
  rm -f "$template"
fi
