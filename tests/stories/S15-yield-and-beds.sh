#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A volunteer asks: how much will there be, and for how many beds?
#
# A cubic metre that shrinks to 30-45 % covers 12 to 18 m2 at 2.5 cm [derived: volume over depth]; a third is what most
# guides say, 20 to 50 % is the range [seen].
midden=$1
. tests/stories/story.inc
given beds <<'END'
midden: 1
start: 2025-10-18
place: {latitude: 48 N, elevation: 300 m}
sky: cold winters
bin: 1.1 x 1.1 x 1.2 m
need: {by: 2026-05-10, for: beds, beds: 4 of 1.2 x 3 m at 2.5 cm}
build:
  - mixed leaves: 700 L
    grass clippings: 350 L
    horse manure: 250 L
    water: 50 L
plans:
  a turn: [{day: 2025-11-15, turn: out and back}]
END
when run beds --members 16 --json
then_ "the bed area is the volume over the depth" holds beds \
    '(.yield.bed_m2 * 0.025 / .yield.volume_m3) | (. > 0.98 and . < 1.02)'
then_ "a quarter to six tenths of what was laid is left" holds beds '.yield.of_laid_share | (. > 0.2 and . < 0.6)'
when run beds --members 16
then_ "in words: cubic metres, barrows and square metres of the beds asked for" sh -c \
    "grep -q 'barrows' '$tmp/out' && grep -qE 'm2' '$tmp/out'"
finish
