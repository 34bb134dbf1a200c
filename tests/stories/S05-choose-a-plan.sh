#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# An educator asks: which plan for the beds in April?
midden=$1
. tests/stories/story.inc
given garden <<'END'
midden: 1
name: Larch Row
start: 2026-01-10
place: {latitude: 48 N, elevation: 400 m}
sky: cold winters
bins:
  bay 1: {size: 1 x 1 x 1 m}
  bay 2: {like: bay 1, now: empty}
need: {by: 2026-04-15, for: mulch, chance: 6 in 10}
build:
  - mixed leaves: 600 L
    grass clippings: 300 L
    horse manure: 300 L
    water: 40 L
plans:
  leave it: []
  one turn:
    - {day: 2026-02-28, turn: mixed, into: bay 2, water: 20 L}
  two turns:
    - {day: 2026-02-28, turn: mixed, into: bay 2, water: 20 L}
    - {day: 2026-03-28, turn: mixed, into: bay 1, water: 20 L}
  rod and one turn:
    - {day: 2026-01-31, loosen: all over}
    - {day: 2026-03-14, turn: outside in, into: bay 2}
END
when compare garden --members 8 --json
then_ "all four plans are told of" holds garden '.plans | map(.plan) == ["leave it", "one turn", "two turns", "rod and one turn"]'
then_ "each with its work, water and when it is ready" holds garden \
    '.plans | all(has("work") and (.work | has("person_minutes") and has("water_l")) and has("ready"))'
then_ "a run object of a plan has no days" holds garden '.plans | all(has("days") | not)'
then_ "every two of them are paired" holds garden '.pairs | length == 6'
then_ "two turns are more work than one" holds garden \
    '.pairs[] | select(.a == "one turn" and .b == "two turns") | .extra_person_minutes < 0'
when compare garden --members 8
then_ "the answer comes first, as a sentence" sh -c "head -1 '$tmp/out' | grep -qE '^(Take|No plan|None|\`)'"
then_ "the table fits 80 columns" [ "$(LC_ALL=C tr -d '\200-\277' <"$tmp/out" | LC_ALL=C awk '{ if (length($0) > m) m = length($0) } END { print m }')" -le 80 ]
then_ "rows go by work" sh -c "grep -E '^  (leave it|one turn|two turns)' '$tmp/out' | head -3 | awk '{ print \$1 }' | tr '\n' ' ' | grep -q 'leave one two'"
finish
