#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Gathers the sentences of core/ and app/cli/ into the catalogues of this folder; translate what is
# then empty or fuzzy. With a file as argument: only writes the template there.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
cd "$here/../.."
template=${1:-$(mktemp)}
find core app -name '*.cpp' -o -name '*.h' | LC_ALL=C sort |
  xgettext --files-from=- --language=C++ --from-code=UTF-8 --no-location --add-comments=TRANSLATORS \
    --package-name=ullage --output="$template" --keyword= \
    --keyword=say --keyword=say_as:1c,2 --keyword=say_n:1,2 --keyword=say_n_as:1c,2,3 \
    --keyword=message --keyword=message_n:1,2 --keyword=translatable \
    --flag=say:1:no-c-format --flag=say_as:2:no-c-format --flag=say_n:1:no-c-format --flag=say_n:2:no-c-format \
    --flag=message:1:no-c-format --flag=message_n:1:no-c-format --flag=translatable:1:no-c-format
if [ $# -eq 0 ]; then
  msgmerge --update --no-fuzzy-matching --backup=none --no-location --no-wrap --sort-output "$here/de.po" "$template"
  rm -f "$template"
fi
