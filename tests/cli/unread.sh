#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/unread.sh - a forecast that doesn't know the keeper's readings says so, once; and says
# nothing of readings where there are none.
midden=$1
. tests/cli/cases.inc
cat >"$tmp/none.yaml" <<'YAML'
midden: 1
start: 2025-10-18
place: {latitude: 47.2 N, elevation: 430 m}
sky: cold winters
bins: {a: {size: 1 x 1 x 1 m}, b: {size: 1 x 1 x 1 m, now: empty}}
build:
  - mixed leaves: 3 bags
    grass clippings: 20 buckets
need: by 2025-11-20
people: {helpers: 2, days: Saturday}
YAML
{ cat "$tmp/none.yaml"; echo 'readings: {also: [{day: 2025-10-21, middle: 48 C}, {day: 2025-10-25, middle: 38 C}]}'; } >"$tmp/read.yaml"

# owed TIMES FILE WORDS...: so often the answer of a command says it, however its lines are broken
owed() {
    times=$1 file=$2
    shift 2
    "$midden" "$@" -q --members 4 "$tmp/$file.yaml" >"$tmp/out" 2>"$tmp/err"
    judge "$* of $file: $times" [ "$(tr -s ' \n' '  ' <"$tmp/out" |
        grep -o "your readings aren't in it: midden learn" | wc -l)" = "$times" ]
}
for words in run "run --long" compare next search lesson; do
    owed 1 read $words
    owed 0 none $words
done
if command -v gnuplot >/dev/null; then
    owed 1 read report
    owed 0 none report
fi
owed 1 read report --handover
owed 0 none report --handover
finish
