#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Anybody asks: does it matter that we live at 2000 m?
#
# The standard atmosphere (ISO 2533:1975 [memory]) has 79.5 kPa there, 0.785 of sea level, and water boils at 93.4 °C.
midden=$1
. tests/stories/story.inc
pile() {
    given "$1" <<END
midden: 1
start: 2026-05-01
place: {latitude: 36 N, elevation: $2 m}
sky: mild and wet
bin: 1 x 1 x 1 m
need: by 2026-05-20
build:
  - straw: 300 L
    grass clippings: 300 L
    horse manure: 200 L
END
}
pile high 2000
pile low 0
when run high --members 1 --json
when run low --members 1 --json
then_ "both run" both high low '($a.days | length) == ($b.days | length)'
when check high
then_ "check says how to test a thermometer there: boiling water reads 93.4 °C" tells "boiling water reads 93.4 C"
then_ "and that air holds 78 % of the oxygen of sea level" tells "78 %"
finish
