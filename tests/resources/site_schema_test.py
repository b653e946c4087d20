#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds resources/site.schema.json (JSON Schema 2020-12) against the program's own reader.

  site_schema_test.py JUDGE     JUDGE: the program judge_sites

- Every sample and every site the tests have is taken by both, and so are drawn sites.
- Some of them with one thing changed (a member taken out, another type, another key, a number out of
  range): what the reader takes, the schema takes. What the reader refuses, the schema refuses too,
  except what a schema cannot say: names that are referred to, what must go together, values of a text.
- Every file in tests/data/site/bad is refused by both.
"""
import copy
import json
import pathlib
import re
import subprocess
import sys

import jsonschema

ROOT = pathlib.Path(__file__).resolve().parents[2]
SCHEMA = json.loads((ROOT / "resources/site.schema.json").read_text(encoding="utf-8"))

# Rules of the reader that no schema can hold, by their words.
BEYOND_A_SCHEMA = [
    # names
    r"there is no (box|link|dataset)", r"no (box|link|dataset) is named", r"is taken by", r"is carried to",
    r"lives on", r"is not on", r"goes round in a circle", r"from and to are both", r"is named twice",
    r"the site has no",
    # what must go together
    r"is more than", r"is less than", r"logical is", r"removes", r"does not go with", r"leaves nothing beside",
    r"stream ratio of .* with the payload", r"changes on a box that gives usable", r"only a box with a pool",
    r"groups of different sector sizes", r"is to be added to", r"but the site counts in",
    r"listing(?: are)?, but there is no listing", r"set ", r"is not a width", r"wider", r"widen",
    r"all seven days are 0", r"every share is 0", r"outside 1280 to", r"runs past the year 9999",
    # values of texts and of shares, which may be texts
    r"is not above 0", r"is below 0", r"is not a power of two", r"is outside", r"unknown unit", r"is not known: .*zone",
    r"time zone", r"is not a day", r"no day is named", r"is not a date", r"is not a price", r"is not from",
    r"is not between", r"is longer than", r"is not a period", r"is smaller than", r"contains the control character",
    r"needs one of", r"a name of",
]
BEYOND = re.compile("|".join(BEYOND_A_SCHEMA))
# Enough to reach every member of the format; "drawn site 0" has what writing a site makes of it.
CHANGED = ["every-key.site.json", "fellside-mapmakers.site.json", "saltmarsh-seeds.site.json", "drawn site 0"]
OTHERS = [None, True, [], {}, "", "nonsense", "5 parsecs", -1, 0, 2.5, 1e30, "12 GB", "2 h", [1, 2], {"a": 1}]


def documents():
    """Name and value of every whole site at hand."""
    places = list((ROOT / "sample-sites").glob("*.site.json")) + list((ROOT / "tests/data/site").glob("*.site.json"))
    for place in sorted(places):
        yield place.name, json.loads(place.read_text(encoding="utf-8"))


def nodes(value, path=()):
    """The paths of all members, parents first."""
    members = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in members:
        yield path + (key,)
        yield from nodes(inner, path + (key,))


def changed(document, path, how):
    """A copy in which how(parent, key) was done to the member at a path."""
    out = copy.deepcopy(document)
    parent = out
    for key in path[:-1]:
        parent = parent[key]
    how(parent, path[-1])
    return out


def mutations(document):
    for path in nodes(document):
        where = "/" + "/".join(map(str, path))
        if any(str(key).startswith("x-") for key in path):
            continue
        yield f"{where} taken out", changed(document, path, lambda parent, key: parent.pop(key))
        if isinstance(path[-1], str):
            yield f"{where} under another key", changed(
                document, path, lambda parent, key: parent.__setitem__(key + "_", parent.pop(key)))
        for other in OTHERS:
            yield f"{where} = {json.dumps(other)}", changed(
                document, path, lambda parent, key, other=other: parent.__setitem__(key, other))


def readers_words(judge, values):
    """What the reader says of each: empty where it takes it."""
    text = "".join(json.dumps(value) + "\n" for value in values)
    said = subprocess.run([judge], input=text, capture_output=True, text=True, check=True).stdout.splitlines()
    assert len(said) == len(values), (len(said), len(values))
    return ["" if line == "ok" else line for line in said]


def main(judge):
    draft = jsonschema.Draft202012Validator
    draft.check_schema(SCHEMA)
    schema = draft(SCHEMA)
    whole = list(documents())
    drawn = subprocess.run([judge, "--random", "60", "1"], capture_output=True, text=True, check=True).stdout
    whole += [(f"drawn site {i}", json.loads(line)) for i, line in enumerate(drawn.splitlines())]
    faults = []
    for (name, value), words in zip(whole, readers_words(judge, [value for _, value in whole])):
        if words:
            faults.append(f"{name}: refused by the reader: {words}")
        for error in schema.iter_errors(value):
            faults.append(f"{name}: refused by the schema: {error.json_path}: {error.message}")

    tried = refused_by_both = beyond = 0
    for name, document in (entry for entry in whole if entry[0] in CHANGED):
        cases = list(mutations(document))
        for (what, value), words in zip(cases, readers_words(judge, [value for _, value in cases])):
            tried += 1
            taken = schema.is_valid(value)
            if not words and not taken:
                faults.append(f"{name}: {what}: taken by the reader, refused by the schema: "
                              f"{next(schema.iter_errors(value)).message}")
            if words and not taken:
                refused_by_both += 1
            if words and taken:
                beyond += 1
                if not all(BEYOND.search(problem) for problem in words.split("\t")):
                    faults.append(f"{name}: {what}: taken by the schema, refused by the reader: {words}")

    bad = sorted((ROOT / "tests/data/site/bad").glob("*.json"))
    values = [json.loads(place.read_text(encoding="utf-8")) for place in bad]
    for place, value, words in zip(bad, values, readers_words(judge, values)):
        if not words:
            faults.append(f"{place.name}: taken by the reader")
        if schema.is_valid(value):
            faults.append(f"{place.name}: taken by the schema")
    assert bad and tried > 5000 and refused_by_both > tried / 3, (len(bad), tried, refused_by_both)

    for fault in faults[:40]:
        print(fault)
    print(f"{len(whole)} sites, {tried} with one thing changed ({refused_by_both} refused by both, {beyond} by rules "
          f"beyond a schema), {len(bad)} bad files: {len(faults)} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
