#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A gardener asks: it was hot and has fallen to 30 °C; what holds it back, and what would water do?
#
# Found dusty, which is about 30 % of water in a squeezed handful (common practice, no source). That want of
# water comes first, and that water is told in litres, is what the gardener asks for. Water from 32 % to what
# holds together, 48 %: L = 0.16 W / 0.52 of the pile's mass W [derived].
midden=$1
. tests/stories/story.inc
given dry <<END
midden: 1
start: 2026-05-02
place: {latitude: 48 N, elevation: 300 m}
sky: cold winters
bins:
  bay 1: {size: 1.1 x 1.1 x 1.1 m}
need: by 2026-07-18
found:
  height: 90 cm
  squeeze: dusty
  middle: 30 C
  hand deep: 22 C
  built: 14 days ago
  of:
    mixed leaves: 4 parts
    horse manure: 3 parts
    grass clippings: 2 parts
END
when why dry --day 2 --members 8 --json
then_ "an answer comes" [ "$status" -eq 0 ]
then_ "want of water is first in the middle" holds dry '.held_back_by.core[0] == "water"'
then_ "water holds decay back to less than half its pace" holds dry '.limits.core.water < 0.5'
then_ "water is among the changes that matter most" holds dry '[.changes[].change] | index("water") != null'
then_ "in litres that are a part of the pile" \
    holds dry '.changes[] | select(.change == "water") | .water_l > 10 and .water_l < 200'
then_ "it makes the middle warmer in all but a few of the possible piles" \
    holds dry '.changes[] | select(.change == "water") | .warmer and .middle_c_low > 0'
when why dry --day 2 --members 8
then_ "said in words" grep -q "too dry" "$tmp/out"
then_ "with the litres" grep -Eq "pour .* L" "$tmp/out"
finish
