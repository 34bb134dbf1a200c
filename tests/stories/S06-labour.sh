#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A volunteer asks, before promising: how much work is one turn?
#
# One published account has 270 US gallons turned in about 45 minutes [seen: a gardener's own]; 400 kg at 2.5 to 3.5 kg a
# forkful and 6 forkfuls a minute with rests are 40 to 50 person-minutes [derived], 25 to 90 for all sorts of people.
midden=$1
. tests/stories/story.inc
given turn <<'END'
midden: 1
start: 2026-04-01
place: {latitude: 50 N}
sky: mild and wet
bins:
  bay 1: {size: 1 x 1 x 1.1 m, walls: boards}
  bay 2: {like: bay 1, now: empty}
need: by 2026-04-06
people: {helpers: 2}
ingredients:
  a settled mix: {like: finished compost, weighs: 400 kg a m3}
build:
  - a settled mix: 1000 L
plans:
  turn: [{day: 2026-04-04, turn: layer by layer, into: bay 2}]
END
when run turn --json
then_ "about 45 person-minutes for a cubic metre of 400 kg" holds turn '.work.person_minutes | (. > 38 and . < 52)'
then_ "and 25 to 90 for 8 in 10" holds turn '.work.person_minutes_low > 25 and .work.person_minutes_high < 90'
when next turn --day 2026-04-04 --json
then_ "two people need half that by the clock" holds turn \
    '.piles[0].tasks[0] | (.clock_minutes / .person_minutes) | (. > 0.45 and . < 0.55)'
finish
