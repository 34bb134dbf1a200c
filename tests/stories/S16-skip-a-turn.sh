#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A volunteer asks: what do I lose if I skip the second turn?
midden=$1
. tests/stories/story.inc
given garden <<'END'
midden: 1
start: 2026-03-01
place: {latitude: 48 N, elevation: 400 m}
sky: cold winters
bin: 1 x 1 x 1 m
need: {by: 2026-06-01, for: beds}
build:
  - mixed leaves: 600 L
    grass clippings: 300 L
    horse manure: 300 L
    water: 40 L
plans:
  both turns:
    - {day: 2026-03-21, turn: out and back, water: 20 L}
    - {day: 2026-04-11, turn: out and back, water: 20 L}
  second skipped:
    - {day: 2026-03-21, turn: out and back, water: 20 L}
END
when compare garden --members 8 --json
then_ "the loss is said in days with a range, and the work saved" holds garden \
    '.pairs[0] | (.ready_days_sooner | type) == "number" and .low <= .ready_days_sooner and .ready_days_sooner <= .high and .extra_person_minutes > 0'
when compare garden --members 8
then_ "in words too, and not that it will fail" sh -c "grep -Eq 'days? (sooner|later)|no sooner' '$tmp/out' && ! grep -qi 'fail' '$tmp/out'"
finish
