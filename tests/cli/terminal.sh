#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# tests/cli/terminal.sh - on a terminal the program tells how far it is, and wipes that away before its
# answer; anywhere else it keeps silent. The terminal is made by script(1).
midden=$1
. tests/cli/cases.inc
if ! script -qec true /dev/null >/dev/null 2>&1 </dev/null; then
    echo "skip - no script(1) to make a terminal"
    exit 0
fi
cat >"$tmp/pile.yaml" <<'YAML'
midden: 1
start: 2025-09-20
place: {latitude: 48 N, elevation: 300 m}
sky: cold winters
bins:
  old: {size: 1 x 1 x 1 m}
  new: {size: 1 x 1 x 1 m, now: empty}
build:
  - repeat: 4
    layers:
      - straw: 60 L
        horse manure: 45 L
        grass clippings: 35 L
        water: 5 L
plans:
  leave it: []
  turned: [{day: 2025-10-04, turn: mixed, into: new}]
need: by 2026-03-20
readings:
  also: [{day: 2025-09-23, middle: 57 C}, {day: 2025-09-26, middle: 60 C}]
YAML

# on_terminal ARGUMENT...: what a terminal was sent, line by line as it would have been overwritten
on_terminal() {
    script -qec "'$midden' $*" "$tmp/typed" >/dev/null 2>&1 </dev/null
    tr '\r' '\n' <"$tmp/typed" | sed '/^Script /d' >"$tmp/shown"
}
# awk that must print nothing
none() { [ -z "$(awk "$1" "$tmp/shown")" ]; }
# long enough that it is worth telling, wherever this runs: it begins after a second
members=48
while :; do
    on_terminal run --threads 1 --members $members "$tmp/pile.yaml"
    grep -q 'possible piles, about' "$tmp/shown" || [ $members -gt 1500 ] && break
    members=$((2 * members))
done
judge "a long run tells how many piles are done and how long it may take" \
    grep -Eq "^midden: [0-9]+ of $members possible piles, about [0-9]+ s left" "$tmp/shown"
judge "the count only rises" none '/^midden: [0-9]+ of/ { if ($2 <= last) print; last = $2 }'
judge "no more than there are" none "/^midden: [0-9]+ of/ { if (\$2 > $members) print }"
judge "and is wiped away before the answer" \
    awk '/^\033\[K/ { wiped = 1 } /^midden: [0-9]+ of/ { if (wiped) late = 1 } END { exit !wiped || late }' "$tmp/shown"
on_terminal run -q --threads 1 --members $members "$tmp/pile.yaml"
judge "--quiet tells nothing of it" none '/possible piles, about/'
run run --threads 1 --members $members "$tmp/pile.yaml"
judge "nor is it told where nobody watches" [ ! -s "$tmp/err" ]

on_terminal learn --threads 1 --members 16 "$tmp/pile.yaml"
judge "learning tells of the seasons it has run" grep -Eq '^midden: learning, [0-9]+ short seasons so far' "$tmp/shown"
judge "which grow" none '/^midden: learning/ { if ($3 <= last) print; last = $3 }'
judge "and are wiped away too" grep -q "^$(printf '\033')\[K" "$tmp/shown"
on_terminal learn -q --threads 1 --members 16 "$tmp/pile.yaml"
judge "or not told at all" none '/short seasons/'

# a heap of old leaves is mulch already
cat >"$tmp/old.yaml" <<'YAML'
midden: 1
start: 2025-10-18
place: {latitude: 47 N}
sky: cold winters
bin: 1 x 1 x 1 m
found: {height: 60 cm, built: 700 days ago, middle: 12 C, of: {mixed leaves: 1 part}}
need: {by: 2025-11-05, for: mulch}
people: {helpers: 1, days: [Saturday]}
YAML
on_terminal search --members 2 "$tmp/old.yaml"
judge "a search tells how many plans it has tried and how likely the best is" \
    grep -Eq '^midden: 1 plans tried, [0-9]+ seasons; likeliest so far 10 in 10; Ctrl-C ends it' "$tmp/shown"
finish
