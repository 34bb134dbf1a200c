#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# An educator asks: is the old bottom, put on top at the turn, a blanket?
#
# Some guides have the decayed base of the old pile cover the new one (common practice, no source). Wet and dense it keeps
# little warmth, but it closes the top: each effect is told apart by the named fluxes.
midden=$1
. tests/stories/story.inc
given blanket <<'END'
midden: 1
start: 2026-02-14
place: {latitude: 48 N, elevation: 300 m}
sky: cold winters
bins:
  one: {size: 1 x 1 x 1.1 m}
  two: {like: one, now: empty}
need: by 2026-04-11
build:
  - mixed leaves: 500 L
    grass clippings: 250 L
    horse manure: 300 L
    water: 30 L
plans:
  mix on top:
    - {day: 2026-03-07, turn: layer by layer, into: two}
  old bottom on top:
    - {day: 2026-03-07, turn: layer by layer, into: two, keep for the top: 8 cm}
END
when run blanket --plan "mix on top" --members 1 --json
cp "$tmp/blanket.json" "$tmp/plain.json"
when run blanket --plan "old bottom on top" --members 1 --json
then_ "water lost, warmth of the middle and ammonia lost differ, each by itself" both plain blanket \
    '[($a.fluxes.vapour_water_kg + $a.fluxes.air_water_kg) - ($b.fluxes.vapour_water_kg + $b.fluxes.air_water_kg),
      ([$a.days[].middle_c] | add) - ([$b.days[].middle_c] | add), $a.fluxes.ammonia_kg - $b.fluxes.ammonia_kg] | all(. != 0)'
then_ "and none by more than a tenth: it is a poor blanket" both plain blanket \
    '(($a.fluxes.vapour_water_kg + $a.fluxes.air_water_kg) / ($b.fluxes.vapour_water_kg + $b.fluxes.air_water_kg) | (. > 0.9 and . < 1.1)) and
     (([$a.days[].middle_c] | add) / ([$b.days[].middle_c] | add) | (. > 0.9 and . < 1.1))'
finish
