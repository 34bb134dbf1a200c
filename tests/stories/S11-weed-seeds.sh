#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A gardener asks: did it kill the weed seeds? All of them?
#
# Moist seeds of pigweed and its like die tenfold in about 5 h at 55 °C, docks and hard coats in days (Dahlquist et al.
# 2007 [memory]); a cold skin keeps them, and some stand any heat (Egley 1990 [seen]).
midden=$1
. tests/stories/story.inc
given seeds <<'END'
midden: 1
start: 2026-04-11
place: {latitude: 51 N}
sky: cold winters
bins:
  one: {size: 1.2 x 1.2 x 1.2 m, walls: boards, lid: boards}
  two: {like: one, now: empty}
need: by 2026-06-20
build:
  - straw: 300 L
    horse manure: 500 L
    seeding weeds: 200 L
    grass clippings: 300 L
plans:
  leave it: []
  three turns:
    - {day: 2026-04-18, turn: outside in, into: two}
    - {day: 2026-04-25, turn: outside in, into: one}
    - {day: 2026-05-02, turn: outside in, into: two}
END
when run seeds --plan "leave it" --members 8 --json
cp "$tmp/seeds.json" "$tmp/left.json"
when run seeds --plan "three turns" --members 8 --json
cp "$tmp/seeds.json" "$tmp/turned.json"
share='(.seeds[] | select(.class == "moderate").live_share)'
then_ "easy ones die sooner than hard ones" holds left \
    '(.seeds[] | select(.class == "easy").live_share) < (.seeds[] | select(.class == "hard").live_share)'
then_ "each class is a range" holds left '.seeds | all(.live_share_low <= .live_share and .live_share <= .live_share_high)'
then_ "none is ever said to be gone" holds turned '.seeds | all(.live_share > 0)'
then_ "turning the skin inside leaves fewer of them" both left turned "(\$b | $share) < (\$a | $share)"
percent() { of turned ".seeds[] | select(.class == \"$1\") | 100 * .$2 | if . < 1 then \"under 1\" else round end"; }
when run seeds --plan "three turns" --members 8
then_ "the short answer has it in one line, with its range, from the same numbers" tells_folded " seeds of weeds alive: \
$(percent easy live_share) % of easily killed ($(percent easy live_share_low)-$(percent easy live_share_high)), \
$(percent hard live_share) % of hardy ($(percent hard live_share_low)-$(percent hard live_share_high))"
when run seeds --plan "three turns" --members 8 --long
then_ "in words: what may still be alive, and never that it is safe" sh -c \
    "grep -q 'may still be alive' '$tmp/out' && ! grep -qiE 'safe|weed-free|sterile' '$tmp/out'"
finish
