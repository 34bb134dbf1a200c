#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A volunteer asks: turn today, or wait for the mild spell?
#
# A pile found with its middle at 38 °C or so; -8 °C now, +6 °C from the 26th on; weather from a file, so
# that both plans meet the same. That a turn in hard frost costs more warmth than one on a mild day is common
# practice, no source.
midden=$1
. tests/stories/story.inc
{
    echo "date,low C,high C,rain mm"
    i=0
    while [ $i -lt 70 ]; do
        t=2
        [ $i -ge 18 ] && t=-8
        [ $i -ge 26 ] && t=6
        echo "$(date -u -d "2026-01-31 + $i days" +%F),$((t - 2)),$((t + 2)),0"
        i=$((i + 1))
    done
} >"$tmp/cold-then-mild.csv"
pile() { # NAME BIN HEIGHT MIDDLE: what it reads the day before
    given "$1" <<END
midden: 1
start: 2026-02-19
place: {latitude: 50 N, elevation: 300 m}
sky: {weather: cold-then-mild.csv}
bins:
  bay 1: {size: $2}
  bay 2: {like: bay 1, now: empty}
need: by 2026-04-01
found:
  height: $3
  squeeze: holds
  middle: $4 C
  hand deep: 18 C
  built: 21 days ago
  of:
    mixed leaves: 5 parts
    horse manure: 3 parts
    vegetable trimmings: 1 parts
plans:
  today:
    - {day: 2026-02-20, turn: mixed, into: bay 2}
  mild day:
    - {day: 2026-02-27, turn: mixed, into: bay 2}
END
    when run "$1" --plan today --members 1 --json
    cp "$tmp/$1.json" "$tmp/$1-today.json"
    when run "$1" --plan "mild day" --members 1 --json
    cp "$tmp/$1.json" "$tmp/$1-mild.json"
}
pile wrapped "1.5 x 1.5 x 1.3 m, walls: straw bales, lid: boards" "1.1 m" 24
pile bare "1 x 1 x 1 m, walls: pallets" "80 cm" 38
fortnight='[.days[] | select(.date >= "2026-02-20" and .date < "2026-03-06") | .middle_c] | min'
overnight='(.days[] | select(.date == "2026-02-21").middle_c)'
for at in wrapped bare; do
    then_ "$at, the middle is at 38 °C or so on the day before" \
        holds $at-mild '.days[0].middle_c | (. > 33 and . < 45)'
done
then_ "wrapped, the turn in frost costs warmth overnight" \
    both wrapped-today wrapped-mild "(\$b | $overnight) > (\$a | $overnight) + 1"
then_ "and the later turn keeps the middle warmer at its coldest, over the fortnight" \
    both wrapped-today wrapped-mild "(\$b | $fortnight) > (\$a | $fortnight) + 1"
# otherwise than expected, and why: gaps let a week of frost take the warmth of the unturned pile too
then_ "bare, the unturned middle has lost as much before the mild day comes, so waiting saves nothing" \
    both bare-today bare-mild "((\$b | $fortnight) < (\$a | $fortnight) + 1) and
    (\$b.days[] | select(.date == \"2026-02-25\").middle_c) < 25"
finish
