#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A volunteer asks: the dial shows 4 °C in ice water; what is 50 °C on it worth?
#
# Ice water is 0 °C everywhere; what a thermometer shows in it is its error there (common practice, no source).
midden=$1
. tests/stories/story.inc
given dial <<'END'
midden: 1
start: 2026-04-01
place: {latitude: 50 N}
sky: mild and wet
bin: 1 x 1 x 1 m
build:
  - straw: 300 L
    grass clippings: 300 L
    horse manure: 200 L
readings:
  thermometer: {kind: dial, in ice water: 4 C}
END
when check dial
then_ "50 °C on it is taken for 46 °C, and that is said" sh -c "tr '\n' ' ' <'$tmp/out' | grep -qE '50 .C.* is taken for +46 .C'"
finish
