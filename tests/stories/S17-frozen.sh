#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A gardener asks: it was frozen for days; is everything inside dead?
#
# -12 °C, then a mild spell of +8 °C. Ice melts at 0 °C and takes 334 kJ/kg to do so (any table of physics), so
# that a thermometer stands still there until it is gone.
midden=$1
. tests/stories/story.inc
{
    echo "date,low C,high C,rain mm"
    i=0
    while [ $i -lt 75 ]; do
        d=$(date -u -d "2026-01-01 + $i days" +%F)
        t=-12
        [ $i -ge 30 ] && t=8
        echo "$d,$((t - 2)),$((t + 2)),0"
        i=$((i + 1))
    done
} >"$tmp/frost-then-mild.csv"
given frozen <<'END'
midden: 1
start: 2026-01-01
place: {latitude: 50 N, elevation: 300 m}
sky: {weather: frost-then-mild.csv}
bin: 0.6 x 0.6 x 0.6 m
need: by 2026-03-12
build:
  - mixed leaves: 150 L
    vegetable trimmings: 40 L
    water: 15 L
END
when run frozen --members 1 --json
then_ "it freezes to the middle" holds frozen '[.days[].middle_c] | min < -1'
then_ "while frozen the food stays: less than 1 % of the dry mass goes in ten days" holds frozen \
    '(.days[] | select(.date == "2026-01-29").dry_kg) as $b | (.days[] | select(.date == "2026-01-19").dry_kg) as $a | ($a - $b) / $a < 0.01'
# what is dissolved lets ice go from a little below 0 °C on
then_ "in the thaw the middle stands near 0 °C for days while the air is at 8 °C" holds frozen \
    '[.days[] | select(.date >= "2026-01-31" and .air_c > 7 and .middle_c > -2.5 and .middle_c < 1.5)] | length >= 3'
then_ "then it works again: above the air of 8 °C" holds frozen '[.days[] | select(.date > "2026-02-10").middle_c] | max > 8.5'
finish
