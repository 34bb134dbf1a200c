#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A teacher asks: can pupils see that water matters?
#
# The same recipe made of dried stuff, about 20 % water: below 40 % decay all but stops [seen in every handbook].
midden=$1
. tests/stories/story.inc
{
    echo "date,low C,high C,rain mm"
    i=0
    while [ $i -lt 40 ]; do
        echo "$(date -u -d "2026-04-25 + $i days" +%F),10,14,0"
        i=$((i + 1))
    done
} >"$tmp/mild.csv"
pile() { # NAME WATER
    given "$1" <<END
midden: 1
start: 2026-05-01
place: {latitude: 50 N, elevation: 200 m}
sky: {weather: mild.csv}
bins:
  here: {size: 1 x 1 x 1 m, walls: boards, lid: boards}
need: by 2026-05-22
ingredients:
  hay dried: {like: hay, water: 16 to 20 %}
build:
  - hay dried: 800 L
$2
END
}
pile dry ""
pile damp "    water: 60 L"
when run dry --members 1 --json
when run damp --members 1 --json
then_ "it is dry" holds dry '.days[0].water_share < 0.25'
then_ "dry, its peak stays within 5 °C of the air" holds dry '.days | map(.middle_c - .air_c) | max < 5'
then_ "damp, it heats by 20 °C more" both dry damp '([$b.days[].middle_c] | max) > ([$a.days[].middle_c] | max) + 20'
finish
