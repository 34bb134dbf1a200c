#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A gardener asks: manure went in on 1 March; is lettuce on 10 June too early?
#
# 7 CFR 205.203(c)(1) [seen]: 120 days where the edible part touches the soil. 1 March to 10 June are 101 days; 120
# days end on 29 June [derived].
midden=$1
. tests/stories/story.inc
given lettuce <<'END'
midden: 1
start: 2026-02-01
place: {latitude: 48 N}
sky: mild and wet
bin: 1 x 1 x 1 m
build:
  - mixed leaves: 400 L
    grass clippings: 150 L
plans:
  manure later:
    - {day: 2026-03-01, add: {horse manure: 60 L}, bury: 20 cm}
need: {by: 2026-06-01, harvest: {lettuce: 2026-06-10}}
END
when run lettuce --members 1 --json
then_ "101 days are not enough" holds lettuce '.raw_manure[0] | .crop == "lettuce" and .days == 101 and .enough == false'
then_ "29 June is the earliest" holds lettuce '.raw_manure[0].earliest == "2026-06-29"'
when run lettuce --members 1
then_ "and the answer says so" sh -c "tr -s '\n ' '  ' <'$tmp/out' | grep -q 'lettuce' && grep -q '29 Jun' '$tmp/out'"
finish
