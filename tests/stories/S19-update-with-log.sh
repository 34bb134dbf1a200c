#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A volunteer asks: here are six readings over three weeks; is the forecast surer now, and what did they say?
#
# That more data narrow what is believed, and that a wild one is recognised, is the program's own claim [derived].
midden=$1
. tests/stories/story.inc
yard() {
    cat <<'END'
midden: 1
name: Clay Lane
start: 2025-09-20
place: {latitude: 48 N, elevation: 300 m}
sky: cold winters
bin: 1 x 1 x 1 m
build:
  - repeat: 4
    layers:
      - straw: 60 L
        horse manure: 45 L
        grass clippings: 25 to 45 L
        water: 5 L
plans:
  leave it: []
need: {by: 2026-01-18, for: mulch}
END
}
yard | given six
cat >"$tmp/log.csv" <<'END'
date,hour,middle C,hand deep C,squeeze,we did
2025-09-22,10,54,44,,built on Saturday
2025-09-25,17,62,,drips,
2025-09-29,,58,41,,
2025-10-03,10,51,,holds,
2025-10-07,10,46,33,,
2025-10-11,10,41,,holds,
END
echo 'readings: {thermometer: {kind: dial}, log: log.csv}' >>"$tmp/six.yaml"
when learn six --members 32 --json
then_ "every reading of the log is told with what the piles show" holds six '.readings | length == 12 and all(.fitted_c != null or .fitted_water_share != null)'
then_ "the readings lie closer together than what was expected" holds six '[.readings[] | select(.where == "middle") | (.high - .low) / (.expected_high - .expected_low)] | add / length < 0.8'
then_ "every unknown is printed before and after" holds six '.unknowns | length > 40 and all(.before.median != null and .after.low <= .after.high)'
then_ "the forecast is a season after the readings" holds six '.forecast.days | length > 100'
cp "$tmp/six.yaml" "$tmp/without.yaml"
when run without --members 32 --json
then_ "the week after the last reading is surer than without them" both six without '
    ([$a.forecast.days[21:28][] | .middle_c_high - .middle_c_low] | add)
    < 0.9 * ([$b.days[21:28][] | .middle_c_high - .middle_c_low] | add)'
finish
